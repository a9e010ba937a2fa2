package zone_test

import (
	"math"
	"os"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/facts/factstest"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/zone"
)

// near fails on NaN, which InDelta lets pass when both are.
func near(t interface {
	Helper()
	Errorf(string, ...any)
}, want, got, within float64, why string) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: got %.7g, want %.7g ± %g", why, got, want, within)
	}
}

func published(t testing.TB, file, id string) factstest.Case {
	t.Helper()
	return factstest.ByID(t, factstest.Published(t, os.DirFS("../../testdata/published"), file), id)
}

func at(x, y float64) plan.Point { return plan.Point{X: x, Y: y} }

// Storyboard A, steps 15 to 21: fairlead, block at Tree 1, the casualty's point.
var (
	fairlead = at(29.95, 7.60)
	block    = at(23.75, 18.43)
	tree1    = at(24, 19.5)
	casualty = at(8.1, 8.5)
)

func redirect() zone.Line {
	return zone.Line{
		ID: "line", Material: plan.MaterialHMPE,
		Stretches: []zone.Stretch{{Part: "line/0", A: fairlead, B: block, Block: "block"}, {Part: "line/1", A: block, B: casualty}},
		Ends:      []zone.End{{Thing: "winch vehicle", Word: "fairlead", At: fairlead, From: block}, {Thing: "casualty", Word: "hook-on point", At: casualty, From: block}},
	}
}

func boardA() zone.Input {
	return zone.Input{Lines: []zone.Line{redirect()}, Releases: []zone.Release{{Thing: "block", At: block}}}
}

var boulder = plan.Obstacle{Head: plan.Head{ID: "boulder"}, Outline: []plan.Point{at(16.5, 6.5), at(19, 6), at(21, 7.5), at(20.5, 10), at(18, 11), at(16, 9)}}

func rect(x0, y0, x1, y1 float64) []plan.Point {
	return []plan.Point{at(x0, y0), at(x1, y0), at(x1, y1), at(x0, y1)}
}

func peopleA(p ...plan.Person) zone.PeopleIn {
	in := boardA()
	return zone.PeopleIn{
		People: p, Zones: zone.Zones(in, nil), Stretches: in.Lines[0].Stretches, Ends: in.Lines[0].Ends,
		Obstacles: []plan.Obstacle{boulder},
		Vehicles:  []zone.Vehicle{{ID: "casualty", Footprint: rect(2.9, 7.55, 8.1, 9.45)}},
	}
}

func person(role string, p plan.Point) plan.Person {
	return plan.Person{Head: plan.Head{ID: "spotter 1"}, Role: role, At: p}
}

func TestStoryboardA(t *testing.T) {
	l := redirect()
	// 18.54 + 12.48 m, HMPE: once the line out. The board rounds each stretch.
	near(t, 31.02, l.OutM(), 0.01, "line out")
	ring, row := l.RingM(0)
	near(t, l.OutM(), ring, 1e-12, "k = 1")
	assert.Equal(t, facts.StandoffOther, row)

	t.Run("spotter at 22;13", func(t *testing.T) {
		var found []part.Finding
		s := zone.People(peopleA(person(plan.RoleSpotter, at(22, 13))), &found)[0]
		// The storyboard names bight and stand-off; the release sector,
		// 20° about the block's resultant as long as the ring, covers it too.
		assert.Equal(t, []part.ZoneKind{part.ZoneBight, part.ZoneRelease, part.ZoneStandOff}, s.Inside)
		require.Len(t, found, 1)
		assert.Equal(t, "person-in-zone", found[0].ID)
		assert.Equal(t, part.Danger, found[0].Level)
		assert.Equal(t, "bight", found[0].Values[0].Text)
		require.True(t, s.OutKnown)
		outsideAllBut(t, s.Out, part.ZoneStandOff)
		assert.True(t, s.OutRing, "outside all but the ring, which takes a marked cover")
	})
	t.Run("spotter at 36;16", func(t *testing.T) {
		var found []part.Finding
		s := zone.People(peopleA(person(plan.RoleSpotter, at(36, 16))), &found)[0]
		assert.Equal(t, []part.ZoneKind{part.ZoneStandOff}, s.Inside)
		require.Len(t, found, 1)
		assert.Equal(t, "person-in-stand-off", found[0].ID)
		assert.Equal(t, part.Warning, found[0].Level)
		assert.Equal(t, plan.ID("winch vehicle"), found[0].Things[1])
		// Storyboard: 10.3 m from the fairlead.
		near(t, math.Hypot(36-29.95, 16-7.60), found[0].Values[0].X, 1e-9, "from the fairlead")
		assert.Equal(t, "fairlead", found[0].Values[1].Text)
	})
	t.Run("dragged across the first stretch", func(t *testing.T) {
		// bight → bight and recoil → recoil → stand-off, release aside.
		zonesA := zone.Zones(boardA(), nil)
		var seen []string
		for i := range 201 {
			f := float64(i) / 200
			w := ""
			for _, k := range []part.ZoneKind{part.ZoneBight, part.ZoneRecoil} {
				if within(zonesA, k, at(22+14*f, 13+3*f)) {
					w += string(k) + " "
				}
			}
			if len(seen) == 0 || seen[len(seen)-1] != w {
				seen = append(seen, w)
			}
		}
		assert.Equal(t, []string{"bight ", "bight recoil ", "recoil ", ""}, seen)
	})
}

