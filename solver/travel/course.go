package travel

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"

	"kedge/solver/statics"
)

// Course is a rig and the way that its one body is pulled along. Lines[0] of the rig
// is the line on the drum; every point that a body carries moves with the casualty.
type Course struct {
	Rig        statics.Rig // as at the start; its drum's tension is not read
	Motion     Motion
	EndM       float64 // of the way; of the reference point of a motion that has one
	Resistance []Knot  // in order of the way; not read of a free body
	PayOut     bool    // the line lets the body down: Resistance is the hold-back it needs
	Drum       Drum

	OnLine    []OnLine
	Obstacles []Obstacle
	Limits    []Limit
	OffWayDeg []float64  // angles that the pull off the way is watched for
	Gaps      []Gap      // between points
	Backward  []Backward // stretches watched for pulling against the motion
	Maxima    []Part     // whose largest load is asked for
}

// MotionKind says how a body moves.
type MotionKind uint8

const (
	// Straight: every point moves by s times Dir.
	Straight MotionKind = iota
	// Arc: Ref runs an arc without slip and the body turns with it.
	Arc
	// Free: the body goes where the line drags it over its contacts.
	Free
)

// Motion is how the body moves.
type Motion struct {
	Kind       MotionKind
	Dir        r3.Vector      // Straight: a unit vector
	Ref        r3.Vector      // Arc, Free: the reference point at the start
	HeadingRad float64        // Arc, Free: of the body at the start, from +x
	RadiusM    float64        // Arc: positive to the left
	Contacts   []statics.Tyre // Free: in the body's axes, Ref their origin
}

// Knot is the resistance at a place: linear between two, a step where two share a
// place.
type Knot struct{ AtM, ForceN float64 }

// OnLine is a thing kept at one place of the line on the drum.
type OnLine struct {
	ID       string
	FromEndM float64 // from the line's far end
}

// Obstacle is something that a line may come to bear on, in plan view: round, or a
// polygon.
type Obstacle struct {
	ID      string
	Centre  r2.Point
	RadiusM float64
	Corners []r2.Point // none: round
}

// PartKind says what a Part is.
type PartKind uint8

const (
	// LinePart is stretch Index of line Line: its tension.
	LinePart PartKind = iota
	// BlockPart is the point Index: the force of the lines that run over it.
	BlockPart
	// SlingPart is sling Index: its tension.
	SlingPart
	// PointPart is the point Index: the force of everything tied to it.
	PointPart
	// WinchPart is the winch: its tension as a share of the pull on its layer.
	WinchPart
)

// Part is something that carries load.
type Part struct {
	Kind        PartKind
	Line, Index int
}

// Limit is a load that is watched for: newtons, of the winch a share.
type Limit struct {
	Part Part
	Load float64
}

// Gap is a distance between two points that is watched for.
type Gap struct {
	A, B      int
	DistanceM float64
}

// Backward is stretch Stretch of the line on the drum at a point of the casualty.
type Backward struct{ Stretch, Point int }

// ErrCourse is wrapped by every error about a course that is none.
var ErrCourse = errors.New("travel: not a course")

// check reports the first thing that makes the course unfit.
func (c *Course) check() error {
	bad := func(format string, a ...any) error {
		return fmt.Errorf("%w: %s", ErrCourse, fmt.Sprintf(format, a...))
	}
	if err := c.Rig.Validate(); err != nil {
		return fmt.Errorf("%w: %w", ErrCourse, err)
	}
	switch {
	case len(c.Rig.Lines) == 0 || !c.Rig.Lines[0].Drum || len(c.Rig.Bodies) != 1:
		return bad("the first line must be on a drum, and one body move")
	case !(c.EndM > 0) || math.IsInf(c.EndM, 0):
		return bad("the way has no length")
	case !c.Drum.Known() || !(c.Drum.Rated > 0):
		return bad("the drum is not known")
	case c.Motion.Kind == Straight && !(math.Abs(c.Motion.Dir.Norm()-1) < 1e-9):
		return bad("the way has no direction")
	case c.Motion.Kind == Arc && !(math.Abs(c.Motion.RadiusM) > 0):
		return bad("the arc has no radius")
	case c.Motion.Kind == Free && len(c.Motion.Contacts) == 0:
		return bad("the body has no contacts")
	case c.Motion.Kind > Free:
		return bad("motion %d is not understood", c.Motion.Kind)
	case c.Motion.Kind != Free && len(c.Resistance) == 0:
		return bad("there is no resistance")
	}
	for i, k := range c.Resistance {
		if !(k.ForceN >= 0) || math.IsInf(k.ForceN, 0) || i > 0 && !(k.AtM >= c.Resistance[i-1].AtM) {
			return bad("resistance %d is out of order or below zero", i)
		}
	}
	return nil
}

// resistance is the force at a place, newtons: at a step the one after it, beyond the
// ends that of the ends.
func resistance(knots []Knot, sM float64) float64 {
	i := sort.Search(len(knots), func(i int) bool { return knots[i].AtM > sM })
	switch {
	case i == 0:
		return knots[0].ForceN
	case i == len(knots):
		return knots[i-1].ForceN
	}
	a, b := knots[i-1], knots[i]
	return a.ForceN + (b.ForceN-a.ForceN)*(sM-a.AtM)/(b.AtM-a.AtM)
}
