package store

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/rogpeppe/go-internal/lockedfile"
)

// Disk is what this package asks of a disk, one system call a method, so that
// tests can fail any of them and see their order. Paths are as package os takes
// them. OS is the real one.
type Disk interface {
	// Open opens the file at path for reading.
	Open(path string) (File, error)
	// Create makes the file at path, which must not exist, and opens it for
	// writing.
	Create(path string, mode fs.FileMode) (File, error)
	// Writable tells whether the existing file at path may be written, and
	// changes nothing of it.
	Writable(path string) error
	// Stat and ReadDir follow links.
	Stat(path string) (fs.FileInfo, error)
	ReadDir(path string) ([]fs.DirEntry, error)
	// Resolve is the place path leads to, all links followed; the last part of
	// it need not exist.
	Resolve(path string) (string, error)
	// Mkdir makes one folder, for its owner alone.
	Mkdir(path string) error
	// Link gives the file at old a second name.
	Link(old, path string) error
	// Rename replaces what is at path by the file at old, in one step.
	Rename(old, path string) error
	Remove(path string) error
	// SyncDir makes lasting what was made, renamed and removed in the folder.
	SyncDir(path string) error
	// Alone waits until nobody else is between Alone with that path and its end;
	// a process that is killed ends it too. The file at path is made, and stays.
	Alone(path string) (end func(), err error)
}

// File is an open file of a Disk.
type File interface {
	io.ReadWriteCloser
	// Sync makes lasting what was written.
	Sync() error
	Chmod(mode fs.FileMode) error
	Stat() (fs.FileInfo, error)
}

// errLinks is a link that leads to itself, or through far too many others.
var errLinks = errors.New("links without end")

// OS is the disk of the machine.
type OS struct{}

var _ Disk = OS{}

// Open opens a file for reading.
func (OS) Open(path string) (File, error) { return opened(os.Open(path)) }

// Create makes and opens a file that does not exist yet.
func (OS) Create(path string, mode fs.FileMode) (File, error) {
	return opened(os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode))
}

// opened keeps a nil file from becoming a File that is not nil.
func opened(f *os.File, err error) (File, error) {
	if err != nil {
		return nil, err
	}
	return f, nil
}

// Writable opens the file for writing and closes it again.
func (OS) Writable(path string) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	return f.Close()
}

// Stat describes a file.
func (OS) Stat(path string) (fs.FileInfo, error) { return os.Stat(path) }

// ReadDir lists a folder, sorted by name.
func (OS) ReadDir(path string) ([]fs.DirEntry, error) { return os.ReadDir(path) }

// maxLinks bounds a chain of links, as systems do themselves.
const maxLinks = 40

// Resolve follows links; the file at their end need not exist, its folder must.
func (OS) Resolve(path string) (string, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return "", err
	}
	for range maxLinks {
		folder, err := filepath.EvalSymlinks(filepath.Dir(path))
		if err != nil {
			return "", err
		}
		path = filepath.Join(folder, filepath.Base(path))
		info, err := os.Lstat(path)
		if err != nil || info.Mode()&fs.ModeSymlink == 0 {
			return path, nil // what is wrong with it, whoever opens it will say
		}
		target, err := os.Readlink(path)
		if err != nil {
			return "", err
		}
		if !filepath.IsAbs(target) {
			target = folder + string(filepath.Separator) + target
		}
		path = target
	}
	return "", &fs.PathError{Op: "resolve", Path: path, Err: errLinks}
}

// folderMode is that of the folders Kedge makes: plans may name people and
// places, so they are their owner's alone.
const folderMode = 0o700

// Mkdir makes one folder.
func (OS) Mkdir(path string) error { return os.Mkdir(path, folderMode) }

// Link makes a hard link.
func (OS) Link(old, path string) error { return os.Link(old, path) }

// Rename renames within one file system.
func (OS) Rename(old, path string) error { return os.Rename(old, path) }

// Remove removes a file or an empty folder.
func (OS) Remove(path string) error { return os.Remove(path) }

// Alone locks the file at path.
func (OS) Alone(path string) (func(), error) {
	if err := os.MkdirAll(filepath.Dir(path), folderMode); err != nil {
		return nil, err
	}
	return lockedfile.MutexAt(path).Lock()
}

// SyncDir syncs a folder, where the system can.
func (OS) SyncDir(path string) error { return syncDir(path) }
