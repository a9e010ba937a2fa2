package solver_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// zoned reports whether a place lies in a zone of a kind, by the winding rule.
func zoned(a *solver.Assessment, kind part.ZoneKind, x, y float64) bool {
	return slices.ContainsFunc(a.Zones, func(z part.Zone) bool {
		turns := 0.0
		for i, p := range z.Outline {
			q := z.Outline[(i+1)%len(z.Outline)]
			ax, ay, bx, by := p.X-x, p.Y-y, q.X-x, q.Y-y
			turns += math.Atan2(ax*by-ay*bx, ax*bx+ay*by)
		}
		return z.Kind == kind && math.Abs(turns) > math.Pi
	})
}

// The user's factor is that of the rig: four times as far as HMPE's one.
func TestTheStandOffIsRaisedByTheRig(t *testing.T) {
	radius := func(a *solver.Assessment) quantity.Length {
		for _, z := range a.Zones {
			if z.Kind == part.ZoneStandOff {
				return z.Radius
			}
		}
		return 0
	}
	one, four := radius(solver.Assess(basePlan(), "R1")), radius(assessed(t, on(func(r *plan.Rig) { r.StandOff = 4 })))
	require.Positive(t, one)
	assert.InDelta(t, float64(4*one), float64(four), 1e-9)
}

// The pickup, 5.2 × 1.9 m at 0;0, goes 2 m east; without breakaway it does not
// lurch: 2 m round that.
func TestTheCasualtysZone(t *testing.T) {
	steady := stuck(func(s *plan.Stuck) { s.Breakaway = 1 })
	for _, c := range []struct {
		name        string
		change      change
		in, outside [][2]float64
	}{
		{"as it goes", steady, [][2]float64{{6.59, 0}, {-4.59, 0}, {0, 2.94}, {0, -2.94}}, [][2]float64{{6.61, 0}, {-4.61, 0}, {0, 2.96}, {0, -2.96}}},
		{"in reverse", do(steady, stuck(func(s *plan.Stuck) { s.Way = plan.WayReverse }), theLine(func(l *plan.Line) { l.Path[2].Point = "rear" }), casualty(func(v *plan.Vehicle) { v.Bearing = 270 })),
			[][2]float64{{6.59, 0}}, [][2]float64{{6.61, 0}}},
		{"as far as its doubt", do(steady, casualty(func(v *plan.Vehicle) {
			v.Doubts = []plan.Doubt{{Member: "casualty.way_length_m", Low: 1, High: 3}}
		})), [][2]float64{{7.59, 0}}, [][2]float64{{7.61, 0}}},
		{"nobody knows how far", do(steady, stuck(func(s *plan.Stuck) { s.WayLength = 0 })), [][2]float64{{24.59, 0}}, [][2]float64{{24.61, 0}}},
		// Breakaway of twice 2 kN: 2·2000/k of the line, and as the strap turns both
		// stretches it gives too; more than nothing, less than a foot.
		{"lurching", stuck(func(s *plan.Stuck) { s.Breakaway = 2 }), [][2]float64{{6.61, 0}}, [][2]float64{{6.9, 0}}},
		{"on a line of nobody knows what", do(stuck(func(s *plan.Stuck) { s.Breakaway = 2 }), theLine(func(l *plan.Line) { l.Rating = plan.Rating{} })), [][2]float64{{8.59, 0}}, [][2]float64{{8.61, 0}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := assessed(t, c.change)
			for _, p := range c.in {
				assert.True(t, zoned(a, part.ZoneCasualty, p[0], p[1]), "%v", p)
			}
			for _, p := range c.outside {
				assert.False(t, zoned(a, part.ZoneCasualty, p[0], p[1]), "%v", p)
			}
		})
	}
	// 2 kN less after it breaks loose, on 32.5 m of 37.5 · 95 kN and 2 m of strap
	// 7 % longer at 40 kN, stiffer by the square of the advantage.
	a := assessed(t, stuck(func(s *plan.Stuck) { s.Breakaway = 2 }))
	lurch := 2 * 2000 * (float64(a.Lines[0].Out)/(37.5*95e3) + 2*0.07/40e3) / (a.Advantage * a.Advantage)
	assert.True(t, zoned(a, part.ZoneCasualty, 6.6+lurch-2e-4, 0))
	assert.False(t, zoned(a, part.ZoneCasualty, 6.6+lurch+2e-4, 0))
	site := basePlan()
	site.Rigs[0] = plan.Rig{Head: plan.Head{ID: "R1"}}
	assert.False(t, zoned(solver.Assess(site, "R1"), part.ZoneCasualty, 0, 0), "nothing pulls")
}

