package solver

import (
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// untouched is how all lay when no line or strap of a rig met anything: where it lies
// like that again it is not looked again.
type untouched struct {
	is     bool
	ground terrain.Ground
	at     []float64 // all that contacts goes by
	now    []float64 // the same of this time
	passes []passing // of each stretch
}

// passing is what a stretch passes nearest, and how far from it.
type passing struct {
	by    plan.ID
	clear quantity.Length
}

// untouched reports whether all lies as it did when nothing met anything, and says
// what each stretch passes as it was found then.
func (a *laying) untouched() bool {
	u := &a.work.untouched
	u.now = a.lies(u.now[:0])
	if !u.is || u.ground != a.g.ground || !slices.Equal(u.at, u.now) || len(u.passes) != len(a.out.Stretches) {
		return false
	}
	for i, p := range u.passes {
		a.out.Stretches[i].ClearOf, a.out.Stretches[i].Clear = p.by, p.clear
	}
	return true
}

// stayUntouched keeps how all lies, if no line or strap met anything and nothing is
// held back.
func (a *laying) stayUntouched() {
	u := &a.work.untouched
	u.is = !a.refused && !a.undecided && !a.unclosed && len(a.g.restraints) == 0 &&
		!some(a.out.Stretches, func(s *part.Stretch) bool { return len(s.Contacts) > 0 })
	if !u.is {
		return
	}
	u.ground, u.at, u.now = a.g.ground, u.now, u.at
	u.passes = u.passes[:0]
	for i := range a.out.Stretches {
		u.passes = append(u.passes, passing{a.out.Stretches[i].ClearOf, a.out.Stretches[i].Clear})
	}
}

// lies adds every figure that contacts goes by, in one order.
func (a *laying) lies(at []float64) []float64 {
	place := func(v r3.Vector) { at = append(at, v.X, v.Y, v.Z) }
	for i := range a.out.Stretches {
		place(a.out.Stretches[i].A)
		place(a.out.Stretches[i].B)
	}
	for i := range a.g.slings {
		place(a.out.Slings[i].Centre)
		place(a.out.Slings[i].Apex)
		at = append(at, float64(a.g.slings[i].round.Short), float64(a.g.slings[i].index))
	}
	site := &a.g.p.Site
	for i := range site.Obstacles {
		o := &site.Obstacles[i]
		at = append(at, float64(o.Height), float64(len(o.Outline)))
		for _, p := range o.Outline {
			at = append(at, p.X, p.Y)
		}
	}
	for i := range site.Vehicles {
		v := &site.Vehicles[i]
		lies := 0.0
		if v.Stuck != nil && v.Stuck.Overturned {
			lies = 1
		}
		at = append(at, v.At.X, v.At.Y, float64(v.Bearing), float64(v.Length), float64(v.Width), float64(v.Height), float64(v.Rise), lies)
	}
	for i := range site.Anchors {
		t := &site.Anchors[i]
		at = append(at, t.At.X, t.At.Y, float64(terrain.AtStrap(t)))
	}
	return at
}
