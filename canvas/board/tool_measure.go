package board

import (
	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// measureTool measures between two points, and the angle at the second of three.
type measureTool struct{ common }

func (t *measureTool) fixable(*scene) fixable { return fixFrom(t.points) }

func (t *measureTool) stops(sc *scene) ([]stop, bool) { return stopsAt(sc, anySpot), true }

func (t *measureTool) press(b *Board, p pointer, clicks int) *gesture {
	return pressPoint(b, t, p, clicks, func() (fixable, func(q pointer) outcome) {
		from := measureAt(b.scene, p, nil).at
		return fixable{fixLength, from}, func(q pointer) outcome { return measured(b.scene, from, q) }
	})
}

// aim is what a click at p adds to a measure.
func (t *measureTool) aim(sc *scene, p pointer) outcome {
	to := measureAt(sc, p, t.points)
	o := outcome{guides: to.guides, ports: to.ports, prompt: sc.label("prompt-measure-tool")}
	o.rubber = append(append([]plan.Point{}, t.points...), to.at)
	o.texts = measureTexts(sc, o.rubber)
	if n := len(o.rubber); n > 1 {
		o.fixedText(p, o.rubber[n-2], to.at)
	}
	return o
}

// next is what letting go at p does of a way that goes on from the points
// measured so far: the third ends it.
func (t *measureTool) next(sc *scene, p pointer) outcome {
	o := t.aim(sc, p)
	if n := len(o.rubber); n == 3 && o.rubber[1] != o.rubber[2] {
		m := measureEdit(sc, o.rubber)
		o.plan, o.name, o.selected = m.plan, m.name, m.selected
	}
	return o
}

// add takes a point; the third ends it.
func (t *measureTool) add(b *Board, p pointer) {
	at := measureAt(b.scene, p, t.points).at
	pts := t.points
	if n := len(pts); n > 0 && pts[n-1] == at {
		return
	}
	t.points = append(pts[:len(pts):len(pts)], at)
	if len(t.points) == 3 {
		t.end(b)
		return
	}
	b.show(t.aim(b.scene, p))
}

func (t *measureTool) end(b *Board) {
	pts := t.points
	if len(pts) == 0 {
		return
	}
	t.drop()
	if len(pts) < 2 {
		b.show(outcome{})
		return
	}
	b.commit(measureEdit(b.scene, pts))
}

// measured is the measure dragged from a place to p.
func measured(sc *scene, from plan.Point, p pointer) outcome {
	to := measureAt(sc, p, []plan.Point{from})
	if to.at == from {
		return outcome{}
	}
	o := measureEdit(sc, []plan.Point{from, to.at})
	o.guides, o.ports = to.guides, to.ports
	o.fixedText(p, from, to.at)
	return o
}

// mark is the place a measure takes and why it does.
type mark struct {
	at     plan.Point
	guides []draw.Guide
	ports  []draw.PortMark
}

// measureAt is the place a measure takes: a hook-on point under the pointer
// before the grid, with its name. Alt holds it off.
func measureAt(sc *scene, p pointer, before []plan.Point) mark {
	if p.fix == nil && !p.mods.Alt {
		if s, ok := spotAt(sc, p, nil); ok && s.at.Dist(p.at)*sc.view.PerM <= snapPx*2 {
			return mark{at: rounded(s.at, fineM/10), ports: []draw.PortMark{{Port: s.port, At: s.at, Kind: s.kind, State: draw.PortUnder, Label: s.name}}}
		}
	}
	at, guides := snap(sc, p, nil, trail{before, measureClear})
	return mark{at: at, guides: guides}
}

func measureTexts(sc *scene, pts []plan.Point) []draw.FreeText {
	var list []draw.FreeText
	for i := 0; i+1 < len(pts); i++ {
		if l := pts[i].Dist(pts[i+1]); l > fineM {
			list = append(list, draw.FreeText{At: pts[i].Mid(pts[i+1]), Text: lengthText(sc, l)})
		}
	}
	if len(list) == 1 && len(pts) == 2 {
		list[0].Text = wayText(sc, pts[0], pts[1], pts[0].Dist(pts[1]))
	}
	if len(pts) == 3 && pts[1] != pts[2] {
		list = append(list, draw.FreeText{At: pts[1], Text: sc.words.Value(degrees("", between(pts[1], pts[0], pts[2])), nil)})
	}
	return list
}

func measureEdit(sc *scene, pts []plan.Point) outcome {
	m := plan.Measure{Points: append([]plan.Point{}, pts...)}
	m.ID = plan.NewID(sc.plan, plan.PrefixMeasure)
	d := sc.draft(false)
	d.Site.Measures = append(d.Site.Measures, m)
	return outcome{plan: d.Plan, name: sc.label("edit-place", part.Text("what", sc.label("edit-measure"))), selected: []plan.ID{m.ID},
		rubber: pts, texts: measureTexts(sc, pts)}
}
