package travel_test

import (
	"context"
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
	"kedge/solver/terrain"
	"kedge/solver/travel"
)

func examplePlan(t testing.TB, name string) *plan.Plan { return seeded.Example(t, name) }

func followed(t testing.TB, p *plan.Plan, rig plan.ID) *travel.Answer {
	a, err := travel.Assess(context.Background(), p, rig, nil)
	require.NoError(t, err)
	return a
}

// with is p with its casualty's state changed.
func with(p *plan.Plan, edit func(v *plan.Vehicle)) *plan.Plan {
	i := slices.IndexFunc(p.Site.Vehicles, func(v plan.Vehicle) bool { return v.Stuck != nil })
	v := p.Site.Vehicles[i]
	v.Unshare()
	edit(&v)
	return plan.WithVehicle(p, i, v)
}

// Over the whole pull nothing is milder than at any moment of it, looked at afresh
// at places of the test's own: no part's share, no status, no finding's level, and
// whoever is in a zone there is in one of the whole. (a property; no figure)
func TestTheWholeIsNoMilderThanAnyMoment(t *testing.T) {
	for _, name := range []string{"redirect", "doubled"} {
		p := examplePlan(t, name)
		a := followed(t, p, "R1")
		require.Positive(t, a.EndM)
		for i := range 19 {
			s := a.EndM * math.Mod(float64(i)*0.381966, 1)
			if i == 18 {
				s = a.EndM
			}
			m := solver.Assess(travel.At(p, "R1", s), "R1")
			for k := range m.Parts {
				q := &m.Parts[k]
				w, ok := a.Part(q.ID)
				require.True(t, ok, q.ID)
				assert.LessOrEqual(t, part.WorstFirst(w, q), 0, "%s of %s at %g m", q.ID, name, s)
				if w.Known() && q.Known() {
					assert.GreaterOrEqual(t, w.Most(), q.Most()*(1-1e-5), "%s of %s at %g m", q.ID, name, s)
				} else if w.Status == q.Status {
					assert.GreaterOrEqual(t, float64(w.Move.Force), float64(q.Move.Force)*(1-1e-5), "%s of %s at %g m", q.ID, name, s)
				}
			}
			for k := range m.People {
				if q := &m.People[k]; len(q.Inside) > 0 {
					for _, kind := range q.Inside {
						assert.Contains(t, a.People[k].Inside, kind, "%s at %g m", q.Person, s)
					}
				}
			}
			assert.GreaterOrEqual(t, a.Verdict(), m.Verdict())
		}
	}
}

// What a finding of the whole says is no milder than what it says at any moment at
// which its level is as high: who ties a vehicle back goes by the greatest pull.
// The redirected line is led the farther off the way out the longer it is pulled.
func TestFindingsOfTheWholeSayTheWorst(t *testing.T) {
	p := examplePlan(t, "redirect")
	a := followed(t, p, "R1")
	asked := 0
	for _, s := range []float64{0, 2.5, a.EndM - 0.05, a.EndM} {
		m := solver.Assess(travel.At(p, "R1", s), "R1")
		for i := range m.Findings {
			f := &m.Findings[i]
			for k := range a.Findings {
				g := &a.Findings[k]
				if g.Key() != f.Key() || g.Level != f.Level {
					continue
				}
				for n, v := range f.Values {
					if slices.Contains([]string{"off", "side", "load", "needs", "tie", "across", "used"}, v.Name) {
						asked++
						assert.GreaterOrEqual(t, g.Values[n].X, v.X*(1-1e-5), "%s of %s at %g m", v.Name, f.ID, s)
					}
				}
			}
		}
	}
	assert.Greater(t, asked, 20)
}

// The moments are those of the plan drawn there, and the parts of the whole say
// where they are so.
func TestPartsSayWhereTheyAreWorst(t *testing.T) {
	p := examplePlan(t, "redirect")
	a := followed(t, p, "R1")
	for i := range a.Parts {
		q := a.Parts[i]
		m, ok := solver.Assess(travel.At(p, "R1", q.AtM), "R1").Part(q.ID)
		require.True(t, ok)
		assert.Equal(t, m.Move, q.Move, q.ID)
		assert.Equal(t, m.Status, q.Status, q.ID)
	}
}

