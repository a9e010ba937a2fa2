package store

import (
	"encoding/json"
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"time"
)

// MaxRecent is how many recent plans are listed: one start page without
// scrolling.
const MaxRecent = 12

// RecentPlan is a plan that was opened or saved before.
type RecentPlan struct {
	Path    string    `json:"path"`
	Title   string    `json:"title,omitempty"`
	Opened  time.Time `json:"opened"`
	Missing bool      `json:"-"` // there is no such file just now
}

func (s *Store) recentPath() string { return filepath.Join(s.State, "recent.json") }

// Recent lists the plans opened or saved last, newest first, at most MaxRecent.
// With an error the list is what could be read, often nothing.
func (s *Store) Recent() ([]RecentPlan, error) {
	list, err := s.readRecent()
	for i := range list {
		info, e := s.Disk.Stat(list[i].Path)
		list[i].Missing = e != nil || info.IsDir()
	}
	return list, err
}

func (s *Store) readRecent() ([]RecentPlan, error) {
	path := s.recentPath()
	data, _, err := readWhole(s.Disk, path, maxStateBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, explain(reading, path, err)
	}
	var list []RecentPlan
	if err := json.Unmarshal(data, &list); err != nil {
		return nil, recentDamaged.At(named(path)).Because(err)
	}
	list = slices.DeleteFunc(list, func(r RecentPlan) bool { return r.Path == "" })
	return list[:min(len(list), MaxRecent)], nil
}

// AddRecent puts a plan at the head of the list. Two windows that do so at the
// same moment may lose one of the two entries, never the list.
func (s *Store) AddRecent(path, title string) error {
	path = absolute(path)
	list, _ := s.readRecent() // a damaged list begins anew
	list = slices.DeleteFunc(list, func(r RecentPlan) bool { return r.Path == path })
	list = slices.Insert(list, 0, RecentPlan{Path: path, Title: title, Opened: s.Now().UTC()})
	return s.writeRecent(list)
}

// ForgetRecent takes a plan off the list.
func (s *Store) ForgetRecent(path string) error {
	list, err := s.readRecent()
	if err != nil {
		return err
	}
	path = absolute(path)
	return s.writeRecent(slices.DeleteFunc(list, func(r RecentPlan) bool { return r.Path == path }))
}

func (s *Store) writeRecent(list []RecentPlan) error {
	data, err := json.MarshalIndent(list[:min(len(list), MaxRecent)], "", "  ")
	if err != nil {
		return recentNotWritten.At(named(s.recentPath())).Because(err)
	}
	_, err = s.keep(s.recentPath(), append(data, '\n'), false)
	return err
}