func outsideAllBut(t *testing.T, p plan.Point, but ...part.ZoneKind) {
	t.Helper()
	s := zone.People(peopleA(person(plan.RoleSpotter, p)), nil)[0]
	for _, k := range s.Inside {
		assert.Contains(t, but, k)
	}
}

func TestPublishedZones(t *testing.T) {
	t.Run("stand-off of 30 m", func(t *testing.T) {
		c := published(t, "anchors.toml", "anchors.z1")
		var got []float64
		for _, m := range []string{plan.MaterialHMPE, plan.MaterialKinetic, plan.MaterialWire} {
			l := zone.Line{Material: m, Stretches: []zone.Stretch{{A: at(0, 0), B: at(c.In(t, "length_m"), 0)}}}
			r, _ := l.RingM(0)
			got = append(got, r)
		}
		c.Check(t, "radius_m", got...)
	})
	t.Run("strap of 9 m", func(t *testing.T) {
		c := published(t, "anchors.toml", "anchors.z2")
		l := zone.Line{Material: plan.MaterialKinetic, Stretches: []zone.Stretch{{A: at(0, 0), B: at(0, c.In(t, "length_m"))}}}
		r, _ := l.RingM(0)
		c.Check(t, "radius_m", r)
	})
	t.Run("width of the cone", func(t *testing.T) {
		c := published(t, "anchors.toml", "anchors.z3")
		zs := zone.Zones(zone.Input{Lines: []zone.Line{{ID: "l", Material: plan.MaterialHMPE, Stretches: []zone.Stretch{{A: at(0, 0), B: at(30, 0)}}}}}, nil)
		for _, z := range zs {
			if z.Kind == part.ZoneRecoil && z.Outline[0] == at(0, 0) {
				p := z.Outline[1] // on the edge of the sector
				c.Check(t, "half_width_m", math.Abs(p.Y/p.X)*c.In(t, "length_m"))
				near(t, 60, math.Hypot(p.X, p.Y), 1e-9, "30 m of stretch and past its end by the line out")
			}
		}
	})
}

