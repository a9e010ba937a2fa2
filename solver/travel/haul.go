package travel

import (
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Haul is the whole pull of a rig of a plan: what every place of the casualty's way
// out is, as [solver.Assess] answers for the plan with the casualty there.
type Haul struct {
	Rig, Casualty plan.ID
	EndM          float64 // of the way out; 0: not known
	UntilM        float64 // as far as it was computed
	Stop          *Stop   // what ends it there; nil: it was computed to its end
	Judged        bool    // what lines bear on and the casualty meets was looked for

	Start    *solver.Assessment // as drawn
	Moments  []Moment           // by place; both sides of a step
	Parts    []Worst            // in the order of the rig
	Events   []Happening        // by place
	Findings []part.Finding     // of every place looked at, each once, where its level is highest; with its Travel
}

// StopReason says what ends a pull, or keeps it from beginning.
type StopReason string

const (
	// NoCasualty, NoWay and NoLength: there is nothing to be moved, nowhere to move
	// it, or nobody knows how far. Moment 0 is answered.
	NoCasualty StopReason = "no-casualty"
	NoWay      StopReason = "no-way-out"
	NoLength   StopReason = "way-length-unknown"
	// LineAbeam: the line no longer pulls along the way.
	LineAbeam StopReason = "line-abeam"
	// BlocksMeet: two blocks of a line come together.
	BlocksMeet StopReason = "blocks-meet"
	// LineIsOut: a line is too short.
	LineIsOut StopReason = "line-out"
	// CasualtyMeets: the casualty comes against something, or somebody.
	CasualtyMeets StopReason = "casualty-meets"
	// LineBears: a line or strap comes to bear on something.
	LineBears StopReason = "line-bears"
	// NotSolved: the rig is refused for another reason, see Why.
	NotSolved StopReason = "refused"
)

// Stop is where a pull ends before the end of its way: nothing is computed beyond.
type Stop struct {
	Reason StopReason
	AtM    float64
	Why    string    // id of the finding that says so; empty: the reason is all
	Things []plan.ID // what it is about
}

// Moment is the pull at one place.
type Moment struct {
	AtM                 float64
	On                  plan.WayOn
	Resistance          float64 // planned, newtons
	Move, Loosen, Stall solver.Pull
	Advantage           float64
	OffWayDeg           float64   // NaN: none
	Share               float64   // the highest used share of any part; NaN: none is known
	Most                int       // index in Haul.Parts of that part; -1: none
	Shares              []float64 // of every part; NaN: not known
}

// Worst is a part where most is asked of it: the highest share of its limit on the
// whole way, or where shares are not known the largest load.
type Worst struct {
	ID     string
	AtM    float64
	Left   bool      // just before a step there
	Part   part.Part // at that place
	Share  float64   // NaN: not known anywhere
	LoadN  float64   // planned, at that place; NaN: not known
	Status part.Status
	// StatusM is where the part has that status first. Over is over at some place.
	// Otherwise a part is as badly known as at its worst known place, and within or
	// near its limit only if it is so all the way to the end of the way out.
	StatusM float64
}

// Happening is something that happens on the way.
type Happening struct {
	Kind          EventKind
	AtM           float64
	Start         bool    // so already as drawn
	Part          string  // OverLimit, LayerChange
	Thing         plan.ID // what it happens to: damper, joined line, block, sling, line
	Other         plan.ID // block or vehicle it happens at
	Level         float64 // degrees, OffWayBeyond and OffWayWithin
	Before, After float64 // share, OverLimit by a step
	ByJump        bool
	From, To      int // layers
}
