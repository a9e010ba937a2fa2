package main

import (
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

// FuzzClassNames reads whatever file as a class: each name can stand on a page, and
// the names, one a line, are read again as they are.
func FuzzClassNames(f *testing.F) {
	for _, s := range []string{"Ada Moor\nBen Sedge\n", "\ufeffAda, 7\r\nBen", "\"Moor, Ada\"\n\n \"\"", "a\x00", "\xff", "\"a\nb\"", ""} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		names, err := classNames("class.csv", data)
		if err != nil {
			return
		}
		var again strings.Builder
		for _, n := range names {
			if n == "" || n != strings.TrimSpace(n) || !utf8.ValidString(n) || strings.ContainsFunc(n, unicode.IsControl) {
				t.Fatalf("%q is no name", n)
			}
			again.WriteString(`"` + strings.ReplaceAll(n, `"`, `""`) + "\"\n")
		}
		if back, err := classNames("class.csv", []byte(again.String())); err != nil || !slices.Equal(back, names) {
			t.Fatalf("%q, and again %q, %v", names, back, err)
		}
	})
}
