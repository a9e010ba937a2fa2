package store_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// deadPID is the number of a process that has ended.
var deadPID = sync.OnceValue(func() int {
	c := exec.Command(os.Args[0], "-test.run=^$")
	if err := c.Run(); err != nil {
		return 0
	}
	return c.Process.Pid
})

// deadOwner is an owner's file with a process that no longer runs. What cannot
// be read stays as it is.
func deadOwner(t testing.TB, data []byte) []byte {
	t.Helper()
	require.Positive(t, deadPID())
	return changedOwner(t, data, func(o map[string]any) {
		o["pid"] = deadPID()
		delete(o, "process")
	})
}

func changedOwner(t testing.TB, data []byte, change func(map[string]any)) []byte {
	t.Helper()
	var o map[string]any
	if json.Unmarshal(data, &o) != nil {
		return data
	}
	change(o)
	out, err := json.Marshal(o)
	require.NoError(t, err)
	return out
}
