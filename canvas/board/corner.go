package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/plan"
)

// cornersOf are the places of a thing that can be dragged one by one: the
// corners of an obstacle, the points of a measure.
func (b *Board) cornersOf(id plan.ID) []plan.Point {
	x := b.at()
	if o := x.Obstacle(id); o != nil && !o.Locked {
		return o.Outline
	}
	if s := x.Find(id); s.Kind == plan.ThingMeasure && !b.plan.Site.Measures[s.Pos].Locked {
		return b.plan.Site.Measures[s.Pos].Points
	}
	return nil
}

// cornerHandle is the gesture of the corner under the pointer.
func (b *Board) cornerHandle(id plan.ID, p pointer) *gesture {
	for i, c := range b.cornersOf(id) {
		if dist(c, p.at)*b.view.PerM <= hitPx/2 {
			return &gesture{from: p, dragged: []plan.ID{id}, tap: func() { b.pick(id, p) }, fix: fixable{fixLength, b.cornerBefore(id, i)},
				outcome: func(q pointer) outcome { return b.moveCorner(id, i, q) }}
		}
	}
	return nil
}

// cornerBefore is the corner from which the edge leads to the i-th one; of a
// measure's first point the one after it.
func (b *Board) cornerBefore(id plan.ID, i int) plan.Point {
	pts := b.cornersOf(id)
	switch n := len(pts); {
	case i >= n:
		return plan.Point{}
	case i > 0:
		return pts[i-1]
	case b.at().Kind(id) == plan.ThingMeasure:
		return pts[min(1, n-1)]
	default:
		return pts[n-1]
	}
}

// moveCorner is what letting go of a corner at p does. An outline that would
// cross itself is refused.
func (b *Board) moveCorner(id plan.ID, i int, p pointer) outcome {
	at, guides := b.snap(p, []plan.ID{id}, nil)
	o := outcome{name: b.label("edit-corner", text("thing", b.name(id))), guides: guides, preview: true,
		texts: []draw.FreeText{{At: at, Text: b.placeText(at)}}}
	o.fixedText(p, b.cornerBefore(id, i), at)
	pts := b.cornersOf(id)
	if i >= len(pts) || pts[i] == at {
		return o
	}
	pts = slices.Clone(pts)
	pts[i] = at
	d := b.draft(false)
	s := d.index().Find(id)
	if s.Kind == plan.ThingMeasure {
		d.Site.Measures[s.Pos].Points = pts
		o.texts = b.measureTexts(pts)
		o.fixedText(p, b.cornerBefore(id, i), at)
		o.plan = d.Plan
		return o
	}
	if fault := plan.OutlineFault(pts); fault != "" {
		o.rubber = append(pts, pts[0])
		o.refused, o.report = b.label("edges-cross"), b.label("outline-refused", text("why", fault))
		return o
	}
	d.Site.Obstacles[s.Pos].Outline = pts
	o.plan = d.Plan
	return o
}
