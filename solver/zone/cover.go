package zone

import (
	"math"
	"slices"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Cover is something on the site that a place inside the stand-off may be
// covered by: ground higher than the head, or a thick living tree.
type Cover struct {
	Thing   plan.ID
	Kind    string       // plan.CoverGround, plan.CoverTimber
	Outline []plan.Point // of the ground
	HeightM float64      // of the ground; 0: not known
	At      plan.Point   // of the tree
	TrunkM  float64      // its diameter; 0: not known
	Health  string       // plan.HealthAlive …
	Anchor  bool         // something of the rig is fast to it
}

// Why a cover that is marked does not count, as word ids.
const (
	whyNoCover  = "cover-missing" // nothing of its kind stands there
	whyOpen     = "cover-open"    // something loaded can reach past it
	whyAnchor   = "cover-anchor"  // it holds the pull itself
	whyLow      = "cover-low"     // ground no higher than the head
	whyThin     = "cover-thin"    // a trunk too thin
	whyNotAlive = "cover-dead"    // a tree that is not known to be alive
	whyInFall   = "cover-in-fall" // a tree where another may come down
	ruleCovered = "stand-off-covered"
)

// covered reports whether the cover somebody marked is there: something of its kind
// hides the whole person from every loaded part. Where it is not, or a figure
// that decides it is missing, that is said.
func (c *crowd) covered(p *plan.Person, at plan.Point, found *[]part.Finding) bool {
	if p.Cover != plan.CoverGround && p.Cover != plan.CoverTimber {
		return false
	}
	why := part.Word("why", whyNoCover)
	by := plan.ID("")
	var lacks []part.Lack
	for i := range c.Covers {
		v := &c.Covers[i]
		if v.Kind != p.Cover {
			continue
		}
		w, lack := c.fails(v, at)
		switch {
		case w == "" && lack.Member == "":
			return true
		case w == "":
			lacks = append(lacks, lack)
		case by == "" || why.Text == whyOpen:
			by, why.Text = v.Thing, w
		}
	}
	if len(lacks) > 0 {
		part.NotDecided(found, ruleCovered, p.ID, lacks...)
		return false
	}
	things := []plan.ID{p.ID}
	if why.Text != whyOpen && by != "" {
		things = append(things, by)
	}
	raise(found, "cover-not-there", part.Caution, things, why)
	return false
}

// fails says why a cover does not count at a place, or what would have to be
// known of it; nothing of both: it counts.
func (c *crowd) fails(v *Cover, at plan.Point) (why string, lack part.Lack) {
	lacks := func(member string) (string, part.Lack) { return "", part.Lack{Thing: v.Thing, Member: member} }
	outline := v.Outline
	if v.Kind == plan.CoverTimber {
		d := v.TrunkM
		if !(d > 0) {
			d = facts.CoverTrunk.Value()
		}
		outline = round(v.At, d/2)
	}
	switch {
	case !c.hidden(outline, at):
		return whyOpen, lack
	case v.Anchor:
		return whyAnchor, lack
	case v.Kind == plan.CoverGround && !(v.HeightM > 0):
		return lacks("height_m")
	case v.Kind == plan.CoverGround:
		if v.HeightM < facts.CoverHead.Value() {
			return whyLow, lack
		}
		return "", lack
	case v.TrunkM > 0 && v.TrunkM < facts.CoverTrunk.Value():
		return whyThin, lack
	case v.Health != plan.HealthAlive && v.Health != plan.HealthUnknown:
		return whyNotAlive, lack
	}
	for i := range c.Zones {
		if c.Zones[i].Kind == part.ZoneTree && c.touches(i, v.At, v.TrunkM/2) {
			return whyInFall, lack
		}
	}
	switch {
	case !(v.TrunkM > 0):
		return lacks("trunk_m")
	case v.Health == plan.HealthUnknown:
		return lacks("health")
	}
	return "", lack
}

// round is a polygon within a circle: a trunk hides no more than it is.
func round(at plan.Point, radiusM float64) []plan.Point {
	out := make([]plan.Point, 24)
	for i := range out {
		out[i] = polar(at, 2*math.Pi*float64(i)/float64(len(out)), radiusM)
	}
	return out
}

// hidden reports whether an outline hides all of a person from every loaded part.
// Behind what is not hollow, what hides the corners of an octagon about the
// person hides all within it.
func (c *crowd) hidden(outline []plan.Point, at plan.Point) bool {
	if len(outline) < 3 || len(c.Stretches) == 0 || touched(outline, at, 0) {
		return false
	}
	r := facts.PersonHalfWidth.Value() / math.Cos(math.Pi/8)
	body := []plan.Point{at}
	for i := range 8 {
		body = append(body, polar(at, math.Pi*float64(i)/4, r))
	}
	for i := range c.Stretches {
		s := &c.Stretches[i]
		for _, t := range body {
			if !hides(outline, t, s.A, s.B) {
				return false
			}
		}
	}
	return true
}

// hides reports whether an outline stands between a place and every point of a
// stretch. What hides a point of the stretch changes only where a corner lines
// up with it or the stretch runs in or out: between two such points one speaks
// for all.
func hides(outline []plan.Point, t, a, b plan.Point) bool {
	at := []float64{0, 1}
	e := sub(b, a)
	for i, p := range outline {
		d := sub(p, t)
		if den := cross(d, e); den != 0 {
			// t + λ·d = a + μ·e
			if x := cross(sub(t, a), d) / cross(e, d); x > 0 && x < 1 {
				at = append(at, x)
			}
		}
		if x, ok := cuts(a, b, p, outline[(i+1)%len(outline)]); ok {
			at = append(at, x)
		}
	}
	slices.Sort(at)
	const hair = 1e-9
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] <= hair {
			continue
		}
		if !between(outline, t, add(a, e, (at[i]+at[i-1])/2)) {
			return false
		}
	}
	return true
}

// between reports whether an outline stands between two places.
func between(outline []plan.Point, p, q plan.Point) bool {
	for i, a := range outline {
		if _, ok := cuts(p, q, a, outline[(i+1)%len(outline)]); ok {
			return true
		}
	}
	return false
}
