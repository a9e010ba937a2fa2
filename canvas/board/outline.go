package board

import (
	"math"

	"kedge/canvas/draw"
	"kedge/solver/plan"
)

// roundCorners is how many corners a round obstacle gets: a circle of 5 m
// deviates by 4 cm. (ours)
const roundCorners = 24

// corner is what a click at p adds to the outline being drawn.
func (b *Board) corner(p pointer) outcome {
	at, guides := snap(b.scene, p, nil, trail{pts: b.points()})
	o := outcome{guides: guides, prompt: b.label("prompt-obstacle")}
	o.rubber = append(append([]plan.Point{}, b.points()...), at)
	for i := 0; i+1 < len(o.rubber); i++ {
		if l := dist(o.rubber[i], o.rubber[i+1]); l > fineM {
			o.texts = append(o.texts, draw.FreeText{At: mid(o.rubber[i], o.rubber[i+1]), Text: edgeText(b.scene, o.rubber, i)})
		}
	}
	if n := len(o.rubber); n == 1 {
		o.texts = append(o.texts, draw.FreeText{At: at, Text: placeText(b.scene, at)})
	} else {
		o.fixedText(p, o.rubber[n-2], at)
	}
	if n := len(o.rubber); n > 3 && selfCrosses(o.rubber) {
		o.refused, o.from = b.label("edges-cross"), n-2
	}
	return o
}

// edgeText is the length of an edge of a growing outline; of the last with the
// way it leads.
func edgeText(sc *scene, chain []plan.Point, i int) string {
	l := dist(chain[i], chain[i+1])
	if i+2 == len(chain) {
		return wayText(sc, chain[i], chain[i+1], l)
	}
	return lengthText(sc, l)
}

// selfCrosses tells that the last edge of a chain crosses an earlier one.
func selfCrosses(chain []plan.Point) bool {
	n := len(chain)
	for i := 0; i+3 < n; i++ {
		if plan.SegmentsMeet(chain[i], chain[i+1], chain[n-2], chain[n-1]) {
			return true
		}
	}
	return false
}

// points are the points collected so far.
func (b *Board) points() []plan.Point {
	if b.pending == nil {
		return nil
	}
	return b.pending.points
}

// addCorner takes a click of the obstacle tool. A click on the last corner, as
// the second of a double click is, adds none.
func (b *Board) addCorner(p pointer) {
	at, _ := snap(b.scene, p, nil, trail{pts: b.points()})
	if b.pending == nil {
		b.pending = &pending{}
	}
	pts := b.pending.points
	if n := len(pts); n > 0 && dist(pts[n-1], at)*b.view.PerM < dragPx {
		return
	}
	if n := len(pts); n >= 3 && dist(pts[0], at)*b.view.PerM < nearPx {
		b.closeOutline()
		return
	}
	b.pending.points = append(pts[:len(pts):len(pts)], at)
	b.show(b.corner(p))
}

// nextCorner is what letting go of a dragged edge at p does: on the first corner
// it closes the outline.
func (b *Board) nextCorner(p pointer) outcome {
	o := b.corner(p)
	pts := b.points()
	if len(pts) >= 3 && dist(pts[0], o.rubber[len(pts)])*b.view.PerM < nearPx {
		if c := obstacleEdit(b.scene, pts); c.plan != nil {
			o.plan, o.name, o.selected, o.then = c.plan, c.name, c.selected, c.then
		}
	}
	return o
}

// closeOutline makes the corners an obstacle.
func (b *Board) closeOutline() {
	o := obstacleEdit(b.scene, b.points())
	if o.plan == nil {
		b.say(o.report)
		return
	}
	b.pending = nil
	b.commit(o)
}

// obstacleEdit is the edit that places an obstacle; without a plan, why not.
func obstacleEdit(sc *scene, corners []plan.Point) outcome {
	if fault := plan.OutlineFault(corners); fault != "" {
		return outcome{report: sc.label("outline-refused", text("why", fault))}
	}
	ob := plan.Obstacle{Kind: "boulder", Outline: append([]plan.Point{}, corners...)}
	ob.ID = plan.NewID(sc.plan, plan.PrefixObstacle)
	ob.Presets = []string{"height_m"}
	d := sc.draft(false)
	d.Site.Obstacles = append(d.Site.Obstacles, ob)
	return outcome{
		plan: d.Plan, name: sc.label("edit-place", text("what", sc.label("kind-boulder"))), selected: []plan.ID{ob.ID},
		then: func(b *Board) { b.ask(ob.ID) },
	}
}

