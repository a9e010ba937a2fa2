package walls

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const root = "../.."

func TestTheTreeKeepsItsWalls(t *testing.T) {
	g, err := Load(root)
	require.NoError(t, err)
	require.Contains(t, g.Ours, "internal/walls", "the graph is the project's own")
	require.Contains(t, g.Others, "github.com/stretchr/testify/assert", "and reaches into other modules")
	for _, sentence := range g.Violations() {
		t.Error(sentence)
	}
}

func TestTheFilesKeepTheirRules(t *testing.T) {
	names, err := Tracked(root)
	require.NoError(t, err)
	require.Contains(t, names, "go.mod")
	found, err := FileViolations(root, names)
	require.NoError(t, err)
	for _, sentence := range found {
		t.Error(sentence)
	}
}

func TestEachExceptionIsWithinOneLevelAndHasAReason(t *testing.T) {
	for pair, reason := range sameLevel {
		assert.NotZero(t, levels[pair[0]], pair[0])
		assert.Equal(t, levels[pair[0]], levels[pair[1]], pair)
		assert.NotEmpty(t, reason, pair)
		assert.Empty(t, sameLevel[[2]string{pair[1], pair[0]}], "both ways would be a circle")
	}
}
