package board

import (
	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// blockTool places a block.
type blockTool struct{ common }

func (t *blockTool) stops(sc *scene) ([]stop, bool) { return stopsAt(sc, anySpot), true }

// aim is what a click at p does: on a trunk a block is
// slung to it, on a point it is fixed there, on a stretch next to an anchor the
// line is bent over it, elsewhere it lies loose.
func (t *blockTool) aim(sc *scene, p pointer) outcome {
	want := func(s spot) bool {
		return s.kind != draw.PortFairlead && s.kind != draw.PortSheave && s.kind != draw.PortSling
	}
	k := sc.gear().Block()
	o := outcome{name: sc.label("edit-place", part.Text("what", sc.label("edit-block"))), ports: portMarks(sc, p, want, nil, nil), prompt: sc.label("prompt-block-tool")}
	d := sc.draft(true)
	if s, ok := spotAt(sc, p, want); ok {
		toward := p.at
		if toward == s.at {
			if c := sc.plan.Casualty(); c != nil {
				toward = c.At
			}
		}
		port, what := blockFor(sc, d, s.port, toward, 0)
		o.plan, o.selected, o.report = d.Plan, []plan.ID{port.Thing}, sc.label("added", part.Text("what", what))
		o.texts = []draw.FreeText{{At: s.at, Text: hangText(sc, d, s, port.Thing)}}
		if placed, ok := d.Laid.Block(port.Thing); ok {
			o.ghost = &draw.Ghost{Block: placed}
		}
		return o
	}
	at, guides := snap(sc, p, nil, trail{})
	k.At = at
	id := d.AddBlock(k)
	o.plan, o.selected, o.guides = d.Plan, []plan.ID{id}, guides
	o.ghost = &draw.Ghost{Block: &k, Label: sc.label("hangs-loose")}
	return o
}
