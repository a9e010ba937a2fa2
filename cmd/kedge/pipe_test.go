//go:build unix

package main

import (
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A pipe to which nobody writes is refused, not waited for.
func TestPipeIsRefused(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "p.kedge")
	require.NoError(t, syscall.Mkfifo(pipe, 0o600))
	var out, errs strings.Builder
	assert.Equal(t, statusRefused, run([]string{"check", pipe}, nil, &out, &errs))
	assert.Empty(t, out.String())
	assert.Contains(t, errs.String(), "p.kedge: it is no file but a pipe or device.")
}