// Half the steps change no share by a thousandth.
func TestHalfTheStepsChangeNothing(t *testing.T) {
	p := examplePlan(t, "redirect")
	a := followed(t, p, "R1")
	for s := 0.0625; s < a.EndM; s += 0.125 {
		m := solver.Assess(travel.At(p, "R1", s), "R1")
		for k := range m.Parts {
			q := &m.Parts[k]
			if w, _ := a.Part(q.ID); q.Known() && w.Known() { // the point has no rating any more where it is pulled aside
				assert.Greater(t, w.Most(), q.Most()*0.999, "%s at %g m", q.ID, s)
			}
		}
	}
}

// The zones of the whole hold the corners of those at any place, so that nobody
// between two moments is overlooked.
func TestZonesOfTheWholeHoldThoseBetween(t *testing.T) {
	p := examplePlan(t, "redirect")
	a := followed(t, p, "R1")
	for s := 0.11; s < a.EndM; s += 0.37 {
		m := solver.Assess(travel.At(p, "R1", s), "R1")
		for i := range m.Zones {
			z := &m.Zones[i]
			for _, c := range z.Outline {
				assert.True(t, covered(a.Zones, z.Kind, c), "%s of %s at %g m: %v", z.Kind, z.Thing, s, c)
			}
		}
	}
}

// Whoever stands in the recoil of the whole is told so, also if it only comes over them
// between two moments that were looked at: of two that lie 5 m apart many do.
func TestWhoIsReachedBetweenMomentsIsTold(t *testing.T) {
	p := *examplePlan(t, "redirect")
	p.Site.People = nil
	for i := range 400 {
		p.Site.People = append(p.Site.People, plan.Person{Head: plan.Head{ID: plan.ID(fmt.Sprint("P", i))}, Role: plan.RoleSpotter,
			At: plan.Point{X: float64(i%20)*5 - 30, Y: float64(i/20)*5 - 40}})
	}
	var moments []solver.Moment
	for _, s := range []float64{0.2, 5.2} {
		moments = append(moments, solver.Moment{AtM: s, Assessment: solver.Assess(travel.At(&p, "R1", s), "R1")})
	}
	a := solver.Worst(moments)
	between := 0
	for i := range a.People {
		q := &a.People[i]
		if !slices.Contains(q.Inside, part.ZoneRecoil) {
			continue
		}
		assert.NotEmpty(t, q.Spans, "%s: where along the way it is so", q.Person)
		assert.True(t, slices.ContainsFunc(a.Findings, func(f part.Finding) bool {
			return f.Level == part.Danger && len(f.Things) > 0 && f.Things[0] == q.Person
		}), "%s at %v inside %v", q.Person, q.At, q.Inside)
		inner := func(m solver.Moment) bool {
			in := m.People[i].Inside
			return len(in) > 0 && in[0] != part.ZoneStandOff
		}
		if !inner(moments[0]) && !inner(moments[1]) {
			between++
		}
	}
	assert.Positive(t, between)
}

// The way out that somebody is told is that of the whole pull: its end lies in no zone
// of any moment but those that they stand in.
func TestWaysOutAreOfTheWhole(t *testing.T) {
	p := *examplePlan(t, "redirect")
	p.Site.People = nil
	for i := range 60 {
		p.Site.People = append(p.Site.People, plan.Person{Head: plan.Head{ID: plan.ID(fmt.Sprint("P", i))}, Role: plan.RoleBystander,
			At: plan.Point{X: float64(i%10)*6 - 20, Y: float64(i/10)*6 - 14}})
	}
	a := followed(t, &p, "R1")
	asked := 0
	for i := range a.Findings {
		f := &a.Findings[i]
		k := slices.IndexFunc(a.People, func(q solver.PersonAt) bool { return len(f.Things) > 0 && q.Person == f.Things[0] })
		j := slices.IndexFunc(f.Values, func(v part.Value) bool { return v.Name == "way" })
		if k < 0 {
			continue
		}
		q := &a.People[k]
		assert.Equal(t, q.OutKnown && len(q.Inside) > 0, j >= 0 || f.ID == "person-in-pocket", "%s of %s", f.ID, q.Person)
		if j >= 0 {
			asked++
			assert.InDelta(t, q.At.Dist(q.Out), f.Values[j].X, 1e-6, "%s of %s", f.ID, q.Person)
		}
	}
	assert.Greater(t, asked, 10)
}

