package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/plan"
)

// Hanging by keyboard: H on a block hangs it elsewhere, H on a line bends it
// over something; Tab goes from point to point, Enter takes it. What is done is
// what dragging there does.

// startHang begins it for the block or line that is selected alone.
func (b *Board) startHang() {
	x := b.at()
	if len(b.selection) != 1 || x.Block(b.selection[0]) == nil && x.Line(b.selection[0]) == nil {
		return
	}
	id := b.selection[0]
	b.cancel()
	b.hang = id
	b.say(b.label("prompt-hang", text("thing", b.name(id))))
}

// hangAt is what taking a place does while something is being hung.
func (b *Board) hangAt(id plan.ID, p pointer) outcome {
	if b.at().Line(id) != nil {
		return b.bend(id, b.bendStretch(id), p)
	}
	return b.moveBlock(id, p)
}

// hangWants tells on which hook-on points something can be hung.
func (b *Board) hangWants(id plan.ID) func(spot) bool {
	if l := b.at().Line(id); l != nil {
		return bendWants(l)
	}
	on := plan.Port{}
	if r := b.at().Rig; r != nil {
		if s := slungBy(r, id); s != nil {
			on = s.On
		}
	}
	return func(s spot) bool { return hangable(s) && s.port != on }
}

// hangable tells that a sling can go round, or be hooked to, a point of the
// site.
func hangable(s spot) bool {
	return s.site && (s.kind == draw.PortTrunk || s.kind == draw.PortRated || s.kind == draw.PortEye)
}

// bendWants tells over which hook-on points a line can be led.
func bendWants(l *plan.Line) func(spot) bool {
	return func(s spot) bool {
		return !slices.Contains(l.Path, s.port) && s.port.Point != plan.PortWinch && s.port.Point != plan.PortBecket && s.kind != draw.PortSling
	}
}

// bendStretch is the stretch of a line that wants bending first: one that bears
// on something, else the longest.
func (b *Board) bendStretch(id plan.ID) int {
	best, length := 0, -1.0
	a := b.planAnswer()
	for i := range a.Stretches {
		s := &a.Stretches[i]
		if s.Line != id {
			continue
		}
		if len(s.Contacts) > 0 {
			return s.Index
		}
		if float64(s.Length) > length {
			best, length = s.Index, float64(s.Length)
		}
	}
	return best
}
