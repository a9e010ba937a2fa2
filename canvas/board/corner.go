package board

import (
	"slices"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// cornersOf are the places of a thing that can be dragged one by one: the
// corners of an obstacle, the points of a measure.
func cornersOf(sc *scene, id plan.ID) []plan.Point {
	x := sc.at()
	if o := x.Obstacle(id); o != nil && !o.Locked {
		return o.Outline
	}
	if s := x.Find(id); s.Kind == plan.ThingMeasure && !sc.plan.Site.Measures[s.Pos].Locked {
		return sc.plan.Site.Measures[s.Pos].Points
	}
	return nil
}

// cornerHandle is the gesture of the corner under the pointer.
func cornerHandle(sc *scene, id plan.ID, p pointer) *gesture {
	for i, c := range cornersOf(sc, id) {
		if c.Dist(p.at)*sc.view.PerM <= hitPx/2 {
			return &gesture{from: p, dragged: []plan.ID{id}, tap: func(b *Board) { pick(b, id, p) }, fix: fixable{fixLength, cornerBefore(sc, id, i)},
				outcome: func(q pointer) outcome { return moveCorner(sc, id, i, q) }}
		}
	}
	return nil
}

// cornerBefore is the corner from which the edge leads to the i-th one; of a
// measure's first point the one after it.
func cornerBefore(sc *scene, id plan.ID, i int) plan.Point {
	pts := cornersOf(sc, id)
	switch n := len(pts); {
	case i >= n:
		return plan.Point{}
	case i > 0:
		return pts[i-1]
	case sc.at().Kind(id) == plan.ThingMeasure:
		return pts[min(1, n-1)]
	default:
		return pts[n-1]
	}
}

// moveCorner is what letting go of a corner at p does. An outline that would
// cross itself is refused.
func moveCorner(sc *scene, id plan.ID, i int, p pointer) outcome {
	at, guides := snap(sc, p, []plan.ID{id}, trail{})
	o := outcome{name: sc.label("edit-corner", part.Text("thing", sc.name(id))), guides: guides, preview: true,
		texts: []draw.FreeText{{At: at, Text: placeText(sc, at)}}}
	o.fixedText(p, cornerBefore(sc, id, i), at)
	pts := cornersOf(sc, id)
	if i >= len(pts) || pts[i] == at {
		return o
	}
	pts = slices.Clone(pts)
	pts[i] = at
	d := sc.draft(false)
	s := d.Index().Find(id)
	if s.Kind == plan.ThingMeasure {
		d.Site.Measures[s.Pos].Points = pts
		o.texts = measureTexts(sc, pts)
		o.fixedText(p, cornerBefore(sc, id, i), at)
		o.plan = d.Plan
		return o
	}
	if fault := plan.OutlineFault(pts); fault != nil {
		o.rubber = append(pts, pts[0])
		o.refused, o.report = sc.label("edges-cross"), sc.label("outline-refused", part.Text("why", sc.words.Refusal(fault)))
		return o
	}
	d.Site.Obstacles[s.Pos].Outline = pts
	o.plan = d.Plan
	return o
}
