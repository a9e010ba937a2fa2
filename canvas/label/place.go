package label

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/plan"
	"kedge/solver/terrain"
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
	// thing, before a shorter form is tried.
	costSweep = 450
	// costStay is what the place of a label may cost that is not even asked for a
	// better one, as long as its thing does not move.
	costStay = 60
	// liveShare is how much of it counts for what is said at the pointer: it goes
	// with the gesture, and has to be near.
	liveShare = 0.08
	// hysteresis is how much better another place must be before a label moves,
	// px. (ours)
	hysteresis = 12
	// What a leader costs for each label, person, line and vehicle it runs across.
	costLeadLabel  = 320
	costLeadPerson = 120
	costLeadLine   = 28
	costLeadBody   = 40
)

// cost is what it costs to lay a box there, or as much as the best place so
// far; costNever: it cannot be done.
func (l *layer) cost(x *item, b r2.Rect, best float64) float64 {
	if !l.Area.Contains(b) {
		return costNever
	}
	c := l.away(x, b)
	if c >= best {
		return c
	}
	t := l.Grid.underUntil(b, Label)
	if t&(Label|Person) != 0 {
		return costNever
	}
	share := 1.0
	if x.rank == Live {
		share = liveShare
	}
	c += share * x.covering(t)
	if !x.Lead && c < best && x.rank == Name && !x.IsLine && l.readsAsAnothers(x, b) {
		return costNever
	}
	if !x.Lead || c >= best {
		return c
	}
	return c + share*l.leaderCost(x, b)
}

// home is where a thing lies that has a name, and how far its symbol reaches.
type home struct {
	thing plan.ID
	at    r2.Point
	clear float64
}

