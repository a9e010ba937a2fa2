package board

import (
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// listedMost is how many things a sentence names before it counts them. (ours)
const listedMost = 4

// fewOf names a few things, or counts many.
func fewOf(sc *scene, names []string) string {
	if len(names) > listedMost {
		return sc.label("n-things", part.Count("count", len(names)))
	}
	return joined(sc, names)
}

// wentText says what an edit that took out the things asked for really took
// out, what went with them, and what is left hanging on nothing.
func wentText(sc *scene, next *plan.Plan, asked []plan.ID) string {
	x := sc.at()
	r, _ := next.Rig(sc.rig)
	y := plan.NewIndex(next, r)
	var gone, with, kept []string
	ids := thingIDs(sc.plan, x.Rig)
	for _, m := range sc.marks() {
		ids = append(ids, m.Pin.Ref())
	}
	for _, id := range ids {
		was := slices.Contains(asked, id)
		switch still := y.Kind(id) != plan.NoThing; {
		case was && still:
			kept = append(kept, sc.name(id))
		case was:
			gone = append(gone, sc.name(id))
		case !still:
			with = append(with, sc.name(id))
		}
	}
	values := []part.Value{part.Text("what", fewOf(sc, gone))}
	out := sc.label("deleted", values...)
	add := func(id string, names []string) {
		if len(names) > 0 {
			out += " · " + sc.label(id, part.Text("what", fewOf(sc, names)))
		}
	}
	add("deleted-with", with)
	if x.Rig != nil && r != nil {
		shorter, loose := loosened(x.Rig, r)
		add("deleted-loose", sc.names(loose))
		add("deleted-rerun", sc.names(shorter))
	}
	var others []string
	for i := range sc.plan.Rigs {
		o := &sc.plan.Rigs[i]
		if now, ok := next.Rig(o.ID); o.ID != sc.rig && ok && touched(o, now) {
			others = append(others, sc.words.RigName(sc.plan, i))
		}
	}
	add("deleted-others", others)
	add("pins-kept", keptPins(sc, y))
	add("deleted-kept", kept)
	return out + " · " + sc.label("undo-with")
}

// loosened lists the lines of r that lead over fewer points in s, and the other
// parts that are hooked to fewer things there.
func loosened(r, s *plan.Rig) (shorter, loose []plan.ID) {
	for i := range r.Lines {
		if l, ok := s.Line(r.Lines[i].ID); ok && len(l.Path) < len(r.Lines[i].Path) {
			shorter = append(shorter, l.ID)
		}
	}
	for i := range r.Blocks {
		if k, ok := s.Block(r.Blocks[i].ID); ok && (!r.Blocks[i].Fixed.IsZero() && k.Fixed.IsZero() || hung(r, k.ID) && !hung(s, k.ID)) {
			loose = append(loose, k.ID)
		}
	}
	for i := range r.Slings {
		o := &r.Slings[i]
		if k, ok := s.Sling(o.ID); ok && (!o.On.IsZero() && k.On.IsZero() || !o.Holds.IsZero() && k.Holds.IsZero()) {
			loose = append(loose, k.ID)
		}
	}
	for i := range r.Shackles {
		if k, ok := s.Shackle(r.Shackles[i].ID); ok && hung(r, k.ID) && !hung(s, k.ID) {
			loose = append(loose, k.ID)
		}
	}
	return shorter, loose
}

// hung reports whether a sling holds a part.
func hung(r *plan.Rig, id plan.ID) bool {
	return slices.ContainsFunc(r.Slings, func(s plan.Sling) bool { return s.Holds.Thing == id })
}

// touched reports whether an edit left a rig with fewer parts, or with parts hooked
// to less.
func touched(r, s *plan.Rig) bool {
	shorter, loose := loosened(r, s)
	return len(shorter)+len(loose) > 0 || partsOf(s) < partsOf(r)
}
