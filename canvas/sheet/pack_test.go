package sheet

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/words"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// No page of an example is under a fifth filled if what is on it finds room on
// the page before, or what is on the next on it. (ours)
func TestNoPageIsNearlyEmpty(t *testing.T) {
	all := 0
	for _, name := range []string{"straight", "redirect", "doubled"} {
		p := seeded.Example(t, name)
		sets := [][]Kind{{Briefing, Order, StopLook, Kit, Measure}, {Overview, Findings, Legend}}
		var every []Kind
		for _, k := range Kinds() {
			if name == "straight" && k.ofExercise() {
				continue // it is refused: nothing can be asked
			}
			every = append(every, k)
			sets = append(sets, []Kind{k})
		}
		for _, kinds := range append(sets, every) {
			for _, landscape := range []bool{false, true} {
				for _, lang := range []string{"en", "de"} {
					w, err := words.New(lang, quantity.Metric)
					require.NoError(t, err)
					b, err := Make(p, Options{Sheets: kinds, Landscape: landscape, Words: w})
					require.NoError(t, err)
					all += len(b.Pages)
					if len(kinds) > 1 && kinds[0] == Overview && !landscape && lang == "en" { // its rows lie closer rather than go over a page's end
						n := 0
						for _, g := range b.Pages {
							if g.Has(Legend) {
								n++
							}
						}
						assert.Equal(t, 1, n, "%s: pages of the legend", name)
					}
					for i, g := range b.Pages {
						if g.Filled() >= leastFilled {
							continue
						}
						for _, j := range []int{i - 1, i + 1} {
							if j < 0 || j >= len(b.Pages) || b.Pages[j].Key != g.Key || g.Kind == Exercise || b.Pages[j].Kind == Exercise {
								continue
							}
							q := b.Pages[j]
							a, c := max(g.ends[0], g.ends[1])-g.body.y, max(q.ends[0], q.ends[1])-q.body.y
							assert.Greater(t, a+c+packGap, min(g.body.h, q.body.h), "%s %s, landscape %v, %s: %s and %s", name, lang, landscape, kinds, g.Name, q.Name)
						}
						t.Logf("%s %s landscape %v: %s of %d pages is %.0f %% filled", name, lang, landscape, g.Name, len(b.Pages), 100*g.Filled())
					}
				}
			}
		}
	}
	require.Greater(t, all, 200)
}