// Pulled harder across its way out than it grips, the casualty goes nobody knows
// where: as far to every side. From the middle its corner is √(2.6² + 0.95²) off,
// then 2 m and 2 m.
func TestACasualtyThatIsNotGuidedHasAZoneAllRound(t *testing.T) {
	slips := do(stuck(func(s *plan.Stuck) { s.Breakaway = 1 }), aside(20), func(p *plan.Plan) { p.Site.Ground.Grip, p.Site.Ground.Surface = "grip.ice", "roll.gravel-firm" },
		stuck(func(s *plan.Stuck) { s.Measured = 8000 }), winch(func(w *plan.Winch) { w.Limiter = 20000 }))
	a := assessed(t, slips)
	require.Contains(t, levels(a), "side-slip")
	reach := math.Hypot(2.6, 0.95) + 4
	assert.True(t, zoned(a, part.ZoneCasualty, -reach+0.01, 0))
	assert.True(t, zoned(a, part.ZoneCasualty, 0, -reach+0.01))
	// A cross slope alone, with nothing known of the pull, does too.
	a = assessed(t, do(byRules, laden(0), aside(5)))
	assert.True(t, zoned(a, part.ZoneCasualty, -reach+0.01, 0), "how hard it is pulled is not known")
	// 2 kN to move and 4 kN to break loose, 20° off: 0.7 and 1.4 kN across, and
	// 0.07 of its weight on ice is 1.1 kN.
	for factor, loose := range map[float64]bool{1: false, 2: true} {
		a := assessed(t, do(aside(20), casualty(func(v *plan.Vehicle) { v.Grip = "grip.ice" }), stuck(func(s *plan.Stuck) { s.Breakaway = factor })))
		assert.Equal(t, loose, zoned(a, part.ZoneCasualty, -6, 0), "×%v", factor)
	}
	a = assessed(t, do(aside(5), stuck(func(s *plan.Stuck) { s.Breakaway = 1 })))
	require.NotContains(t, levels(a), "side-slip")
	assert.False(t, zoned(a, part.ZoneCasualty, -5.5, 0), "it grips")
}

// Over half of tipping the zone reaches its height of 1.9 m further to the side
// it is pulled to.
func TestACasualtyThatTipsHasAZoneToItsSide(t *testing.T) {
	tips := do(stuck(func(s *plan.Stuck) { s.Breakaway, s.Measured = 1, 8000 }), casualty(func(v *plan.Vehicle) {
		v.Bearing, v.Track, v.Grip, v.Recovery[0].Height = 65, 0.5, "grip.concrete-dry", 1.2
	}), winch(func(w *plan.Winch) { w.Limiter = 12000 }))
	a := assessed(t, tips)
	require.Contains(t, levels(a), "tips-sideways")
	b := assessed(t, do(tips, casualty(func(v *plan.Vehicle) { v.Track = 3 })))
	require.NotContains(t, levels(b), "tips-sideways")
	area := func(a *solver.Assessment) (sum float64) {
		for _, z := range a.Zones {
			for i, p := range z.Outline {
				q := z.Outline[(i+1)%len(z.Outline)]
				if z.Kind == part.ZoneCasualty {
					sum += (p.X*q.Y - p.Y*q.X) / 2
				}
			}
		}
		return sum
	}
	assert.Greater(t, area(a), area(b)+1.9*5.2-0.01)
	// Its nose points to 65°, so the line pulls it to its right, 155°: there half
	// its width, its height and 2 m, 4.85 m; on its left 2.95 m.
	e, n := plan.Heading(155)
	assert.True(t, zoned(a, part.ZoneCasualty, 4.8*e, 4.8*n))
	assert.False(t, zoned(a, part.ZoneCasualty, 4.9*e, 4.9*n))
	assert.False(t, zoned(a, part.ZoneCasualty, -3.05*e, -3.05*n))
}

