package flat_test

import (
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"

	"kedge/solver/flat"
)

// The decoder is the judge: what is read here it reads alike, and what is not read here
// is left to it, right or wrong.
func TestNumbersAsTheDecoderReadsThem(t *testing.T) {
	for text, read := range map[string]bool{
		"0": true, "7": true, "-12": true, "0.917": true, "-1.50": true, "6.8e-05": true, "1e3": true, "0.3333333333333333": true, "999999999999999": true,
		"": false, "-": false, "-0": false, "+1": false, "01": false, "1.": false, ".5": false, "1_000": false, "0x10": false, "1e": false, "1e+3": false,
		"1E3": false, "1e999": false, "nan": false, "inf": false, "1 2": false, "1000000000000000": false,
	} {
		got, ok := flat.Number(text)
		assert.Equal(t, read, ok, text)
		if read {
			var want struct{ X float64 }
			_, err := toml.Decode("X = "+text, &want)
			assert.NoError(t, err, text)
			assert.Equal(t, want.X, got, text)
		}
	}
}

func TestLinesPairsAndTexts(t *testing.T) {
	row, rest, ok := flat.Line(" \ta = 1\t\r\nb")
	assert.Equal(t, []any{"a = 1", "b", true}, []any{row, rest, ok})
	row, rest, ok = flat.Line("# why\nb")
	assert.Equal(t, []any{"", "b", true}, []any{row, rest, ok})
	_, _, ok = flat.Line("# \x01\nb")
	assert.False(t, ok)

	name, value, ok := flat.Pair(`"a b"  =  "c" # d`)
	assert.Equal(t, []any{"a b", `"c" # d`, true}, []any{name, value, ok})
	for _, odd := range []string{"a", "a =", "a.b = 1", "'a' = 1", "= 1"} {
		_, _, ok := flat.Pair(odd)
		assert.False(t, ok, odd)
	}

	text, rest, ok := flat.Text(`"a \"b\" \\" , "c"`)
	assert.Equal(t, []any{`a "b" \`, `, "c"`, true}, []any{text, rest, ok})
	for _, odd := range []string{"", "a", `"a`, `"""a"""`, `"\u0041"`, "\"\t\"", "\"\xff\"", `"\`} {
		_, _, ok := flat.Text(odd)
		assert.False(t, ok, odd)
	}
}
