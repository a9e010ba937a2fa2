package solver_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What rests on a figure that cannot be is within nothing: a vehicle's own stand
// on its body, every load on the place of a point and on what the casualty weighs.
func TestOddFiguresPassNothing(t *testing.T) {
	point := func(v *plan.Vehicle) *plan.RecoveryPoint { return &v.Recovery[0] }
	for _, c := range []struct {
		name  string
		edit  change
		finds string
		all   bool // every part hangs on it, not the truck's stand alone
	}{
		{"wheelbase over length", puller(func(v *plan.Vehicle) { v.Wheelbase, v.FrontOverhang = 6.1, 0 }), "figures-odd", false},
		{"load of the puller", puller(func(v *plan.Vehicle) { v.Load = 20_000 }), "load-heavy", false},
		{"brake of the puller", puller(func(v *plan.Vehicle) { v.BrakeForce = 800_000 }), "figures-odd", false},
		{"centre of gravity in the ground", puller(func(v *plan.Vehicle) { v.CGHeight = 0.1 }), "figures-odd", false},
		{"drum as wide as a road", winch(func(w *plan.Winch) { w.DrumWidth = 2.3 }), "figures-odd", true},
		{"sheave as large as a wheel", theBlock(func(b *plan.Block) { b.Sheave = 1.2 }), "sheave-beyond-head", true},
		{"mass of the puller", puller(func(v *plan.Vehicle) { v.Mass = 75_000 }), "mass-against-size", false},
		{"point off the body", casualty(func(v *plan.Vehicle) { point(v).Ahead = 3.2 }), "figures-odd", true},
		{"point aside", casualty(func(v *plan.Vehicle) { point(v).Left = plan.Known(quantity.Length(-1.5)) }), "figures-odd", true},
		{"point over the roof", casualty(func(v *plan.Vehicle) { point(v).Height = 2.5 }), "figures-odd", true},
		{"fairlead off the body", winch(func(w *plan.Winch) { w.Ahead = 3.6 }), "figures-odd", true},
		{"mass of the casualty", do(byRules, laden(250)), "mass-against-size", true},
		{"mass of a casualty that was measured", laden(250), "mass-against-size", false},
	} {
		a := assessed(t, c.edit)
		f, ok := findingOf(a, c.finds)
		require.True(t, ok, c.name)
		assert.Equal(t, part.Warning, f.Level, c.name)
		for i := range a.Parts {
			p := &a.Parts[i]
			stand := p.Thing == f.Things[0] && (p.Kind == part.KindSlide || p.Kind == part.KindTip)
			if c.all || stand {
				assert.NotContains(t, []part.Status{part.Within, part.Near}, p.Status, "%s: %s", c.name, p.ID)
			} else if p.ID == "A1" {
				assert.Equal(t, part.Within, p.Status, "%s: %s", c.name, p.ID)
			}
		}
		assert.False(t, a.Complete && f.Things[0] == "V2", c.name)
	}
	// A point that nothing is hooked on is nobody's matter.
	_, ok := findingOf(assessed(t, casualty(func(v *plan.Vehicle) { v.Recovery[1].Ahead = -9 })), "figures-odd")
	assert.False(t, ok)
}

