package store_test

import (
	"errors"
	"path/filepath"
	"strconv"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
)

// Of several windows that save one plan at once, one does; the others are told
// that it changed, and nothing is lost that somebody was told is saved.
func TestSavingAtOnceLosesNothing(t *testing.T) {
	const windows, rounds = 8, 25
	file := filepath.Join(t.TempDir(), "moss.kedge")
	s := own(t)
	last, err := s.Save(file, titled(example(t), "0"), store.Stamp{})
	require.NoError(t, err)
	for round := range rounds {
		stamps, errs := make([]store.Stamp, windows), make([]error, windows)
		start := make(chan bool)
		var wg sync.WaitGroup
		for i := range windows {
			p := titled(example(t), strconv.Itoa(round*windows+i+1))
			wg.Go(func() {
				<-start
				stamps[i], errs[i] = s.Save(file, p, last)
			})
		}
		close(start)
		wg.Wait()
		saved := 0
		for i, err := range errs {
			if err == nil {
				saved++
				last = stamps[i]
				continue
			}
			changed := (*store.Changed)(nil)
			assert.True(t, errors.As(err, &changed), "%v", err)
		}
		require.Equal(t, 1, saved, "round %d", round)
		now, err := s.Current(file)
		require.NoError(t, err)
		require.True(t, now.Same(last))
	}
}
