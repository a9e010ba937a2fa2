package board

import (
	"maps"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Tags and flags of the picture: a click selects what they are about, pointing
// at one shows its sum, a drag puts it elsewhere by hand, a double click gives
// it back. Where they lie is a matter of the view: no undo step, not stored.

// handed is a tag on its way: where it is put, from the place it belongs to.
type handed struct {
	key string
	off r2.Point // logical pixels
}

// SetLabelBoxes tells the board where the labels of the last picture lie, as in
// [draw.Labels], in pen units of its view. The list is not kept changed: it may
// be used again. Nothing is drawn anew for it.
func (b *Board) SetLabelBoxes(boxes []draw.LabelBox) { b.boxes = append(b.boxes[:0], boxes...) }

// LabelHand is where tags were put by hand, for the next picture's
// [draw.Labels.Hand]: the one that is being dragged included. It is a copy; nil
// if there are none.
func (b *Board) LabelHand() map[string]r2.Point {
	hand := maps.Clone(b.hand)
	if t := b.out.hand; t != nil {
		if hand == nil {
			hand = map[string]r2.Point{}
		}
		hand[t.key] = t.off
	}
	return hand
}

// tagAt is the tag or flag at a place of the view, nil if there is none. Names
// and lengths are no tags: they lie on what they belong to.
func tagAt(sc *scene, p pointer) *draw.LabelBox {
	if p.keys || !p.on {
		return nil
	}
	x, y := p.x*penPerPx(sc), p.y*penPerPx(sc)
	i := slices.IndexFunc(sc.boxes, func(l draw.LabelBox) bool {
		return l.Box.X.Lo <= x && x < l.Box.X.Hi && l.Box.Y.Lo <= y && y < l.Box.Y.Hi && (l.Part != "" || l.Finding > 0)
	})
	if i < 0 {
		return nil
	}
	return &sc.boxes[i]
}

func penPerPx(sc *scene) float64 {
	if u := sc.view.UnitsPerPx; u > 0 {
		return u
	}
	return 1
}

// tagFinding is the finding of a flag, nil if the box is none.
func tagFinding(sc *scene, l *draw.LabelBox) *part.Finding {
	a := sc.planWhole()
	if l.Finding <= 0 || l.Finding > len(a.Findings) {
		return nil
	}
	return &a.Findings[l.Finding-1]
}

// tagThings are the things that a tag or flag is about.
func tagThings(sc *scene, l *draw.LabelBox) []plan.ID {
	if f := tagFinding(sc, l); f != nil {
		return f.Things
	}
	if p, ok := sc.planWhole().Part(l.Part); ok && p.Thing != "" {
		return []plan.ID{p.Thing}
	}
	if l.Thing != "" {
		return []plan.ID{l.Thing}
	}
	return nil
}

// tagGesture is the gesture on a tag or flag.
func tagGesture(sc *scene, l draw.LabelBox, from pointer) *gesture {
	u := penPerPx(sc)
	off := l.Box.Center().Sub(l.At).Mul(1 / u)
	return &gesture{from: from, tap: func(b *Board) { pickTag(b, &l, from) }, outcome: func(p pointer) outcome {
		t := &handed{l.Key, r2.Point{X: off.X + p.x - from.x, Y: off.Y + p.y - from.y}}
		return outcome{hand: t, prompt: sc.label("prompt-tag"), then: func(b *Board) {
			b.hand = b.LabelHand()
			if b.hand == nil {
				b.hand = map[string]r2.Point{}
			}
			b.hand[t.key] = t.off
		}}
	}}
}

// pickTag selects what a tag is about; Shift adds it.
func pickTag(b *Board, l *draw.LabelBox, from pointer) {
	things := tagThings(b.scene, l)
	if from.mods.Shift {
		things = append(b.Selection(), things...)
	}
	b.Select(things...)
	if f := tagFinding(b.scene, l); f != nil {
		b.Flag(f.Key())
	}
}

// giveBack lets the picture place a tag again that was put somewhere by hand.
// False if there is none at p.
func giveBack(b *Board, p pointer) bool {
	l := tagAt(b.scene, p)
	if l == nil {
		return false
	}
	if _, was := b.hand[l.Key]; !was {
		return false
	}
	b.hand = maps.Clone(b.hand)
	delete(b.hand, l.Key)
	b.changed()
	return true
}
