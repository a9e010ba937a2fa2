package solver_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// What is left out of a plan about its gear is named, with the rule that it
// leaves open, and is CAUTION at least.
func TestGearThatIsNotKnownIsNotPassed(t *testing.T) {
	for _, c := range []struct {
		rule   string
		thing  plan.ID
		member string
		leave  change
	}{
		{"line-too-thick", "B1", "line_max_m", theBlock(func(b *plan.Block) { b.LineMax = 0 })},
		{"block-rating-beyond", "B1", "line_max_m", theBlock(func(b *plan.Block) { b.LineMax = 0 })},
		{"line-too-thin", "B1", "line_min_m", theBlock(func(b *plan.Block) { b.LineMin = 0 })},
		{"sheave-smaller-than-line", "B1", "sheave_diameter_m", theBlock(func(b *plan.Block) { b.Sheave = 0 })},
		{"sheave-small", "B1", "sheave_diameter_m", theBlock(func(b *plan.Block) { b.Sheave = 0 })},
		{"bend-too-sharp", "B1", "sheave_diameter_m", theBlock(func(b *plan.Block) { b.Sheave = 0 })},
		{"ring-rubs", "B1", "kind", theBlock(func(b *plan.Block) { b.Kind = "" })},
		{"leg-takes-up", "V1", "recovery_points.left.height_m", do(bridled(0.585), casualty(func(v *plan.Vehicle) { v.Recovery[2].Height = 0 }))},
		{"slack-sling", "V1", "recovery_points.left.height_m", do(bridled(0.585), casualty(func(v *plan.Vehicle) { v.Recovery[2].Height = 0 }))},
		{"line-too-thick", "L1", "diameter_m", theLine(func(l *plan.Line) { l.Diameter = 0 })},
		{"rating-beyond-size", "L1", "diameter_m", theLine(func(l *plan.Line) { l.Diameter = 0 })},
		{"over-limit", "L1", "rating.force_n", theLine(func(l *plan.Line) { l.Rating = plan.Rating{} })},
		{"over-limit", "L1", "material", theLine(func(l *plan.Line) { l.Material = "" })},
		{"over-limit", "L1", "condition", theLine(func(l *plan.Line) { l.Condition = "" })},
		{"over-limit", "L1", "end_fitting", theLine(func(l *plan.Line) { l.End = "" })},
		{"line-short", "L1", "length_m", theLine(func(l *plan.Line) { l.Length = 0 })},
		{"line-short", "V2", "winch.drum_diameter_m", do(noDrum, lineBeyond(3))},
		{"drum-overfull", "V2", "winch.flange_diameter_m", winch(func(w *plan.Winch) { w.FlangeDiameter = 0 })},
		{"drum-impossible", "V2", "winch.flange_diameter_m", winch(func(w *plan.Winch) { w.FlangeDiameter = 0 })},
		{"winch-over", "V2", "winch.drum_width_m", winch(func(w *plan.Winch) { w.DrumWidth = 0 })},
		{"winch-over", "V2", "winch.line_pull_n", winch(func(w *plan.Winch) { w.LinePull = 0 })},
		{"winch-duty", "V2", "winch.no_load_speed_m_per_s", winch(func(w *plan.Winch) { w.NoLoadSpeed = 0 })},
		{"winch-duty", "V1", "casualty.way_length_m", stuck(func(s *plan.Stuck) { s.WayLength = 0 })},
		{"winch-duty", "V2", "winch.load_speed_m_per_s", winch(func(w *plan.Winch) { w.LoadSpeed = 0 })},
		{"fleet-angle", "V2", "winch.drum_width_m", winch(func(w *plan.Winch) { w.NoFairlead, w.DrumWidth = true, 0 })},
		{"over-limit", "S1", "rating.force_n", theSling(func(s *plan.Sling) { s.Rating = plan.Rating{} })},
		{"over-limit", "S1", "condition", theSling(func(s *plan.Sling) { s.Condition = "" })},
		{"rating-beyond-size", "S1", "width_m", theSling(func(s *plan.Sling) { s.Width = 0 })},
		{"over-limit", "A1", "trunk_m", do(onTree, theAnchor(func(a *plan.Anchor) { a.Girth, a.Trunk = 0, 0 }))},
		{"rating-beyond-size", "K1", "body_m", theShackle(func(k *plan.Shackle) { k.Body = 0 })},
		{"bend-too-sharp", "K1", "body_m", do(onRing(true), theShackle(func(k *plan.Shackle) { k.Body = 0 }))},
		{"over-limit", "V1", "recovery_points.front.rating.force_n", front(func(q *plan.RecoveryPoint) { q.Rating = plan.Rating{} })},
		{"not-a-pulling-point", "V1", "recovery_points.front.kind", front(func(q *plan.RecoveryPoint) { q.Kind = "" })},
	} {
		t.Run(c.rule+" "+string(c.thing)+" "+c.member, func(t *testing.T) {
			p := basePlan()
			c.leave(p)
			f := lacking(solver.Assess(p, "R1"), part.Lack{Thing: c.thing, Member: c.member, Rule: c.rule})
			require.NotNil(t, f, "not said")
			assert.GreaterOrEqual(t, f.Level, part.Caution)
			assert.NotEmpty(t, plan.MemberPath(p, "R1", c.thing, c.member))
			assert.Nil(t, lacking(solver.Assess(basePlan(), "R1"), part.Lack{Thing: c.thing, Member: c.member, Rule: c.rule}))
		})
	}
}

