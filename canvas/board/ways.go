package board

import (
	"kedge/canvas/draw"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Ways round: rigs proposed for the pull that is shown, one of them looked at.
// The way looked at is shown as it would be taken; until it is taken the plan
// stays as it is. Whatever else is done leaves the ways.

// waysRound are the ways that are shown.
type waysRound struct {
	found layout.Proposal
	at    int // the one looked at; -1: there is none
}

// Ways are the ways round that are shown, and which of them is looked at; -1 if
// there is none. Nil: they are not shown.
func (b *Board) Ways() (found *layout.Proposal, at int) {
	if b.ways == nil {
		return nil, -1
	}
	return &b.ways.found, b.ways.at
}

// way is the one looked at, nil if there is none.
func (sc *scene) way() *layout.Way {
	if sc.ways == nil || sc.ways.at < 0 {
		return nil
	}
	return &sc.ways.found.Ways[sc.ways.at]
}

// openWays finds the ways round for the rig shown and looks at the best.
func (b *Board) openWays() {
	b.cancel()
	b.question, b.cross, b.report = nil, nil, ""
	if b.Tool() != ToolSelect {
		b.arm(ToolSelect)
	}
	b.ways = &waysRound{found: layout.Propose(b.plan, b.rig, b.gear()), at: -1}
	b.LookAtWay(0)
}

// LookAtWay shows the i-th way as it would be taken; one that there is not
// changes nothing.
func (b *Board) LookAtWay(i int) {
	if b.ways == nil {
		return
	}
	if i >= 0 && i < len(b.ways.found.Ways) {
		b.ways.at = i
		b.show(outcome{plan: b.ways.found.Ways[i].Plan, preview: true})
	}
	b.changed()
}

// TakeWay takes the way looked at as a new rig, as one undo step.
func (b *Board) TakeWay() {
	w := b.way()
	if w == nil {
		return
	}
	name, rig := wayName(b.scene, w), w.Rig
	o := outcome{plan: w.Plan, name: b.label("edit-way", part.Text("way", name)), report: b.label("way-taken", part.Text("way", name))}
	if r, ok := w.Plan.Rig(rig); ok && len(r.Lines) > 0 {
		line := r.Lines[0].ID
		o.then = func(b *Board) { b.ShowRig(rig); b.Select(line) }
	}
	b.commit(o)
}

// leaveWays shows the plan as it is.
func (b *Board) leaveWays() {
	if b.ways != nil {
		b.cancel()
	}
}

func wayName(sc *scene, w *layout.Way) string {
	return sc.words.Way(w.Kind, w.Over, w.End, sc.naming())
}

// atWays takes an event while ways are shown; false if it is for the board.
func (b *Board) atWays(ev Event) bool {
	switch e := ev.(type) {
	case PointerMove: // a picture being moved is the board's
		return b.gesture == nil && (b.pointTo(e.X, e.Y, e.Mods) || true)
	case PointerLeave:
		b.pointer.on = false
		return true
	case PointerDown: // what lies under the pointer may be gone with the preview: it is not taken hold of
		if e.Button == ButtonMiddle {
			return false
		}
		b.leaveWays()
		return true
	case Wheel:
		e.Mods.Alt = false
		if finiteAll(e.X, e.Y, e.DX, e.DY) {
			b.wheel(e)
		}
		return true
	case Key:
		return b.wayKey(e)
	case Rune:
		switch e.R {
		case '+', '=', '-', 'u', 'U':
			return false
		}
		b.leaveWays()
		return e.R == 'w' || e.R == 'W'
	case Command:
		if e.ID == "ways" {
			b.leaveWays()
			return true
		}
	}
	return false
}

// wayKey takes a named key while ways are shown.
func (b *Board) wayKey(e Key) bool {
	if e.Mods.Ctrl {
		return false
	}
	at, n := b.ways.at, len(b.ways.found.Ways)
	switch e.Name {
	case "ArrowUp":
		b.LookAtWay(max(at-1, 0))
	case "ArrowDown":
		b.LookAtWay(min(at+1, n-1))
	case "Home":
		b.LookAtWay(0)
	case "End":
		b.LookAtWay(n - 1)
	case "Enter", "Return":
		b.TakeWay()
	case "Escape":
		b.leaveWays()
	}
	return true
}

// wayPrompt is the status line while ways are shown.
func wayPrompt(sc *scene) string {
	if w := sc.way(); w != nil {
		return sc.label("way-preview", part.Text("way", wayName(sc, w)), part.Count("count", sc.ways.at+1), part.Count("of", len(sc.ways.found.Ways)))
	}
	return sc.words.NoWay(&sc.ways.found)
}

// wayOverlay is what the board adds to the picture of a way: nothing can be taken
// hold of in it.
func (b *Board) wayOverlay() *draw.Overlay {
	v := &draw.Overlay{Flagged: b.flagged, Preview: b.shown != nil}
	if w := b.way(); w != nil {
		for i := range w.Plan.Rigs {
			if r := &w.Plan.Rigs[i]; r.ID == w.Rig && len(r.Lines) > 0 {
				v.Selected = []plan.ID{r.Lines[0].ID}
			}
		}
	}
	b.overPicture(v)
	return v
}
