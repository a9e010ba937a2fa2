package zone_test

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/zone"
)

// ring is one HMPE line of 10 m from 0;0 to 10;0 and its zones: rings of 10 m.
func ring(p ...plan.Person) zone.PeopleIn {
	l := zone.Line{ID: "line", Material: plan.MaterialHMPE, Stretches: []zone.Stretch{{Part: "line/0", A: at(0, 0), B: at(10, 0)}},
		Ends: []zone.End{{Thing: "puller", Word: "fairlead", At: at(0, 0), From: at(10, 0)}, {Thing: "casualty", Word: "hook-on point", At: at(10, 0), From: at(0, 0)}}}
	return zone.PeopleIn{People: p, Zones: zone.Zones(zone.Input{Lines: []zone.Line{l}}, nil), Stretches: l.Stretches, Ends: l.Ends}
}

func asks(in zone.PeopleIn) func(*[]part.Finding) {
	return func(found *[]part.Finding) { zone.People(in, found) }
}

func stands(role string, x, y float64) func(*[]part.Finding) {
	return asks(ring(person(role, at(x, y))))
}

// doubted is a spotter whose place is known to ±0.3 m and ±0.4 m.
func doubted(x, y float64) func(*[]part.Finding) {
	p := person(plan.RoleSpotter, at(x, y))
	p.Doubts = []plan.Doubt{{Member: "at.x_m", Low: x - 0.3, High: x + 0.3}, {Member: "at.y_m", Low: y - 0.4, High: y + 0.4}}
	return asks(ring(p))
}

// bank hides the line from 5;8: its near side, 7 m north of the line, has to
// reach from the way to one end to the way to the other.
var bank = zone.Cover{Thing: "bank", Kind: plan.CoverGround, Outline: rect(3.5, 6, 6.5, 7), HeightM: 2}

// oak does as well: the ways from 5;8 to both ends, 0.27 m to their far side,
// pass its middle at 1.05·5/√89 + 0.27 = 0.83 m.
var oak = zone.Cover{Thing: "oak", Kind: plan.CoverTimber, At: at(5, 6.95), TrunkM: 1.8, Health: plan.HealthAlive}

// behind is somebody at 5;8, inside the ring alone, with a cover marked and what
// there is of it.
func behind(role, cover string, f func(*zone.PeopleIn), covers ...zone.Cover) func(*[]part.Finding) {
	p := person(role, at(5, 8))
	p.Cover = cover
	in := ring(p)
	in.Covers = covers
	if f != nil {
		f(&in)
	}
	return asks(in)
}

func ground(f func(*zone.Cover)) zone.Cover { c := bank; f(&c); return c }
func timber(f func(*zone.Cover)) zone.Cover { c := oak; f(&c); return c }

// falling is a tree that may come down on a place.
func falling(x, y float64) func(*zone.PeopleIn) {
	return func(in *zone.PeopleIn) {
		in.Zones = append(in.Zones, part.Zone{Kind: part.ZoneTree, Thing: "pine", Outline: rect(x-0.2, y-0.2, x+0.2, y+0.2)})
	}
}

// works is an operator with a winch at 0;0.
func works(x, y float64, control string, cableM float64) func(*[]part.Finding) {
	in := ring(person(plan.RoleOperator, at(x, y)))
	in.Controls = []zone.Control{{Vehicle: "puller", At: at(0, 0), Kind: control, CableM: cableM}}
	return asks(in)
}

// atWinch is somebody on a site whose winch is that of V2.
func atWinch(p plan.Person) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		zone.Worked(&zone.PeopleIn{People: []plan.Person{p}, Controls: []zone.Control{{Vehicle: "V2", Kind: plan.ControlWireless}}}, found)
	}
}

// seated is somebody in a vehicle.
func seated(role string, in plan.ID) plan.Person {
	p := person(role, at(0, 0))
	p.Vehicle = in
	return p
}

// fenced is somebody in a square of zones 4 m wide, 1 m thick, with a gap in its
// north side.
func fenced(role string, gapM float64, kind part.ZoneKind) func(*[]part.Finding) {
	in := zone.PeopleIn{People: []plan.Person{person(role, at(0, 0))}}
	for _, r := range [][]plan.Point{rect(-3, -3, -2, 3), rect(2, -3, 3, 3), rect(-3, -3, 3, -2), rect(-3, 2, -1, 3), rect(-1+gapM, 2, 3, 3)} {
		in.Zones = append(in.Zones, part.Zone{Kind: kind, Thing: "line", Outline: r})
	}
	return asks(in)
}

