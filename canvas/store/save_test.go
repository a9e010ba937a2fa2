package store_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// example is the doubled pull of the built-in plans.
func example(t testing.TB) *plan.Plan { return seeded.Example(t, "doubled") }

func titled(p *plan.Plan, title string) *plan.Plan {
	q := *p
	q.Title = title
	return &q
}

func titleOf(t testing.TB, path string) string {
	t.Helper()
	p, _, err := store.Load(path)
	require.NoError(t, err)
	return p.Title
}

func names(t testing.TB, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var all []string
	for _, e := range entries {
		all = append(all, e.Name())
	}
	return all
}

func TestSaveAndLoad(t *testing.T) {
	p := example(t)
	path := filepath.Join(t.TempDir(), "moss.kedge")

	first, err := store.Save(path, titled(p, "one"), store.Stamp{})
	require.NoError(t, err)
	got, loaded, err := store.Load(path)
	require.NoError(t, err)
	assert.Equal(t, "one", got.Title)
	assert.Equal(t, "kedge", got.App, "stamped")
	assert.True(t, first.Same(loaded))
	assert.True(t, first.Time.Equal(loaded.Time), "the file keeps the time it was written at")

	second, err := store.Save(path, titled(p, "two"), loaded)
	require.NoError(t, err)
	assert.False(t, second.Same(first))
	assert.Equal(t, "two", titleOf(t, path))
	assert.Equal(t, "one", titleOf(t, path+store.PreviousSuffix), "the generation before")

	_, err = store.Save(path, titled(p, "three"), second)
	require.NoError(t, err)
	assert.Equal(t, "two", titleOf(t, path+store.PreviousSuffix), "one generation only")
	assert.Equal(t, []string{"moss.kedge", "moss.kedge~"}, names(t, filepath.Dir(path)), "nothing else is left")
}

func TestSaveLeavesThePlanAlone(t *testing.T) {
	p := example(t)
	before, err := plan.FormatPlan(p)
	require.NoError(t, err)
	_, err = store.New("kedge 9").Save(filepath.Join(t.TempDir(), "a.kedge"), p, store.Stamp{})
	require.NoError(t, err)
	after, err := plan.FormatPlan(p)
	require.NoError(t, err)
	assert.Equal(t, string(before), string(after))
}

func TestSaveKeepsModeAndLink(t *testing.T) {
	p := example(t)
	folder := t.TempDir()
	real := filepath.Join(folder, "plans", "moss.kedge")
	require.NoError(t, os.Mkdir(filepath.Dir(real), 0o755))
	stamp, err := store.Save(real, titled(p, "one"), store.Stamp{})
	require.NoError(t, err)
	require.NoError(t, os.Chmod(real, 0o640))
	// The link is relative, stands in a folder reached by a link itself, and
	// leads upwards: "../plans/moss.kedge" from inside the real folder.
	require.NoError(t, os.MkdirAll(filepath.Join(folder, "deep", "er"), 0o755))
	require.NoError(t, os.Symlink("../../plans/moss.kedge", filepath.Join(folder, "deep", "er", "link.kedge")))
	require.NoError(t, os.Symlink("deep/er", filepath.Join(folder, "short")))
	link := filepath.Join(folder, "short", "link.kedge")

	_, err = store.Save(link, titled(p, "two"), stamp)
	require.NoError(t, err)
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&fs.ModeSymlink, "the link is still a link")
	info, err = os.Stat(real)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o640), info.Mode().Perm())
	assert.Equal(t, "two", titleOf(t, real))
	assert.Equal(t, []string{"moss.kedge", "moss.kedge~"}, names(t, filepath.Dir(real)), "the generation before lies beside the target")
	assert.Equal(t, []string{"link.kedge"}, names(t, filepath.Join(folder, "deep", "er")))
}

func TestSaveThroughALinkToNothing(t *testing.T) {
	folder := t.TempDir()
	link := filepath.Join(folder, "link.kedge")
	require.NoError(t, os.Symlink("new.kedge", link))
	_, err := store.Save(link, titled(example(t), "one"), store.Stamp{})
	require.NoError(t, err)
	assert.Equal(t, "one", titleOf(t, filepath.Join(folder, "new.kedge")))
	assert.Equal(t, []string{"link.kedge", "new.kedge"}, names(t, folder))
}

func TestSaveNoticesAnotherHand(t *testing.T) {
	p := example(t)
	path := filepath.Join(t.TempDir(), "moss.kedge")
	mine, err := store.Save(path, titled(p, "mine"), store.Stamp{})
	require.NoError(t, err)
	theirs, err := store.Save(path, titled(p, "them"), mine)
	require.NoError(t, err)
	require.NoError(t, os.Chtimes(path, mine.Time, mine.Time)) // same size, same time: only the hash tells

	_, err = store.Save(path, titled(p, "mine again"), mine)
	require.ErrorIs(t, err, store.ErrChanged)
	var changed *store.Changed
	require.ErrorAs(t, err, &changed)
	assert.False(t, changed.New)
	assert.True(t, changed.Found.Same(theirs))
	assert.Equal(t, "moss.kedge: the file was changed by somebody else since it was opened here. Overwrite it, or save under another name.", said(t, err))
	assert.Equal(t, "them", titleOf(t, path), "nothing was written")

	_, err = store.Save(path, titled(p, "mine again"), changed.Found)
	require.NoError(t, err, "overwritten knowingly")
	assert.Equal(t, "mine again", titleOf(t, path))
	assert.Equal(t, "them", titleOf(t, path+store.PreviousSuffix), "what was overwritten is kept")
}

func TestSaveAsNoticesAFileThatIsThere(t *testing.T) {
	path := filepath.Join(t.TempDir(), "moss.kedge")
	require.NoError(t, os.WriteFile(path, []byte("shopping list"), 0o644))
	_, err := store.Save(path, example(t), store.Stamp{})
	var changed *store.Changed
	require.ErrorAs(t, err, &changed)
	assert.True(t, changed.New)
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "shopping list", string(data))
}

func TestSaveTouchedIsNotChanged(t *testing.T) {
	p := example(t)
	path := filepath.Join(t.TempDir(), "moss.kedge")
	stamp, err := store.Save(path, p, store.Stamp{})
	require.NoError(t, err)
	later := stamp.Time.Add(3600e9)
	require.NoError(t, os.Chtimes(path, later, later))
	_, err = store.Save(path, titled(p, "two"), stamp)
	assert.NoError(t, err, "same bytes: nobody changed anything")
}

func TestSaveMakesAVanishedFileAgain(t *testing.T) {
	p := example(t)
	path := filepath.Join(t.TempDir(), "moss.kedge")
	stamp, err := store.Save(path, p, store.Stamp{})
	require.NoError(t, err)
	require.NoError(t, os.Remove(path))
	now, err := store.New("kedge").Current(path)
	require.NoError(t, err)
	assert.True(t, now.IsZero())
	_, err = store.Save(path, titled(p, "again"), stamp)
	require.NoError(t, err)
	assert.Equal(t, "again", titleOf(t, path))
}
