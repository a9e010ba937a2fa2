package zone_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
	"kedge/solver/zone"
)

// An arc is drawn by tangents that meet outside it, one for each 5° of it: of a
// sector of half an angle h with radius r, n = 2h/5° of them, the outline has n + 3
// corners, none beside the sector, and the area n·r²·tan(h/n). (closed form)
func TestASectorIsTheTangentsOfItsArc(t *testing.T) {
	zs := zone.Zones(zone.Input{Lines: []zone.Line{{ID: "l", Material: plan.MaterialHMPE, Stretches: []zone.Stretch{{A: at(1, 2), B: at(13, 2)}}}}}, nil)
	sectors := 0
	for _, z := range zs {
		if z.Kind != part.ZoneRecoil {
			continue
		}
		sectors++
		const n, half = 4, 10.0
		r := 12 + 12*facts.RecoilPastEnd.Value() // its length, and past the other end
		assert.Len(t, z.Outline, n+3)
		near(t, n*r*r*math.Tan(half/n*math.Pi/180), terrain.Area(z.Outline), 1e-9, "area")
		tip := z.Outline[0]
		for _, p := range z.Outline[1:] {
			off := math.Abs(math.Atan2(p.Y-tip.Y, math.Abs(p.X-tip.X)))
			assert.LessOrEqual(t, off, half*math.Pi/180+1e-9)
			assert.GreaterOrEqual(t, math.Hypot(p.X-tip.X, p.Y-tip.Y), r-1e-9)
		}
	}
	assert.Equal(t, 2, sectors)
}

// The corners of a casualty's zone are rounded by tangents too, one for each 15° of a
// turn: 24 round a rectangle of a by b with a margin m, of the area
// a·b + 2(a + b)·m + 24·m²·tan 7.5°. (closed form)
func TestACasualtysCornersAreRounded(t *testing.T) {
	zs := zone.Zones(casualtyOf(func(*zone.Casualty) {}), nil)
	require.Len(t, zs, 1)
	m := facts.CasualtyMargin.Value()
	assert.Len(t, zs[0].Outline, 24)
	near(t, 10*2+2*(10+2)*m+24*m*m*math.Tan(7.5*math.Pi/180), terrain.Area(zs[0].Outline), 1e-9, "area")
}

// A casualty that may go anywhere and may tip reaches as far as it is high to every
// side: √29/2 to its corner, 5 m on its way, 2 m of margin, and 1.9 m.
func TestACasualtyThatMayTipAnywhere(t *testing.T) {
	zs := zone.Zones(casualtyOf(func(c *zone.Casualty) { c.Loose, c.Sides, c.HeightM = true, []r3.Vector{{Y: 1}}, 1.9 }), nil)
	require.Len(t, zs, 1)
	r := math.Sqrt(29)/2 + 5 + facts.CasualtyMargin.Value() + 1.9
	near(t, 72*r*r*math.Tan(2.5*math.Pi/180), terrain.Area(zs[0].Outline), 1e-9, "72 tangents about a circle")
}

// Whoever's half metre ends a hair from a zone is in it, a micrometre at most.
func TestAHairFromAZone(t *testing.T) {
	in := zone.PeopleIn{Zones: []part.Zone{{Kind: part.ZoneRecoil, Thing: "line", Outline: rect(0, 0, 1, 1)}}}
	for _, c := range []struct {
		away float64
		in   bool
	}{{0.5e-6, true}, {-0.5e-6, true}, {2e-6, false}} {
		for _, p := range []plan.Point{at(1.5+c.away, 0.5), at(-0.5-c.away, 0.5), at(0.5, 1.5+c.away), at(0.5, -0.5-c.away)} {
			in.People = []plan.Person{person(plan.RoleBystander, p)}
			s := zone.People(in, nil)[0]
			assert.Equal(t, c.in, len(s.Inside) > 0, "%v", p)
			assert.Equal(t, c.in, s.OutKnown, "whoever is in none need not leave: %v", p)
		}
	}
}

// Without line ends the nearest end of a stretch is told, of four 3-4-5 triangles.
func TestTheNearestEndOfAStretch(t *testing.T) {
	in := zone.PeopleIn{People: []plan.Person{person(plan.RoleBystander, at(3, 4))},
		Stretches: []zone.Stretch{{A: at(9, 12), B: at(0, 0)}, {A: at(-3, -4), B: at(15, 20)}}}
	assert.InDelta(t, 5, float64(zone.People(in, nil)[0].EndM), 1e-12)
}

// A vehicle that covers no ground is none to sit in.
func TestNobodySitsInAVehicleWithoutGround(t *testing.T) {
	p := person(plan.RoleDriver, at(30, 40))
	p.Vehicle = "V9"
	s := zone.People(zone.PeopleIn{People: []plan.Person{p}, Vehicles: []zone.Vehicle{{ID: "V9"}}}, nil)[0]
	assert.Empty(t, s.Vehicle)
	assert.Equal(t, at(30, 40), s.At)
}

