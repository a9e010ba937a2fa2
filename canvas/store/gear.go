package store

import (
	"errors"
	"io/fs"
	"path/filepath"

	"kedge/solver/facts"
	"kedge/solver/refusal"
)

// GearPath is the user's own gear list.
func (s *Store) GearPath() string { return filepath.Join(s.Config, "gear.toml") }

// GearList is the built-in gear list and behind it the user's own, if there is
// one. With an error, whose sentence is for the status line, it is the built-in
// list alone: of an own list with a fault nothing is taken, lest a tag be read
// by halves.
func (s *Store) GearList() ([]facts.GearItem, error) {
	list, err := facts.StarterGear()
	if err != nil {
		return nil, starterGear.At("").Because(err)
	}
	path := s.GearPath()
	data, _, err := readWhole(s.Disk, path, maxGearBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return list, nil
	case err != nil:
		return list, explain(reading, path, err)
	}
	own, err := facts.ParseGear(base(path), data)
	if err == nil {
		var all []facts.GearItem
		if all, err = facts.AddGear(list, own); err == nil {
			return all, nil
		}
	}
	why := err
	if in := (*refusal.Error)(nil); errors.As(err, &in) {
		nameless := *in
		nameless.Where, why = "", &nameless
	}
	return list, ownGear.At(named(path), why, path).Because(err)
}