// Who sits in the casualty goes with it: into the fall of a tree that does not reach
// where it is drawn, too.
func TestWhoSitsInTheCasualtyIsInTheZonesItComesTo(t *testing.T) {
	p, _ := seeded.Plan(1, nil)
	p = with(p, func(v *plan.Vehicle) { v.Stuck.WayLength = 6 })
	rig := p.Rigs[0].ID
	a := followed(t, p, rig)
	m := solver.Assess(travel.At(p, rig, 4.5), rig)
	k := slices.IndexFunc(p.Site.People, func(q plan.Person) bool { return q.Vehicle == p.Casualty().ID })
	require.GreaterOrEqual(t, k, 0)
	require.Contains(t, m.People[k].Inside, part.ZoneTree)
	require.NotContains(t, a.Moments[0].People[k].Inside, part.ZoneTree)
	for _, kind := range m.People[k].Inside {
		assert.Contains(t, a.People[k].Inside, kind)
	}
}

// covered reports whether a place is in a zone of a kind, or within a centimetre of
// one: lines turn as they go, and the straight edge between two moments cuts that.
func covered(zones []part.Zone, kind part.ZoneKind, at plan.Point) bool {
	for i := range zones {
		if z := &zones[i]; z.Kind == kind && terrain.Within(z.Outline, at, 0.01) {
			return true
		}
	}
	return false
}

// A boulder 3 m ahead of the nose ends the pull there, and what comes after is not
// computed. The nose of the doubled example's casualty is half its length ahead.
func TestThePullStopsAtWhatTheCasualtyMeets(t *testing.T) {
	p := examplePlan(t, "doubled")
	v := p.Casualty()
	out, ok := v.WayOut()
	require.True(t, ok)
	e, n := plan.Heading(out)
	far := float64(v.Length)/2 + 3
	side := float64(v.Width)/2 - 0.15 // beside the line, before the wheel
	at := plan.Point{X: v.At.X + e*far - n*side, Y: v.At.Y + n*far + e*side}
	q := *p
	q.Site.Obstacles = append(slices.Clone(p.Site.Obstacles), plan.Obstacle{Head: plan.Head{ID: "O77"}, Kind: plan.ObstacleBoulder, Height: 0.5,
		Outline: []plan.Point{{X: at.X, Y: at.Y}, {X: at.X + e*0.4 - n*0.1, Y: at.Y + n*0.4 + e*0.1}, {X: at.X + e*0.4 + n*0.1, Y: at.Y + n*0.4 - e*0.1}}})
	a := followed(t, &q, "R1")
	require.Equal(t, part.Within, a.Status)
	assert.InDelta(t, 3, a.EndM, 1e-3)
	assert.Equal(t, "casualty-meets", a.Stop)
	f := finding(a, "pull-stops")
	require.NotNil(t, f)
	assert.InDelta(t, 3, f.Travel, 1e-3)
	assert.False(t, a.Complete)
}

func finding(a *travel.Answer, id string) *part.Finding {
	for i := range a.Findings {
		if a.Findings[i].ID == id {
			return &a.Findings[i]
		}
	}
	return nil
}

// A way of 300 m leads past the block: the rig is refused before it gets there. The
// place is where the last that is computed and the first that is refused meet.
func TestThePullStopsWhereTheRigIsRefused(t *testing.T) {
	p := with(examplePlan(t, "redirect"), func(v *plan.Vehicle) { v.Stuck.WayLength = 300 })
	a := followed(t, p, "R1")
	require.NotEmpty(t, a.Stop)
	assert.Less(t, a.EndM, 300.0)
	assert.Equal(t, part.Within, solver.Assess(travel.At(p, "R1", a.EndM), "R1").Status)
	assert.Equal(t, part.Refused, solver.Assess(travel.At(p, "R1", a.EndM+2e-4), "R1").Status)
	require.NotNil(t, finding(a, a.Stop), "why it stops is said")
	require.NotNil(t, finding(a, "pull-stops"))
}

