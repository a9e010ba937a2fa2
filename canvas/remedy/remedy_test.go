package remedy_test

import (
	"errors"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/canvas/board"
	"kedge/canvas/form"
	"kedge/canvas/remedy"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// remedyIDs are the word ids of all remedies that the solver's sources raise:
// the Do of a part.Remedy, and what the rules of the holds hand to raise.
func remedyIDs(t *testing.T) []string {
	t.Helper()
	root := filepath.Join("..", "..", "solver")
	found := map[string]bool{}
	literal := func(e ast.Expr) {
		if l, ok := e.(*ast.BasicLit); ok && l.Kind == token.STRING {
			if s, err := strconv.Unquote(l.Value); err == nil && s != "" {
				found[s] = true
			}
		}
	}
	err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.KeyValueExpr:
				if k, ok := n.Key.(*ast.Ident); ok && k.Name == "Do" {
					literal(n.Value)
				}
			case *ast.CallExpr:
				if f, ok := n.Fun.(*ast.Ident); ok && f.Name == "raise" && filepath.Base(filepath.Dir(path)) == "hold" && len(n.Args) > 4 {
					literal(n.Args[4])
				}
			}
			return true
		})
		return nil
	})
	require.NoError(t, err)
	return slices.Sorted(maps.Keys(found))
}

func TestEveryRemedyIsHandled(t *testing.T) {
	if _, err := os.Stat(filepath.Join("..", "..", "solver")); err != nil {
		t.Skip("the solver's sources are not here")
	}
	ids := remedyIDs(t)
	require.Greater(t, len(ids), 40, "the sources are read as they are written")
	all := remedy.All()
	w := english(t)
	for _, id := range ids {
		button, known := all[id]
		if assert.True(t, known, "remedy %q has neither an edit, nor a field, nor a reason", id) {
			label := "why-" + id
			if button {
				label = "remedied-" + id
			}
			assert.True(t, w.HasLabel(label) || isFocus(id), "remedy %q lacks %q", id, label)
			assert.NotContains(t, w.Remedy(id), "[", "remedy %q has no text for its button", id)
		}
	}
	for id := range all {
		assert.True(t, slices.Contains(ids, id) || id == "cover", "no rule raises remedy %q", id)
	}
}

// isFocus tells the remedies that are a field to type into.
func isFocus(id string) bool {
	return strings.HasPrefix(id, "type-") || strings.HasPrefix(id, "say-") || id == "splice" || id == "cover"
}

func kit(t *testing.T) []facts.GearItem {
	t.Helper()
	list, err := facts.StarterGear()
	require.NoError(t, err)
	return list
}

func remedyOf(a *solver.Assessment, do string) (part.Finding, part.Remedy, bool) {
	for _, f := range a.Findings {
		for _, r := range f.Remedies {
			if r.Do == do {
				return f, r, true
			}
		}
	}
	return part.Finding{}, part.Remedy{}, false
}

// unturned is the redirect of storyboard A before step 17: the winch vehicle at
// (32.5, 7.5), nose toward the casualty.
func unturned(t *testing.T) *plan.Plan {
	p := redirect(t)
	p.Site.Vehicles[1].At, p.Site.Vehicles[1].Bearing = plan.Point{X: 32.5, Y: 7.5}, 90-177.7+360
	return p
}

// Storyboard A, step 17: nose 119.8° (counter-clockwise from east, bearing
// 330.2°), centre (31.22, 5.39), loads unchanged, one finding cleared.
func TestTurnVehicle(t *testing.T) {
	p := unturned(t)
	before := solver.Assess(p, "R1")
	f, r, ok := remedyOf(before, "turn-vehicle")
	require.True(t, ok)
	got, err := remedy.Do(remedy.Given{Plan: p, Rig: "R1", Kit: kit(t), Words: english(t), Answer: before}, r)
	require.NoError(t, err)
	assert.Equal(t, "Turn Winch vehicle", got.Name)
	v := &got.Plan.Site.Vehicles[1]
	assert.InDelta(t, 330.2, float64(v.Bearing), 0.15)
	assert.InDelta(t, 31.22, v.At.X, 0.02)
	assert.InDelta(t, 5.39, v.At.Y, 0.02)
	was, _ := p.Site.Vehicles[1].PortPlace(plan.PortWinch)
	is, _ := v.PortPlace(plan.PortWinch)
	assert.InDelta(t, was.At.X, is.At.X, 2e-6, "the fairlead stays")
	assert.InDelta(t, was.At.Y, is.At.Y, 2e-6)
	after := solver.Assess(got.Plan, "R1")
	assert.False(t, slices.ContainsFunc(after.Findings, func(g part.Finding) bool { return g.Key() == f.Key() }))
	for _, id := range []string{"L1/1", "L1/2", "B1"} {
		x, ok := before.Part(id)
		require.True(t, ok)
		y, ok := after.Part(id)
		require.True(t, ok)
		require.True(t, x.Move.Known && y.Move.Known)
		assert.InEpsilon(t, float64(x.Move.Force), float64(y.Move.Force), 1e-4, id)
	}
}