func TestEachKindOfZone(t *testing.T) {
	foot := rect(-2.5, -1, 2.5, 1)
	east := r3.Vector{X: 1}
	cases := []struct {
		name    string
		in      zone.Input
		kind    part.ZoneKind
		in1     []plan.Point // inside
		outside []plan.Point
	}{
		// A 20 m stretch alone: sectors to 40 m, 10° either side.
		{"recoil", zone.Input{Lines: []zone.Line{{ID: "l", Material: plan.MaterialHMPE, Stretches: []zone.Stretch{{A: at(0, 0), B: at(20, 0)}}}}}, part.ZoneRecoil,
			[]plan.Point{at(39.9, 0), at(30, 5.2), at(-19.9, 0)}, []plan.Point{at(40.1, 0), at(30, 5.4), at(-20.2, 0)}},
		// Stretches of 10, 10, 10 m round a square: everything it encloses.
		{"bight", zone.Input{Lines: []zone.Line{{ID: "l", Stretches: []zone.Stretch{{A: at(0, 0), B: at(0, 10), Block: "b1"}, {A: at(0, 10), B: at(10, 10), Block: "b2"}, {A: at(10, 10), B: at(10, 0)}}}}}, part.ZoneBight,
			[]plan.Point{at(5, 0.01), at(5, 9.9), at(0.1, 5)}, []plan.Point{at(5, -0.1), at(5, 10.1), at(-0.1, 5)}},
		// Block of a right-angled bend, 10 m each way: resultant along the
		// diagonal, as long as the ring of 20 m.
		{"release", zone.Input{Lines: []zone.Line{{ID: "l", Material: plan.MaterialHMPE, Stretches: []zone.Stretch{{A: at(10, 0), B: at(0, 0), Block: "b"}, {A: at(0, 0), B: at(0, 10)}}}},
			Releases: []zone.Release{{Thing: "b", At: at(0, 0)}}}, part.ZoneRelease,
			[]plan.Point{polar(45, 19.99), polar(64, 10), polar(26, 10)}, []plan.Point{polar(45, 20.05), polar(66, 10), polar(24, 10), polar(225, 1)}},
		{"release of the solved force", zone.Input{Lines: []zone.Line{{ID: "l", Material: plan.MaterialHMPE, Stretches: []zone.Stretch{{A: at(0, 0), B: at(10, 0)}}}},
			Releases: []zone.Release{{Thing: "b", At: at(0, 0), Force: r3.Vector{Y: 5000, Z: 1}, Known: true}}}, part.ZoneRelease,
			[]plan.Point{at(0, 9.9), polar(71, 9)}, []plan.Point{at(9, 0), polar(69, 9)}},
		// Nothing tells which way: all round.
		{"release of nobody knows what", zone.Input{Lines: []zone.Line{{ID: "l", Material: plan.MaterialHMPE, Stretches: []zone.Stretch{{A: at(0, 0), B: at(10, 0)}}}},
			Releases: []zone.Release{{Thing: "b", At: at(50, 0)}}}, part.ZoneRelease,
			[]plan.Point{at(59, 0), at(41, 0), at(50, 9)}, []plan.Point{at(61, 0)}},
		// Wire: twice the line out round both ends.
		{"stand-off", zone.Input{Lines: []zone.Line{{ID: "l", Material: plan.MaterialWire, Stretches: []zone.Stretch{{A: at(0, 0), B: at(10, 0)}}}}}, part.ZoneStandOff,
			[]plan.Point{at(29.9, 0), at(-19.9, 0), at(0, 19.9)}, []plan.Point{at(30.1, 0), at(-20.1, 0)}},
		// 20 m tree pulled east at 26 %: 30 m within 45°, and its crown of 4 m.
		{"tree", zone.Input{Trees: []zone.Tree{{Thing: "t", HeightM: 20, CrownM: 4, Pull: east, ToFailure: 0.26, Known: true}}}, part.ZoneTree,
			[]plan.Point{at(29.9, 0), polar(44, 20), at(-3.9, 0)}, []plan.Point{at(30.1, 0), polar(46, 20), at(-4.1, 0)}},
		{"tree of unknown hold", zone.Input{Trees: []zone.Tree{{Thing: "t", HeightM: 20, Pull: east}}}, part.ZoneTree,
			[]plan.Point{at(29.9, 0)}, []plan.Point{at(-1, 0)}},
		{"tree pulled nobody knows where", zone.Input{Trees: []zone.Tree{{Thing: "t", HeightM: 20}}}, part.ZoneTree,
			[]plan.Point{at(29.9, 0), at(-29.9, 0)}, []plan.Point{at(-30.1, 0)}},
		// 30 m is assumed for a tree nobody measured (ours).
		{"tree of unknown height", zone.Input{Trees: []zone.Tree{{Thing: "t", Pull: east}}}, part.ZoneTree,
			[]plan.Point{at(44.9, 0)}, []plan.Point{at(45.1, 0)}},
		// Its width and 2 m on each side, downhill.
		{"roll-away", zone.Input{Rolls: []zone.Roll{{Thing: "v", Footprint: foot, Dir: east, RunM: 12}}}, part.ZoneRollAway,
			[]plan.Point{at(14.4, 0), at(10, 2.9), at(10, -2.9)}, []plan.Point{at(14.6, 0), at(10, 3.1), at(-2.6, 0)}},
		{"roll-away without an end", zone.Input{Rolls: []zone.Roll{{Thing: "v", Footprint: foot, Dir: east}}}, part.ZoneRollAway,
			[]plan.Point{at(52.4, 0)}, []plan.Point{at(52.6, 0)}},
		// As wide as the footprint's diagonal, √29: it may turn as it slides.
		{"slide path", zone.Input{Slides: []zone.Slide{{Thing: "v", Footprint: foot, Dir: east, RunM: 5}}}, part.ZoneSlide,
			[]plan.Point{at(7.4, 0), at(5, 2.69)}, []plan.Point{at(7.6, 0), at(5, 2.70)}},
		{"slide path nobody knows where", zone.Input{Slides: []zone.Slide{{Thing: "v", Footprint: foot, RunM: 5}}}, part.ZoneSlide,
			[]plan.Point{at(-7.6, 0), at(0, 7.6)}, []plan.Point{at(-7.8, 0)}},
		// Its height and 2 m on both sides of it.
		{"uprighting", zone.Input{Uprights: []zone.Upright{{Thing: "v", Footprint: foot, Ahead: east, HeightM: 1.9}}}, part.ZoneRollAway,
			[]plan.Point{at(0, 4.89), at(0, -4.89)}, []plan.Point{at(0, 4.91), at(2.6, 0)}},
		// 5 × 2 m, 4 m east and 1 m of lurch, 2 m round: from -4.5 to 9.5, 3 m to
		// each side; round its corners.
		{"casualty", casualtyOf(func(c *zone.Casualty) {}), part.ZoneCasualty,
			[]plan.Point{at(9.49, 0), at(-4.49, 0), at(0, 2.99), at(0, -2.99), at(8.9, 2.4)}, []plan.Point{at(9.51, 0), at(-4.51, 0), at(0, 3.01), at(0, -3.01), at(9, 2.5)}},
		// 20 m where nobody says how far, 2 m where nobody knows the lurch (ours).
		{"casualty that goes nobody knows how far", casualtyOf(func(c *zone.Casualty) { c.TravelM = 0 }), part.ZoneCasualty,
			[]plan.Point{at(25.49, 0)}, []plan.Point{at(25.51, 0)}},
		{"casualty on a line nobody knows", casualtyOf(func(c *zone.Casualty) { c.LurchGone = true }), part.ZoneCasualty,
			[]plan.Point{at(10.49, 0)}, []plan.Point{at(10.51, 0)}},
		// Tipping north it covers its height of 1.9 m there, and 2 m.
		{"casualty that may tip", casualtyOf(func(c *zone.Casualty) { c.Sides, c.HeightM = []r3.Vector{{Y: 0.3}}, 1.9 }), part.ZoneCasualty,
			[]plan.Point{at(0, 4.89), at(7, 4.89), at(0, -2.99)}, []plan.Point{at(0, 4.91), at(0, -3.01)}},
		{"casualty of unknown height that may tip", casualtyOf(func(c *zone.Casualty) { c.Sides = []r3.Vector{{Y: -0.3}} }), part.ZoneCasualty,
			[]plan.Point{at(0, -5.99)}, []plan.Point{at(0, -6.01), at(0, 3.01)}},
		// Not guided: as far to every side, from the middle its corner √29/2, 5 m
		// and 2 m.
		{"casualty nobody knows where", casualtyOf(func(c *zone.Casualty) { c.Loose = true }), part.ZoneCasualty,
			[]plan.Point{at(-9.69, 0), at(0, 9.69)}, []plan.Point{at(-9.71, 0), at(0, 9.71)}},
		{"casualty without a way out", casualtyOf(func(c *zone.Casualty) { c.Dir = r3.Vector{} }), part.ZoneCasualty,
			[]plan.Point{at(-9.69, 0)}, []plan.Point{at(-9.71, 0)}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			zs := zone.Zones(c.in, nil)
			for _, p := range c.in1 {
				assert.True(t, within(zs, c.kind, p), "%v should be inside", p)
			}
			for _, p := range c.outside {
				assert.False(t, within(zs, c.kind, p), "%v should be outside", p)
			}
			for _, z := range zs {
				assert.NotEmpty(t, z.Outline)
				assert.Positive(t, turn(z.Outline), "counter-clockwise: %s", z.Kind)
				if z.Fact != "" {
					_, ok := facts.Get(facts.ID(z.Fact))
					assert.True(t, ok, "no row %q", z.Fact)
				}
			}
		})
	}
}

