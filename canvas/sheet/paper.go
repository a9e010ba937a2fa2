package sheet

import (
	"slices"
	"strings"

	"kedge/solver/refusal"
)

// Paper is a size of paper, upright, mm.
type Paper struct {
	Name string
	W, H float64
}

// The sizes of paper. ISO 216 for the A sizes, ANSI/ASME Y14.1 for the others.
var (
	A4      = Paper{"A4", 210, 297}
	A3      = Paper{"A3", 297, 420}
	A2      = Paper{"A2", 420, 594}
	Letter  = Paper{"Letter", 215.9, 279.4}
	Tabloid = Paper{"Tabloid", 279.4, 431.8}
)

// Papers are all sizes, the usual one first.
func Papers() []Paper { return []Paper{A4, A3, A2, Letter, Tabloid} }

// PaperByName is the size of that name in any case; the error lists them.
func PaperByName(name string) (Paper, error) {
	all := Papers()
	for _, p := range all {
		if strings.EqualFold(p.Name, name) {
			return p, nil
		}
	}
	names := make([]string, len(all))
	for i, p := range all {
		names[i] = p.Name
	}
	return Paper{}, noPaper.At("", refusal.Clip(name, mostShown), strings.Join(names, ", "))
}

// Margins of the drawing frame, mm: the wide one is for binding. (ISO 5457)
const (
	bindingMargin = 20.0
	otherMargin   = 10.0
)

// scales are the reducing scales of ISO 5455 a plan can be drawn in, 1 : n.
var scales = []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000}

// Scales are the n of all scales 1 : n that [Options.Scale] may ask for.
func Scales() []float64 { return slices.Clone(scales) }

// largestScale is the smallest n of the scales 1 : n at which a box of the plan
// fits into w by h mm, false if none does.
func largestScale(wM, hM, w, h float64) (n float64, ok bool) {
	for _, n := range scales {
		if wM*mmPerM/n <= w && hM*mmPerM/n <= h {
			return n, true
		}
	}
	return 0, false
}

const mmPerM = 1000.0