// Of two cables the nearer winch's is the one that is asked: 3 m off with 2 m of
// cable, the other 9 m off with 5 m.
func TestTheNearerCable(t *testing.T) {
	in := zone.PeopleIn{People: []plan.Person{person(plan.RoleOperator, at(0, 0))}}
	far := zone.Control{Vehicle: "V1", At: at(9, 0), Kind: plan.ControlCable, CableM: 5}
	near := zone.Control{Vehicle: "V2", At: at(0, 3), Kind: plan.ControlCable, CableM: 2}
	for _, in.Controls = range [][]zone.Control{{far, near}, {near, far}} {
		var found []part.Finding
		zone.People(in, &found)
		require.Len(t, found, 1)
		assert.Equal(t, "operator-out-of-reach", found[0].ID)
		assert.Equal(t, []plan.ID{"spotter 1", "V2"}, found[0].Things)
		assert.Equal(t, []part.Value{part.Length("reach", 2), part.Length("from", 3), part.Length("place", 2)}, found[0].Values[:3], "at the end of the cable")
	}
}

// A cable reaches to its very end, and one whose length nobody entered is not known not
// to: that is asked for, and nothing else is said.
func TestACableAtItsEnd(t *testing.T) {
	in := zone.PeopleIn{People: []plan.Person{person(plan.RoleOperator, at(3, 4))}, Controls: []zone.Control{{Vehicle: "V2", Kind: plan.ControlCable, CableM: 5}}}
	var found []part.Finding
	zone.People(in, &found)
	assert.Empty(t, found)
	in.Controls = append(in.Controls, zone.Control{Vehicle: "V3", At: at(3, 3), Kind: plan.ControlCable})
	zone.People(in, &found)
	require.Len(t, found, 1)
	assert.Equal(t, part.NotDecidedID, found[0].ID)
	assert.Equal(t, []part.Lack{{Thing: "V3", Member: "winch.control_cable_m", Rule: "operator-out-of-reach"}}, found[0].Lacks)
	in.Controls = in.Controls[1:]
	found = nil
	zone.People(in, &found)
	require.Len(t, found, 1)
	assert.Equal(t, part.NotDecidedID, found[0].ID)
}

// A damper belongs a third from the end likelier to fly: on a line of 12 m and 6 m
// without any, 8 m along the first; with one there, 4 m along the second. One at the
// join itself lies on both sides of it; 2 m off is near, more is not; one on a
// stretch that the line does not have is none.
func TestDampersByTheMetre(t *testing.T) {
	l := zone.DampedLine{ID: "line", Stretches: []zone.Stretch{{Part: "line/0", A: at(0, 0), B: at(12, 0)}, {Part: "line/1", A: at(12, 0), B: at(12, 6)}}}
	says := func(joins []plan.Join, d ...plan.Damper) (from float64, join bool) {
		l.Dampers, l.Joins = d, joins
		var found []part.Finding
		zone.Dampers(l, &found)
		for _, f := range found {
			join = join || f.ID == "damper-at-join"
			for _, v := range f.Values {
				if v.Name == "from" {
					from = v.X
				}
			}
		}
		return from, join
	}
	first := plan.Damper{Line: "line", Stretch: 0, Share: 0.5}
	from, _ := says(nil)
	assert.InDelta(t, 8, from, 1e-12)
	from, _ = says(nil, first)
	assert.InDelta(t, 4, from, 1e-12)
	second := func(share float64) plan.Damper { return plan.Damper{Line: "line", Stretch: 1, Share: share} }
	for _, c := range []struct {
		what string
		at   quantity.Length
		d    []plan.Damper
		join bool
	}{
		{"one at the join", 15, []plan.Damper{second(0.5)}, false},
		{"2 m before and after", 15, []plan.Damper{second(1. / 6), second(5. / 6)}, false},
		{"farther before", 15, []plan.Damper{second(0.15), second(5. / 6)}, true},
		{"farther after", 15, []plan.Damper{second(1. / 6), second(0.85)}, true},
		{"of no stretch", 15, []plan.Damper{{Line: "line", Stretch: 2, Share: 0.5}, {Line: "line", Stretch: -1, Share: 0.5}}, true},
		{"on the drum", 0, nil, false},
		{"at the line's end", 18, nil, false},
	} {
		_, join := says([]plan.Join{{At: c.at}}, c.d...)
		assert.Equal(t, c.join, join, c.what)
	}
}