// wedged is somebody with zones on three sides, and a wedge of zone or wall on the
// fourth, with a gap beside it; below zero: none.
func wedged(gapM float64, asZone bool) func(*[]part.Finding) {
	in := zone.PeopleIn{People: []plan.Person{person(plan.RoleOperator, at(0, 0))}}
	for _, r := range [][]plan.Point{rect(-3, -3, -2, 3), rect(2, -3, 3, 3), rect(-3, -3, 3, -2)} {
		in.Zones = append(in.Zones, part.Zone{Kind: part.ZoneRecoil, Thing: "line", Outline: r})
	}
	wedge := []plan.Point{at(-2+gapM, 2), at(3, 2), at(0, 9)}
	if asZone {
		in.Zones = append(in.Zones, part.Zone{Kind: part.ZoneRecoil, Thing: "line", Outline: wedge})
	} else {
		in.Obstacles = []plan.Obstacle{{Head: plan.Head{ID: "wall"}, Outline: wedge}}
	}
	return asks(in)
}

// slit is somebody with zones on three sides, and on the fourth, so far away, a wall with a
// gap in it.
func slit(gapM, farM float64) func(*[]part.Finding) {
	in := zone.PeopleIn{People: []plan.Person{person(plan.RoleOperator, at(0.7, 0))}}
	for _, r := range [][]plan.Point{rect(-3, -3, -2, farM), rect(2, -3, 3, farM), rect(-3, -3, 3, -2)} {
		in.Zones = append(in.Zones, part.Zone{Kind: part.ZoneRecoil, Thing: "line", Outline: r})
	}
	for i, r := range [][]plan.Point{rect(-3, farM, -gapM/2, farM+1), rect(gapM/2, farM, 3, farM+1)} {
		in.Obstacles = append(in.Obstacles, plan.Obstacle{Head: plan.Head{ID: plan.ID([]string{"wall", "rock"}[i])}, Outline: r})
	}
	return asks(in)
}

// screened is the ring with a gap of two metres to the north, no straight way out of it past
// a screen beyond, and the stand-off on both ways round that.
func screened(role string) zone.PeopleIn {
	in := zone.PeopleIn{People: []plan.Person{person(role, at(0, 0))}}
	for _, r := range [][]plan.Point{rect(-3, -3, -2, 3), rect(2, -3, 3, 3), rect(-3, -3, 3, -2), rect(-3, 2, -1, 3), rect(1, 2, 3, 3), rect(-4, 5, 4, 6)} {
		in.Zones = append(in.Zones, part.Zone{Kind: part.ZoneRecoil, Thing: "line", Outline: r})
	}
	for _, r := range [][]plan.Point{rect(-4.5, 2, -3, 6), rect(3, 2, 4.5, 6)} {
		in.Zones = append(in.Zones, part.Zone{Kind: part.ZoneStandOff, Thing: "line", Outline: r})
	}
	return in
}

// What shuts in somebody who may cross the stand-off is named without it, though it lies
// nearer.
func TestAPocketIsOfWhatShutsItIn(t *testing.T) {
	in := zone.PeopleIn{People: []plan.Person{person(plan.RoleSpotter, at(0, 0))}, Zones: []part.Zone{{Kind: part.ZoneStandOff, Thing: "line", Outline: rect(1, -1, 1.5, 1)}}}
	for _, r := range [][]plan.Point{rect(-3, -3, -2, 3), rect(2, -3, 3, 3), rect(-3, -3, 3, -2), rect(-3, 2, 3, 3)} {
		in.Zones = append(in.Zones, part.Zone{Kind: part.ZoneRecoil, Thing: "line", Outline: r})
	}
	s := zone.People(in, nil)[0]
	assert.True(t, s.Pocket)
	assert.Equal(t, []part.ZoneKind{part.ZoneRecoil}, s.Inside)
}

// walled is the ring with obstacles all round the person.
func walled(role string, x, y float64, gap bool) func(*[]part.Finding) {
	in := ring(person(role, at(x, y)))
	box := plan.Obstacle{Head: plan.Head{ID: "wall"}, Outline: rect(x-0.3, y-0.3, x+0.3, y+0.3)}
	if gap { // a wall to the south only
		box.Outline = rect(x-0.3, y-0.6, x+0.3, y-0.3)
	}
	in.Obstacles = []plan.Obstacle{box}
	return asks(in)
}

func driver(x, y float64, role string, id plan.ID) func(*[]part.Finding) {
	p := person(role, at(100, 100))
	p.Vehicle = id
	in := ring(p)
	in.Vehicles = []zone.Vehicle{{ID: "pickup", Footprint: rect(x-2.5, y-1, x+2.5, y+1)}}
	return asks(in)
}

// yard is a bystander within walls, with a zone beside them.
func yard(closed bool) func(*[]part.Finding) {
	in := zone.PeopleIn{People: []plan.Person{person(plan.RoleBystander, at(0, 0))}, Zones: []part.Zone{{Kind: part.ZoneRecoil, Thing: "line", Outline: rect(1, -2, 2, 2)}}}
	for i, r := range [][]plan.Point{rect(-3, -3, -2, 3), rect(2, -3, 3, 3), rect(-3, -3, 3, -2), rect(-3, 2, 3, 3)} {
		if closed || i < 3 {
			in.Obstacles = append(in.Obstacles, plan.Obstacle{Head: plan.Head{ID: plan.ID(rune('a' + i))}, Outline: r})
		}
	}
	return asks(in)
}

