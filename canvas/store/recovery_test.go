package store_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
	"kedge/solver/plan"
)

// own is the machine's disk with folders of the test's own.
func own(t testing.TB) *store.Store {
	t.Helper()
	s := store.New("kedge")
	root := t.TempDir()
	s.Config, s.State = filepath.Join(root, "config", "kedge"), filepath.Join(root, "state", "kedge")
	return s
}

func withUnderlay(p *plan.Plan) *plan.Plan {
	q := *p
	q.Site.Underlay = &plan.Underlay{Type: "image/png", Bytes: []byte("not looked at here"), Metres: 0.02, File: "moss.png"}
	for _, c := range []plan.Point{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 10, Y: 5}, {X: 0, Y: 5}} {
		q.Site.Underlay.Points = append(q.Site.Underlay.Points, plan.PicturePoint{Right: 100 + 10*c.X, Down: 90 - 10*c.Y, At: c, Doubt: 0.1})
	}
	return &q
}

// die makes the sessions of s those of a process that has ended.
func die(t testing.TB, s *store.Store) {
	t.Helper()
	owners, err := filepath.Glob(filepath.Join(s.State, "recovery", "*", "owner.json"))
	require.NoError(t, err)
	for _, o := range owners {
		data, err := os.ReadFile(o)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(o, deadOwner(t, data), 0o600))
	}
}

func TestRecovery(t *testing.T) {
	s := own(t)
	file := filepath.Join(t.TempDir(), "moss.kedge")
	p := withUnderlay(titled(example(t), "Curlew Moss"))
	stamp, err := s.Save(file, p, store.Stamp{})
	require.NoError(t, err)
	before, err := os.ReadFile(file)
	require.NoError(t, err)

	x := s.NewSession(file, stamp)
	edited := titled(p, "Curlew Moss, edited")
	require.NoError(t, x.Write(edited))
	list, err := s.Recoverable()
	require.NoError(t, err)
	assert.Empty(t, list, "its window still runs")

	die(t, s)
	list, err = s.Recoverable()
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, "Curlew Moss, edited", list[0].Title)
	assert.Equal(t, file, list[0].Path)
	assert.NoError(t, list[0].Fault)
	assert.Empty(t, list[0].Host)
	assert.WithinDuration(t, stamp.Time, list[0].Time, time.Hour)

	r, err := s.Recover(list[0])
	require.NoError(t, err)
	assert.NoError(t, r.Note)
	assert.Equal(t, string(bytesOf(t, edited)), string(bytesOf(t, r.Plan)), "with its picture")
	after, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, before, after, "the user's file is not touched")

	_, err = s.Save(file, r.Plan, r.Stamp)
	assert.NoError(t, err, "the stamp is that of the user's file")
	require.NoError(t, s.Discard(list[0]))
	assert.Empty(t, names(t, filepath.Join(s.State, "recovery")))
}

func TestRecoveryNoticesThatTheFileWentOn(t *testing.T) {
	s := own(t)
	file := filepath.Join(t.TempDir(), "moss.kedge")
	stamp, err := s.Save(file, titled(example(t), "one"), store.Stamp{})
	require.NoError(t, err)
	require.NoError(t, s.NewSession(file, stamp).Write(titled(example(t), "mine")))
	_, err = s.Save(file, titled(example(t), "theirs"), stamp)
	require.NoError(t, err)
	die(t, s)
	list, err := s.Recoverable()
	require.NoError(t, err)
	require.Len(t, list, 1)
	r, err := s.Recover(list[0])
	require.NoError(t, err)
	_, err = s.Save(file, r.Plan, r.Stamp)
	assert.ErrorIs(t, err, store.ErrChanged)
}

func TestRecoveryKeepsThePictureOnce(t *testing.T) {
	s := own(t)
	x := s.NewSession("", store.Stamp{})
	p := withUnderlay(example(t))
	require.NoError(t, x.Write(p))
	pictures := func() []string {
		all, err := filepath.Glob(filepath.Join(s.State, "recovery", "*", "underlay-*"))
		require.NoError(t, err)
		return all
	}
	require.Len(t, pictures(), 1)
	long := time.Unix(1, 0)
	require.NoError(t, os.Chtimes(pictures()[0], long, long))
	require.NoError(t, x.Write(titled(p, "two")))
	info, err := os.Stat(pictures()[0])
	require.NoError(t, err)
	assert.True(t, info.ModTime().Equal(long), "not written again")

	q := withUnderlay(example(t))
	q.Site.Underlay.Bytes = []byte("another")
	old := pictures()[0]
	require.NoError(t, x.Write(q))
	require.Len(t, pictures(), 1, "the one that is no longer there goes")
	assert.NotEqual(t, old, pictures()[0])
	require.NoError(t, x.Write(example(t)))
	assert.Empty(t, pictures())
	require.NoError(t, x.Close())
	assert.Empty(t, names(t, filepath.Join(s.State, "recovery")), "a clean close leaves nothing")
	assert.NoError(t, x.Close(), "twice")
	assert.Error(t, x.Write(p), "closed")
}

