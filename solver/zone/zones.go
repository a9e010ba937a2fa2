package zone

import (
	"math"
	"slices"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// drawing is one call's work.
type drawing struct {
	out   []part.Zone
	found *[]part.Finding
	room  room
	trees part.Room // for what is said of them
	ringM float64   // the greatest ring, how far a thrown part is assumed to fly
}

// Zones draws every zone of a rig at one moment: line by line its bight, its
// recoil and its rings, then releases, trees, roll-aways, slide paths, the
// casualty. What
// cannot be drawn because a figure is missing or no number raises a DANGER;
// it never vanishes without a word.
func Zones(in Input, found *[]part.Finding) []part.Zone {
	d := drawing{found: found}
	n := len(in.Releases) + 2*len(in.Trees) + len(in.Rolls) + len(in.Slides) + len(in.Uprights) + 1
	for i := range in.Lines {
		n += 3*len(in.Lines[i].Stretches) + 2*len(in.Lines[i].Straps) + 2
	}
	d.out = make([]part.Zone, 0, n)
	d.room = make(room, 0, cornersOf(&in))
	if found != nil {
		d.trees = make(part.Room, 0, len(in.Trees))
	}
	for i := range in.Lines {
		d.line(&in.Lines[i], in.StandOff)
	}
	for i := range in.Releases {
		d.release(&in.Releases[i], in.Lines)
	}
	for i := range in.Trees {
		d.tree(&in.Trees[i])
	}
	for i := range in.Rolls {
		r := &in.Rolls[i]
		d.path(part.ZoneRollAway, facts.RollAwayMargin, r.Thing, r.Footprint, r.Dir, r.RunM, facts.RollAwayMargin.Value())
	}
	for i := range in.Slides {
		s := &in.Slides[i]
		d.path(part.ZoneSlide, facts.RollAwayRunUnknown, s.Thing, s.Footprint, s.Dir, s.RunM, turning(s.Footprint, s.Dir))
	}
	for i := range in.Uprights {
		d.upright(&in.Uprights[i])
	}
	if in.Casualty != nil {
		d.casualty(in.Casualty)
	}
	return d.out
}

// cornersOf is about how many corners all outlines have.
func cornersOf(in *Input) int {
	of := len(in.Releases)*sectorCorners(facts.ReleaseHalfAngle.Value()) + len(in.Trees)*sectorCorners(facts.TreeFallHalfAngle.Value())
	if in.Casualty != nil {
		of += wayRays
	}
	for i := range in.Trees {
		if in.Trees[i].CrownM > 0 {
			of += wayRays
		}
	}
	for i := range in.Lines {
		l := &in.Lines[i]
		of += 2*wayRays + 4*len(l.Stretches) + 2*(len(l.Stretches)+len(l.Straps))*sectorCorners(facts.RecoilHalfAngle.Value())
	}
	return of
}

func (d *drawing) put(kind part.ZoneKind, row facts.ID, thing plan.ID, outline []plan.Point) {
	if len(outline) >= 3 {
		d.out = append(d.out, part.Zone{Kind: kind, Thing: thing, Outline: outline, Fact: string(row)})
	}
}

// missing says that a zone could not be drawn.
func (d *drawing) missing(kind part.ZoneKind, thing plan.ID) {
	if d.found != nil {
		raise(d.found, "zone-not-drawn", part.Danger, []plan.ID{thing}, part.Word("zone", string(kind)))
	}
}

// OutM is the line out: all its stretches, its straps and what is not drawn.
func (l *Line) OutM() float64 {
	out := max(0, l.ExtraM)
	for _, s := range l.Stretches {
		out += dist(s.A, s.B)
	}
	for _, s := range l.Straps {
		out += max(s.LengthM, dist(s.A, s.B))
	}
	return out
}

// RingM is the radius of a line's stand-off ring and the row behind it: k × the
// line out, the greatest k of what is in the chain; a user's factor raises it.
func (l *Line) RingM(standOff float64) (radiusM float64, row facts.ID) {
	k, row := l.factor()
	if finite(standOff) {
		k = max(k, standOff)
	}
	return k * l.OutM(), row
}

// factor is the greatest stand-off factor of what is in the chain.
func (l *Line) factor() (k float64, row facts.ID) {
	k, row = Factor(l.Material)
	for _, s := range l.Straps {
		if j, r := Factor(s.Material); j > k {
			k, row = j, r
		}
	}
	return k, row
}

func (d *drawing) line(l *Line, standOff float64) {
	for _, s := range l.Stretches {
		if !finitePoint(s.A) || !finitePoint(s.B) {
			d.missing(part.ZoneRecoil, l.ID)
			return
		}
	}
	for _, s := range l.Straps {
		if !finitePoint(s.A) || !finitePoint(s.B) || !finite(s.LengthM) {
			d.missing(part.ZoneRecoil, s.ID)
			return
		}
	}
	if !finite(l.ExtraM) {
		d.missing(part.ZoneRecoil, l.ID)
		return
	}
	if len(l.Stretches) == 0 && len(l.Straps) == 0 {
		return
	}
	d.bight(l)
	out := l.OutM() * facts.RecoilPastEnd.Value()
	for _, s := range l.Stretches {
		d.recoil(l.ID, s.A, s.B, out)
	}
	for _, s := range l.Straps {
		d.recoil(s.ID, s.A, s.B, out)
	}
	ring, row := l.RingM(standOff)
	if k, _ := l.factor(); d.found != nil && finite(standOff) && standOff > 0 && standOff < k {
		raise(d.found, "stand-off-not-lowered", part.Caution, []plan.ID{l.ID}, part.Number("wanted", part.UnitFactor, standOff), part.Number("used", part.UnitFactor, k))
	}
	d.ringM = max(d.ringM, ring)
	for _, e := range l.ends() {
		if !finitePoint(e.At) {
			d.missing(part.ZoneStandOff, l.ID)
			continue
		}
		d.put(part.ZoneStandOff, row, l.ID, d.room.circle(e.At, ring))
		d.out[len(d.out)-1].Radius = quantity.Length(ring)
	}
}

// ends are where the rings stand.
func (l *Line) ends() []End {
	if len(l.Ends) > 0 {
		return l.Ends
	}
	if n := len(l.Stretches); n > 0 {
		return []End{{At: l.Stretches[0].A}, {At: l.Stretches[n-1].B}}
	}
	return []End{{At: l.Straps[0].A}, {At: l.Straps[0].B}}
}

// recoil is the two sectors of a stretch: from each end along it, past the
// other by the length of the running line loaded there.
func (d *drawing) recoil(thing plan.ID, a, b plan.Point, outM float64) {
	u, ok := unit(sub(b, a))
	if !ok {
		return // no length: the neighbouring stretches speak for it
	}
	r := dist(a, b) + outM
	d.put(part.ZoneRecoil, facts.RecoilHalfAngle, thing, d.room.sector(a, u, facts.RecoilHalfAngle.Value(), r))
	d.put(part.ZoneRecoil, facts.RecoilHalfAngle, thing, d.room.sector(b, plan.Point{X: -u.X, Y: -u.Y}, facts.RecoilHalfAngle.Value(), r))
}

// hull is [terrain.Hull] in the drawing's room.
func (d *drawing) hull(ps ...plan.Point) []plan.Point {
	return terrain.AppendHull(d.room.corners(len(ps)), ps)
}

// bight is the ground a bent line encloses between its ends, taken as the
// convex hull of its path: never narrower, and the triangle of every block
// lies inside. Those triangles are drawn too where there are several blocks,
// each under its block's name.
func (d *drawing) bight(l *Line) {
	n := len(l.Stretches)
	if n < 2 {
		return
	}
	path := make([]plan.Point, 0, n+1)
	path = append(path, l.Stretches[0].A)
	for _, s := range l.Stretches {
		path = append(path, s.B)
	}
	thing := l.ID
	if n == 2 && l.Stretches[0].Block != "" {
		thing = l.Stretches[0].Block
	}
	d.put(part.ZoneBight, facts.StandoffRuleC, thing, d.hull(path...))
	if n == 2 {
		return
	}
	for i, s := range l.Stretches[:n-1] {
		block := s.Block
		if block == "" {
			block = l.ID
		}
		d.put(part.ZoneBight, facts.StandoffRuleC, block, d.hull(s.A, s.B, l.Stretches[i+1].B))
	}
}

// sameM, metres: stretches that end this near a block meet there.
const sameM = 1e-3

// release is the sector about the resultant, as long as the greatest ring.
func (d *drawing) release(r *Release, lines []Line) {
	if !finitePoint(r.At) {
		d.missing(part.ZoneRelease, r.Thing)
		return
	}
	dir, ok := unit(plan.Point{X: r.Force.X, Y: r.Force.Y})
	if !r.Known || !ok {
		var sum plan.Point
		for _, l := range lines {
			for _, s := range l.Stretches {
				for _, e := range [2][2]plan.Point{{s.A, s.B}, {s.B, s.A}} {
					if u, ok := unit(sub(e[1], e[0])); ok && dist(e[0], r.At) <= sameM {
						sum = add(sum, u, 1)
					}
				}
			}
		}
		dir, ok = unit(sum)
		if math.Hypot(sum.X, sum.Y) < 1e-6 {
			ok = false
		}
	}
	reach := d.ringM
	if !(reach > 0) {
		d.missing(part.ZoneRelease, r.Thing)
		return
	}
	half := facts.ReleaseHalfAngle.Value()
	if !ok {
		dir, half = plan.Point{X: 1}, 180
	}
	d.put(part.ZoneRelease, facts.ReleaseHalfAngle, r.Thing, d.room.sector(r.At, dir, half, reach))
}

// tree draws where a tree may come down: over a quarter of its low hold, or if
// nobody knows what it holds.
func (d *drawing) tree(t *Tree) {
	if t.Known && t.ToFailure <= facts.TreeFallFromShare.Value() {
		return
	}
	if !finitePoint(t.At) || math.IsNaN(t.HeightM) || math.IsInf(t.HeightM, 0) || math.IsInf(t.CrownM, 0) || math.IsNaN(t.CrownM) {
		d.missing(part.ZoneTree, t.Thing)
		return
	}
	h := t.HeightM
	if !(h > 0) {
		h = facts.TreeFallHeightUnknown.Value()
		if d.found != nil {
			f := raise(d.found, "tree-height-not-known", part.Caution, []plan.ID{t.Thing}, part.Length("height", h))
			f.Lacks = []part.Lack{{Thing: t.Thing, Member: "height_m", Rule: f.ID}}
		}
	}
	half := facts.TreeFallHalfAngle.Value()
	dir, ok := unit(plan.Point{X: t.Pull.X, Y: t.Pull.Y})
	if !ok {
		dir, half = plan.Point{X: 1}, 180
	}
	d.put(part.ZoneTree, facts.TreeFallReach, t.Thing, d.room.sector(t.At, dir, half, facts.TreeFallReach.Value()*h))
	if t.CrownM > 0 {
		d.put(part.ZoneTree, facts.TreeFallHalfAngle, t.Thing, d.room.circle(t.At, t.CrownM))
	}
	if d.found != nil {
		f := part.Finding{ID: "tree-may-fall", Level: part.Warning}
		d.trees.About(&f, t.Thing, "", nil, part.Length("reach", facts.TreeFallReach.Value()*h))
		*d.found = append(*d.found, f)
	}
}

func (d *drawing) path(kind part.ZoneKind, row facts.ID, thing plan.ID, foot []plan.Point, dir r3.Vector, runM, marginM float64) {
	if len(foot) < 2 || slices.ContainsFunc(foot, func(p plan.Point) bool { return !finitePoint(p) }) || !finite(runM) || !finite(marginM) {
		d.missing(kind, thing)
		return
	}
	if !(runM > 0) {
		runM = facts.RollAwayRunUnknown.Value()
	}
	u, ok := unit(plan.Point{X: dir.X, Y: dir.Y})
	if !ok {
		// Nobody knows which way: all round.
		d.put(kind, row, thing, d.room.circle(middle(foot), runM+spread(foot)))
		return
	}
	d.put(kind, row, thing, swept(foot, u, runM, marginM))
}

// turning is how much wider than its footprint a vehicle's path is if it turns
// as it slides: to the diagonal.
func turning(foot []plan.Point, dir r3.Vector) float64 {
	u, ok := unit(plan.Point{X: dir.X, Y: dir.Y})
	if !ok || len(foot) == 0 {
		return 0
	}
	lo, hi := terrain.Span(foot, r2.Point{X: -u.Y, Y: u.X})
	return max(0, spread(foot)-(hi-lo)/2)
}

func middle(foot []plan.Point) plan.Point {
	var m plan.Point
	for _, p := range foot {
		m = add(m, p, 1/float64(len(foot)))
	}
	return m
}

// spread is the greatest distance of a corner from the middle.
func spread(foot []plan.Point) float64 {
	m, r := middle(foot), 0.0
	for _, p := range foot {
		r = max(r, dist(m, p))
	}
	return r
}

// upright is the ground on both sides of an overturned vehicle: its height and
// a margin.
func (d *drawing) upright(u *Upright) {
	h := u.HeightM
	if !(h > 0) {
		h = facts.UprightHeightUnknown.Value()
	}
	if len(u.Footprint) < 2 || slices.ContainsFunc(u.Footprint, func(p plan.Point) bool { return !finitePoint(p) }) || !finite(h) {
		d.missing(part.ZoneRollAway, u.Thing)
		return
	}
	dir, ok := unit(plan.Point{X: u.Ahead.X, Y: u.Ahead.Y})
	if !ok {
		d.put(part.ZoneRollAway, facts.UprightMargin, u.Thing, d.room.circle(middle(u.Footprint), spread(u.Footprint)+h+facts.UprightMargin.Value()))
		return
	}
	d.put(part.ZoneRollAway, facts.UprightMargin, u.Thing, swept(u.Footprint, dir, 0, h+facts.UprightMargin.Value()))
}
