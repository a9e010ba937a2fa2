package form

import (
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/assets"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func inWords(t require.TestingT, sys quantity.System) *words.Words {
	w, err := words.New("en", sys)
	require.NoError(t, err)
	return w
}

// fullPlan has every kind of thing with every member filled in by its type,
// so that no field is left untried.
func fullPlan(t require.TestingT) *plan.Plan {
	p := sample(t)
	doubts := []plan.Doubt{{Member: "mass_kg", Low: 2250, High: 2650, PlusMinus: true}, {Member: "length_m", Low: 4, High: 6}}
	v := &p.Site.Vehicles[0]
	v.Doubts, v.Presets = doubts, []string{"width_m", "casualty.way_length_m"}
	v.Name, v.Caption, v.Step, v.Locked = "Survey pickup", "it stands", 2, true
	v.Load, v.CGBehindFront, v.Rise = 150, 1.3, -0.25
	v.Brake, v.BrakeForce, v.Chocks, v.InGear = plan.BrakeRear, 4321.5, plan.ChocksAll, true
	*v.Stuck = plan.Stuck{Way: plan.WayFree, WayBearing: plan.Known(quantity.Degrees(77.7)), WayLength: 6, Surface: "roll.field", Depth: plan.DepthHub, Sinkage: 0.123, LockedWheels: 1,
		InWater: true, WaterSpeed: plan.Known(quantity.Speed(1.5)), WaterDepth: 0.4, TrappedWater: 200, Breakaway: 1.25, Suction: 1000.0 / 3, Measured: 12345.678, PlanOn: plan.PlanLow, Rule: "handbook",
		Bends: []plan.Point{{X: 12.0 / 7, Y: 3}, {X: 20, Y: -4}}, TurnRadius: 5.4321, Stages: []plan.Stage{{After: 2, Depth: plan.DepthNone}, {After: 4.0 / 3, Surface: "roll.gravel-firm"}}}
	v.Recovery[0].Presets = []string{"rating"}
	w := p.Site.Vehicles[1].Winch
	w.Presets, w.StallFactor, w.Limiter, w.MinWraps = []string{"line_pull_n"}, 1.2, 50000, 7
	p.Site.Anchors = append(p.Site.Anchors,
		plan.Anchor{Head: plan.Head{ID: "A1"}, Kind: plan.AnchorDeadman, At: plan.Point{X: 1.0 / 3, Y: -2.5}, Depth: 1.2, LogLength: 1.8, LogDiameter: 0.23, SetKnown: true, HoldLow: plan.Known(quantity.Force(1e4)), HoldLikely: 2e4, HoldHigh: 3e4, HoldSource: "pull test"},
		plan.Anchor{Head: plan.Head{ID: "A2"}, Kind: plan.AnchorPickets, Layout: "3-2-1", Soil: "loam"},
		plan.Anchor{Head: plan.Head{ID: "A3"}, Kind: plan.AnchorRated, Rating: plan.Rating{Force: 9.5 * quantity.TonneForce, Basis: plan.BasisBreaking}, Trunk: 0.3},
		plan.Anchor{Head: plan.Head{ID: "A4"}, Kind: plan.AnchorBoulder, Mass: 12345},
		plan.Anchor{Head: plan.Head{ID: "A5"}, Kind: "screw pile of a later version"})
	p.Site.Notes = []plan.Note{{Head: plan.Head{ID: "N1"}, Text: "soft here\n  and there \n"}}
	p.Site.Measures = []plan.Measure{{Head: plan.Head{ID: "M1"}, Points: []plan.Point{{X: 1.0 / 7, Y: 2}, {X: 3, Y: 4}, {X: 5, Y: 6}}}}
	p.Site.People[0].Vehicle, p.Site.People[0].Cover = "V2", "cab, bonnet up"
	p.Site.Underlay = &plan.Underlay{Type: "image/png", Bytes: []byte{1}, Metres: 0.0123, Turn: 12, Fade: 0.3,
		Scaled: &plan.ScaleBy{B: plan.Point{X: 1}, Length: 1}}
	p.Site.Survey = &plan.Survey{Source: "by tape", LatDeg: 54.321, Points: []plan.SurveyPoint{{Name: "a"}}}
	p.Site.Ground.Slope, p.Site.Ground.Downhill, p.Site.Ground.NorthTurn = plan.Known(quantity.Degrees(11.309932474020215)), plan.Known(quantity.Degrees(200)), -5
	p.Title, p.TitleInfo.School = "Curlew Moss", "Moss School"
	r := &p.Rigs[0]
	r.StandOff, r.Travel, r.Basis = 1.5, 2.6, plan.BasisLifting
	l := &r.Lines[0]
	l.Knots, l.Wet, l.Share, l.Fixed, l.Stiffness, l.MassPerM = []string{"knot.bowline", "knot of a later version"}, true, 1.0/3, 9000, 1e6, 0.0612
	l.Connector = plan.Connector{Kind: plan.ConnectorSoft, Rating: plan.Rating{Force: 1e5 / 3, Basis: plan.BasisWorking}}
	l.Joins = []plan.Join{{At: 10.0 / 3, Kind: "shackle", Mass: 0.9}, {At: 12}, {At: 13, Mass: 1}}
	r.Blocks[0].HeadLength, r.Blocks[0].Mass = 0.0876543, 4
	r.Slings[0].Stiffness, r.Slings[0].Doubts = 123456.7, []plan.Doubt{{Member: "rating.force_n", Low: 30000, High: 50000, PlusMinus: true}, {Member: "width_m", Low: 0.05, High: 0.0667}}
	r.Slings[0].Presets = []string{"height_m", "rating"}
	r.Shackles[0].At, r.Shackles[0].RoundPin = plan.Point{X: 1, Y: 2}, true
	r.Incident = &plan.Incident{Pins: []plan.Pin{
		{ID: "A", Kind: plan.PinLanding, Thing: "B1", At: &plan.Point{X: 1.0 / 3, Y: 2}, Known: plan.KnownTold, Trust: plan.Known(0.7), Source: "the driver", Length: plan.Known(quantity.Length(20.0 / 3)),
			Drop: 0.5, Mass: 2.345, Note: "in the moss\n", Doubts: []plan.Doubt{{Member: "trace_m", Low: 6, High: 7.5}}},
		{ID: "B", Kind: plan.PinStalled, Low: 10000.0 / 3, High: 2e4, Earlier: true},
		{ID: "C", Kind: plan.PinTag, Thing: "K77", Rating: plan.Rating{Force: 32000, Basis: plan.BasisWorking}, Look: plan.LookCut, Layer: 2, Recorded: true}}}
	require.NoError(t, plan.Validate(p))
	return p
}

