package draw

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/solver/plan"
)

// Costs of a place, in pixels of distance that would be walked to avoid it.
const (
	costNever   = math.MaxFloat64 // a label or a person is never covered
	costVehicle = 2000
	costLine    = 700
	costPoint   = 500
	costBody    = 120
	costEdge    = 20
	// costName is what a name may cost at most: it vanishes before it covers a
	// line, a point or a person.
	costName = 300
	// costSweep is what a number may cost at most that is pushed far off its
	// thing, before a shorter text is tried.
	costSweep = 450
	// costStay is what the place of a label may cost that is not even asked for a
	// better one, as long as its thing does not move.
	costStay = 60
	// liveShare is how much of it counts for what is said at the pointer: it goes
	// with the gesture, and has to be near.
	liveShare = 0.08
	// hysteresis is how much better another place must be before a label moves,
	// px. (board.md)
	hysteresis = 12
	// What a leader costs for each label, person, line and vehicle it runs across.
	costLeadLabel  = 320
	costLeadPerson = 120
	costLeadLine   = 28
	costLeadBody   = 40
)

// cost is what it costs to lay a box there, or as much as the best place so
// far; costNever: it cannot be done.
func (l *labeller) cost(x *label, b r2.Rect, best float64) float64 {
	if !l.area.Contains(b) {
		return costNever
	}
	c := l.away(x, b)
	if c >= best {
		return c
	}
	t := l.grid.taken(b)
	if t&(bitLabel|bitPerson) != 0 {
		return costNever
	}
	if x.rank == rankLive {
		c += liveShare * x.covering(t)
	} else {
		c += x.covering(t)
	}
	if !x.lead && c < best && x.rank == rankName && !x.isLine && l.readsAsAnothers(x, b) {
		return costNever
	}
	if !x.lead || c >= best {
		return c
	}
	if x.rank == rankLive {
		return c + liveShare*l.leaderCost(x, b)
	}
	return c + l.leaderCost(x, b)
}

// home is where a thing lies that has a name, and how far its symbol reaches.
type home struct {
	thing plan.ID
	at    r2.Point
	clear float64
}

// readsAsAnothers tells that a box without a leader lies nearer to another thing
// that has a name than to its own: it would be read as that one's.
func (l *labeller) readsAsAnothers(x *label, b r2.Rect) bool {
	own := b.ClampPoint(x.at).Sub(x.at).Norm() - x.clear
	for i := range l.homes {
		o := &l.homes[i]
		if o.thing == x.thing {
			continue
		}
		q := b.ClampPoint(o.at)
		if dx, dy := math.Abs(q.X-o.at.X), math.Abs(q.Y-o.at.Y); dx-o.clear > own || dy-o.clear > own {
			continue
		}
		if q.Sub(o.at).Norm()-o.clear <= own {
			return true
		}
	}
	return false
}

// covering is what it costs a label to lie on what takes its cells.
func (x *label) covering(t uint8) (c float64) {
	if t&bitVehicle != 0 {
		c += costVehicle
	}
	if t&bitPoint != 0 && !x.middle {
		c += costPoint
	}
	if t&bitLine != 0 {
		c += costLine
	}
	if t&bitBody != 0 && !x.middle {
		c += costBody
	}
	if t&bitEdge != 0 && len(x.spots) == 0 {
		c += costEdge
	}
	return c
}

// leaderCost is what the leader of a label costs that lies off its thing.
func (l *labeller) leaderCost(x *label, b r2.Rect) float64 {
	from, to, ok := l.leaderOf(x, b)
	if !ok {
		return 0
	}
	g, dir, length := l.grid, to.Sub(from).Normalize(), from.Sub(to).Norm()-l.d.px(12)
	c, last := 0.0, uint8(0)
	for s := l.d.px(4); s < length; s += g.cell {
		p := along(from, dir, s)
		t := g.cellAt(p)
		if fresh := t &^ last; fresh != 0 { // counted once for each thing crossed
			if fresh&bitLabel != 0 {
				c += costLeadLabel
			}
			if fresh&bitPerson != 0 {
				c += costLeadPerson
			}
			if fresh&bitLine != 0 {
				c += costLeadLine
			}
			if fresh&bitVehicle != 0 {
				c += costLeadBody
			}
		}
		last = t
	}
	return c
}

