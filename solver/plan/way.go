package plan

import (
	"cmp"
	"math"
	"slices"

	"kedge/solver/quantity"
)

// WayLine is the casualty's way out as the ground sees it: straight pieces, with
// a round one in the place of each bend.
//
// What moves along it is the middle of the rear axle of a vehicle that drives
// forward or in reverse (it rolls without slip there, so its nose follows the
// tangent), and the middle of the footprint where the axles are not known or
// the way is free; a vehicle on a free way keeps its bearing.
type WayLine struct {
	vehicle *Vehicle
	pieces  []wayPiece      // none: it is straight, and to the bit what the bearing says
	corners []Point         // of a way with bends: where it starts, then its bends
	ahead   quantity.Length // of what moves along it, from the footprint's middle
	turns   bool            // the nose follows the way
	// TurnM is how tightly the vehicle can be driven, metres: the radius of its bends.
	TurnM float64
}

// wayPiece is a straight or round piece. bend is 1/radius, positive to the left.
type wayPiece struct {
	start          Point
	dir, bend, len float64 // radians counter-clockwise from east, 1/m, m
	next           int     // index of the corner it leads to or round
}

// usualTurnM, metres, is how tightly a vehicle is taken to be driven whose turning
// radius nobody entered: a turning circle of 12 m between kerbs. (common practice)
const usualTurnM = 6

// WayOn is where the casualty is so far along its way.
type WayOn struct {
	At      Point            // middle of its footprint
	Bearing quantity.Degrees // of its nose
	Way     quantity.Degrees // in which it goes on
}

// turnFrom is where the way starts: what moves along it, from the footprint's
// middle.
func (v *Vehicle) turnFrom() quantity.Length {
	if v.Stuck.Way == WayFree {
		return 0
	}
	_, rear, _ := v.Axles() // zero if they are not known
	return rear
}

// firstBend is the bearing and the distance of the first bend of the way.
func (v *Vehicle) firstBend() (quantity.Degrees, float64, bool) {
	if v.Stuck == nil || len(v.Stuck.Bends) == 0 {
		return 0, 0, false
	}
	from := v.Place(v.turnFrom(), 0)
	for _, b := range v.Stuck.Bends {
		if d := from.Dist(b); d > leastWayM {
			return quantity.FromRadians(math.Atan2(b.X-from.X, b.Y-from.Y)).Normal(), d, true
		}
	}
	return 0, 0, false
}

// WayRun is how far the way goes straight on, metres, of a way that is long
// metres long: to its first bend.
func (v *Vehicle) WayRun(long float64) float64 {
	if _, d, bent := v.firstBend(); bent {
		return min(long, d)
	}
	return long
}

// StraightRun is how far v goes straight on, metres, of a way that is long metres long:
// to where the first bend begins, on a round piece as far as that is taken as straight.
func (v *Vehicle) StraightRun(long float64) float64 {
	_, corner, bent := v.firstBend()
	if !bent {
		return long
	}
	run := min(corner, roundRunM)
	if w, ok := v.WayLine(); ok {
		run = max(run, w.pieces[0].len)
	}
	return min(long, run)
}

// WayLine is the line of v's way out; false if v has none that is known.
func (v *Vehicle) WayLine() (*WayLine, bool) {
	if _, known := v.WayOut(); !known {
		return nil, false
	}
	w := &WayLine{vehicle: v, TurnM: float64(v.Stuck.TurnRadius)}
	if !(w.TurnM > 0) {
		w.TurnM = usualTurnM
	}
	if _, _, bent := v.firstBend(); bent {
		w.ahead, w.turns = v.turnFrom(), v.Stuck.Way != WayFree
		w.corners = corners(v.Place(w.ahead, 0), v.Stuck.Bends)
		w.round(w.TurnM)
	}
	return w, true
}

// corners are the points of a way, those that repeat the one before left out.
func corners(from Point, bends []Point) []Point {
	at := []Point{from}
	for _, b := range bends {
		if at[len(at)-1].Dist(b) > leastWayM {
			at = append(at, b)
		}
	}
	return at
}

