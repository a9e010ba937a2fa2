package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is listed is, byte for byte, what kedge check says of the plan taken.
func TestWaysAndCheckSayTheSame(t *testing.T) {
	const plan = "../../assets/plans/straight.kedge"
	taken := filepath.Join(t.TempDir(), "taken.kedge")
	out, errs, status := call(t, "", "ways", "--json", "-o", taken, plan)
	require.Empty(t, errs)
	require.Equal(t, statusDone, status)
	var listed struct {
		Ways []struct {
			Name string
			Line float64 `json:"line_m"`
			Rig  json.RawMessage
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &listed))
	require.Len(t, listed.Ways, 1)
	out, errs, _ = call(t, "", "check", "--at", "0", "--json", "--rig", "R2", taken)
	require.Empty(t, errs)
	var checked struct{ Rigs []json.RawMessage }
	require.NoError(t, json.Unmarshal([]byte(out), &checked))
	require.Len(t, checked.Rigs, 1)
	assert.JSONEq(t, string(checked.Rigs[0]), string(listed.Ways[0].Rig))
	var rig struct {
		Lines []struct {
			Out float64 `json:"out_m"`
		}
		Stretches []struct {
			Length float64 `json:"length_m"`
		}
	}
	require.NoError(t, json.Unmarshal(checked.Rigs[0], &rig))
	require.Len(t, rig.Lines, 1)
	assert.Equal(t, rig.Lines[0].Out, listed.Ways[0].Line)
	require.Len(t, rig.Stretches, 2) // storyboard A, step 15, within 1 %
	assert.InEpsilon(t, 12.48, rig.Stretches[0].Length, 0.01)
	assert.InEpsilon(t, 18.54, rig.Stretches[1].Length, 0.01)
	before, err := os.ReadFile(plan)
	require.NoError(t, err)
	again, _, _ := call(t, string(before), "ways", "--json", "-")
	first, _, _ := call(t, "", "ways", "--json", plan)
	assert.Equal(t, first, again, "the same plan gives the same bytes")
}