// casualtyOf is one of 5 × 2 m at 0;0 that goes 4 m east and lurches 1 m.
func casualtyOf(f func(*zone.Casualty)) zone.Input {
	c := zone.Casualty{Thing: "v", Footprint: rect(-2.5, -1, 2.5, 1), Dir: r3.Vector{X: 1}, TravelM: 4, LurchM: 1}
	f(&c)
	return zone.Input{Casualty: &c}
}

func polar(deg, r float64) plan.Point {
	return at(r*math.Cos(deg*math.Pi/180), r*math.Sin(deg*math.Pi/180))
}

func turn(ps []plan.Point) float64 {
	var a float64
	for i, p := range ps {
		q := ps[(i+1)%len(ps)]
		a += p.X*q.Y - q.X*p.Y
	}
	return a
}

// within reports whether a place, a point without a body, lies in a zone.
func within(zs []part.Zone, kind part.ZoneKind, p plan.Point) bool {
	return slices.ContainsFunc(zs, func(z part.Zone) bool { return z.Kind == kind && encloses(z.Outline, p) })
}

// encloses is the winding rule, apart from the code under test.
func encloses(ps []plan.Point, p plan.Point) bool {
	turns := 0.0
	for i, a := range ps {
		b := ps[(i+1)%len(ps)]
		ax, ay, bx, by := a.X-p.X, a.Y-p.Y, b.X-p.X, b.Y-p.Y
		turns += math.Atan2(ax*by-ay*bx, ax*bx+ay*by)
	}
	return math.Abs(turns) > math.Pi
}

