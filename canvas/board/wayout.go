package board

import (
	"math"
	"slices"

	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// The exit path of the casualty that is selected alone is shaped by its handles: its
// end, its bends, and the middle of each leg, where another bend is put in. What is
// dragged is the path of what moves along it, see [plan.WayLine]; the path then ends at
// its last corner, and is as long as its line.

// wayHandle is a handle of an exit path.
type wayHandle struct {
	kind wayKind
	n    int // of a bend; of a leg, the corner it comes from: counted from the start, which is 0
	at   plan.Point
}

// wayKind is what a handle of an exit path takes hold of.
type wayKind int

const (
	wayBend wayKind = iota + 1
	wayLeg
	wayEnd
)

// handleKind is how draw knows a handle.
func (k wayKind) handleKind() string { return [...]string{"", "corner", "add", "end"}[k] }

const (
	leastLegM  = 0.1 // of a path drawn by hand: a shorter leg is a slip of the hand (ours)
	wayNextPx  = 64  // ahead of a casualty whose path has no length yet lies its end, beyond the turn handle (ours)
	usualBodyM = 4.6 // of a vehicle whose length nobody entered, as it is drawn
)

// wayDrawn is the exit path of a casualty as its handles have it: corners from the
// start to the end.
type wayDrawn struct {
	v       *plan.Vehicle
	corners []plan.Point // start, bends, end
	ahead   plan.Point   // unit: in which the path begins
	lead    float64      // from what moves to the front of the body, metres
	known   bool         // it has a length
	bent    bool         // it was drawn with bends, be it only one that says where it leads
	steered bool         // it follows its wheels
}

// wayOf is the exit path of a casualty that may be shaped; nil if there is none.
func wayOf(sc *scene, id plan.ID) *wayDrawn {
	v := sc.at().Vehicle(id)
	if v == nil || v.Stuck == nil || v.Locked || v.Hidden {
		return nil
	}
	return drawnWay(v)
}

func drawnWay(v *plan.Vehicle) *wayDrawn {
	w := &wayDrawn{v: v, known: v.Stuck.WayLength > 0, steered: v.Stuck.Way != plan.WayFree}
	line, ok := v.WayLine()
	to := v.Bearing // of a free way that nobody found yet
	if ok {
		to, _ = v.WayOut()
	}
	e, n := plan.Heading(to)
	w.ahead = plan.Point{X: e, Y: n}
	long := float64(v.Length)
	if !(long > 0) {
		long = usualBodyM
	}
	start := v.At
	if ok {
		start = line.Track(0)
	}
	w.lead = long / 2
	if w.steered {
		be, bn := plan.Heading(v.Bearing)
		off := (start.X-v.At.X)*be + (start.Y-v.At.Y)*bn // of the rear axle, ahead of the middle
		if v.Stuck.Way == plan.WayReverse {
			off = -off
		}
		w.lead -= off
	}
	switch {
	case ok && (w.known || line.LongM() > 0):
		reach := float64(v.Stuck.WayLength)
		if !w.known {
			reach = line.LongM()
		}
		w.corners, w.bent = line.Corners(reach), line.LongM() > 0
	default:
		w.corners = []plan.Point{start, start}
	}
	return w
}

// tip is where the end of the path is taken: where the front of the body comes to.
func (w *wayDrawn) tip(sc *scene) plan.Point {
	end, dir := w.corners[len(w.corners)-1], w.dir(len(w.corners)-2)
	if end == w.corners[0] {
		off := w.lead + wayNextPx/sc.view.PerM
		return end.Plus(off*dir.X, off*dir.Y)
	}
	return end.Plus(w.lead*dir.X, w.lead*dir.Y)
}

// dir is the direction of the leg that comes from corner n.
func (w *wayDrawn) dir(n int) plan.Point {
	a, c := w.corners[n], w.corners[n+1]
	if l := a.Dist(c); l > 0 {
		return plan.Point{X: (c.X - a.X) / l, Y: (c.Y - a.Y) / l}
	}
	return w.ahead
}

// handles are those of the path, in the order in which it is driven. A leg has none
// while its middle lies under the body.
func (w *wayDrawn) handles(sc *scene) []wayHandle {
	var list []wayHandle
	last := len(w.corners) - 1
	for n := range last {
		if n > 0 {
			list = append(list, wayHandle{wayBend, n, w.corners[n]})
		}
		if w.mayBend(n, w.corners[n].Mid(w.corners[n+1])) {
			list = append(list, wayHandle{wayLeg, n, rounded(w.corners[n].Mid(w.corners[n+1]), fineM/10)})
		}
	}
	return append(list, wayHandle{wayEnd, last, rounded(w.tip(sc), fineM/10)})
}

// mayBend reports whether a bend may be put in at a place of the leg from corner n.
func (w *wayDrawn) mayBend(n int, at plan.Point) bool {
	a, c := w.corners[n], w.corners[n+1]
	return math.Min(a.Dist(at), c.Dist(at)) > leastLegM && (n > 0 || a.Dist(at) > w.lead)
}

// wayLines is the path as its corners have it, to the front of the body at its end.
func wayLines(sc *scene, w *wayDrawn) []plan.Point {
	pts := slices.Clone(w.corners)
	pts[len(pts)-1] = w.tip(sc)
	return pts
}

// wayHandleAt is the handle of the selected casualty's path at a place: bends and the
// end before the middles of legs.
func wayHandleAt(sc *scene, at plan.Point) (wayHandle, bool) {
	w := wayPicked(sc)
	if w == nil {
		return wayHandle{}, false
	}
	best, near := wayHandle{}, math.Inf(1)
	for _, h := range w.handles(sc) {
		d := h.at.Dist(at) * sc.view.PerM
		if h.kind == wayLeg {
			d += hitPx
		}
		if d < near && h.at.Dist(at)*sc.view.PerM <= hitPx/2 {
			best, near = h, d
		}
	}
	return best, best.kind != 0
}

// legAt is the leg of the selected casualty's path at a place where a bend may be put
// in.
func legAt(sc *scene, at plan.Point) (wayHandle, bool) {
	w := wayPicked(sc)
	if w == nil {
		return wayHandle{}, false
	}
	for n := range len(w.corners) - 1 {
		if d, _ := terrain.ToSegment(at, w.corners[n], w.corners[n+1]); d*sc.view.PerM <= nearPx && w.mayBend(n, at) {
			return wayHandle{wayLeg, n, at}, true
		}
	}
	return wayHandle{}, false
}

// wayPicked is the path of the casualty that is selected alone.
func wayPicked(sc *scene) *wayDrawn {
	if len(sc.selection) != 1 {
		return nil
	}
	return wayOf(sc, sc.selection[0])
}
