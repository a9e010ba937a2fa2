package doubt

import (
	"math"
	"reflect"
	"slices"

	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/gear"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// Assumption is one figure that is drawn, and what it is taken to scatter like.
type Assumption struct {
	What   string  // word id of what is no member of a thing: "stall", "stall-before", "resistance", "jerk", "flying", "damage", "damage-anchor", "strength"; else empty
	Thing  plan.ID // of a member
	Member string
	Part   string // of a strength: id of the part
	Dist   Dist
	Typed  bool     // by the plan's own range
	Fact   facts.ID // the row behind it; empty: the plan's own
}

// Words is the kind of a scatter as a word id, and its figures: mean and standard
// deviation of "normal" and "lognormal", the ends of "uniform", low, likely and high of
// "triangular", the figure of "sure".
func (d Dist) Words() (kind string, figures []float64) {
	switch d.kind {
	case normal:
		return "normal", []float64{d.a, d.b}
	case lognormal:
		return "lognormal", []float64{d.meanOfLog(), d.sdOfLog()}
	case uniform:
		return "uniform", []float64{d.a, d.c}
	case triangular:
		return "triangular", []float64{d.a, d.b, d.c}
	}
	return "sure", []float64{d.a}
}

// spreadOf is the row of a range read as a triangle, or of a single figure as sure.
func spreadOf(id facts.ID) Dist { return scaledSpread(id, 1) }

// scaledSpread is spreadOf times x.
func scaledSpread(id facts.ID, x float64) Dist {
	d, err := Triangular(id.Low().X*x, id.Likely().X*x, id.High().X*x)
	if err != nil {
		return Sure(id.Value() * x)
	}
	return d
}

// dressing is what was stated of a plan, in which the handbook would give it a
// conservative end, so that it can be drawn: by the rows that it scatters like.
type dressing struct {
	efficiency map[plan.ID]facts.ID // of blocks
	stall      map[plan.ID]facts.ID // of vehicles: the stall factor of the hauling winch is the one that was put in, 1
	own        bool                 // a hauling winch has one of its own
}

// dressed is a plan whose figures are stated, in which lines and slings are in a state that
// has a strength, and tags that were photographed count for what they say.
func dressed(p *plan.Plan, rig plan.ID) (*plan.Plan, dressing) {
	d := plan.Edit(p, rig)
	if d.Laid == nil {
		return d.Plan, dressing{own: true}
	}
	if n := d.Laid.Incident; n != nil {
		for i := range n.Pins {
			if q := &n.Pins[i]; q.Kind == plan.PinTag && whyTag(n, q) == SetsTag {
				tagged(d.Laid, &n.Pins[i])
			}
		}
	}
	for i := range d.Laid.Lines {
		d.Laid.Lines[i].Condition = sound(d.Laid.Lines[i].Condition)
	}
	for i := range d.Laid.Slings {
		d.Laid.Slings[i].Condition = sound(d.Laid.Slings[i].Condition)
	}
	return d.Plan, state(&d, rig)
}

// state states the figures of a draft. Level ground falls against the way out, where a
// tilt tells most: as long as it is level that changes nothing.
func state(d *plan.Draft, rig plan.ID) dressing {
	x := dressing{efficiency: map[plan.ID]facts.ID{}, stall: map[plan.ID]facts.ID{}}
	for i := range d.Laid.Blocks {
		b := &d.Laid.Blocks[i]
		if _, typed := b.Doubt("efficiency"); typed || b.Efficiency > 0 && !b.Preset("efficiency") || gear.CountsAsRing(b) {
			continue
		}
		id := facts.DoubtSheavePlain
		if b.Kind == plan.BlockRoller {
			id = facts.DoubtSheaveRoller
		}
		b.Efficiency, x.efficiency[b.ID] = id.Likely().X, id
	}
	for i := range d.Site.Vehicles {
		v := &d.Site.Vehicles[i]
		v.Unshare()
		w := v.Winch
		switch {
		case w == nil || !hauls(d.Laid, v.ID):
		case w.StallFactor > 0 || w.Limiter > 0:
			x.own = true
		default:
			w.StallFactor, x.stall[v.ID] = 1, facts.DoubtStallElectric
			if w.Drive != "" && w.Drive != "electric" {
				x.stall[v.ID] = facts.DoubtStallOther
			}
		}
	}
	if v := solver.CasualtyOf(d.Plan, rig); v != nil {
		if way, ok := v.WayOut(); ok && d.Site.Ground.Slope == plan.Known(quantity.Degrees(0)) {
			d.Site.Ground.Downhill = plan.Known((way + 180).Normal())
		}
	}
	return x
}

// sound is the condition of a piece that is not below strength. That one whose condition
// is not known or in doubt may be is held likely by a prior: see weaknesses.
func sound(condition string) string {
	if condition == plan.ConditionUnknown || condition == plan.ConditionDoubtful {
		return plan.ConditionUsed
	}
	return condition
}

// hauls reports whether a line runs to the winch of a vehicle.
func hauls(r *plan.Rig, vehicle plan.ID) bool {
	return slices.ContainsFunc(r.Lines, func(l plan.Line) bool {
		return slices.Contains(l.Path, plan.Port{Thing: vehicle, Point: plan.PortWinch})
	})
}

// tagged puts the rating of a photographed tag on its thing.
func tagged(r *plan.Rig, pin *plan.Pin) {
	put := func(h *plan.Head, rating *plan.Rating) {
		if h.ID == pin.Thing && pin.Rating.Known() {
			*rating = pin.Rating
			h.Presets = slices.DeleteFunc(slices.Clone(h.Presets), func(m string) bool { return m == "rating" })
		}
	}
	for i := range r.Lines {
		put(&r.Lines[i].Head, &r.Lines[i].Rating)
	}
	for i := range r.Blocks {
		put(&r.Blocks[i].Head, &r.Blocks[i].Rating)
	}
	for i := range r.Slings {
		put(&r.Slings[i].Head, &r.Slings[i].Rating)
	}
	for i := range r.Shackles {
		put(&r.Shackles[i].Head, &r.Shackles[i].Rating)
	}
}

// doubtfulFigures are the figures of a dressed plan that are drawn: those that it states
// a range of, and those that nobody knows exactly.
func doubtfulFigures(p *plan.Plan, rig plan.ID, efficiency map[plan.ID]facts.ID) (all []settable, not []Doubtful) {
	all, not = figures(p, rig)
	add := func(thing reflect.Value, member_ string, fact facts.ID, dist func(at float64) (Dist, error)) {
		h := headOf(thing)
		if _, typed := h.Doubt(member_); typed {
			return
		}
		m := plan.FigureOf(thing, member_)
		if m.Set == nil || !m.Known {
			return
		}
		if d, err := dist(m.At); err == nil && d.Scatters() {
			all = append(all, settable{Doubtful: Doubtful{Thing: h.ID, Member: member_, Dist: d, fact: fact}, at: m.At, set: m.Set, head: h})
		}
	}
	about := func(id facts.ID) func(float64) (Dist, error) {
		return func(at float64) (Dist, error) { return Normal(at, id.Value()) }
	}
	for i := range p.Site.Vehicles {
		v := &p.Site.Vehicles[i]
		if v.Stuck == nil {
			continue
		}
		thing, row := reflect.ValueOf(v).Elem(), massRow(v)
		add(thing, "mass_kg", row, func(at float64) (Dist, error) {
			if row == facts.DoubtMassKerb {
				return scaledSpread(row, at), nil
			}
			return Lognormal(at, row.Value())
		})
		add(thing, "bearing_deg", facts.DoubtBearing, about(facts.DoubtBearing))
		add(thing, "at.x_m", facts.DoubtPlace, about(facts.DoubtPlace))
		add(thing, "at.y_m", facts.DoubtPlace, about(facts.DoubtPlace))
	}
	if r, ok := p.Rig(rig); ok {
		for i := range r.Blocks {
			if id, ok := efficiency[r.Blocks[i].ID]; ok {
				add(reflect.ValueOf(&r.Blocks[i]).Elem(), "efficiency", id, func(float64) (Dist, error) { return spreadOf(id), nil })
			}
		}
	}
	if f := slope(p); f.set != nil {
		all = append(all, f)
	}
	byID(all)
	return all, not
}

// massRow is how a mass scatters: that of papers has what was loaded on top of it, unless
// somebody says what that is.
func massRow(v *plan.Vehicle) facts.ID {
	switch {
	case v.Preset("mass_kg"):
		return facts.DoubtMassGuessed
	case v.Load > 0:
		return facts.DoubtMassPapers
	}
	return facts.DoubtMassKerb
}

// slope is the slope of the ground as it scatters, if it is known with where it falls to.
// One that comes out below nothing falls the other way.
func slope(p *plan.Plan) (f settable) {
	g := &p.Site.Ground
	at, known := g.Slope.Get()
	downhill, falls := g.Downhill.Get()
	if !known || !falls {
		return f
	}
	f.Member, f.fact, f.at = "slope_deg", facts.DoubtSlope, float64(at)
	f.Dist, _ = Normal(float64(at), facts.DoubtSlope.Value())
	f.set = func(x float64) {
		to := downhill
		if x < 0 {
			to += 180
		}
		g.Slope, g.Downhill = plan.Known(min(quantity.Degrees(math.Abs(x)), terrain.MaxSlope)), plan.Known(to.Normal())
	}
	return f
}

// stalls are the stall factors that were put in, as they scatter.
func stalls(p *plan.Plan, rows map[plan.ID]facts.ID) (all []settable) {
	for i := range p.Site.Vehicles {
		v := &p.Site.Vehicles[i]
		row, drawn := rows[v.ID]
		if _, typed := v.Doubt("winch.stall_factor"); !drawn || typed {
			continue
		}
		all = append(all, settable{Doubtful: Doubtful{Thing: v.ID, Member: "winch.stall_factor", Dist: spreadOf(row), fact: row},
			at: 1, set: func(x float64) { v.Winch.StallFactor = x }, head: &v.Head})
	}
	return all
}
