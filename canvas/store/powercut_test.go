package store_test

import (
	"bytes"
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
	"kedge/solver/plan"
)

// onDisk is a store on d, with its own folders at places that do not exist yet.
func onDisk(d store.Disk) *store.Store {
	return &store.Store{Disk: d, App: "kedge", Config: "/home/config/kedge", State: "/home/state/kedge",
		Now: func() time.Time { return time.Date(2026, 5, 1, 12, 0, 0, 0, time.UTC) }}
}

// plain is a small plan: the states of a cut are looked at by the thousand.
func plain(title string) *plan.Plan {
	p := plan.New()
	p.Title = title
	return p
}

func bytesOf(t testing.TB, p *plan.Plan) []byte {
	t.Helper()
	q := *p
	q.App = "kedge"
	data, err := plan.FormatPlan(&q)
	require.NoError(t, err)
	return data
}

// saveTwice saves three generations to d; during the third and after it, every
// state a power cut could leave is looked at. It returns what was wrong with
// them.
func saveTwice(t *testing.T, d *memDisk) (faults []string) {
	const file = "/home/moss.kedge"
	generations := [][]byte{bytesOf(t, plain("one")), bytesOf(t, plain("two")), bytesOf(t, plain("three"))}
	which := func(data []byte, there bool) int {
		if !there {
			return -1
		}
		for i, g := range generations {
			if bytes.Equal(data, g) {
				return i + 1
			}
		}
		return 0 // none whole
	}
	blame := func(when string, file, previous int) {
		if f := fmt.Sprintf("%s: file %d, previous %d", when, file, previous); !slices.Contains(faults, f) {
			faults = append(faults, f)
		}
	}
	var stamp store.Stamp
	for i, title := range []string{"one", "two", "three"} {
		was, is := i, i+1
		d.after = func() {
			d.cuts(func(files map[string][]byte) {
				data, there := files[file]
				old, oldThere := files[file+"~"]
				f, p := which(data, there), which(old, oldThere)
				// Before: the generation was, or nothing at the very first.
				if f != is && f != was && !(was == 0 && f == -1) || f == 0 || p == 0 {
					blame("during save "+title, f, p)
				}
			})
		}
		var err error
		stamp, err = onDisk(d).Save(file, plain(title), stamp)
		require.NoError(t, err)
		d.after = nil
		d.cuts(func(files map[string][]byte) {
			data, there := files[file]
			old, oldThere := files[file+"~"]
			f, p := which(data, there), which(old, oldThere)
			if f != is || was > 0 && p != was {
				blame("after save "+title, f, p)
			}
		})
	}
	return faults
}

func TestSaveSurvivesAPowerCut(t *testing.T) {
	for _, noLinks := range []bool{false, true} {
		t.Run(fmt.Sprintf("no links %v", noLinks), func(t *testing.T) {
			d := newMemDisk("/home")
			d.noLinks = noLinks
			assert.Empty(t, saveTwice(t, d))
			syncs := d.syncs
			require.Positive(t, syncs)
			for k := 1; k <= syncs; k++ {
				d := newMemDisk("/home")
				d.noLinks, d.lose = noLinks, k
				assert.NotEmpty(t, saveTwice(t, d), "sync %d of %d could be taken out and nobody would notice", k, syncs)
			}
		})
	}
}

func TestSaveSyncsInOrder(t *testing.T) {
	d := newMemDisk("/home")
	stamp, err := onDisk(d).Save("/home/moss.kedge", plain("one"), store.Stamp{})
	require.NoError(t, err)
	d.ops = nil
	_, err = onDisk(d).Save("/home/moss.kedge", plain("two"), stamp)
	require.NoError(t, err)
	assert.Equal(t, []string{
		"create .moss.kedge new",
		"write .moss.kedge new",
		"sync .moss.kedge new", // before it gets the name
		"link moss.kedge .moss.kedge~ new",
		"rename .moss.kedge~ new moss.kedge~",
		"rename .moss.kedge new moss.kedge",
		"syncdir home",
	}, short(d.ops))
}

// keepSnapshots writes snapshots and then saves. During each and after it, every
// state a power cut could leave is looked at.
func keepSnapshots(t *testing.T, d *memDisk) (faults []string) {
	x := onDisk(d).NewSession("/home/moss.kedge", store.Stamp{})
	look := func(when string, allowed ...string) {
		d.cuts(func(files map[string][]byte) {
			if got := recovered(t, files); !slices.Contains(allowed, got) {
				if fault := when + " one could find " + got; !slices.Contains(faults, fault) {
					faults = append(faults, fault)
				}
			}
		})
	}
	was := "nothing"
	for _, now := range []string{"plan a on picture 1", "plan b on picture 1", "plan c on picture 2"} {
		title, picture, _ := strings.Cut(now, " on ")
		p := plain(title)
		p.Site.Underlay = &plan.Underlay{Type: "image/png", Bytes: []byte(picture), Metres: 0.01}
		d.after = func() { look("during "+now, was, now) }
		require.NoError(t, x.Write(p))
		d.after = nil
		look("after "+now, now)
		was = now
	}
	require.NoError(t, x.Saved("/home/moss.kedge", store.Stamp{}))
	look("after saving", "nothing")
	return faults
}

// recovered starts anew on what a cut has left, as another process, and tells
// what it finds.
func recovered(t *testing.T, files map[string][]byte) string {
	d := newMemDisk("/home", "/home/state", "/home/state/kedge", "/home/state/kedge/recovery")
	for _, name := range slices.Sorted(maps.Keys(files)) {
		d.names[path.Dir(name)] = &node{folder: true}
		data := files[name]
		if path.Base(name) == "owner.json" {
			data = deadOwner(t, data)
		}
		d.names[name] = &node{data: data, mode: 0o600}
	}
	s := onDisk(d)
	list, err := s.Recoverable()
	switch {
	case err != nil:
		return err.Error()
	case len(list) == 0:
		return "nothing"
	case len(list) > 1:
		return fmt.Sprintf("%d snapshots", len(list))
	case list[0].Fault != nil:
		return list[0].Fault.Error()
	}
	r, err := s.Recover(list[0])
	switch {
	case err != nil:
		return err.Error()
	case r.Note != nil:
		return r.Note.Error()
	}
	return r.Plan.Title + " on " + string(r.Plan.Site.Underlay.Bytes)
}

func TestSnapshotSurvivesAPowerCut(t *testing.T) {
	d := newMemDisk("/home")
	assert.Empty(t, keepSnapshots(t, d))
	syncs := d.syncs
	require.Positive(t, syncs)
	for k := 1; k <= syncs; k++ {
		d := newMemDisk("/home")
		d.lose = k
		assert.NotEmpty(t, keepSnapshots(t, d), "sync %d of %d could be taken out and nobody would notice", k, syncs)
	}
}
