package board_test

import (
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Head, tab and table have one order of worst: the share in a tab is that of the first part
// of the table of which it is decided, and where the head's finding is of a load, it is that
// part's; of a rig in which several things move first, the one that does so soonest.
func TestHeadTabAndTableNameOneWorst(t *testing.T) {
	w, err := words.New("en", 0)
	require.NoError(t, err)
	heads := 0
	for _, root := range [...]string{"../../testdata", "../../assets/plans"} {
		require.NoError(t, fs.WalkDir(os.DirFS(root), ".", func(path string, _ fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(path, ".kedge") {
				return err
			}
			data, err := fs.ReadFile(os.DirFS(root), path)
			if err != nil {
				return err
			}
			p, err := plan.ParsePlan(data)
			if err != nil { // one of those that are refused
				return nil
			}
			b, err := board.New(p, board.Options{Words: w})
			require.NoError(t, err, path)
			for _, tab := range b.Tabs() {
				if headTold(t, w, path, tab) {
					heads++
				}
			}
			return nil
		}))
	}
	assert.Greater(t, heads, 10, "heads that tell of a load")
}

// headTold compares a tab with the table of loads and the head, and tells whether that is of
// a load.
func headTold(t *testing.T, w *words.Words, path string, tab board.Tab) bool {
	a := tab.Answer
	if a.Worst < 0 || !strings.Contains(tab.Text, "worst") {
		return false
	}
	at, worst := path+" "+string(tab.Rig), &a.Parts[a.Worst]
	rows := w.Loads(a, nil, words.ColumnUsed).Rows
	first := slices.IndexFunc(rows, func(r words.LoadRow) bool { return r.Part.Known() && r.Part.Status != part.Undecided })
	if worst.Status != part.Undecided && assert.GreaterOrEqual(t, first, 0, at) {
		assert.Equal(t, worst.ID, rows[first].Part.ID, at)
		assert.Contains(t, tab.Text, rows[first].Cells[words.ColumnUsed], at)
	}
	if len(a.Findings) == 0 {
		return false
	}
	var of []string
	switch f := &a.Findings[0]; f.ID {
	case "over-limit", "over-to-break-loose", "winch-over":
		of = f.Parts
	case "vehicle-slides", "vehicle-turns", "tips-sideways":
		kind := map[string]part.Kind{"vehicle-slides": part.KindSlide, "vehicle-turns": part.KindSlide, "tips-sideways": part.KindTip}[f.ID]
		for i := range a.Parts {
			if q := &a.Parts[i]; q.Kind == kind && slices.Contains(f.Things, q.Thing) {
				of = append(of, q.ID)
			}
		}
	default:
		return false
	}
	assert.Contains(t, of, worst.ID, "%s: %s", at, a.Findings[0].ID)
	return true
}