// round makes the pieces: each bend is an arc that touches
// both legs, of the radius given or as wide as half of either leg leaves room for
// (the whole of the first and the last). The last leg goes on without end.
func (w *WayLine) round(radiusM float64) {
	at := w.corners
	start, last := at[0], len(at)-1
	for i := 1; i <= last; i++ {
		dir := math.Atan2(at[i].Y-at[i-1].Y, at[i].X-at[i-1].X)
		if i == last {
			w.pieces = append(w.pieces, wayPiece{start, dir, 0, math.Inf(1), i})
			return
		}
		next := math.Atan2(at[i+1].Y-at[i].Y, at[i+1].X-at[i].X)
		turn := math.Remainder(next-dir, 2*math.Pi)
		room := at[i-1].Dist(at[i])
		if i > 1 {
			room /= 2
		}
		after := at[i].Dist(at[i+1])
		if i+1 < last {
			after /= 2
		}
		half := math.Tan(math.Abs(turn) / 2)
		radius := min(radiusM, min(room, after)/half)
		cut := radius * half
		e, n := math.Cos(dir), math.Sin(dir)
		straight := (at[i].X-start.X)*e + (at[i].Y-start.Y)*n - cut
		w.pieces = append(w.pieces, wayPiece{start, dir, 0, max(0, straight), i})
		if turn == 0 {
			start = at[i]
			continue
		}
		from := Point{at[i].X - cut*e, at[i].Y - cut*n}
		radius = max(radius, leastWayM)
		w.pieces = append(w.pieces, wayPiece{from, dir, math.Copysign(1/radius, turn), math.Abs(turn) * radius, i})
		start = Point{at[i].X + cut*math.Cos(next), at[i].Y + cut*math.Sin(next)}
	}
}

// on is the piece so far along the way, and how far along that; nil: the way is
// straight.
func (w *WayLine) on(s float64) (*wayPiece, float64) {
	for i := range w.pieces {
		if s < w.pieces[i].len {
			return &w.pieces[i], s
		}
		s -= w.pieces[i].len
	}
	return nil, s
}

// Steered reports whether the vehicle has to be steered to follow the first longM
// metres, and the smallest radius of the bends there, metres; +Inf: there are none. A
// bend too near to the next or to an end is rounded more tightly than TurnM.
func (w *WayLine) Steered(longM float64) (steered bool, tightestM float64) {
	tightestM = math.Inf(1)
	s := 0.0
	for _, p := range w.pieces {
		if w.turns && p.bend != 0 && s < longM {
			steered, tightestM = true, min(tightestM, 1/math.Abs(p.bend))
		}
		s += p.len
	}
	return steered, tightestM
}

// Knots are the places, metres along the way, where a straight piece meets a
// round one.
func (w *WayLine) Knots() []float64 {
	var at []float64
	s := 0.0
	for _, p := range w.pieces {
		if s += p.len; p.len > 0 && !math.IsInf(s, 1) {
			at = append(at, s)
		}
	}
	return at
}

// moved is where what moves along the way is on a piece, and its direction there.
func (p *wayPiece) moved(x float64) (Point, float64) {
	dir := p.dir + p.bend*x
	if p.bend == 0 {
		return Point{p.start.X + x*math.Cos(dir), p.start.Y + x*math.Sin(dir)}, dir
	}
	return Point{p.start.X + (math.Sin(dir)-math.Sin(p.dir))/p.bend, p.start.Y - (math.Cos(dir)-math.Cos(p.dir))/p.bend}, dir
}

// At is where the casualty is s metres along its way; at 0 it is as drawn.
func (w *WayLine) At(s float64) WayOn {
	v := w.vehicle
	on := WayOn{At: v.At, Bearing: v.Bearing}
	p, x := w.on(s)
	if p == nil {
		on.Way, _ = v.WayOut()
		e, n := Heading(on.Way)
		on.At = Point{v.At.X + e*s, v.At.Y + n*s}
		return on
	}
	at, dir := p.moved(x)
	on.Way = bearing(dir)
	if s == 0 {
		return on
	}
	if w.turns {
		on.Bearing = (v.Bearing - quantity.FromRadians(dir-w.pieces[0].dir)).Normal()
	}
	e, n := Heading(on.Bearing)
	on.At = Point{at.X - float64(w.ahead)*e, at.Y - float64(w.ahead)*n}
	return on
}

// Track is where what moves along the way is so far along it.
func (w *WayLine) Track(s float64) Point {
	p, x := w.on(s)
	if p == nil {
		way, _ := w.vehicle.WayOut()
		e, n := Heading(way)
		return w.vehicle.Place(w.vehicle.turnFrom(), 0).Plus(e*s, n*s)
	}
	at, _ := p.moved(x)
	return at
}