// away is how far a box lies from what it belongs to, px, the side it would
// like counted in.
func (l *labeller) away(x *label, b r2.Rect) float64 {
	u := l.d.u
	if len(x.spots) > 0 {
		return 0
	}
	if x.isLine {
		m := b.Center()
		q := nearestOnSegment(m, x.a, x.b)
		e := b.ClampPoint(q)
		return e.Sub(q).Norm()/u + 0.12*q.Sub(mix(x.a, x.b, 0.5)).Norm()/u
	}
	c := math.Max(0, b.ClampPoint(x.at).Sub(x.at).Norm()-x.clear) / u
	if x.middle && !b.ContainsPoint(x.at) {
		c += 30 // a name lies on its own ground by preference
	}
	if x.toward != (r2.Point{}) {
		dir := b.Center().Sub(x.at).Normalize()
		c += 14 * (1 - dir.Dot(x.toward))
	}
	return c
}

// directions round a thing, the best first: right, left, above, below, then
// the corners.
var directions = [...]r2.Point{
	{X: 1}, {X: -1}, {Y: -1}, {Y: 1}, {X: 0.8, Y: -0.6}, {X: 0.8, Y: 0.6}, {X: -0.8, Y: -0.6}, {X: -0.8, Y: 0.6},
	{X: 0.45, Y: -0.9}, {X: -0.45, Y: -0.9}, {X: 0.45, Y: 0.9}, {X: -0.45, Y: 0.9},
}

// Distances of a label from its thing that are tried, px.
var distances = [...]float64{4, 14, 30, 44, 80, 116}

// Places along a line that are tried, as shares of what is seen of it.
var shares = [...]float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8}

// wholeForms are the texts of a tag that name its part.
const wholeForms = 2

// placeOne finds a label its place: the one it had, the best near its thing for
// its whole text, then for shorter ones; a number, at last, anywhere in the
// picture, its leader telling what it is on. A number that finds only a
// vehicle to lie on stays out, unless it is a warning.
func (l *labeller) placeOne(x *label) {
	if hand, ok := l.mem.Hand[x.key]; ok {
		w, h := l.size(x, x.lines)
		b := l.pulledIn(l.boxAt(l.home(x).Add(hand.Mul(l.d.u)), w, h))
		if l.grid.taken(b.ExpandedByMargin(l.d.px(1)))&bitLabel == 0 {
			x.box, x.placed = b, true
			return
		}
	}
	old, had := l.mem.kept[x.key]
	had = had && old.form >= x.from && old.form < len(x.forms)
	if had && l.mem.Hold {
		x.as(old.form)
		w, h := l.size(x, x.lines)
		b := l.pulledIn(l.oldBox(x, &old, w, h))
		if l.grid.taken(b)&(bitLabel|bitPerson|bitVehicle&^old.over) == 0 {
			x.box, x.placed, x.beside = b, true, old.beside
			return
		}
	}
	best, least, bestForm := r2.Rect{}, costNever, x.from
	for f := x.from; f < len(x.forms); f++ {
		x.as(f)
		w, h := l.size(x, x.lines)
		here, cost := r2.Rect{}, least
		try := func(b r2.Rect) {
			if c := l.cost(x, b, cost); c < cost {
				here, cost = b, c
			}
		}
		l.candidates(x, w, h, try)
		if cost < least {
			best, least, bestForm = here, cost, f
		}
		if had && old.form == f {
			b := l.oldBox(x, &old, w, h)
			if c := l.cost(x, b, costNever); c <= least+hysteresis && c < costNever {
				best, least, bestForm, x.beside = b, c, f, old.beside
			}
		}
		if least > costName && (x.rank == rankOver || x.rank == rankPerson && x.must) && f < len(x.forms)-1 && f < x.from+wholeForms {
			l.sweep(x, w, h, func(b r2.Rect) { // what is over its limit is named, and of who stands in a zone it is said, if anywhere
				if c := l.cost(x, b, least); c < least {
					best, least, bestForm = b, c, f
				}
			})
		}
		if least <= costName {
			break
		}
	}
	if x.must && least > costName {
		for f := x.from; f < len(x.forms) && least > costSweep; f++ {
			x.as(f)
			w, h := l.size(x, x.lines)
			l.sweep(x, w, h, func(b r2.Rect) {
				if c := l.cost(x, b, least); c < least {
					best, least, bestForm, x.beside = b, c, f, len(x.spots) > 0
				}
			})
		}
	}
	limit := float64(costName)
	switch {
	case x.must && x.rank <= rankPerson:
		limit = costNever
	case x.must:
		limit = costVehicle
	}
	if least < limit {
		x.as(bestForm)
		x.box, x.placed = best, true
	}
}

