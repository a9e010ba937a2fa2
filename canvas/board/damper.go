package board

import (
	"math"

	"kedge/canvas/draw"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A damper slides along its line: dragged, with a number typed as so far from
// the hauling end of the stretch, or by { and } a step of the grid at a time.

// Steps of a damper's share of its stretch: as dragged, and as typed or stepped.
const (
	shareDragged = 0.01
	shareTyped   = 0.0001 // a millimetre in ten metres
)

// damper is the damper id of the rig shown; nil if there is none.
func (b *Board) damper(id plan.ID) *plan.Damper {
	x := b.at()
	if x.Kind(id) != plan.ThingDamper {
		return nil
	}
	return &x.Rig.Dampers[x.Find(id).Pos]
}

// slideDamper is what letting go of a damper at p does: it lies there on the
// stretch under the pointer, or as far along it, else along its own, as was
// typed.
func (b *Board) slideDamper(id plan.ID, p pointer) outcome {
	o := outcome{selected: []plan.ID{id}}
	k := b.damper(id)
	h, ok := b.lineAt(p.at)
	if k == nil || !ok && p.fix == nil {
		o.report = b.label("prompt-damper-tool")
		return o
	}
	if p.fix == nil || !p.fix.hasLen {
		return b.damperAt(o, id, h.id, h.stretch, stepped(h.share, shareDragged))
	}
	line, stretch := k.Line, k.Stretch
	if ok {
		line, stretch = h.id, h.stretch
	}
	length := b.stretchM(line, stretch)
	if p.fix.lengthM > length {
		why := b.label("damper-limits", text("length", b.lengthText(length)))
		o.report, o.prompt = why, why
		return o
	}
	o = b.damperAt(o, id, line, stretch, stepped(p.fix.lengthM/length, shareTyped))
	a, c := b.stretchEnds(line, stretch)
	share := p.fix.lengthM / length
	o.texts = []draw.FreeText{{At: plus(a, share*(c.X-a.X), share*(c.Y-a.Y)), Text: p.fix.text}}
	return o
}

// stretchM is how long a stretch is, in metres; 0: not known.
func (b *Board) stretchM(line plan.ID, stretch int) float64 {
	for _, s := range b.planAnswer().Stretches {
		if s.Line == line && s.Index == stretch {
			return float64(s.Length)
		}
	}
	return 0
}

// damperAt is the edit that lays a damper at a share of a stretch.
func (b *Board) damperAt(o outcome, id, line plan.ID, stretch int, share float64) outcome {
	k := b.damper(id)
	o.name, o.preview = b.label("edit-move", text("thing", b.name(id))), true
	from := quantity.Length(share * b.stretchM(line, stretch))
	o.prompt = b.label("damper-along", text("length", b.lengthText(float64(from))))
	if k.Line == line && k.Stretch == stretch && k.Share == share {
		return o
	}
	d := b.draft(true)
	for i := range d.rig.Dampers {
		if k := &d.rig.Dampers[i]; k.ID == id {
			k.Line, k.Stretch, k.Share = line, stretch, share
		}
	}
	o.plan = d.Plan
	return o
}

// stepDamper slides a damper along its stretch by steps of the grid, no further
// than its ends.
func (b *Board) stepDamper(id plan.ID, steps float64) {
	k := b.damper(id)
	length := b.stretchM(k.Line, k.Stretch)
	if !(length > 0) {
		b.say(b.label("no-strap"))
		return
	}
	at := math.Max(0, math.Min(length, k.Share*length+steps*b.snapM))
	o := b.damperAt(outcome{selected: []plan.ID{id}}, id, k.Line, k.Stretch, stepped(at/length, shareTyped))
	o.report = o.prompt
	b.run(o)
}
