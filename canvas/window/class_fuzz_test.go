package window

import (
	"slices"
	"strings"
	"testing"
	"unicode/utf8"
)

// FuzzNamesIn reads whatever text as a class: each name can stand on a page, and the
// names, one a line, are read again as they are.
func FuzzNamesIn(f *testing.F) {
	for _, s := range []string{"Ada Moor\nBen Sedge\n", "\ufeffAda\t7\r\nBen\rCy", "a\x00", "\xff", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, list string) {
		names, err := namesIn(list)
		if err != nil {
			return
		}
		for _, n := range names {
			if n == "" || n != strings.TrimSpace(n) || !utf8.ValidString(n) || strings.ContainsAny(n, "\r\n\t\x00") {
				t.Fatalf("%q is no name", n)
			}
		}
		if back, err := namesIn(strings.Join(names, "\n")); err != nil || !slices.Equal(back, names) {
			t.Fatalf("%q, and again %q, %v", names, back, err)
		}
	})
}