func sample(t require.TestingT) *plan.Plan {
	data, err := assets.Plans().Open("redirect.kedge")
	require.NoError(t, err)
	defer data.Close()
	var b strings.Builder
	buf := make([]byte, 1<<16)
	for {
		n, err := data.Read(buf)
		b.Write(buf[:n])
		if err != nil {
			break
		}
	}
	p, err := plan.ParsePlan([]byte(b.String()))
	require.NoError(t, err)
	return p
}

func fieldBytes(t require.TestingT, p *plan.Plan) string {
	data, err := plan.FormatPlan(p)
	require.NoError(t, err)
	return string(data)
}

// sameText compares long texts without printing them whole.
func sameText(t require.TestingT, want, got, about string) {
	if want == got {
		return
	}
	w, g := strings.Split(want, "\n"), strings.Split(got, "\n")
	for i := range min(len(w), len(g)) {
		require.Equal(t, w[i], g[i], "%s: line %d", about, i+1)
	}
	require.Len(t, g, len(w), about)
}

// thingIDs are all things with fields, of the first rig.
func thingIDs(p *plan.Plan) []plan.ID {
	ids := []plan.ID{ThingGround, ThingSheet, ThingUnderlay, ThingSurvey, p.Rigs[0].ID}
	for id := range plan.Names(p, &p.Rigs[0]) {
		ids = append(ids, id)
	}
	for i := range p.Rigs[0].Incident.Pins {
		ids = append(ids, p.Rigs[0].Incident.Pins[i].Ref())
	}
	slices.Sort(ids)
	return ids
}

