package facts_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/facts"
)

// A list of brackets takes the decoder's stack, and with it the program; one of dots or
// braces takes it minutes.
func TestAListOfBracketsOrDotsIsRefusedUnread(t *testing.T) {
	many := func(s string) string { return strings.Repeat(s, 400_000) }
	for name, text := range map[string]string{
		"brackets":          "a=" + many("["),
		"closed brackets":   "a=" + many("[") + many("]"),
		"inline tables":     "a=" + many("{a="),
		"dots":              "a" + many(".a") + "=1",
		"head of dots":      "[a" + many(".a") + "]",
		"items":             many("[[item]]\n"),
		"items in a line":   "item=[" + many("{},") + "]",
		"keys":              many("k=1\n"),
		"behind a text":     `a=["it's",` + many("["),
		"behind a long one": `a=["""x"""",` + many("["),
		"behind an escape":  `a=["\"",` + many("["),
		"behind a literal":  `a=['\',` + many("["),
		"behind a comment":  "# \"\n" + `a=[` + many("["),
		"a quoted name":     `a."b".` + many(`"c".`) + "=1",
	} {
		_, err := facts.ParseGear("own", []byte(text))
		assert.ErrorContains(t, err, "facts: own: shape", name)
	}
}

// As many items as there may be, with more keys each than any kind has, and whatever
// signs in their texts, are read.
func TestALongListIsRead(t *testing.T) {
	var b strings.Builder
	for i := range 5000 {
		fmt.Fprintf(&b, "[[item]] # piece [[[[[[[[[[\nid = \"sling-m%d\"\nkind = \"sling\"\ntitle = \"[[[[[[[[[[ .......... {{{{{{{{{{\"\nlength = \"3.5 m\"\nrating = \"3 t\"\nnote = '''\n[[[[[[[[[[[[[[[[[['''\n", i)
	}
	items, err := facts.ParseGear("own", []byte(b.String()))
	assert.NoError(t, err)
	assert.Len(t, items, 5000)
}
