package board

import (
	"kedge/canvas/draw"
	"kedge/solver/layout"
	"kedge/solver/plan"
)

// placeBlock is what a click of the block tool at p does: on a trunk a block is
// slung to it, on a point it is fixed there, on a stretch next to an anchor the
// line is bent over it, elsewhere it lies loose.
func placeBlock(sc *scene, p pointer) outcome {
	want := func(s spot) bool {
		return s.kind != draw.PortFairlead && s.kind != draw.PortSheave && s.kind != draw.PortSling
	}
	k := sc.gear().Block()
	o := outcome{name: sc.label("edit-place", text("what", sc.label("edit-block"))), ports: portMarks(sc, p, want, nil, nil), prompt: sc.label("prompt-block-tool")}
	d := sc.draft(true)
	if s, ok := spotAt(sc, p, want); ok {
		toward := p.at
		if toward == s.at {
			if c := sc.plan.Casualty(); c != nil {
				toward = c.At
			}
		}
		port, what := blockFor(sc, d, s.port, toward, 0)
		o.plan, o.selected, o.report = d.Plan, []plan.ID{port.Thing}, sc.label("added", text("what", what))
		o.texts = []draw.FreeText{{At: s.at, Text: hangText(sc, d, s, port.Thing)}}
		if placed := d.block(port.Thing); placed != nil {
			o.ghost = &draw.Ghost{Block: placed}
		}
		return o
	}
	at, guides := snap(sc, p, nil, trail{})
	k.At = at
	id := d.addBlock(k)
	o.plan, o.selected, o.guides = d.Plan, []plan.ID{id}, guides
	o.ghost = &draw.Ghost{Block: &k, Label: sc.label("hangs-loose")}
	return o
}

// placeSling is what a click of the sling tool at p shows: first what it goes
// round or is hooked to, then what it holds.
func (b *Board) placeSling(p pointer) outcome {
	want := b.slingWants()
	o := outcome{ports: portMarks(b.scene, p, want, nil, nil), prompt: b.label("prompt-sling-tool")}
	if b.pending != nil && !b.pending.on.IsZero() {
		if s, ok := b.spotOf(b.pending.on); ok {
			o.rubber = []plan.Point{s.at, p.at}
		}
		o.prompt = b.label("prompt-sling-holds")
	}
	return o
}

// slingWants tells which hook-on points the next click of the sling tool takes.
func (b *Board) slingWants() func(spot) bool {
	if b.pending == nil || b.pending.on.IsZero() {
		return func(s spot) bool { return s.kind != draw.PortFairlead && s.port.Point != plan.PortBecket }
	}
	on := b.pending.on
	return func(s spot) bool {
		return s.kind != draw.PortFairlead && s.port.Point != plan.PortBecket && s.port.Thing != on.Thing
	}
}

// slingClick takes a click of the sling tool.
func (b *Board) slingClick(p pointer) {
	s, ok := spotAt(b.scene, p, b.slingWants())
	if !ok {
		b.say(b.label("prompt-sling-tool"))
		return
	}
	if b.pending == nil {
		b.pending = &pending{on: s.port}
		b.show(b.placeSling(p))
		return
	}
	on := b.pending.on
	b.pending = nil
	b.commit(slungOn(b.scene, on, s.port))
}

// endSling makes a sling that holds nothing yet: its end is free.
func (b *Board) endSling() {
	on := b.pending.on
	b.pending = nil
	b.commit(slungOn(b.scene, on, plan.Port{}))
}

// slungOn is the edit that adds a sling on one thing, holding another.
func slungOn(sc *scene, on, holds plan.Port) outcome {
	d := sc.draft(true)
	_, radius, round := layout.Trunk(d.index(), on)
	s := sc.gear().Sling(presetSlingM)
	if round {
		s = sc.gear().Sling(layout.SlingFor(radius, presetSlingM))
		s.Hitch = plan.HitchBasket
	} else if from, ok := sc.spotOf(on); ok && !holds.IsZero() {
		if to, ok := sc.spotOf(holds); ok { // straight between two points: as long as they are apart
			if k := d.block(holds.Thing); k == nil {
				s.Length = lengthBetween(dist(from.at, to.at))
			}
		}
	}
	s.On, s.Holds = on, holds
	if k := d.block(holds.Thing); k != nil && !k.Fixed.IsZero() {
		return outcome{report: sc.label("block-is-fixed", text("thing", sc.name(holds.Thing)))}
	}
	id := d.addSling(s)
	if !holds.IsZero() {
		sh := sc.gear().Shackle()
		sh.Joins = []plan.Port{{Thing: id}, holds}
		d.addShackle(sh)
	}
	return outcome{plan: d.Plan, name: sc.label("edit-place", text("what", sc.label("edit-sling"))), selected: []plan.ID{id}}
}
