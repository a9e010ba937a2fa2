package remedy

import (
	"cmp"
	"math"
	"slices"

	"kedge/solver"
	"kedge/solver/effort"
	"kedge/solver/gear"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
	"kedge/solver/travel"
)

// tieTries bounds how many ways of tying back are assessed: each costs an
// assessment. (ours: the nearest anchors with the shortest pieces come first)
const tieTries = 48

// tieSite is a place behind a vehicle that it might be tied to.
type tieSite struct {
	port   plan.Port // of the anchor
	own    plan.Port // of the vehicle
	farM   float64
	radius quantity.Length // of a trunk; 0: none
}

// tieBack ties a vehicle to the nearest anchor behind it that the rule of
// tie-backs takes: within [effort.TieBackMost] of the line of the pull, strap,
// point and anchor each within a known limit, and the finding gone. The strap
// or line is the shortest of the kit that reaches and is taut; a line is cut to that. If nothing does, the error
// says why the nearest does not and what to place.
func tieBack(c *request) (*plan.Plan, error) {
	v, ok := c.thing.At.(*plan.Vehicle)
	if !ok {
		return nil, c.no("no-thing")
	}
	pull, ok := c.pullOn(v)
	if !ok {
		return nil, c.no("no-pull")
	}
	sites, points := c.tieSites(v, pull)
	why := ""
	tries := 0
	for _, s := range sites {
		reached := false
		for _, piece := range c.tiePieces(s) {
			if reached = true; tries >= tieTries {
				break
			}
			tries++
			p, id, err := c.withTie(piece, s)
			if err != nil {
				return nil, err
			}
			over, fits := c.tieHolds(p, id, s)
			if fits {
				return p, nil
			}
			if why == "" {
				why = over
			}
		}
		if !reached && why == "" {
			why = c.tieText("why-tie-reach", s)
		}
		if tries >= tieTries {
			break
		}
	}
	switch {
	case !points:
		return nil, c.no("tie-point")
	case len(sites) == 0:
		return nil, c.noTieSite()
	}
	return nil, &NoButton{Do: c.Do, Why: why + ". " + c.Words.Label("why-tie-place", c.tieValues()...)}
}

// tieValues are the vehicle, what its anchor must be good for and the angle that
// counts.
func (c *request) tieValues() []part.Value {
	return []part.Value{part.Text("thing", c.name()), part.Force("good", c.Value.X), part.Number("off", part.UnitAngle, effort.TieBackMost)}
}

func (c *request) tieText(id string, s tieSite) string {
	return c.Words.Label(id, append(c.tieValues(), part.Text("anchor", c.called(s.port.Thing)), part.Length("far", s.farM))...)
}

func (c *request) called(id plan.ID) string {
	if n := c.Words.Names(c.Plan, c.Rig)(id); n != "" {
		return n
	}
	return string(id)
}

// pullOn is the way the lines pull a vehicle, in the plan; false if none does.
func (c *request) pullOn(v *plan.Vehicle) (plan.Point, bool) {
	var sum plan.Point
	for _, s := range c.answer().Stretches {
		a, b := part.Flat(s.A), part.Flat(s.B)
		if s.PortB.Thing == v.ID {
			a, b = b, a
		} else if s.PortA.Thing != v.ID {
			continue
		}
		if l := a.Dist(b); l > 0 {
			sum = sum.Plus((b.X-a.X)/l, (b.Y-a.Y)/l)
		}
	}
	return sum, math.Hypot(sum.X, sum.Y) > layout.FineM
}