// noField are members that are no fields, each with its reason.
var noField = map[string]string{
	"id": "given once", "presets": "follows from typing", "doubts": "typed with the figure", "set_known": "follows from set_bearing_deg",
	"lines": "things of their own", "blocks": "things of their own", "slings": "things of their own", "shackles": "things of their own",
	"dampers": "things of their own", "unknown": "of a later version", "incident": "pins and priors of their own", "exercise": "set where sheets are printed", "type": "the picture's own", "picture_sha256": "of a file that is kept elsewhere", "bytes": "the picture itself",
	"original_name": "the picture's own", "original_sha256": "the picture's own", "format": "the file's own", "version": "the file's own", "min_reader": "the file's own",
	"app": "stamped when stored", "site": "things of its own", "photos": "attached to pins", "rigs": "things of their own",
}

// membersOfType are the JSON members of a type with those of its parts.
func membersOfType(typ reflect.Type, prefix string) []string {
	var out []string
	for _, f := range reflect.VisibleFields(typ) {
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name == "" || f.Anonymous || noField[name] != "" || f.Name == "Number" && len(f.Index) > 1 { // the head's number goes with the name
			continue
		}
		ft := f.Type
		if ft.Kind() == reflect.Pointer {
			ft = ft.Elem()
		}
		switch {
		case ft == reflect.TypeFor[plan.Point]() || ft == reflect.TypeFor[plan.Winch]() || ft == reflect.TypeFor[plan.Stuck]() || ft == reflect.TypeFor[plan.Connector]() || ft == reflect.TypeFor[plan.TitleInfo]():
			out = append(out, membersOfType(ft, prefix+name+"/")...)
		case ft == reflect.TypeFor[[]plan.RecoveryPoint]():
			out = append(out, membersOfType(ft.Elem(), prefix+name+"/front/")...)
		case ft == reflect.TypeFor[[]plan.SurveyPoint]():
		case ft == reflect.TypeFor[plan.ScaleBy](): // two points on the board and a length
			out = append(out, prefix+name+"/looks_straight_down")
		default:
			out = append(out, prefix+name)
		}
	}
	return out
}

func TestEveryMemberIsAField(t *testing.T) {
	p := fullPlan(t)
	p.Site.Vehicles[0].Winch = new(plan.Winch)
	for _, id := range thingIDs(p) {
		th, ok := Find(p, "R1", id)
		require.True(t, ok, id)
		a, isAnchor := th.At.(*plan.Anchor)
		if isAnchor {
			a.Kind = "" // then all members are shown
		}
		if q, ok := th.At.(*plan.Pin); ok {
			if q.At == nil {
				continue
			}
			q.Kind = "" // as of an anchor
		}
		if v, ok := th.At.(*plan.Vehicle); ok && v.Stuck == nil {
			continue // the other vehicle has the same members, and more
		}
		have := map[string]bool{}
		for _, m := range membersOf(th) {
			assert.False(t, have[m.path], "%s has %s twice", id, m.path)
			have[m.path] = true
		}
		for _, name := range membersOfType(th.value.Type(), "") {
			assert.True(t, have[name], "%s: %s is no field", th.kind, name)
		}
	}
}

