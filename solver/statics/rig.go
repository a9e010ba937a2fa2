package statics

import "github.com/golang/geo/r3"

// PointKind says what carries a point.
type PointKind uint8

const (
	// Fixed points do not move: anchors. The zero value.
	Fixed PointKind = iota
	// Free points are found by the solver, starting from where they are drawn.
	Free
	// OnBody points stand where they are drawn and move with their body.
	OnBody
)

// Point is a place lines and slings meet. Pos is in metres; Body is the index of
// the carrying body, read for OnBody only.
type Point struct {
	Kind PointKind
	Pos  r3.Vector
	Body int
}

// Body is a rigid thing that carries points. Moments are taken about RefM
// (metres). Motion is the direction it is meant to move, any length but zero
// taken as one unit; all zeros means it is not meant to move. Bodies with a
// motion are taken to move together, the same distance. With TurnPerM the body
// turns about the upright through RefM while that point moves by Motion: radians
// counter-clockwise a metre; 0 without a motion.
type Body struct {
	RefM     r3.Vector
	Motion   r3.Vector
	TurnPerM float64
}

// rate is how a point of the body at p moves for a metre of its motion, a unit
// vector.
func (b *Body) rate(motion, p r3.Vector) r3.Vector {
	if b.TurnPerM == 0 {
		return motion
	}
	arm := p.Sub(b.RefM)
	return motion.Add(r3.Vector{X: -arm.Y, Y: arm.X}.Mul(b.TurnPerM))
}

// SheaveModel says how the loss of a sheave depends on the turn of the line.
type SheaveModel uint8

const (
	// ByWrap is friction at the pin, Eta rated at a half turn; less turn, less
	// loss (README section 7). The zero value and the default.
	ByWrap SheaveModel = iota
	// Constant charges Eta whatever the turn.
	Constant
	// Ring is a line sliding on a ring or through a soft shackle: e^(-Mu wrap).
	Ring
)

// Sheave is what the line passes at one inner point of its path. Eta, in
// (0, 1], is tension behind over tension before while hauling, 1 without loss; it
// is read by Constant and ByWrap. Mu, zero or more, is the friction of a Ring.
// Start is the way the search takes it to turn at first, Haul but for Pay: where
// both ways agree with the motion, it is the one found.
type Sheave struct {
	Model SheaveModel
	Eta   float64
	Mu    float64
	Start SheaveMotion
}

// Line is a running line. Path lists points from the hauling end; Sheaves has
// one entry for each inner point, in order. A Drum line has the tension
// TensionN at its hauling end; RequiredPull scales it with the other drums
// unless Steady. Any other line has the length LengthM (0: as drawn) and the
// compliance ComplianceMPerN = length / EA (0: does not stretch); its tension is
// found.
type Line struct {
	Path            []int
	Sheaves         []Sheave
	Drum            bool
	TensionN        float64
	Steady          bool
	LengthM         float64
	ComplianceMPerN float64
}

// Sling ties two points: it pulls when longer than LengthM (0: as drawn) and
// never pushes. StiffnessNPerM is newtons per metre of stretch; 0 or +Inf does
// not stretch.
type Sling struct {
	A, B           int
	LengthM        float64
	StiffnessNPerM float64
}

// PointLoad is a dead load on a free point, newtons: the weight of a block.
type PointLoad struct {
	Point  int
	ForceN r3.Vector
}

// Rig is everything the solver reads. It is not changed by solving.
type Rig struct {
	Points []Point
	Bodies []Body
	Lines  []Line
	Slings []Sling
	Loads  []PointLoad
}
