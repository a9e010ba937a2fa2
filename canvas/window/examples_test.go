package window

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/solver/seeded"
)

// An example is opened as whoever speaks the window's language would have named it:
// in English as its file has it, in German with title, rigs and story in German. Nothing
// else of it differs.
func TestExamplesSpeakTheLanguage(t *testing.T) {
	s := sitAt(t, 1000, 700, "")
	for _, lang := range []string{"en", "de"} {
		s.setLanguage(lang)
		for _, name := range exampleNames() {
			s.file.openExample(name)
			got, want := *s.board.Plan(), seeded.Read(t, assets.Plans(), name+extension)
			if lang == "en" {
				assert.Equal(t, want.Title, got.Title)
			} else {
				assert.NotEqual(t, want.Title, got.Title)
				assert.NotContains(t, got.Title, "[")
			}
			require.Len(t, got.Rigs, len(want.Rigs))
			for i := range got.Rigs {
				r := got.Rigs[i]
				if lang == "en" {
					assert.Equal(t, want.Rigs[i].Name, r.Name)
				}
				if n := r.Incident; n != nil && lang == "de" {
					was := want.Rigs[i].Incident
					for _, told := range [][2]string{{was.Account, n.Account}, {was.Custody, n.Custody}, {was.Truth, n.Truth}} {
						assert.NotEqual(t, told[0], told[1])
					}
					in := *n
					in.Pins, in.Account, in.Custody, in.Truth = slices.Clone(n.Pins), was.Account, was.Custody, was.Truth
					for k := range in.Pins {
						q, was := &in.Pins[k], &was.Pins[k]
						assert.NotEqual(t, was.Source, q.Source)
						assert.True(t, was.Note == "" || was.Note != q.Note, was.Note)
						q.Source, q.Note = was.Source, was.Note
					}
					r.Incident = &in
					for k := range r.Slings {
						r.Slings[k].Name = want.Rigs[i].Slings[k].Name
					}
				}
				r.Name = want.Rigs[i].Name
				assert.Equal(t, want.Rigs[i], r, name)
			}
			got.Title, got.Rigs = want.Title, want.Rigs
			assert.Equal(t, *want, got, name)
		}
	}
	s.file.openExample("straight")
	assert.Equal(t, "Gerade", s.board.Plan().Rigs[0].Name)
}

// The incidents for a class are examples, under their titles, behind the rigs to begin
// with; the bare sheet offers the rigs alone. Each opens with its evidence.
func TestIncidentsAreExamples(t *testing.T) {
	names := exampleNames()
	assert.Equal(t, []string{"doubled", "redirect", "straight", "incidents/alder-bend", "incidents/birch", "incidents/ford"}, names)
	s := sitAt(t, 1000, 700, "")
	items := s.menus.examples().ChildMenu.Items
	require.Len(t, items, len(names)+1, "a rule between")
	assert.True(t, items[3].IsSeparator)
	items[6].Action()
	p := s.board.Plan()
	assert.Equal(t, items[6].Label, p.Title)
	require.NotNil(t, p.Rigs[0].Incident)
	assert.Len(t, p.Rigs[0].Incident.Pins, 5)
}