func TestEveryFieldHasItsWords(t *testing.T) {
	p := fullPlan(t)
	w := inWords(t, quantity.Metric)
	a := solver.Assess(p, "R1")
	for _, id := range thingIDs(p) {
		fields := Fields(p, "R1", id, a, w)
		require.NotEmpty(t, fields, id)
		for _, f := range fields {
			for _, s := range []string{f.Label, f.Group, f.Help, f.Computed} {
				assert.False(t, strings.HasPrefix(s, "["), "%s of %s: %s", f.Member, id, s)
			}
			assert.NotEmpty(t, f.Label)
			if f.Kind == KindChoice || f.Kind == KindRating {
				assert.NotEmpty(t, f.Choices, "%s of %s", f.Member, id)
			}
			for _, c := range f.Choices {
				assert.NotEmpty(t, c.Text, "%s of %s: %q", f.Member, id, c.Value)
				assert.False(t, strings.HasPrefix(c.Text, "[") || strings.HasPrefix(c.Confidence, "["), "%s of %s: %s", f.Member, id, c.Text)
				for _, word := range []string{"safe", "OK", "clear of"} {
					assert.NotContains(t, c.Text+f.Label+f.Help, word)
				}
			}
		}
	}
}

// One field alone is as it is among all; what is only shown, and a rating's basis, is no
// field of its own.
func TestFieldOfIsThatOfFields(t *testing.T) {
	p := fullPlan(t)
	w := inWords(t, quantity.Metric)
	a := solver.Assess(p, "R1")
	shown, bases := 0, 0
	for _, id := range thingIDs(p) {
		for _, f := range Fields(p, "R1", id, a, w) {
			one, ok := FieldOf(p, "R1", id, f.Member, a, w)
			if f.Kind == KindShown {
				assert.False(t, ok, "%s of %s", f.Member, id)
				shown++
				continue
			}
			assert.True(t, ok, "%s of %s", f.Member, id)
			assert.Equal(t, f, one)
			if f.Kind == KindRating {
				_, ok = FieldOf(p, "R1", id, f.Member+"/basis", a, w)
				assert.False(t, ok, "%s of %s", f.Member, id)
				bases++
			}
		}
	}
	assert.Positive(t, shown)
	assert.Positive(t, bases)
	_, ok := FieldOf(p, "R1", "nobody", "mass_kg", a, w)
	assert.False(t, ok)
}

// fieldNoPresets takes all marks of presets off.
func fieldNoPresets(p *plan.Plan) *plan.Plan {
	q := *p
	q.Site.Vehicles = slices.Clone(p.Site.Vehicles)
	for i := range q.Site.Vehicles {
		v := &q.Site.Vehicles[i]
		v.Presets = nil
		v.Recovery = slices.Clone(v.Recovery)
		for j := range v.Recovery {
			v.Recovery[j].Presets = nil
		}
		if v.Winch != nil {
			w := *v.Winch
			w.Presets = nil
			v.Winch = &w
		}
	}
	q.Rigs = slices.Clone(p.Rigs)
	q.Rigs[0].Slings = slices.Clone(p.Rigs[0].Slings)
	for i := range q.Rigs[0].Slings {
		q.Rigs[0].Slings[i].Presets = nil
	}
	return &q
}

// Typing back what a field shows changes nothing, to the byte, in any units;
// a preset is a preset no longer, because somebody read it off.
func TestTypingAFieldsOwnValue(t *testing.T) {
	p := fullPlan(t)
	before := fieldBytes(t, p)
	plain := fieldBytes(t, fieldNoPresets(p))
	for _, sys := range []quantity.System{quantity.Metric, quantity.KgfMetric, quantity.Imperial} {
		w := inWords(t, sys)
		for _, id := range thingIDs(p) {
			for _, f := range Fields(p, "R1", id, nil, w) {
				if f.Kind == KindShown {
					continue
				}
				q, name, err := Set(p, "R1", id, f.Member, f.Value, w)
				require.NoError(t, err, "%s of %s: %q", f.Member, id, f.Value)
				assert.NotEmpty(t, name)
				if f.Origin == OriginPreset {
					assert.NotEqual(t, before, fieldBytes(t, q), "%s of %s stays a preset", f.Member, id)
					assert.Equal(t, plain, fieldBytes(t, fieldNoPresets(q)), "%s of %s", f.Member, id)
					continue
				}
				sameText(t, before, fieldBytes(t, q), string(id)+" "+f.Member+": "+f.Value)
				if f.Kind == KindRating {
					q, _, err = Set(p, "R1", id, f.Member+"/basis", f.Basis, w)
					require.NoError(t, err)
					assert.Equal(t, before, fieldBytes(t, q))
				}
			}
		}
	}
	assert.Equal(t, before, fieldBytes(t, p), "the plan handed in is as it was")
}

