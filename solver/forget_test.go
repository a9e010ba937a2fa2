package solver_test

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What is not known is never better than what is: the worst-case rule over
// whole plans.

// forgets are figures and words that a person may leave out.
var forgets = map[string]change{
	"line material":        theLine(func(l *plan.Line) { l.Material = "" }),
	"line diameter":        theLine(func(l *plan.Line) { l.Diameter = 0 }),
	"line length":          theLine(func(l *plan.Line) { l.Length = 0 }),
	"line rating":          theLine(func(l *plan.Line) { l.Rating = plan.Rating{} }),
	"line rating's basis":  theLine(func(l *plan.Line) { l.Rating.Basis = "" }),
	"connector's kind":     theLine(func(l *plan.Line) { l.Connector.Kind = "" }),
	"connector's basis":    theLine(func(l *plan.Line) { l.Connector.Rating.Basis = "" }),
	"end fitting":          theLine(func(l *plan.Line) { l.End = "" }),
	"line condition":       theLine(func(l *plan.Line) { l.Condition = "" }),
	"block kind":           theBlock(func(b *plan.Block) { b.Kind = "" }),
	"block efficiency":     theBlock(func(b *plan.Block) { b.Efficiency = 0 }),
	"block rating":         theBlock(func(b *plan.Block) { b.Rating = plan.Rating{} }),
	"block rating's basis": theBlock(func(b *plan.Block) { b.Rating.Basis = "" }),
	"block rating's place": theBlock(func(b *plan.Block) { b.RatingOn = "" }),
	"sheave":               theBlock(func(b *plan.Block) { b.Sheave = 0 }),
	"sling material":       theSling(func(s *plan.Sling) { s.Material = "" }),
	"sling length":         theSling(func(s *plan.Sling) { s.Length = 0 }),
	"sling rating":         theSling(func(s *plan.Sling) { s.Rating = plan.Rating{} }),
	"sling rating's basis": theSling(func(s *plan.Sling) { s.Rating.Basis = "" }),
	"sling condition":      theSling(func(s *plan.Sling) { s.Condition = "" }),
	"shackle kind":         theShackle(func(k *plan.Shackle) { k.Kind = "" }),
	"shackle rating":       theShackle(func(k *plan.Shackle) { k.Rating = plan.Rating{} }),
	"shackle basis":        theShackle(func(k *plan.Shackle) { k.Rating.Basis = "" }),
	"point kind":           front(func(q *plan.RecoveryPoint) { q.Kind = "" }),
	"point rating":         front(func(q *plan.RecoveryPoint) { q.Rating = plan.Rating{} }),
	"point basis":          front(func(q *plan.RecoveryPoint) { q.Rating.Basis = "" }),
	"point angle":          front(func(q *plan.RecoveryPoint) { q.MaxAngle = 0 }),
	"winch pull":           winch(func(w *plan.Winch) { w.LinePull = 0 }),
	"drum":                 winch(func(w *plan.Winch) { w.DrumDiameter, w.DrumWidth = 0, 0 }),
	"drum width":           winch(func(w *plan.Winch) { w.DrumWidth = 0 }),
	"puller mass":          puller(func(v *plan.Vehicle) { v.Mass = 0 }),
	"puller wheelbase":     puller(func(v *plan.Vehicle) { v.Wheelbase = 0 }),
	"puller brake":         puller(func(v *plan.Vehicle) { v.Brake = "" }),
	"puller chocks":        puller(func(v *plan.Vehicle) { v.Chocks = "" }),
	"centre of gravity":    puller(func(v *plan.Vehicle) { v.CGBehindFront, v.CGHeight = 0, 0 }),
	"grip":                 func(p *plan.Plan) { p.Site.Ground.Grip = "" },
	"soil":                 func(p *plan.Plan) { p.Site.Ground.Soil = "" },
	"anchor kind":          anchorIfAny(func(a *plan.Anchor) { a.Kind = "" }),
	"anchor soil":          anchorIfAny(func(a *plan.Anchor) { a.Soil = "" }),
	"anchor mass":          anchorIfAny(func(a *plan.Anchor) { a.Mass = 0 }),
	"anchor rating":        anchorIfAny(func(a *plan.Anchor) { a.Rating = plan.Rating{} }),
	"anchor basis":         anchorIfAny(func(a *plan.Anchor) { a.Rating.Basis = "" }),
	"species":              anchorIfAny(func(a *plan.Anchor) { a.Species = "" }),
	"girth":                anchorIfAny(func(a *plan.Anchor) { a.Girth = 0 }),
	"trunk":                anchorIfAny(func(a *plan.Anchor) { a.Trunk = 0 }),
	"girth and trunk":      anchorIfAny(func(a *plan.Anchor) { a.Girth, a.Trunk = 0, 0 }),
	"tree height":          anchorIfAny(func(a *plan.Anchor) { a.Height = 0 }),
	"health":               anchorIfAny(func(a *plan.Anchor) { a.Health = "" }),
	"rooting":              anchorIfAny(func(a *plan.Anchor) { a.Rooting = "" }),
	"direction":            anchorIfAny(func(a *plan.Anchor) { a.SetKnown = false }),
	"layout":               anchorIfAny(func(a *plan.Anchor) { a.Layout = "" }),
	"depth":                anchorIfAny(func(a *plan.Anchor) { a.Depth = 0 }),
	"log":                  anchorIfAny(func(a *plan.Anchor) { a.LogLength, a.LogDiameter = 0, 0 }),
	"plate":                anchorIfAny(func(a *plan.Anchor) { a.Helix = 0 }),
	"axis":                 anchorIfAny(func(a *plan.Anchor) { a.AxisRise = 0 }),
	"hold":                 anchorIfAny(func(a *plan.Anchor) { a.HoldLow = plan.Maybe[quantity.Force]{} }),
	"line's run":           anchorIfAny(func(a *plan.Anchor) { a.LineRun = 0 }),
}