// roundObstacle is the round obstacle from its middle to p.
func roundObstacle(sc *scene, from, p pointer) outcome {
	middle, _ := snap(sc, from, nil, trail{})
	r := math.Max(stepped(dist(middle, p.at), 0.1), 0.1)
	if p.fix != nil && p.fix.hasLen {
		r = p.fix.lengthM / 2
	}
	corners := make([]plan.Point, roundCorners)
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / roundCorners)
		corners[i] = rounded(plus(middle, r*cos, r*sin), fineM/10)
	}
	o := obstacleEdit(sc, corners)
	o.rubber = append(corners, corners[0])
	o.texts = append(o.texts, draw.FreeText{At: middle, Text: sc.label("round", metres("across", 2*r))})
	o.fixedText(p, middle, middle)
	return o
}

// measuring is what a click at p adds to a measure.
func (b *Board) measuring(p pointer) outcome {
	to := measureAt(b.scene, p, b.points())
	o := outcome{guides: to.guides, ports: to.ports, prompt: b.label("prompt-measure-tool")}
	o.rubber = append(append([]plan.Point{}, b.points()...), to.at)
	o.texts = measureTexts(b.scene, o.rubber)
	if n := len(o.rubber); n > 1 {
		o.fixedText(p, o.rubber[n-2], to.at)
	}
	return o
}

// nextMeasure is what letting go at p does of a way that goes on from the points
// measured so far: the third ends it.
func (b *Board) nextMeasure(p pointer) outcome {
	o := b.measuring(p)
	if n := len(o.rubber); n == 3 && o.rubber[1] != o.rubber[2] {
		m := measureEdit(b.scene, o.rubber)
		o.plan, o.name, o.selected = m.plan, m.name, m.selected
	}
	return o
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
		if s, ok := spotAt(sc, p, nil); ok && dist(s.at, p.at)*sc.view.PerM <= snapPx*2 {
			return mark{at: rounded(s.at, fineM/10), ports: []draw.PortMark{{Port: s.port, At: s.at, Kind: s.kind, State: draw.PortUnder, Label: s.name}}}
		}
	}
	at, guides := snap(sc, p, nil, trail{before, measureClear})
	return mark{at: at, guides: guides}
}

func measureTexts(sc *scene, pts []plan.Point) []draw.FreeText {
	var list []draw.FreeText
	for i := 0; i+1 < len(pts); i++ {
		if l := dist(pts[i], pts[i+1]); l > fineM {
			list = append(list, draw.FreeText{At: mid(pts[i], pts[i+1]), Text: lengthText(sc, l)})
		}
	}
	if len(list) == 1 && len(pts) == 2 {
		list[0].Text = wayText(sc, pts[0], pts[1], dist(pts[0], pts[1]))
	}
	if len(pts) == 3 && pts[1] != pts[2] {
		list = append(list, draw.FreeText{At: pts[1], Text: sc.words.Value(degrees("", between(pts[1], pts[0], pts[2])), nil)})
	}
	return list
}

// addMeasure takes a click of the measure tool; the third ends it.
func (b *Board) addMeasure(p pointer) {
	at := measureAt(b.scene, p, b.points()).at
	if b.pending == nil {
		b.pending = &pending{}
	}
	pts := b.pending.points
	if n := len(pts); n > 0 && pts[n-1] == at {
		return
	}
	b.pending.points = append(pts[:len(pts):len(pts)], at)
	if len(b.pending.points) == 3 {
		b.endMeasure()
		return
	}
	b.show(b.measuring(p))
}

func (b *Board) endMeasure() {
	pts := b.points()
	b.pending = nil
	if len(pts) < 2 {
		b.show(outcome{})
		return
	}
	b.commit(measureEdit(b.scene, pts))
}

func measureEdit(sc *scene, pts []plan.Point) outcome {
	m := plan.Measure{Points: append([]plan.Point{}, pts...)}
	m.ID = plan.NewID(sc.plan, plan.PrefixMeasure)
	d := sc.draft(false)
	d.Site.Measures = append(d.Site.Measures, m)
	return outcome{plan: d.Plan, name: sc.label("edit-place", text("what", sc.label("edit-measure"))), selected: []plan.ID{m.ID},
		rubber: pts, texts: measureTexts(sc, pts)}
}
