package store

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"time"

	"kedge/solver/plan"
)

const (
	snapshotFormat  = "kedge-snapshot"
	snapshotVersion = 1
	maxHeadBytes    = 64 << 10 // a path and a title, however long
)

// snapshotHead is the first line of a snapshot; the plan without the bytes of
// its underlay follows, as in a `.kedge` file.
type snapshotHead struct {
	Format   string   `json:"format"`
	Version  int      `json:"version"`
	Path     string   `json:"path,omitempty"`
	Title    string   `json:"title,omitempty"`
	Size     int64    `json:"file_size,omitempty"` // of the plan's file as last read or written
	Hash     string   `json:"file_sha256,omitempty"`
	Underlay string   `json:"underlay_sha256,omitempty"`
	Photos   []string `json:"photos_sha256,omitempty"` // of each picture of evidence; empty: it has no bytes
	Order    int64    `json:"order,omitempty"`         // counts up over all sessions: clocks are set back
}

func (h snapshotHead) join(p *plan.Plan) ([]byte, error) {
	body, err := plan.FormatPlan(p)
	if err != nil {
		return nil, err
	}
	head, err := json.Marshal(h)
	if err != nil {
		return nil, err
	}
	return slices.Concat(head, []byte{'\n'}, body), nil
}

// Snapshot is a plan that was open when its window died.
type Snapshot struct {
	Title string    // of the plan; empty: it has none
	Path  string    // the plan's file; empty: it was never saved
	Time  time.Time // when the snapshot was taken
	Host  string    // the machine it was open on, and may still be; empty: this one
	Fault error     // why it cannot be read; nil: it can

	folder string
	order  int64
}

// Recoverable lists the snapshots of windows that no longer run, newest first.
// Sessions that left nothing are removed on the way.
func (s *Store) Recoverable() ([]Snapshot, error) {
	all := filepath.Join(s.State, recoveryFolder)
	entries, err := s.Disk.ReadDir(all)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, explain(reading, all, err)
	}
	var found []Snapshot
	for _, e := range entries {
		if !e.IsDir() {
			continue
		}
		if snap, ok := s.dead(filepath.Join(all, e.Name())); ok {
			found = append(found, snap)
		}
	}
	slices.SortStableFunc(found, func(a, b Snapshot) int { return cmp.Or(cmp.Compare(b.order, a.order), b.Time.Compare(a.Time)) })
	return found, nil
}

// dead is the snapshot in a session's folder, if its window is gone and left
// one.
func (s *Store) dead(folder string) (Snapshot, bool) {
	o, _, known, err := readOwner(s.Disk, filepath.Join(folder, ownerName))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return Snapshot{}, false
	}
	if known && o.runs() && !o.elsewhere() {
		return Snapshot{}, false
	}
	path := filepath.Join(folder, snapshotName)
	info, err := s.Disk.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		if known && !o.elsewhere() || !known && s.old(folder) {
			_ = removeSession(s.Disk, folder) // tried again at the next start
		}
		return Snapshot{}, false
	}
	snap := Snapshot{folder: folder, Path: o.Path}
	if o.elsewhere() {
		snap.Host = o.Host
	}
	if err != nil {
		snap.Fault = explain(reading, path, err)
		return snap, true
	}
	snap.Time = info.ModTime()
	head, err := s.readHead(path)
	if err != nil {
		snap.Fault = err
		return snap, true
	}
	snap.Title, snap.Path, snap.order = head.Title, head.Path, head.Order
	return snap, true
}

// nextOrder is one more than the order of any snapshot there is. One that cannot
// be read counts for nothing.
func (s *Store) nextOrder() int64 {
	all := filepath.Join(s.State, recoveryFolder)
	entries, err := s.Disk.ReadDir(all)
	if err != nil {
		return 1
	}
	var last int64
	for _, e := range entries {
		if head, err := s.readHead(filepath.Join(all, e.Name(), snapshotName)); err == nil {
			last = max(last, head.Order)
		}
	}
	return last + 1
}

// old reports whether a folder was last changed too long ago to be just being made.
func (s *Store) old(folder string) bool {
	info, err := s.Disk.Stat(folder)
	return err == nil && !s.fresh(info.ModTime())
}

func (s *Store) readHead(path string) (snapshotHead, error) {
	f, err := s.Disk.Open(path)
	if err != nil {
		return snapshotHead{}, explain(reading, path, err)
	}
	defer f.Close()
	buf := make([]byte, maxHeadBytes)
	n := 0
	for n < len(buf) && !bytes.ContainsRune(buf[:n], '\n') {
		m, err := f.Read(buf[n:])
		n += m
		if err != nil {
			break // a line cut short is found out below
		}
	}
	head, _, err := splitSnapshot(path, buf[:n])
	return head, err
}