// lacking is the finding whose rule lacks that member; nil for none.
func lacking(a *solver.Assessment, l part.Lack) *part.Finding {
	for i := range a.Findings {
		for _, have := range a.Findings[i].Lacks {
			if have == l {
				return &a.Findings[i]
			}
		}
	}
	return nil
}

// A dead line of nylon is in it too.
func TestDeadLineThatStretches(t *testing.T) {
	p := basePlan()
	do(deadLine(15.5), on(func(r *plan.Rig) { r.Lines[1].Material = plan.MaterialNylon }))(p)
	level, raised := levels(solver.Assess(p, "R1"))["kinetic-on-winch"]
	assert.True(t, raised && level == part.Danger)
}

// A tie-back of nylon is in the chain that the winch pulls: it stretches half of
// its length before it breaks (US Navy NAVEDTRA 12018), a kinetic rope 30 %.
func TestTieBackThatStretches(t *testing.T) {
	for material, want := range map[string]part.Level{plan.MaterialNylon: part.Danger, plan.MaterialPolyester: part.Caution} {
		p := basePlan()
		do(tiedBack(40000, 0), on(func(r *plan.Rig) { r.Slings[1].Material = material }))(p)
		level, raised := levels(solver.Assess(p, "R1"))["kinetic-on-winch"]
		assert.True(t, raised && level == want, material)
	}
}

// A block of unknown kind may be a ring: no load is lower than with any kind that it may
// be, at the typed friction of none of them.
func TestABlockOfUnknownKindLosesWhatAnyMay(t *testing.T) {
	with := func(kind string) *solver.Assessment {
		p := basePlan()
		theBlock(func(b *plan.Block) { b.Kind, b.Efficiency, b.Friction = kind, 0, 0 })(p)
		return solver.Assess(p, "R1")
	}
	unknown := with(plan.BlockUnknown)
	for _, kind := range []string{plan.BlockRoller, plan.BlockPlain, plan.BlockRing} {
		known := with(kind)
		for i := range known.Parts {
			k := &known.Parts[i]
			u, ok := unknown.Part(k.ID)
			require.True(t, ok, k.ID)
			assert.GreaterOrEqual(t, float64(u.Move.Force), float64(k.Move.Force)*(1-1e-9), "%s as %s", k.ID, kind)
			assert.GreaterOrEqual(t, float64(u.Stall.Force), float64(k.Stall.Force)*(1-1e-9), "%s as %s, at stall", k.ID, kind)
		}
	}
}