// driven is the driver of a pickup in the way of a casualty: another, or itself.
func driven(casualty plan.ID) func(*[]part.Finding) {
	p := person(plan.RoleDriver, at(100, 100))
	p.Vehicle = "pickup"
	return asks(zone.PeopleIn{People: []plan.Person{p}, Vehicles: []zone.Vehicle{{ID: "pickup", Footprint: rect(0, 0, 5, 2)}},
		Zones: []part.Zone{{Kind: part.ZoneCasualty, Thing: casualty, Outline: rect(-2, -2, 9, 4)}}})
}

// loaded is another loaded line.
func loaded(a, b plan.Point) func(*zone.PeopleIn) {
	return func(in *zone.PeopleIn) { in.Stretches = append(in.Stretches, zone.Stretch{Part: "other", A: a, B: b}) }
}

// endOn leaves of all that is loaded a far stretch that points at the person.
func endOn(in *zone.PeopleIn) {
	in.Stretches = []zone.Stretch{{Part: "line/0", A: at(5, -20), B: at(5, -21)}}
}

// walledOff is an operator at -5;5 with walls round them and a cable from 0;0.
func walledOff(cableM float64) func(*[]part.Finding) {
	in := ring(person(plan.RoleOperator, at(-5, 5)))
	in.Controls = []zone.Control{{Vehicle: "puller", Kind: plan.ControlCable, CableM: cableM}}
	in.Obstacles = []plan.Obstacle{{Head: plan.Head{ID: "wall"}, Outline: rect(-5.3, 4.7, -4.7, 5.3)}}
	return asks(in)
}

func pair(o plan.Obstacle) func(*[]part.Finding) {
	a, b := person(plan.RoleOperator, at(0, 50)), person(plan.RoleSpotter, at(20, 50))
	a.ID, b.ID = "operator 1", "spotter 1"
	in := ring(a, b)
	in.Obstacles = []plan.Obstacle{o}
	return asks(in)
}

func draws(in zone.Input) func(*[]part.Finding) {
	return func(found *[]part.Finding) { zone.Zones(in, found) }
}

func damped(joins []plan.Join, d ...plan.Damper) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		zone.Dampers(zone.DampedLine{ID: "line", Stretches: []zone.Stretch{{Part: "line/0", A: at(0, 0), B: at(10, 0)}}, Joins: joins, Dampers: d}, found)
	}
}

// parts lets go so many joules at each pull; below zero: not known.
func parts(move, stall, massKgPerM float64) func(*[]part.Finding) {
	pulled := func(joules float64) (p zone.Pulled) {
		// F²·L/(2·EA) with L = 2, EA = 1: F² joules.
		s := zone.Spring{ForceN: math.Sqrt(max(0, joules)), LengthM: 2, StiffnessN: 1, MassKgPerM: massKgPerM}
		if joules < 0 {
			s.StiffnessN = 0
		}
		return zone.Pulled{Springs: []zone.Spring{s}}
	}
	return func(found *[]part.Finding) {
		zone.Recoil(zone.RecoilIn{Line: "line", Move: pulled(move), Stall: pulled(stall)}, nil, found)
	}
}

var tree20 = zone.Tree{Thing: "tree", HeightM: 20, Pull: r3.Vector{X: 1}, Known: true, ToFailure: 0.2501}

func change(t zone.Tree, f func(*zone.Tree)) zone.Input {
	f(&t)
	return zone.Input{Trees: []zone.Tree{t}}
}

func raised(k float64) zone.Input {
	in := boardA()
	in.StandOff = k
	return in
}