// remedyCases are plans of which a finding has a remedy, and what it makes of
// them.
var remedyCases = []struct {
	do     string
	name   string
	change func(p *plan.Plan)
	by     *part.Remedy // given instead of raised: no rule of this rig raises it
	got    func(t *testing.T, p *plan.Plan)
}{
	{"longer-sling", "Length of Sling 1", func(p *plan.Plan) { p.Rigs[0].Slings[0].Length = 1.55 }, nil, func(t *testing.T, p *plan.Plan) {
		s := p.Rigs[0].Slings[0]
		assert.Equal(t, quantity.Length(2), s.Length, "the next the kit has")
		assert.Contains(t, s.Presets, "rating", "another piece has another tag")
	}},
	{"chock-all", "Chock Winch vehicle", func(*plan.Plan) {}, &part.Remedy{Do: "chock-all", Thing: "V2"}, func(t *testing.T, p *plan.Plan) {
		assert.Equal(t, plan.ChocksAll, p.Site.Vehicles[1].Chocks)
	}},
	{"chock", "", func(*plan.Plan) {}, &part.Remedy{Do: "chock", Thing: "V2"}, func(t *testing.T, p *plan.Plan) {
		assert.Equal(t, plan.ChocksAll, p.Site.Vehicles[1].Chocks)
	}},
	{"release-brakes", "Let the wheels of Casualty turn", func(p *plan.Plan) {
		v := &p.Site.Vehicles[0]
		v.Brake, v.Chocks, v.InGear, v.Stuck.Depth = plan.BrakeRear, plan.ChocksAll, true, plan.DepthNone
	}, nil, func(t *testing.T, p *plan.Plan) {
		v := &p.Site.Vehicles[0]
		assert.Equal(t, plan.BrakeNone, v.Brake)
		assert.Equal(t, plan.ChocksNone, v.Chocks)
		assert.False(t, v.InGear || v.FootBrake)
	}},
	{"choke", "Choke Sling 1", func(p *plan.Plan) { p.Rigs[0].Slings[0].Hitch = plan.HitchStraight }, nil, func(t *testing.T, p *plan.Plan) {
		assert.Equal(t, plan.HitchChoked, p.Rigs[0].Slings[0].Hitch)
	}},
	{"straight-sling", "", func(*plan.Plan) {}, &part.Remedy{Do: "straight-sling", Thing: "S1"}, func(t *testing.T, p *plan.Plan) {
		assert.Equal(t, plan.HitchStraight, p.Rigs[0].Slings[0].Hitch)
	}},
	{"turn-shackle", "Turn Shackle 1", func(p *plan.Plan) { p.Rigs[0].Shackles[0].PinIsRunning = true }, nil, func(t *testing.T, p *plan.Plan) {
		assert.False(t, p.Rigs[0].Shackles[0].PinIsRunning)
	}},
	{"bow-shackle", "", func(p *plan.Plan) { p.Rigs[0].Shackles[0].Kind = plan.ShackleDee }, &part.Remedy{Do: "bow-shackle", Thing: "K1"}, func(t *testing.T, p *plan.Plan) {
		k := p.Rigs[0].Shackles[0]
		assert.Equal(t, plan.ShackleBow, k.Kind)
		// 47 kN of the dee; of 3.25, 4.75, 6.5 t the 6.5 t: 4.75 t are 46.6 kN.
		assert.InEpsilon(t, 6.5*9806.65, float64(k.Rating.Force), 1e-9)
		assert.Len(t, k.Joins, 2)
		assert.Contains(t, k.Presets, "rating")
	}},
	{"block-for-ring", "", func(p *plan.Plan) {
		b := &p.Rigs[0].Blocks[0]
		b.Kind, b.Efficiency = plan.BlockRing, 0
	}, nil, func(t *testing.T, p *plan.Plan) {
		b := p.Rigs[0].Blocks[0]
		assert.Equal(t, plan.BlockRoller, b.Kind)
		assert.Contains(t, b.Presets, "rating")
		assert.Equal(t, plan.Point{X: 23.75, Y: 18.43}, b.At)
	}},
	{"static-line", "", func(p *plan.Plan) {
		l := &p.Rigs[0].Lines[0]
		l.Material, l.Diameter, l.Length = plan.MaterialKinetic, 0.024, 30
	}, nil, func(t *testing.T, p *plan.Plan) {
		l := p.Rigs[0].Lines[0]
		assert.NotEqual(t, plan.MaterialKinetic, l.Material)
		assert.GreaterOrEqual(t, l.Length, quantity.Length(30))
		assert.Len(t, l.Path, 3)
		assert.Contains(t, l.Presets, "rating")
	}},
	{"static-sling", "", func(p *plan.Plan) { p.Rigs[0].Slings[0].Material = plan.MaterialKinetic }, nil, func(t *testing.T, p *plan.Plan) {
		s := p.Rigs[0].Slings[0]
		assert.Equal(t, plan.MaterialWeb, s.Material)
		assert.Equal(t, plan.Port{Thing: "B1"}, s.Holds)
	}},
	{"replace", "Replace Sling 1", func(p *plan.Plan) { p.Rigs[0].Slings[0].Condition = plan.ConditionDoubtful }, nil, func(t *testing.T, p *plan.Plan) {
		s := p.Rigs[0].Slings[0]
		assert.Equal(t, plan.ConditionUnknown, s.Condition, "nobody has looked at it")
		assert.Contains(t, s.Presets, "rating")
		assert.Equal(t, quantity.Length(0.6), s.Height, "rigged as it was")
	}},
	{"stronger-part", "", func(p *plan.Plan) { p.Rigs[0].Shackles[0].Rating.Force = 5000 }, nil, func(t *testing.T, p *plan.Plan) {
		assert.Greater(t, p.Rigs[0].Shackles[0].Rating.Force, quantity.Force(5000))
		assert.Contains(t, p.Rigs[0].Shackles[0].Presets, "rating")
	}},
	{"extend-line", "Lengthen Line", func(p *plan.Plan) { p.Rigs[0].Lines[0].Length = 33 }, nil, func(t *testing.T, p *plan.Plan) {
		r := p.Rigs[0]
		require.Len(t, r.Slings, 2)
		assert.Equal(t, plan.Port{Thing: "V1", Point: "front"}, r.Slings[1].On)
		assert.Equal(t, plan.Port{Thing: r.Slings[1].ID}, r.Lines[0].Path[2])
	}},
	{"run-engine", "", func(p *plan.Plan) { p.Site.Vehicles[1].Winch.EngineOff = true }, nil, func(t *testing.T, p *plan.Plan) {
		assert.False(t, p.Site.Vehicles[1].Winch.EngineOff)
	}},
	{"lower-strap", "Lower the sling on Tree 1", func(p *plan.Plan) { p.Rigs[0].Slings[0].Height = 1.6 }, nil, func(t *testing.T, p *plan.Plan) {
		assert.Equal(t, quantity.Length(1), p.Rigs[0].Slings[0].Height) // tree.strap-height-floor
	}},
	{"mark-as-anchor", "", func(p *plan.Plan) { p.Rigs[0].Slings[0].On = plan.Port{Thing: "O1"}; p.Rigs[0].Slings[0].Length = 20 }, nil, func(t *testing.T, p *plan.Plan) {
		assert.True(t, p.Site.Obstacles[0].Anchor)
	}},
	{"turn-anchor", "Set Picket holdfast 1 for the pull", func(p *plan.Plan) {
		p.Site.Anchors[0] = plan.Anchor{Head: plan.Head{ID: "T1"}, Kind: plan.AnchorPickets, At: p.Site.Anchors[0].At, Layout: "3-2-1", Soil: "loam", SetKnown: true, SetBearing: 90}
	}, nil, func(t *testing.T, p *plan.Plan) {
		// The block's line leaves Tree 1 toward the bisector of the two
		// stretches: from (24, 19.5) to (23.75, 18.43), bearing 193.2°, and swings
		// with the stretch to the casualty, whose point goes 6 m nearer: by half of
		// what that turns from (8, 8.5) to (14, 8.5) as seen from the block, 6.7°.
		got := float64(p.Site.Anchors[0].SetBearing)
		assert.True(t, got > 193.2-6.7-2 && got < 193.2+2, "%g", got)
		assert.True(t, p.Site.Anchors[0].SetKnown)
	}},
	{"other-point", "Other point of Casualty", func(p *plan.Plan) {
		v := &p.Site.Vehicles[0]
		v.Recovery = append(slices.Clone(v.Recovery), plan.RecoveryPoint{ID: "ball", Kind: plan.PointTowBall, Ahead: 2.5, Height: 0.5})
		p.Rigs[0].Lines[0].Path[2].Point = "ball"
	}, nil, func(t *testing.T, p *plan.Plan) {
		assert.Equal(t, plan.ID("front"), p.Rigs[0].Lines[0].Path[2].Point)
	}},
	{"tie-back", "Tie back Winch vehicle", func(p *plan.Plan) {
		p.Site.Anchors = append(p.Site.Anchors, ratedAt("T9", 33.7, 1.05, 80e3))
	}, nil, func(t *testing.T, p *plan.Plan) {
		r := p.Rigs[0]
		require.Len(t, r.Slings, 2)
		s := r.Slings[1]
		assert.Equal(t, plan.UseTieBack, s.Use)
		assert.Equal(t, []plan.Port{{Thing: "V2", Point: "rear"}, {Thing: "T9"}}, []plan.Port{s.On, s.Holds})
		assert.InDelta(t, math.Hypot(2.449, 0.6), float64(s.Length), 0.01, "taken up to what is to be bridged: the points are 2.449 m apart and 0.6 m in height")
		assert.Contains(t, s.Presets, "rating")
	}},
	{"add-damper", "Add damper on Line", func(p *plan.Plan) { p.Rigs[0].Dampers = nil },
		&part.Remedy{Do: "add-damper", Thing: "L1", Value: part.Value{Name: "L1/2", Unit: part.UnitShare, X: 0.67}}, func(t *testing.T, p *plan.Plan) {
			require.Len(t, p.Rigs[0].Dampers, 1)
			d := p.Rigs[0].Dampers[0]
			assert.Equal(t, 1, d.Stretch)
			assert.Equal(t, 0.67, d.Share)
			assert.Equal(t, quantity.Mass(3), d.Mass)
			assert.Contains(t, d.Presets, "mass_kg")
		}},
	{"damper-at-join", "Add dampers at the joins of Line", func(p *plan.Plan) {
		p.Rigs[0].Dampers = nil
		p.Rigs[0].Lines[0].Joins = []plan.Join{{At: 10, Kind: "shackle", Mass: 0.9}}
	}, &part.Remedy{Do: "damper-at-join", Thing: "L1"}, func(t *testing.T, p *plan.Plan) {
		require.Len(t, p.Rigs[0].Dampers, 2)
		for i, at := range []float64{9, 11} { // one metre on either side of the join
			assert.Equal(t, 0, p.Rigs[0].Dampers[i].Stretch)
			assert.InDelta(t, at/12.5, p.Rigs[0].Dampers[i].Share, 0.02) // first stretch 12.48 m, storyboard A
		}
	}},
}

