package zone

import (
	"github.com/golang/geo/r3"

	"kedge/solver/plan"
)

// Input is what zones are drawn from, at one moment of the travel: plain
// geometry on the ground.
type Input struct {
	Lines    []Line
	Releases []Release
	Trees    []Tree
	Rolls    []Roll
	Slides   []Slide
	Uprights []Upright
	Casualty *Casualty // nil: nothing is pulled
	StandOff float64   // the user's factor; it raises, never lowers. 0: none
}

// Line is one running line and all that is loaded with it. It has its zones
// whatever its tension is, known or not, slack or not.
type Line struct {
	ID        plan.ID
	Material  string
	Stretches []Stretch // from the hauling end, through every block
	Straps    []Strap   // slings and extension straps that it loads
	ExtraM    float64   // loaded line that is not drawn; 0: none
	Ends      []End     // where the stand-off rings stand; empty: the ends of the path
}

// Stretch is one straight part of a running line. Block is what stands at B;
// empty: its end.
type Stretch struct {
	Part  string
	A, B  plan.Point
	Block plan.ID
}

// Strap is a sling, chain or extension strap from end to end. LengthM 0: as it
// lies.
type Strap struct {
	ID       plan.ID
	Material string
	A, B     plan.Point
	LengthM  float64
}

// End is an end of a line: the thing it hangs on, a word for the place
// ("fairlead", "hook-on point", "anchor"), and a point that the line comes
// from, to tell what lies behind it.
type End struct {
	Thing plan.ID
	Word  string
	At    plan.Point
	From  plan.Point // a place along the line; equal to At: not known
}

// Release is a block, shackle or ring that flies when what holds it gives.
// Force is what the lines do to it; Known false: its direction is taken from
// the stretches that meet there, or all round if there are none.
type Release struct {
	Thing plan.ID
	At    plan.Point
	Force r3.Vector
	Known bool
}

// Tree is a tree that holds something. ToFailure is its share of its low hold;
// Known false: its hold or its load is not known. HeightM and CrownM 0: not
// known, not entered. Pull is the force on it, any length; zero: not known.
type Tree struct {
	Thing     plan.ID
	At        plan.Point
	HeightM   float64
	CrownM    float64
	Pull      r3.Vector
	ToFailure float64
	Known     bool
}

// Roll is a vehicle that may roll away: its footprint, the way it rolls, and
// how far. RunM 0: nothing is known to stop it.
type Roll struct {
	Thing     plan.ID
	Footprint []plan.Point
	Dir       r3.Vector
	RunM      float64
}

// Slide is a standing vehicle that may slide toward its line. It may turn as
// it does: the path is as wide as its footprint's diagonal.
type Slide struct {
	Thing     plan.ID
	Footprint []plan.Point
	Dir       r3.Vector
	RunM      float64
}

// Upright is an overturned vehicle: Ahead is its nose, HeightM its height
// once it stands. 0: not known.
type Upright struct {
	Thing     plan.ID
	Footprint []plan.Point
	Ahead     r3.Vector
	HeightM   float64
}