// On a slope across it the casualty may tip downhill by itself; pulled uphill
// hard enough, to either side.
func TestACasualtyOnASlopeMayTipDownhill(t *testing.T) {
	across := do(stuck(func(s *plan.Stuck) { s.Breakaway = 1 }), casualty(func(v *plan.Vehicle) { v.Track, v.Grip = 1, "grip.concrete-dry" }))
	sides := func(a *solver.Assessment, bearing quantity.Degrees) (left, right bool) {
		e, n := plan.Heading(bearing + 90)
		return zoned(a, part.ZoneCasualty, -4.8*e, -4.8*n), zoned(a, part.ZoneCasualty, 4.8*e, 4.8*n)
	}
	// sin 20°·0.75/(cos 20°·0.5) = 0.55 of what rights it.
	left, right := sides(assessed(t, do(across, sloped(20, 180))), 90)
	assert.False(t, left)
	assert.True(t, right, "it falls to the south")
	left, right = sides(assessed(t, do(across, sloped(17, 180))), 90)
	assert.False(t, left || right, "sin 17°·0.75/(cos 17°·0.5) = 0.46")
	// tan 12°·0.75/0.25 = 0.64 to its left by the slope; at stall 5.1 kN across at
	// 1.2 m against that, (6.1 − 2.4)/3.8 kN·m = 0.95 to its right.
	left, right = sides(assessed(t, do(across, sloped(12, 335), stuck(func(s *plan.Stuck) { s.Measured = 8000 }), winch(func(w *plan.Winch) { w.Limiter = 12000 }),
		casualty(func(v *plan.Vehicle) { v.Bearing, v.Track, v.Recovery[0].Height = 65, 0.5, 1.2 }))), 65)
	assert.True(t, left && right, "pulled to its right, the slope to its left")
}

// A cover is what it is at the worst end of its doubt, and none if anything of
// the rig is fast to it.
func TestCoversOfTheSite(t *testing.T) {
	covered := func(cover string, c ...change) bool {
		p := who(plan.RoleSpotter, -20, -20)
		p.Cover = cover
		_, has := levels(assessed(t, do(append(c, person(p))...)))["stand-off-covered"]
		return has
	}
	oak := func(f func(*plan.Anchor)) change {
		return func(p *plan.Plan) {
			a := plan.Anchor{Head: plan.Head{ID: "A9"}, Kind: plan.AnchorTree, At: plan.Point{X: -18.99, Y: -19.35}, Trunk: 1.2, Height: 15, Health: plan.HealthAlive}
			if f != nil {
				f(&a)
			}
			p.Site.Anchors = append(p.Site.Anchors, a)
		}
	}
	slung := func(id plan.ID) change {
		return on(func(r *plan.Rig) { r.Slings = append(r.Slings, strap("S9", port(id, ""), plan.Port{})) })
	}
	doubtful := func(h *plan.Head, member string, lo, hi float64) {
		h.Doubts = []plan.Doubt{{Member: member, Low: lo, High: hi}}
	}
	assert.True(t, covered(plan.CoverGround, banked(2)))
	assert.False(t, covered(plan.CoverGround, banked(2), func(p *plan.Plan) { doubtful(&p.Site.Obstacles[0].Head, "height_m", 1.9, 2.1) }))
	assert.False(t, covered(plan.CoverGround, banked(2), slung("O1")))
	assert.False(t, covered(plan.CoverGround, banked(2), func(p *plan.Plan) { p.Site.Obstacles[0].Kind = "wall" }), "a wall is no ground")
	assert.True(t, covered(plan.CoverTimber, oak(nil)))
	assert.False(t, covered(plan.CoverTimber, oak(func(a *plan.Anchor) { doubtful(&a.Head, "trunk_m", 0.5, 1.3) })))
	assert.False(t, covered(plan.CoverTimber, oak(nil), slung("A9")))
	assert.False(t, covered(plan.CoverTimber, oak(func(a *plan.Anchor) { a.Kind = plan.AnchorRated })))
}

// How far the operator stands is told from the fairlead, at 20;15, and a cable in
// doubt reaches as far as its low end.
func TestTheCableReachesFromTheFairlead(t *testing.T) {
	from := func(c change) (x float64) {
		for _, f := range assessed(t, c).Findings {
			if f.ID == "operator-out-of-reach" {
				for _, v := range f.Values {
					if v.Name == "from" {
						x = v.X
					}
				}
			}
		}
		return x
	}
	assert.InDelta(t, math.Hypot(80, 95), from(cable(60)), 1e-9)
	doubt := puller(func(v *plan.Vehicle) { v.Doubts = []plan.Doubt{{Member: "winch.control_cable_m", Low: 120, High: 140}} })
	assert.NotZero(t, from(do(cable(130), doubt)))
	assert.Zero(t, from(cable(130)))
}

