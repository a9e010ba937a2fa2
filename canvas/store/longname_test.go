package store_test

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
)

// A name is as long as the system takes, less the mark of the generation before:
// 254 bytes of 255.
func TestLongNamesAreSaved(t *testing.T) {
	for _, letter := range []string{"m", "ö"} {
		s, folder := own(t), t.TempDir()
		const most = 254 - len(".kedge")
		name := strings.Repeat(letter, most/len(letter)) + ".kedge"
		file := filepath.Join(folder, name)
		stamp, err := s.Save(file, titled(example(t), "1"), store.Stamp{})
		require.NoError(t, err)
		_, err = s.Save(file, titled(example(t), "2"), stamp)
		require.NoError(t, err)
		assert.ElementsMatch(t, []string{name, name + "~"}, names(t, folder))
	}
}
