package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// lineTool leads a line from one hook-on point to the next, by clicks or by
// dragging.
type lineTool struct{ common }

func (t *lineTool) prompt(sc *scene) string { return sc.label("prompt-line") }

func (t *lineTool) aim(sc *scene, p pointer) outcome { return leading(sc, p, t.path, false) }

func (t *lineTool) stops(sc *scene) ([]stop, bool) { return stopsAt(sc, mayLead(t.path)), true }

func (t *lineTool) fixable(sc *scene) fixable {
	if n := len(t.path); n > 0 {
		if s, ok := sc.spotOf(t.path[n-1]); ok {
			return fixable{fixLength, s.at}
		}
	}
	return fixable{}
}

// press begins a drag from a hook-on point, or goes on with the line that
// is being clicked together.
func (t *lineTool) press(b *Board, p pointer, clicks int) *gesture {
	if clicks >= 2 && len(t.path) >= 2 {
		t.end(b)
		return nil
	}
	g := &gesture{from: p, tap: func(b *Board) { t.click(b, p) }}
	path := t.path
	if len(path) == 0 {
		s, ok := spotAt(b.scene, p, nil)
		if !ok {
			b.say(b.label("prompt-line"))
			return nil
		}
		path = []plan.Port{s.port}
	}
	if s, ok := b.spotOf(path[len(path)-1]); ok {
		g.fix = fixable{fixLength, s.at}
	}
	g.outcome = func(q pointer) outcome { return leading(b.scene, q, path, true) }
	g.missed = func(b *Board, _ pointer) { // let go over empty ground: the next press goes on
		t.path = path
		b.say(b.label("loose-end"))
	}
	return g
}

// mayLead tells which hook-on points a line being drawn may go to next: any but
// the one it is at, and a winch only at its start or as the end of a line begun
// at the far side.
func mayLead(path []plan.Port) func(spot) bool {
	return func(s spot) bool {
		n := len(path)
		if n > 0 && path[n-1] == s.port {
			return false
		}
		return n == 0 || s.port.Point != plan.PortWinch || path[0].Point != plan.PortWinch
	}
}

// leading is the line to the pointer: its rubber, its length, and where it would
// bear on something.
func leading(sc *scene, p pointer, path []plan.Port, held bool) outcome {
	l := sc.gear().Line()
	o := outcome{ports: portMarks(sc, p, mayLead(path), path, func(s spot) string { return whyNotLine(sc, s, &l) })}
	if len(path) == 0 {
		o.prompt = sc.label("prompt-line")
		return o
	}
	o.prompt = sc.label("prompt-line-more")
	var ends []lineEnd
	for _, port := range path {
		if s, ok := sc.spotOf(port); ok {
			o.rubber = append(o.rubber, s.at)
			ends = append(ends, endOf(sc, s))
		}
	}
	var end plan.Point
	s, hooked := spotAt(sc, p, mayLead(path))
	switch {
	case !hooked:
		end, o.guides = snapEdge(sc, p, trail{o.rubber, lineClear})
	case !held: // pointing shows where it leads, not yet what it carries
		end = s.at
	default:
		end = s.at
		if next := lineOver(sc, append(slices.Clone(path), s.port)); next.plan != nil {
			o.plan, o.name, o.selected, o.then, o.report = next.plan, next.name, next.selected, next.then, next.report
			o.preview = true
		}
	}
	o.rubber = append(o.rubber, end)
	last := o.rubber[len(o.rubber)-2]
	o.texts = append(o.texts, draw.FreeText{At: last.Mid(end), Text: wayText(sc, last, end, last.Dist(end))})
	switch {
	case !hooked: // a hook-on point lies as far as it lies
		o.fixedText(p, last, end)
		refuseContacts(sc, &o, append(ends, inAir(end, ends)))
	case o.preview:
		refuseAsSolved(sc, &o, o.selected[0])
	default:
		refuseContacts(sc, &o, append(ends, endOf(sc, s)))
	}
	return o
}

