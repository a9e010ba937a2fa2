package store

import (
	"encoding/hex"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"

	"kedge/solver/plan"
	"kedge/solver/refusal"
)

const (
	recoveryFolder = "recovery"
	ownerName      = "owner.json"
	snapshotName   = "plan.snapshot"
	underlayName   = "underlay-" // and the hash of the picture
	maxSessions    = 100_000
)

// Session keeps snapshots of one open plan in Kedge's own folder, so that what
// was not saved survives a crash or a power cut. It never touches the user's
// file. Its methods may be called by several goroutines. The zero value is of no
// use, see NewSession.
type Session struct {
	store *Store

	mu     sync.Mutex
	folder string // empty: nothing was written yet
	path   string // the plan's file; empty: it has none
	stamp  Stamp
	closed bool
}

// NewSession starts the session of a plan whose file is at path, as it was when
// stamp was taken; both are zero for a plan without a file. Nothing is written
// before the first snapshot.
func (s *Store) NewSession(path string, stamp Stamp) *Session {
	return &Session{store: s, path: absolute(path), stamp: stamp}
}

func absolute(path string) string {
	if path == "" {
		return ""
	}
	if abs, err := filepath.Abs(path); err == nil {
		return abs
	}
	return path
}

// Write keeps p as the snapshot, in place of the one before. When it returns
// without an error the snapshot survives a power cut. The underlay's picture is
// written once, and again only when it is another one.
func (x *Session) Write(p *plan.Plan) error {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.closed || p == nil {
		return noOpenPlan.At(named(x.path))
	}
	if err := x.write(p); err != nil {
		return x.lost(err)
	}
	return nil
}

// lost is why there is no new snapshot, told of the user's file: the names in
// Kedge's own folder say nothing to anybody.
func (x *Session) lost(err error) error {
	why, kind := err, noSnapshot
	if in := (*refusal.Error)(nil); errors.As(err, &in) {
		kind.Err = in.Err
		nameless := *in
		nameless.Where, why = "", &nameless
	}
	return kind.At(named(x.path), why).Because(err)
}

func (x *Session) write(p *plan.Plan) error {
	if err := x.begin(); err != nil {
		return err
	}
	head := snapshotHead{Format: snapshotFormat, Version: snapshotVersion, Path: x.path, Title: p.Title, Order: x.store.nextOrder()}
	if x.stamp.there {
		head.Size, head.Hash = x.stamp.Size, hex.EncodeToString(x.stamp.Hash[:])
	}
	bare, picture := withoutPicture(p)
	keep := func(picture []byte) (hash string, err error) {
		if len(picture) > 0 {
			hash = hashOf(picture)
			err = x.keepPicture(underlayName+hash, picture)
		}
		return hash, err
	}
	var err error
	if head.Underlay, err = keep(picture); err != nil {
		return err
	}
	for i := range p.Photos {
		hash, err := keep(p.Photos[i].Bytes)
		if err != nil {
			return err
		}
		head.Photos = append(head.Photos, hash)
	}
	data, err := head.join(bare)
	if err != nil {
		return notAPlan(x.path, err)
	}
	if _, err := x.store.keep(filepath.Join(x.folder, snapshotName), data, false); err != nil {
		return err
	}
	x.dropPictures(append(head.Photos, head.Underlay))
	return nil
}

// withoutPicture is p with the bytes of its underlay, which come back, and of its other
// pictures taken out.
func withoutPicture(p *plan.Plan) (*plan.Plan, []byte) {
	bare := *p
	bare.Photos = slices.Clone(p.Photos)
	for i := range bare.Photos {
		bare.Photos[i].Bytes = nil
	}
	if p.Site.Underlay == nil || len(p.Site.Underlay.Bytes) == 0 {
		return &bare, nil
	}
	underlay := *p.Site.Underlay
	picture := underlay.Bytes
	underlay.Bytes = nil
	bare.Site.Underlay = &underlay
	return &bare, picture
}

// begin makes the session's folder, once, and says whose it is.
func (x *Session) begin() error {
	if x.folder != "" {
		return nil
	}
	d, all := x.store.Disk, filepath.Join(x.store.State, recoveryFolder)
	if err := makeFolder(d, all); err != nil {
		return err
	}
	for n := range maxSessions {
		folder := filepath.Join(all, strconv.Itoa(os.Getpid())+"-"+strconv.Itoa(n))
		err := d.Mkdir(folder)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return explain(writing, folder, err)
		}
		if err = writeOwner(d, filepath.Join(folder, ownerName), x.store.me(x.path)); err == nil {
			err = d.SyncDir(all)
		}
		if err != nil {
			_ = removeSession(d, folder) // or each further try would leave one
			return explain(writing, folder, err)
		}
		x.folder = folder
		return nil
	}
	return manySnapshots.At(named(all), all)
}

func (x *Session) keepPicture(name string, picture []byte) error {
	path := filepath.Join(x.folder, name)
	if info, err := x.store.Disk.Stat(path); err == nil && info.Size() == int64(len(picture)) {
		return nil // a file under its name is whole: it got the name when it was
	}
	_, err := x.store.keep(path, picture, false)
	return err
}

// dropPictures removes the pictures that the snapshot does not name. Faults are
// left: they cost room alone.
func (x *Session) dropPictures(but []string) {
	entries, err := x.store.Disk.ReadDir(x.folder)
	if err != nil {
		return
	}
	for _, e := range entries {
		if hash, ok := strings.CutPrefix(e.Name(), underlayName); ok && !slices.Contains(but, hash) {
			_ = x.store.Disk.Remove(filepath.Join(x.folder, e.Name()))
		}
	}
}

// Saved tells that the plan was saved to path: its snapshot is dropped, and the
// next one belongs to that file.
func (x *Session) Saved(path string, stamp Stamp) error {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.path, x.stamp = absolute(path), stamp
	if x.folder == "" {
		return nil
	}
	return dropSnapshot(x.store.Disk, x.folder)
}

// Close removes the session and its snapshot: the plan was closed on purpose. A
// second call does nothing.
func (x *Session) Close() error {
	x.mu.Lock()
	defer x.mu.Unlock()
	x.closed = true
	if x.folder == "" {
		return nil
	}
	folder := x.folder
	x.folder = ""
	return removeSession(x.store.Disk, folder)
}

func dropSnapshot(d Disk, folder string) error {
	path := filepath.Join(folder, snapshotName)
	if err := d.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return explain(writing, path, err)
	}
	if err := d.SyncDir(folder); err != nil {
		return explain(writing, path, err)
	}
	return nil
}

// removeSession removes the folder of a session: the snapshot first, so that
// what a fault leaves is no snapshot.
func removeSession(d Disk, folder string) error {
	if err := dropSnapshot(d, folder); err != nil {
		return err
	}
	entries, err := d.ReadDir(folder)
	for _, e := range entries {
		if err == nil {
			err = d.Remove(filepath.Join(folder, e.Name()))
		}
	}
	if err == nil {
		err = d.Remove(folder)
	}
	if err != nil {
		return explain(writing, folder, err)
	}
	return nil
}
