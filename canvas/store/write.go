package store

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

func base(path string) string { return filepath.Base(path) }

// PreviousSuffix is put behind a file's name for the generation before.
const PreviousSuffix = "~"

const (
	tempMark = ".kedge-new-" // between the file's name and a number in a file being written
	maxTemps = 10_000        // tries for a free name; more leftovers than that is another fault

	// leftoverAge is how much older than a file being written now another one
	// must be to be a leftover: no save takes that long.
	leftoverAge = 10 * time.Minute

	newFileMode     = 0o666 // less what the user's umask takes
	privateFileMode = 0o600
)

// replacing says how a file is to be written.
type replacing struct {
	mode     fs.FileMode // of a file that is not there yet
	previous bool        // keep the generation before
	// check is asked last before the new file takes the name; nil: no question.
	check func() error
}

// replace writes data to path, which has no links in it, see the package
// comment. It returns the time the disk gave the new file; with ErrNotLasting,
// and no other error, the file is the new one already.
func replace(d Disk, path string, data []byte, how replacing) (time.Time, error) {
	mode, keep := how.mode, false
	switch info, err := d.Stat(path); {
	case err == nil:
		if err := mayReplace(d, path, info); err != nil {
			return time.Time{}, err
		}
		mode, keep = info.Mode().Perm(), true
	case !errors.Is(err, fs.ErrNotExist):
		return time.Time{}, explain(writing, path, err)
	}
	temp, changed, err := writeTemp(d, path, data, mode, keep)
	if err != nil {
		return time.Time{}, explain(writing, path, err)
	}
	if how.check != nil {
		err = how.check()
	}
	if err == nil && how.previous && keep {
		if err = keepPrevious(d, path, mode); err != nil {
			err = explain(writing, path+PreviousSuffix, err)
		}
	}
	if err == nil {
		err = d.Rename(temp, path)
	}
	if err != nil {
		_ = d.Remove(temp) // swept later if even that fails
		return time.Time{}, explain(writing, path, err)
	}
	if err := d.SyncDir(filepath.Dir(path)); err != nil {
		return changed, notLasting.At(named(path)).Because(err)
	}
	sweep(d, path, changed)
	return changed, nil
}

// mayReplace refuses what is not an ordinary file that may be written: a rename
// would replace it all the same.
func mayReplace(d Disk, path string, info fs.FileInfo) error {
	switch {
	case info.IsDir():
		return isAFolder.At(named(path))
	case !info.Mode().IsRegular():
		return notAFile.At(named(path))
	case info.Mode().Perm()&0o222 == 0:
		return marked.At(named(path))
	}
	if err := d.Writable(path); err != nil {
		return explain(writing, path, err)
	}
	return nil
}

// writeTemp writes and syncs a new file beside path, under a name of its own.
// With exact, its mode is mode whatever the umask.
func writeTemp(d Disk, path string, data []byte, mode fs.FileMode, exact bool) (temp string, changed time.Time, err error) {
	temp, f, err := createTemp(d, path, mode)
	if err != nil {
		return "", time.Time{}, err
	}
	if exact {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = writeAll(f, data)
	}
	if err == nil {
		err = f.Sync()
	}
	if err == nil {
		var info fs.FileInfo
		if info, err = f.Stat(); err == nil {
			changed = info.ModTime()
		}
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		_ = d.Remove(temp)
		return "", time.Time{}, err
	}
	return temp, changed, nil
}

// chunkBytes is how much is written at once: little enough that a full disk is
// met in the middle of a large plan, by tests too.
const chunkBytes = 1 << 20