// as makes a label show one of its forms.
func (x *label) as(f int) { x.form, x.lines, x.frame = f, x.forms[f].lines, x.forms[f].frame }

// boxAt is the box of a label round its middle, on a lattice of eighths of a
// pixel: a place that is reckoned another way the next time is the same place.
func (l *labeller) boxAt(c r2.Point, w, h float64) r2.Rect {
	k := 8 / l.d.u
	const shift = 0.137 // keeps middles that are whole pixels off the lattice's own edges
	x, y := math.Floor((c.X-w/2)*k+shift)/k, math.Floor((c.Y-h/2)*k+shift)/k
	return rect(x, y, x+w, y+h)
}

// pulledIn is the box moved into the picture.
func (l *labeller) pulledIn(b r2.Rect) r2.Rect {
	dx := math.Max(0, l.area.X.Lo-b.X.Lo) - math.Max(0, b.X.Hi-l.area.X.Hi)
	dy := math.Max(0, l.area.Y.Lo-b.Y.Lo) - math.Max(0, b.Y.Hi-l.area.Y.Hi)
	return rect(b.X.Lo+dx, b.Y.Lo+dy, b.X.Hi+dx, b.Y.Hi+dy)
}

// candidates tries the places near what a label belongs to.
func (l *labeller) candidates(x *label, w, h float64, try func(r2.Rect)) {
	u := l.d.u
	far := len(distances)
	if !x.must && !x.lead {
		far = 4 // without a leader it has to be near
	}
	switch {
	case len(x.spots) > 0:
		for _, p := range x.spots {
			try(l.pulledIn(l.boxAt(p, w, h)))
		}
	case x.isLine:
		n := x.b.Sub(x.a).Normalize().Ortho()
		off := math.Abs(n.X)*w/2 + math.Abs(n.Y)*h/2 + x.clear
		for _, t := range shares {
			q := mix(x.a, x.b, t)
			for _, away := range distances[:far] {
				for _, side := range [...]float64{-1, 1} {
					try(l.boxAt(along(q, n, side*(off+away*u)), w, h))
				}
			}
		}
	default:
		if x.middle {
			try(l.boxAt(x.at, w, h))
		}
		for _, away := range distances[:far] {
			r := x.clear + away*u
			for _, dir := range directions {
				// The box touches the circle: its middle lies further out by its
				// own half in that direction.
				c := along(x.at, dir, r)
				try(l.boxAt(r2.Point{X: c.X + math.Copysign(math.Min(1, math.Abs(dir.X)*1.6), dir.X)*w/2, Y: c.Y + math.Copysign(math.Min(1, math.Abs(dir.Y)*1.6), dir.Y)*h/2}, w, h))
			}
		}
	}
}

// sweepPx is the distance of places tried all over the picture for a number
// that found none near its thing.
const sweepPx = 22

func (l *labeller) sweep(x *label, w, h float64, try func(r2.Rect)) {
	if len(x.spots) > 0 { // beside the edge it names
		gap := l.d.px(4)
		for _, p := range x.spots {
			for _, dir := range directions[:8] {
				try(l.pulledIn(l.boxAt(r2.Point{X: p.X + dir.X*(w/2+gap), Y: p.Y + dir.Y*(h/2+gap)}, w, h)))
			}
		}
		return
	}
	step := l.d.px(sweepPx)
	for y := l.area.Y.Lo + h/2; y+h/2 <= l.area.Y.Hi; y += step {
		for c := l.area.X.Lo + w/2; c+w/2 <= l.area.X.Hi; c += step {
			try(l.boxAt(r2.Point{X: c, Y: y}, w, h))
		}
	}
}
