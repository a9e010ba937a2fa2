package words

import (
	"slices"
	"strings"

	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Way is what a way round is called: "Over Tree 1", "Doubled over Tree 1, end at
// Winch vehicle". n names the things of the site.
func (w *Words) Way(kind string, over []plan.ID, end plan.ID, n Names) string {
	id := "way-" + kind
	var values []part.Value
	for i, name := range []string{"first", "second"} {
		if i < len(over) {
			values = append(values, part.Text(name, n.of(over[i])))
		}
	}
	switch len(over) {
	case 0:
	case 1:
		id += "-over"
	default:
		id += "-over-two"
	}
	return w.Label(id, append(values, part.Text("end", n.of(end)))...)
}

// WhyNoWay says why a rig is no way: every reason with its figures, without a full
// stop. n names the things of the site.
func (w *Words) WhyNoWay(l *layout.Left, n Names) string {
	if l.Plan != nil { // the reasons may be about its blocks
		n = w.Names(l.Plan, l.Rig)
	}
	var all []string
	for i := range l.Reasons {
		all = append(all, wayReason(w, &l.Reasons[i], n))
	}
	return strings.Join(all, "; ")
}

func wayReason(w *Words, r *layout.Reason, n Names) string {
	if f := r.Finding; f != nil {
		what, _ := w.Finding(*f, n)
		return strings.TrimSuffix(what, ".")
	}
	id := "way-out-" + r.ID
	if r.ID == layout.ReasonNear && w.sameLengths(r.Values) { // never "passes 1.0 m, needs 1.0 m"
		id += "-fine"
	}
	return w.Label(id, append([]part.Value{part.Text("thing", n.of(r.Thing)), part.Count("most", layout.MaxTried)}, r.Values...)...)
}

// sameLengths reports whether two lengths print alike with one decimal.
func (w *Words) sameLengths(values []part.Value) bool {
	return len(values) == 2 && w.Length(quantity.Length(values[0].X)) == w.Length(quantity.Length(values[1].X))
}

// WayFindings is how many findings a way has, by level: "1 DANGER, 3 WARNING".
func (w *Words) WayFindings(found [4]int) string {
	var all []string
	for l := part.Danger; l >= part.Notice; l-- {
		if k := found[l]; k > 0 {
			all = append(all, w.Label("way-found", part.Count("count", k), part.Text("level", w.Level(l))))
		}
	}
	if len(all) == 0 {
		return w.Label("way-found-none")
	}
	return strings.Join(all, ", ")
}

// NoWay is the sentence in place of a list of ways that is empty: what is needed.
// Empty if there are ways.
func (w *Words) NoWay(p *layout.Proposal) string {
	switch {
	case len(p.Ways) > 0:
		return ""
	case p.Why != "":
		return w.Label("ways-why-" + p.Why)
	case !slices.ContainsFunc(p.Left, func(l layout.Left) bool { return len(l.Over) > 0 }):
		return w.Label("ways-none-anchor")
	}
	return w.Label("ways-none", part.Length("want", layout.WantClear))
}

// WaysRest says what a list of ways does not show: ways behind its last, rigs
// that were not tried, and what the judging leaves open.
func (w *Words) WaysRest(p *layout.Proposal) []string {
	var all []string
	if p.More > 0 {
		all = append(all, w.Label("ways-more", part.Count("count", p.More)))
	}
	if p.Untried > 0 {
		all = append(all, w.Label("ways-untried", part.Count("count", p.Untried), part.Count("tried", p.Tried)))
	}
	id := "ways-followed"
	switch {
	case p.Why != "":
		return all
	case p.WayOut <= 0:
		id = "ways-as-drawn"
	}
	return append(all, w.Label(id, part.Length("want", layout.WantClear), part.Length("way", p.WayOut)))
}

// WayLasts says how far along the way out a way stays one and what is then,
// without a full stop; empty if it lasts to the end, or nobody knows how far that
// is.
func (w *Words) WayLasts(way *layout.Way, wayOut quantity.Length, n Names) string {
	if len(way.Then) == 0 {
		return ""
	}
	why := w.WhyNoWay(&layout.Left{Plan: way.Plan, Rig: way.Rig, Reasons: way.Then}, n)
	return w.Label("way-lasts", part.Length("lasts", way.Lasts), part.Length("way", wayOut), part.Text("why", why))
}
