package gear_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/facts"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// hooked is a 10 mm line with a connector.
func hooked(kind string, r plan.Rating) *plan.Line {
	l := hmpe()
	l.Connector = plan.Connector{Kind: kind, Rating: r}
	return l
}

func TestConnectorLimit(t *testing.T) {
	for _, tt := range []struct {
		name            string
		line            *plan.Line
		limitKN, givesN float64
		basis, source   string
	}{
		{"tag of a hook", hooked(plan.ConnectorHook, working(30)), 30, 120e3, "tag", "EN 1677: 4 times the working load, as its chain"},
		{"tag of a thimble", hooked(plan.ConnectorThimble, working(30)), 30, 120e3, "tag", "the lower factor"},
		{"tag of what is not known", hooked("", working(30)), 30, 120e3, "tag", "the lower factor"},
		{"tag of a shackle", hooked(plan.ConnectorShackle, working(47)), 47, 235e3, "tag", "EN 13889: 5 times"},
		{"tag of a soft shackle", hooked(plan.ConnectorSoft, working(30)), 30, 150e3, "tag", "as a shackle"},
		{"breaking", hooked(plan.ConnectorSoft, breaking(150)), 30, 150e3, "shackle 5:1", "÷ 5"},
		{"not said counts as breaking", hooked(plan.ConnectorHook, plan.Rating{Force: 150 * kN}), 30, 150e3, "shackle 5:1", "the lower reading"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var derivation part.Derivation
			c := gear.Connector(gear.ConnectorIn{Line: tt.line, Part: "L1/end"}, &derivation, nil)
			inDelta(t, tt.limitKN*1e3, float64(c.Limit.Force), 1e-6, tt.source)
			inDelta(t, tt.givesN, float64(c.Ultimate.Low), 1e-6, tt.source)
			assert.Equal(t, tt.basis, c.Limit.Basis)
			assert.False(t, c.Limit.Preset)
			last, ok := derivation.Last()
			require.True(t, ok)
			assert.Equal(t, float64(c.Limit.Force), last.X)
			assert.Contains(t, texts(t)["formula"], derivation.Steps[len(derivation.Steps)-1].Formula)
		})
	}
}

// The columns of the table are those of its sources, rounded down to 0.1 kN.
func TestConnectorTable(t *testing.T) {
	down := func(n quantity.Force) float64 { return float64(int(float64(n)/100)) / 10 }
	inch := func(x float64) quantity.Length { return quantity.Length(x * 0.0254) }
	for _, tt := range []struct {
		line  quantity.Length
		chain float64 // size of the chain by 49 CFR 393.108, mm
		bow   float64 // body of the shackle, mm
	}{
		{inch(3. / 16), 7, 16}, {inch(0.25), 7, 16}, {inch(5. / 16), 8, 19}, {0.009, 8, 19}, {inch(3. / 8), 10, 19}, {0.01, 10, 19},
		{inch(7. / 16), 11, 19}, {0.012, 11, 19}, {inch(0.5), 13, 22}, {inch(5. / 8), 16, 25}, {0.02, 16, 25},
	} {
		of := func(kind string) float64 {
			f, ok := gear.ConnectorRating(kind, tt.line)
			require.True(t, ok, "%s at %v", kind, tt.line)
			return float64(f) / 1e3
		}
		chain, _ := facts.Must(facts.ChainGrade70).Step(tt.chain)
		inDelta(t, down(quantity.Force(chain*facts.Must(facts.ChainGrade70).ToSI())), of(plan.ConnectorHook), 1e-9, "grade 70 at %v", tt.line)
		inDelta(t, of(plan.ConnectorHook), of(plan.ConnectorThimble), 0)
		tag, _ := facts.Must(facts.ShackleRating).Step(tt.bow)
		inDelta(t, down(quantity.Force(tag*facts.Must(facts.ShackleRating).ToSI())), of(plan.ConnectorShackle), 1e-9, "RR-C-271 at %v", tt.line)
		// Soft: a fifth of 1.7 × 0.85 kN/mm² d² at most, of the row below it.
		mm := float64(tt.line) * 1e3
		assert.LessOrEqual(t, of(plan.ConnectorSoft), 1.7*0.85*mm*mm/5, "soft at %v", tt.line)
		least := min(of(plan.ConnectorHook), of(plan.ConnectorSoft))
		inDelta(t, least, of(""), 0, "of an unknown kind the lowest")
		inDelta(t, least, of("strop"), 0)
	}
	for _, line := range []quantity.Length{0, 0.0046, 0.0201, -1, quantity.Length(nan)} {
		for _, kind := range []string{"", plan.ConnectorHook, plan.ConnectorShackle} {
			_, ok := gear.ConnectorRating(kind, line)
			assert.False(t, ok, "%q at %v", kind, line)
		}
	}
}