// Corners are the points that the line of a way longM metres long is drawn from:
// where it starts, the bends that it comes to, where it ends. A way drawn up to its
// last corner ends on that to the bit.
func (w *WayLine) Corners(longM float64) []Point {
	at := []Point{w.Track(0)}
	last := len(w.corners) - 1
	for i, s := 0, 0.0; i < len(w.pieces); i++ {
		p := &w.pieces[i]
		if s += p.len; p.bend == 0 && p.next < last && s < longM {
			at = append(at, w.corners[p.next])
		}
	}
	end := w.Track(longM)
	if last > 0 && end.Dist(w.corners[last]) <= leastWayM {
		end = w.corners[last]
	}
	return append(at, end)
}

// LongM is how far it is along the way to its last corner, metres; 0: it has none.
func (w *WayLine) LongM() float64 {
	s := 0.0
	for i := range w.pieces {
		if p := &w.pieces[i]; math.IsInf(p.len, 1) {
			s += p.start.Dist(w.corners[p.next])
		} else {
			s += p.len
		}
	}
	return s
}

// bends are the corners that lie ahead s metres along the way, of which long
// metres are left: first the one that it now leads straight to.
func (w *WayLine) bends(s, long float64) []Point {
	p, x := w.on(s)
	if p == nil {
		return nil
	}
	at, dir := p.moved(x)
	run := at.Dist(w.corners[p.next])
	switch {
	case p.bend != 0:
		run = min(roundRunM, p.len-x)
	case p.next == len(w.corners)-1:
		run = long
	}
	run = max(run, 2*leastWayM)
	ahead := []Point{{at.X + run*math.Cos(dir), at.Y + run*math.Sin(dir)}}
	return append(ahead, w.corners[p.next+1:]...)
}

// roundRunM, metres, is how far a round piece is taken as straight where only its
// beginning is looked at. (ours: a vehicle turns 2.4° on it at the radius above)
const roundRunM = 0.25

func bearing(dir float64) quantity.Degrees {
	return quantity.Degrees(90 - dir*180/math.Pi).Normal()
}

// leastWayM, metres, is what is left of a way out at its end: zero would say
// that nobody knows. (ours)
const leastWayM = 1e-3

// AdvancedOf is p with a casualty so far along its way out, what is left of it
// shorter by that; p itself if that has no known direction or s is not above
// zero. What it lies in there is that of the last stage passed.
func AdvancedOf(p *Plan, casualty ID, s quantity.Length) *Plan {
	i := slices.IndexFunc(p.Site.Vehicles, func(v Vehicle) bool { return v.ID == casualty && v.Stuck != nil })
	if i < 0 || !(s > 0) {
		return p
	}
	v := p.Site.Vehicles[i]
	w, ok := v.WayLine()
	if !ok {
		return p
	}
	on := w.At(float64(s))
	v.MovePlaceDoubt(on.At.X-v.At.X, on.At.Y-v.At.Y)
	v.At, v.Bearing = on.At, on.Bearing
	stuck := *v.Stuck
	if stuck.WayLength > 0 {
		stuck.WayLength = max(leastWayM, stuck.WayLength-s)
	}
	v.Doubts = slices.Clone(v.Doubts)
	for k := range v.Doubts {
		if d := &v.Doubts[k]; d.Member == "casualty.way_length_m" {
			d.Low, d.High = max(leastWayM, d.Low-float64(s)), max(leastWayM, d.High-float64(s))
		}
	}
	stuck.stage(s)
	if len(stuck.Bends) > 0 {
		stuck.Bends = w.bends(float64(s), float64(stuck.WayLength))
	}
	v.Stuck = &stuck
	return WithVehicle(p, i, v)
}

// stage has the state of the last stage that lies at s or before, in whatever order
// they are listed, and the later ones counted from there.
func (k *Stuck) stage(s quantity.Length) {
	stages := slices.Clone(k.Stages)
	slices.SortStableFunc(stages, func(g, h Stage) int { return cmp.Compare(g.After, h.After) })
	k.Stages = nil
	for _, g := range stages {
		if g.After > s {
			g.After -= s
			k.Stages = append(k.Stages, g)
			continue
		}
		if g.Depth != "" || g.Surface != "" {
			k.Measured = 0 // a load cell has pulled where it lay, not here
		}
		if g.Depth != "" {
			k.Depth, k.Sinkage = g.Depth, 0
		}
		if g.Surface != "" {
			k.Surface = g.Surface
		}
	}
}
