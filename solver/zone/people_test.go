package zone_test

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
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
	return zone.PeopleIn{People: p, Zones: zone.Union(zone.Zones(zone.Input{Lines: []zone.Line{l}}, nil)), Stretches: l.Stretches, Ends: l.Ends}
}

func asks(in zone.PeopleIn) func(*[]part.Finding) {
	return func(found *[]part.Finding) { zone.People(in, found) }
}

func stands(role string, x, y float64, cover string) func(*[]part.Finding) {
	p := person(role, at(x, y))
	p.Cover = cover
	return asks(ring(p))
}

// walled is the same with obstacles all round the person.
func walled(role string, x, y float64, gap bool) func(*[]part.Finding) {
	in := ring(person(role, at(x, y)))
	box := plan.Obstacle{Head: plan.Head{ID: "wall"}, Outline: rect(x-0.3, y-0.3, x+0.3, y+0.3)}
	if gap { // a wall to the south only
		box.Outline = rect(x-0.3, y-0.6, x+0.3, y-0.3)
	}
	in.Obstacles = []plan.Obstacle{box}
	return asks(in)
}

func driver(x, y float64, role, cover string, id plan.ID) func(*[]part.Finding) {
	p := person(role, at(100, 100))
	p.Vehicle, p.Cover = id, cover
	in := ring(p)
	in.Vehicles = []zone.Vehicle{{ID: "pickup", Footprint: rect(x-2.5, y-1, x+2.5, y+1)}}
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

func parts(joules, massKgPerM float64, stiff bool) func(*[]part.Finding) {
	return func(found *[]part.Finding) {
		// F²·L/(2·EA) with L = 2, EA = 1: F² joules.
		s := zone.Spring{ForceN: math.Sqrt(joules), LengthM: 2, StiffnessN: 1, MassKgPerM: massKgPerM}
		if !stiff {
			s.StiffnessN = 0
		}
		zone.Recoil(zone.RecoilIn{Line: "line", Springs: []zone.Spring{s}}, nil, found)
	}
}

var tree20 = zone.Tree{Thing: "tree", HeightM: 20, Pull: part.Vec{1, 0, 0}, Known: true, ToFailure: 0.2501}

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
	// 10° of recoil at 5 m from the tip: 5·tan 10° = 0.8816 m; from the other
	// end the same.
	{"person-in-zone", part.Danger, stands(plan.RoleSpotter, 5, 0.88, ""), stands(plan.RoleSpotter, 5, 0.89, "")},
	{"person-in-zone", part.Danger, stands(plan.RoleOperator, 5, 0.88, "cab, bonnet up"), stands(plan.RoleOperator, 5, 0.89, "cab, bonnet up")},
	{"person-in-zone-no-way", part.Danger, walled(plan.RoleSpotter, 5, 0.5, false), walled(plan.RoleSpotter, 5, 0.5, true)},
	// The ring of 10 m round the end at 10;0 (its polygon stands out by 0.1 %).
	{"person-in-stand-off", part.Warning, stands(plan.RoleSpotter, 10, 9.99, ""), stands(plan.RoleSpotter, 10, 10.02, "")},
	{"person-in-stand-off", part.Warning, stands(plan.RoleOperator, 10, 9.99, ""), stands(plan.RoleOperator, 10, 9.99, "standing timber")},
	{"person-in-stand-off-no-way", part.Warning, walled(plan.RoleSpotter, 10, 9, false), walled(plan.RoleSpotter, 10, 9, true)},
	{"stand-off-covered", part.Notice, stands(plan.RoleOperator, 10, 9.99, "cab, bonnet up"), stands(plan.RoleOperator, 10, 10.02, "cab, bonnet up")},
	{"bystander-in-stand-off", part.Danger, stands(plan.RoleBystander, 10, 9.99, "standing timber"), stands(plan.RoleBystander, 10, 10.02, "")},
	{"bystander-in-stand-off-no-way", part.Danger, walled(plan.RoleBystander, 10, 9, false), walled(plan.RoleBystander, 10, 9, true)},
	{"role-not-known", part.Caution, stands("guest", 100, 0, ""), stands(plan.RoleBystander, 100, 0, "")},
	{"driver-on-foot", part.Caution, stands(plan.RoleDriver, 100, 0, ""), driver(100, 0, plan.RoleDriver, "", "pickup")},
	{"vehicle-not-there", part.Caution, driver(100, 0, plan.RoleDriver, "", "gone"), driver(100, 0, plan.RoleDriver, "", "pickup")},
	// The pickup's nose at 2.5 m: the line and its recoil end 10 m past 10;0.
	{"person-in-vehicle", part.Warning, driver(22.4, 0, plan.RoleDriver, "", "pickup"), driver(22.6, 0, plan.RoleDriver, "", "pickup")},
	{"person-in-vehicle", part.Notice, driver(22.4, 0, plan.RoleDriver, "bonnet up", "pickup"), driver(22.4, 0, plan.RoleDriver, "", "pickup")},
	{"person-not-placed", part.Danger, stands(plan.RoleSpotter, math.NaN(), 0, ""), stands(plan.RoleSpotter, 100, 0, "")},
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
	{"recoil-energy", part.Notice, parts(79.01, 0.1, true), parts(78.99, 0.1, true)},
	{"recoil-energy-only", part.Notice, parts(79.01, 0, true), parts(79.01, 0.1, true)},
	{"recoil-not-computed", part.Notice, parts(79.01, 0.1, false), parts(79.01, 0.1, true)},
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
	near(t, 12.479, float64(lacks[1].FromWinch(l))-18.535/3, 1e-2, "along the line")
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
		for _, k := range zone.Inside(in.Zones, s.Out) {
			if role == plan.RoleBystander || k != part.ZoneStandOff {
				t.Fatalf("from %v to %v, still inside %s", p, s.Out, k)
			}
		}
		near(t, math.Hypot(s.Out.X-p.X, s.Out.Y-p.Y), float64(s.OutM), 1e-6, "its length")
		for i := range 201 {
			f := float64(i) / 200
			q := at(p.X+f*(s.Out.X-p.X), p.Y+f*(s.Out.Y-p.Y))
			for _, k := range zone.Inside(in.Zones, q) {
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
				Trees:    []zone.Tree{{Thing: "t", At: b, HeightM: 20, Pull: part.Vec{1, 1, 0}, Known: true, ToFailure: toFailure}},
				Rolls:    []zone.Roll{{Thing: "v", Footprint: []plan.Point{a, b, c}, Dir: part.Vec{0, 1, 0}, RunM: 5 + extra}},
				Slides:   []zone.Slide{{Thing: "v", Footprint: []plan.Point{a, b, c}, Dir: part.Vec{0, 1, 0}, RunM: 5 + extra}},
				StandOff: standOff,
			}
		}
		less := zone.Zones(in(0, load, k), nil)
		wide := zone.Zones(in(more, load+more, k+more), nil)
		contains(t, wide, less)
		// The union over the travel holds every moment of it.
		contains(t, zone.Union(append(slices.Clone(less), wide...)), less)
		contains(t, zone.Union(less), less)
	})
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
				if !within([]part.Zone{z}, z.Kind, q) {
					continue // not inside its own outline: a notch
				}
				if !within(a, z.Kind, q) {
					t.Fatalf("%s shrank: %v was inside", z.Kind, q)
				}
			}
		}
	}
}

