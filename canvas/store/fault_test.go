package store_test

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
)

// faulty fails one step of the machine's disk, or it and all after it.
type faulty struct {
	store.OS
	steps   *int
	at      int // number of the step that fails, from 1; 0: none
	forever bool
	err     error
	failed  *[]string
}

func newFaulty(at int, forever bool, err error) faulty {
	return faulty{steps: new(int), at: at, forever: forever, err: err, failed: new([]string)}
}

func (d faulty) step(op, path string) error {
	*d.steps++
	if d.at > 0 && (*d.steps == d.at || d.forever && *d.steps > d.at) {
		*d.failed = append(*d.failed, op+" "+filepath.Base(path))
		return &fs.PathError{Op: op, Path: path, Err: d.err}
	}
	return nil
}

func (d faulty) Open(path string) (store.File, error) {
	if err := d.step("open", path); err != nil {
		return nil, err
	}
	f, err := d.OS.Open(path)
	return faultyFile{f, d, path}, err
}

func (d faulty) Create(path string, mode fs.FileMode) (store.File, error) {
	if err := d.step("create", path); err != nil {
		return nil, err
	}
	f, err := d.OS.Create(path, mode)
	return faultyFile{f, d, path}, err
}

func (d faulty) Writable(path string) error {
	if err := d.step("writable", path); err != nil {
		return err
	}
	return d.OS.Writable(path)
}

func (d faulty) Stat(path string) (fs.FileInfo, error) {
	if err := d.step("stat", path); err != nil {
		return nil, err
	}
	return d.OS.Stat(path)
}

func (d faulty) ReadDir(path string) ([]fs.DirEntry, error) {
	if err := d.step("readdir", path); err != nil {
		return nil, err
	}
	return d.OS.ReadDir(path)
}

func (d faulty) Resolve(path string) (string, error) {
	if err := d.step("resolve", path); err != nil {
		return "", err
	}
	return d.OS.Resolve(path)
}

func (d faulty) Mkdir(path string) error {
	if err := d.step("mkdir", path); err != nil {
		return err
	}
	return d.OS.Mkdir(path)
}

func (d faulty) Link(old, path string) error {
	if err := d.step("link", path); err != nil {
		return err
	}
	return d.OS.Link(old, path)
}

func (d faulty) Rename(old, path string) error {
	if err := d.step("rename", path); err != nil {
		return err
	}
	return d.OS.Rename(old, path)
}

func (d faulty) Remove(path string) error {
	if err := d.step("remove", path); err != nil {
		return err
	}
	return d.OS.Remove(path)
}

func (d faulty) SyncDir(path string) error {
	if err := d.step("syncdir", path); err != nil {
		return err
	}
	return d.OS.SyncDir(path)
}

type faultyFile struct {
	store.File
	disk faulty
	path string
}

func (f faultyFile) Read(p []byte) (int, error) {
	if err := f.disk.step("read", f.path); err != nil {
		return 0, err
	}
	return f.File.Read(p)
}

// Write writes half before it fails, as a full disk does.
func (f faultyFile) Write(p []byte) (int, error) {
	if err := f.disk.step("write", f.path); err != nil {
		n, _ := f.File.Write(p[:len(p)/2])
		return n, err
	}
	return f.File.Write(p)
}

func (f faultyFile) Sync() error {
	if err := f.disk.step("sync", f.path); err != nil {
		return err
	}
	return f.File.Sync()
}

func (f faultyFile) Chmod(mode fs.FileMode) error {
	if err := f.disk.step("chmod", f.path); err != nil {
		return err
	}
	return f.File.Chmod(mode)
}

func (f faultyFile) Stat() (fs.FileInfo, error) {
	if err := f.disk.step("fstat", f.path); err != nil {
		return nil, err
	}
	return f.File.Stat()
}

func (f faultyFile) Close() error {
	if err := f.disk.step("close", f.path); err != nil {
		_ = f.File.Close()
		return err
	}
	return f.File.Close()
}