var situations = []struct {
	id    string
	level part.Level
	raise func(*[]part.Finding)
	clear func(*[]part.Finding)
}{
	// 10° of recoil at 5 m from the tip, 0.5 m off square to its edge:
	// 5·tan 10° + 0.5/cos 10° = 1.3893 m; from the other end the same.
	{"person-in-zone", part.Danger, stands(plan.RoleSpotter, 5, 1.38), stands(plan.RoleSpotter, 5, 1.40)},
	{"person-in-zone-no-way", part.Danger, walled(plan.RoleSpotter, 5, 0.5, false), walled(plan.RoleSpotter, 5, 0.5, true)},
	// The ring of 10 m round the end at 10;0 (its polygon stands out by 0.1 %),
	// and 0.5 m of the person.
	{"person-in-stand-off", part.Warning, stands(plan.RoleSpotter, 10, 10.49), stands(plan.RoleSpotter, 10, 10.52)},
	// ±0.3 m east and ±0.4 m north: 0.5 m more.
	{"person-in-stand-off", part.Warning, doubted(10, 10.99), doubted(10, 11.02)},
	{"person-in-stand-off", part.Warning, behind(plan.RoleOperator, "", nil, bank), behind(plan.RoleOperator, plan.CoverGround, nil, bank)},
	{"person-in-stand-off", part.Warning, behind(plan.RoleOperator, "standing timber", nil, oak), behind(plan.RoleOperator, plan.CoverTimber, nil, oak)},
	{"person-in-stand-off-no-way", part.Warning, walled(plan.RoleSpotter, 10, 9, false), walled(plan.RoleSpotter, 10, 9, true)},
	{"stand-off-covered", part.Notice, behind(plan.RoleOperator, plan.CoverGround, nil, bank), behind(plan.RoleOperator, plan.CoverGround, nil, oak)},
	{"stand-off-covered", part.Notice, behind(plan.RoleOperator, plan.CoverTimber, nil, oak), behind(plan.RoleOperator, plan.CoverTimber, nil, bank)},
	{"bystander-in-stand-off", part.Danger, behind(plan.RoleBystander, plan.CoverGround, nil, bank), stands(plan.RoleBystander, 10, 10.52)},
	{"bystander-in-stand-off-no-way", part.Danger, walled(plan.RoleBystander, 10, 9, false), walled(plan.RoleBystander, 10, 9, true)},
	{"cover-free-text", part.Caution, behind(plan.RoleOperator, "cab, bonnet up", nil, bank), behind(plan.RoleOperator, plan.CoverGround, nil, bank)},
	{"cover-free-text", part.Caution, behind(plan.RoleOperator, "none", nil), behind(plan.RoleOperator, "", nil)},
	{"cover-not-there", part.Caution, behind(plan.RoleOperator, plan.CoverGround, nil), behind(plan.RoleOperator, plan.CoverGround, nil, bank)},
	{"cover-not-there", part.Caution, behind(plan.RoleOperator, plan.CoverGround, nil, ground(func(c *zone.Cover) { c.HeightM = 1.99 })), behind(plan.RoleOperator, plan.CoverGround, nil, bank)},
	{"cover-not-there", part.Caution, behind(plan.RoleOperator, plan.CoverGround, nil, ground(func(c *zone.Cover) { c.Anchor = true })), behind(plan.RoleOperator, plan.CoverGround, nil, bank)},
	// The way from 5.27;8 to 0;0 passes 6;4.1 and 7;4.6: a bank from 4.9 lets
	// it through on its west.
	{"cover-not-there", part.Caution, behind(plan.RoleOperator, plan.CoverGround, nil, ground(func(c *zone.Cover) { c.Outline = rect(4.9, 6, 6.5, 7) })), behind(plan.RoleOperator, plan.CoverGround, nil, bank)},
	{"cover-not-there", part.Caution, behind(plan.RoleOperator, plan.CoverGround, nil, ground(func(c *zone.Cover) { c.Outline = rect(3, 6, 7, 9) })), behind(plan.RoleOperator, plan.CoverGround, nil, bank)}, // stands on it
	{"cover-not-there", part.Caution, behind(plan.RoleOperator, plan.CoverTimber, nil, timber(func(c *zone.Cover) { c.Health = plan.HealthDead })), behind(plan.RoleOperator, plan.CoverTimber, nil, oak)},
	{"cover-not-there", part.Caution, behind(plan.RoleOperator, plan.CoverTimber, nil, timber(func(c *zone.Cover) { c.Anchor = true })), behind(plan.RoleOperator, plan.CoverTimber, nil, oak)},
	{"cover-not-there", part.Caution, behind(plan.RoleOperator, plan.CoverTimber, falling(5, 5.9), oak), behind(plan.RoleOperator, plan.CoverTimber, falling(5, 5.8), oak)},
	{"cover-not-there", part.Caution, behind(plan.RoleOperator, plan.CoverTimber, loaded(at(0, 7.5), at(1, 7.5)), oak), behind(plan.RoleOperator, plan.CoverTimber, loaded(at(4, 0), at(6, 1)), oak)},
	{"cover-not-there", part.Caution, behind(plan.RoleOperator, plan.CoverTimber, endOn, timber(func(c *zone.Cover) { c.At, c.TrunkM = at(5, 7.2), 0.59 })), behind(plan.RoleOperator, plan.CoverTimber, endOn, timber(func(c *zone.Cover) { c.At, c.TrunkM = at(5, 7.2), 0.6 }))},
	{part.NotDecidedID, part.Caution, behind(plan.RoleOperator, plan.CoverTimber, endOn, timber(func(c *zone.Cover) { c.At, c.TrunkM = at(5, 7.2), 0 })), behind(plan.RoleOperator, plan.CoverTimber, endOn, timber(func(c *zone.Cover) { c.At, c.TrunkM = at(5, 7.2), 0.6 }))},
	{part.NotDecidedID, part.Caution, behind(plan.RoleOperator, plan.CoverGround, nil, ground(func(c *zone.Cover) { c.HeightM = 0 })), behind(plan.RoleOperator, plan.CoverGround, nil, bank)},
	{part.NotDecidedID, part.Caution, behind(plan.RoleOperator, plan.CoverTimber, nil, timber(func(c *zone.Cover) { c.Health = "" })), behind(plan.RoleOperator, plan.CoverTimber, nil, oak)},
	{"role-not-known", part.Caution, stands("guest", 100, 0), stands(plan.RoleBystander, 100, 0)},
	{"driver-on-foot", part.Caution, stands(plan.RoleDriver, 100, 0), driver(100, 0, plan.RoleDriver, "pickup")},
	{"vehicle-not-there", part.Caution, driver(100, 0, plan.RoleDriver, "gone"), driver(100, 0, plan.RoleDriver, "pickup")},
	// The pickup's nose at 2.5 m: the line and its recoil end 10 m past 10;0. At
	// 10;8 it stands in the ring alone.
	{"person-in-vehicle", part.Warning, driver(22.4, 0, plan.RoleDriver, "pickup"), driver(22.6, 0, plan.RoleDriver, "pickup")},
	{"person-in-vehicle", part.Warning, driver(22.4, 0, plan.RoleOperator, "pickup"), driver(22.6, 0, plan.RoleOperator, "pickup")},
	{"person-in-vehicle", part.Warning, driver(10, 8, plan.RoleSpotter, "pickup"), driver(10, 11.1, plan.RoleSpotter, "pickup")},
	{"person-in-vehicle", part.Danger, driver(22.4, 0, plan.RoleBystander, "pickup"), driver(22.4, 0, plan.RoleDriver, "pickup")},
	{"person-in-vehicle", part.Danger, driver(10, 8, plan.RoleBystander, "pickup"), driver(10, 11.1, plan.RoleBystander, "pickup")},
	{"person-in-vehicle", part.Notice, driver(10, 8, plan.RoleDriver, "pickup"), driver(10, 11.1, plan.RoleDriver, "pickup")},
	// A gap of a person's width, 1 m, lets one through.
	{"person-in-pocket", part.Danger, fenced(plan.RoleOperator, 0.99, part.ZoneRecoil), fenced(plan.RoleOperator, 1.01, part.ZoneRecoil)},
	{"person-in-pocket", part.Danger, wedged(-1, true), wedged(1.2, true)},
	{"person-in-pocket", part.Danger, wedged(-1, false), wedged(1.2, false)},
	{"person-in-pocket", part.Danger, slit(0.005, 60), slit(1.01, 60)},
	{"person-in-pocket", part.Danger, slit(0.99, 2), slit(1.01, 2)},
	// A yard of walls is none, whatever zone lies in it.
	{"person-in-pocket", part.Danger, fenced(plan.RoleOperator, 0, part.ZoneBight), yard(true)},
	{"person-in-vehicle", part.Warning, driven("other"), driven("pickup")},
	{"person-in-pocket", part.Danger, fenced(plan.RoleBystander, 0, part.ZoneStandOff), fenced(plan.RoleSpotter, 0, part.ZoneStandOff)},
	// A way round a screen that lies in the stand-off is open to those who may cross it.
	{"person-in-pocket", part.Danger, asks(screened(plan.RoleBystander)), asks(screened(plan.RoleSpotter))},
	// A cable of 12 m from 0;0; the ring of 10 m round it and one round 10;0.
	{"operator-out-of-reach", part.Warning, works(-12.1, 0, plan.ControlCable, 12), works(-11.9, 0, plan.ControlCable, 12)},
	{"operator-out-of-reach-no-place", part.Warning, works(-11, 0, plan.ControlCable, 10), works(-11, 0, plan.ControlCable, 11)},
	{"operator-bound-to-zone", part.Warning, walledOff(12), works(-5, 5, plan.ControlCable, 12)},
	{"operator-bound-to-zone-no-place", part.Warning, works(-5, 5, plan.ControlCable, 10), works(-5, 5, plan.ControlCable, 12)},
	{"nobody-at-winch", part.Caution, atWinch(person(plan.RoleSpotter, at(-60, 0))), atWinch(person(plan.RoleOperator, at(-60, 0)))},
	{"nobody-at-winch", part.Caution, atWinch(seated(plan.RoleDriver, "V3")), atWinch(seated(plan.RoleDriver, "V2"))},
	{"nobody-at-winch", part.Caution, atWinch(seated(plan.RoleBystander, "V2")), atWinch(seated(plan.RoleDriver, "V2"))},
	{"operator-not-in-cab", part.Warning, works(-60, 0, plan.ControlCab, 0), works(-60, 0, plan.ControlWireless, 0)},
	{part.NotDecidedID, part.Caution, works(-60, 0, plan.ControlCable, 0), works(-60, 0, plan.ControlCable, 61)},
	{part.NotDecidedID, part.Caution, works(-60, 0, "", 0), works(-60, 0, plan.ControlWireless, 0)},
	{"person-not-placed", part.Danger, stands(plan.RoleSpotter, math.NaN(), 0), stands(plan.RoleSpotter, 100, 0)},
	{"sight-blocked", part.Warning, pair(plan.Obstacle{Head: plan.Head{ID: "wall"}, Outline: rect(9, 49.9, 11, 50.1)}), pair(plan.Obstacle{Head: plan.Head{ID: "wall"}, Outline: rect(9, 50.1, 11, 50.3)})},
	{"sight-blocked", part.Warning, pair(plan.Obstacle{Head: plan.Head{ID: "wall"}, Outline: rect(9, 40, 11, 60)}), pair(plan.Obstacle{Head: plan.Head{ID: "wall"}, Outline: rect(9, 40, 11, 60), SeeOver: true})},
	{"no-sight", part.Warning, func(f *[]part.Finding) { blind(false, f) }, func(f *[]part.Finding) { blind(true, f) }},

	{"tree-may-fall", part.Warning, draws(change(tree20, func(*zone.Tree) {})), draws(change(tree20, func(t *zone.Tree) { t.ToFailure = 0.25 }))},
	{"tree-may-fall", part.Warning, draws(change(tree20, func(t *zone.Tree) { t.Known = false; t.ToFailure = 0 })), draws(change(tree20, func(t *zone.Tree) { t.ToFailure = 0 }))},
	{"tree-height-not-known", part.Caution, draws(change(tree20, func(t *zone.Tree) { t.HeightM = 0 })), draws(change(tree20, func(*zone.Tree) {}))},
	{"stand-off-not-lowered", part.Caution, draws(raised(0.999)), draws(raised(1))},
	{"zone-not-drawn", part.Danger, draws(zone.Input{Slides: []zone.Slide{{Thing: "v"}}}), draws(zone.Input{Slides: []zone.Slide{{Thing: "v", Footprint: rect(0, 0, 5, 2)}}})},

	{"damper-missing", part.Notice, damped(nil, plan.Damper{Line: "other", Stretch: 0}), damped(nil, plan.Damper{Line: "line", Stretch: 0, Share: 0.67})},
	// One each side within 2 m of the join at 5 m (ours).
	{"damper-at-join", part.Notice, damped([]plan.Join{{At: 5}}, plan.Damper{Line: "line", Share: 0.29}, plan.Damper{Line: "line", Share: 0.6}), damped([]plan.Join{{At: 5}}, plan.Damper{Line: "line", Share: 0.31}, plan.Damper{Line: "line", Share: 0.6})},

	// 79 J, a hazardous fragment (DoD 6055.9).
	{"recoil-energy", part.Notice, parts(50, 79.01, 0.1), parts(50, 78.99, 0.1)},
	{"recoil-energy", part.Notice, parts(79.01, 50, 0.1), parts(78.99, 50, 0.1)},
	{"recoil-energy-at", part.Notice, parts(-1, 79.01, 0.1), parts(-1, 78.99, 0.1)},
	{"recoil-energy-at", part.Notice, parts(79.01, -1, 0), parts(78.99, -1, 0)},
	{"recoil-energy-only", part.Notice, parts(50, 79.01, 0), parts(50, 79.01, 0.1)},
	{"recoil-not-computed", part.Notice, parts(-1, -1, 0.1), parts(-1, 79.01, 0.1)},
}