func TestUnionKeepsWhatItJoins(t *testing.T) {
	zs := zone.Zones(boardA(), nil)
	u := zone.Union(zs)
	assert.Less(t, len(u), len(zs))
	for i := range u {
		for j := range u {
			if i != j && u[i].Kind == u[j].Kind {
				for _, p := range u[i].Outline {
					assert.False(t, deep(u[j], p), "outlines of a union do not overlap")
				}
			}
		}
	}
	assert.Equal(t, u, zone.Union(zs), "same input, same output")
	// A pocket ringed by a zone counts as inside.
	var fence []part.Zone
	for i := range 12 {
		a, b := polar(float64(i)*30, 10), polar(float64(i+1)*30+1, 10)
		c, d := polar(float64(i+1)*30+1, 12), polar(float64(i)*30, 12)
		fence = append(fence, part.Zone{Kind: part.ZoneRecoil, Thing: "l", Outline: []plan.Point{a, d, c, b}})
	}
	ringed := zone.Union(fence)
	require.Len(t, ringed, 1)
	assert.True(t, within(ringed, part.ZoneRecoil, at(0, 0)))
}

func deep(z part.Zone, p plan.Point) bool {
	for _, d := range []plan.Point{{X: 1e-3}, {X: -1e-3}, {Y: 1e-3}, {Y: -1e-3}} {
		if !within([]part.Zone{z}, z.Kind, at(p.X+d.X, p.Y+d.Y)) {
			return false
		}
	}
	return true
}

func BenchmarkZones(b *testing.B) {
	in := boardA()
	b.ReportAllocs()
	for b.Loop() {
		zone.Zones(in, nil)
	}
}

func BenchmarkUnion20(b *testing.B) {
	var zs []part.Zone
	for i := range 3 {
		in := boardA()
		in.Lines[0].Stretches = slices.Clone(in.Lines[0].Stretches)
		in.Lines[0].Stretches[1].B.X += float64(i)
		in.Trees = []zone.Tree{{Thing: "t", At: tree1, HeightM: 18, Pull: part.Vec{-0.2, -1, 0}}}
		zs = append(zs, zone.Zones(in, nil)...)
	}
	b.ReportAllocs()
	for b.Loop() {
		zone.Union(zs)
	}
}

func BenchmarkPeople(b *testing.B) {
	in := peopleA(person(plan.RoleSpotter, at(22, 13)), person(plan.RoleBystander, at(70, 70)))
	b.ReportAllocs()
	for b.Loop() {
		zone.People(in, nil)
	}
}
