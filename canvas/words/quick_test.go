package words

import (
	"io/fs"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
)

func sorted(lines []line) []line {
	lines = slices.Clone(lines)
	slices.SortFunc(lines, func(a, b line) int { return strings.Compare(a.key.String(), b.key.String()) })
	return lines
}

// The decoder is the judge of what a file says.
func TestBuiltInFilesArePlainAndReadAsTheDecoderReadsThem(t *testing.T) {
	names, err := fs.Glob(assets.Words(), "*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, name := range names {
		data, err := fs.ReadFile(assets.Words(), name)
		require.NoError(t, err)
		want, err := decode(name, data)
		require.NoError(t, err)
		got, ok := quick(string(data))
		if !assert.True(t, ok, "%s: is not plain, so it costs every command a few milliseconds: one text a line, in double quotes, comments on lines of their own", name) {
			continue
		}
		assert.Equal(t, sorted(want), sorted(got), name)
	}
}

func TestWhatIsNotPlainIsLeftToTheDecoder(t *testing.T) {
	for _, text := range []string{
		"[label]\nx = 'a'", "[label]\nx = \"\"\"\na\"\"\"", "[label]\nx = \"a\" # why", "[label]\na.b = \"c\"", "[label", "label.x = \"a\"",
		"[label]\nx = \"a\\u0041\"", "[label]\nx = \"a", "[nothing]\n", "[label]\n[label]\n", "[finding]\n", "[finding.\"a b\"]\n", "[finding.x]\nwhy = \"a\"", "[label]\nx\n", "[label]\nx =",
	} {
		_, ok := quick(text)
		assert.False(t, ok, text)
	}
}

func FuzzQuick(f *testing.F) {
	for _, s := range []string{"[label]\nx = \"a\"\n", "[finding.x]\nwhat = \"a {b}\"\ndo = \"c\"", "# c\n[label]\n\"a b\" = \"\\\"c\\\"\"\r\n", "[basis]\nx=\"\"\n[note]\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, ok := quick(text)
		if !ok {
			return
		}
		keys := map[key]bool{}
		for _, l := range got {
			if keys[l.key] {
				return // refused by add, as the decoder refuses it
			}
			keys[l.key] = true
		}
		want, err := decode("x.toml", []byte(text))
		if err != nil && strings.Contains(err.Error(), "has not both") {
			return // refused by add
		}
		require.NoError(t, err, "%q", text)
		assert.Equal(t, sorted(want), sorted(got), "%q", text)
	})
}
