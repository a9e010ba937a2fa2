package zone

import (
	"cmp"
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// order is the kinds of zone in the order in which a person's are named.
var order = part.ZoneKinds

// pocket tells that somebody outside the zones can leave only through one: the
// kinds that shut the place in, nil if there is a way. With ring the stand-off
// is one of them; else it may be crossed.
//
// A place is shut in if no free straight way leads out and it lies in a hole of
// the joined zones, obstacles and vehicles, but not in one of obstacles and
// vehicles alone.
func (c *crowd) pocket(at plan.Point, radiusM float64, ring bool) []part.ZoneKind {
	var kinds [len(order)]bool
	var s []span
	first := c.away(at) // where a way is likeliest
	for r := range wayRays {
		dir := rays()[(r+first)%wayRays]
		reach := c.blocked(at, dir, wayFarM)
		far := add(at, dir, reach)
		s = s[:0]
		for i := range c.Zones {
			if (ring || c.Zones[i].Kind != part.ZoneStandOff) && c.of[i].kind >= 0 && reaches(&c.of[i].box, at, far, radiusM) && !beside(&c.of[i].box, at, dir, radiusM) {
				s = c.spans(s, i, at, dir, radiusM)
			}
		}
		if len(s) == 0 && reach >= wayFarM && c.wide(at, dir, radiusM) {
			return nil
		}
		if len(s) > 0 {
			nearest := slices.MinFunc(s, func(a, b span) int { return cmp.Compare(a.from, b.from) })
			kinds[c.of[nearest.of].kind] = true
		}
	}
	if !c.shutIn(at, radiusM, ring) {
		return nil
	}
	var out []part.ZoneKind
	for k, is := range kinds {
		if is {
			out = append(out, order[k])
		}
	}
	return out
}

// wide reports whether a way past no wall is as wide as who walks it.
func (c *crowd) wide(at, dir plan.Point, radiusM float64) bool {
	side := plan.Point{X: -dir.Y, Y: dir.X}
	return c.blocked(add(at, side, radiusM), dir, wayFarM) >= wayFarM && c.blocked(add(at, side, -radiusM), dir, wayFarM) >= wayFarM
}

// away is the ray that leads away from the lines.
func (c *crowd) away(at plan.Point) int {
	var m plan.Point
	for i := range c.Stretches {
		m = add(m, c.Stretches[i].A, 1/float64(len(c.Stretches)))
	}
	d := sub(at, m)
	return int(math.Round(math.Atan2(d.Y, d.X)/(2*math.Pi)*wayRays)+wayRays) % wayRays
}

// joinedMost is how many outlines are joined to look for a roundabout way out
// of a pocket. Where there are more, a place without a straight one counts as
// shut in. (ours)
const joinedMost = 400

// shutIn reports whether a place lies in a hole of the joined zones and walls that
// is none of the walls alone.
func (c *crowd) shutIn(at plan.Point, radiusM float64, ring bool) bool {
	var walls [][]plan.Point
	for i := range c.walls {
		if w := &c.walls[i]; len(w.outline) >= 3 && !touched(w.outline, at, 0) {
			walls = append(walls, w.outline)
		}
	}
	if holds(walls, at) {
		return false
	}
	var r room
	var all [][]plan.Point
	grow := func(outline []plan.Point) {
		if terrain.Convex(outline) {
			all = append(all, grown(outline, radiusM))
			return
		}
		all = append(all, outline)
		for k, a := range outline { // the joints that its neighbourhood is made of
			if h := terrain.Hull(append(r.circle(a, radiusM), r.circle(outline[(k+1)%len(outline)], radiusM)...)); h != nil {
				all = append(all, h)
			}
		}
	}
	for _, w := range walls { // nobody walks through a slit; what they stand beside keeps its face
		if touched(w, at, radiusM) {
			all = append(all, w)
		} else {
			grow(w)
		}
	}
	for i := range c.Zones {
		if z := &c.Zones[i]; (ring || z.Kind != part.ZoneStandOff) && len(z.Outline) >= 3 {
			grow(z.Outline)
		}
	}
	return len(all) > joinedMost || holds(all, at)
}

// Pockets are the outlines of the ground outside all zones but the ring that somebody can
// leave only through one of them: for a picture, so that of the gaps too narrow to walk
// through those beside an inward corner count as open. Where somebody stands is asked of
// each of them exactly.
func Pockets(in PeopleIn) (out [][]plan.Point) {
	c := newCrowd(&in)
	var walls [][]plan.Point
	for i := range c.walls {
		if w := &c.walls[i]; len(w.outline) >= 3 {
			walls = append(walls, w.outline)
		}
	}
	near, bare := slices.Clone(walls), slices.Clone(walls)
	for i := range c.Zones {
		z := &c.Zones[i]
		if z.Kind == part.ZoneStandOff || len(z.Outline) < 3 {
			continue
		}
		bare = append(bare, z.Outline)
		if terrain.Convex(z.Outline) {
			near = append(near, grown(z.Outline, PersonReach(&plan.Person{})))
		} else {
			near = append(near, z.Outline)
		}
	}
	if len(near) == len(walls) {
		return nil
	}
	shut, _ := terrain.Holes(near)
	shut = slices.DeleteFunc(shut, func(h terrain.Hole) bool { return c.inKeepOut(h.At) || holds(walls, h.At) })
	if len(shut) == 0 {
		return nil
	}
	up, _ := terrain.Holes(bare) // those up to the zones
	for _, h := range shut {
		if i := slices.IndexFunc(up, func(b terrain.Hole) bool { return terrain.Inside(b.Outline, h.At) }); i >= 0 {
			h = up[i]
		}
		if !slices.ContainsFunc(out, func(o []plan.Point) bool { return &o[0] == &h.Outline[0] }) {
			out = append(out, h.Outline)
		}
	}
	return out
}

// inKeepOut reports whether a place lies in a zone: in an outline that runs over itself
// there are holes that are none.
func (c *crowd) inKeepOut(at plan.Point) bool {
	for i := range c.Zones {
		if c.Zones[i].Kind != part.ZoneStandOff && c.touches(i, at, 0) {
			return true
		}
	}
	return false
}

// holds reports whether a place in none of some outlines lies in a hole of their
// union. Outlines that cannot be joined hold every place.
func holds(of [][]plan.Point, at plan.Point) bool {
	if len(of) == 0 {
		return false
	}
	rings, err := terrain.Union(of)
	if err != nil {
		return true
	}
	return slices.ContainsFunc(rings, func(r []plan.Point) bool { return touched(r, at, 0) })
}