func TestRecoveryAfterSaving(t *testing.T) {
	s := own(t)
	x := s.NewSession("", store.Stamp{})
	require.NoError(t, x.Write(titled(example(t), "one")))
	file := filepath.Join(t.TempDir(), "moss.kedge")
	stamp, err := s.Save(file, example(t), store.Stamp{})
	require.NoError(t, err)
	require.NoError(t, x.Saved(file, stamp))
	require.NoError(t, x.Write(titled(example(t), "two")))
	die(t, s)
	list, err := s.Recoverable()
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, file, list[0].Path, "it has a file since")

	require.NoError(t, x.Saved(file, stamp))
	list, err = s.Recoverable()
	require.NoError(t, err)
	assert.Empty(t, list, "nothing was lost: nothing is offered")
	assert.Empty(t, names(t, filepath.Join(s.State, "recovery")), "and the dead session is cleared away")
}

func TestRecoveryOfDamage(t *testing.T) {
	for _, c := range []struct {
		name   string
		damage func(t *testing.T, folder string)
		fault  string // listed with it
		note   string // recovered with it
		err    error
	}{
		{"cut off in its first line", func(t *testing.T, f string) { truncate(t, filepath.Join(f, "plan.snapshot"), 20) },
			"plan.snapshot: the snapshot is damaged. Open the plan's own file.", "", store.ErrContent},
		{"cut off in the plan", func(t *testing.T, f string) { truncate(t, filepath.Join(f, "plan.snapshot"), 900) },
			"", "", store.ErrContent},
		{"picture gone", func(t *testing.T, f string) { require.NoError(t, os.Remove(picture(t, f))) },
			"", "The picture under the plan could not be recovered. Take it in again.", nil},
		{"another picture", func(t *testing.T, f string) {
			require.NoError(t, os.WriteFile(picture(t, f), []byte("not looked at there"), 0o600))
		},
			"", "The picture under the plan could not be recovered. Take it in again.", nil},
		{"owner unreadable", func(t *testing.T, f string) {
			require.NoError(t, os.WriteFile(filepath.Join(f, "owner.json"), nil, 0o600))
		}, "", "", nil},
		{"owner gone", func(t *testing.T, f string) { require.NoError(t, os.Remove(filepath.Join(f, "owner.json"))) }, "", "", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := own(t)
			require.NoError(t, s.NewSession("/moss.kedge", store.Stamp{}).Write(withUnderlay(example(t))))
			die(t, s)
			folders, err := filepath.Glob(filepath.Join(s.State, "recovery", "*"))
			require.NoError(t, err)
			require.Len(t, folders, 1)
			c.damage(t, folders[0])
			list, err := s.Recoverable()
			require.NoError(t, err)
			require.Len(t, list, 1, "listed all the same, so that it can be looked at and discarded")
			assert.Equal(t, c.fault, said(t, list[0].Fault))
			r, err := s.Recover(list[0])
			if c.err != nil {
				assert.ErrorIs(t, err, c.err)
			} else {
				require.NoError(t, err)
				assert.Equal(t, c.note, said(t, r.Note))
				assert.Equal(t, c.note != "", r.Plan.Site.Underlay == nil)
			}
			require.NoError(t, s.Discard(list[0]))
			assert.Empty(t, names(t, filepath.Join(s.State, "recovery")))
		})
	}
}

// Pictures of evidence are recovered with the plan, each stored once; of one that is lost the
// file is still named.
func TestRecoveryOfPicturesOfEvidence(t *testing.T) {
	for lost, note := range map[bool]string{false: "", true: "A picture of evidence could not be recovered. Details names its file: attach it again."} {
		s := own(t)
		p := *withUnderlay(example(t))
		p.Photos = []plan.Photo{{Type: "image/png", Bytes: []byte("a tag"), File: "tag.png", Original: "h1"}, {Original: "h2"}}
		q := plan.WithPin(plan.WithPin(&p, 0, plan.Pin{ID: "A", Shows: "h1"}), 0, plan.Pin{ID: "B", Shows: "h2"})
		x := s.NewSession("/moss.kedge", store.Stamp{})
		require.NoError(t, x.Write(q))
		require.NoError(t, x.Write(titled(q, "later")))
		die(t, s)
		files, err := filepath.Glob(filepath.Join(s.State, "recovery", "*", "underlay-*"))
		require.NoError(t, err)
		require.Len(t, files, 2, "the picture to trace and the tag")
		for _, f := range files {
			if data, err := os.ReadFile(f); lost && string(data) == "a tag" {
				require.NoError(t, err)
				require.NoError(t, os.Remove(f))
			}
		}
		list, err := s.Recoverable()
		require.NoError(t, err)
		r, err := s.Recover(list[0])
		require.NoError(t, err)
		assert.Equal(t, note, said(t, r.Note))
		require.NotNil(t, r.Plan.Photo("h1"))
		assert.Equal(t, "tag.png", r.Plan.Photo("h1").File)
		assert.Equal(t, lost, len(r.Plan.Photo("h1").Bytes) == 0)
		assert.NotNil(t, r.Plan.Site.Underlay)
	}
}

