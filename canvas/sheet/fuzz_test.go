package sheet_test

import (
	"errors"
	"testing"

	"kedge/canvas/sheet"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
)

// FuzzMake makes one kind of sheet of whatever plan: it is refused
// by a sentence, or becomes pages that can be written.
func FuzzMake(f *testing.F) {
	kinds := sheet.Kinds()
	all := seeded.Inputs(f)
	for i := range kinds {
		f.Add(all[i%len(all)], byte(i))
	}
	w := english(f, quantity.Metric)
	f.Fuzz(func(t *testing.T, data []byte, kind byte) {
		p := seeded.Fuzzed(t, data)
		b, err := sheet.Make(p, sheet.Options{Sheets: []sheet.Kind{kinds[int(kind)%len(kinds)]}, Words: w, Variants: 1})
		if err != nil {
			var said interface{ Sentence() string }
			if !errors.As(err, &said) || said.Sentence() == "" {
				t.Fatalf("%v: no sentence", err)
			}
			return
		}
		if len(b.Pages) == 0 {
			t.Fatal("no page")
		}
		for i := range b.Pages {
			if _, err := b.SVG(i); err != nil {
				t.Fatal(err)
			}
		}
	})
}
