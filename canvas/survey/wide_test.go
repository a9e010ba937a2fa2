package survey_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/canvas/survey"
)

// A line of thousands of columns is refused before it is read: of three million
// the rows would take gigabytes.
func TestCSVOfEndlessColumnsIsRefused(t *testing.T) {
	for name, text := range map[string]string{
		"semicolons":      strings.Repeat(";", 3_000_000),
		"figures":         "x,y\n" + strings.Repeat("1,", 1001) + "1\n",
		"blanks":          "x y\n" + strings.Repeat("1 ", 1001) + "1\n",
		"in a later line": "x;y\n1;2\n" + strings.Repeat("1;", 1001),
	} {
		_, err := survey.Read("a.csv", []byte(text), survey.Options{})
		assert.ErrorIs(t, err, survey.ErrLimit, name)
	}
	_, err := survey.Read("a.csv", []byte("x;y\n1;2\n"+strings.Repeat(" ", 3000)+"3;4\n"), survey.Options{})
	assert.NoError(t, err, "blanks in a row part one column")
}