// Without a rating it is assumed, as nobody's reading of a tag, and said so.
func TestConnectorAssumed(t *testing.T) {
	var found []part.Finding
	var derivation part.Derivation
	c := gear.Connector(gear.ConnectorIn{Line: hooked(plan.ConnectorHook, plan.Rating{}), Part: "L1/end"}, &derivation, &found)
	inDelta(t, 29.3e3, float64(c.Limit.Force), 1e-6, "6600 lbf, grade 70 of 3/8 in: 49 CFR 393.108")
	inDelta(t, 4*29.3e3, float64(c.Ultimate.Low), 1e-6, "4 times, EN 818-4")
	assert.True(t, c.Limit.Preset)
	assert.Equal(t, part.ConfidenceCommon, c.Limit.Confidence)
	assert.Contains(t, texts(t)["basis"], c.Limit.Basis)
	last, _ := derivation.Last()
	assert.Equal(t, float64(c.Limit.Force), last.X)
	require.Len(t, found, 1)
	assert.Equal(t, "connector-assumed", found[0].ID)
	assert.Equal(t, part.Notice, found[0].Level)
	assert.Equal(t, []plan.ID{"L1"}, found[0].Things)
	documented(t, found)
}

// Where the table says nothing it has no limit, and the finding names what
// would decide.
func TestConnectorNotDecided(t *testing.T) {
	rating, thick := part.Lack{Thing: "L1", Member: "connector.rating.force_n", Rule: "connector-assumed"}, part.Lack{Thing: "L1", Member: "diameter_m", Rule: "connector-assumed"}
	for _, tt := range []struct {
		line  quantity.Length
		lacks []part.Lack
	}{{0, []part.Lack{rating, thick}}, {0.024, []part.Lack{rating}}} {
		l := hooked(plan.ConnectorHook, plan.Rating{})
		l.Diameter = tt.line
		var found []part.Finding
		c := gear.Connector(gear.ConnectorIn{Line: l, Part: "L1/end"}, nil, &found)
		assert.Equal(t, part.Capacity{}, c)
		require.Len(t, found, 1)
		assert.Equal(t, part.NotDecidedID, found[0].ID)
		assert.Equal(t, tt.lacks, found[0].Lacks)
		l.Connector.Rating = working(30)
		found = nil
		assert.True(t, gear.Connector(gear.ConnectorIn{Line: l}, nil, &found).Limit.Known)
		assert.Empty(t, found, "a tag needs no diameter")
	}
}

// What is wrong with its rating is mended at the connector, not at the line.
func TestConnectorRatingIsItsOwn(t *testing.T) {
	for _, tt := range []struct {
		rating plan.Rating
		id     string
		known  bool
	}{{plan.Rating{Force: 9 * kN}, "rating-unsaid", true}, {plan.Rating{Force: -1}, "rating-impossible", false}, {plan.Rating{Force: quantity.Force(nan)}, "rating-impossible", false}} {
		var found []part.Finding
		l := hooked(plan.ConnectorHook, tt.rating)
		c := gear.Connector(gear.ConnectorIn{Line: l, Part: "L1/end"}, nil, &found)
		assert.Equal(t, tt.known, c.Limit.Known)
		i := slices.IndexFunc(found, func(f part.Finding) bool { return f.ID == tt.id })
		require.GreaterOrEqual(t, i, 0, tt.id)
		assert.Equal(t, []part.Remedy{{Do: "type-connector", Thing: "L1"}}, found[i].Remedies)
	}
	l := hooked(plan.ConnectorHook, working(30))
	l.Presets = []string{"rating"}
	assert.False(t, gear.Connector(gear.ConnectorIn{Line: l}, nil, nil).Limit.Preset, "that is the line's")
	l.Presets = []string{"connector.rating"}
	assert.True(t, gear.Connector(gear.ConnectorIn{Line: l}, nil, nil).Limit.Preset)
}
