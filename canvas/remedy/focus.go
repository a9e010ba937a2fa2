package remedy

import (
	"strings"

	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// member is a field by its name.
func member(path string) func(*request) string { return func(*request) string { return path } }

// focusMissing is the member that a rule lacked, which the remedy names as a
// finding does: "winch.flange_diameter_m".
func focusMissing(c *request) string {
	return strings.ReplaceAll(strings.TrimSuffix(c.Value.Text, ".force_n"), ".", "/")
}

// firstEmpty is the first of the members that the thing has and nobody has
// entered; if all are entered, the first it has.
func firstEmpty(paths ...string) func(*request) string {
	return func(c *request) string {
		first := ""
		for _, path := range paths {
			there, entered := c.thing.Entered(path, c.Words.System())
			switch {
			case there && !entered:
				return path
			case there && first == "":
				first = path
			}
		}
		return first
	}
}

// focusSize is the first size that nobody entered of a tree, of which the girth
// or the trunk will do, or of a buried log.
func focusSize(c *request) string {
	if a, ok := c.thing.At.(*plan.Anchor); ok && a.Kind == plan.AnchorTree && terrain.AtBreast(a) > 0 {
		return firstEmpty("height_m")(c)
	}
	return firstEmpty("girth_m", "height_m", "depth_m", "log_length_m", "log_diameter_m")(c)
}

// focusRating is the rating of a piece, or of the point of a vehicle that is in
// use and lacks what is asked.
func focusRating(c *request) string {
	v, ok := c.thing.At.(*plan.Vehicle)
	if !ok {
		return "rating"
	}
	return c.point(v, "rating", func(q *plan.RecoveryPoint) bool {
		if c.Do == "say-rating-basis" {
			return q.Rating.Known() && q.Rating.Basis == plan.BasisUnsaid
		}
		return !q.Rating.Known()
	})
}

func focusKind(c *request) string {
	v, ok := c.thing.At.(*plan.Vehicle)
	if !ok {
		return "kind"
	}
	return c.point(v, "kind", func(q *plan.RecoveryPoint) bool { return q.Kind == plan.PointUnknown })
}

// point is a member of the first point of v in use of which something is true,
// else of the first point in use.
func (c *request) point(v *plan.Vehicle, name string, is func(q *plan.RecoveryPoint) bool) string {
	used := ""
	for i := range v.Recovery {
		q := &v.Recovery[i]
		if !c.inUse(plan.Port{Thing: v.ID, Point: q.ID}) {
			continue
		}
		path := "recovery_points/" + string(q.ID) + "/" + name
		if is(q) {
			return path
		}
		if used == "" {
			used = path
		}
	}
	return used
}

// inUse reports whether something of the rig is made fast at a port.
func (c *request) inUse(port plan.Port) bool {
	r, ok := c.Plan.Rig(c.Rig)
	if !ok {
		return false
	}
	found := false
	r.EachPort(func(p *plan.Port) { found = found || *p == port })
	return found
}

// focusDiameter is the thickness that says how sharp a bend is.
func focusDiameter(c *request) string {
	switch c.thing.At.(type) {
	case *plan.Line:
		return "diameter_m"
	case *plan.Block:
		return "sheave_diameter_m"
	case *plan.Sling:
		return "width_m"
	case *plan.Shackle:
		return "body_m"
	case *plan.Anchor:
		return "trunk_m"
	}
	return "winch/drum_diameter_m"
}

// rigged is the plan with a change made to a copy of the rig: its lists may be
// changed, what their elements share may not.
func (c *request) rigged(change func(r *plan.Rig) error) (*plan.Plan, error) {
	d := plan.Edit(c.Plan, c.Rig)
	if d.Laid == nil {
		return nil, c.no("no-thing")
	}
	if err := change(d.Laid); err != nil {
		return nil, err
	}
	return d.Plan, nil
}
