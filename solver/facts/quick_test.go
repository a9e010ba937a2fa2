package facts

import (
	"io/fs"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
)

// The decoder is the judge of what a file says.
func TestBuiltInRowsArePlainAndReadAsTheDecoderReadsThem(t *testing.T) {
	names, err := fs.Glob(assets.Facts(), "*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, name := range names {
		data, err := fs.ReadFile(assets.Facts(), name)
		require.NoError(t, err)
		var want fileTOML
		require.NoError(t, decodeStrict(name, data, &want))
		got, ok := quick(string(data))
		if assert.True(t, ok, "%s: is not plain, so it costs every command milliseconds: one figure or text a line, texts in double quotes, tables a row a line, comments on lines of their own", name) {
			assert.Equal(t, want.Row, got, name)
		}
	}
}

// odd are rows the decoder may take, or refuse: quick leaves all to it.
var odd = []string{
	"", "# nothing", "[[row]]\nid = 'a'", "[[row]]\nid = \"a\" # why", "[[row]]\nid = \"a\"\nid = \"b\"", "id = \"a\"", "[[ row ]]\nid = \"a\"",
	"[[row]]\nvalu = 1", "[[row]]\nvalue = 1e+3", "[[row]]\nvalue = 1e", "[[row]]\nvalue = 1E3", "[[row]]\nvalue = 1e999", "[[row]]\nvalue = -0.0", "[[row]]\nvalue = 01", "[[row]]\nvalue = 1_000", "[[row]]\nvalue = +1", "[[row]]\nvalue = nan", "[[row]]\nvalue = 1.", "[[row]]\nvalue = -0", "[[row]]\nvalue = \"1\"",
	"[[row]]\ndefault = false", "[[row]]\nid = 1", "[[row]]\nid =", "[[row]]\ncolumns = []", "[[row]]\ncolumns = [\"a\" \"b\"]", "[[row]]\ncolumns = [\"a\",]", "[[row]]\ncolumns = \"a\"",
	"[[row]]\ntable = [[1, 2]]", "[[row]]\ntable = [\n]", "[[row]]\ntable = [\n[1, 2]\n[3, 4]\n]", "[[row]]\ntable = [\n[1, 2,],\n]", "[[row]]\ntable = [\n[1, 2],", "[[row]]\ntable = [\n1, 2,\n]", "[[row]]\ntable = [\n[1],\n] # why",
}

func TestRowsThatAreNotPlainAreLeftToTheDecoder(t *testing.T) {
	for _, text := range odd {
		_, ok := quick(text)
		assert.False(t, ok, text)
	}
}

func FuzzQuick(f *testing.F) {
	for _, s := range odd {
		f.Add(s)
	}
	f.Add("[[row]]\r\nid = \"a.\\\"b\"\n\n  value = -1.50\t\nlow = 6.8e-05\n# c\n[[row]]\ncolumns = [ \"a,\" , \"b]\"]\ntable = [\n\t[1, -2.5],\n# c\n\n[ 30,4]\n]\ndefault = true")
	f.Fuzz(func(t *testing.T, text string) {
		got, ok := quick(text)
		if !ok {
			return
		}
		var want fileTOML
		require.NoError(t, decodeStrict("x.toml", []byte(text), &want), "%q", text)
		assert.Equal(t, want.Row, got, "%q", text)
	})
}