// Nobody says how far the casualty has to go: of who stands where it could be
// pulled to nobody can say that they are out of its way.
func TestAWayOfUnknownLengthLeavesPeopleUndecided(t *testing.T) {
	unknown := stuck(func(s *plan.Stuck) { s.WayLength = 0 })
	lack := part.Lack{Thing: "V1", Member: "casualty.way_length_m", Rule: "person-in-zone"}
	assert.NotNil(t, lacking(assessed(t, do(unknown, person(who(plan.RoleSpotter, 14, -3)))), lack))
	assert.Nil(t, lacking(assessed(t, do(unknown, person(who(plan.RoleSpotter, -30, -30)))), lack), "behind it")
	assert.Nil(t, lacking(assessed(t, person(who(plan.RoleSpotter, 14, -3))), lack), "known")
	strapped := do(unknown, extended(plan.HitchStraight, plan.MaterialWeb)) // no line leads to it that says how far: 50 m (ours)
	assert.NotNil(t, lacking(assessed(t, do(strapped, person(who(plan.RoleSpotter, 48, 0)))), lack))
	assert.Nil(t, lacking(assessed(t, do(strapped, person(who(plan.RoleSpotter, 70, 0)))), lack))
	lack.Member = "width_m"
	sizeless := casualty(func(v *plan.Vehicle) { v.Width = 0 })
	assert.NotNil(t, lacking(assessed(t, do(sizeless, person(who(plan.RoleSpotter, 14, -3)))), lack))
	assert.Nil(t, lacking(assessed(t, sizeless), lack), "nobody near")
}

// A sling behind a sling is loaded as well, and flies as well.
func TestASlingBehindASlingHasItsZone(t *testing.T) {
	a := assessed(t, on(func(r *plan.Rig) {
		s := strap("S2", port("A1", ""), port("K2", ""))
		r.Slings[0].On = port("K2", "")
		r.Slings[0].Length, s.Length = 1, 1
		r.Slings = append(r.Slings, s)
		r.Shackles = append(r.Shackles, plan.Shackle{Head: plan.Head{ID: "K2"}, Kind: plan.ShackleBow, Rating: working(60000), At: plan.Point{X: 21, Y: -1}, Body: 0.02})
	}))
	for _, id := range []plan.ID{"S1", "S2"} {
		assert.True(t, slices.ContainsFunc(a.Zones, func(z part.Zone) bool { return z.Kind == part.ZoneRecoil && z.Thing == id }), "%s", id)
	}
	assert.False(t, a.ZonesMissing)
}

// The truck on ice bears the pull to move of 2 kN and not the 20 kN at stall:
// its path is drawn all the same.
func TestAVehicleThatSlidesAtStallHasItsPath(t *testing.T) {
	icy := puller(func(v *plan.Vehicle) { v.Grip = "grip.ice" })
	path := func(a *solver.Assessment) bool {
		return slices.ContainsFunc(a.Zones, func(z part.Zone) bool { return z.Kind == part.ZoneSlide && z.Thing == "V2" })
	}
	a := assessed(t, do(icy, winch(func(w *plan.Winch) { w.Limiter = 20000 })))
	p := partOf(t, a, "V2/slide")
	move, _ := p.ToFailure(p.Move)
	stall, _ := p.ToFailure(p.Stall)
	require.Less(t, move, 1.)
	require.Greater(t, stall, 1.)
	assert.True(t, path(a))
	assert.False(t, path(assessed(t, do(icy, winch(func(w *plan.Winch) { w.Limiter = 2500 })))))
}

// Nobody knows what the winch gives at stall; breaking loose takes twice the
// pull to move, over a quarter of what the tree holds.
func TestATreeMayFallAsTheCasualtyBreaksLoose(t *testing.T) {
	falls := func(breakaway float64) bool {
		a := assessed(t, do(measuredTree(15, 15000), winch(func(w *plan.Winch) { w.LinePull, w.Limiter = 0, 0 }), stuck(func(s *plan.Stuck) { s.Breakaway = breakaway })))
		p := partOf(t, a, "A1")
		require.False(t, p.Stall.Known)
		share, _ := p.ToFailure(p.Move)
		require.Less(t, share, 0.25)
		_, has := levels(a)["tree-may-fall"]
		return has
	}
	assert.True(t, falls(2))
	assert.False(t, falls(1))
}