func TestRemediesOfFindings(t *testing.T) {
	w := english(t)
	tried := map[string]bool{"turn-vehicle": true}
	for _, tt := range remedyCases {
		tried[tt.do] = true
		t.Run(tt.do, func(t *testing.T) {
			p := redirect(t)
			tt.change(p)
			require.NoError(t, plan.Validate(p))
			before, err := plan.FormatPlan(p)
			require.NoError(t, err)
			a := solver.Assess(p, "R1")
			r := part.Remedy{}
			if tt.by != nil {
				r = *tt.by
			} else {
				var ok bool
				_, r, ok = remedyOf(a, tt.do)
				require.True(t, ok, "no finding has it: %v", findingIDs(a))
			}
			in := remedy.Given{Plan: p, Rig: "R1", Kit: kit(t), Words: w}
			can, why := remedy.Can(in, r)
			require.True(t, can, why)
			got, err := remedy.Do(in, r)
			require.NoError(t, err)
			require.NotNil(t, got.Plan)
			assert.Nil(t, got.Focus)
			assert.NotContains(t, got.Name, "[")
			if tt.name != "" {
				assert.Equal(t, tt.name, got.Name)
			}
			tt.got(t, got.Plan)
			after, err := plan.FormatPlan(p)
			require.NoError(t, err)
			assert.Equal(t, string(before), string(after), "the plan handed in stays")
			if tt.do == "damper-at-join" { // a join is a flying mass, damped or not
				_, err = remedy.Do(remedy.Given{Plan: got.Plan, Rig: "R1", Kit: kit(t), Words: w}, r)
				assert.ErrorContains(t, err, "has its dampers")
				return
			}
			assert.False(t, has(solver.Assess(got.Plan, "R1"), r), "the finding is cleared")
		})
	}
	for id, button := range remedy.All() {
		assert.True(t, !button || isFocus(id) || tried[id], "%s is not tried", id)
	}
}