func anchorIfAny(what func(a *plan.Anchor)) change {
	return func(p *plan.Plan) {
		for i := range p.Site.Anchors {
			what(&p.Site.Anchors[i])
		}
	}
}

// grounds are the anchors the base plan may stand on.
var grounds = map[string]change{
	"rated point": func(*plan.Plan) {}, "tree": onTree, "log": inGround, "pickets": onPickets, "boulder": onBoulder, "vehicle": onVehicle, "screw": onScrew,
}

// Forgetting any figure, alone or with another, never raises the limit of any
// part, never gives one that had none, and never leaves an answer complete in
// which less is said.
func TestForgettingNeverRaisesALimit(t *testing.T) {
	assess := func(all ...change) *solver.Assessment {
		p := basePlan()
		do(all...)(p)
		require.NoError(t, plan.Validate(p))
		return solver.Assess(p, "R1")
	}
	all := slices.Sorted(maps.Keys(forgets))
	for _, ground := range slices.Sorted(maps.Keys(grounds)) {
		on := grounds[ground]
		known := assess(on)
		for _, what := range all {
			forget := forgets[what]
			once := assess(on, forget)
			never(t, ground+" without "+what, known, once)
			for _, more := range all {
				never(t, fmt.Sprintf("%s without %s and %s", ground, what, more), once, assess(on, forget, forgets[more]))
			}
		}
	}
}

// moved is the share by which a hold may rise, told as winch line tension: another
// shape of the anchor moves the block, and with it the direction in which the
// truck is pulled, and a block that loses more (0.917 for 0.96) passes on 2 % less
// of the same tension.
const moved = 0.03

func never(t *testing.T, what string, known, forgotten *solver.Assessment) {
	t.Helper()
	for i := range forgotten.Parts {
		p := &forgotten.Parts[i]
		q, ok := known.Part(p.ID)
		if !ok || !p.Limit.Known || p.Status == part.Refused || p.Status == part.NotUnderstood {
			continue // what a refused rig turns round, and how, is not known
		}
		if p.Limit.AtMost {
			require.NotEqual(t, part.Within, p.Status, "%s: %s", what, p.ID)
			continue // no more than that, and nobody knows how much
		}
		require.True(t, q.Limit.Known, "%s: %s has a limit of %v", what, p.ID, p.Limit)
		slack := 1e-9
		if p.Kind == part.KindSlide {
			slack = moved
		}
		require.LessOrEqual(t, float64(p.Limit.Force), float64(q.Limit.Force)*(1+slack), "%s: %s", what, p.ID)
		require.True(t, p.Status != part.Within || q.Status >= part.Over, "%s: %s is within", what, p.ID)
	}
	require.False(t, forgotten.Complete && !known.Complete, "%s is complete", what)
}