// splitSnapshot parts the head of a snapshot from its plan.
func splitSnapshot(path string, data []byte) (snapshotHead, []byte, error) {
	line, body, whole := bytes.Cut(data, []byte{'\n'})
	var head snapshotHead
	if err := json.Unmarshal(line, &head); err != nil || !whole || head.Format != snapshotFormat {
		return snapshotHead{}, nil, snapshotDamaged.At(named(path)).Because(err)
	}
	if head.Version != snapshotVersion {
		return snapshotHead{}, nil, snapshotOther.At(named(path))
	}
	return head, body, nil
}

// Recovered is what a snapshot holds.
type Recovered struct {
	Plan  *plan.Plan
	Path  string // the plan's file; empty: it was never saved
	Stamp Stamp  // of that file when the snapshot's window last read or wrote it
	Note  error  // what is missing, to be said; nil: nothing is
}

// Recover reads a snapshot and leaves it where it is: write one of the new
// session's own before Discard.
func (s *Store) Recover(snap Snapshot) (Recovered, error) {
	head, body, err := s.readSnapshot(snap)
	if err != nil {
		return Recovered{}, err
	}
	p, err := plan.ParsePlan(body)
	if err != nil {
		return Recovered{}, notAPlan(filepath.Join(snap.folder, snapshotName), err)
	}
	r := Recovered{Plan: p, Path: head.Path}
	if sum, err := hex.DecodeString(head.Hash); err == nil && len(sum) == sha256.Size {
		r.Stamp = Stamp{Size: head.Size, Hash: [sha256.Size]byte(sum), there: true}
	}
	read := func(hash string) ([]byte, bool) {
		picture, _, err := readWhole(s.Disk, filepath.Join(snap.folder, underlayName+hash), plan.MaxUnderlayBytes)
		return picture, err == nil && hashOf(picture) == hash
	}
	for i, hash := range head.Photos { // fresh from ParsePlan: nobody else has it yet
		if i >= len(p.Photos) || hash == "" {
			continue
		}
		if picture, whole := read(hash); whole {
			p.Photos[i].Bytes = picture
		} else { // its file and hash are still known
			r.Note = photoLost.At("")
		}
	}
	if head.Underlay == "" || p.Site.Underlay == nil {
		return r, nil
	}
	picture, whole := read(head.Underlay)
	if !whole {
		r.Note = pictureLost.At("")
		q := *p
		q.Site.Underlay = nil
		r.Plan = plan.KeepPhotos(p, &q) // evidence may name it
		return r, nil
	}
	p.Site.Underlay.Bytes = picture
	return r, nil
}

// Discard removes a snapshot for good, and older ones of the same plan in the same
// state: those of windows of this machine that died as they took it over.
func (s *Store) Discard(snap Snapshot) error {
	if snap.folder == "" {
		return nil
	}
	all := append([]Snapshot{snap}, s.heldBy(snap)...)
	slices.Reverse(all) // the oldest first: a fault leaves the newest
	for _, old := range all {
		if err := removeSession(s.Disk, old.folder); err != nil {
			return err
		}
	}
	return nil
}

// heldBy are the other snapshots of windows of this machine that hold nothing which a
// snapshot does not.
func (s *Store) heldBy(snap Snapshot) (all []Snapshot) {
	head, body, err := s.readSnapshot(snap)
	if err != nil || !s.hasPictures(snap, head) {
		return nil
	}
	list, _ := s.Recoverable() // what cannot be listed stays
	for _, other := range list {
		if other.folder == snap.folder || other.Host != "" || other.Path != head.Path {
			continue
		}
		otherHead, otherBody, err := s.readSnapshot(other)
		if err == nil && otherHead.Underlay == head.Underlay && slices.Equal(otherHead.Photos, head.Photos) && bytes.Equal(otherBody, body) {
			all = append(all, other)
		}
	}
	return all
}

// hasPictures reports whether the pictures that a snapshot names are there.
func (s *Store) hasPictures(snap Snapshot, head snapshotHead) bool {
	return !slices.ContainsFunc(append([]string{head.Underlay}, head.Photos...), func(hash string) bool {
		if hash == "" {
			return false
		}
		_, err := s.Disk.Stat(filepath.Join(snap.folder, underlayName+hash))
		return err != nil
	})
}

func (s *Store) readSnapshot(snap Snapshot) (snapshotHead, []byte, error) {
	path := filepath.Join(snap.folder, snapshotName)
	data, _, err := readWhole(s.Disk, path, plan.MaxBytes+maxHeadBytes)
	if err != nil {
		return snapshotHead{}, nil, explain(reading, path, err)
	}
	return splitSnapshot(path, data)
}
