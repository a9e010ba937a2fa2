package remedy

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// newDamperOf is a damper of the kit, or one of which nothing is known.
func (c *request) newDamperOf(p *plan.Plan, stretch int, share float64) plan.Damper {
	d := plan.Damper{}
	for i := range c.Kit {
		if k := c.Kit[i].Damper; k != nil {
			d.Mass, d.Presets = k.Mass, []string{"mass_kg"}
			break
		}
	}
	d.ID, d.Line, d.Stretch, d.Share = plan.NewID(p, plan.PrefixDamper), c.Thing, stretch, share
	return d
}

// withDamper is p with a damper more on the line.
func (c *request) withDamper(p *plan.Plan, stretch int, share float64) *plan.Plan {
	i := p.RigIndex(c.Rig)
	r := p.Rigs[i]
	r.Dampers = append(slices.Clone(r.Dampers), c.newDamperOf(p, stretch, share))
	return plan.WithRig(p, i, r)
}

// addDamper lays a damper on the stretch that the remedy's value is named
// after, at the share it says.
func addDamper(c *request) (*plan.Plan, error) {
	l, ok := c.thing.At.(*plan.Line)
	n, err := strconv.Atoi(c.Value.Name[strings.LastIndexByte(c.Value.Name, '/')+1:])
	if !ok || err != nil || n < 1 || n >= len(l.Path) || !(c.Value.X >= 0 && c.Value.X <= 1) {
		return nil, c.no("no-thing")
	}
	return c.withDamper(c.Plan, n-1, c.Value.X), nil
}

func hasJoins(c *request) error {
	l, ok := c.thing.At.(*plan.Line)
	if !ok || len(l.Joins) == 0 {
		return c.no("no-thing")
	}
	if c.Answer == nil {
		return nil
	}
	run, near := runOf(c.Answer, c.Thing), 2*besideJoin()
	for _, j := range l.Joins {
		if x := float64(j.At); x > 0 && x < run.whole() {
			if before, after := run.beside(c.Plan, c.Rig, c.Thing, x, near); !before || !after {
				return nil
			}
		}
	}
	return c.no("has-dampers")
}

// besideJoin, metres of line: how far from a join its dampers are laid, half of
// the length within which they count (damper.join-near of the handbook).
func besideJoin() float64 {
	r, ok := facts.Get("damper.join-near")
	if !ok {
		return 1
	}
	return r.Likely * r.ToSI() / 2
}

// damperAtJoin lays a damper on each side of every join that lacks one.
func damperAtJoin(c *request) (*plan.Plan, error) {
	l, ok := c.thing.At.(*plan.Line)
	if !ok {
		return nil, c.no("no-thing")
	}
	run := runOf(c.answer(), c.Thing)
	if run.whole() <= 0 {
		return nil, c.no("no-run")
	}
	p, near := c.Plan, besideJoin()
	for _, j := range l.Joins {
		x := float64(j.At)
		if !(x > 0) || x >= run.whole() {
			continue // on the drum, or past the end
		}
		before, after := run.beside(p, c.Rig, c.Thing, x, 2*near)
		for _, at := range []struct {
			has bool
			x   float64
		}{{before, math.Max(0, x-near)}, {after, math.Min(run.whole(), x+near)}} {
			if !at.has {
				stretch, share := run.place(at.x)
				p = c.withDamper(p, stretch, share)
			}
		}
	}
	if p == c.Plan {
		return nil, c.no("has-dampers")
	}
	return p, nil
}

// run are the lengths of a line's stretches, in order from its hauling end.
type lineRun []float64

func runOf(a *solver.Assessment, line plan.ID) lineRun {
	var r lineRun
	for i := range a.Stretches {
		if a.Stretches[i].Line == line {
			r = append(r, float64(a.Stretches[i].Length))
		}
	}
	return r
}

func (r lineRun) whole() float64 {
	sum := 0.0
	for _, l := range r {
		sum += l
	}
	return sum
}

// place is where on which stretch a length of line from the hauling end is.
func (r lineRun) place(x float64) (stretch int, share float64) {
	for i, l := range r {
		if x <= l || i == len(r)-1 {
			return i, math.Min(1, x/math.Max(l, placeGrain))
		}
		x -= l
	}
	return 0, 0
}

// at is the length of line from the hauling end to a place on a stretch.
func (r lineRun) at(stretch int, share float64) float64 {
	sum := 0.0
	for i := 0; i < stretch && i < len(r); i++ {
		sum += r[i]
	}
	if stretch >= 0 && stretch < len(r) {
		sum += share * r[stretch]
	}
	return sum
}

// beside reports whether dampers lie within a length before and after a place.
func (r lineRun) beside(p *plan.Plan, rig, line plan.ID, x, near float64) (before, after bool) {
	g, ok := p.Rig(rig)
	if !ok {
		return false, false
	}
	for _, d := range g.Dampers {
		if d.Line != line || d.Stretch < 0 || d.Stretch >= len(r) {
			continue
		}
		at := r.at(d.Stretch, d.Share)
		before = before || at <= x && x-at <= near
		after = after || at >= x && at-x <= near
	}
	return before, after
}

// pulls tells the kinds of point that are made for pulling.
func pulls(kind string) bool {
	switch kind {
	case plan.PointRated, plan.PointBowEye, plan.PointHook, plan.PointPintle:
		return true
	}
	return false
}

// never tells the kinds that are no pulling points.
func never(kind string) bool {
	switch kind {
	case plan.PointTowBall, plan.PointTieDown, plan.PointBar, plan.PointAxle, plan.PointSteering:
		return true
	}
	return false
}

func hasOtherPoint(c *request) error {
	v, ok := c.thing.At.(*plan.Vehicle)
	if !ok || !slices.ContainsFunc(v.Recovery, func(q plan.RecoveryPoint) bool { return pulls(q.Kind) }) {
		return c.no("other-point")
	}
	return nil
}

// otherPoint hooks what hangs on a point not made for pulling to the nearest
// one of the same vehicle that is.
func otherPoint(c *request) (*plan.Plan, error) {
	v, ok := c.thing.At.(*plan.Vehicle)
	if !ok {
		return nil, c.no("other-point")
	}
	moves := map[plan.Port]plan.Port{}
	for i := range v.Recovery {
		q := &v.Recovery[i]
		if !never(q.Kind) {
			continue
		}
		best, least := plan.ID(""), quantity.Length(math.Inf(1))
		for j := range v.Recovery {
			o := &v.Recovery[j]
			if d := quantity.Length(math.Hypot(float64(o.Ahead-q.Ahead), float64(o.Left.Or(0)-q.Left.Or(0)))); pulls(o.Kind) && d < least {
				best, least = o.ID, d
			}
		}
		if best != "" {
			moves[plan.Port{Thing: v.ID, Point: q.ID}] = plan.Port{Thing: v.ID, Point: best}
		}
	}
	done := false
	p, err := c.rigged(func(r *plan.Rig) error {
		for i := range r.Lines {
			r.Lines[i].Path = slices.Clone(r.Lines[i].Path)
		}
		for i := range r.Shackles {
			r.Shackles[i].Joins = slices.Clone(r.Shackles[i].Joins)
		}
		r.EachPort(func(p *plan.Port) {
			if to, ok := moves[*p]; ok {
				*p, done = to, true
			}
		})
		return nil
	})
	if err == nil && !done {
		err = c.no("other-point")
	}
	return p, err
}