func blind(sees bool, found *[]part.Finding) {
	a, b := person(plan.RoleOperator, at(0, 50)), person(plan.RoleSpotter, at(20, 50))
	a.ID = "operator 1"
	in := ring(a, b)
	in.Sees = func(plan.Point, plan.Point) (plan.ID, bool) { return "", sees }
	zone.People(in, found)
}

func TestFindings(t *testing.T) {
	for _, s := range situations {
		t.Run(s.id+" "+s.level.String(), func(t *testing.T) {
			var found []part.Finding
			s.raise(&found)
			i := slices.IndexFunc(found, func(f part.Finding) bool { return f.ID == s.id && f.Level == s.level })
			require.GreaterOrEqual(t, i, 0, "%v", found)
			require.NotEmpty(t, found[i].Things)
			for _, f := range found {
				known(t, f)
			}
			found = nil
			s.clear(&found)
			for _, f := range found {
				assert.False(t, f.ID == s.id && f.Level == s.level, "still raised past its border: %v", f)
				known(t, f)
			}
		})
	}
}

func known(t *testing.T, f part.Finding) {
	t.Helper()
	if f.ID == part.NotDecidedID { // of every package
		require.NotEmpty(t, f.Lacks)
		return
	}
	i := slices.IndexFunc(zone.Rules, func(r part.Rule) bool { return r.ID == f.ID })
	require.GreaterOrEqual(t, i, 0, "%s is in no rule", f.ID)
	r := zone.Rules[i]
	assert.Contains(t, r.Levels, f.Level, f.ID)
	var names []string
	for _, v := range f.Values {
		names = append(names, v.Name)
		assert.False(t, math.IsNaN(v.X) || math.IsInf(v.X, 0), "%s: %s", f.ID, v.Name)
	}
	assert.ElementsMatch(t, r.Values, names, f.ID)
}

