package survey_test

import (
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/canvas/survey"
)

// What takes little in a file and much in memory, or nobody's time to read, is
// refused before it is read.
func TestWhatSwellsIsRefused(t *testing.T) {
	many := func(s string) string { return strings.Repeat(s, 600_000) }
	for name, text := range map[string]string{
		"attributes":   `<gpx ` + many(`a=">" `),
		"name":         `<gpx><wpt lat="1" lon="2"><name>` + many("aa"),
		"element":      `<gpx><` + many("aa"),
		"no features":  `{"type":"FeatureCollection","features":[` + many("{},") + `{}]}`,
		"positions":    `{"type":"LineString","coordinates":[` + many("[],") + `[1,2]]}`,
		"numbers":      `{"type":"Point","coordinates":[` + many("1,") + `1]}`,
		"nested":       `{"type":"Point","coordinates":` + strings.Repeat("[", 25) + strings.Repeat("]", 25) + `}`,
		"nested in it": strings.Repeat(`{"type":"GeometryCollection","geometries":[`, 13) + strings.Repeat("]}", 13),
	} {
		_, err := survey.Read("a", []byte(text), survey.Options{})
		assert.ErrorIs(t, err, survey.ErrLimit, name)
	}
	_, err := survey.Read("a", []byte(`{"type":"FeatureCollection","features":["[[[[[[[[[[[[[[[[[[[[[[[[[[[[\\"]}`), survey.Options{})
	assert.ErrorIs(t, err, survey.ErrFormat, "brackets in a text are none")
	_, err = survey.Read("a", []byte(`{"type":"FeatureCollection","features":[{"type":"Point"},0]}`), survey.Options{})
	assert.ErrorIs(t, err, survey.ErrFormat, "the first that is no feature ends it")
}

// What is read takes a few times its own bytes: a rune a byte, or all lines of a list
// at once, would take more.
func TestReadingTakesAFewTimesTheFile(t *testing.T) {
	const most = 8 // times the file, of all that is asked for and given back on the way
	letters := strings.Repeat("n", 900)
	for name, text := range map[string]string{
		"old letters": "x;y;n\n" + strings.Repeat("1;2;"+letters+"\xe4\n", 4000),
		"16 bits":     "\xff\xfe" + strings.Join(strings.Split("x;y;n\n"+strings.Repeat("1;2;"+letters+"\n", 2000), ""), "\x00") + "\x00",
		"no lines":    "x y n\n1 2 3\n" + strings.Repeat("\n", 4_000_000),
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		r, err := survey.Read("a", []byte(text), survey.Options{})
		runtime.ReadMemStats(&after)
		assert.NoError(t, err, name)
		assert.NotEmpty(t, r.Points, name)
		assert.Less(t, (after.TotalAlloc-before.TotalAlloc)/uint64(len(text)), uint64(most), name)
	}
}
