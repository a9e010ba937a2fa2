package words

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/quantity"
)

// The README says what is not checked in the words of the program, all of them and
// no other.
func TestTheREADMESaysWhatIsNotChecked(t *testing.T) {
	page, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	require.NoError(t, err)
	_, section, ok := strings.Cut(string(page), "\n## What is not checked\n")
	require.True(t, ok)
	section, _, _ = strings.Cut(section, "\n## ")
	var said []string
	for line := range strings.Lines(section) {
		if item, ok := strings.CutPrefix(line, "* "); ok {
			said = append(said, strings.ToLower(strings.TrimSuffix(strings.TrimSpace(item), ".")))
		}
	}
	var want []string
	for _, item := range english(t, quantity.Metric).NotChecked() {
		want = append(want, strings.ToLower(item))
	}
	assert.Equal(t, want, said)
}
