package form

import (
	"math"
	"strconv"
	"strings"

	"kedge/solver"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// computed is what counts where a member is not entered, with its unit, or
// would count if it were not; empty if nothing does, or nothing is computed.
func (c *teller) computed(m member) string {
	switch x := c.thing.At.(type) {
	case *plan.Vehicle:
		return c.ofVehicle(x, m.path)
	case *plan.Anchor:
		return c.ofAnchor(x, m.path)
	case *plan.Line:
		return c.ofLine(x, m.path)
	case *plan.Block:
		return c.ofBlock(x, m.path)
	case *plan.Pin:
		if m.path == "trust" {
			return c.w.Value(part.Value{X: x.Trusted()}, nil)
		}
	case *plan.Sling:
		if m.path == "height_m" && c.isTrunk(x.On.Thing) {
			return c.w.Dimension(solver.PresetStrapHeight)
		}
	}
	return ""
}

func (c *teller) isTrunk(id plan.ID) bool {
	a, ok := c.p.Anchor(id)
	return ok && a.Kind == plan.AnchorTree
}

func (c *teller) ofVehicle(v *plan.Vehicle, path string) string {
	switch path {
	case "casualty/measured_resistance_n":
		a := c.a
		if v.Stuck != nil && v.Stuck.Measured != 0 {
			a = c.without(v.ID, path)
		}
		if r := resistanceOf(a, v); r != nil {
			return c.w.Label("range-of", part.Force("low", r.Low), part.Force("high", r.High), part.Text("on", c.w.Label("plan-"+r.PlanOn)))
		}
	case "winch/min_wraps":
		if v.Winch != nil {
			w := *v.Winch
			w.MinWraps = 0
			return strconv.Itoa(gear.LeastWraps(&w, c.materialOn(v.ID)))
		}
	}
	return ""
}

// resistanceOf is that of the casualty v, if it was computed.
func resistanceOf(a *solver.Assessment, v *plan.Vehicle) *solver.Resistance {
	if a == nil || a.Casualty != v.ID || v.Stuck == nil || !a.Resistance.Known {
		return nil
	}
	return &a.Resistance
}

// without is the assessment as it would be if some members of a thing were not
// entered; nil if the plan as it is was not assessed either.
func (c *teller) without(thing plan.ID, members ...string) *solver.Assessment {
	if c.a == nil {
		return nil
	}
	p := c.p
	for _, m := range members {
		next, _, err := Set(p, c.rig, thing, m, "", c.w)
		if err != nil {
			return nil
		}
		p = next
	}
	return solver.Assess(p, c.rig)
}

// materialOn is what the line on a vehicle's winch is made of; empty: no line,
// or not known.
func (c *teller) materialOn(v plan.ID) string {
	if l := c.lineOn(v); l != nil {
		return l.Material
	}
	return ""
}

func (c *teller) lineOn(v plan.ID) *plan.Line {
	r, ok := c.p.Rig(c.rig)
	if !ok {
		return nil
	}
	for i := range r.Lines {
		if p := r.Lines[i].Path; len(p) > 0 && p[0] == (plan.Port{Thing: v, Point: plan.PortWinch}) {
			return &r.Lines[i]
		}
	}
	return nil
}

// dimension is a length as a field tells it; empty: it is not known.
func (c *teller) dimension(l quantity.Length) string {
	if !(l > 0) {
		return ""
	}
	return c.w.Dimension(l)
}

func (c *teller) ofAnchor(a *plan.Anchor, path string) string {
	bare := *a
	switch path {
	case "girth_m":
		bare.Girth = 0
		return c.dimension(terrain.AtBreast(&bare) * math.Pi)
	case "trunk_m":
		bare.Trunk = 0
		return c.dimension(terrain.AtStrap(&bare))
	}
	if !strings.HasPrefix(path, "hold_") || path == "hold_source" {
		return ""
	}
	from := c.a
	if a.HoldTyped() {
		if c.bare == nil {
			c.bare = c.without(a.ID, "hold_low_n", "hold_likely_n", "hold_high_n")
		}
		from = c.bare
	}
	q := partOf(from, a.ID, part.KindAnchor)
	if q == nil || !q.Ultimate.Known {
		return ""
	}
	switch path {
	case "hold_low_n":
		return c.w.Limit(q.Ultimate.Low)
	case "hold_likely_n":
		return c.w.Limit(q.Ultimate.Likely)
	case "hold_high_n":
		return c.w.Limit(q.Ultimate.High)
	}
	return ""
}

func partOf(a *solver.Assessment, thing plan.ID, k part.Kind) *part.Part {
	if a == nil {
		return nil
	}
	for i := range a.Parts {
		if q := &a.Parts[i]; q.Thing == thing && q.Kind == k {
			return q
		}
	}
	return nil
}

func (c *teller) ofLine(l *plan.Line, path string) string {
	switch path {
	case "connector/rating":
		if f, ok := gear.ConnectorRating(l.Connector.Kind, l.Diameter); ok && l.Connector.Rating.Force == 0 {
			return c.w.Limit(f)
		}
	case "stiffness_ae_n":
		bare := *l
		bare.Stiffness = 0
		if f := gear.LineStiffness(&bare); f > 0 {
			return c.w.Limit(f)
		}
	case "mass_kg_per_m":
		bare := *l
		bare.MassPerM = 0
		if d := gear.LineMass(&bare); d > 0 {
			return c.w.Written(quantity.FormatLinearDensity(d, c.w.System(), quantity.Plain)).String()
		}
	case "tension_n":
		a := c.a
		if l.Fixed != 0 {
			a = c.without(l.ID, path)
		}
		if q := partOf(a, l.ID, part.KindStretch); q != nil && q.Move.Known {
			return c.w.Load(q.Move.Force)
		}
	}
	return ""
}

func (c *teller) ofBlock(b *plan.Block, path string) string {
	bare := *b
	bare.Efficiency, bare.Friction = 0, 0
	switch {
	case path == "efficiency" && !gear.CountsAsRing(&bare):
		return c.w.Value(part.Value{X: gear.SheaveEfficiency(&bare)}, nil)
	case path == "ring_friction" && gear.CountsAsRing(&bare):
		if l := c.lineThrough(b.ID); l != nil {
			return c.w.Value(part.Value{X: gear.RingFriction(&bare, l)}, nil)
		}
	}
	return ""
}

func (c *teller) lineThrough(b plan.ID) *plan.Line {
	r, ok := c.p.Rig(c.rig)
	if !ok {
		return nil
	}
	for i := range r.Lines {
		for _, p := range r.Lines[i].Path {
			if p.Thing == b {
				return &r.Lines[i]
			}
		}
	}
	return nil
}

// shown are the computed figures of a thing that are no members: what it
// carries, how it lies.
func (c *teller) shown() []Field {
	var out []Field
	add := func(member, label, value string) {
		out = append(out, Field{Member: "=" + member, Label: label, Group: c.w.Label("group-computed"), Kind: KindShown,
			Value: value, Origin: OriginComputed, Computed: value})
	}
	if u, ok := c.thing.At.(*plan.Underlay); ok {
		c.ofPicture(u, add)
	}
	if q, ok := c.thing.At.(*plan.Pin); ok {
		if ph := c.p.Photo(q.Shows); ph != nil {
			add("file", c.w.Label("shown-file"), PhotoFile(c.w, ph))
		}
	}
	if v, ok := c.thing.At.(*plan.Vehicle); ok && v.Winch != nil {
		if s := gear.StallPull(v.Winch); s.Known {
			add("stall", c.w.Label("shown-stall"), c.w.Load(s.High))
		}
	}
	if c.a == nil {
		return out
	}
	if v, ok := c.thing.At.(*plan.Vehicle); ok && v.Winch != nil {
		if l := c.lineOn(v.ID); l != nil {
			c.lineUse(l.ID, add)
		}
	}
	if l, ok := c.thing.At.(*plan.Line); ok {
		c.lineUse(l.ID, add)
	}
	for i := range c.a.Slings {
		if s := &c.a.Slings[i]; s.Sling == c.thing.id && s.Radius > 0 {
			if s.Short > 0 {
				add("short", c.w.Label("shown-short"), c.w.LengthNeeded(s.Short))
				continue
			}
			add("legs", c.w.Label("shown-legs"), c.w.Angle(s.Opens))
			add("reach", c.w.Label("shown-reach"), c.w.Dimension(s.Reach))
		}
	}
	for i := range c.a.Nodes {
		if n := &c.a.Nodes[i]; n.Thing == c.thing.id && n.Angle > 0 {
			add("angle", c.w.Label("shown-angle"), c.w.Angle(n.Angle))
		}
	}
	for i := range c.a.Parts {
		if q := &c.a.Parts[i]; q.Thing == c.thing.id {
			add(q.ID, c.w.PartName(q, c.names), c.w.Label("shown-part", part.Text("load", c.w.LoadOf(q.Planned())), part.Text("limit", c.w.LimitOf(q.Limit)), part.Text("used", c.w.UsedOf(q))))
		}
	}
	return out
}

// lineUse says how much of a line is out, and how it lies on its drum.
func (c *teller) lineUse(id plan.ID, add func(member, label, value string)) {
	for i := range c.a.Lines {
		u := &c.a.Lines[i]
		if u.Line != id {
			continue
		}
		add("out", c.w.Label("shown-out"), c.w.LengthNeeded(u.Out))
		if u.Missing > 0 {
			add("missing", c.w.Label("shown-missing"), c.w.LengthNeeded(u.Missing))
		}
		if u.Layer > 0 {
			add("layer", c.w.Label("shown-layer"), strconv.Itoa(u.Layer))
			add("wraps", c.w.Label("shown-wraps"), c.w.Value(part.Value{X: u.Wraps}, nil))
		}
	}
}
