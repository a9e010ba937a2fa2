package store_test

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"syscall"
	"time"

	"kedge/canvas/store"
)

// memDisk is a disk in memory with the memory of a bad one: until its folder is
// synced, a name may lead to anything it led to since the last sync, or to
// nothing; until a file is synced, its bytes may be missing in whole or from the
// middle on. Real file systems lose less.
type memDisk struct {
	names   map[string]*node   // as a running process sees them
	history map[string][]*node // what a name may be after a power cut; nil node: nothing
	ops     []string           // what was done, in order: "sync a.kedge"
	after   func()             // called after every step that changes something
	noLinks bool
	syncs   int // syncs seen so far
	lose    int // number of the sync, from 1, that does nothing; 0: none
	ticks   int
}

type node struct {
	folder bool
	data   []byte // as a running process sees it
	lasts  []byte // what surely survives
	synced bool   // data and lasts agree
	mode   fs.FileMode
	time   time.Time
}

func newMemDisk(folders ...string) *memDisk {
	d := &memDisk{names: map[string]*node{}, history: map[string][]*node{}}
	for _, f := range append([]string{"/"}, folders...) {
		n := &node{folder: true, synced: true}
		d.names[f], d.history[f] = n, []*node{n}
	}
	return d
}

func (d *memDisk) did(op string) {
	d.ops = append(d.ops, op)
	if d.after != nil {
		d.after()
	}
}

func (d *memDisk) set(name string, n *node) {
	if n == nil {
		delete(d.names, name)
	} else {
		d.names[name] = n
	}
	if len(d.history[name]) == 0 {
		d.history[name] = []*node{nil}
	}
	d.history[name] = append(d.history[name], n)
}

// syncCounts reports whether this sync is to be believed.
func (d *memDisk) syncCounts() bool {
	d.syncs++
	return d.syncs != d.lose
}

func pathError(op, name string, err error) error {
	return &fs.PathError{Op: op, Path: name, Err: err}
}

func (d *memDisk) find(op, name string) (*node, error) {
	if n := d.names[name]; n != nil {
		return n, nil
	}
	return nil, pathError(op, name, syscall.ENOENT)
}

func (d *memDisk) Open(name string) (store.File, error) {
	n, err := d.find("open", name)
	if err != nil {
		return nil, err
	}
	return &memFile{disk: d, name: name, node: n, reader: bytes.NewReader(n.data)}, nil
}

func (d *memDisk) Create(name string, mode fs.FileMode) (store.File, error) {
	if _, err := d.find("create", path.Dir(name)); err != nil {
		return nil, err
	}
	if d.names[name] != nil {
		return nil, pathError("create", name, syscall.EEXIST)
	}
	d.ticks++
	n := &node{mode: mode, synced: true, time: time.Unix(int64(d.ticks), 0)}
	d.set(name, n)
	d.did("create " + path.Base(name))
	return &memFile{disk: d, name: name, node: n}, nil
}

func (d *memDisk) Writable(name string) error {
	_, err := d.find("open", name)
	return err
}

func (d *memDisk) Stat(name string) (fs.FileInfo, error) {
	n, err := d.find("stat", name)
	return memInfo{name, n}, err
}

func (d *memDisk) ReadDir(name string) ([]fs.DirEntry, error) {
	if _, err := d.find("readdir", name); err != nil {
		return nil, err
	}
	var list []fs.DirEntry
	for _, k := range slices.Sorted(maps.Keys(d.names)) {
		if path.Dir(k) == name && k != name {
			list = append(list, fs.FileInfoToDirEntry(memInfo{k, d.names[k]}))
		}
	}
	return list, nil
}

func (d *memDisk) Resolve(name string) (string, error) { return name, nil }

func (d *memDisk) Mkdir(name string) error {
	if _, err := d.find("mkdir", path.Dir(name)); err != nil {
		return err
	}
	if d.names[name] != nil {
		return pathError("mkdir", name, syscall.EEXIST)
	}
	d.set(name, &node{folder: true, synced: true})
	d.did("mkdir " + path.Base(name))
	return nil
}

func (d *memDisk) Link(old, name string) error {
	n, err := d.find("link", old)
	switch {
	case err != nil:
		return err
	case d.noLinks:
		return pathError("link", name, syscall.EPERM)
	case d.names[name] != nil:
		return pathError("link", name, syscall.EEXIST)
	}
	d.set(name, n)
	d.did("link " + path.Base(old) + " " + path.Base(name))
	return nil
}

