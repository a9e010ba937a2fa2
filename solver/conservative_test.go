package solver_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// tied is the redirect with its puller tied back to a tree behind it, by a
// sling or by a line.
func tied(t *testing.T, byLine bool, change func(*plan.Rig)) *plan.Plan {
	p := *example(t, "redirect")
	r := p.Rigs[0]
	rear, tree := plan.Port{Thing: "V2", Point: "rear"}, plan.Port{Thing: "T9"}
	behind := p.Site.Anchors[0]
	behind.ID, behind.At = "T9", plan.Point{X: 33.7, Y: 1.05} // straight behind the puller
	p.Site.Anchors = append(slices.Clone(p.Site.Anchors), behind)
	if byLine {
		l := r.Lines[0]
		l.ID, l.Path, l.Use, l.Length = "L9", []plan.Port{rear, tree}, plan.UseTieBack, 2.3
		l.Rating.Force, l.Diameter = l.Rating.Force*3, l.Diameter*1.8 // anchor gear counts a third, not half
		r.Lines = append(slices.Clone(r.Lines), l)
	} else {
		s := r.Slings[0]
		s.ID, s.On, s.Holds, s.Use, s.Length = "S9", rear, tree, plan.UseTieBack, 5.7
		r.Slings = append(slices.Clone(r.Slings), s)
	}
	if change != nil {
		change(&r)
	}
	p.Rigs = []plan.Rig{r}
	return &p
}

// A tie-back is computed for the whole line pull, and so are the point of the
// vehicle and the tree it is made fast to: strap and grip do not add. Source:
// the design's rule for tie-backs (ours).
func TestTieBackCarriesTheWholePull(t *testing.T) {
	for _, c := range []struct {
		name   string
		byLine bool
		id     string
	}{{"sling", false, "S9"}, {"line", true, "L9/1"}} {
		t.Run(c.name, func(t *testing.T) {
			a := solver.Assess(tied(t, c.byLine, nil), "R1")
			for _, id := range []string{c.id, "V2/rear", "T9"} {
				p, ok := a.Part(id)
				require.True(t, ok, id)
				require.True(t, p.Move.Known, id)
				require.GreaterOrEqual(t, float64(p.Move.Force), 0.9999*float64(a.Move.Tension), id)
			}
			require.NotContains(t, levels(a), "vehicle-slides")
			require.NotContains(t, levels(a), "tie-back-slack")
		})
	}
}

// What is not known of a tie-back is not within a limit, and one that holds
// nothing leaves the puller sliding.
func TestTieBackThatIsNoneHidesNothing(t *testing.T) {
	unknown := solver.Assess(tied(t, true, func(r *plan.Rig) {
		l := &r.Lines[len(r.Lines)-1]
		l.Material, l.Rating, l.Length = "", plan.Rating{}, 0
	}), "R1")
	require.False(t, unknown.Complete)
	p, ok := unknown.Part("L9/1")
	require.True(t, ok)
	require.Equal(t, part.NoLimit, p.Status)

	loose := solver.Assess(tied(t, false, func(r *plan.Rig) { r.Slings[len(r.Slings)-1].Holds = plan.Port{} }), "R1")
	require.Contains(t, levels(loose), "vehicle-slides")
	require.Contains(t, levels(loose), "ends-on-nothing")
}

// A figure in doubt counts at its conservative end: a rating at its low end, the
// casualty's mass at its high end for what it takes to move it.
func TestDoubtsCountAtTheirConservativeEnd(t *testing.T) {
	base := example(t, "redirect")
	want := solver.Assess(base, "R1")

	p := *base
	r := p.Rigs[0]
	r.Blocks = slices.Clone(r.Blocks)
	r.Blocks[0].Doubts = []plan.Doubt{{Member: "rating.force_n", Low: 60000, High: 90000}}
	p.Rigs = []plan.Rig{r}
	b, _ := solver.Assess(&p, "R1").Part("B1")
	require.InDelta(t, 60000, float64(b.Limit.Force), 1e-6)

	p = *base
	p.Site.Vehicles = slices.Clone(base.Site.Vehicles)
	p.Site.Vehicles[0].Doubts = []plan.Doubt{{Member: "mass_kg", Low: 2000, High: 3000}}
	got := solver.Assess(&p, "R1")
	require.InEpsilon(t, float64(want.Resistance.High)*3000/2450, float64(got.Resistance.High), 1e-9)
	require.InEpsilon(t, float64(want.Resistance.Low)*2000/2450, float64(got.Resistance.Low), 1e-9)
	require.Equal(t, got.Resistance.High, got.Resistance.Planned)

	p.Site.Vehicles[0].Doubts = []plan.Doubt{{Member: "length_m", Low: 5, High: 5.4}}
	require.Contains(t, levels(solver.Assess(&p, "R1")), "doubt-at-middle")
}

// A block that only a dead line holds carries what runs through it: the dead
// line balances that, and does not take it off. By hand: two parallel parts of
// a line pull with both their tensions.
func TestBlockHeldByALineAlone(t *testing.T) {
	p := basePlan()
	r := &p.Rigs[0]
	r.Slings, r.Shackles = nil, nil
	dead := winchLine("L2", port("A1", ""), port("B1", "becket"))
	dead.Length = 2
	r.Lines = append(r.Lines, dead)
	a := solver.Assess(p, "R1")
	b, ok := a.Part("B1")
	require.True(t, ok)
	hold, ok := a.Part("L2/1")
	require.True(t, ok)
	require.InEpsilon(t, float64(hold.Move.Force), float64(b.Move.Force), 1e-6)
	require.Greater(t, float64(b.Move.Force), 2000.0)
}