// click takes a hook-on point. Two clicks at
// one place end the line.
func (t *lineTool) click(b *Board, p pointer) {
	path := t.path
	s, ok := spotAt(b.scene, p, anySpot)
	switch {
	case !ok && len(path) > 0:
		b.say(b.label("loose-end"))
		return
	case !ok:
		b.say(b.label("prompt-line"))
		return
	case len(path) > 0 && path[len(path)-1] == s.port:
		t.end(b)
		return
	case !mayLead(path)(s):
		b.say(b.label("line-has-winch"))
		return
	}
	l := b.gear().Line()
	if why := whyNotLine(b.scene, s, &l); why != "" {
		b.say(why)
		return
	}
	t.path = append(path[:len(path):len(path)], s.port)
	b.show(t.aim(b.scene, p))
}

// end makes a line of the hook-on points collected.
func (t *lineTool) end(b *Board) {
	path := t.path
	if len(path) == 0 {
		return
	}
	if len(path) < 2 {
		b.cancel()
		return
	}
	t.drop()
	b.commit(lineOver(b.scene, path))
}

// lineOver is the edit that leads a line over hook-on points. A line begun at the
// far side is turned round, so that it starts at its winch. Where it passes a
// trunk, a block is slung there; where it passes a point of a vehicle or a
// rated point, a block is fixed there; where it ends at a trunk it ends in a
// sling.
func lineOver(sc *scene, path []plan.Port) outcome {
	path = slices.Clone(path)
	if n := len(path); path[n-1].Point == plan.PortWinch && path[0].Point != plan.PortWinch {
		slices.Reverse(path)
	}
	d := sc.draft(true)
	var added []string
	places := sc.places(path)
	for i, port := range path {
		before, after := i > 0, i+1 < len(path)
		switch {
		case before && after:
			toward := places[i-1].Mid(places[i+1])
			if next, what := blockFor(sc, d, port, toward, 0); next != port {
				path[i] = next
				added = append(added, what)
			}
		case before:
			path[i] = endAt(sc, d, port, places[i-1])
			if path[i] != port {
				added = append(added, sc.label("added-end", part.Text("length", kitText(sc, d.Laid.Slings[len(d.Laid.Slings)-1].Length))))
			}
		}
	}
	l := sc.gear().Line()
	l.Path = path
	if path[0].Point != plan.PortWinch {
		l.Length = quantity.Length(stepped(lengthOf(places), 0.1))
	}
	id := d.AddLine(l)
	settleNew(sc, d)
	o := outcome{plan: d.Plan, name: sc.label("edit-line"), selected: []plan.ID{id},
		then: func(b *Board) { b.arm(ToolSelect) }}
	if len(added) > 0 {
		o.report = sc.label("added", part.Text("what", joined(sc, added)))
	}
	return o
}

func lengthOf(pts []plan.Point) float64 {
	l := 0.0
	for i := 0; i+1 < len(pts); i++ {
		l += pts[i].Dist(pts[i+1])
	}
	return l
}

// blockFor gives a line a block to run over at a port of the site; see
// [layout.Kit.Hang]. It returns the port of the sheave, and what was added.
func blockFor(sc *scene, d plan.Draft, port plan.Port, toward plan.Point, length quantity.Length) (plan.Port, string) {
	sheave, hung := sc.gear().Hang(d, port, toward, length)
	switch {
	case hung.Sling != "":
		return sheave, sc.label("added-slung", part.Text("length", kitText(sc, hung.Long)))
	case hung.Block != "":
		return sheave, sc.label("added-fixed")
	}
	return sheave, ""
}

// endAt is where a line ends that was led to port; see [layout.Kit.EndAt].
func endAt(sc *scene, d plan.Draft, port plan.Port, from plan.Point) plan.Port {
	return sc.gear().EndAt(d, port, from)
}