func TestRules(t *testing.T) {
	assert.True(t, slices.IsSortedFunc(zone.Rules, func(a, b part.Rule) int { return strings.Compare(a.ID, b.ID) }))
	raised := map[string]bool{}
	for _, s := range situations {
		raised[s.id] = true
	}
	var texts struct {
		Finding map[string]struct{ What, Do string } `toml:"finding"`
	}
	_, err := toml.DecodeFile("../../assets/words/en-zone.toml", &texts)
	require.NoError(t, err)
	for _, r := range zone.Rules {
		t.Run(r.ID, func(t *testing.T) {
			assert.True(t, raised[r.ID], "no test raises it")
			assert.NotEmpty(t, r.Levels)
			if r.Fact == "" {
				assert.NotEmpty(t, r.Why)
			} else {
				_, ok := facts.Get(facts.ID(r.Fact))
				assert.True(t, ok, "no row %q", r.Fact)
			}
			text, ok := texts.Finding[r.ID]
			require.True(t, ok, "no text")
			assert.NotEmpty(t, text.What)
			assert.NotEmpty(t, text.Do)
		})
	}
	assert.Len(t, texts.Finding, len(zone.Rules), "a text without a rule")
	data, err := os.ReadFile("../../assets/words/en-zone.toml")
	require.NoError(t, err)
	assert.NotContains(t, strings.ToLower(string(data)), " safe")
}

