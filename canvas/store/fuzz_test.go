package store_test

import (
	"errors"
	"path"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
	"kedge/solver/plan"
)

// inMemory is a store on a disk in memory, and that disk.
func inMemory() (*store.Store, *memDisk) {
	d := newMemDisk("/home", "/home/state", "/home/state/kedge", "/home/state/kedge/recovery", "/home/state/kedge/recovery/1", "/home/config")
	s := onDisk(d)
	s.Config = "/home/config"
	return s, d
}

// FuzzSnapshot recovers whatever lies where a dead window's snapshot would: it is
// refused by a sentence, or is a plan that can be kept.
func FuzzSnapshot(f *testing.F) {
	s, d := inMemory()
	require.NoError(f, s.NewSession("/home/moss.kedge", store.Stamp{}).Write(example(f)))
	for name, n := range d.names {
		if path.Base(name) == "plan.snapshot" {
			f.Add(n.data)
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		s, d := inMemory()
		d.names["/home/state/kedge/recovery/1/plan.snapshot"] = &node{data: data, mode: 0o600}
		list, err := s.Recoverable()
		require.NoError(t, err)
		require.Len(t, list, 1)
		r, err := s.Recover(list[0])
		if err != nil {
			require.NotEmpty(t, said(t, err))
			return
		}
		require.NoError(t, list[0].Fault)
		_, err = plan.FormatPlan(r.Plan)
		require.NoError(t, err)
	})
}

// FuzzRecent reads whatever lies where the list of recent plans would: a plan put on
// it afterwards heads it.
func FuzzRecent(f *testing.F) {
	f.Add([]byte(`[{"path":"/home/moss.kedge","title":"Curlew Moss","opened":"2026-05-04T09:30:00Z"}]`))
	f.Add([]byte(`[{"path":""},null]`))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, d := inMemory()
		d.names["/home/state/kedge/recent.json"] = &node{data: data, mode: 0o600}
		list, err := s.Recent()
		assert.LessOrEqual(t, len(list), store.MaxRecent)
		if err != nil {
			require.NotEmpty(t, said(t, err))
		}
		require.NoError(t, s.AddRecent("/home/fen.kedge", "Fen"))
		list, err = s.Recent()
		require.NoError(t, err)
		require.NotEmpty(t, list)
		assert.Equal(t, "Fen", list[0].Title)
	})
}

// FuzzPreferences reads whatever lies where the preferences would: they can be used,
// kept, and are then read as they were.
func FuzzPreferences(f *testing.F) {
	f.Add([]byte("theme = \"dark\"\ntext_percent = 125\n[panel_shares]\nlist = 0.3\n"))
	f.Add([]byte("theme = \"mauve\"\nwindow_width_px = -1\n[panel_shares]\nlist = nan\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, d := inMemory()
		d.names[s.PreferencesPath()] = &node{data: data, mode: 0o600}
		p, err := s.Preferences()
		if err != nil {
			require.NotEmpty(t, said(t, err))
		}
		require.NoError(t, s.SavePreferences(p))
		again, err := s.Preferences()
		require.NoError(t, err)
		if len(p.Panels) == 0 { // none and an empty list are the same
			p.Panels, again.Panels = nil, nil
		}
		assert.Equal(t, p, again)
	})
}

// FuzzLock locks a plan where whatever lies there would be a window's mark: it is
// locked, or busy, and can be taken.
func FuzzLock(f *testing.F) {
	s, d := inMemory()
	_, err := s.Lock("/home/moss.kedge")
	require.NoError(f, err)
	var file string
	for name, n := range d.names {
		if path.Ext(name) == ".lock" {
			file = name
			f.Add(n.data)
		}
	}
	require.NotEmpty(f, file)
	f.Add([]byte(`{"pid":2147483647,"host":"","since":"2026-05-04T09:30:00Z"}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		s, d := inMemory()
		require.NoError(t, d.Mkdir("/home/state/kedge/locks"))
		d.names[file] = &node{data: data, mode: 0o600, time: time.Unix(0, 0)}
		l, err := s.Lock("/home/moss.kedge")
		if err != nil {
			var busy *store.Busy
			require.True(t, errors.As(err, &busy), "%v", err)
			require.NotEmpty(t, said(t, err))
			l, err = s.TakeLock("/home/moss.kedge")
			require.NoError(t, err)
		}
		assert.True(t, l.Held())
	})
}
