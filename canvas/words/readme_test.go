package words

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/quantity"
)

// The README says what is not checked in the words of the program, all of them and
// no other.
func TestTheREADMESaysWhatIsNotChecked(t *testing.T) {
	var said []string
	for line := range strings.Lines(readmeSection(t, "What is not checked")) {
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

// The README's words are those of the glossary, all of them and no other.
func TestTheREADMEsWordsAreTheGlossary(t *testing.T) {
	var said []string
	for line := range strings.Lines(readmeSection(t, "A few words")) {
		if strings.HasPrefix(line, "| ") {
			said = append(said, strings.TrimSpace(line))
		}
	}
	want := []string{"| word | what it is | also called |"}
	for _, e := range english(t, quantity.Metric).Glossary() {
		want = append(want, "| "+e.Name+" | "+e.Is+" | "+strings.Join(e.Also, ", ")+" |")
	}
	assert.Equal(t, want, said)
}

// Every picture that the README shows is there.
func TestTheREADMEsPicturesAreThere(t *testing.T) {
	page, err := os.ReadFile(readmeFile)
	require.NoError(t, err)
	shown := regexp.MustCompile(`\]\((assets/[a-z]+\.png)\)`).FindAllStringSubmatch(string(page), -1)
	assert.Len(t, shown, 3, "the board, a sheet, an exercise")
	for _, m := range shown {
		assert.FileExists(t, filepath.Join("..", "..", m[1]))
	}
}

var readmeFile = filepath.Join("..", "..", "README.md")

// readmeSection is what stands under a head of the README.
func readmeSection(t *testing.T, head string) string {
	page, err := os.ReadFile(readmeFile)
	require.NoError(t, err)
	_, section, ok := strings.Cut(string(page), "\n## "+head+"\n")
	require.True(t, ok, head)
	section, _, _ = strings.Cut(section, "\n## ")
	return section
}