// TestSaveFailsWhole fails every step of a save once, and it with all that
// follow, with every error a disk has. Whatever fails: the file under the name
// is whole, the old one unless Save says that the new one is there, and the
// generation before is a whole one too. If the disk works again after the one
// fault, nothing half-written is left.
func TestSaveFailsWhole(t *testing.T) {
	p := example(t)
	causes := []error{syscall.EIO, syscall.ENOSPC, syscall.EROFS, syscall.EACCES, syscall.EPERM}
	if testing.Short() {
		causes = causes[:2]
	}
	for _, cause := range causes {
		for _, forever := range []bool{false, true} {
			t.Run(fmt.Sprintf("%v forever %v", cause, forever), func(t *testing.T) {
				for at := 1; ; at++ {
					folder := t.TempDir()
					path := filepath.Join(folder, "moss.kedge")
					stamp, err := store.Save(path, titled(p, "one"), store.Stamp{})
					require.NoError(t, err)
					stamp, err = store.Save(path, titled(p, "two"), stamp)
					require.NoError(t, err)

					d := newFaulty(at, forever, cause)
					s := store.New("kedge")
					s.Disk = d
					got, err := s.Save(path, titled(p, "three"), stamp)
					if len(*d.failed) == 0 {
						require.NoError(t, err)
						require.Greater(t, at, 10, "there are more steps than that to fail")
						return
					}
					what := strings.Join(*d.failed, ", ")
					title, old := titleOf(t, path), titleOf(t, path+store.PreviousSuffix)
					switch {
					case err == nil: // a step it can do without
						assert.NotContains(t, what, "sync", "what is not confirmed to stay is said")
						assert.Equal(t, "three two", title+" "+old, what)
					case !got.IsZero():
						assert.ErrorIs(t, err, store.ErrNotLasting, what)
						assert.Equal(t, "three two", title+" "+old, what)
					default:
						assert.Equal(t, "two", title, what)
						assert.Contains(t, []string{"one", "two"}, old, what)
						assert.ErrorIs(t, err, cause, what)
						sentence := said(t, err)
						assert.Contains(t, sentence, "moss.kedge", what)
						assert.Regexp(t, `^[^:]+: .+\. .+\.$`, sentence, "what, where, what to do")
						assert.NotContains(t, sentence, "kedge-new", "nobody knows that file")
					}
					if !forever && (err != nil || strings.HasPrefix(what, "link")) {
						left := names(t, folder)
						assert.Equal(t, []string{"moss.kedge", "moss.kedge~"}, left, "half-written after %s", what)
					}
					if !forever {
						// The next try goes through.
						if got.IsZero() {
							got = stamp
						}
						_, err = store.Save(path, titled(p, "four"), got)
						assert.NoError(t, err, what)
					}
				}
			})
		}
	}
}

// TestSnapshotFailsWhole fails every step of a session's first two snapshots. If
// the second cannot be written the first is still whole, and failing over and
// over leaves no heap of folders.
func TestSnapshotFailsWhole(t *testing.T) {
	p := withUnderlay(example(t))
	for _, forever := range []bool{false, true} {
		for at := 1; ; at++ {
			d := newFaulty(at, forever, syscall.ENOSPC)
			s := store.New("kedge")
			s.State, s.Disk = filepath.Join(t.TempDir(), "state"), d
			x := s.NewSession("/moss.kedge", store.Stamp{})
			first := x.Write(titled(p, "one"))
			second := x.Write(titled(p, "two"))
			what := strings.Join(*d.failed, ", ")
			if what == "" {
				require.NoError(t, first)
				require.NoError(t, second)
				require.Greater(t, at, 20, "there are more steps than that to fail")
				break
			}
			die(t, s)
			healthy := *s
			healthy.Disk = store.OS{}
			list, err := healthy.Recoverable()
			require.NoError(t, err)
			assert.LessOrEqual(t, len(list), 1, what)
			if first == nil || second == nil {
				require.Len(t, list, 1, what)
				r, err := healthy.Recover(list[0])
				require.NoError(t, err, what)
				assert.NoError(t, r.Note, what)
				assert.Contains(t, []string{"one", "two"}, r.Plan.Title, what)
				if second == nil {
					assert.Equal(t, "two", r.Plan.Title, what)
				}
			}
			for _, e := range []error{first, second} {
				if e != nil {
					assert.ErrorIs(t, e, syscall.ENOSPC, what)
					assert.Regexp(t, `^moss\.kedge: no snapshot could be taken: .+\. Save the plan now\.$`, said(t, e))
				}
			}
		}
	}
}

func TestLoadFails(t *testing.T) {
	p := example(t)
	path := filepath.Join(t.TempDir(), "moss.kedge")
	_, err := store.Save(path, p, store.Stamp{})
	require.NoError(t, err)
	for at := 1; ; at++ {
		d := newFaulty(at, false, syscall.EIO)
		s := store.New("kedge")
		s.Disk = d
		got, stamp, err := s.Load(path)
		if len(*d.failed) == 0 {
			require.NoError(t, err)
			require.Greater(t, at, 3)
			return
		}
		if err == nil { // closing after reading may fail
			assert.Equal(t, []string{"close moss.kedge"}, *d.failed)
			continue
		}
		assert.Nil(t, got)
		assert.True(t, stamp.IsZero())
		assert.Equal(t, "moss.kedge: it could not be read (input/output error). Take a copy that can.", said(t, err))
	}
}

func TestSaveSweepsLeftovers(t *testing.T) {
	p := example(t)
	folder := t.TempDir()
	path := filepath.Join(folder, "moss.kedge")
	stamp, err := store.Save(path, p, store.Stamp{})
	require.NoError(t, err)
	for name, ageMinutes := range map[string]int{".moss.kedge.kedge-new-0": 60, ".moss.kedge~.kedge-new-0": 60, ".moss.kedge.kedge-new-1": 0, ".other.kedge.kedge-new-0": 60} {
		full := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(full, []byte("{"), 0o600))
		when := stamp.Time.Add(-time.Duration(ageMinutes) * time.Minute)
		require.NoError(t, os.Chtimes(full, when, when))
	}
	_, err = store.Save(path, titled(p, "two"), stamp)
	require.NoError(t, err)
	assert.Equal(t, []string{".moss.kedge.kedge-new-1", ".other.kedge.kedge-new-0", "moss.kedge", "moss.kedge~"}, names(t, folder),
		"old leftovers of this file go, what may be being written stays, other files' too")
}
