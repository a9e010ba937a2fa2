package board

import (
	"math"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// damperTool lays a damper over the stretch under the pointer.
type damperTool struct{ common }

// aim lays a damper over the stretch under the pointer.
func (t *damperTool) aim(sc *scene, p pointer) outcome {
	h, ok := lineAt(sc, p.at)
	if !ok {
		return outcome{prompt: sc.label("prompt-damper-tool")}
	}
	d := sc.draft(true)
	k := sc.gear().Damper()
	k.Line, k.Stretch, k.Share = h.id, h.stretch, stepped(h.share, 0.01)
	id := d.AddDamper(k)
	return outcome{
		plan: d.Plan, name: sc.label("edit-place", part.Text("what", sc.label("edit-damper"))), selected: []plan.ID{id},
		texts: []draw.FreeText{{At: p.at, Text: sc.label("damper-at", part.Length("along", h.share*stretchM(sc, h.id, h.stretch)))}},
	}
}

// stops are a third along each stretch.
func (t *damperTool) stops(sc *scene) ([]stop, bool) {
	var list []stop
	for _, s := range sc.planAnswer().Stretches {
		p, q := part.Flat(s.A), part.Flat(s.B)
		list = append(list, stop{at: rounded(p.Plus((q.X-p.X)/3, (q.Y-p.Y)/3), fineM/10)})
	}
	return list, true
}

// lineAt is the stretch nearest to a place, within the reach of a hook-on
// point.
func lineAt(sc *scene, at plan.Point) (hit, bool) {
	best, has := hit{distM: hitPx / sc.view.PerM}, false
	a := sc.planAnswer()
	for i := range a.Stretches {
		s := &a.Stretches[i]
		if d, share := terrain.ToSegment(at, part.Flat(s.A), part.Flat(s.B)); d <= best.distM {
			best, has = hit{id: s.Line, kind: plan.ThingLine, stretch: s.Index, share: share, part: s.Part, distM: d}, true
		}
	}
	return best, has
}

// A damper slides along its line: dragged, with a number typed as so far from
// the hauling end of the stretch, or by { and } a step of the grid at a time.

// Steps of a damper's share of its stretch: as dragged, and as typed or stepped.
const (
	shareDragged = 0.01
	shareTyped   = 0.0001 // a millimetre in ten metres
)

// damperOf is the damper id of the rig shown; nil if there is none.
func damperOf(sc *scene, id plan.ID) *plan.Damper {
	x := sc.at()
	if x.Kind(id) != plan.ThingDamper {
		return nil
	}
	return &x.Rig.Dampers[x.Find(id).Pos]
}

// slideDamper is what letting go of a damper at p does: it lies there on the
// stretch under the pointer, or as far along it, else along its own, as was
// typed.
func slideDamper(sc *scene, id plan.ID, p pointer) outcome {
	o := outcome{selected: []plan.ID{id}}
	k := damperOf(sc, id)
	h, ok := lineAt(sc, p.at)
	if k == nil || !ok && p.fix == nil {
		o.report = sc.label("prompt-damper-tool")
		return o
	}
	if p.fix == nil || !p.fix.hasLen {
		return damperAt(sc, o, id, h.id, h.stretch, stepped(h.share, shareDragged))
	}
	line, stretch := k.Line, k.Stretch
	if ok {
		line, stretch = h.id, h.stretch
	}
	length := stretchM(sc, line, stretch)
	if p.fix.lengthM > length {
		why := sc.label("damper-limits", part.Text("length", lengthText(sc, length)))
		o.report, o.prompt = why, why
		return o
	}
	o = damperAt(sc, o, id, line, stretch, stepped(p.fix.lengthM/length, shareTyped))
	a, c := stretchEnds(sc, line, stretch)
	share := p.fix.lengthM / length
	o.texts = []draw.FreeText{{At: a.Plus(share*(c.X-a.X), share*(c.Y-a.Y)), Text: p.fix.text}}
	return o
}

// stretchM is how long a stretch is, in metres; 0: not known.
func stretchM(sc *scene, line plan.ID, stretch int) float64 {
	if s := sc.stretch(line, stretch); s != nil {
		return float64(s.Length)
	}
	return 0
}

// damperAt is the edit that lays a damper at a share of a stretch.
func damperAt(sc *scene, o outcome, id, line plan.ID, stretch int, share float64) outcome {
	k := damperOf(sc, id)
	o.name, o.preview = sc.label("edit-move", part.Text("thing", sc.name(id))), true
	from := quantity.Length(share * stretchM(sc, line, stretch))
	o.prompt = sc.label("damper-along", part.Text("length", lengthText(sc, float64(from))))
	if k.Line == line && k.Stretch == stretch && k.Share == share {
		return o
	}
	d := sc.draft(true)
	k, _ = d.Laid.Damper(id)
	k.Line, k.Stretch, k.Share = line, stretch, share
	o.plan = d.Plan
	return o
}

// stepDamper slides a damper along its stretch by steps of the grid, no further
// than its ends.
func stepDamper(b *Board, id plan.ID, steps float64) {
	k := damperOf(b.scene, id)
	length := stretchM(b.scene, k.Line, k.Stretch)
	if !(length > 0) {
		b.say(b.label("no-strap"))
		return
	}
	at := math.Max(0, math.Min(length, k.Share*length+steps*b.snapM))
	o := damperAt(b.scene, outcome{selected: []plan.ID{id}}, id, k.Line, k.Stretch, stepped(at/length, shareTyped))
	o.report = o.prompt
	b.run(o)
}
