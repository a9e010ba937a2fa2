package main

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The states are made by hand: four edits, a second apart, of a plan that starts
// without people at 5.5 m.
func TestHowOldTheOldestLostEditIs(t *testing.T) {
	at := func(s float64) time.Time { return time.Unix(1000, 0).Add(time.Duration(s * float64(time.Second))) }
	from := state{people: 0, steps: 55}
	edits := []edit{{at(1), state{0, 56}}, {at(2), state{1, 56}}, {at(3), state{1, 57}}, {at(4), state{1, 58}}}
	for _, c := range []struct {
		name string
		kept state
		want time.Duration
	}{
		{"nothing is kept", from, 5500 * time.Millisecond},
		{"the first is kept", state{0, 56}, 4500 * time.Millisecond},
		{"all but the last", state{1, 57}, 2500 * time.Millisecond},
		{"all", state{1, 58}, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := lost(from, c.kept, edits, at(6.5))
			require.NoError(t, err)
			assert.Equal(t, c.want, got)
		})
	}
	_, err := lost(from, state{2, 56}, edits, at(6.5))
	assert.ErrorContains(t, err, "which no edit", "a plan that never was")

	for behind, fine := range map[time.Duration]bool{0: true, 5 * time.Second: true, 5*time.Second + 1: false} {
		_, err := late(behind, nil)
		assert.Equal(t, fine, err == nil, "%v: five seconds are what the window promises", behind)
	}
}

// A snapshot cut off anywhere, or without what it should hold, is not taken for whole.
func TestWhatAKilledBoardLeavesIsReadWhole(t *testing.T) {
	text, err := os.ReadFile(filepath.Join("..", "..", example))
	require.NoError(t, err)
	_, err = stateOf(text)
	assert.ErrorContains(t, err, "the blanks", "the example's own exercise is the usual one")
	text, err = blanked(text)
	require.NoError(t, err)
	got, err := stateOf(text)
	require.NoError(t, err)
	assert.Equal(t, 55, got.steps, "the casualty of the example lies 5.5 m east")

	whole := append([]byte(`{"format":"kedge-snapshot","version":1}`+"\n"), text...)
	read := func(snapshot []byte) error {
		body, err := planOf(snapshot)
		if err == nil {
			_, err = stateOf(body)
		}
		return err
	}
	require.NoError(t, read(whole))
	for n := 0; n < len(whole); n += 97 {
		assert.Error(t, read(whole[:n]), "cut off after %d bytes", n)
	}
	assert.Error(t, read(text), "a plan without the snapshot's head")
	assert.Error(t, read(append([]byte(`{"format":"kedge-plan"}`+"\n"), text...)), "another file's head")
	for name, text := range map[string]string{
		"no vehicle":      `{"site":{},"rigs":[{"exercise":{"blanks":["B1","L1"]}}]}`,
		"no place":        `{"site":{"vehicles":[{}]},"rigs":[{"exercise":{"blanks":["B1","L1"]}}]}`,
		"a blank is gone": `{"site":{"vehicles":[{"at":{"x_m":5}}]},"rigs":[{"exercise":{"blanks":["B1"]}}]}`,
	} {
		_, err := stateOf([]byte(text))
		assert.Error(t, err, name)
	}
	for _, text := range []string{`[]`, `{}`, `{"rigs":[7]}`} {
		_, err := blanked([]byte(text))
		assert.Error(t, err, text)
	}
}