func has(a *solver.Assessment, r part.Remedy) bool {
	_, s, ok := remedyOf(a, r.Do)
	return ok && s.Thing == r.Thing && s.Value.Name == r.Value.Name
}

func findingIDs(a *solver.Assessment) []string {
	var ids []string
	for _, f := range a.Findings {
		ids = append(ids, f.ID)
	}
	return ids
}

func TestRemediesToType(t *testing.T) {
	tests := []struct {
		do, thing string
		change    func(p *plan.Plan)
		want      string
	}{
		{"type-rating", "S1", nil, "rating"},
		{"type-rating", "V1", func(p *plan.Plan) { p.Site.Vehicles[0].Recovery[0].Rating = plan.Rating{} }, "recovery_points/front/rating"},
		{"say-rating-basis", "V1", func(p *plan.Plan) { p.Site.Vehicles[0].Recovery[0].Rating.Basis = "" }, "recovery_points/front/rating"},
		{"say-rating-place", "B1", nil, "rating_on"},
		{"type-kind", "V1", func(p *plan.Plan) { p.Site.Vehicles[0].Recovery[0].Kind = "" }, "recovery_points/front/kind"},
		{"type-kind", "B1", nil, "kind"},
		{"type-kind", "T1", nil, "kind"},
		{"type-drum", "V2", func(p *plan.Plan) { p.Site.Vehicles[1].Winch.DrumWidth = 0 }, "winch/drum_width_m"},
		{"type-line-pull", "V2", nil, "winch/line_pull_n"},
		{"type-stall", "V2", nil, "winch/stall_factor"},
		{"type-size", "T1", func(p *plan.Plan) { p.Site.Anchors[0].Height = 0 }, "height_m"},
		{"type-size", "T1", func(p *plan.Plan) { p.Site.Anchors[0].Girth, p.Site.Anchors[0].Trunk = 0, 0 }, "girth_m"},
		{"type-girth", "T1", nil, "girth_m"},
		{"type-trunk", "T1", nil, "trunk_m"},
		{"type-source", "T1", nil, "hold_source"},
		{"type-size", "T1", func(p *plan.Plan) { p.Site.Anchors[0].Kind, p.Site.Anchors[0].Depth = plan.AnchorDeadman, 1 }, "log_length_m"},
		{"type-connector", "L1", nil, "connector/kind"},
		{"type-connector", "L1", func(p *plan.Plan) { p.Rigs[0].Lines[0].Connector = plan.Connector{Kind: plan.ConnectorHook} }, "connector/rating"},
		{"type-diameter", "B1", nil, "sheave_diameter_m"},
		{"type-diameter", "L1", nil, "diameter_m"},
		{"type-diameter", "S1", nil, "width_m"},
		{"type-length", "S1", nil, "length_m"},
		{"type-material", "L1", nil, "material"},
		{"type-condition", "L1", nil, "condition"},
		{"type-end", "L1", nil, "end_fitting"},
		{"splice", "L1", nil, "knots"},
		{"type-health", "T1", nil, "health"},
		{"type-species", "T1", nil, "species"},
		{"type-roots", "T1", nil, "rooting"},
		{"type-soil", "T1", nil, "soil"},
		{"type-hold", "T1", nil, "hold_low_n"},
		{"type-mass", "O1", nil, "mass_kg"},
		{"type-mass", "V2", nil, "mass_kg"},
		{"type-layout", "T1", func(p *plan.Plan) { p.Site.Anchors[0].Kind = plan.AnchorPickets }, "layout"},
		{"type-direction", "T1", func(p *plan.Plan) { p.Site.Anchors[0].Kind = plan.AnchorPickets }, "set_bearing_deg"},
		{"type-slope", "T1", func(p *plan.Plan) { p.Site.Anchors[0].Kind = plan.AnchorDeadman }, "line_run"},
		{"cover", "P1", nil, "cover"},
	}
	tried := map[string]bool{"type-missing": true} // TestRemedyToTypeWhatIsMissing
	for _, tt := range tests {
		tried[tt.do] = true
		t.Run(tt.do+" "+tt.thing, func(t *testing.T) {
			p := redirect(t)
			if tt.change != nil {
				tt.change(p)
			}
			w := english(t)
			got, err := remedy.Do(remedy.Given{Plan: p, Rig: "R1", Words: w}, part.Remedy{Do: tt.do, Thing: plan.ID(tt.thing)})
			require.NoError(t, err)
			assert.Nil(t, got.Plan)
			assert.Equal(t, &form.Focus{Thing: plan.ID(tt.thing), Member: tt.want}, got.Focus)
			fields := form.Fields(p, "R1", plan.ID(tt.thing), nil, w)
			assert.True(t, slices.ContainsFunc(fields, func(f form.Field) bool { return f.Member == tt.want }))
		})
	}
	for id := range remedy.All() {
		assert.True(t, !isFocus(id) || tried[id], "%s is not tried", id)
	}
}