func truncate(t *testing.T, path string, bytes int64) {
	t.Helper()
	require.NoError(t, os.Truncate(path, bytes))
}

func picture(t *testing.T, folder string) string {
	t.Helper()
	all, err := filepath.Glob(filepath.Join(folder, "underlay-*"))
	require.NoError(t, err)
	require.Len(t, all, 1)
	return all[0]
}

func TestRecoveryElsewhere(t *testing.T) {
	s := own(t)
	require.NoError(t, s.NewSession("/moss.kedge", store.Stamp{}).Write(example(t)))
	owners, err := filepath.Glob(filepath.Join(s.State, "recovery", "*", "owner.json"))
	require.NoError(t, err)
	data, err := os.ReadFile(owners[0])
	require.NoError(t, err)
	data = changedOwner(t, data, func(o map[string]any) { o["host"] = "hut" })
	require.NoError(t, os.WriteFile(owners[0], data, 0o600))
	list, err := s.Recoverable()
	require.NoError(t, err)
	require.Len(t, list, 1)
	assert.Equal(t, "hut", list[0].Host, "whether its window runs is not known here: it says where")

	here := s.NewSession("/moss.kedge", store.Stamp{})
	require.NoError(t, here.Write(example(t)))
	owner := filepath.Join(here.Folder(), "owner.json")
	data, err = os.ReadFile(owner)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(owner, deadOwner(t, data), 0o600))
	again, err := s.Recoverable()
	require.NoError(t, err)
	require.Len(t, again, 2)
	require.NoError(t, s.Discard(again[0]))
	left, err := s.Recoverable()
	require.NoError(t, err)
	assert.Equal(t, list, left, "the same here is dropped without it")
}

func TestRecoverableOfNothing(t *testing.T) {
	s := own(t)
	list, err := s.Recoverable()
	require.NoError(t, err)
	assert.Empty(t, list)
}

// A window that dies as it takes a snapshot over leaves that and one of its own, which
// say the same. Both go with the newer; what another state holds, or another file, stays.
func TestDiscardTakesTheSameStateWithIt(t *testing.T) {
	s := own(t)
	file := filepath.Join(t.TempDir(), "moss.kedge")
	stamp, err := s.Save(file, example(t), store.Stamp{})
	require.NoError(t, err)
	other := withUnderlay(titled(example(t), "edited"))
	other.Site.Underlay.Bytes = []byte("another")
	for _, x := range []struct {
		path string
		p    *plan.Plan
	}{
		{file, titled(example(t), "before")},
		{file, other},
		{"", withUnderlay(titled(example(t), "edited"))},
		{file, withUnderlay(titled(example(t), "edited"))},
		{file, withUnderlay(titled(example(t), "edited"))},
	} {
		require.NoError(t, s.NewSession(x.path, stamp).Write(x.p))
	}
	die(t, s)
	list, err := s.Recoverable()
	require.NoError(t, err)
	require.Len(t, list, 5)
	require.NoError(t, s.Discard(list[0]))
	left, err := s.Recoverable()
	require.NoError(t, err)
	assert.Equal(t, list[2:], left)

	newer := s.NewSession("", stamp)
	require.NoError(t, newer.Write(withUnderlay(titled(example(t), "edited"))))
	require.NoError(t, os.Remove(picture(t, newer.Folder())))
	die(t, s)
	list, err = s.Recoverable()
	require.NoError(t, err)
	require.NoError(t, s.Discard(list[0]))
	again, err := s.Recoverable()
	require.NoError(t, err)
	assert.Equal(t, left, again, "the newer has lost its picture")

	shown := titled(example(t), "shown")
	shown.Photos = []plan.Photo{{Type: "image/png", Bytes: []byte("a tag"), File: "tag.png", Original: "ab"}}
	require.NoError(t, s.NewSession("", stamp).Write(shown))
	newer = s.NewSession("", stamp)
	require.NoError(t, newer.Write(shown))
	require.NoError(t, os.Remove(picture(t, newer.Folder())))
	die(t, s)
	list, err = s.Recoverable()
	require.NoError(t, err)
	require.NoError(t, s.Discard(list[0]))
	again, err = s.Recoverable()
	require.NoError(t, err)
	assert.Equal(t, list[1:], again, "or one of evidence")
}
