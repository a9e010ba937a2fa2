package board

import (
	"math"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// Bounds of the picture's scale, pixels per metre: a kilometre across, and a
// shackle as large as a hand. (ours)
const (
	leastPerM = 0.5
	mostPerM  = 2000
)

// zoomStep is the factor of one click of the wheel or key.
const zoomStep = 1.15

// fitM is the least extent, in metres, that fits the picture: an empty sheet
// shows as much.
const (
	fitWideM = 42
	fitHighM = 24
)

// zoom changes the scale about a place of the picture.
func (b *Board) zoom(factor, x, y float64) {
	at := b.view.ToPlan(x, y)
	b.view.PerM = math.Min(mostPerM, math.Max(leastPerM, b.view.PerM*factor))
	now := b.view.ToPlan(x, y)
	b.view.Middle = b.view.Middle.Plus(at.X-now.X, at.Y-now.Y)
	b.fitted = true
	b.changed()
}

// pan moves the picture by pixels.
func (b *Board) pan(dx, dy float64) {
	b.view.Middle = b.view.Middle.Plus(-dx/b.view.PerM, dy/b.view.PerM)
	b.fitted = true
	b.changed()
}

// fitAll shows the whole plan with the stand-off round it: where people may be.
func (b *Board) fitAll() {
	b.fitted = true
	var room []plan.Point
	for _, z := range b.planWhole().Zones {
		if z.Kind == part.ZoneStandOff {
			room = append(room, z.Outline...)
		}
	}
	b.fit(room...)
}

// fit shows everything that is on the site and the rig, and further places.
func (b *Board) fit(more ...plan.Point) {
	box := terrain.Bounds(more)
	b.everything(func(_ plan.ID, _ plan.ThingKind, pts []plan.Point) { box = box.AddRect(terrain.Bounds(pts)) })
	b.view.UnitsPerPx = 1
	if box.IsEmpty() {
		if box = draw.Bounds(b.plan, nil); !box.IsEmpty() { // a survey or a picture alone
			b.view = draw.Fit(box, b.view.W, b.view.H, 40)
			b.changed()
			return
		}
		b.view.Middle = plan.Point{X: 20, Y: 11}
		b.view.PerM = math.Max(leastPerM, math.Min(b.view.W/fitWideM, b.view.H/fitHighM))
		b.changed()
		return
	}
	const margin = 4 // metres round the outermost thing
	b.view.Middle = plan.Point(box.Center())
	wide, high := math.Max(12, box.X.Length()+2*margin), math.Max(8, box.Y.Length()+2*margin)
	b.view.PerM = math.Min(mostPerM, math.Max(leastPerM, math.Min(b.view.W/wide, b.view.H/high)))
	b.changed()
}

// resize gives the board another size. A picture nobody has moved is fitted
// anew, so that a plan opened before the window had its size is seen whole.
func (b *Board) resize(w, h float64) {
	if !(w > 0) || !(h > 0) || math.IsInf(w, 0) || math.IsInf(h, 0) {
		return
	}
	b.view.W, b.view.H = w, h
	if !b.fitted {
		b.fit()
	}
	b.changed()
}
