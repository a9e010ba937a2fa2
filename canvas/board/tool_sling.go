package board

import (
	"kedge/canvas/draw"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// slingTool hangs a sling on one thing, then hooks another into it.
type slingTool struct{ common }

func (t *slingTool) stops(sc *scene) ([]stop, bool) { return stopsAt(sc, t.wants()), true }

func (t *slingTool) press(b *Board, p pointer, _ int) *gesture {
	return &gesture{from: p, tap: func(b *Board) { t.click(b, p) }, outcome: func(q pointer) outcome { return t.aim(b.scene, q) }}
}

// aim is what a click at p shows: first what it goes
// round or is hooked to, then what it holds.
func (t *slingTool) aim(sc *scene, p pointer) outcome {
	want := t.wants()
	o := outcome{ports: portMarks(sc, p, want, nil, nil), prompt: sc.label("prompt-sling-tool")}
	if !t.on.IsZero() {
		if s, ok := sc.spotOf(t.on); ok {
			o.rubber = []plan.Point{s.at, p.at}
		}
		o.prompt = sc.label("prompt-sling-holds")
	}
	return o
}

// wants tells which hook-on points the next click takes.
func (t *slingTool) wants() func(spot) bool {
	if t.on.IsZero() {
		return func(s spot) bool { return s.kind != draw.PortFairlead && s.port.Point != plan.PortBecket }
	}
	on := t.on
	return func(s spot) bool {
		return s.kind != draw.PortFairlead && s.port.Point != plan.PortBecket && s.port.Thing != on.Thing
	}
}

func (t *slingTool) click(b *Board, p pointer) {
	s, ok := spotAt(b.scene, p, t.wants())
	if !ok {
		b.say(b.label("prompt-sling-tool"))
		return
	}
	if t.on.IsZero() {
		t.on = s.port
		b.show(t.aim(b.scene, p))
		return
	}
	on := t.on
	t.drop()
	b.commit(slungOn(b.scene, on, s.port))
}

// end makes a sling that holds nothing yet: its end is free.
func (t *slingTool) end(b *Board) {
	if t.on.IsZero() {
		return
	}
	on := t.on
	t.drop()
	b.commit(slungOn(b.scene, on, plan.Port{}))
}

// slungOn is the edit that adds a sling on one thing, holding another.
func slungOn(sc *scene, on, holds plan.Port) outcome {
	d := sc.draft(true)
	_, radius, round := layout.Trunk(d.Index(), on)
	s := sc.gear().Sling(presetSlingM)
	if round {
		s = sc.gear().Sling(layout.SlingFor(radius, presetSlingM))
		s.Hitch = plan.HitchBasket
	} else if from, ok := sc.spotOf(on); ok && !holds.IsZero() {
		if to, ok := sc.spotOf(holds); ok { // straight between two points: as long as they are apart
			if _, ok := d.Laid.Block(holds.Thing); !ok {
				s.Length = lengthBetween(from.at.Dist(to.at))
			}
		}
	}
	s.On, s.Holds = on, holds
	if k, ok := d.Laid.Block(holds.Thing); ok && !k.Fixed.IsZero() {
		return outcome{report: sc.label("block-is-fixed", part.Text("thing", sc.name(holds.Thing)))}
	}
	id := d.AddSling(s)
	if !holds.IsZero() {
		sh := sc.gear().Shackle()
		sh.Joins = []plan.Port{{Thing: id}, holds}
		d.AddShackle(sh)
	}
	return outcome{plan: d.Plan, name: sc.label("edit-place", part.Text("what", sc.label("edit-sling"))), selected: []plan.ID{id}}
}