// Nobody says how far, or which way: the moment as drawn is answered and the rest
// is not decided.
func TestAPullWithoutAWayIsNotDecided(t *testing.T) {
	for member, edit := range map[string]func(v *plan.Vehicle){
		"casualty.way_length_m":    func(v *plan.Vehicle) { v.Stuck.WayLength = 0 },
		"casualty.way_bearing_deg": func(v *plan.Vehicle) { v.Stuck.Way = plan.WayFree },
	} {
		p := with(examplePlan(t, "doubled"), edit)
		a := followed(t, p, "R1")
		assert.Len(t, a.Moments, 1)
		assert.False(t, a.Complete, member)
		if a.Status == part.Within {
			f := finding(a, part.NotDecidedID)
			require.NotNil(t, f, member)
			assert.True(t, slices.ContainsFunc(a.Findings, func(f part.Finding) bool {
				return slices.Contains(f.Lacks, part.Lack{Thing: p.Casualty().ID, Member: member, Rule: "pull-stops"})
			}), member)
		}
	}
}

// Of two casualties the one that the rig is hooked on to goes its way, wherever it is
// listed: the other, listed before it, stays and changes nothing.
func TestTheHookedCasualtyIsMoved(t *testing.T) {
	p := examplePlan(t, "redirect")
	other := *p.Casualty()
	other.Unshare()
	other.ID, other.At = "V77", plan.Point{X: other.At.X - 60, Y: other.At.Y - 60}
	other.Stuck.WayLength = 1
	q := *p
	q.Site.Vehicles = append([]plan.Vehicle{other}, p.Site.Vehicles...)
	a, b := followed(t, p, "R1"), followed(t, &q, "R1")
	require.NotNil(t, finding(b, "several-casualties"))
	assert.InDelta(t, a.EndM, b.EndM, 1e-9)
	for i := range a.Parts {
		w, ok := b.Part(a.Parts[i].ID)
		require.True(t, ok)
		assert.InDelta(t, a.Parts[i].Most(), w.Most(), 1e-6, w.ID)
	}
	assert.Len(t, b.Events, len(a.Events))
}

// A bend that leaves room for the radius that the vehicle turns with is driven; one
// that does not cannot be, and nobody at all does not steer. A bend by 45° takes its radius times
// tan 22.5° of both legs: a way that ends before is straight. (closed form)
func TestBendsAreDriven(t *testing.T) {
	p := examplePlan(t, "doubled")
	v := p.Casualty()
	require.True(t, slices.ContainsFunc(p.Site.People, func(q plan.Person) bool { return q.Role == plan.RoleDriver && q.Vehicle == v.ID }))
	out, _ := v.WayOut()
	e, n := plan.Heading(out)
	_, rear, _ := v.Axles()
	from := v.Place(rear, 0)
	at := plan.Point{X: from.X + 8*e, Y: from.Y + 8*n}
	far := plan.Point{X: at.X + 30*(e-n)*math.Sqrt2/2, Y: at.Y + 30*(n+e)*math.Sqrt2/2}
	bent := func(long, turns float64) *plan.Plan {
		return with(p, func(v *plan.Vehicle) {
			v.Stuck.Bends, v.Stuck.WayLength, v.Stuck.TurnRadius = []plan.Point{at, far}, quantity.Length(long), quantity.Length(turns)
		})
	}
	cut := 8 / math.Tan(math.Pi/8) // the radius for which the bend takes up all of the first leg
	assert.Nil(t, finding(followed(t, bent(8, cut-0.01), "R1"), "way-bends-tight"))
	f := finding(followed(t, bent(8, cut+1), "R1"), "way-bends-tight")
	require.NotNil(t, f)
	assert.InDelta(t, cut, f.Values[0].X, 1e-9)
	assert.InDelta(t, cut+1, f.Values[1].X, 1e-9)

	alone := func(long float64) *part.Finding {
		q := *bent(long, 6)
		q.Site.People = nil
		return finding(followed(t, &q, "R1"), "way-not-steered")
	}
	starts := 8 - 6*math.Tan(math.Pi/8)
	assert.Nil(t, alone(starts-0.01))
	require.NotNil(t, alone(starts+0.01))
	assert.Nil(t, finding(followed(t, bent(8, 6), "R1"), "way-not-steered"), "somebody drives it")
	over := with(bent(8, 6), func(v *plan.Vehicle) { v.Stuck.Overturned = true })
	assert.NotNil(t, finding(followed(t, over, "R1"), "way-not-steered"), "what lies on its side is not steered")
	f = finding(followed(t, bent(8, 0.5), "R1"), "way-bends-tight")
	require.NotNil(t, f, "no vehicle turns on the spot")
	assert.EqualValues(t, v.Wheelbase, f.Values[1].X)
}

