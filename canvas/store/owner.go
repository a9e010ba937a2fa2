package store

import (
	"encoding/json"
	"os"
	"time"
)

// owner is the process that holds a lock or a session.
type owner struct {
	PID   int       `json:"pid"`
	Host  string    `json:"host"`
	Mark  string    `json:"process,omitempty"` // tells a process from a later one of the same number; empty: the system gives none
	Path  string    `json:"path,omitempty"`    // the plan's file
	Since time.Time `json:"since"`
}

func (s *Store) me(path string) owner {
	host, err := os.Hostname()
	if err != nil {
		host = ""
	}
	return owner{PID: os.Getpid(), Host: host, Mark: processMark(os.Getpid()), Path: path, Since: s.Now().UTC()}
}

// elsewhere reports whether o runs on another machine, where nobody here can tell
// whether it still does.
func (o owner) elsewhere() bool {
	host, err := os.Hostname()
	return err == nil && o.Host != host
}

// runs reports whether the process still does. One on another machine counts as
// running.
func (o owner) runs() bool {
	switch {
	case o.elsewhere():
		return true
	case o.PID <= 0:
		return false
	case o.Mark != "":
		return processMark(o.PID) == o.Mark
	}
	return processRuns(o.PID)
}

func (o owner) same(p owner) bool {
	return o.PID == p.PID && o.Host == p.Host && o.Mark == p.Mark && o.Path == p.Path && o.Since.Equal(p.Since)
}

func (o owner) bytes() []byte {
	data, err := json.Marshal(o)
	if err != nil { // texts, numbers and a time of this age always marshal
		return []byte("{}")
	}
	return append(data, '\n')
}

// readOwner reads an owner's file; ok is false if it is there and says nothing:
// it is being written, or was cut off.
func readOwner(d Disk, path string) (o owner, changed time.Time, ok bool, err error) {
	data, changed, err := readWhole(d, path, maxStateBytes)
	if err != nil {
		return owner{}, time.Time{}, false, err
	}
	ok = json.Unmarshal(data, &o) == nil && o.PID > 0
	return o, changed, ok, nil
}

// writeOwner makes an owner's file; it fails with fs.ErrExist if there is one.
// It is not synced: after a power cut nobody runs who is named in it.
func writeOwner(d Disk, path string, o owner) error {
	f, err := d.Create(path, privateFileMode)
	if err != nil {
		return err
	}
	_, err = f.Write(o.bytes())
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		_ = d.Remove(path)
	}
	return err
}
