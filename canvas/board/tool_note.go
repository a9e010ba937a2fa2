package board

import (
	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// noteTool places a note.
type noteTool struct{ common }

func (t *noteTool) aim(sc *scene, p pointer) outcome {
	at, guides := snap(sc, p, nil, trail{})
	n := plan.Note{At: at}
	n.ID = plan.NewID(sc.plan, plan.PrefixNote)
	n.Text = sc.label("note-text")
	d := sc.draft(false)
	d.Site.Notes = append(d.Site.Notes, n)
	return outcome{
		plan: d.Plan, name: sc.label("edit-place", part.Text("what", sc.label("edit-note"))), selected: []plan.ID{n.ID}, guides: guides,
		texts: []draw.FreeText{{At: at, Text: n.Text}},
		then:  func(b *Board) { b.ask(n.ID) },
	}
}