func TestRemediesWithoutAButton(t *testing.T) {
	tests := []struct{ do, thing, why string }{
		{"tie-back", "V2", "No anchor stands behind"},
		{"tie-back", "V2", "within 30° of the line of the pull"},
		{"tie-back", "V1", "nothing of the kind"},
		{"other-anchor", "T1", "yours to choose"},
		{"lower-line", "T1", "yours to choose"},
		{"pull-in-line", "V1", "move the winch or redirect the line"},
		{"block-at-bend", "L1", "yours to choose"},
		{"equalise", "S1", "on the board"},
		{"ways-round", "L1", "listed beside the sheet"},
		{"turn-shackle", "K1", "in line on the board"},
		{"stronger-part", "V1", "limit the winch"},
		{"stronger-part", "T1", "limit the winch"},
		{"turn-vehicle", "V1", "no winch"},
		{"turn-vehicle", "V2", "does not help"},
		{"turn-anchor", "T1", "not set into the ground"},
		{"other-point", "V9", "nothing of the kind"},
		{"longer-sling", "S9", "nothing of the kind"},
		{"never-heard-of", "V1", "change it on the board"},
		{"type-health", "V1", "no such field"},
	}
	for _, tt := range tests {
		t.Run(tt.do, func(t *testing.T) {
			in := remedy.Given{Plan: redirect(t), Rig: "R1", Kit: kit(t), Words: english(t)}
			got, err := remedy.Do(in, part.Remedy{Do: tt.do, Thing: plan.ID(tt.thing)})
			var no *remedy.NoButton
			require.True(t, errors.As(err, &no), "%v", err)
			assert.Equal(t, tt.do, no.Do)
			assert.Contains(t, no.Why, tt.why)
			assert.Zero(t, got)
		})
	}
}

