package words

import (
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
)

// Reason says why a part was refused or not computed, as its tag and its row
// do: what the finding says that the part names, by preference one about the
// part's own thing. Empty if no reason is named.
func (w *Words) Reason(a *solver.Assessment, p *part.Part, n Names) string {
	if p.Why == "" {
		return ""
	}
	best := -1
	for i := range a.Findings {
		f := &a.Findings[i]
		if f.ID != p.Why {
			continue
		}
		if slices.Contains(f.Things, p.Thing) || slices.Contains(f.Parts, p.ID) {
			best = i
			break
		}
		if best < 0 {
			best = i
		}
	}
	if best < 0 {
		return w.Word(p.Why)
	}
	what, _ := w.Finding(a.Findings[best], w.Naming(a, n))
	return strings.TrimSuffix(what, ".")
}
