package statics

import "github.com/golang/geo/r3"

// Status is the outcome of a solve. Only Converged and Slack come with forces.
type Status uint8

const (
	// NotComputed is the zero value: nothing was solved.
	NotComputed Status = iota
	// Converged: equilibrium found, every line and sling under tension.
	Converged
	// Slack: equilibrium found; flags name slack slings and lines and points
	// whose place they leave open.
	Slack
	// TwoBlocked: two points have been drawn together; no forces.
	TwoBlocked
	// Infeasible: lines or slings are too short to reach; no forces.
	Infeasible
	// LooseEnd: a free point is tied to nothing that holds; no forces.
	LooseEnd
	// Runaway: a load outpulls the lines and nothing stops it; no forces.
	Runaway
	// NoPull: RequiredPull found no tension that gives the resistance; forces
	// are withheld.
	NoPull
	// BadInput: the rig is not a rig; Rig.Validate says why.
	BadInput
	// NotConverged: no equilibrium to tolerance was found; no forces.
	NotConverged
)

var statusNames = [...]string{"not computed", "converged", "slack", "two-blocked", "infeasible",
	"loose end", "runaway", "no pull", "bad input", "not converged"}

// String gives the status in English, for logs and tests.
func (s Status) String() string {
	if int(s) < len(statusNames) {
		return statusNames[s]
	}
	return "unknown status"
}

// HasForces reports whether a result with this status carries forces.
func (s Status) HasForces() bool { return s == Converged || s == Slack }

// FlagKind says what a Flag reports and what its A and B index.
type FlagKind uint8

const (
	// SlackSling: sling A carries nothing.
	SlackSling FlagKind = iota + 1
	// SlackLine: line A (or its part behind a stuck sheave) carries nothing.
	SlackLine
	// FloatingPoint: free point A can slide; its place is as drawn along that way.
	FloatingPoint
	// HangingPoint: nothing pulls on free point A; its place is as drawn.
	HangingPoint
	// BlocksTouch: points A and B of a stretch are drawn together.
	BlocksTouch
	// ShortSling: sling A is too short; Value is the missing length, metres.
	ShortSling
	// ShortLine: line A is too short; Value is the missing length, metres.
	ShortLine
	// LoosePoint: free point A is tied to nothing that holds.
	LoosePoint
	// RunawayPoint: free point A is pulled off.
	RunawayPoint
	// UndeterminedSheave: visit B (from 0) of line A may run either way or
	// stand; its ratio lies between RatioLow and RatioHigh.
	UndeterminedSheave
	// UnsettledSheave: the search for the way visit B of line A turns ended
	// without a consistent answer; treat it as undetermined.
	UnsettledSheave
	// PullsBackwards: the end of line A at point B pulls its body against the
	// intended motion.
	PullsBackwards
	// SharedSlings: slings A and B, without stretch, hold the same point in more
	// ways than it has directions; how they share is not determined and the even
	// split given is a convention. Give them stiffness.
	SharedSlings
	// Fault: input at fault; Rig.Validate gives the sentence.
	Fault
)

// Flag is one finding of a solve with the indices of the things it is about.
type Flag struct {
	Kind  FlagKind
	A, B  int
	Value float64
}

// Stretch is the part of a line between two neighbouring points of its path.
// Dir is the unit direction from A to B.
type Stretch struct {
	A, B     int
	TensionN float64
	LengthM  float64
	Dir      r3.Vector
}

// SheaveMotion says which way the line runs over a sheave.
type SheaveMotion uint8

const (
	// Stick: the sheave stands or what it does is not determined.
	Stick SheaveMotion = iota
	// Haul: the line runs towards its hauling end.
	Haul
	// Pay: the line runs away from its hauling end.
	Pay
)

// String gives the motion in English, for logs and tests.
func (m SheaveMotion) String() string {
	switch m {
	case Haul:
		return "haul"
	case Pay:
		return "pay"
	}
	return "stick"
}

// Visit is a line passing a sheave. Ratio is tension behind over before as
// used; it may lie anywhere in [RatioLow, RatioHigh] when not Determined: then
// an equalising line at rest is taken as level, any other as hauling. LoadN
// is the force of the line on the point, LoadMagN its size, newtons.
// IncludedDeg is the angle between the two legs, 0 for a half turn. RunPerMetre
// is metres of line over the sheave towards the hauling end for a metre of
// motion.
type Visit struct {
	Point               int
	Motion              SheaveMotion
	Determined          bool
	Ratio               float64
	RatioLow, RatioHigh float64
	LoadN               r3.Vector
	LoadMagN            float64
	IncludedDeg         float64
	RunPerMetre         float64
}

// LineResult is the answer for one line. TensionN is at the hauling end,
// LengthM along the path. HaulPerMetre is metres to haul in for a metre of
// motion (drum lines; NaN when no body has a motion). Stretches and Visits lie
// in storage shared by the Result and last until it is used again.
type LineResult struct {
	TensionN     float64
	LengthM      float64
	HaulPerMetre float64
	Slack        bool
	Stretches    []Stretch
	Visits       []Visit
}

// SlingResult is the answer for one sling; Dir is the unit direction from A to B.
type SlingResult struct {
	TensionN float64
	LengthM  float64
	Dir      r3.Vector
	Slack    bool
}

// PointResult gives the place of a point (metres, as found for free points)
// and the sum of the forces of lines and slings on it (newtons): for an anchor
// its load, for a free point minus its own load.
type PointResult struct {
	Pos    r3.Vector
	ForceN r3.Vector
}

// BodyResult gives the sum of forces of lines and slings on a body (newtons),
// their moment about its RefM (newton metres) and the pull along its motion, its
// turn included (NaN without one).
type BodyResult struct {
	ForceN   r3.Vector
	MomentNm r3.Vector
	PullN    float64
}

// Advantage of the rig for the moving bodies together; all NaN when nothing is
// meant to move or no drum pulls. With drum tensions T_i and haul h_i per metre:
//
//	ByForce    = pull / sum T_i
//	ByMotion   = sum T_i h_i / sum T_i     (velocity ratio)
//	Efficiency = pull / sum T_i h_i
//
// Loads and stretch store work too: with
// either, efficiency is that of the instant, not of the sheaves alone.
type Advantage struct {
	PullN      float64
	ByForce    float64
	ByMotion   float64
	Efficiency float64
}

// Result of a solve. Lines, Slings, Points and Bodies have the order of the
// rig. Scale is the factor RequiredPull put on the drums (1 otherwise).
// ResidualN is the largest force left unbalanced on a free point, summed again
// from the answer, ReferenceN the tension it is to be compared with. GapM is the
// largest length by which anything is longer than its tension allows.
// Iterations counts Newton steps over all passes.
type Result struct {
	Status     Status
	Flags      []Flag
	Lines      []LineResult
	Slings     []SlingResult
	Points     []PointResult
	Bodies     []BodyResult
	Advantage  Advantage
	Scale      float64
	ResidualN  float64
	ReferenceN float64
	GapM       float64
	Iterations int

	stretches []Stretch
	visits    []Visit
}

func (r *Result) flag(kind FlagKind, a, b int, value float64) {
	r.Flags = append(r.Flags, Flag{Kind: kind, A: a, B: b, Value: value})
}