// ratedAt is a rated point.
func ratedAt(id plan.ID, x, y float64, goodN quantity.Force) plan.Anchor {
	return plan.Anchor{Head: plan.Head{ID: id}, Kind: plan.AnchorRated, At: plan.Point{X: x, Y: y}, Rating: plan.Rating{Force: goodN, Basis: plan.BasisWorking}}
}

// treeAt is a living tree of a metre and a half of girth.
func treeAt(id plan.ID, x, y float64, high quantity.Length) plan.Anchor {
	return plan.Anchor{Head: plan.Head{ID: id}, Kind: plan.AnchorTree, At: plan.Point{X: x, Y: y}, Girth: 1.5, Height: high, Health: plan.HealthAlive}
}

// Tying back takes the nearest anchor that the rule takes, or says what is wrong
// with the nearest and what to place. The puller of the redirect stands at (31.22,
// 5.39), its rear point at (32.49, 3.18), pulled along 119.8° (storyboard A, step
// 17): straight behind it lies (33.7, 1.05).
func TestTieBack(t *testing.T) {
	tests := []struct {
		name    string
		anchors []plan.Anchor // instead of Tree 3
		to      plan.ID
		why     string
	}{
		{"none at all", nil, "", "No anchor stands behind Winch vehicle within 30° of the line of the pull: place one good for 54.6 kN"},
		{"only one beside it", []plan.Anchor{ratedAt("T9", 36, 8, 80e3)}, "", "No anchor stands behind Winch vehicle"},
		{"only one ahead", []plan.Anchor{ratedAt("T9", 29, 9, 80e3)}, "", "No anchor stands behind Winch vehicle"},
		{"one straight behind", []plan.Anchor{ratedAt("T9", 33.7, 1.05, 80e3)}, "T9", ""},
		{"the nearer of two", []plan.Anchor{ratedAt("T8", 35.2, -1.6, 80e3), ratedAt("T9", 33.7, 1.05, 80e3)}, "T9", ""},
		{"the nearer is too weak", []plan.Anchor{ratedAt("T8", 33.7, 1.05, 80e3), ratedAt("T9", 33.55, 1.85, 10e3)}, "T8", ""},
		{"too weak", []plan.Anchor{ratedAt("T9", 33.7, 1.05, 10e3)}, "", "Rated ground anchor 1 carries 30.2 kN and is good for 10.0 kN. Place an anchor good for 54.6 kN behind Winch vehicle, within 30° of the line of the pull"},
		{"not known", []plan.Anchor{ratedAt("T9", 33.7, 1.05, 0)}, "", "Whether Rated ground anchor 1 is within its limit is not known; not entered: Rating (Rated ground anchor 1). Place an anchor"},
		{"a tree whose height is not known", []plan.Anchor{treeAt("T9", 33.7, 1.05, 0)}, "", "Whether Tree 3 is within its limit is not known; not entered: Height (Tree 3). Place an anchor"},
		{"out of reach", []plan.Anchor{ratedAt("T9", 53.7, -47, 80e3)}, "", "further than any sling or line of the kit reaches"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := redirect(t)
			p.Site.Anchors = append(p.Site.Anchors[:2:2], tt.anchors...)
			b, err := board.New(p, board.Options{})
			require.NoError(t, err)
			_, r, ok := remedyOf(b.Answer(), "tie-back")
			require.True(t, ok)
			can, why := b.CanDo(r)
			assert.Equal(t, can, !strings.HasPrefix(tt.why, "No anchor stands"), "nothing behind is seen before anything is computed: %s", why)
			_, err = b.Do(r)
			if tt.to == "" {
				require.Error(t, err)
				assert.Contains(t, strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ").Replace(b.Prompt()), tt.why)
				assert.True(t, p == b.Plan(), "the plan is untouched")
				return
			}
			require.NoError(t, err)
			s := b.Plan().Rigs[0].Slings[1]
			assert.Equal(t, tt.to, s.Holds.Thing)
			q, ok := b.Answer().Part(string(s.ID))
			require.True(t, ok)
			// The whole line pull, and no less: strap and grip do not add.
			assert.GreaterOrEqual(t, float64(q.Move.Force), 0.999*float64(b.Answer().Move.Tension))
			assert.Less(t, q.Used, 1.0)
			assert.False(t, has(b.Answer(), r), "it slides no more")
			assert.Equal(t, "Tie back Winch vehicle", b.UndoName())
			b.Undo()
			assert.True(t, p == b.Plan(), "one step")
		})
	}
}

