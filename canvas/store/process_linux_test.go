//go:build !race

package store

import (
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A process that ended and was not waited for has no mark: its lock holds
// nobody back, and its snapshot may be offered.
func TestEndedProcessThatNobodyWaitedForHasNoMark(t *testing.T) {
	c := exec.Command("sleep", "60")
	require.NoError(t, c.Start())
	require.NotEmpty(t, processMark(c.Process.Pid))
	require.NoError(t, c.Process.Kill())
	defer func() { _ = c.Wait() }()
	require.Eventually(t, func() bool { return processMark(c.Process.Pid) == "" }, 10*time.Second, 10*time.Millisecond)
}
