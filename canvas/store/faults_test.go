package store_test

import (
	"fmt"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
	"kedge/solver/plan"
)

// faultyCall is a call of the store that is made with each of its steps failing in turn.
type faultyCall struct {
	before func(t *testing.T, s *store.Store, file string)       // on a disk that works
	call   func(s *store.Store, file string, p *plan.Plan) error // on one that fails
	after  func(t *testing.T, s *store.Store, file string)       // what must be whole afterwards, whatever failed
	steps  int                                                   // there are more than that
}

func faultyCalls() map[string]faultyCall {
	light, dark := store.DefaultPreferences(), store.DefaultPreferences()
	light.Theme, dark.Theme = store.ThemeLight, store.ThemeDark
	return map[string]faultyCall{
		"load": {
			call: func(s *store.Store, file string, _ *plan.Plan) error {
				got, stamp, err := s.Load(file)
				if err != nil && (got != nil || !stamp.IsZero()) {
					return fmt.Errorf("a plan with an error")
				}
				return err
			},
			after: func(t *testing.T, _ *store.Store, file string) { assert.Equal(t, "one", titleOf(t, file)) },
			steps: 3,
		},
		"snapshot": {
			call: func(s *store.Store, file string, p *plan.Plan) error {
				return s.NewSession(file, store.Stamp{}).Write(p)
			},
			after: func(t *testing.T, s *store.Store, file string) {
				list, err := s.Recoverable()
				assert.NoError(t, err)
				assert.Empty(t, list, "its window is alive")
				assert.NoError(t, s.NewSession(file, store.Stamp{}).Write(example(t)), "the next is written")
			},
			steps: 10,
		},
		"lock": {
			call: func(s *store.Store, file string, _ *plan.Plan) error {
				l, err := s.Lock(file)
				if err == nil && l.Held() {
					return l.Release()
				}
				return err
			},
			after: func(t *testing.T, s *store.Store, file string) {
				l, err := s.TakeLock(file)
				require.NoError(t, err, "a person can go on")
				assert.True(t, l.Held())
				assert.NoError(t, l.Release())
			},
			steps: 4,
		},
		"preferences": {
			before: func(t *testing.T, s *store.Store, _ string) { require.NoError(t, s.SavePreferences(light)) },
			call:   func(s *store.Store, _ string, _ *plan.Plan) error { return s.SavePreferences(dark) },
			after: func(t *testing.T, s *store.Store, _ string) {
				got, err := s.Preferences()
				assert.NoError(t, err)
				assert.Contains(t, []string{store.ThemeLight, store.ThemeDark}, got.Theme, "the old or the new ones, whole")
			},
			steps: 8,
		},
		"preferences read": {
			before: func(t *testing.T, s *store.Store, _ string) { require.NoError(t, s.SavePreferences(light)) },
			call: func(s *store.Store, _ string, _ *plan.Plan) error {
				got, err := s.Preferences()
				if err != nil && got.Theme != store.DefaultPreferences().Theme {
					return fmt.Errorf("half of the preferences with an error")
				}
				return err
			},
			after: func(t *testing.T, s *store.Store, _ string) {
				got, err := s.Preferences()
				assert.NoError(t, err)
				assert.Equal(t, store.ThemeLight, got.Theme)
			},
			steps: 3,
		},
	}
}

// Every step of every call fails once, and it with all that follow, with every error a
// disk has. Whatever fails is told with its cause, in a sentence, and what was there
// before is whole.
func TestEveryStepOfEveryCallFails(t *testing.T) {
	p := example(t)
	causes := []error{syscall.EIO, syscall.ENOSPC, syscall.EROFS, syscall.EACCES, syscall.EPERM}
	if testing.Short() {
		causes = causes[:2]
	}
	for name, c := range faultyCalls() {
		for _, cause := range causes {
			for _, forever := range []bool{false, true} {
				t.Run(fmt.Sprintf("%s %v forever %v", name, cause, forever), func(t *testing.T) {
					at := 1
					for c.fails(t, p, newFaulty(at, forever, cause)) {
						at++
					}
					assert.Greater(t, at, c.steps, "there are more steps than that to fail")
				})
			}
		}
	}
}

// fails makes the call on a disk; false: none of its steps failed.
func (c faultyCall) fails(t *testing.T, p *plan.Plan, d faulty) bool {
	s := own(t)
	file := filepath.Join(t.TempDir(), "moss.kedge")
	_, err := store.Save(file, titled(p, "one"), store.Stamp{})
	require.NoError(t, err)
	if c.before != nil {
		c.before(t, s, file)
	}
	ill := *s
	ill.Disk = d
	err = c.call(&ill, file, titled(p, "two"))
	what := strings.Join(*d.failed, ", ")
	if what == "" {
		require.NoError(t, err)
		return false
	}
	if err != nil {
		assert.ErrorIs(t, err, d.err, what)
		assert.Regexp(t, `^[^:]+: .+\. .+\.$`, said(t, err), "what, where, what to do: %s", what)
	}
	c.after(t, s, file)
	return true
}