// Of a point without a rating it is the rating of that point that is asked for, and
// nothing else of its vehicle.
func TestTieBackAsksForTheRatingOfThePoint(t *testing.T) {
	p := redirect(t)
	p.Site.Anchors = append(p.Site.Anchors[:2:2], ratedAt("T9", 33.7, 1.05, 80e3))
	v, ok := p.Vehicle("V2")
	require.True(t, ok)
	v.Recovery = slices.Clone(v.Recovery)
	i := slices.IndexFunc(v.Recovery, func(q plan.RecoveryPoint) bool { return q.ID == "rear" })
	v.Recovery[i].Rating = plan.Rating{}
	b, err := board.New(p, board.Options{})
	require.NoError(t, err)
	_, r, ok := remedyOf(b.Answer(), "tie-back")
	require.True(t, ok)
	_, err = b.Do(r)
	require.Error(t, err)
	assert.Contains(t, b.Prompt(), "is not known; not entered: Rating (Winch vehicle, rear recovery point). Place")
}

// Every button of every finding of every plan here is one undo step that clears
// its finding or makes it less, or a field to type into, or says why not. One
// that changed nothing and said nothing would be no button.
func TestEveryRemedyDoesSomethingOrSaysWhyNot(t *testing.T) {
	plans := map[string]*plan.Plan{}
	for _, tt := range remedyCases {
		p := redirect(t)
		tt.change(p)
		plans["with "+tt.do] = p
	}
	files, err := fs.Glob(assets.Plans(), "*.kedge")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		plans[name] = seeded.Read(t, assets.Plans(), name)
	}
	tried := map[string]bool{}
	for _, name := range slices.Sorted(maps.Keys(plans)) {
		t.Run(name, func(t *testing.T) {
			p := plans[name]
			require.NoError(t, plan.Validate(p))
			b, err := board.New(p, board.Options{})
			require.NoError(t, err)
			for i := range p.Rigs {
				b.ShowRig(p.Rigs[i].ID)
				everyRemedy(t, b, tried)
			}
		})
	}
	assert.Greater(t, len(tried), 15, "of %v", slices.Sorted(maps.Keys(tried)))
}

// everyRemedy presses each button of each finding of the rig shown once, and
// takes it back.
func everyRemedy(t *testing.T, b *board.Board, tried map[string]bool) {
	t.Helper()
	for _, f := range b.Answer().Findings {
		for _, r := range f.Remedies {
			before := b.Plan()
			severity := worstOf(b.Answer(), f.Key())
			can, why := b.CanDo(r)
			focus, err := b.Do(r)
			tried[r.Do] = true
			switch {
			case err != nil:
				assert.NotEmpty(t, b.Prompt(), "%s of %s: the person is told why", r.Do, f.ID)
				assert.NotContains(t, b.Prompt(), "[", "%s of %s", r.Do, f.ID)
				assert.True(t, before == b.Plan(), "%s of %s: refused, the plan stays", r.Do, f.ID)
				continue
			case focus != nil:
				assert.NotEmpty(t, focus.Member, "%s of %s", r.Do, f.ID)
				assert.True(t, before == b.Plan())
				continue
			}
			assert.True(t, can, "%s of %s: %s", r.Do, f.ID, why)
			if found, _ := b.Ways(); found != nil { // it lists what can be chosen
				assert.NotEmpty(t, b.Prompt(), r.Do)
				b.Handle(board.Key{Name: "Escape"})
				assert.True(t, before == b.Shown(), "%s of %s: left, it is as it was", r.Do, f.ID)
				continue
			}
			require.False(t, before == b.Plan(), "%s of %s changes nothing and says nothing", r.Do, f.ID)
			if again, why := b.CanDo(r); again || why == "" { // a join stays a join: with its dampers nothing is left to do
				assert.Less(t, worstOf(b.Answer(), f.Key()), severity, "%s of %s clears nothing and makes nothing less", r.Do, f.ID)
			}
			assert.NotEmpty(t, b.Prompt(), "%s of %s: what it did is said", r.Do, f.ID)
			b.Undo()
			assert.True(t, before == b.Plan(), "%s of %s is one step", r.Do, f.ID)
		}
	}
}