func writeAll(w io.Writer, data []byte) error {
	for chunk := range slices.Chunk(data, chunkBytes) {
		n, err := w.Write(chunk)
		if err == nil && n < len(chunk) {
			err = io.ErrShortWrite
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// tempName is a hidden name beside path for a file being written.
func tempName(path string, n int) string {
	return filepath.Join(filepath.Dir(path), tempStem(base(path))+strconv.Itoa(n))
}

// tempStem is how the names of files being written in place of the one called
// name begin: with that name, or as much of it as leaves room for the rest in the
// 255 bytes that file systems give a name.
func tempStem(name string) string {
	const most = 220
	if len(name) > most {
		name = strings.ToValidUTF8(name[:most], "")
	}
	return "." + name + tempMark
}

func createTemp(d Disk, path string, mode fs.FileMode) (string, File, error) {
	for n := range maxTemps {
		temp := tempName(path, n)
		f, err := d.Create(temp, mode)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		return temp, f, err
	}
	return "", nil, crowded.At(named(path))
}

// keepPrevious gives the file at path the name of the generation before too.
// Where a file can have only one name, that generation is a copy.
func keepPrevious(d Disk, path string, mode fs.FileMode) error {
	for n := range maxTemps {
		temp := tempName(path+PreviousSuffix, n)
		err := d.Link(path, temp)
		switch {
		case err == nil:
			if err = d.Rename(temp, path+PreviousSuffix); err == nil {
				// A rename between two names of one file does nothing.
				_ = d.Remove(temp)
				return nil
			}
			_ = d.Remove(temp)
			return err
		case errors.Is(err, fs.ErrExist):
			continue
		case isFull(err), isReadOnly(err), errors.Is(err, fs.ErrNotExist):
			return err
		}
		return copyPrevious(d, path, mode)
	}
	return crowded.At(named(path))
}

func copyPrevious(d Disk, path string, mode fs.FileMode) error {
	data, _, err := readWhole(d, path, foreignMaxBytes)
	if err != nil {
		return err
	}
	temp, _, err := writeTemp(d, path+PreviousSuffix, data, mode, true)
	if err != nil {
		return err
	}
	if err := d.Rename(temp, path+PreviousSuffix); err != nil {
		_ = d.Remove(temp)
		return err
	}
	return nil
}

// sweep removes what a process that was killed left half-written beside path.
// now is the time the disk gave a file just written. Faults are left to the
// next sweep: the save itself is done.
func sweep(d Disk, path string, now time.Time) {
	folder := filepath.Dir(path)
	entries, err := d.ReadDir(folder)
	if err != nil {
		return
	}
	for _, e := range entries {
		own := strings.HasPrefix(e.Name(), tempStem(base(path))) || strings.HasPrefix(e.Name(), tempStem(base(path)+PreviousSuffix))
		if !own {
			continue
		}
		if info, err := e.Info(); err == nil && now.Sub(info.ModTime()) > leftoverAge {
			_ = d.Remove(filepath.Join(folder, e.Name()))
		}
	}
}

// readWhole reads the file at path, at most maxBytes.
func readWhole(d Disk, path string, maxBytes int64) ([]byte, time.Time, error) {
	info, err := d.Stat(path)
	if err != nil {
		return nil, time.Time{}, err
	}
	switch {
	case info.IsDir():
		return nil, time.Time{}, isAFolder.At(named(path))
	case !info.Mode().IsRegular():
		return nil, time.Time{}, notAFile.At(named(path))
	case info.Size() > maxBytes:
		return nil, time.Time{}, tooLarge(path, maxBytes)
	}
	f, err := d.Open(path)
	if err != nil {
		return nil, time.Time{}, err
	}
	defer f.Close()
	whole := bytes.NewBuffer(make([]byte, 0, info.Size()+bytes.MinRead)) // not twice its size on the way
	if _, err := whole.ReadFrom(io.LimitReader(f, maxBytes+1)); err != nil {
		return nil, time.Time{}, err
	}
	data := whole.Bytes()
	if int64(len(data)) > maxBytes {
		return nil, time.Time{}, tooLarge(path, maxBytes)
	}
	if info, err = f.Stat(); err != nil {
		return nil, time.Time{}, err
	}
	return data, info.ModTime(), nil
}

func tooLarge(path string, maxBytes int64) error {
	return tooLargeFile.At(named(path), int(maxBytes>>20))
}
