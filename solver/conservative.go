package solver

import (
	"math"
	"strings"

	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// conservative holds copies of the things whose figures are in doubt, with the end of
// each doubt that lowers what the thing may be asked for. The packages get them in
// place of the plan's own; the geometry keeps to the plan. Most plans have none
// and every method hands back what it is given.
type conservative struct {
	lines    map[plan.ID]*plan.Line
	blocks   map[plan.ID]*plan.Block
	slings   map[plan.ID]*plan.Sling
	shackles map[plan.ID]*plan.Shackle
	vehicles map[plan.ID]*plan.Vehicle
	anchors  map[plan.ID]*plan.Anchor
	rocks    map[plan.ID]*plan.Obstacle
}

func pick[T any](m map[plan.ID]*T, id plan.ID, own *T) *T {
	if w, ok := m[id]; ok {
		return w
	}
	return own
}

func (w *conservative) line(l *plan.Line) *plan.Line             { return pick(w.lines, l.ID, l) }
func (w *conservative) block(b *plan.Block) *plan.Block          { return pick(w.blocks, b.ID, b) }
func (w *conservative) sling(s *plan.Sling) *plan.Sling          { return pick(w.slings, s.ID, s) }
func (w *conservative) shackle(k *plan.Shackle) *plan.Shackle    { return pick(w.shackles, k.ID, k) }
func (w *conservative) vehicle(v *plan.Vehicle) *plan.Vehicle    { return pick(w.vehicles, v.ID, v) }
func (w *conservative) anchor(a *plan.Anchor) *plan.Anchor       { return pick(w.anchors, a.ID, a) }
func (w *conservative) obstacle(o *plan.Obstacle) *plan.Obstacle { return pick(w.rocks, o.ID, o) }

// point is a recovery point of a vehicle; nil: it has none of that id.
func (w *conservative) point(v *plan.Vehicle, id plan.ID) *plan.RecoveryPoint {
	return w.vehicle(v).RecoveryPoint(id)
}

// takeConservative takes the conservative end of one doubt, and tells whether that member has
// one that is known.
type takeConservative func(member string, d plan.Doubt) bool

// low sets a figure to the low end of its doubt, high to the high end.
func low[T ~float64](x *T, d plan.Doubt) bool {
	*x = min(*x, T(d.Low))
	return true
}

func high[T ~float64](x *T, d plan.Doubt) bool {
	*x = max(*x, T(d.High))
	return true
}

// doubts takes the conservative end of every doubt of the plan that lowers a capacity,
// and says which others are assumed at their middle.
func (a *resolving) doubts() {
	r, site := a.g.r, &a.g.p.Site
	for i := range r.Lines {
		l := &r.Lines[i]
		doubted(a, &a.conservative.lines, l, &l.Head, conservativeLine)
	}
	for i := range r.Blocks {
		b := &r.Blocks[i]
		doubted(a, &a.conservative.blocks, b, &b.Head, conservativeBlock)
	}
	for i := range r.Slings {
		s := &r.Slings[i]
		doubted(a, &a.conservative.slings, s, &s.Head, func(w *plan.Sling, m string, d plan.Doubt) bool {
			return m == "rating.force_n" && low(&w.Rating.Force, d)
		})
	}
	for i := range r.Shackles {
		k := &r.Shackles[i]
		doubted(a, &a.conservative.shackles, k, &k.Head, conservativeShackle)
	}
	for i := range site.Anchors {
		n := &site.Anchors[i]
		doubted(a, &a.conservative.anchors, n, &n.Head, hold.TakeConservative)
	}
	for i := range site.Obstacles {
		o := &site.Obstacles[i]
		doubted(a, &a.conservative.rocks, o, &o.Head, func(w *plan.Obstacle, m string, d plan.Doubt) bool {
			return m == "mass_kg" && low(&w.Mass, d)
		})
	}
	for i := range site.Vehicles {
		own := &site.Vehicles[i]
		doubted(a, &a.conservative.vehicles, own, &own.Head, func(w *plan.Vehicle, m string, d plan.Doubt) bool {
			return a.conservativeMember(own, w, m, d)
		})
	}
}

// doubted keeps a copy of a thing that has doubts, with the conservative end of each
// that take takes.
func doubted[T any](a *resolving, to *map[plan.ID]*T, own *T, h *plan.Head, take func(w *T, member string, d plan.Doubt) bool) {
	if len(h.Doubts) == 0 {
		return
	}
	w := copied(own)
	put(to, h.ID, w)
	a.each(h, func(m string, d plan.Doubt) bool { return take(w, m, d) })
}

// copied is a copy of a thing whose figures may be changed.
func copied[T any](own *T) *T {
	w := *own
	if v, ok := any(&w).(*plan.Vehicle); ok {
		v.Unshare()
	}
	return &w
}

func put[T any](m *map[plan.ID]*T, id plan.ID, x *T) {
	if *m == nil {
		*m = make(map[plan.ID]*T, 1)
	}
	(*m)[id] = x
}

func conservativeLine(w *plan.Line, member string, d plan.Doubt) bool {
	switch member {
	case "rating.force_n":
		return low(&w.Rating.Force, d)
	case "connector.rating.force_n":
		return low(&w.Connector.Rating.Force, d)
	case "length_m":
		return low(&w.Length, d)
	case "tension_n":
		return true // it pulls with its high end, see staticLine
	}
	return false
}

func conservativeBlock(w *plan.Block, member string, d plan.Doubt) bool {
	switch member {
	case "rating.force_n":
		return low(&w.Rating.Force, d)
	case "sheave_diameter_m":
		return low(&w.Sheave, d)
	case "efficiency", "ring_friction":
		return true // the rig is balanced with both ends, see sheave
	}
	return false
}

func conservativeShackle(w *plan.Shackle, member string, d plan.Doubt) bool {
	switch member {
	case "rating.force_n":
		return low(&w.Rating.Force, d)
	case "body_m":
		return low(&w.Body, d)
	}
	return false
}

// each weakens the members of one thing; what no rule reads from its conservative end
// is said to be assumed at its middle.
func (a *resolving) each(h *plan.Head, w takeConservative) {
	for _, d := range h.Doubts {
		if math.IsNaN(d.Low+d.High) || w(d.Member, d) {
			continue
		}
		level := part.Notice
		if wide(&d) {
			level = part.Caution
		}
		a.find(part.Finding{ID: "doubt-at-middle", Level: level, Things: a.things(h.ID), Values: a.given(part.Word("member", fieldWord(d.Member)))})
	}
}

// wideDoubt, of the middle: a range wider than this may be another rig. (ours)
const wideDoubt = 0.2

// widePlaceM, metres: a place known no better than this may be another rig; what of the
// middle that is, hangs on where one counts from. (ours)
const widePlaceM = 1

// wide reports whether a range may be another rig.
func wide(d *plan.Doubt) bool {
	if d.OfPlace() {
		return d.High-d.Low > widePlaceM
	}
	return d.High-d.Low > wideDoubt*math.Abs(d.High+d.Low)/2
}

// fieldWord is the word id of a member of a thing, as its field is called: the
// last name of its path, and a rating by what it is of.
func fieldWord(member string) string {
	member = strings.TrimSuffix(member, ".force_n")
	return "field-" + member[strings.LastIndexByte(member, '.')+1:]
}

// conservativeMember takes the end of a doubt that lowers what a vehicle holds. The
// casualty's own doubts widen its resistance instead, see heavier.
func (a *resolving) conservativeMember(own, w *plan.Vehicle, member string, d plan.Doubt) bool {
	switch member {
	case "mass_kg", "load_kg":
		if own == a.g.casualty {
			return true
		}
		if member == "load_kg" {
			return low(&w.Load, d)
		}
		return low(&w.Mass, d)
	case "cg_height_m":
		return high(&w.CGHeight, d)
	case "track_m":
		return low(&w.Track, d)
	case "brake_force_n":
		return low(&w.BrakeForce, d)
	case "casualty.sinkage_m", "casualty.suction_n", "casualty.breakaway_factor", "casualty.trapped_water_kg", "casualty.water_speed_m_per_s", "casualty.water_depth_on_body_m":
		return own == a.g.casualty
	case "casualty.measured_resistance_n":
		return true // effort widens the range by it
	case "winch.line_pull_n":
		return w.Winch != nil && low(&w.Winch.LinePull, d)
	case "winch.limiter_n":
		return w.Winch != nil && low(&w.Winch.Limiter, d)
	case "winch.stall_factor":
		return w.Winch != nil && low(&w.Winch.StallFactor, d)
	}
	if rest, ok := strings.CutPrefix(member, "recovery_points."); ok {
		if id, ok := strings.CutSuffix(rest, ".rating.force_n"); ok {
			if rp := w.RecoveryPoint(plan.ID(id)); rp != nil {
				return low(&rp.Rating.Force, d)
			}
		}
	}
	return false
}

// heavier is the casualty at one end of its doubts: the heavy, deep end raises
// the resistance, the other lowers it. ok is false if it has none.
func heavier(v *plan.Vehicle, heavy bool) (w *plan.Vehicle, ok bool) {
	if len(v.Doubts) == 0 {
		return nil, false
	}
	c := *v
	if v.Stuck != nil {
		s := *v.Stuck
		c.Stuck = &s
	}
	for _, d := range v.Doubts {
		x := d.Low
		if heavy {
			x = d.High
		}
		if math.IsNaN(x) {
			continue
		}
		switch d.Member {
		case "mass_kg":
			c.Mass, ok = quantity.Mass(x), true
		case "load_kg":
			c.Load, ok = quantity.Mass(x), true
		case "casualty.sinkage_m":
			if c.Stuck != nil {
				c.Stuck.Sinkage, ok = quantity.Length(x), true
			}
		default:
			ok = c.Stuck != nil && stuckAt(c.Stuck, d.Member, x) || ok
		}
	}
	return &c, ok
}

// stuckAt sets what adds to a resistance to one end of its doubt.
func stuckAt(s *plan.Stuck, member string, x float64) bool {
	switch member {
	case "casualty.suction_n":
		s.Suction = quantity.Force(x)
	case "casualty.breakaway_factor":
		s.Breakaway = x
	case "casualty.trapped_water_kg":
		s.TrappedWater = quantity.Mass(x)
	case "casualty.water_speed_m_per_s":
		s.WaterSpeed = plan.Known(quantity.Speed(x))
	case "casualty.water_depth_on_body_m":
		s.WaterDepth = quantity.Length(x)
	default:
		return false
	}
	return true
}

// strongest is a vehicle's winch at the ends of its doubts with which it pulls
// most: what it can break is computed so.
func strongest(v *plan.Vehicle) *plan.Winch {
	if len(v.Doubts) == 0 {
		return v.Winch
	}
	w := *v.Winch
	end := func(member string, x float64) float64 {
		if _, most := plan.Range(&v.Head, "winch."+member, x); x > 0 {
			return most
		}
		return x // none, whatever its doubt
	}
	w.LinePull = quantity.Force(end("line_pull_n", float64(w.LinePull)))
	w.Limiter = quantity.Force(end("limiter_n", float64(w.Limiter)))
	w.StallFactor = end("stall_factor", w.StallFactor)
	return &w
}

// lossy is a block with the most friction of its doubt, smooth with the least.
func lossy(b *plan.Block) *plan.Block  { return slipping(b, true) }
func smooth(b *plan.Block) *plan.Block { return slipping(b, false) }

func slipping(b *plan.Block, most bool) *plan.Block {
	if len(b.Doubts) == 0 {
		return b
	}
	w := *b
	eta, fine := plan.Range(&b.Head, "efficiency", b.Efficiency)
	slick, mu := plan.Range(&b.Head, "ring_friction", b.Friction)
	if w.Efficiency, w.Friction = eta, mu; !most {
		w.Efficiency, w.Friction = fine, slick
	}
	return &w
}