// What ties the casualty to something that stands is named, whatever it is: a
// shackle alone, or a dead line round a block on a post.
func TestStillFastenedByWhateverTies(t *testing.T) {
	post := func(p *plan.Plan, id plan.ID, x, y float64) {
		p.Site.Anchors = append(p.Site.Anchors, ratedPoint(id, x, y))
	}
	for name, change := range map[string]func(*plan.Plan){
		"shackle": func(p *plan.Plan) {
			post(p, "A9", -2.7, 0)
			p.Rigs[0].Shackles = append(p.Rigs[0].Shackles, plan.Shackle{Head: plan.Head{ID: "K9"}, Kind: plan.ShackleBow,
				Joins: []plan.Port{port("V1", "rear"), port("A9", "")}, Rating: working(47000), Body: 0.019})
		},
		"dead line round a block": func(p *plan.Plan) {
			post(p, "A8", -8, 0)
			post(p, "A9", -8, 6)
			b := block("B9", -8, 0)
			b.Fixed = port("A8", "")
			l := winchLine("L9", port("V1", "rear"), port("B9", ""), port("A9", ""))
			l.Length = 11.6
			p.Rigs[0].Blocks = append(p.Rigs[0].Blocks, b)
			p.Rigs[0].Lines = append(p.Rigs[0].Lines, l)
		},
	} {
		t.Run(name, func(t *testing.T) {
			p := basePlan()
			require.NotContains(t, levels(solver.Assess(p, "R1")), "still-fastened")
			change(p)
			require.Equal(t, part.Danger, levels(solver.Assess(p, "R1"))["still-fastened"])
		})
	}
}

// How wide a place's doubt is hangs on its disc alone, not on where one counts from.
func TestPlaceInDoubtIsWideByItsDisc(t *testing.T) {
	for _, east := range []float64{0, 1000} {
		for _, c := range []struct {
			r     quantity.Length
			level part.Level
		}{{0.4, part.Notice}, {0.6, part.Caution}} { // half of the metre between them, ours
			p := seeded.Example(t, "redirect")
			for i := range p.Site.Vehicles {
				p.Site.Vehicles[i].At.X += east
			}
			for i := range p.Site.Anchors {
				p.Site.Anchors[i].At.X += east
			}
			for i := range p.Site.Obstacles {
				for k := range p.Site.Obstacles[i].Outline {
					p.Site.Obstacles[i].Outline[k].X += east
				}
			}
			for i := range p.Rigs[0].Blocks {
				p.Rigs[0].Blocks[i].At.X += east
			}
			a := &p.Site.Anchors[0]
			a.Doubts = a.WithPlaceDoubt(a.At, c.r)
			assert.Equal(t, c.level, levels(solver.Assess(p, "R1"))["doubt-at-middle"], "%v at %v", c.r, east)
		}
	}
}

// What a casualty may weigh widens what it resists to that of the lightest and of the
// heaviest; the pull, to move and to break loose, is planned on the end that the plan
// is: a plan of that weight finds the same.
func TestTheWeightInDoubtAtEachEnd(t *testing.T) {
	of := func(on string, kg quantity.Mass, doubts ...plan.Doubt) *solver.Assessment {
		return assessed(t, func(p *plan.Plan) {
			v := &p.Site.Vehicles[0]
			v.Stuck = &plan.Stuck{Depth: plan.DepthHub, WayLength: 6, PlanOn: on}
			v.Mass, v.Doubts = kg, doubts
		})
	}
	kg := pickup().Mass
	light, heavy := 0.8*kg, 1.3*kg
	for on, at := range map[string]quantity.Mass{plan.PlanLow: light, plan.PlanLikely: kg, plan.PlanHigh: heavy} {
		a, want := of(on, kg, plan.Doubt{Member: "mass_kg", Low: float64(light), High: float64(heavy)}), of(on, at)
		assert.Positive(t, want.Resistance.Planned)
		assert.InEpsilon(t, float64(want.Resistance.Planned), float64(a.Resistance.Planned), 1e-9, on)
		assert.InEpsilon(t, float64(want.Move.Along), float64(a.Move.Along), 1e-6, on)
		assert.InEpsilon(t, float64(want.Loosen.Along), float64(a.Loosen.Along), 1e-6, on)
		assert.InEpsilon(t, float64(of(on, light).Resistance.Low), float64(a.Resistance.Low), 1e-9, on)
		assert.InEpsilon(t, float64(of(on, heavy).Resistance.High), float64(a.Resistance.High), 1e-9, on)
		assert.InEpsilon(t, float64(of(on, light).Resistance.Breakaway.Low), float64(a.Resistance.Breakaway.Low), 1e-9, on)
		assert.InEpsilon(t, float64(of(on, heavy).Resistance.Breakaway.High), float64(a.Resistance.Breakaway.High), 1e-9, on)
	}
}
