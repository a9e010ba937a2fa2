package board

import (
	"math"
	"slices"

	"kedge/canvas/draw"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/gear"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// pasting is things being copied into a draft. A part whose mount was copied
// too hangs on that copy. A sling whose mount was not goes to the nearest free
// one of its kind; a fixed block lies loose; a damper lies further along the
// line. A part that would be seen nowhere by itself, or lie upon another, is left
// out, and that is said.
type pasting struct {
	sc    *scene
	d     plan.Draft
	x     *plan.Index // of what was copied
	ids   []plan.ID
	fresh map[plan.ID]plan.ID // the copy of each
	byM   float64             // how far off, east and south

	hung []plan.Port // mounts that slings went to
	left []plan.ID   // originals without a copy
}

// mostSteps bounds how far off a copy is put down. (ours)
const mostSteps = 1000

// stepsOff is the least number of steps off at which no copy of the things
// stands where one of its kind stands.
func stepsOff(d plan.Draft, x *plan.Index, ids []plan.ID) float64 {
	type stand struct {
		kind plan.ThingKind
		at   plan.Point
	}
	here := d.Index()
	taken := map[stand]bool{}
	for _, id := range thingIDs(d.Plan, d.Laid) {
		if at, ok := placeOf(here, id); ok {
			taken[stand{here.Kind(id), rounded(at, fineM)}] = true
		}
	}
	for n := 1.0; n < mostSteps; n++ {
		if !slices.ContainsFunc(ids, func(id plan.ID) bool {
			at, ok := placeOf(x, id)
			return ok && taken[stand{x.Kind(id), rounded(at.Plus(n*pasteM, -n*pasteM), fineM)}]
		}) {
			return n
		}
	}
	return mostSteps
}

// off is where the copy of what stands at p stands.
func (w *pasting) off(p plan.Point) plan.Point { return rounded(p.Plus(w.byM, -w.byM), fineM/10) }

// copied is the port of the copy of what p names; zero if that was not copied.
func (w *pasting) copied(p plan.Port) plan.Port {
	if n, ok := w.fresh[p.Thing]; ok {
		return plan.Port{Thing: n, Point: p.Point}
	}
	return plan.Port{}
}

// parts copies the parts of the rig.
func (w *pasting) parts() []plan.ID {
	// Ids first, so that parts may name one another.
	r := w.d.Laid
	for _, id := range w.ids {
		switch w.x.Kind(id) {
		case plan.ThingLine:
			w.fresh[id] = w.d.AddLine(plan.Line{})
		case plan.ThingBlock:
			w.fresh[id] = w.d.AddBlock(plan.Block{})
		case plan.ThingSling:
			w.fresh[id] = w.d.AddSling(plan.Sling{})
		case plan.ThingShackle:
			w.fresh[id] = w.d.AddShackle(plan.Shackle{})
		case plan.ThingDamper:
			w.fresh[id] = w.d.AddDamper(plan.Damper{})
		}
	}
	for _, kind := range []plan.ThingKind{plan.ThingBlock, plan.ThingSling, plan.ThingShackle, plan.ThingLine, plan.ThingDamper} {
		for _, id := range w.ids {
			if w.x.Kind(id) == kind && !w.part(id, kind) {
				w.left = append(w.left, id)
			}
		}
	}
	gone := map[plan.ID]bool{}
	for _, id := range w.left {
		gone[w.fresh[id]] = true
	}
	removedInRig(w.d.Plan, r, gone)
	here := w.d.Index()
	var made []plan.ID
	for _, id := range w.ids {
		if n := w.fresh[id]; w.x.Kind(id) >= plan.ThingLine && n != "" && !gone[n] {
			if here.Kind(n) == plan.NoThing { // it went with what it was hooked to
				w.left = append(w.left, id)
				continue
			}
			made = append(made, n)
		}
	}
	return made
}

// part makes the copy of one part; false if it is left out.
func (w *pasting) part(id plan.ID, kind plan.ThingKind) bool {
	pos := w.x.Find(id).Pos
	n, d := w.fresh[id], w.d
	switch kind {
	case plan.ThingBlock:
		k := w.x.Rig.Blocks[pos]
		k.Head, k.Fixed, k.At = renew(k.Head, n), w.copied(k.Fixed), w.off(k.At)
		made, _ := d.Laid.Block(n)
		*made = k
	case plan.ThingSling:
		made, _ := d.Laid.Sling(n)
		return w.sling(w.x.Rig.Slings[pos], made)
	case plan.ThingShackle:
		return w.shackle(w.x.Rig.Shackles[pos], n)
	case plan.ThingLine:
		made, _ := d.Laid.Line(n)
		return w.line(w.x.Rig.Lines[pos], made)
	case plan.ThingDamper:
		return w.damper(w.x.Rig.Dampers[pos], n)
	}
	return true
}

// sling copies a sling: on the copy of what it was on, else on the nearest free
// mount of the kind. It holds nothing but a copy.
func (w *pasting) sling(s plan.Sling, into *plan.Sling) bool {
	was, old := s.On, plan.Port{Thing: s.ID}
	if _, _, round := layout.Trunk(w.x, was); !round && w.copied(s.Holds).IsZero() && !slices.ContainsFunc(w.x.Rig.Lines, func(l plan.Line) bool {
		return w.fresh[l.ID] != "" && slices.Contains(l.Path, old)
	}) {
		return false // from a point to nothing there is nothing to be seen
	}
	s.Head, s.On, s.Holds = renew(s.Head, into.ID), w.copied(s.On), w.copied(s.Holds)
	if s.On.IsZero() {
		from, to, port, ok := w.freeMount(&s, was)
		if !ok {
			return false
		}
		s.On = port
		w.hung = append(w.hung, port)
		if k, ok := w.d.Laid.Block(s.Holds.Thing); ok { // it lies off the new mount as it lay off the old
			at := k.At.Plus(-w.byM, w.byM)
			k.At = rounded(to.Plus(at.X-from.X, at.Y-from.Y), fineM)
		}
	}
	*into = s
	return true
}

// freeMount is the hook-on point of the site nearest to a sling's old one that
// nothing of the rig uses and that the sling goes on as it did there.
func (w *pasting) freeMount(s *plan.Sling, was plan.Port) (from, to plan.Point, port plan.Port, ok bool) {
	from, _, round := layout.Trunk(w.x, was)
	if !round {
		at, ok := w.x.PortPlace(was)
		if !ok {
			return from, to, port, false
		}
		from = at.At
	}
	used := map[plan.Port]bool{}
	w.d.Laid.EachPort(func(p *plan.Port) { used[*p] = true })
	x, best := w.sc.at(), math.Inf(1)
	for _, c := range w.sc.spots() {
		_, radius, is := layout.Trunk(x, c.port)
		switch {
		case !c.site || c.kind == draw.PortFairlead || used[c.port] || c.port == was || is != round:
			continue
		case is && !gear.SlingRound(radius, s.Length, solver.Hitch(s, true)).Closes:
			continue
		}
		if far := c.at.Dist(from); far < best {
			best, to, port, ok = far, c.at, c.port, true
		}
	}
	return from, to, port, ok
}

// shackle copies a shackle that still joins two things or more, or at which
// copies meet.
func (w *pasting) shackle(k plan.Shackle, n plan.ID) bool {
	old := plan.Port{Thing: k.ID}
	joins := k.Joins
	k.Head, k.Joins = renew(k.Head, n), nil
	if len(joins) == 0 { // one that joins things lies where they meet
		k.At = w.off(k.At)
	}
	for _, p := range joins {
		if q := w.copied(p); !q.IsZero() && !w.isLeft(p.Thing) {
			k.Joins = append(k.Joins, q)
		}
	}
	meets := func(id plan.ID) bool { return w.fresh[id] != "" && !w.isLeft(id) }
	ok := len(k.Joins) >= 2
	if len(joins) == 0 {
		ok = slices.ContainsFunc(w.x.Rig.Slings, func(s plan.Sling) bool { return (s.Holds == old || s.On == old) && meets(s.ID) }) ||
			slices.ContainsFunc(w.x.Rig.Lines, func(l plan.Line) bool { return slices.Contains(l.Path, old) && meets(l.ID) })
	}
	if ok {
		into, _ := w.d.Laid.Shackle(n)
		*into = k
	}
	return ok
}

func (w *pasting) isLeft(id plan.ID) bool { return slices.Contains(w.left, id) }

// line copies a line over the copies of what it led over, and the points of the
// site that were not copied. It is left out if it would lie upon another.
func (w *pasting) line(l plan.Line, into *plan.Line) bool {
	here := w.d.Index()
	path := l.Path
	l.Head, l.Path = renew(l.Head, into.ID), nil
	for _, p := range path {
		q := w.copied(p)
		if q.IsZero() && onSite(here.Kind(p.Thing)) {
			q = p
		}
		if !q.IsZero() && !w.isLeft(p.Thing) {
			l.Path = append(l.Path, q)
		}
	}
	if len(l.Path) < 2 || slices.ContainsFunc(w.d.Laid.Lines, func(o plan.Line) bool { return slices.Equal(o.Path, l.Path) }) {
		return false
	}
	*into = l
	return true
}

// damper copies a damper: to the same place of the copied line, or a step
// further along the same line.
func (w *pasting) damper(k plan.Damper, n plan.ID) bool {
	was := k.Line
	k.Head, k.Line = renew(k.Head, n), w.copied(plan.Port{Thing: was}).Thing
	if k.Line == "" {
		share, ok := w.freeShare(was, k.Stretch, k.Share)
		if !ok {
			return false
		}
		k.Line, k.Share = was, share
	}
	l, _ := w.d.Laid.Line(k.Line)
	if l == nil || w.isLeft(was) || k.Stretch+1 >= len(l.Path) {
		return false
	}
	into, _ := w.d.Laid.Damper(n)
	*into = k
	return true
}

// freeShare is a place on a stretch, by whole steps from a share of it, where no
// damper lies: onward, else back.
func (w *pasting) freeShare(line plan.ID, stretch int, share float64) (float64, bool) {
	length := stretchM(w.sc, line, stretch)
	if !(length > pasteM) {
		return 0, false
	}
	step := pasteM / length
	free := func(x float64) bool {
		return x >= 0 && x <= 1 && !slices.ContainsFunc(w.d.Laid.Dampers, func(k plan.Damper) bool {
			return k.Line == line && k.Stretch == stretch && math.Abs(k.Share-x) < step/2
		})
	}
	for _, way := range []float64{1, -1} {
		for n := 1.0; n*step <= 1; n++ {
			if x := stepped(share+way*n*step, 0.01); free(x) {
				return x, true
			}
		}
	}
	return 0, false
}

// hungText says where slings went whose mount was not copied.
func (w *pasting) hungText() string {
	if len(w.hung) == 0 {
		return ""
	}
	var on []string
	for _, p := range w.hung {
		if s := w.sc.name(p.Thing); !slices.Contains(on, s) {
			on = append(on, s)
		}
	}
	return w.sc.label("pasted-on", part.Text("what", fewOf(w.sc, on)))
}

// leftText says what was left out.
func (w *pasting) leftText(names words.Names) string {
	if len(w.left) == 0 {
		return ""
	}
	what := make([]string, len(w.left))
	for i, id := range w.left {
		what[i] = names(id)
	}
	return w.sc.label("pasted-left", part.Text("what", fewOf(w.sc, what)))
}