// worstOf is how bad a finding is: its level, and within it the figures it
// gives; 0: there is none.
func worstOf(a *solver.Assessment, key string) float64 {
	for _, f := range a.Findings {
		if f.Key() == key {
			more := 0.0
			for _, v := range f.Values {
				if v.Unit == part.UnitAngle || v.Unit == part.UnitShare || v.Unit == part.UnitCount {
					more = max(more, v.X)
				}
			}
			return 1 + float64(f.Level) + more/(1+more)
		}
	}
	return 0
}

func TestNoKitNoPiece(t *testing.T) {
	p := redirect(t)
	in := remedy.Given{Plan: p, Rig: "R1", Words: english(t)}
	for _, r := range []part.Remedy{{Do: "replace", Thing: "S1"}, {Do: "static-line", Thing: "L1"}, {Do: "extend-line", Thing: "L1"},
		{Do: "block-for-ring", Thing: "B1"}, {Do: "bow-shackle", Thing: "K1"}} {
		can, why := remedy.Can(in, r)
		assert.False(t, can, r.Do)
		assert.Contains(t, why, "kit", r.Do)
	}
	// A trunk of 3 m is longer round than any sling of the kit: 9.4 m.
	p.Site.Anchors[0].Trunk = 3
	_, err := remedy.Do(remedy.Given{Plan: p, Rig: "R1", Kit: kit(t), Words: in.Words}, part.Remedy{Do: "longer-sling", Thing: "S1", Value: part.Value{X: 9.5}})
	require.Error(t, err)
	assert.Contains(t, err.Error(), "none long enough")
}

func TestBoardDo(t *testing.T) {
	p := unturned(t)
	before, err := plan.FormatPlan(p)
	require.NoError(t, err)
	b, err := board.New(p, board.Options{})
	require.NoError(t, err)
	_, r, ok := remedyOf(b.Answer(), "turn-vehicle")
	require.True(t, ok)
	can, why := b.CanDo(r)
	require.True(t, can, why)
	focus, err := b.Do(r)
	require.NoError(t, err)
	assert.Nil(t, focus)
	assert.Equal(t, "Turn Winch vehicle", b.UndoName())
	focus, err = b.Do(part.Remedy{Do: "type-health", Thing: "T1"})
	require.NoError(t, err)
	assert.Equal(t, &form.Focus{Thing: "T1", Member: "health"}, focus)
	assert.Equal(t, []plan.ID{"T1"}, b.Selection())
	_, err = b.Do(part.Remedy{Do: "tie-back", Thing: "V2"})
	require.Error(t, err)
	assert.Contains(t, b.Prompt(), "place one good for", "says what to place")
	b.Undo()
	after, err := plan.FormatPlan(b.Plan())
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}

// What a rule lacked is the field its remedy opens: of the ground, of a winch,
// of a point by its id.
func TestRemedyToTypeWhatIsMissing(t *testing.T) {
	w := english(t)
	for _, tt := range []struct {
		lack  part.Lack
		thing plan.ID
		want  string
	}{
		{part.Lack{Member: "slope_deg"}, form.ThingGround, "slope_deg"},
		{part.Lack{Thing: "V2", Member: "winch.flange_diameter_m"}, "V2", "winch/flange_diameter_m"},
		{part.Lack{Thing: "V1", Member: "recovery_points.front.rating.force_n"}, "V1", "recovery_points/front/rating"},
	} {
		var found []part.Finding
		part.NotDecided(&found, "any", tt.lack.Thing, tt.lack)
		got, err := remedy.Do(remedy.Given{Plan: redirect(t), Rig: "R1", Words: w}, found[0].Remedies[0])
		require.NoError(t, err)
		assert.Equal(t, &form.Focus{Thing: tt.thing, Member: tt.want}, got.Focus)
	}
}

func redirect(t *testing.T) *plan.Plan { return seeded.Example(t, "redirect") }

func english(t *testing.T) *words.Words {
	t.Helper()
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	return w
}
