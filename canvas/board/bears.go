package board

import (
	"math"
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// lineEnd is an end of a stretch that is drawn: its place, how high it lies above
// the ground, and the thing of the site it is fast to; empty: none.
type lineEnd struct {
	at      plan.Point
	heightM float64
	on      plan.ID
}

// endOf is the end of a line at a hook-on point.
func endOf(sc *scene, s spot) lineEnd {
	return lineEnd{s.at, s.heightM, solver.FastTo(sc.at(), s.port)}
}

// inAir is the end of a line over open ground, taken to lie as high as the end
// before it: nobody said how high it is to lie.
func inAir(at plan.Point, before []lineEnd) lineEnd {
	e := lineEnd{at: at}
	if n := len(before); n > 0 {
		e.heightM = before[n-1].heightM
	}
	return e
}

// refuseContacts marks where the rubber first bears on something, by the rule that a
// rig is assessed by: a point is put in there, and what follows it is refused.
func refuseContacts(sc *scene, o *outcome, ends []lineEnd) {
	ground, _ := terrain.NewGround(sc.plan.Site.Ground)
	bodies := terrain.Bodies(&sc.plan.Site)
	for i := 0; i+1 < len(ends); i++ {
		a, c := ends[i], ends[i+1]
		l := terrain.Line{A: ground.Lift(a.at, a.heightM), B: ground.Lift(c.at, c.heightM), Ends: [2]plan.ID{a.on, c.on}}
		if at, k := terrain.First(bodies, &ground, &l); at >= 0 {
			refuseRubber(sc, o, i, float64(k.From)/math.Max(l.B.Sub(l.A).Norm(), fineM), bodies[at].ID)
			return
		}
	}
}

// refuseAsSolved marks where the rubber bears as the plan previewed does: letting go
// gives that plan.
func refuseAsSolved(sc *scene, o *outcome, line plan.ID) {
	var own []*part.Stretch
	for i, a := 0, sc.assess(o.plan); i < len(a.Stretches); i++ {
		if s := &a.Stretches[i]; s.Line == line {
			own = append(own, s)
		}
	}
	n := len(o.rubber) - 1
	if len(own) != n {
		return
	}
	turned := part.Flat(own[0].A).Dist(o.rubber[0]) > part.Flat(own[n-1].B).Dist(o.rubber[0]) // it starts at its winch, not where it was begun
	first, share, on := n, 2.0, plan.ID("")
	before := 0.0
	for i, s := range own {
		long := math.Max(float64(s.Length), fineM)
		for _, k := range s.Contacts {
			at, along := i, (float64(k.From)-before)/long
			if turned {
				at, along = n-1-i, 1-(float64(k.To)-before)/long
			}
			if at < first || at == first && along < share {
				first, share, on = at, along, k.Obstacle
			}
		}
		before += float64(s.Length)
	}
	if on != "" {
		refuseRubber(sc, o, first, share, on)
	}
}

// refuseRubber puts a point into the i-th piece of the rubber, where it begins to
// bear on something, and refuses what follows.
func refuseRubber(sc *scene, o *outcome, i int, share float64, on plan.ID) {
	a, c := o.rubber[i], o.rubber[i+1]
	o.rubber = slices.Insert(slices.Clone(o.rubber), i+1, a.Plus(share*(c.X-a.X), share*(c.Y-a.Y)))
	o.refused, o.from = sc.label("bears-on", part.Text("thing", sc.name(on))), i+1
}