func TestWhereDampersBelong(t *testing.T) {
	l := zone.DampedLine{ID: "line", Stretches: redirect().Stretches, FlyA: []bool{false, true}}
	lacks := zone.Dampers(l, nil)
	require.Len(t, lacks, 2)
	near(t, 2./3, lacks[0].Share, 1e-12, "a third from the far end")
	near(t, 1./3, lacks[1].Share, 1e-12, "a third from the near end")
}

// A way out is what it says, for anybody anywhere: outside, straight, across
// nothing.
func TestWaysOut(t *testing.T) {
	in := peopleA()
	rapid.Check(t, func(t *rapid.T) {
		p := at(rapid.Float64Range(-10, 60).Draw(t, "x"), rapid.Float64Range(-20, 50).Draw(t, "y"))
		role := rapid.SampledFrom([]string{plan.RoleBystander, plan.RoleSpotter}).Draw(t, "role")
		in.People = []plan.Person{person(role, p)}
		s := zone.People(in, nil)[0]
		if !s.OutKnown {
			return
		}
		for _, k := range reached(in.Zones, s.Out, 0.5) {
			if role == plan.RoleBystander || k != part.ZoneStandOff {
				t.Fatalf("from %v to %v, still inside %s", p, s.Out, k)
			}
		}
		near(t, math.Hypot(s.Out.X-p.X, s.Out.Y-p.Y), float64(s.OutM), 1e-6, "its length")
		for i := range 201 {
			f := float64(i) / 200
			q := at(p.X+f*(s.Out.X-p.X), p.Y+f*(s.Out.Y-p.Y))
			for _, k := range reached(in.Zones, q, 0.5) {
				if !slices.Contains(s.Inside, k) && k != part.ZoneStandOff {
					t.Fatalf("from %v to %v, through %s at %v", p, s.Out, k, q)
				}
			}
			for _, st := range in.Stretches {
				if i > 0 && side(st.A, st.B, p) != side(st.A, st.B, q) && between(st.A, st.B, p, q) {
					t.Fatalf("from %v to %v across %s", p, s.Out, st.Part)
				}
			}
		}
	})
}

// reached is the kinds of zone within a distance of a place: the distance of a
// point from a segment, apart from the code under test.
func reached(zs []part.Zone, p plan.Point, radiusM float64) (kinds []part.ZoneKind) {
	for _, z := range zs {
		is := encloses(z.Outline, p)
		for i, a := range z.Outline {
			b := z.Outline[(i+1)%len(z.Outline)]
			f := ((p.X-a.X)*(b.X-a.X) + (p.Y-a.Y)*(b.Y-a.Y)) / ((b.X-a.X)*(b.X-a.X) + (b.Y-a.Y)*(b.Y-a.Y))
			f = min(1, max(0, f))
			is = is || math.Hypot(p.X-a.X-f*(b.X-a.X), p.Y-a.Y-f*(b.Y-a.Y)) <= radiusM
		}
		if is {
			kinds = append(kinds, z.Kind)
		}
	}
	return kinds
}

