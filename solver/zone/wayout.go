package zone

import (
	"math"
	"sync"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

const (
	// wayRays is how many directions are tried: those of the corners of a circle.
	wayRays = 360 / arcStepDeg
	// wayCoarse: every so manieth direction is tried first; the others only
	// beside the best of them. A way out is advice, not a limit, and is asked
	// for on every frame of a drag. (ours)
	wayCoarse = 3
	// wayFarM, metres: no way out is looked for beyond.
	wayFarM = 500
	// wayPastM, metres: how far a way out leads beyond the place where the
	// walker touches the last zone. (ours)
	wayPastM = 0.1
)

// wayOut finds the shortest straight walk from inside to outside: for an
// operator or spotter outside all but the ring (OutRing then tells that the
// place needs cover), for anybody else outside everything.
//
// It crosses no stretch, obstacle or vehicle and enters no zone that the
// walker is not already in, save the ring; it never ends behind an anchor or
// line end, nor where an operator cannot work the winch. ok is false if there
// is no such way.
func (c *crowd) wayOut(from plan.Point, radiusM float64, role string) (to plan.Point, farM quantity.Length, ring, ok bool) {
	w := c.walker(from, radiusM)
	// An operator or spotter leaves all but the ring; inside the ring alone the
	// way leads out of the ring as well.
	w.ringToo = role != plan.RoleOperator && role != plan.RoleSpotter || !w.inner
	best := math.Inf(1)
	bestRay := -1
	try := func(r int, limitM float64) {
		dir := rays()[r]
		d, found := c.leave(w, dir, limitM)
		if !found {
			return
		}
		p := add(from, dir, d)
		if c.behind(p) || role == plan.RoleOperator && !c.works(p) {
			return
		}
		best, to, bestRay = d, p, r
	}
	// The likeliest first: what is no shorter need not be followed to its end. Of
	// two alike it is the first one from east.
	likely := c.away(from) / wayCoarse
	for i := range wayRays / wayCoarse {
		r := (likely + (1-i%2*2)*((i+1)/2) + wayRays/wayCoarse) % (wayRays / wayCoarse) * wayCoarse
		limit := best
		if r < bestRay {
			limit = math.Nextafter(best, math.Inf(1))
		}
		try(r, limit)
	}
	near := bestRay
	for r := range wayRays {
		// Beside the best coarse way, or everywhere if there was none.
		if r%wayCoarse != 0 && (near < 0 || turns(r, near) < wayCoarse) {
			try(r, best)
		}
	}
	if math.IsInf(best, 1) {
		return plan.Point{}, 0, false, false
	}
	return to, quantity.Length(best), c.inRing(to, radiusM), true
}

// rays are the directions that are tried, anticlockwise from east.
var rays = sync.OnceValue(func() *[wayRays]plan.Point {
	var out [wayRays]plan.Point
	for r := range out {
		out[r] = polar(plan.Point{}, 2*math.Pi*float64(r)/wayRays, 1)
	}
	return &out
})

// turns is how many directions lie between two, the short way round.
func turns(r, s int) int {
	d := (r - s + wayRays) % wayRays
	return min(d, wayRays-d)
}

// walker is somebody who looks for a way out.
type walker struct {
	from    plan.Point
	radiusM float64
	was     []bool // by zone: already in one of its kind
	held    []int  // the zones they are in
	inner   bool   // in one that is not the ring
	ringToo bool   // has to leave the ring as well
	spans   []span
}

func (c *crowd) walker(from plan.Point, radiusM float64) *walker {
	w := &walker{from: from, radiusM: radiusM, was: make([]bool, len(c.Zones)), held: make([]int, 0, len(c.Zones))}
	var kinds [len(order)]bool
	for i := range c.Zones {
		if w.was[i] = c.touches(i, from, radiusM); w.was[i] {
			w.held = append(w.held, i)
			w.inner = w.inner || c.Zones[i].Kind != part.ZoneStandOff
			if k := c.of[i].kind; k >= 0 {
				kinds[k] = true
			}
		}
	}
	for i := range c.of {
		k := c.of[i].kind
		w.was[i] = w.was[i] || k >= 0 && kinds[k]
	}
	return w
}

// leave is how far along a ray the walker touches none of the zones that count,
// having entered none they were not in and met nothing that nobody walks through.
// It is under the limit.
func (c *crowd) leave(w *walker, dir plan.Point, limitM float64) (m float64, ok bool) {
	w.spans = w.spans[:0]
	limitM = min(limitM, wayFarM)
	for _, i := range w.held {
		if c.inRingTo(w, i, dir)+wayPastM >= limitM {
			return 0, false
		}
	}
	for _, i := range w.held { // what they are in keeps them longest along most rays
		c.along(w, i, dir, limitM)
	}
	in := 0.0
	for _, x := range w.spans {
		if x.from <= 2*wayPastM {
			in = max(in, x.to)
		}
	}
	if in+wayPastM >= limitM {
		return 0, false
	}
	if limitM = c.blocked(w.from, dir, limitM); in+wayPastM >= limitM {
		return 0, false
	}
	held := w.held
	for i := range c.Zones {
		if len(held) > 0 && held[0] == i {
			held = held[1:]
			continue
		}
		c.along(w, i, dir, limitM)
	}
	sortSpans(w.spans)
	for _, x := range w.spans {
		if x.from > m+2*wayPastM {
			break // room to stand in
		}
		if !w.was[x.of] {
			return 0, false // it would lead through another zone
		}
		m = max(m, x.to)
	}
	m += wayPastM
	return m, m < limitM
}

// inRingTo is how far along a ray the walker stays at least in a ring that they are
// in and have to leave: to the circle in its outline. Of one that moved, and is longer
// than wide, nothing is told.
func (c *crowd) inRingTo(w *walker, i int, dir plan.Point) float64 {
	r, size := float64(c.Zones[i].Radius), c.of[i].box.Size()
	if !w.ringToo || max(size.X, size.Y) > 2*r/math.Cos(math.Pi/wayRays)+edgeM {
		return 0
	}
	r -= edgeM
	from := sub(w.from, plan.Point(c.of[i].box.Center()))
	in := r*r - dot(from, from)
	if !(r > 0) || !(in > 0) {
		return 0
	}
	b := dot(from, dir)
	return math.Sqrt(b*b+in) - b
}

// along adds the spans of a zone along a ray, as far as a way under a limit goes:
// what lies beyond cannot matter.
func (c *crowd) along(w *walker, i int, dir plan.Point, limitM float64) {
	far := add(w.from, dir, min(wayFarM, limitM+2*wayPastM))
	if (w.ringToo || c.Zones[i].Kind != part.ZoneStandOff) && reaches(&c.of[i].box, w.from, far, w.radiusM) && !beside(&c.of[i].box, w.from, dir, w.radiusM) {
		w.spans = c.spans(w.spans, i, w.from, dir, w.radiusM)
	}
}

// blocked is how far a ray runs before a stretch, an obstacle or a vehicle, as
// far as that is under a limit.
func (c *crowd) blocked(from, dir plan.Point, limitM float64) float64 {
	least := min(wayFarM, limitM)
	far := add(from, dir, least)
	ray := terrain.Bounds([]plan.Point{from, far})
	meet := func(a, b plan.Point) {
		if !reaches(&ray, a, b, 0) {
			return
		}
		if s, hit := cuts(from, far, a, b); hit {
			least *= s
			far = add(from, dir, least)
		}
	}
	for i := range c.Stretches {
		meet(c.Stretches[i].A, c.Stretches[i].B)
	}
	for i := range c.walls {
		w := &c.walls[i]
		if !reaches(&w.box, from, far, 0) {
			continue
		}
		for k, a := range w.outline {
			meet(a, w.outline[(k+1)%len(w.outline)])
		}
	}
	return least
}

// behind reports whether a place lies behind an anchor or a line end, seen along
// the line: what lets go there flies on that way. Outside every stand-off ring
// there is no "behind" any more.
func (c *crowd) behind(p plan.Point) bool {
	half := math.Cos(facts.BehindHalfAngle.Value() * math.Pi / 180)
	check := func(at, from plan.Point) bool {
		u, ok := unit(sub(at, from))
		v, ok2 := unit(sub(p, at))
		return ok && ok2 && dot(u, v) >= half
	}
	if !c.inRing(p, 0) {
		return false
	}
	for i := range c.Ends {
		if check(c.Ends[i].At, c.Ends[i].From) {
			return true
		}
	}
	for i := range c.Stretches {
		if s := &c.Stretches[i]; s.Block == "" && check(s.B, s.A) {
			return true
		}
	}
	return false
}

// inRing reports whether a place lies in a stand-off ring.
func (c *crowd) inRing(p plan.Point, radiusM float64) bool {
	for i := range c.Zones {
		if c.Zones[i].Kind == part.ZoneStandOff && c.touches(i, p, radiusM) {
			return true
		}
	}
	return false
}