// tieSites are the anchors behind a vehicle that is pulled one way, each with
// the vehicle's point that looks best to it, nearest first; points tells whether
// the vehicle has a point to tie.
func (c *request) tieSites(v *plan.Vehicle, pull plan.Point) (sites []tieSite, points bool) {
	least := math.Cos(quantity.Degrees(effort.TieBackMost).Radians())
	add := func(id plan.ID, at plan.Point, radius, high quantity.Length) {
		for i := range v.Recovery {
			q := &v.Recovery[i]
			if never(q.Kind) {
				continue
			}
			from := v.Place(q.Ahead, q.Left.Or(0))
			far := math.Hypot(from.Dist(at), float64(v.Rise+q.Height-high))
			if along := (from.X-at.X)*pull.X + (from.Y-at.Y)*pull.Y; far > 0 && along >= least*far*math.Hypot(pull.X, pull.Y) {
				sites = append(sites, tieSite{plan.Port{Thing: id}, plan.Port{Thing: v.ID, Point: q.ID}, far, radius})
			}
		}
	}
	s := &c.Plan.Site
	for i := range s.Anchors {
		a := &s.Anchors[i]
		radius, high := quantity.Length(0), a.Rise
		if a.Kind == plan.AnchorTree {
			radius, high = terrain.AtStrap(a)/2, high+solver.PresetStrapHeight
		}
		add(a.ID, a.At, radius, high)
	}
	for i := range s.Obstacles {
		if o := &s.Obstacles[i]; o.Anchor {
			middle, radius, _ := layout.Trunk(plan.NewIndex(c.Plan, nil), plan.Port{Thing: o.ID})
			add(o.ID, middle, radius, 0)
		}
	}
	slices.SortStableFunc(sites, func(a, b tieSite) int { return cmp.Compare(a.farM, b.farM) })
	return sites, slices.ContainsFunc(v.Recovery, func(q plan.RecoveryPoint) bool { return !never(q.Kind) })
}

// tiePieces are the straps and then the lines of the kit that reach from the
// vehicle's point to a site and round its trunk, the shortest first.
func (c *request) tiePieces(s tieSite) []any {
	var list []any
	for _, k := range c.kitSlings(func(k *plan.Sling) bool {
		reach := float64(k.Length)
		if s.radius > 0 {
			reach = float64(gear.SlingRound(s.radius, k.Length, plan.HitchChoked).Reach)
		}
		return gear.Static(k.Material) && k.Rating.Known() && reach >= s.farM
	}) {
		reach := k.Length
		if s.radius > 0 {
			reach = gear.SlingRound(s.radius, k.Length, plan.HitchChoked).Reach
		}
		k.Length -= reach - quantity.Length(s.farM) // a turn more takes up the rest: what hangs slack holds nothing
		list = append(list, k)
	}
	for _, k := range c.kitLines(func(k *plan.Line) bool {
		return gear.Static(k.Material) && k.Rating.Known() && float64(k.Length) >= s.farM+2*math.Pi*float64(s.radius)
	}) {
		k.Length = quantity.Length(s.farM) // as much as is paid out
		list = append(list, k)
	}
	return list
}

// withTie is the plan with a piece between a vehicle's point and an anchor, used
// as tie-back.
func (c *request) withTie(piece any, s tieSite) (p *plan.Plan, id plan.ID, err error) {
	p, err = c.rigged(func(r *plan.Rig) error {
		switch k := piece.(type) {
		case plan.Sling:
			id = plan.NewID(c.Plan, plan.PrefixSling)
			k.Condition = cmp.Or(k.Condition, plan.ConditionUsed) // a preset, as of any piece laid out
			k.Head = plan.Head{ID: id, Presets: layout.PresetMembers(&k)}
			k.On, k.Holds, k.Hitch, k.Use = s.own, s.port, plan.HitchStraight, plan.UseTieBack
			r.Slings = append(r.Slings, k)
		case plan.Line:
			id = plan.NewID(c.Plan, plan.PrefixLine)
			k.Condition = cmp.Or(k.Condition, plan.ConditionUsed)
			k.Head = plan.Head{ID: id, Presets: layout.PresetMembers(&k)}
			k.Path, k.Use = []plan.Port{s.own, s.port}, plan.UseTieBack
			r.Lines = append(r.Lines, layout.Hooked(k))
		}
		return nil
	})
	return p, id, err
}

