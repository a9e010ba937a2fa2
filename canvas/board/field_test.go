package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/form"
	"kedge/canvas/words"
	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

func fieldPlan(t testing.TB) *plan.Plan { return seeded.Example(t, "redirect") }

func kit(t testing.TB) []facts.GearItem {
	t.Helper()
	list, err := facts.StarterGear()
	require.NoError(t, err)
	return list
}

func fieldIn(t testing.TB, sys quantity.System) *words.Words {
	t.Helper()
	w, err := words.New("en", sys)
	require.NoError(t, err)
	return w
}

func fieldNamed(t testing.TB, fields []form.Field, member string) form.Field {
	t.Helper()
	for _, f := range fields {
		if f.Member == member {
			return f
		}
	}
	require.Fail(t, "no field "+member)
	return form.Field{}
}

func TestBoardSet(t *testing.T) {
	p := fieldPlan(t)
	p.Rigs[0].Slings[0].Presets = []string{"length_m", "rating"}
	b, err := board.New(p, board.Options{})
	require.NoError(t, err)
	before, err := plan.FormatPlan(p)
	require.NoError(t, err)

	require.NoError(t, b.Set("S1", "length_m", "4"))
	assert.Equal(t, "Length of Sling 1", b.UndoName())
	assert.Equal(t, []string{"rating"}, b.Plan().Rigs[0].Slings[0].Presets)
	assert.Equal(t, form.OriginTyped, fieldNamed(t, b.Fields("S1"), "length_m").Origin)

	require.Error(t, b.Set("S1", "length_m", "-1"))
	assert.Equal(t, "Length of Sling 1", b.UndoName(), "a refusal is no step")
	assert.Contains(t, b.Prompt(), "below nought")

	require.NoError(t, b.Set("S1", "length_m", ""))
	s := b.Plan().Rigs[0].Slings[0]
	assert.Equal(t, quantity.Length(3), s.Length, "back to the preset")
	assert.ElementsMatch(t, []string{"rating", "length_m"}, s.Presets)
	require.NoError(t, b.Set("S1", "length_m", ""))
	s = b.Plan().Rigs[0].Slings[0]
	assert.Zero(t, s.Length, "a preset emptied is not known")
	assert.NotContains(t, s.Presets, "length_m")

	require.NoError(t, b.Set("V1", "casualty/depth", "b"))
	require.NoError(t, b.Set("V1", "casualty/depth", "b"), "the same again is no edit")
	for range 4 {
		b.Undo()
	}
	assert.Empty(t, b.UndoName())
	after, err := plan.FormatPlan(b.Plan())
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}

// What the board lays itself says its directions: nothing of it is left to be
// assumed.
func TestNewPlansAndVehiclesSayTheirDirections(t *testing.T) {
	slope, known := board.Empty().Site.Ground.Slope.Get()
	assert.True(t, known)
	assert.Zero(t, slope)
	h := sit(t, nil)
	h.keys("v", "5.5;8.5", "<Enter>", "<Enter>", "<Escape>", "v", "31;8.5", "<Enter>", "<Enter>", "<Escape>")
	require.Len(t, h.b.Plan().Site.Vehicles, 2)
	for i := range h.b.Plan().Site.Vehicles {
		v := &h.b.Plan().Site.Vehicles[i]
		for k := range v.Recovery {
			assert.True(t, v.Recovery[k].Axis.Known(), v.Recovery[k].ID)
		}
		if v.Winch != nil {
			assert.True(t, v.Winch.Axis.Known())
		}
	}
}