func TestATreeUnderAQuarterHasNoZone(t *testing.T) {
	assert.Empty(t, zone.Zones(zone.Input{Trees: []zone.Tree{{Thing: "t", HeightM: 20, Known: true, ToFailure: 0.25}}}, nil))
	assert.NotEmpty(t, zone.Zones(zone.Input{Trees: []zone.Tree{{Thing: "t", HeightM: 20, Known: true, ToFailure: math.NaN()}}}, nil))
}

func TestUnknownMaterialTakesTheWidestRing(t *testing.T) {
	l := redirect()
	l.Material = ""
	r, row := l.RingM(0)
	near(t, 2*l.OutM(), r, 1e-9, "as wire")
	assert.Equal(t, facts.StandoffWire, row)
	// A stretchy strap anywhere makes the whole line's ring wider.
	l = redirect()
	l.Straps = []zone.Strap{{ID: "strap", Material: plan.MaterialKinetic, A: tree1, B: block, LengthM: 3}}
	r, _ = l.RingM(0)
	near(t, 1.5*(redirectOut()+3), r, 1e-9, "stretch strap in the chain")
	// The user raises it, never lowers it.
	r, _ = l.RingM(2)
	near(t, 2*(redirectOut()+3), r, 1e-9, "raised")
	r, _ = l.RingM(0.5)
	near(t, 1.5*(redirectOut()+3), r, 1e-9, "not lowered")
}

func redirectOut() float64 { l := redirect(); return l.OutM() }

