package sheet_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
	"kedge/canvas/words"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// freeTexts are the members in which anything may be written.
var freeTexts = []string{"Name", "Title", "Caption", "School", "Author", "Approver", "Date", "Number", "Text"}

// renamed gives every text of a plan in which anything may be written, and
// returns how many there were.
func renamed(v reflect.Value, text string) (n int) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			n += renamed(v.Elem(), text)
		}
	case reflect.Slice:
		for i := range v.Len() {
			n += renamed(v.Index(i), text)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			f, of := v.Field(i), v.Type().Field(i)
			if f.Kind() == reflect.String && slices.Contains(freeTexts, of.Name) {
				f.SetString(text)
				n++
			} else if f.CanSet() {
				n += renamed(f, text)
			}
		}
	}
	return n
}

// A word that is wider than any column is cut, on every sheet, upright or not,
// and nothing is written off the paper.
func TestNamesWithoutABlankAreSet(t *testing.T) {
	for _, text := range []string{strings.Repeat("W", 96), strings.Repeat("Ω", 500), "a  b   "} {
		p := example(t, "redirect")
		p.Site.People = append(p.Site.People, plan.Person{Head: plan.Head{ID: "person-9"}, Role: plan.RoleBystander})
		require.Greater(t, renamed(reflect.ValueOf(p), text), 10)
		for lang, landscape := range map[string]bool{"en": false, "de": true} {
			w, err := words.New(lang, quantity.Metric)
			require.NoError(t, err)
			b, err := sheet.Make(p, sheet.Options{Sheets: everything(), Words: w, Landscape: landscape})
			require.NoError(t, err, "%.8q", text)
			for _, g := range b.Pages {
				for _, m := range textsOf(g) {
					if m.y0 < 0 || m.y1 > g.H {
						t.Errorf("%s: %.20q at %.0f of %.0f mm", g.Name, m.text, m.y1, g.H)
					}
				}
			}
		}
	}
}