func side(a, b, p plan.Point) bool { return (b.X-a.X)*(p.Y-a.Y)-(b.Y-a.Y)*(p.X-a.X) > 0 }
func between(a, b, p, q plan.Point) bool {
	return side(p, q, a) != side(p, q, b)
}

// Zones never shrink when line, travel or load grow.
func TestZonesNeverShrink(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pt := func(n string) plan.Point {
			return at(rapid.Float64Range(-40, 40).Draw(t, n+"x"), rapid.Float64Range(-40, 40).Draw(t, n+"y"))
		}
		a, b, c := pt("a"), pt("b"), pt("c")
		more := rapid.Float64Range(0, 30).Draw(t, "more")
		load := rapid.Float64Range(0, 2).Draw(t, "load")
		k := rapid.Float64Range(0, 3).Draw(t, "k")
		material := rapid.SampledFrom([]string{"", plan.MaterialWire, plan.MaterialHMPE, plan.MaterialKinetic}).Draw(t, "material")
		in := func(extra, toFailure, standOff float64) zone.Input {
			return zone.Input{
				Lines:    []zone.Line{{ID: "l", Material: material, ExtraM: extra, Stretches: []zone.Stretch{{A: a, B: b, Block: "b"}, {A: b, B: c}}}},
				Releases: []zone.Release{{Thing: "b", At: b}},
				Trees:    []zone.Tree{{Thing: "t", At: b, HeightM: 20, Pull: r3.Vector{X: 1, Y: 1}, Known: true, ToFailure: toFailure}},
				Rolls:    []zone.Roll{{Thing: "v", Footprint: []plan.Point{a, b, c}, Dir: r3.Vector{Y: 1}, RunM: 5 + extra}},
				Slides:   []zone.Slide{{Thing: "v", Footprint: []plan.Point{a, b, c}, Dir: r3.Vector{Y: 1}, RunM: 5 + extra}},
				StandOff: standOff,
			}
		}
		less := zone.Zones(in(0, load, k), nil)
		wide := zone.Zones(in(more, load+more, k+more), nil)
		contains(t, wide, less)
	})
}

// sliverM, metres, is how near its edge a point of a zone may lie to be asked for:
// corners 100 m off are rounded to 1e-14 m, their crossings to some hundred times
// that, and where edges nearly meet a zone may be thinner.
const sliverM = 1e-9

// edge is how far a point lies from the outline of a zone, metres.
func edge(z part.Zone, q plan.Point) float64 {
	least := math.Inf(1)
	for i, p := range z.Outline {
		n := z.Outline[(i+1)%len(z.Outline)]
		dx, dy := n.X-p.X, n.Y-p.Y
		f := 0.0
		if d := dx*dx + dy*dy; d > 0 {
			f = min(max(((q.X-p.X)*dx+(q.Y-p.Y)*dy)/d, 0), 1)
		}
		least = min(least, math.Hypot(p.X+f*dx-q.X, p.Y+f*dy-q.Y))
	}
	return least
}

// contains asks corners and the middle of every zone of b, pulled in by a hair
// from the edge, of the zones of a.
func contains(t *rapid.T, a, b []part.Zone) {
	t.Helper()
	for _, z := range b {
		var m plan.Point
		for _, p := range z.Outline {
			m.X += p.X / float64(len(z.Outline))
			m.Y += p.Y / float64(len(z.Outline))
		}
		for _, p := range z.Outline {
			for _, f := range []float64{1e-6, 0.3} {
				q := at(p.X+f*(m.X-p.X), p.Y+f*(m.Y-p.Y))
				if !within([]part.Zone{z}, z.Kind, q) || edge(z, q) < sliverM {
					continue // not inside its own outline: a notch, or a sliver nobody stands on
				}
				if !within(a, z.Kind, q) {
					t.Fatalf("%s shrank: %v was inside", z.Kind, q)
				}
			}
		}
	}
}

func BenchmarkZones(b *testing.B) {
	in := boardA()
	b.ReportAllocs()
	for b.Loop() {
		zone.Zones(in, nil)
	}
}

func BenchmarkPeople(b *testing.B) {
	in := peopleA(person(plan.RoleSpotter, at(22, 13)), person(plan.RoleBystander, at(70, 70)))
	b.ReportAllocs()
	for b.Loop() {
		zone.People(in, nil)
	}
}

// Whoever's place is in doubt may stand at its furthest corner, 3 m and 4 m away, and
// reaches half a metre further (ours).
func TestAPersonReachesFromTheFurthestCorner(t *testing.T) {
	p := &plan.Person{Head: plan.Head{ID: "P1", Doubts: []plan.Doubt{{Member: "at.x_m", Low: 7, High: 11}, {Member: "at.y_m", Low: 18, High: 24}}}, At: plan.Point{X: 10, Y: 20}}
	assert.InDelta(t, 0.5+5, zone.PersonReach(p), 1e-9)
	p.Doubts = nil
	assert.InDelta(t, 0.5, zone.PersonReach(p), 1e-9)
}
