//go:build unix

package store_test

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
	"kedge/solver/plan"
)

func TestSaveRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		path func(t *testing.T, folder string) string
		want error
		says string
	}{
		{"folder gone", func(t *testing.T, f string) string { return filepath.Join(f, "gone", "moss.kedge") },
			store.ErrNoFolder, "moss.kedge: its folder FOLDER/gone is not there. Make the folder again, or save it in another one."},
		{"a folder", func(t *testing.T, f string) string {
			require.NoError(t, os.Mkdir(filepath.Join(f, "moss.kedge"), 0o755))
			return filepath.Join(f, "moss.kedge")
		}, store.ErrFolder, "moss.kedge: it is a folder, not a file. Name a file in it."},
		{"marked read-only", func(t *testing.T, f string) string {
			path := filepath.Join(f, "moss.kedge")
			require.NoError(t, os.WriteFile(path, nil, 0o444))
			return path
		}, store.ErrReadOnly, "moss.kedge: the file is marked read-only. Save it under another name, or take the mark off."},
		{"a pipe", func(t *testing.T, f string) string {
			path := filepath.Join(f, "moss.kedge")
			require.NoError(t, syscall.Mkfifo(path, 0o644))
			return path
		}, store.ErrNotAFile, "moss.kedge: it is a device or a pipe, not a file. Give another name."},
		{"name too long", func(t *testing.T, f string) string { return filepath.Join(f, strings.Repeat("m", 300)+".kedge") },
			store.ErrName, strings.Repeat("m", 300) + ".kedge: the system takes no such name. Give it a shorter name of letters and digits."},
		{"under a file", func(t *testing.T, f string) string {
			require.NoError(t, os.WriteFile(filepath.Join(f, "file"), nil, 0o644))
			return filepath.Join(f, "file", "moss.kedge")
		}, store.ErrNoFolder, "moss.kedge: its folder FOLDER/file is not there. Make the folder again, or save it in another one."},
		{"links in a ring", func(t *testing.T, f string) string {
			require.NoError(t, os.Symlink("b.kedge", filepath.Join(f, "a.kedge")))
			require.NoError(t, os.Symlink("a.kedge", filepath.Join(f, "b.kedge")))
			return filepath.Join(f, "a.kedge")
		}, store.ErrName, "a.kedge: it is a link that leads in a circle. Name the file itself."},
	} {
		t.Run(c.name, func(t *testing.T) {
			folder := t.TempDir()
			path := c.path(t, folder)
			before := names(t, folder)
			stamp := store.Stamp{}
			var err error
			if c.want == store.ErrReadOnly {
				stamp, err = store.New("kedge").Current(path)
				require.NoError(t, err)
			}
			_, err = store.Save(path, example(t), stamp)
			require.ErrorIs(t, err, c.want)
			assert.Equal(t, c.says, strings.ReplaceAll(said(t, err), folder, "FOLDER"))
			assert.Equal(t, before, names(t, folder), "nothing was made")
		})
	}
}

func TestSaveWhatTheDiskSays(t *testing.T) {
	for _, c := range []struct {
		cause, want error
		says        string
	}{
		{syscall.ENOSPC, store.ErrFull, "moss.kedge: there is no room left on the disk to write it. Make room, or save it on another disk."},
		{syscall.EDQUOT, store.ErrFull, "moss.kedge: there is no room left on the disk to write it. Make room, or save it on another disk."},
		{syscall.EROFS, store.ErrReadOnly, "moss.kedge: the disk is read-only. Save it on another disk."},
		{syscall.EACCES, store.ErrPermission, "moss.kedge: you may not write it or its folder FOLDER. Save it in a folder of your own."},
		{syscall.ENOENT, store.ErrNoFolder, "moss.kedge: its folder FOLDER is not there. Make the folder again, or save it in another one."},
		{syscall.EIO, store.ErrDisk, "moss.kedge: it could not be written (input/output error); what was there before is unchanged. Save it on another disk."},
	} {
		t.Run(c.cause.Error(), func(t *testing.T) {
			folder := t.TempDir()
			path := filepath.Join(folder, "moss.kedge")
			stamp, err := store.Save(path, example(t), store.Stamp{})
			require.NoError(t, err)
			s := store.New("kedge")
			s.Disk = noCreate{err: c.cause}
			_, err = s.Save(path, titled(example(t), "two"), stamp)
			require.ErrorIs(t, err, c.want)
			assert.Equal(t, c.says, strings.ReplaceAll(said(t, err), folder, "FOLDER"))
			assert.Equal(t, example(t).Title, titleOf(t, path))
		})
	}
}

// noCreate is a disk on which no file can be made.
type noCreate struct {
	store.OS
	err error
}

func (d noCreate) Create(path string, _ os.FileMode) (store.File, error) {
	return nil, &os.PathError{Op: "open", Path: path, Err: d.err}
}

func TestSaveRefusesAPlanThatIsNone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "moss.kedge")
	p := titled(example(t), "x")
	p.Site.Vehicles = append(p.Site.Vehicles, p.Site.Vehicles[0])
	_, err := store.Save(path, p, store.Stamp{})
	require.ErrorIs(t, err, store.ErrContent)
	assert.ErrorIs(t, err, plan.ErrID)
	_, err = store.Save(path, nil, store.Stamp{})
	require.ErrorIs(t, err, store.ErrContent)
	assert.NoFileExists(t, path)
}

func TestLoadRefuses(t *testing.T) {
	folder := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		return path
	}
	large := write("large.kedge", "")
	require.NoError(t, os.Truncate(large, plan.MaxBytes+1)) // a hole: takes no room
	pipe := filepath.Join(folder, "pipe.kedge")
	require.NoError(t, syscall.Mkfifo(pipe, 0o644))
	for _, c := range []struct {
		path string
		want error
		says string
	}{
		{filepath.Join(folder, "none.kedge"), store.ErrNotFound, "none.kedge: there is no such file in FOLDER. Check the name and the folder."},
		{folder, store.ErrFolder, filepath.Base(folder) + ": it is a folder, not a file. Name a file in it."},
		{pipe, store.ErrNotAFile, "pipe.kedge: it is a device or a pipe, not a file. Give another name."},
		{large, store.ErrTooLarge, "large.kedge: it is larger than 48 MiB. Take a smaller one."},
		{write("empty.kedge", ""), plan.ErrEmpty, ""},
		{write("newer.kedge", `{"format":"kedge-plan","version":9,"min_reader":9,"title_block":{},"site":{"ground":{}},"rigs":[]}`), plan.ErrNewer,
			"newer.kedge: /min_reader: the plan needs version 9 of the file format, this program reads up to 1. Open it with a newer Kedge; it was left untouched."},
	} {
		t.Run(filepath.Base(c.path), func(t *testing.T) {
			p, stamp, err := store.Load(c.path)
			require.ErrorIs(t, err, c.want)
			assert.Nil(t, p)
			assert.True(t, stamp.IsZero())
			if c.says != "" {
				assert.Equal(t, c.says, strings.ReplaceAll(said(t, err), folder, "FOLDER"))
			}
			assert.True(t, strings.HasPrefix(err.Error(), "store: "))
		})
	}
}
