package window

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver/plan"
)

// What is missing is asked in the card that says so: an answer typed there is one undo
// step, a refused one stays with the reason below it, and Tab goes on to the next.
func TestWhatIsMissingIsTypedIntoItsCard(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	p := s.board.Plan()
	tree, casualty := p.Site.Anchors[0].ID, p.Casualty().ID
	require.NoError(t, s.board.Set(tree, "height_m", ""))
	require.NoError(t, s.board.Set(casualty, "mass_kg", ""))
	s.refresh()
	inputs := func() (ids []string) {
		for _, h := range s.findings.pane.Hits {
			if strings.HasPrefix(h.ID, "missing ") {
				ids = append(ids, h.ID)
			}
		}
		return ids
	}
	mass := "missing " + string(casualty) + " mass_kg"
	all := inputs()
	require.Contains(t, all, mass)
	require.Greater(t, len(all), 1)
	for _, c := range words.Cards(s.answer().Findings) {
		if c.Asks() {
			assert.Contains(t, texts(s.findings.pane), itoa(len(s.words().Card(c, s.answer().Findings, s.names()).Rows)))
		}
	}

	before := s.board.Plan()
	s.click(s.findings.pane, mass)
	require.NotNil(t, s.details.entry)
	h := s.findings.pane.Hits[s.findings.pane.Find(mass)]
	assert.InDelta(t, h.X0, s.details.entry.Position().X, 1, "it is typed in the row")
	assert.InDelta(t, h.Y0, s.details.entry.Position().Y, 1)
	s.details.entry.SetText("nonsense")
	s.keys("<Return>")
	require.NotNil(t, s.details.entry, "a refused text stays where it was typed")
	require.NotEmpty(t, s.details.entry.where.fault)
	s.refresh()
	assert.Contains(t, strings.Join(strings.Fields(texts(s.findings.pane)), " "), strings.Fields(s.details.entry.where.fault)[0])
	assert.Same(t, before, s.board.Plan())
	s.details.entry.SetText("2,7 t")
	s.keys("<Tab>")
	assert.InDelta(t, 2700, float64(s.board.Plan().Casualty().Mass), 1e-9)
	assert.NotContains(t, inputs(), mass, "what is answered is asked no more")
	s.focusBoard()
	s.commands.run("undo")
	assert.Zero(t, s.board.Plan().Casualty().Mass, "one answer is one step")
	assert.Equal(t, plan.ID(casualty), before.Casualty().ID)
}