func TestNothingIsDrawnFromNoNumbers(t *testing.T) {
	nan := at(math.NaN(), 0)
	for name, in := range map[string]zone.Input{
		"line":     {Lines: []zone.Line{{ID: "x", Stretches: []zone.Stretch{{A: nan, B: at(1, 1)}}}}},
		"strap":    {Lines: []zone.Line{{ID: "x", Straps: []zone.Strap{{ID: "x", A: nan}}}}},
		"extra":    {Lines: []zone.Line{{ID: "x", ExtraM: math.NaN(), Stretches: []zone.Stretch{{B: at(1, 1)}}}}},
		"release":  {Releases: []zone.Release{{Thing: "x", At: nan}}},
		"no ring":  {Releases: []zone.Release{{Thing: "x"}}},
		"tree":     {Trees: []zone.Tree{{Thing: "x", At: nan}}},
		"height":   {Trees: []zone.Tree{{Thing: "x", HeightM: math.NaN()}}},
		"roll":     {Rolls: []zone.Roll{{Thing: "x", Footprint: []plan.Point{nan, nan, nan}}}},
		"slide":    {Slides: []zone.Slide{{Thing: "x"}}},
		"upright":  {Uprights: []zone.Upright{{Thing: "x"}}},
		"casualty": {Casualty: &zone.Casualty{Thing: "x"}},
		"travel":   {Casualty: &zone.Casualty{Thing: "x", Footprint: rect(0, 0, 5, 2), TravelM: math.Inf(1)}},
	} {
		t.Run(name, func(t *testing.T) {
			var found []part.Finding
			zs := zone.Zones(in, &found)
			require.NotEmpty(t, found, "a zone that cannot be drawn raises its voice")
			assert.Equal(t, "zone-not-drawn", found[0].ID)
			for _, z := range zs {
				for _, p := range z.Outline {
					assert.False(t, math.IsNaN(p.X) || math.IsNaN(p.Y) || math.IsInf(p.X, 0))
				}
			}
		})
	}
}

func TestEnergyOfPublishedCases(t *testing.T) {
	for _, id := range []string{"anchors.e1", "anchors.e2", "anchors.e3"} {
		t.Run(id, func(t *testing.T) {
			c := published(t, "anchors.toml", id)
			s := zone.Spring{ForceN: c.In(t, "tension_n"), LengthM: c.In(t, "length_m"), StiffnessN: c.In(t, "ea_n"), MassKgPerM: c.In(t, "mass_kg_per_m")}
			e, _ := s.Stored()
			v, ok := s.OwnSpeed()
			require.True(t, ok)
			c.Check(t, "energy_j", float64(e))
			c.Check(t, "recoil_m_per_s", float64(v))
			// The identity of the estimate.
			near(t, float64(e), s.MassKgPerM*s.LengthM*float64(v*v)/2, 1e-9*float64(e), "½·m′·L·v₀² = E")
		})
	}
	for _, id := range []string{"gear.35", "gear.36", "gear.37"} {
		t.Run(id, func(t *testing.T) {
			c := published(t, "gear.toml", id)
			s := zone.Spring{ForceN: c.In(t, "tension_n"), LengthM: c.In(t, "length_m"), StiffnessN: c.In(t, "ae_n")}
			e, ok := s.Stored()
			require.True(t, ok)
			c.Check(t, "energy_kj", float64(e)/1000)
		})
	}
	t.Run("gear.46", func(t *testing.T) {
		c := published(t, "gear.toml", "gear.46")
		s := zone.Spring{ForceN: c.In(t, "tension_n"), LengthM: c.In(t, "length_m"), BreakN: c.In(t, "breaking_n"), BreakStrain: c.In(t, "break_strain"), Exponent: c.In(t, "exponent"), MassKgPerM: 0.36}
		e, ok := s.Stored()
		require.True(t, ok)
		c.Check(t, "energy_kj", float64(e)/1000)
		v, _ := s.OwnSpeed()
		near(t, float64(e), s.MassKgPerM*s.LengthM*float64(v*v)/2, 1e-9*float64(e), "the identity, stiffening")
	})
	t.Run("trade.energy-order", func(t *testing.T) {
		c := published(t, "trade.toml", "trade.energy-order")
		var got []float64
		for _, ae := range c.Ins(t, "ae_n") {
			e, _ := zone.Spring{ForceN: c.In(t, "tension_n"), LengthM: c.In(t, "length_m"), StiffnessN: ae}.Stored()
			got = append(got, float64(e)/1000)
		}
		c.Check(t, "energy_kj", got...)
	})
	for _, id := range []string{"anchors.e5", "anchors.e6"} {
		t.Run(id, func(t *testing.T) {
			c := published(t, "anchors.toml", id)
			res := zone.Recoil(zone.RecoilIn{HardwareKg: c.In(t, "hardware_kg"), Move: zone.Pulled{Springs: []zone.Spring{{
				ForceN: c.In(t, "tension_n"), LengthM: c.In(t, "length_m"), StiffnessN: c.In(t, "ea_n"), MassKgPerM: c.In(t, "mass_kg_per_m")}}}}, nil, nil)
			require.True(t, res.SpeedKnown)
			c.Check(t, "bound_m_per_s", float64(res.Hardware))
			if id == "anchors.e6" {
				c.Check(t, "energy_j", float64(res.HardwareEnergy))
				near(t, float64(res.Hardware), float64(res.Estimate), 0, "the source: the m/3 estimate (43.6) must not be used here")
				return
			}
			c.Check(t, "estimate_m_per_s", float64(res.Estimate))
			c.Check(t, "energy_kj", 3*float64(res.Estimate*res.Estimate)/2/1000)
		})
	}
	t.Run("anchors.e8", func(t *testing.T) {
		c := published(t, "anchors.toml", "anchors.e8")
		r := c.In(t, "range_yd") * float64(quantity.Yard)
		near(t, r, float64(zone.Flight(quantity.Speed(c.Want(t, "speed_m_per_s")))), 2*c.ToleranceRel*r, "the range goes by the square of the speed")
	})
}