// readsAsAnothers reports whether a box without a leader lies nearer to another
// thing that has a name than to its own: it would be read as that one's.
func (l *layer) readsAsAnothers(x *item, b r2.Rect) bool {
	own := b.ClampPoint(x.At).Sub(x.At).Norm() - x.Clear
	for i := range l.homes {
		o := &l.homes[i]
		if o.thing == x.Thing {
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
func (x *item) covering(t Taken) (c float64) {
	if t&Vehicle != 0 {
		c += costVehicle
	}
	if t&Point != 0 && !x.Middle {
		c += costPoint
	}
	if t&Line != 0 {
		c += costLine
	}
	if t&Body != 0 && !x.Middle {
		c += costBody
	}
	if t&Edge != 0 && len(x.Spots) == 0 {
		c += costEdge
	}
	return c
}

// leaderCost is what the leader of a label costs that lies off its thing.
func (l *layer) leaderCost(x *item, b r2.Rect) float64 {
	from, to, ok := l.leader(x, b)
	if !ok {
		return 0
	}
	dir, length := to.Sub(from).Normalize(), from.Sub(to).Norm()-12*l.Px
	c, last := 0.0, Taken(0)
	for s := 4 * l.Px; s < length; s += l.Grid.cell {
		t := l.Grid.at(pen.Along(from, dir, s))
		fresh := t &^ last // counted once for each thing crossed
		if fresh&Label != 0 {
			c += costLeadLabel
		}
		if fresh&Person != 0 {
			c += costLeadPerson
		}
		if fresh&Line != 0 {
			c += costLeadLine
		}
		if fresh&Vehicle != 0 {
			c += costLeadBody
		}
		last = t
	}
	return c
}

// away is how far a box lies from what it belongs to, px, the side it would
// like counted in.
func (l *layer) away(x *item, b r2.Rect) float64 {
	if len(x.Spots) > 0 {
		return 0
	}
	if x.IsLine {
		q, _ := terrain.Nearest(b.Center(), x.A, x.B)
		e := b.ClampPoint(q)
		return e.Sub(q).Norm()/l.Px + 0.12*q.Sub(pen.Mix(x.A, x.B, 0.5)).Norm()/l.Px
	}
	c := math.Max(0, b.ClampPoint(x.At).Sub(x.At).Norm()-x.Clear) / l.Px
	if x.Middle && !b.ContainsPoint(x.At) {
		c += 30 // a name lies on its own ground by preference
	}
	if x.Toward != (r2.Point{}) {
		c += 14 * (1 - b.Center().Sub(x.At).Normalize().Dot(x.Toward))
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

// wholeForms are the forms of a tag that name its part.
const wholeForms = 2

// best is the best place of a label so far.
type best struct {
	box    r2.Rect
	cost   float64
	form   int
	beside bool
}

// place finds a label its place: the one it had, the best near its thing for
// its whole form, then for shorter ones; a number, at last, anywhere in the
// picture, its leader telling what it is on. A number that finds only a
// vehicle to lie on stays out, unless it is a warning.
func (l *layer) place(x *item) bool {
	if l.byHand(x) {
		return true
	}
	old, had := l.mem.kept[x.Key]
	had = had && old.form >= x.From && old.form < len(x.Forms)
	if had && l.Hold {
		x.form = old.form
		b := l.pulledIn(l.oldBox(x, &old))
		if l.Grid.underUntil(b, Label)&(Label|Person|Vehicle&^old.over) == 0 {
			x.box, x.laid, x.beside = b, true, old.beside
			return true
		}
	}
	found := best{cost: costNever, form: x.From}
	for f := x.From; f < len(x.Forms) && (f == x.From || found.cost > costName); f++ {
		x.form = f
		here := best{cost: found.cost, form: f, beside: found.beside}
		l.candidates(x, func(b r2.Rect) { l.better(x, b, &here) })
		if here.cost < found.cost {
			found = here
		}
		if had && old.form == f {
			b := l.oldBox(x, &old)
			if c := l.cost(x, b, costNever); c <= found.cost+hysteresis && c < costNever {
				found = best{b, c, f, old.beside}
			}
		}
		// What is over its limit is named, and of who stands in a zone it is
		// said, if anywhere.
		if found.cost > costName && (x.rank == Over || x.rank == OfPerson && x.Must) && f < len(x.Forms)-1 && f < x.From+wholeForms {
			l.sweep(x, func(b r2.Rect) { l.better(x, b, &found) })
		}
	}
	if x.Must && found.cost > costName {
		for f := x.From; f < len(x.Forms) && found.cost > costSweep; f++ {
			x.form = f
			l.sweep(x, func(b r2.Rect) {
				if l.better(x, b, &found) {
					found.beside = len(x.Spots) > 0
				}
			})
		}
	}
	limit := float64(costName)
	switch {
	case x.Must && x.rank <= OfPerson:
		limit = costNever
	case x.Must:
		limit = costVehicle
	}
	x.laid = found.cost < limit
	if x.laid {
		x.form, x.box, x.beside = found.form, found.box, found.beside
	}
	return x.laid
}

// byHand lays a label where it was put by hand, if no other lies there.
func (l *layer) byHand(x *item) bool {
	hand, ok := l.Hand[x.Key]
	if !ok {
		return false
	}
	b := l.pulledIn(l.boxAt(x, x.Home().Add(hand.Mul(l.Px))))
	if l.Grid.underUntil(b.ExpandedByMargin(l.Px), Label)&Label != 0 {
		return false
	}
	x.box, x.laid = b, true
	return true
}

// better takes a box for the form that a label shows, if it costs less than the
// best so far.
func (l *layer) better(x *item, b r2.Rect, so *best) bool {
	c := l.cost(x, b, so.cost)
	if c < so.cost {
		so.box, so.cost, so.form = b, c, x.form
		return true
	}
	return false
}

// candidates tries the places near what a label belongs to.
func (l *layer) candidates(x *item, try func(r2.Rect)) {
	w, h := x.Forms[x.form].W, x.Forms[x.form].H
	far := len(distances)
	if !x.Must && !x.Lead {
		far = 4 // without a leader it has to be near
	}
	switch {
	case len(x.Spots) > 0:
		for _, p := range x.Spots {
			try(l.pulledIn(l.boxAt(x, p)))
		}
	case x.IsLine:
		n := x.B.Sub(x.A).Normalize().Ortho()
		off := math.Abs(n.X)*w/2 + math.Abs(n.Y)*h/2 + x.Clear
		for _, t := range shares {
			q := pen.Mix(x.A, x.B, t)
			for _, away := range distances[:far] {
				for _, side := range [...]float64{-1, 1} {
					try(l.boxAt(x, pen.Along(q, n, side*(off+away*l.Px))))
				}
			}
		}
	default:
		if x.Middle {
			try(l.boxAt(x, x.At))
		}
		for _, away := range distances[:far] {
			r := x.Clear + away*l.Px
			for _, dir := range directions {
				// The box touches the circle: its middle lies further out by its
				// own half in that direction.
				c := pen.Along(x.At, dir, r)
				try(l.boxAt(x, r2.Point{X: c.X + math.Copysign(math.Min(1, math.Abs(dir.X)*1.6), dir.X)*w/2, Y: c.Y + math.Copysign(math.Min(1, math.Abs(dir.Y)*1.6), dir.Y)*h/2}))
			}
		}
	}
}

// sweepPx is the distance of places tried all over the picture for a number
// that found none near its thing.
const sweepPx = 22

// sweep tries places all over the picture; of a label that names an edge, those
// beside it.
func (l *layer) sweep(x *item, try func(r2.Rect)) {
	w, h := x.Forms[x.form].W, x.Forms[x.form].H
	if len(x.Spots) > 0 {
		gap := 4 * l.Px
		for _, p := range x.Spots {
			for _, dir := range directions[:8] {
				try(l.pulledIn(l.boxAt(x, r2.Point{X: p.X + dir.X*(w/2+gap), Y: p.Y + dir.Y*(h/2+gap)})))
			}
		}
		return
	}
	step := sweepPx * l.Px
	for y := l.Area.Y.Lo + h/2; y+h/2 <= l.Area.Y.Hi; y += step {
		for c := l.Area.X.Lo + w/2; c+w/2 <= l.Area.X.Hi; c += step {
			try(l.boxAt(x, r2.Point{X: c, Y: y}))
		}
	}
}