// bentPlan is the doubled example with a bend by 45° to the left whose corner is so
// far ahead of the rear axle, and a left and a right of places beside its way.
func bentPlan(t *testing.T, cornerM, turnM float64) (p *plan.Plan, beside func(aheadM, leftM float64) plan.Point) {
	p = examplePlan(t, "doubled")
	v := p.Casualty()
	out, _ := v.WayOut()
	e, n := plan.Heading(out)
	_, rear, _ := v.Axles()
	from := v.Place(rear, 0)
	beside = func(a, l float64) plan.Point { return plan.Point{X: from.X + a*e - l*n, Y: from.Y + a*n + l*e} }
	return with(p, func(v *plan.Vehicle) {
		v.Stuck.Bends = []plan.Point{beside(cornerM, 0), beside(cornerM+20, 20)}
		v.Stuck.WayLength, v.Stuck.TurnRadius = 5, quantity.Length(turnM)
	}), beside
}

// block is p with a square of 20 cm that stands up.
func block(p *plan.Plan, at plan.Point) *plan.Plan {
	q := *p
	c := func(x, y float64) plan.Point { return plan.Point{X: at.X + x, Y: at.Y + y} }
	q.Site.Obstacles = append(slices.Clone(p.Site.Obstacles), plan.Obstacle{Head: plan.Head{ID: "O77"}, Kind: plan.ObstacleBoulder, Height: 1.5,
		Outline: []plan.Point{c(-0.1, -0.1), c(0.1, -0.1), c(0.1, 0.1), c(-0.1, 0.1)}})
	return &q
}

// In a bend to the left of 5 m about a centre beside the rear axle, the tail's right
// corner goes out to the right as far as √((5 + w/2)² + b²) − 5, b behind the axle,
// when the corner comes abeam of the centre: after 5·atan(b/(5 + w/2)) m. What stands
// there, past the side of the body as drawn, ends the pull before that. (closed form)
func TestTheTailSwingsIntoWhatStandsBeside(t *testing.T) {
	p, beside := bentPlan(t, 5*math.Tan(math.Pi/8), 5)
	v := p.Casualty()
	_, rear, _ := v.Axles()
	b, half := float64(v.Length)/2+float64(rear), float64(v.Width)/2
	out := math.Hypot(5+half, b) - 5
	require.Greater(t, out, half+0.02, "the tail of this vehicle swings out")
	a := followed(t, block(p, beside(0, -out-0.1+0.02)), "R1")
	require.Equal(t, part.Within, a.Moments[0].Status)
	assert.Equal(t, "casualty-meets", a.Stop)
	f := finding(a, "casualty-meets")
	require.NotNil(t, f)
	assert.EqualValues(t, "O77", f.Things[1])
	assert.Less(t, a.EndM, 5*math.Atan(b/(5+half)))
	assert.InDelta(t, a.EndM, f.Values[0].X, 1e-3)

	a = followed(t, block(p, beside(0, -out-0.1-0.02)), "R1")
	assert.Nil(t, finding(a, "casualty-meets"), "it passes by 2 cm")
}

// What stands straight ahead past the beginning of a bend is not met if the body has
// turned aside before: its outer front corner goes about the centre with
// √((r + w/2)² + a²), a ahead of the rear axle. (closed form)
func TestTheBodyTurnsBeforeWhatIsAhead(t *testing.T) {
	p, beside := bentPlan(t, 7, 6)
	v := p.Casualty()
	_, rear, _ := v.Axles()
	ahead := float64(v.Length)/2 - float64(rear)
	centre := 7 - 6*math.Tan(math.Pi/8)
	reach := math.Sqrt(math.Hypot(6+float64(v.Width)/2, ahead)*math.Hypot(6+float64(v.Width)/2, ahead) - 36) // along the first leg
	at := centre + reach + 0.15
	require.Less(t, at, 7+ahead, "before the axle has come to the corner")
	assert.Nil(t, finding(followed(t, block(p, beside(at, 0)), "R1"), "casualty-meets"))
	f := finding(followed(t, block(p, beside(centre+ahead-0.05+0.1, 0)), "R1"), "casualty-meets")
	require.NotNil(t, f, "the nose is there before the bend begins")
	assert.InDelta(t, centre-0.05, f.Values[0].X, 1e-6)
}