// Whatever is typed, the plan handed in stays as it is; what is taken is a
// plan that can be saved, and what it then shows can be typed again.
func TestTypingAnything(t *testing.T) {
	p := fullPlan(t)
	before := fieldBytes(t, p)
	ids := thingIDs(p)
	texts := []string{"", "0", "1", "2,45 t", "2450 ± 200", "2 to 4 m", "2 / 2.5 / 4 m", "-3 kg", "-3", "12 mm", "5' 6\"", "40 kN working", "breaking", "yes", "no", "h", "roller",
		"V2/winch", "B1", "T1", "1 ; 2\n3 ; 4\n5 ; 0", "12 ; shackle ; 0.9", "bowline", "NaN", "1e400", "20 %", "3.5 °", "300", "about 3", "name", "\x00", "2 ± 5", "7 to 3", "∞", "0.5", "99999999"}
	rapid.Check(t, func(t *rapid.T) {
		sys := rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.KgfMetric, quantity.Imperial}).Draw(t, "system")
		w := inWords(t, sys)
		q := p
		for range rapid.IntRange(1, 4).Draw(t, "edits") {
			id := rapid.SampledFrom(ids).Draw(t, "thing")
			fields := Fields(q, "R1", id, nil, w)
			f := rapid.SampledFrom(fields).Draw(t, "field")
			given := rapid.SampledFrom(texts).Draw(t, "text")
			if len(f.Choices) > 0 && rapid.Bool().Draw(t, "choose") {
				given = rapid.SampledFrom(f.Choices).Draw(t, "choice").Value
			}
			was := fieldBytes(t, q)
			next, name, err := Set(q, "R1", id, f.Member, given, w)
			require.Equal(t, was, fieldBytes(t, q), "the plan handed in is as it was")
			if err != nil {
				require.Same(t, q, next)
				continue
			}
			require.NotEmpty(t, name)
			again := fieldBytes(t, next)
			for _, g := range Fields(next, "R1", id, nil, w) {
				if g.Member == f.Member && g.Kind != KindShown && g.Origin != OriginPreset { // typed over a preset it is one no more
					same, _, err := Set(next, "R1", id, g.Member, g.Value, w)
					require.NoError(t, err, "%s: %q", g.Member, g.Value)
					sameText(t, again, fieldBytes(t, same), g.Member+": "+g.Value)
				}
			}
			q = next
		}
		require.Equal(t, before, fieldBytes(t, p))
	})
}

// A zero behind three figures keeps them from being read as thousands; it does
// not make another figure of what is shown.
func TestTypingALengthShownWithAZero(t *testing.T) {
	w := inWords(t, quantity.Imperial)
	p, _, err := Set(sample(t), "R1", "V1", "at/x_m", "1000'5", w)
	require.NoError(t, err)
	require.InDelta(t, 304.927, float64(p.Site.Vehicles[0].At.X), 1e-9) // 1000 ft are 304.8 m, 5 in 0.127 m
	for _, f := range Fields(p, "R1", "V1", nil, w) {
		if f.Member != "at/x_m" {
			continue
		}
		require.Equal(t, "1000.4170", f.Value)
		for _, typed := range []string{f.Value, "1000.417 ft"} {
			q, _, err := Set(p, "R1", "V1", f.Member, typed, w)
			require.NoError(t, err)
			sameText(t, fieldBytes(t, p), fieldBytes(t, q), typed)
		}
		q, _, err := Set(p, "R1", "V1", f.Member, "1000.4171", w)
		require.NoError(t, err)
		require.InDelta(t, 1000.4171*0.3048, float64(q.Site.Vehicles[0].At.X), 1e-9, "one figure more is another figure")
		return
	}
	t.Fatal("no such field")
}