// Heights on a plane that falls 15° north say so against a slope of 0, whether
// they fill it or lie along one line, and nothing against the slope they have
// (closed form).
func TestHeightsAgainstTheSlope(t *testing.T) {
	line := func(p *plan.Plan) {
		s := p.Site.Survey
		s.Points = []plan.SurveyPoint{s.Points[0], s.Points[3]}
	}
	for name, c := range map[string]change{"plane": levelled(15), "line": do(levelled(15), line)} {
		f, ok := findingOf(assessed(t, c), "slope-against-heights")
		require.True(t, ok, name)
		assert.InDelta(t, 15, valueOf(t, &f, "measured"), 1e-6, name)
		assert.InDelta(t, 0, math.Remainder(valueOf(t, &f, "toward"), 360), 1e-6, name)
		_, ok = findingOf(assessed(t, do(c, sloped(15, 0))), "slope-against-heights")
		assert.False(t, ok, name)
	}
	f, ok := findingOf(assessed(t, do(levelled(3), sloped(6, 180))), "slope-against-heights")
	require.True(t, ok, "the other way down")
	assert.InDelta(t, 3, valueOf(t, &f, "measured"), 1e-6)
	_, ok = findingOf(assessed(t, do(levelled(15), func(p *plan.Plan) {
		for i := range p.Site.Survey.Points {
			p.Site.Survey.Points[i].Z = 0
		}
	})), "slope-against-heights")
	assert.False(t, ok, "nobody measured a height")
}

// A rating that its piece cannot have is no limit that a load is within: which of
// the two figures is wrong is not known. What its own findings are about stays
// open, the rest is judged.
func TestOddRatingsPassNothing(t *testing.T) {
	for id, c := range map[string]change{
		"L1/1":     theLine(func(l *plan.Line) { l.Rating.Force *= 2.2046 }), // pounds for kilograms
		"B1":       theBlock(func(b *plan.Block) { b.Rating.Force *= 10 }),
		"S1":       theSling(func(s *plan.Sling) { s.Rating.Force *= 10 }),
		"K1":       theShackle(func(k *plan.Shackle) { k.Rating.Force *= 10 }),
		"V1/front": front(func(q *plan.RecoveryPoint) { q.Rating.Force *= 1000 }), // N for kN
		"A1":       theAnchor(func(a *plan.Anchor) { a.Rating.Force *= 1000 }),
	} {
		a := assessed(t, c)
		assert.False(t, a.Complete, id)
		assert.Equal(t, part.Undecided, partOf(t, a, id).Status, id)
		assert.Equal(t, part.Within, partOf(t, a, "V2/winch").Status, id)
	}
}

// Nothing is computed from a mass that no vehicle has: a slip of t for kg would
// show a pull that a hand can give.
func TestMassOfNoVehicle(t *testing.T) {
	for _, m := range []quantity.Mass{2.45, 99, 100_001} {
		a := assessed(t, do(byRules, laden(m)))
		f, ok := findingOf(a, "mass-odd")
		require.True(t, ok, "%v kg", m)
		assert.Equal(t, part.Warning, f.Level)
		assert.False(t, a.Resistance.Known, "%v kg", m)
		assert.False(t, a.Complete, "%v kg", m)
		for i := range a.Parts {
			assert.NotContains(t, []part.Status{part.Within, part.Near}, a.Parts[i].Status, "%v kg: %s", m, a.Parts[i].ID)
		}
		assert.True(t, assessed(t, laden(m)).Resistance.Known, "%v kg, and somebody measured what moves it", m)
	}
}

// What wheels that do not turn take in mire is not computed: no load is within
// its limit that may be more by it.
func TestLockedWheelsInMirePassNothing(t *testing.T) {
	for name, c := range map[string]change{
		"counted": stuck(func(s *plan.Stuck) { s.LockedWheels = 4 }),
		"chocked": casualty(func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll }),
	} {
		// Of a size that goes with the mass, so that nothing else is odd.
		small := do(hubDeep, casualty(func(v *plan.Vehicle) { v.Width, v.Track = 0.45, 0.4 }))
		assert.Equal(t, part.Within, partOf(t, assessed(t, small), "A1").Status, name)
		a := assessed(t, do(small, c))
		assert.False(t, a.Complete, name)
		for i := range a.Parts {
			assert.NotContains(t, []part.Status{part.Within, part.Near}, a.Parts[i].Status, "%s: %s", name, a.Parts[i].ID)
		}
		measuredSo := assessed(t, do(small, c, measured(1900)))
		assert.Equal(t, part.Within, partOf(t, measuredSo, "A1").Status, "%s: measured as it stands", name)
	}
}
