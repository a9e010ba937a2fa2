package words

import (
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
)

// Cells are the verdict in three cells, always in this order: may we pull (that is
// [Words.Verdict]), what moves or fails first, and who stands where.
type Cells struct {
	First  string // what moves or fails first: "Winch vehicle sliding, 2.2 kN"
	Breaks string // what breaks or gives first, by low strengths against the highest stall
	People string // "1 in stand-off"; "none drawn"
}

// byItself are the findings of what moves without any pull.
var byItself = [...]string{"rolls-by-itself", "tips-by-itself", "vehicle-moves-by-itself"}

// Cells are the second and third cell of the verdict.
func (w *Words) Cells(a *solver.Assessment, n Names) Cells {
	if a == nil {
		a = &solver.Assessment{Status: part.Refused}
	}
	naming := w.Naming(a, n)
	return Cells{First: w.goesFirst(a, naming), Breaks: w.breaksFirst(a, naming), People: w.peopleCell(a.People)}
}

// goesFirst names what moves or fails first as the winch pulls to stall, or what moves
// without it.
func (w *Words) goesFirst(a *solver.Assessment, n Names) string {
	var all []string
	for i := range a.Findings {
		if f := &a.Findings[i]; slices.Contains(byItself[:], f.ID) && len(f.Things) > 0 {
			all = append(all, w.nameOf(string(f.Things[0]), n))
		}
	}
	if len(all) > 0 {
		return w.Label("first-by-itself", part.Text("what", w.List(all)))
	}
	if len(a.Order) == 0 {
		return w.Label("not-computed")
	}
	said := w.fails(a, &a.Order[0], n)
	if len(w.Undecided(a, n)) > 0 { // the next cell names it
		said += " " + w.Label("or-unknown")
	}
	return said
}

// breaksFirst names what breaks first; what slides or tips does not break.
func (w *Words) breaksFirst(a *solver.Assessment, n Names) string {
	i := slices.IndexFunc(a.Order, func(f solver.Failing) bool {
		k := a.Parts[f.Part].Kind
		return k != part.KindSlide && k != part.KindTip
	})
	if i < 0 {
		return w.Label("not-computed")
	}
	f := &a.Order[i]
	unknown := w.mayGive(a, n)
	switch beyond := f.Beyond && a.Stall.Known; {
	case len(unknown) == 1 && beyond:
		return w.Label("breaks-unknown-one", part.Text("part", unknown[0]))
	case len(unknown) > 0 && beyond:
		return w.Label("breaks-unknown", part.Count("count", len(unknown)))
	case len(unknown) > 0:
		return w.fails(a, f, n) + " " + w.Label("or-unknown")
	case !beyond:
		return w.fails(a, f, n)
	}
	return w.Label("breaks-none", part.Force("stall", a.Stall.Tension))
}

// fails is a part with the line tension at which it moves or fails.
func (w *Words) fails(a *solver.Assessment, f *solver.Failing, n Names) string {
	id := "fails-at"
	if f.Beyond {
		id = "fails-beyond"
	}
	return w.Label(id, part.Text("part", w.PartName(&a.Parts[f.Part], n)), part.Number("tension", part.UnitLimit, f.Tension))
}

// mayGive are the parts under load of which nobody knows what breaks them, and the things
// of which it is not decided whether they move.
func (w *Words) mayGive(a *solver.Assessment, n Names) []string {
	var all []string
	for _, i := range a.MayGive {
		all = append(all, w.PartName(&a.Parts[i], n))
	}
	for _, s := range w.Undecided(a, n) {
		if !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	return all
}

// peopleCell counts who stands where: in a zone where nobody stands, in the stand-off, where
// zones are missing, outside the drawn zones.
func (w *Words) peopleCell(people []solver.PersonAt) string {
	if len(people) == 0 {
		return w.Label("people-none-drawn")
	}
	var n [4]int
	for _, p := range people {
		switch {
		case slices.ContainsFunc(p.Inside, func(k part.ZoneKind) bool { return k != part.ZoneStandOff }):
			n[0]++
		case len(p.Inside) > 0:
			n[1]++
		case !p.Zoned || p.Partly:
			n[2]++
		default:
			n[3]++
		}
	}
	var all []string
	for i, id := range [...]string{"people-keep-out", "people-stand-off", "people-not-computed", "people-outside"} {
		if n[i] > 0 {
			all = append(all, w.Label(id, part.Count("count", n[i])))
		}
	}
	return strings.Join(all, ", ")
}

// CellsLine is the second and third cell as one line of text.
func (w *Words) CellsLine(a *solver.Assessment, n Names) string {
	c := w.Cells(a, n)
	return w.Label("cell-first") + " " + c.First + " · " + w.Label("cell-breaks") + " " + c.Breaks + " │ " + w.Label("cell-people") + " " + c.People
}
