package effort

import (
	"math"

	"kedge/solver/plan"
)

// Dragged reports whether a casualty goes where its lines drag it, whoever sits in it:
// none of its wheels turns, or it lies so deep that they do not lead it. One on its
// side is none: where it touches the ground is not known.
func Dragged(v *plan.Vehicle) bool {
	k := v.Stuck
	if k == nil || k.Overturned {
		return false
	}
	front, rear := held(v, low)
	return front && rear || k.LockedWheels >= mostContacts || k.Depth == plan.DepthChassis || k.Depth == plan.DepthBody
}

// DragIn is a casualty that is dragged, in its own axes: ahead and left of the middle
// of its footprint.
type DragIn struct {
	Vehicle      *plan.Vehicle
	Pull         [3]float64 // of its lines: ahead and left, newtons, and turning to the left, newton metres
	ResistN      float64    // what the ground resists at the planned end, the slope left out
	FallAheadDeg float64    // of the ground toward its nose
	FallLeftDeg  float64    // of the ground toward its left
}

// Drag is how a dragged casualty starts to move: speed ahead and to the left of the
// middle of its footprint, no unit, and how it turns to the left, radians for each
// metre that the middle goes. The ground resists it alike in every direction, under
// each wheel by its share of the weight, and its weight pulls it down the slope; it
// moves by the twist at which the pull does so first, by maximum dissipation. Not known without
// a wheelbase, on a slope without a mass, or if it would turn on the spot.
//
// Resisting alike, it takes no more to drag it so than straight along its motion: of
// all twists it is the one that takes the least.
func Drag(in DragIn) (ahead, left, turn float64, ok bool) {
	v := in.Vehicle
	s, known := stand(v, book().cgBehind[likely], 0)
	sinX, sinY := sinDeg(in.FallAheadDeg), sinDeg(in.FallLeftDeg)
	if !known || !(in.ResistN > 0) || !finite(in.ResistN, sinX, sinY, in.Pull[0], in.Pull[1], in.Pull[2]) || in.Pull == [3]float64{} {
		return 0, 0, 0, false
	}
	total := wrench(in.Pull)
	front := min(1, max(0, (s.cgM-s.rearM)/(s.frontM-s.rearM)))
	var cs []contact
	for _, side := range [...]float64{1, -1} {
		for _, axle := range [...]struct{ xM, share float64 }{{s.frontM, front}, {s.rearM, 1 - front}} {
			n := in.ResistN * axle.share / 2
			cs = append(cs, contact{xM: axle.xM, yM: side * s.halfTrackM, alongA: n, acrossA: n})
		}
	}
	if sinX != 0 || sinY != 0 {
		if !weighed(v) {
			return 0, 0, 0, false
		}
		w := float64((v.Mass + v.Load).Weight())
		rest := wrench{w * sinX, w * sinY, w * sinY * s.cgM}
		f, gives := leastTension(cs, rest, total, giving{})
		if !gives {
			return 0, 0, 0, false
		}
		total = rest.plus(total, f.tensionN)
	}
	_, twist, gives := factorLeft(cs, 0, total)
	speed := math.Hypot(twist[0], twist[1])
	if turns := abs(twist[2]) * float64(v.Wheelbase); !gives || !(speed > onTheSpot*turns) || !finite(speed, turns) {
		return 0, 0, 0, false
	}
	return twist[0] / speed, twist[1] / speed, twist[2] / speed, true
}

// onTheSpot, of the speed of an axle that goes round the other: slower than that the
// middle stands still. (ours)
const onTheSpot = 1e-3
