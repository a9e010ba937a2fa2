package solver_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// otherFigures are changes of figures that leave how things hang together.
var otherFigures = map[string]func(p *plan.Plan){
	"nothing": func(*plan.Plan) {},
	"mass": func(p *plan.Plan) {
		for i := range p.Site.Vehicles {
			p.Site.Vehicles[i].Mass *= 1.1
		}
	},
	"measured resistance": func(p *plan.Plan) {
		for i := range p.Site.Vehicles {
			if k := p.Site.Vehicles[i].Stuck; k != nil {
				k.Measured *= 1.05
			}
		}
	},
	"ratings": func(p *plan.Plan) {
		r := &p.Rigs[0]
		for i := range r.Lines {
			r.Lines[i].Rating.Force *= 0.97
		}
		for i := range r.Blocks {
			r.Blocks[i].Rating.Force *= 0.97
		}
	},
	"sling lengths": func(p *plan.Plan) {
		for i := range p.Rigs[0].Slings {
			p.Rigs[0].Slings[i].Length *= 1.02
		}
	},
	"efficiency": func(p *plan.Plan) {
		for i := range p.Rigs[0].Blocks {
			p.Rigs[0].Blocks[i].Efficiency *= 0.99
		}
	},
	"obstacles": func(p *plan.Plan) {
		for i := range p.Site.Obstacles {
			o := &p.Site.Obstacles[i]
			o.Outline = slices.Clone(o.Outline)
			for k := range o.Outline {
				o.Outline[k].X, o.Outline[k].Y = o.Outline[k].X+0.4, o.Outline[k].Y-0.7
			}
		}
	},
	"moved and turned": func(p *plan.Plan) { alongWay(p, 0.3, 2) },
	"along the way": func(p *plan.Plan) {
		for i := range p.Site.Vehicles {
			if v := &p.Site.Vehicles[i]; v.Stuck != nil {
				out, _ := v.WayOut()
				east, north := plan.Heading(out)
				v.At.X, v.At.Y = v.At.X+0.3*east, v.At.Y+0.3*north
			}
		}
	},
}

// A prepared rig answers as Assess does, to the bit, whatever figures were asked
// about before: for every plan at hand.
func TestPreparedIsAssess(t *testing.T) {
	asked := 0
	for name, raw := range plansAtHand(t) {
		p, err := plan.ParsePlan(raw)
		if err != nil || len(p.Rigs) == 0 {
			continue
		}
		rig := p.Rigs[0].ID
		q, err := solver.Prepare(p, rig)
		if solver.Assess(p, rig).Status != part.Within {
			require.ErrorIs(t, err, solver.ErrRefused, name)
			continue
		}
		require.NoError(t, err, name)
		for what, change := range otherFigures {
			own, err := solver.Prepare(p, rig) // a plan to change, and to ask of in full
			require.NoError(t, err)
			change(own.Plan())
			want := solver.Assess(own.Plan(), rig)
			var f solver.Figures
			_ = q.Ask(&f) // of what it remembers nothing may stay
			change(q.Plan())
			if err := q.Ask(&f); err != nil {
				assert.NotEqual(t, part.Within, want.Status, "%s, %s", name, what)
			} else if want.Status == part.Within {
				asked++
				assert.Equal(t, want.Move, f.Move, "%s, %s", name, what)
				assert.Equal(t, want.Loosen, f.Loosen, "%s, %s", name, what)
				assert.Equal(t, want.Stall, f.Stall, "%s, %s", name, what)
				assert.Equal(t, want.Resistance, f.Resistance, "%s, %s", name, what)
				assert.Equal(t, want.Stretches, f.Stretches, "%s, %s", name, what)
				require.Len(t, f.Parts, len(want.Parts), "%s, %s", name, what)
				for i := range f.Parts {
					assert.Equal(t, want.Parts[i], f.Parts[i], "%s, %s", name, what)
				}
			}
			q, err = solver.Prepare(p, rig)
			require.NoError(t, err)
		}
	}
	assert.Greater(t, asked, 100)
}

// A sampling that asks thousands of times takes no memory after the first answer,
// nor does the casualty on its way.
func TestPreparedTakesNoMemory(t *testing.T) {
	for name, p := range map[string]*plan.Plan{"redirect": example(t, "redirect"), "sixty": seeded.DrawnOut(t, 12)} {
		q, err := solver.Prepare(p, "R1")
		require.NoError(t, err)
		var f solver.Figures
		ask := func() { require.NoError(t, q.Ask(&f)) }
		ask()
		assert.Zero(t, testing.AllocsPerRun(50, func() {
			q.Plan().Site.Vehicles[0].Mass++
			ask()
		}), name)
		assert.Zero(t, testing.AllocsPerRun(20, func() {
			alongWay(q.Plan(), -0.01, 0)
			ask()
		}), name)
	}
}

// An answer in full takes little memory, and not more for each part: the board asks
// while something is dragged. The bounds are budgets. (ours)
func TestAssessTakesLittleMemory(t *testing.T) {
	for name, want := range map[string]struct {
		p    *plan.Plan
		most float64
	}{"redirect": {example(t, "redirect"), 160}, "sixty": {seeded.DrawnOut(t, 12), 200}, "threehundred": {seeded.DrawnOut(t, 60), 320}} {
		got := testing.AllocsPerRun(10, func() { solver.Assess(want.p, "R1") })
		assert.LessOrEqual(t, got, want.most, name)
	}
}

// A casualty that is moved along its way, step by step, is answered as Assess
// answers where it then stands, to the bit: one prepared rig for the whole way.
func TestPreparedAlongTheWay(t *testing.T) {
	asked, refused := 0, 0
	for name, raw := range plansAtHand(t) {
		p, err := plan.ParsePlan(raw)
		if err != nil || len(p.Rigs) == 0 {
			continue
		}
		rig := p.Rigs[0].ID
		q, err := solver.Prepare(p, rig)
		if err != nil {
			continue
		}
		for range 8 {
			alongWay(q.Plan(), 0.7, 1.5)
			want := solver.Assess(q.Plan(), rig)
			var f solver.Figures
			if err := q.Ask(&f); err != nil {
				refused++
				assert.NotEqual(t, part.Within, want.Status, "%s: %v", name, err)
				continue
			}
			asked++
			require.Equal(t, part.Within, want.Status, "%s: %s", name, want.Why)
			require.Equal(t, want.Move, f.Move, name)
			require.Equal(t, want.Resistance, f.Resistance, name)
			require.Equal(t, want.Parts, f.Parts, name)
		}
	}
	assert.Greater(t, asked, 100)
	assert.Greater(t, refused, 3)
}