// What a piece stores is asked where a figure is nothing or not known: without pull or
// length nothing, and that is known; a straight line needs its stiffness, also where
// its exponent is typed as 1; a stiffening one its breaking strength, and the strain
// there, or the stiffness it follows from: e = Fb/EA·(F/Fb)^(1/n), E = F·e·L/(n+1).
func TestWhatAPieceStores(t *testing.T) {
	for _, c := range []struct {
		what  string
		s     zone.Spring
		want  float64
		known bool
	}{
		{"no pull", zone.Spring{LengthM: 10, StiffnessN: 1e6}, 0, true},
		{"no length", zone.Spring{ForceN: 1e4, StiffnessN: 1e6}, 0, true},
		{"below none", zone.Spring{ForceN: -1, LengthM: 10, StiffnessN: 1e6}, 0, false},
		{"no stiffness", zone.Spring{ForceN: 1e4, LengthM: 10}, 0, false},
		{"exponent of a straight line", zone.Spring{ForceN: 1e4, LengthM: 10, StiffnessN: 1e6, Exponent: 1}, 1e8 * 10 / 2e6, true},
		{"stiffening, strain from stiffness", zone.Spring{ForceN: 1e4, LengthM: 10, StiffnessN: 1e6, BreakN: 4e4, Exponent: 2}, 1e4 * 0.04 * 0.5 * 10 / 3, true},
		{"stiffening, no strain", zone.Spring{ForceN: 1e4, LengthM: 10, BreakN: 4e4, Exponent: 2}, 0, false},
		{"stiffening, no breaking strength", zone.Spring{ForceN: 1e4, LengthM: 10, BreakStrain: 0.2, Exponent: 2}, 0, false},
	} {
		e, ok := c.s.Stored()
		assert.Equal(t, c.known, ok, c.what)
		if ok {
			assert.InDelta(t, c.want, float64(e), 1e-9, c.what)
		}
	}
	_, ok := zone.Spring{ForceN: 1e4, LengthM: 10, StiffnessN: 1e6}.OwnSpeed()
	assert.False(t, ok, "no mass, no speed")
}

// The sum behind the energy says of how many pieces it is, straps among them; without
// hardware none of it flies; 79 J, a hazardous fragment (DoD 6055.9), is told.
func TestWhatIsSaidOfAPartingLine(t *testing.T) {
	s := zone.Spring{ForceN: math.Sqrt(79), LengthM: 2, StiffnessN: 1, MassKgPerM: 0.1} // F² J
	var d part.Derivation
	strap := s
	strap.LengthM = 1
	res := zone.Recoil(zone.RecoilIn{Line: "line", Move: zone.Pulled{Springs: []zone.Spring{s, s}, Straps: []zone.Spring{strap}}}, &d, nil)
	assert.InDelta(t, 2.5*79, float64(res.Energy), 1e-9)
	assert.Zero(t, res.Hardware)
	assert.Zero(t, res.Flight)
	require.NotEmpty(t, d.Steps)
	assert.InDelta(t, 3, d.Steps[0].Operands[0].Value.X, 0)
	e, _ := s.Stored()
	if assert.InDelta(t, 79, float64(e), 0) {
		var found []part.Finding
		zone.Recoil(zone.RecoilIn{Line: "line", Move: zone.Pulled{Springs: []zone.Spring{s}}}, nil, &found)
		assert.Len(t, found, 1)
	}
}

// A thing may have several zones of a kind: of three squares of 2 m that move by 3 m,
// 10 m apart, all are covered, 2·(3 + 2) m² each, and the widest ring is told.
func TestSweptAllOfAKind(t *testing.T) {
	var atM []float64
	var moments [][]part.Zone
	for x := 0.0; x <= 3; x += 0.5 {
		z := func(y, r float64) part.Zone {
			return part.Zone{Kind: part.ZoneStandOff, Thing: "L1", Outline: rect(x, y, x+2, y+2), Radius: quantity.Length(r)}
		}
		atM, moments = append(atM, x), append(moments, []part.Zone{z(0, 9-x), z(10, 4), z(20, 3)})
	}
	zs := zone.Swept(atM, moments)
	require.Len(t, zs, 3)
	for _, z := range zs {
		near(t, 10, terrain.Area(z.Outline), 1e-9, "area")
		assert.InDelta(t, 9, float64(z.Radius), 0, "the widest")
	}
}

// What turns a corner covers both ways and no more: 2·(6 + 2) m² each, less the
// square where they meet; over more than 1 m of travel no hull is laid.
func TestSweptRoundACorner(t *testing.T) {
	var atM []float64
	var moments [][]part.Zone
	for m := 0.0; m <= 12; m += 0.25 {
		atM = append(atM, m)
		x, y := min(m, 6), max(0, m-6)
		moments = append(moments, []part.Zone{{Kind: part.ZoneSlide, Thing: "V1", Outline: rect(x, y, x+2, y+2)}})
	}
	zs := zone.Swept(atM, moments)
	require.Len(t, zs, 1)
	near(t, 2*16-4, terrain.Area(zs[0].Outline), 0.002*28, "area")
}
