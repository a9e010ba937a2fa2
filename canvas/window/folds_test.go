package window

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/form"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// unfoldDetails unfolds every heading of Details.
func (s *seat) unfoldDetails() {
	for _, id := range ids(s.details.pane) {
		if strings.HasPrefix(id, foldRow) && strings.Contains(texts(s.details.pane), "▸ "+strings.TrimPrefix(id, foldRow)) {
			s.click(s.details.pane, id)
		}
	}
}

// fieldsShown are the members whose fields Details shows.
func (s *seat) fieldsShown() (members []string) {
	for _, id := range ids(s.details.pane) {
		if m, ok := strings.CutPrefix(id, "field "); ok && !strings.HasSuffix(m, "/basis") {
			members = append(members, m)
		}
	}
	return members
}

// Details opens with what matters of the thing, the rest folded by subject; pressed, or
// with Enter, a heading unfolds, and stays so for things of the kind. Nothing is lost: all
// unfolded, every field is there once.
func TestDetailsOpenWithWhatMatters(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	casualty, winch := s.board.Plan().Site.Vehicles[0].ID, s.board.Plan().Site.Vehicles[1].ID
	show := func(id plan.ID) []string {
		s.board.Select(id)
		s.refresh()
		return s.fieldsShown()
	}
	assert.Equal(t, []string{"name", "mass_kg", "casualty/depth", "casualty/surface", "casualty/way", "casualty/way_length_m", "grip", "brake"}, show(casualty))
	assert.Subset(t, show(winch), []string{"mass_kg", "grip", "brake", "chocks", "winch/line_pull_n"})
	assert.Subset(t, show(s.board.Plan().Site.Anchors[0].ID), []string{"girth_m", "height_m", "health"})

	show(winch)
	assert.NotContains(t, s.fieldsShown(), "width_m")
	s.click(s.details.pane, foldRow+s.label("group-size"))
	assert.Contains(t, s.fieldsShown(), "width_m")
	assert.Contains(t, show(casualty), "width_m", "it stays unfolded for the kind")
	require.NoError(t, s.store.SavePreferences(s.prefs))
	kept, err := s.store.Preferences()
	require.NoError(t, err)
	assert.Len(t, kept.Unfolded, 1, "it is unfolded when the window opens again")
	assert.Equal(t, s.prefs.Unfolded, kept.Unfolded)
	s.win.Canvas().Focus(s.details.pane)
	s.details.pane.Focus = foldRow + s.label("group-size")
	s.keys("<Return>")
	assert.NotContains(t, s.fieldsShown(), "width_m")
	assert.Equal(t, foldRow+s.label("group-size"), s.details.pane.Focus)

	s.unfoldDetails()
	var want []string
	for _, f := range s.board.Fields(casualty) {
		if f.Kind != form.KindShown {
			want = append(want, f.Member)
		}
	}
	assert.ElementsMatch(t, want, s.fieldsShown())
}

// What is missing and asked for stands open, and stays there once it is answered; what a
// remedy points at opens its heading.
func TestWhatIsAskedForStandsOpen(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	v := s.board.Plan().Site.Vehicles[1].ID
	for _, member := range [...]string{"cg_height_m", "track_m", "wheelbase_m", "width_m"} {
		require.NoError(t, s.board.Set(v, member, ""))
	}
	folded := 0 // of those that do not matter most
	for _, f := range s.answer().Findings {
		for _, l := range f.Lacks {
			if l.Thing == "" {
				continue
			}
			s.board.Select(l.Thing)
			s.refresh()
			member := strings.ReplaceAll(l.Member, ".", "/")
			assert.Contains(t, s.fieldsShown(), member, l.Thing)
			if _, matter := form.Mattering(s.board.Plan(), s.board.Rig(), l.Thing); !slices.Contains(matter, member) {
				folded++
			}
		}
	}
	require.Positive(t, folded)
	s.board.Select(v)
	s.refresh()
	was := s.fieldsShown()
	require.NoError(t, s.board.Set(v, "cg_height_m", "0.7"))
	s.refresh()
	assert.Equal(t, was, s.fieldsShown(), "what is answered keeps its place")
	s = sitAt(t, 1440, 900, example(t, "redirect"))
	s.board.Select(v)
	s.refresh()
	require.NotContains(t, s.fieldsShown(), "track_m")
	s.details.typeInto(&form.Focus{Thing: v, Member: "track_m"})
	require.NotNil(t, s.details.entry)
	assert.Equal(t, "track_m", s.details.entry.where.member)
	s.keys("<Tab>") // and on to the field behind it
	require.NotNil(t, s.details.entry)
	assert.NotEqual(t, "track_m", s.details.entry.where.member)
}

// Several things of one kind are changed together, as one undo step; what differs says so,
// and what one of them refuses changes none.
func TestSeveralThingsAreChangedTogether(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	trees := s.board.Plan().Site.Anchors[:3]
	s.board.Select(trees[0].ID, trees[1].ID, trees[2].ID)
	s.refresh()
	before := s.board.Plan()
	require.NotEqual(t, trees[0].Girth, trees[1].Girth)
	assert.Contains(t, flat(s.details.pane), s.label("n-selected", part.Count("count", 3)))
	assert.Contains(t, flat(s.details.pane), s.label("differs"))
	assert.NotContains(t, s.fieldsShown(), "name")

	s.click(s.details.pane, "field height_m")
	s.details.entry.SetText("much")
	s.keys("<Return>")
	assert.Same(t, before, s.board.Plan(), "what is refused changes nothing")
	require.NotNil(t, s.details.entry)
	assert.NotEmpty(t, s.details.entry.where.fault)
	assert.Contains(t, flat(s.details.pane), strings.Join(strings.Fields(s.details.entry.where.fault), " "))
	s.details.entry.SetText("17.5")
	s.keys("<Return>")
	for i, a := range s.board.Plan().Site.Anchors[:3] {
		assert.InDelta(t, 17.5, float64(a.Height), 1e-9)
		assert.Equal(t, trees[i].Girth, a.Girth)
	}
	s.focusBoard()
	s.ctrl("Z")
	assert.Equal(t, before, s.board.Plan(), "one step")

	s.board.Select(trees[0].ID, s.board.Plan().Site.Vehicles[0].ID)
	s.refresh()
	assert.Empty(t, s.fieldsShown())
	assert.Contains(t, flat(s.details.pane), strings.Join(strings.Fields(s.label("several-kinds")), " "))
}
