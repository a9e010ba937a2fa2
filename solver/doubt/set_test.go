package doubt_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/doubt"
	"kedge/solver/plan"
)

// notSet are the figures of things that cannot be given by a name, each with its reason.
var notSet = map[string]string{
	"step":   "of the drawing: when a thing is shown first",
	"number": "of the name",
}

// figuresOf are the names of the figures of a type, walked by the tags of the file.
func figuresOf(t reflect.Type, prefix string, see func(name string)) {
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if _, figure := reflect.PointerTo(t).MethodByName("SetFigure"); figure || t.Kind() == reflect.Float64 || t.Kind() == reflect.Int {
		see(strings.TrimSuffix(prefix, "."))
		return
	}
	switch {
	case t == reflect.TypeFor[[]plan.RecoveryPoint]():
		figuresOf(t.Elem(), prefix+"front.", see)
	case t.Kind() == reflect.Struct && t != reflect.TypeFor[plan.Incident]() && t != reflect.TypeFor[plan.Exercise]():
		for i := range t.NumField() {
			f := t.Field(i)
			name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
			switch {
			case f.Anonymous:
				figuresOf(f.Type, prefix, see)
			case name != "":
				figuresOf(f.Type, prefix+name+".", see)
			}
		}
	}
}

// Every figure that a file may hold of a thing can be put in place of the one there is,
// or is listed with why not. Of lists (corners, joins, stages) the entries have no name.
func TestEveryFigureCanBeSetOrHasAReason(t *testing.T) {
	p := redirect(t, func(p *plan.Plan) {
		p.Site.Vehicles[0].Winch = new(plan.Winch)
		p.Site.People[0].Name = "somebody"
		p.Site.Notes = []plan.Note{{Head: plan.Head{ID: "N1"}}}
	})
	seen := 0
	for id, of := range map[plan.ID]reflect.Type{
		"": reflect.TypeFor[plan.Ground](), "V1": reflect.TypeFor[plan.Vehicle](), "T1": reflect.TypeFor[plan.Anchor](),
		"O1": reflect.TypeFor[plan.Obstacle](), "P1": reflect.TypeFor[plan.Person](), "N1": reflect.TypeFor[plan.Note](),
		"R1": reflect.TypeFor[plan.Rig](), "L1": reflect.TypeFor[plan.Line](), "B1": reflect.TypeFor[plan.Block](),
		"S1": reflect.TypeFor[plan.Sling](), "K1": reflect.TypeFor[plan.Shackle](), "D1": reflect.TypeFor[plan.Damper](),
	} {
		figuresOf(of, "", func(name string) {
			seen++
			if reason := notSet[name]; reason != "" {
				_, ok := doubt.With(p, "R1", id, name, 1)
				assert.False(t, ok, "%s.%s: %s", id, name, reason)
				return
			}
			x := 1.0
			if strings.HasPrefix(name, "stretch") {
				x = 0
			}
			q, ok := doubt.With(p, "R1", id, name, x)
			if assert.True(t, ok, "%s.%s", id, name) {
				raw, err := plan.FormatPlan(q)
				require.NoError(t, err)
				again, err := plan.ParsePlan(raw)
				require.NoError(t, err, "%s.%s", id, name)
				assert.Equal(t, x, figureAt(reflect.ValueOf(thingOf(again, id)).Elem(), name), "%s.%s", id, name)
			}
		})
	}
	assert.Greater(t, seen, 100)
}

// thingOf is a thing by its id, of the first rig.
func thingOf(p *plan.Plan, id plan.ID) any {
	s, r := &p.Site, &p.Rigs[0]
	return map[plan.ID]any{"": &s.Ground, "V1": &s.Vehicles[0], "T1": &s.Anchors[0], "O1": &s.Obstacles[0], "P1": &s.People[0],
		"N1": &s.Notes[0], "R1": r, "L1": &r.Lines[0], "B1": &r.Blocks[0], "S1": &r.Slings[0], "K1": &r.Shackles[0], "D1": &r.Dampers[0]}[id]
}

// figureAt reads a figure by the names of the file.
func figureAt(v reflect.Value, name string) float64 {
	for _, step := range strings.Split(name, ".") {
		if v.Kind() == reflect.Slice { // its first
			v = v.Index(0)
			continue
		}
		for i := range v.NumField() {
			if tag, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("json"), ","); tag == step {
				v = v.Field(i)
				break
			}
		}
		if v.Kind() == reflect.Pointer {
			v = v.Elem()
		}
	}
	switch v.Kind() {
	case reflect.Float64:
		return v.Float()
	case reflect.Int:
		return float64(v.Int())
	}
	x, _ := v.Interface().(interface{ Figure() (float64, bool) }).Figure()
	return x
}

// What was put in was typed: it is no proposal of the program any more, of a part of a
// thing neither, and is in no doubt. What counts takes no fraction, what is not there and
// what a plan cannot hold nothing.
func TestWhatIsPutInIsTyped(t *testing.T) {
	p := redirect(t, func(p *plan.Plan) {
		p.Site.Vehicles[1].Winch.Presets = []string{"line_pull_n", "ahead_m"}
		p.Site.Vehicles[0].Recovery[0].Presets = []string{"rating"}
		p.Rigs[0].Slings[0].Presets = []string{"rating", "height_m"}
		doubtMass(p, 2300, 2700, true)
	})
	q, ok := doubt.With(p, "R1", "V2", "winch.line_pull_n", 5e4)
	require.True(t, ok)
	assert.Equal(t, []string{"ahead_m"}, q.Site.Vehicles[1].Winch.Presets)
	assert.Equal(t, []string{"line_pull_n", "ahead_m"}, p.Site.Vehicles[1].Winch.Presets, "what it was made of stays")
	q, ok = doubt.With(p, "R1", "V1", "recovery_points.front.rating.force_n", 5e4)
	require.True(t, ok)
	assert.Empty(t, q.Site.Vehicles[0].Recovery[0].Presets)
	q, ok = doubt.With(p, "R1", "S1", "rating.force_n", 5e4)
	require.True(t, ok)
	assert.Equal(t, []string{"height_m"}, q.Rigs[0].Slings[0].Presets)
	q, ok = doubt.With(p, "R1", "V1", "mass_kg", 2500)
	require.True(t, ok)
	assert.Empty(t, q.Site.Vehicles[0].Doubts)
	for what, x := range map[string]struct {
		thing  plan.ID
		member string
		x      float64
	}{
		"half a wheel":   {"V1", "casualty.locked_wheels", 1.5},
		"no such thing":  {"X9", "mass_kg", 1},
		"no such member": {"V1", "weight", 1},
		"no winch":       {"V1", "winch.line_pull_n", 1},
		"no such point":  {"V1", "recovery_points.side.ahead_m", 1},
		"a word":         {"V1", "brake", 1},
		"less than none": {"V1", "mass_kg", -1},
	} {
		_, ok := doubt.With(p, "R1", x.thing, x.member, x.x)
		assert.False(t, ok, what)
	}
}
