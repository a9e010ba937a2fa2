package window

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
	"kedge/solver/seeded"
)

// gone writes snapshots of two windows that have died since, the second damaged
// from its byte cut on, and returns the file of the first.
func gone(t *testing.T, s *seat, cut int64) string {
	t.Helper()
	file := filepath.Join(s.home, "moss.kedge")
	for _, title := range []string{"the older", "the newer"} {
		p := *seeded.Example(t, "redirect")
		p.Title = title
		require.NoError(t, s.store.NewSession(file, store.Stamp{}).Write(&p))
	}
	folders, err := filepath.Glob(filepath.Join(s.store.State, "recovery", "*"))
	require.NoError(t, err)
	for _, f := range folders {
		owner := filepath.Join(f, "owner.json")
		require.NoError(t, os.WriteFile(owner, []byte(`{"pid":0}`), 0o600))
	}
	require.NoError(t, os.Truncate(filepath.Join(folders[1], "plan.snapshot"), cut))
	return file
}

// One damaged snapshot hides none of the older ones, and a plan that was recovered
// is marked as open here.
func TestADamagedSnapshotHidesNoOther(t *testing.T) {
	for name, cut := range map[string]int64{"in its head": 20, "in its plan": 700} {
		t.Run(name, func(t *testing.T) {
			s := sitAt(t, 1300, 800, "")
			file := gone(t, s, cut)
			s.file.offerRecovery()
			require.NotNil(t, s.asking)
			if cut > 100 { // found out as it is opened
				s.keys("<Return>")
			}
			assert.NotEmpty(t, s.fault)
			require.NotNil(t, s.asking)
			s.keys("<Return>")
			assert.Equal(t, "the older", s.board.Plan().Title)
			_, err := s.store.Lock(file)
			assert.ErrorIs(t, err, store.ErrBusy)
		})
	}
}