// tieHolds reports whether a plan is rid of the finding, and that what ties back,
// the point it is on and the anchor are each within a known limit; else what is
// not.
func (c *request) tieHolds(p *plan.Plan, id plan.ID, s tieSite) (why string, ok bool) {
	if plan.Validate(p) != nil {
		return c.tieText("why-tie-askew", s), false
	}
	if why, ok = c.tiePartsHold(solver.Assess(p, c.Rig), p, id, s); !ok { // as drawn: the quicker half
		return why, false
	}
	a := travel.Whole(p, c.Rig)
	if !c.clearedIn(a) {
		return c.tieText("why-tie-askew", s), false
	}
	return c.tiePartsHold(a, p, id, s)
}

// tiePartsHold reports whether what ties back bears on nothing, and that its parts
// are within known limits, by an answer for a plan; else what is not.
func (c *request) tiePartsHold(a *solver.Assessment, p *plan.Plan, id plan.ID, s tieSite) (why string, ok bool) {
	for i := range a.Findings {
		if f := &a.Findings[i]; f.ID == "tie-back-bears" && f.Things[0] == id {
			return c.Words.Label("why-tie-bears", part.Text("anchor", c.called(s.port.Thing)), part.Text("thing", c.called(f.Things[1]))), false
		}
	}
	name := func(q *part.Part) part.Value {
		return part.Text("part", c.Words.PartName(q, c.Words.Naming(a, c.Words.Names(p, c.Rig))))
	}
	// Anchor and point first: no other piece helps where one is too weak.
	for _, of := range [...]func(*part.Part) bool{
		func(q *part.Part) bool { return q.Thing == s.port.Thing || q.ID == s.own.String() },
		func(q *part.Part) bool { return q.Thing == id },
	} {
		for i := range a.Parts {
			switch q := &a.Parts[i]; {
			case !of(q):
			case !q.Limit.Known, q.Status == part.Undecided:
				why = c.Words.Label("why-tie-unknown", name(q))
				if lacks := lackedBy(a, q); len(lacks) > 0 {
					why += c.Words.Label("why-tie-lacks", part.Text("fields", c.Words.Lacks(lacks, c.Words.Names(p, c.Rig))))
				}
				return why, false
			case q.Status != part.Within && q.Status != part.Near:
				return c.Words.Label("why-tie-weak", name(q), part.Text("limit", c.Words.LimitOf(q.Limit)), part.Text("load", c.Words.LoadOf(q.Move))), false
			}
		}
	}
	return "", true
}

// lackedBy are the members for want of which it is not known whether a part is within
// its limit: those of warnings about it, for want of a limit; else, and where it is
// undecided, those its rules lack.
func lackedBy(a *solver.Assessment, q *part.Part) []part.Lack {
	var limit, open []part.Lack
	for i := range a.Findings {
		f := &a.Findings[i]
		if f.Level >= part.Warning && f.Concerns(q) {
			limit = append(limit, f.Lacks...)
		}
		if f.ID == part.NotDecidedID && slices.Contains(f.Things, q.Thing) {
			open = append(open, f.Lacks...)
		}
	}
	if len(limit) > 0 && !q.Limit.Known {
		return limit
	}
	return append(limit, open...)
}

// standsTied: a vehicle that is not to be moved itself, and has points.
func standsTied(c *request) error {
	v, ok := c.thing.At.(*plan.Vehicle)
	switch {
	case !ok || v.Stuck != nil:
		return c.no("no-thing")
	case len(v.Recovery) == 0:
		return c.no("tie-point")
	}
	if c.Answer == nil {
		return nil
	}
	if pull, ok := c.pullOn(v); ok {
		if sites, points := c.tieSites(v, pull); points && len(sites) == 0 {
			return c.noTieSite()
		}
	}
	return nil
}

// noTieSite is why nothing can be tied back: nothing stands behind.
func (c *request) noTieSite() error {
	return &NoButton{Do: c.Do, Why: c.Words.Label("why-tie-none", c.tieValues()...)}
}