func TestEnergiesAddInSeries(t *testing.T) {
	hmpe := zone.Spring{ForceN: 40_000, LengthM: 30, StiffnessN: 2.571e6, MassKgPerM: 0.048}
	nylon := zone.Spring{ForceN: 40_000, LengthM: 9, StiffnessN: 0.4e6, MassKgPerM: 0.36}
	a := zone.Recoil(zone.RecoilIn{Move: zone.Pulled{Springs: []zone.Spring{hmpe}}}, nil, nil)
	b := zone.Recoil(zone.RecoilIn{Move: zone.Pulled{Springs: []zone.Spring{nylon}}}, nil, nil)
	ab := zone.Recoil(zone.RecoilIn{Move: zone.Pulled{Springs: []zone.Spring{hmpe, nylon}}}, nil, nil)
	near(t, float64(a.Energy+b.Energy), float64(ab.Energy), 1e-6, "sum of the two")
	assert.GreaterOrEqual(t, ab.End, a.End, "never below the line's own F/√(EA·m′)")
	assert.GreaterOrEqual(t, ab.End, b.End)
	heavy := zone.Recoil(zone.RecoilIn{Move: zone.Pulled{Springs: []zone.Spring{hmpe}}, HardwareKg: 3}, nil, nil)
	near(t, math.Sqrt(2*float64(heavy.Energy)/(3+0.048*30/3)), float64(heavy.Estimate), 1e-9, "the estimate in closed form")
	// At stall, of twice the pull, four times the energy; straps count.
	twice := zone.Pulled{Springs: []zone.Spring{hmpe}, Straps: []zone.Spring{nylon}}
	twice.Springs[0].ForceN, twice.Straps[0].ForceN = 80_000, 80_000
	both := zone.Recoil(zone.RecoilIn{Move: zone.Pulled{Springs: []zone.Spring{{ForceN: 40_000, LengthM: 30, StiffnessN: 2.571e6, MassKgPerM: 0.048}}, Straps: []zone.Spring{{ForceN: 40_000, LengthM: 9, StiffnessN: 0.4e6}}}, Stall: twice}, nil, nil)
	near(t, float64(ab.Energy), float64(both.Move), 1e-6, "to move")
	near(t, 4*float64(ab.Energy), float64(both.Stall), 1e-6, "at stall")
	assert.Equal(t, both.Stall, both.Energy)
	near(t, math.Sqrt(2*float64(both.Stall)/(0.048*30)), float64(both.End), 1e-9, "all of it in the line's own mass")
	unknown := zone.Recoil(zone.RecoilIn{Move: zone.Pulled{Springs: []zone.Spring{hmpe, {ForceN: 40_000, LengthM: 3}}}}, nil, nil)
	assert.False(t, unknown.EnergyKnown)
}
