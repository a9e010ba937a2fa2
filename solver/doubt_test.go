package solver_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// doubted says of a member of a thing that it lies between two figures.
func doubted(h *plan.Head, member string, low, high float64) {
	h.Doubts = append(h.Doubts, plan.Doubt{Member: member, Low: low, High: high})
}

// What is in doubt about a force counts at the end that errs on the conservative side,
// as a plan with that end typed does: a setting that stops the winch at its high
// end for what it can break and at its low end for what it moves. (ours)
func TestDoubtfulForcesCountAtTheirConservativeEnd(t *testing.T) {
	stall := func(p *plan.Plan) float64 { return float64(solver.Assess(p, "R1").Stall.Tension) }
	move := func(p *plan.Plan) float64 { return float64(solver.Assess(p, "R1").Move.Tension) }
	loosen := func(p *plan.Plan) float64 { return float64(solver.Assess(p, "R1").Loosen.Tension) }
	behind := func(p *plan.Plan) float64 { // what lies behind the sheave most
		x := partOf(t, solver.Assess(p, "R1"), "B1")
		return float64(x.Stall.Force)
	}
	limit := func(id string) func(p *plan.Plan) float64 {
		return func(p *plan.Plan) float64 {
			x := partOf(t, solver.Assess(p, "R1"), id)
			return float64(x.Limit.Force)
		}
	}
	fixed := func(n float64) change { return theLine(func(l *plan.Line) { l.Fixed = quantity.Force(n) }) }
	for _, tt := range []struct {
		what         string
		doubt, typed change
		of           func(*plan.Plan) float64
		also         string // a finding that the doubt raises, too
	}{
		{what: "the limiter's high end", doubt: puller(func(v *plan.Vehicle) { doubted(&v.Head, "winch.limiter_n", 3000, 5000) }),
			typed: winch(func(w *plan.Winch) { w.Limiter = 5000 }), of: stall},
		{what: "the limiter's low end", doubt: puller(func(v *plan.Vehicle) { doubted(&v.Head, "winch.limiter_n", 2000, 5000) }),
			typed: winch(func(w *plan.Winch) { w.Limiter = 5000 }), of: stall, also: "does-not-move"},
		{what: "the rated pull's high end", doubt: puller(func(v *plan.Vehicle) {
			v.Winch.LinePull, v.Winch.Limiter = 3000, 0
			doubted(&v.Head, "winch.line_pull_n", 2900, 3300)
		}), typed: winch(func(w *plan.Winch) { w.LinePull, w.Limiter = 3300, 0 }), of: stall},
		{what: "the stall factor's high end", doubt: puller(func(v *plan.Vehicle) {
			v.Winch.LinePull, v.Winch.Limiter, v.Winch.StallFactor = 3000, 0, 1.1
			doubted(&v.Head, "winch.stall_factor", 1, 1.4)
		}), typed: winch(func(w *plan.Winch) { w.LinePull, w.Limiter, w.StallFactor = 3000, 0, 1.4 }), of: stall},
		{what: "a measured tension", doubt: do(fixed(2500), theLine(func(l *plan.Line) { doubted(&l.Head, "tension_n", 2000, 3000) })),
			typed: fixed(3000), of: move, also: "tension-too-small"},
		{what: "a measured resistance", doubt: casualty(func(v *plan.Vehicle) { doubted(&v.Head, "casualty.measured_resistance_n", 1500, 2900) }),
			typed: stuck(func(s *plan.Stuck) { s.Measured = 2900 }), of: move},
		{what: "suction", doubt: do(stuck(func(s *plan.Stuck) { s.Suction = 200 }), casualty(func(v *plan.Vehicle) { doubted(&v.Head, "casualty.suction_n", 0, 900) })),
			typed: stuck(func(s *plan.Stuck) { s.Suction = 900 }), of: loosen},
		{what: "what it takes to break loose", doubt: casualty(func(v *plan.Vehicle) {
			v.Stuck.Breakaway = 1.2
			doubted(&v.Head, "casualty.breakaway_factor", 1.1, 1.6)
		}), typed: stuck(func(s *plan.Stuck) { s.Breakaway = 1.6 }), of: loosen},
		{what: "water that is trapped", doubt: do(inWater(0, 0.3), laden(100), casualty(func(v *plan.Vehicle) {
			v.Stuck.TrappedWater = 50
			doubted(&v.Head, "casualty.trapped_water_kg", 0, 90)
		})), typed: do(inWater(0, 0.3), laden(100), stuck(func(s *plan.Stuck) { s.TrappedWater = 90 })), of: move},
		{what: "how deep the current is", doubt: do(inWater(0.1, 0.3), casualty(func(v *plan.Vehicle) { doubted(&v.Head, "casualty.water_depth_on_body_m", 0.2, 0.6) })),
			typed: inWater(0.1, 0.6), of: move},
		{what: "how fast it flows", doubt: do(inWater(0.1, 0.3), casualty(func(v *plan.Vehicle) { doubted(&v.Head, "casualty.water_speed_m_per_s", 0, 0.2) })),
			typed: inWater(0.2, 0.3), of: move},
		{what: "what a sheave takes", doubt: theBlock(func(b *plan.Block) { doubted(&b.Head, "efficiency", 0.9, 0.99) }),
			typed: theBlock(func(b *plan.Block) { b.Efficiency = 0.9 }), of: move},
		{what: "what a sheave lets through", doubt: theBlock(func(b *plan.Block) { doubted(&b.Head, "efficiency", 0.9, 0.99) }),
			typed: theBlock(func(b *plan.Block) { b.Efficiency = 0.99 }), of: behind},
		{what: "what an anchor holds", doubt: theAnchor(func(a *plan.Anchor) { doubted(&a.Head, "rating.force_n", 20000, 80000) }),
			typed: theAnchor(func(a *plan.Anchor) { a.Rating.Force = 20000 }), of: limit("A1")},
	} {
		t.Run(tt.what, func(t *testing.T) {
			p, q := basePlan(), basePlan()
			tt.doubt(p)
			tt.typed(q)
			assert.InEpsilon(t, tt.of(q), tt.of(p), 1e-9)
			got := levels(solver.Assess(p, "R1"))
			assert.NotContains(t, got, "doubt-at-middle")
			if tt.also != "" {
				assert.Contains(t, got, tt.also)
			}
		})
	}
}

// A tension that was measured was there: at stall the parts carry no less than
// that, whatever the winch is said to give.
func TestATypedTensionIsNoMoreThanTheStallShown(t *testing.T) {
	p := basePlan()
	p.Rigs[0].Lines[0].Fixed = 9000
	a := solver.Assess(p, "R1")
	assert.InEpsilon(t, 9000, float64(a.Stall.Tension), 1e-9, "its limiter is set to 4 kN")
	assert.Contains(t, levels(a), "tension-beyond-winch")
}