// A hold-back over a friction device is as much longer at the end as the casualty has
// gone: along a slope of 9°, 12 m in plan are 12 m / cos 9° of line. It reaches all the
// way, and that much of it is asked for. (closed form)
func TestAHoldBackIsPaidOutAlongTheSlope(t *testing.T) {
	p := with(seeded.Read(t, os.DirFS("../../testdata"), "held.kedge"), func(v *plan.Vehicle) { v.Stuck.WayLength = 12 })
	a := followed(t, p, "R1")
	require.InDelta(t, 12, a.EndM, 1e-9)
	assert.Nil(t, finding(a, "too-short"))
	assert.Nil(t, finding(a, "downhill-pull"), "it is held back all the way")
	f := finding(a, "hold-back-pays-out")
	require.NotNil(t, f)
	assert.InDelta(t, 7.7+12/math.Cos(9*math.Pi/180), f.Values[0].X, 0.05, "but for the height of the strap")
	assert.EqualValues(t, 7.7, f.Values[1].X)
	still := with(p, func(v *plan.Vehicle) { v.Stuck.WayLength = 0 })
	assert.Nil(t, finding(followed(t, still, "R1"), "hold-back-pays-out"), "nothing is paid out")
}

// A shown place changes no answer for the whole.
func TestWhatIsShownChangesNothing(t *testing.T) {
	p := examplePlan(t, "redirect")
	r := p.Rigs[0]
	r.Travel = quantity.Length(2.4)
	a, b := followed(t, p, "R1"), followed(t, plan.WithRig(p, 0, r), "R1")
	assert.Equal(t, a.Parts, b.Parts)
	assert.Equal(t, a.Findings, b.Findings)
}

// A pull that is given up gives no answer.
func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := travel.Assess(ctx, examplePlan(t, "redirect"), "R1", nil)
	assert.ErrorIs(t, err, context.Canceled)
}

// Dampers keep their distance from the far end of their line, whatever is hauled in;
// one that has reached the winch is off the line. (a property of a rope)
func TestDampersGoWithTheirLine(t *testing.T) {
	p := examplePlan(t, "redirect")
	a := followed(t, p, "R1")
	fromEnd := func(k *plan.Damper, stretches []part.Stretch) float64 {
		var of []float64
		for i := range stretches {
			if stretches[i].Line == k.Line {
				of = append(of, float64(stretches[i].Length))
			}
		}
		far := (1 - k.Share) * of[k.Stretch]
		for _, l := range of[k.Stretch+1:] {
			far += l
		}
		return far
	}
	r, _ := p.Rig("R1")
	require.NotEmpty(t, r.Dampers)
	for _, s := range []float64{1, 3, 4.9} {
		q, m, _ := a.Shown(p, "R1", s)
		moved, _ := q.Rig("R1")
		require.Len(t, moved.Dampers, len(r.Dampers), "%g", s)
		for i := range r.Dampers {
			assert.InDelta(t, fromEnd(&r.Dampers[i], a.Stretches), fromEnd(&moved.Dampers[i], m.Stretches), 1e-9, "%g", s)
		}
	}
	q, _, _ := a.Shown(p, "R1", 5.9) // the first has reached the fairlead by then: happens at 5.2 m
	moved, _ := q.Rig("R1")
	assert.Len(t, moved.Dampers, len(r.Dampers)-1)
}

// A joint keeps its distance from the far end of its line: it comes nearer to the winch
// by what the winch took in, and one that lies on the drum by then is gone.
func TestJointsGoWithTheirLine(t *testing.T) {
	p := examplePlan(t, "redirect")
	line := &p.Rigs[0].Lines[0]
	line.Joins = []plan.Join{{At: 1, Kind: "hook"}, {At: 20, Kind: "hook"}}
	a := followed(t, p, "R1")
	long := func(stretches []part.Stretch) (sum quantity.Length) {
		for i := range stretches {
			if stretches[i].Line == line.ID {
				sum += stretches[i].Length
			}
		}
		return sum
	}
	for _, s := range []float64{2, 4} {
		q, m, _ := a.Shown(p, "R1", s)
		moved, _ := q.Rig("R1")
		in := long(a.Stretches) - long(m.Stretches)
		require.Greater(t, in, quantity.Length(1))
		require.Len(t, moved.Lines[0].Joins, 1, "%g", s)
		assert.InDelta(t, float64(20-in), float64(moved.Lines[0].Joins[0].At), 1e-9, "%g", s)
	}
}