func TestFieldsNothingThere(t *testing.T) {
	w := inWords(t, quantity.Metric)
	p := sample(t)
	assert.Nil(t, Fields(p, "R1", "nobody", nil, w))
	assert.Nil(t, Fields(nil, "R1", "V1", nil, w))
	assert.Nil(t, Fields(p, "R2", "S1", nil, w), "the sling is of the other rig")
	q, _, err := Set(p, "R1", "V1", "wings", "2", w)
	assert.ErrorIs(t, err, ErrNoMember)
	assert.Same(t, p, q)
	_, _, err = Set(p, "R1", "nobody", "mass_kg", "2", w)
	assert.ErrorIs(t, err, ErrNoMember)
}

// Any text in any field: nothing breaks, what is refused changes nothing, what
// is taken can be saved and typed again.
func FuzzSet(f *testing.F) {
	for _, s := range []string{"", "2,45 t", "2450 ± 200", "2 to 4 m", "2 / 2.5 / 4", "-3 kg", "5' 6 1/2\"", "3/8", "20 %", "46 ± 5 %", "40 kN working", "4 t WLL", "h", "1;2\n3;4\n5;0", "12;shackle;0.9", "1e9", "0.000000001", "1 234,5", "\xff", "½"} {
		for i := range 5 {
			f.Add(uint16(i*37), s)
		}
	}
	p := fullPlan(f)
	type place struct {
		thing plan.ID
		field Field
	}
	systems := []*words.Words{inWords(f, quantity.Metric), inWords(f, quantity.Imperial)}
	var places []place
	for _, id := range thingIDs(p) {
		for _, fd := range Fields(p, "R1", id, nil, systems[0]) {
			if fd.Kind != KindShown {
				places = append(places, place{id, fd})
			}
		}
	}
	before := fieldBytes(f, p)
	f.Fuzz(func(t *testing.T, at uint16, given string) {
		w := systems[int(at)%2]
		where := places[int(at)%len(places)]
		q, _, err := Set(p, "R1", where.thing, where.field.Member, given, w)
		if err != nil {
			require.Same(t, p, q)
			require.NotEmpty(t, err.Error())
			return
		}
		// What is typed is no preset any more, though its figure stays.
		presets := regexp.MustCompile(`(?s)\s*"presets": \[[^\]]*\],?`)
		figures := func(p *plan.Plan) string { return presets.ReplaceAllString(fieldBytes(t, p), "") }
		again := figures(q)
		for _, g := range Fields(q, "R1", where.thing, nil, w) {
			if g.Member == where.field.Member && g.Kind != KindShown {
				same, _, err := Set(q, "R1", where.thing, g.Member, g.Value, w)
				require.NoError(t, err, "%s: %q after %q", g.Member, g.Value, given)
				sameText(t, again, figures(same), g.Member+": "+g.Value)
			}
		}
		sameText(t, before, fieldBytes(t, p), "the plan handed in")
	})
}

func BenchmarkFields(b *testing.B) {
	p := fullPlan(b)
	w := inWords(b, quantity.Metric)
	a := solver.Assess(p, "R1")
	b.ReportAllocs()
	for b.Loop() {
		if len(Fields(p, "R1", "V1", a, w)) == 0 {
			b.Fatal("no fields")
		}
	}
}

func BenchmarkSet(b *testing.B) {
	p := fullPlan(b)
	w := inWords(b, quantity.Metric)
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := Set(p, "R1", "V1", "mass_kg", "2,5 t", w); err != nil {
			b.Fatal(err)
		}
	}
}
