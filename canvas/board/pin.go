package board

import (
	"reflect"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// marks are the pieces of evidence of the rig shown, where they are drawn.
func (sc *scene) marks() []draw.PinMark {
	x := sc.at()
	if x.Rig == nil || x.Rig.Incident == nil {
		return nil
	}
	return draw.Pins(x, sc.planAnswer(), sc.view.PerM)
}

// markOf is a piece of evidence where it is drawn; false: it is none.
func (sc *scene) markOf(ref plan.ID) (draw.PinMark, bool) {
	if s := sc.at().Find(ref); s.Kind == plan.ThingPin {
		return sc.marks()[s.Pos], true
	}
	return draw.PinMark{}, false
}

// pinHits are the heads of pins at a place.
func pinHits(sc *scene, at plan.Point, add func(hit)) {
	for _, m := range sc.marks() {
		head := m.Over.Plus(m.Beside/sc.view.PerM, draw.PinStemPx/sc.view.PerM)
		if d := head.Dist(at); d*sc.view.PerM <= draw.PinHeadPx+2 {
			add(hit{id: m.Pin.Ref(), kind: plan.ThingPin})
		}
	}
}

// pinGesture drags a pin by its head.
func pinGesture(sc *scene, ref plan.ID, from pointer) *gesture {
	m, ok := sc.markOf(ref)
	if !ok {
		return nil
	}
	return &gesture{from: from, dragged: []plan.ID{ref}, tap: func(b *Board) { pick(b, ref, from) }, outcome: func(p pointer) outcome {
		want := p
		want.at = m.Tip.Plus(p.at.X-from.at.X, p.at.Y-from.at.Y)
		if m.Pin.Thing != "" && aboutAt(sc, want) == m.Pin.Thing && !p.mods.Alt {
			return pinMoved(sc, &m, nil)
		}
		at, guides := snap(sc, want, nil, trail{})
		o := pinMoved(sc, &m, &at)
		o.guides, o.texts = guides, []draw.FreeText{{At: at, Text: placeText(sc, at)}}
		return o
	}}
}

// pinMoved is the edit that shows a pin at a place; nil: at its thing.
func pinMoved(sc *scene, m *draw.PinMark, at *plan.Point) outcome {
	o := outcome{name: sc.label("edit-move", part.Text("thing", sc.name(m.Pin.Ref()))), selected: []plan.ID{m.Pin.Ref()}}
	if was := m.Pin.At; was == nil && at == nil || was != nil && at != nil && *was == *at {
		return o
	}
	q := *m.Pin
	q.At = at
	o.plan = plan.WithPin(sc.plan, sc.plan.RigIndex(sc.rig), q)
	return o
}

// pinAtThing is the pin that is selected alone and lies at its thing; nil: none such is.
func pinAtThing(sc *scene) *plan.Pin {
	if len(sc.selection) == 1 {
		if q := sc.at().Pin(sc.selection[0]); q != nil && q.At == nil {
			return q
		}
	}
	return nil
}

// nudgedPin is the edit of an arrow key on a pin that lies at its thing.
func nudgedPin(sc *scene, q *plan.Pin, dx, dy float64) outcome {
	m, _ := sc.markOf(q.Ref())
	at := rounded(m.Tip.Plus(dx, dy), fineM/10)
	return pinMoved(sc, &m, &at)
}

// shiftPins moves the pins of a draft that have a place of their own.
func shiftPins(d plan.Draft, pos int, move func(plan.Point) plan.Point) {
	if q := &d.Laid.Incident.Pins[pos]; q.At != nil {
		at := move(*q.At)
		q.At = &at
	}
}

// withoutPins is p without the pins gone of the rig shown. Those about a thing gone
// stay: that a thing was found broken is not undone by drawing another rig. They lie
// from now on where it lay.
func withoutPins(sc *scene, p *plan.Plan, gone map[plan.ID]bool) *plan.Plan {
	i := p.RigIndex(sc.rig)
	for _, m := range sc.marks() {
		q := *m.Pin
		switch {
		case gone[q.Ref()]:
			p = plan.WithoutPin(p, i, q.ID)
		case gone[q.Thing] && q.At == nil:
			at := rounded(m.Tip, fineM/10)
			q.At = &at
			p = plan.WithPin(p, i, q)
		}
	}
	return p
}

// keptPins are the names of the pins that an edit left with nothing they are about.
func keptPins(sc *scene, next *plan.Index) []string {
	var list []string
	for _, m := range sc.marks() {
		if !m.Gone && m.Pin.Thing != "" && next.Kind(m.Pin.Thing) == plan.NoThing && next.Pin(m.Pin.Ref()) != nil {
			list = append(list, sc.name(m.Pin.Ref()))
		}
	}
	return list
}

// pinQuestions are what is asked about a pin: its kind, the figures that the kind needs,
// how it is known and who says so.
func pinQuestions(sc *scene, q *plan.Pin) []Question {
	label := "prompt-pin-kind"
	if q.Thing == "" {
		label = "prompt-pin-place"
	}
	ask := func(member, label string) Question {
		return Question{Thing: q.Ref(), Member: member, Label: sc.label(label, part.Text("thing", sc.name(q.Thing)), part.Text("unit", sc.words.System().Length().String()), part.Text("force", sc.words.System().Force().String()), part.Text("mass", sc.words.System().Mass().String()))}
	}
	of := func(k Question, set string, values []string) Question {
		for _, v := range values {
			if v != "" {
				k.choices, k.texts = append(k.choices, v), append(k.texts, sc.words.EvidenceWord(set, v))
			}
		}
		return k
	}
	trace := ask("trace_m", "prompt-pin-trace")
	if m, ok := sc.markOf(q.Ref()); ok && m.Of != nil {
		trace.Label += " · " + sc.label("prompt-pin-drawn", part.Length("length", m.Of.Dist(m.Tip)))
	}
	list := []Question{of(ask("kind", label), "pin", sc.at().PinKindsFor(q.Thing))}
	switch q.Kind {
	case plan.PinTension, plan.PinStalled:
		list = append(list, ask("low_n", "prompt-pin-tension"))
	case plan.PinLayer:
		list = append(list, ask("layer_seen", "prompt-pin-layer"))
	case plan.PinLanding:
		list = append(list, trace, ask("mass_kg", "prompt-pin-mass"))
	case plan.PinResting, plan.PinMoved, plan.PinSkid, plan.PinRut:
		list = append(list, trace)
	case plan.PinLook, plan.PinSeenBefore:
		list = append(list, of(ask("break_look", "prompt-pin-look"), "look", plan.Looks()))
	case plan.PinTag:
		list = append(list, ask("rating", "prompt-pin-rating"))
	}
	return append(list, of(ask("known", "prompt-pin-known"), "known", []string{plan.KnownObserved, plan.KnownTold, plan.KnownAssumed}), ask("source", "prompt-pin-source"))
}

// leavePin takes back a pin whose questions are left before anybody said how it is known,
// with all that was answered of it: else it would stand there as assumed. False: it is
// none such.
func (b *Board) leavePin(ref plan.ID) bool {
	q := b.at().Pin(ref)
	if q == nil || q.Known != "" {
		return false
	}
	without := plan.WithoutPin(b.plan, b.plan.RigIndex(b.rig), q.ID)
	for n := len(b.undo) - 1; n >= 0; n-- {
		if s := b.undo[n]; reflect.DeepEqual(s.plan, without) { // as if it had never been pinned
			b.undo = b.undo[:n]
			b.take(s.plan)
			return true
		}
	}
	return b.edit(b.label("edit-pin"), without) == nil
}

// pinLine says what a pin says, how it is known and by whom, and that its thing is gone.
func pinLine(sc *scene, m *draw.PinMark) string {
	said := sc.words.Pin(m.Pin, sc.naming())
	if m.Gone {
		said += " · " + sc.label("pin-gone", part.Text("thing", string(m.Pin.Thing)))
	}
	return said
}