func (d *memDisk) Rename(old, name string) error {
	n, err := d.find("rename", old)
	if err != nil {
		return err
	}
	if d.names[name] != n { // of one file under two names POSIX makes nothing
		d.set(name, n)
		d.set(old, nil)
	}
	d.did("rename " + path.Base(old) + " " + path.Base(name))
	return nil
}

func (d *memDisk) Remove(name string) error {
	if _, err := d.find("remove", name); err != nil {
		return err
	}
	for k := range d.names {
		if path.Dir(k) == name && k != name {
			return pathError("remove", name, syscall.ENOTEMPTY)
		}
	}
	d.set(name, nil)
	d.did("remove " + path.Base(name))
	return nil
}

func (d *memDisk) Alone(string) (func(), error) { return func() {}, nil }

func (d *memDisk) SyncDir(name string) error {
	if _, err := d.find("sync", name); err != nil {
		return err
	}
	if d.syncCounts() {
		for k := range d.history {
			if path.Dir(k) == name {
				d.history[k] = []*node{d.names[k]}
			}
		}
	}
	d.did("syncdir " + path.Base(name))
	return nil
}

// cuts calls look with every state of the disk that a power cut now could
// leave: each name by itself one of what it may be, each file whole, cut in the
// middle, or empty if it was not synced. look gets the bytes by name.
func (d *memDisk) cuts(look func(files map[string][]byte)) {
	names := slices.Sorted(maps.Keys(d.history))
	files, folders := map[string][]byte{}, map[string]bool{}
	var walk func(i int)
	walk = func(i int) {
		if i == len(names) {
			look(files)
			return
		}
		name := names[i]
		for j, n := range d.history[name] {
			if slices.Index(d.history[name], n) < j {
				continue // had it already
			}
			switch {
			case n == nil || name != "/" && !folders[path.Dir(name)]:
				walk(i + 1)
			case n.folder:
				folders[name] = true
				walk(i + 1)
				delete(folders, name)
			default:
				states := [][]byte{n.data}
				if !n.synced {
					states = append(states, n.lasts, n.data[:len(n.data)/2])
				}
				for _, s := range states {
					files[name] = s
					walk(i + 1)
				}
				delete(files, name)
			}
		}
	}
	walk(0)
}

type memFile struct {
	disk   *memDisk
	name   string
	node   *node
	reader *bytes.Reader
	closed bool
}

func (f *memFile) Read(p []byte) (int, error) {
	if f.reader == nil {
		return 0, errors.New("not open for reading")
	}
	return f.reader.Read(p)
}

func (f *memFile) Write(p []byte) (int, error) {
	if f.reader != nil || f.closed {
		return 0, io.ErrClosedPipe
	}
	f.node.data = append(f.node.data, p...)
	f.node.synced = false
	f.disk.did("write " + path.Base(f.name))
	return len(p), nil
}

func (f *memFile) Sync() error {
	if f.disk.syncCounts() {
		f.node.lasts, f.node.synced = slices.Clone(f.node.data), true
	}
	f.disk.did("sync " + path.Base(f.name))
	return nil
}

func (f *memFile) Chmod(mode fs.FileMode) error { f.node.mode = mode; return nil }

func (f *memFile) Stat() (fs.FileInfo, error) { return memInfo{f.name, f.node}, nil }

func (f *memFile) Close() error {
	if f.closed {
		return fs.ErrClosed
	}
	f.closed = true
	return nil
}

type memInfo struct {
	name string
	node *node
}

func (i memInfo) Name() string { return path.Base(i.name) }
func (i memInfo) Size() int64  { return int64(len(i.node.data)) }
func (i memInfo) Mode() fs.FileMode {
	if i.node.folder {
		return fs.ModeDir | 0o700
	}
	return i.node.mode
}
func (i memInfo) ModTime() time.Time { return i.node.time }
func (i memInfo) IsDir() bool        { return i.node.folder }
func (i memInfo) Sys() any           { return nil }

// short takes the counting and the mark out of the names of half-written files.
func short(ops []string) []string {
	out := make([]string, len(ops))
	for i, op := range ops {
		out[i] = strings.ReplaceAll(op, ".kedge-new-0", " new")
	}
	return out
}
