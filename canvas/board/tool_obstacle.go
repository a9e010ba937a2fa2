package board

import (
	"math"

	"kedge/canvas/draw"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// roundCorners is how many corners a round obstacle gets: a circle of 5 m
// deviates by 4 cm. (ours)
const roundCorners = 24

// obstacleTool draws an outline corner by corner, or drags a round one from its
// middle.
type obstacleTool struct{ common }

func (t *obstacleTool) prompt(sc *scene) string { return sc.label("prompt-obstacle") }

func (t *obstacleTool) fixable(*scene) fixable { return fixFrom(t.points) }

func (t *obstacleTool) press(b *Board, p pointer, clicks int) *gesture {
	return pressPoint(b, t, p, clicks, func() (fixable, func(q pointer) outcome) {
		middle, _ := snap(b.scene, p, nil, trail{})
		return fixable{fixAcross, middle}, func(q pointer) outcome { return roundObstacle(b.scene, p, q) }
	})
}

// aim is what a click at p adds to the outline being drawn.
func (t *obstacleTool) aim(sc *scene, p pointer) outcome {
	at, guides := snap(sc, p, nil, trail{pts: t.points})
	o := outcome{guides: guides, prompt: sc.label("prompt-obstacle")}
	o.rubber = append(append([]plan.Point{}, t.points...), at)
	for i := 0; i+1 < len(o.rubber); i++ {
		if l := o.rubber[i].Dist(o.rubber[i+1]); l > fineM {
			o.texts = append(o.texts, draw.FreeText{At: o.rubber[i].Mid(o.rubber[i+1]), Text: edgeText(sc, o.rubber, i)})
		}
	}
	if n := len(o.rubber); n == 1 {
		o.texts = append(o.texts, draw.FreeText{At: at, Text: placeText(sc, at)})
	} else {
		o.fixedText(p, o.rubber[n-2], at)
	}
	if n := len(o.rubber); n > 3 && selfCrosses(o.rubber) {
		o.refused, o.from = sc.label("edges-cross"), n-2
	}
	return o
}

// edgeText is the length of an edge of a growing outline; of the last with the
// way it leads.
func edgeText(sc *scene, chain []plan.Point, i int) string {
	l := chain[i].Dist(chain[i+1])
	if i+2 == len(chain) {
		return wayText(sc, chain[i], chain[i+1], l)
	}
	return lengthText(sc, l)
}

// selfCrosses reports whether the last edge of a chain crosses an earlier one.
func selfCrosses(chain []plan.Point) bool {
	n := len(chain)
	for i := 0; i+3 < n; i++ {
		if plan.SegmentsMeet(chain[i], chain[i+1], chain[n-2], chain[n-1]) {
			return true
		}
	}
	return false
}

// add takes a corner. A click on the last corner, as
// the second of a double click is, adds none.
func (t *obstacleTool) add(b *Board, p pointer) {
	at, _ := snap(b.scene, p, nil, trail{pts: t.points})
	pts := t.points
	if n := len(pts); n > 0 && pts[n-1].Dist(at)*b.view.PerM < dragPx {
		return
	}
	if n := len(pts); n >= 3 && pts[0].Dist(at)*b.view.PerM < nearPx {
		t.end(b)
		return
	}
	t.points = append(pts[:len(pts):len(pts)], at)
	b.show(t.aim(b.scene, p))
}

// next is what letting go of a dragged edge at p does: on the first corner
// it closes the outline.
func (t *obstacleTool) next(sc *scene, p pointer) outcome {
	o := t.aim(sc, p)
	pts := t.points
	if len(pts) >= 3 && pts[0].Dist(o.rubber[len(pts)])*sc.view.PerM < nearPx {
		if c := obstacleEdit(sc, pts); c.plan != nil {
			o.plan, o.name, o.selected, o.then = c.plan, c.name, c.selected, c.then
		}
	}
	return o
}

// end makes the corners an obstacle.
func (t *obstacleTool) end(b *Board) {
	if len(t.points) == 0 {
		return
	}
	o := obstacleEdit(b.scene, t.points)
	if o.plan == nil {
		b.say(o.report)
		return
	}
	t.drop()
	b.commit(o)
}

// obstacleEdit is the edit that places an obstacle; without a plan, why not.
func obstacleEdit(sc *scene, corners []plan.Point) outcome {
	if fault := plan.OutlineFault(corners); fault != nil {
		return outcome{report: sc.label("outline-refused", part.Text("why", sc.words.Refusal(fault)))}
	}
	ob := plan.Obstacle{Kind: "boulder", Outline: append([]plan.Point{}, corners...)}
	ob.ID = plan.NewID(sc.plan, plan.PrefixObstacle)
	ob.Presets = []string{"height_m"}
	tracedOutline(sc, &ob)
	d := sc.draft(false)
	d.Site.Obstacles = append(d.Site.Obstacles, ob)
	return outcome{
		plan: d.Plan, name: sc.label("edit-place", part.Text("what", sc.label("kind-boulder"))), selected: []plan.ID{ob.ID},
		then: func(b *Board) { b.ask(ob.ID) },
	}
}

// roundObstacle is the round obstacle from its middle to p.
func roundObstacle(sc *scene, from, p pointer) outcome {
	middle, _ := snap(sc, from, nil, trail{})
	r := math.Max(stepped(middle.Dist(p.at), 0.1), 0.1)
	if p.fix != nil && p.fix.hasLen {
		r = p.fix.lengthM / 2
	}
	corners := make([]plan.Point, roundCorners)
	for i := range corners {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / roundCorners)
		corners[i] = rounded(middle.Plus(r*cos, r*sin), fineM/10)
	}
	o := obstacleEdit(sc, corners)
	o.rubber = append(corners, corners[0])
	o.texts = append(o.texts, draw.FreeText{At: middle, Text: sc.label("round", part.Length("across", 2*r))})
	o.fixedText(p, middle, middle)
	return o
}
