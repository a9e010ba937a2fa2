package remedy

import (
	"cmp"
	"slices"
	"strings"

	"kedge/canvas/form"
	"kedge/solver/facts"
	"kedge/solver/gear"
	"kedge/solver/layout"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// kitHas asks that the kit has pieces of a kind.
func kitHas(kind facts.GearKind) func(*request) error {
	return func(c *request) error {
		if !slices.ContainsFunc(c.Kit, func(g facts.GearItem) bool { return g.Kind == kind }) {
			return c.no("kit-has-none")
		}
		return nil
	}
}

// weaker orders pieces from the weakest working load to the strongest, by
// what a tag may be asked for: breaking loads count by the factor of the kind.
func weaker(a, b plan.Rating) int { return cmp.Compare(workingN(a), workingN(b)) }

// workingN is a rating as a working load, newtons: one that is not said to be
// working is divided as gear behind an anchor is, the conservative reading.
func workingN(r plan.Rating) float64 {
	if r.Basis == plan.BasisWorking {
		return float64(r.Force)
	}
	return float64(r.Force) / facts.Must(facts.FactorPullingAnchorGear).High
}

// longerSling takes the shortest sling of the kit's lengths that clears the
// finding. The piece is another one, so its tag is one that nobody has read.
func longerSling(c *request) (*plan.Plan, error) {
	s, ok := c.thing.At.(*plan.Sling)
	if !ok {
		return nil, c.no("no-thing")
	}
	longer := slices.DeleteFunc(c.slingLengths(s.Material), func(l quantity.Length) bool {
		return l <= s.Length || float64(l) < c.Value.X
	})
	return longEnough(c, longer, func(r *plan.Rig, l quantity.Length) {
		t, _ := r.Sling(c.Thing)
		c.otherSling(t, l)
	})
}

// longEnough is the plan with the first of some pieces that answers the finding,
// laid by lay.
func longEnough[T any](c *request, pieces []T, lay func(*plan.Rig, T)) (*plan.Plan, error) {
	for _, piece := range pieces {
		p, err := c.rigged(func(r *plan.Rig) error {
			lay(r, piece)
			return nil
		})
		if err != nil {
			return nil, err
		}
		if c.clears(p) {
			return p, nil
		}
	}
	return nil, c.no("none-long-enough")
}

// slingLengths are the lengths a sling is to be had in, shortest first.
func (c *request) slingLengths(material string) []quantity.Length {
	list := layout.KitLengths()
	for i := range c.Kit {
		if s := c.Kit[i].Sling; s != nil && s.Length > 0 && s.Material == material {
			list = append(list, s.Length)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// otherSling makes a sling one of another length: rating and width are those of
// the kit's piece of that length, if it has one; else they stay, as presets.
func (c *request) otherSling(s *plan.Sling, length quantity.Length) {
	s.Length = length
	for i := range c.Kit {
		if k := c.Kit[i].Sling; k != nil && k.Length == length && k.Material == s.Material && s.Preset("rating") {
			s.Rating, s.Width = k.Rating, k.Width
			break
		}
	}
	s.Doubts = withoutDoubt(s.Doubts, "length_m")
	s.Presets = withMembers(s.Presets, "length_m", "rating")
	if s.Width > 0 {
		s.Presets = withMembers(s.Presets, "width_m")
	}
}

// withMembers is a list of presets with some members, each once.
func withMembers(presets []string, members ...string) []string {
	out := slices.Clone(presets)
	for _, m := range members {
		if !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	return out
}

func withoutDoubt(doubts []plan.Doubt, members ...string) []plan.Doubt {
	out := slices.DeleteFunc(slices.Clone(doubts), func(d plan.Doubt) bool { return slices.Contains(members, d.Member) })
	if len(out) == 0 {
		return nil
	}
	return out
}

// hitched rigs a sling in another way.
func hitched(hitch string) func(*request) (*plan.Plan, error) {
	return func(c *request) (*plan.Plan, error) { return c.set("hitch", hitch) }
}

// keep is what stays of a thing when another piece takes its place: its id and
// what the person said of it on the sheet.
func keep(h plan.Head, presets []string) plan.Head {
	h.Presets, h.Doubts = presets, nil
	return h
}

// swapSling puts a piece of the kit in a sling's place, rigged as it was.
func swapSling(s *plan.Sling, k plan.Sling) {
	k.Head = keep(s.Head, layout.PresetMembers(&k))
	k.On, k.Holds, k.Hitch, k.Height, k.Use, k.Extra = s.On, s.Holds, s.Hitch, s.Height, s.Use, s.Extra
	if s.Preset("height_m") {
		k.Presets = withMembers(k.Presets, "height_m")
	}
	*s = k
}

func swapLine(l *plan.Line, k plan.Line) {
	k.Head = keep(l.Head, layout.PresetMembers(&k))
	k.Path, k.Use, k.Share, k.Elastic, k.Joins, k.Wet, k.Extra = l.Path, l.Use, l.Share, l.Elastic, l.Joins, l.Wet, l.Extra
	k.Connector = l.Connector // the piece hooked on stays, with what is known of it
	ofConnector := func(member string) bool { return strings.HasPrefix(member, "connector.") }
	for _, m := range l.Presets {
		if ofConnector(m) {
			k.Presets = append(k.Presets, m)
		}
	}
	for _, d := range l.Doubts {
		if ofConnector(d.Member) {
			k.Doubts = append(k.Doubts, d)
		}
	}
	*l = k
}

func swapBlock(b *plan.Block, k plan.Block) {
	k.Head = keep(b.Head, withMembers(layout.PresetMembers(&k), "kind"))
	k.Fixed, k.At, k.Extra = b.Fixed, b.At, b.Extra
	*b = k
}

func swapShackle(s *plan.Shackle, k plan.Shackle) {
	k.Head = keep(s.Head, withMembers(layout.PresetMembers(&k), "kind"))
	k.Joins, k.At, k.PinIsRunning, k.Extra = s.Joins, s.At, s.PinIsRunning, s.Extra
	*s = k
}

// kitLines are lines of the kit that will do, the shortest first.
func (c *request) kitLines(will func(l *plan.Line) bool) []plan.Line {
	var list []plan.Line
	for i := range c.Kit {
		if l := c.Kit[i].Line; l != nil && will(l) {
			list = append(list, *l)
		}
	}
	slices.SortStableFunc(list, func(a, b plan.Line) int { return cmp.Compare(a.Length, b.Length) })
	return list
}

func (c *request) kitSlings(will func(s *plan.Sling) bool) []plan.Sling {
	var list []plan.Sling
	for i := range c.Kit {
		if s := c.Kit[i].Sling; s != nil && will(s) {
			list = append(list, *s)
		}
	}
	slices.SortStableFunc(list, func(a, b plan.Sling) int { return cmp.Compare(a.Length, b.Length) })
	return list
}

// staticLine puts a line of the kit that is no stretch rope, and no shorter, in
// a line's place.
func staticLine(c *request) (*plan.Plan, error) {
	return c.rigged(func(r *plan.Rig) error {
		if l, ok := r.Line(c.Thing); ok {
			for _, k := range c.kitLines(func(k *plan.Line) bool { return gear.Static(k.Material) && k.Length >= l.Length }) {
				swapLine(l, k)
				return nil
			}
			return c.no("kit-has-none")
		}
		return c.static(r)
	})
}

// staticSling puts a sling of the kit that is no stretch rope, and no shorter,
// in a sling's place.
func staticSling(c *request) (*plan.Plan, error) { return c.rigged(c.static) }

func (c *request) static(r *plan.Rig) error {
	s, ok := r.Sling(c.Thing)
	if !ok {
		return c.no("no-thing")
	}
	for _, k := range c.kitSlings(func(k *plan.Sling) bool { return gear.Static(k.Material) && k.Length >= s.Length }) {
		swapSling(s, k)
		return nil
	}
	return c.no("kit-has-none")
}

func hasPiece(c *request) error {
	switch c.thing.At.(type) {
	case *plan.Line:
		return kitHas(facts.GearLine)(c)
	case *plan.Sling:
		return kitHas(facts.GearSling)(c)
	}
	return c.no("replace")
}

// replacePiece puts a piece of the kit of the same material, and no shorter, in
// the place of one that is not to be used. Its state is not known until somebody
// has looked at it.
func replacePiece(c *request) (*plan.Plan, error) {
	return c.rigged(func(r *plan.Rig) error {
		if l, ok := r.Line(c.Thing); ok {
			for _, k := range c.kitLines(func(k *plan.Line) bool {
				return k.Material == l.Material && k.Length >= l.Length && k.Diameter == l.Diameter
			}) {
				swapLine(l, k)
				return nil
			}
			return c.no("kit-has-none")
		}
		s, ok := r.Sling(c.Thing)
		if !ok {
			return c.no("no-thing")
		}
		for _, k := range c.kitSlings(func(k *plan.Sling) bool { return k.Material == s.Material && k.Length >= s.Length }) {
			swapSling(s, k)
			return nil
		}
		return c.no("kit-has-none")
	})
}

// extendLine lengthens a line with the shortest static sling of the kit that is
// long enough, between its end and what it pulls.
func extendLine(c *request) (*plan.Plan, error) {
	l, ok := c.thing.At.(*plan.Line)
	if !ok || len(l.Path) < 2 {
		return nil, c.no("no-thing")
	}
	end := l.Path[len(l.Path)-1]
	long := c.kitSlings(func(k *plan.Sling) bool {
		return gear.Static(k.Material) && float64(k.Length) >= c.Value.X && k.Length > 0
	})
	return longEnough(c, long, func(r *plan.Rig, k plan.Sling) {
		k.Head = plan.Head{ID: plan.NewID(c.Plan, plan.PrefixSling), Presets: layout.PresetMembers(&k)}
		k.On, k.Hitch = end, plan.HitchStraight
		r.Slings = append(r.Slings, k)
		line, _ := r.Line(c.Thing)
		line.Path = slices.Clone(line.Path)
		line.Path[len(line.Path)-1] = plan.Port{Thing: k.ID}
		for i := range r.Shackles { // what joined line and point joins sling and point
			if j := slices.Index(r.Shackles[i].Joins, plan.Port{Thing: c.Thing}); j >= 0 && slices.Contains(r.Shackles[i].Joins, end) {
				r.Shackles[i].Joins = slices.Clone(r.Shackles[i].Joins)
				r.Shackles[i].Joins[j] = plan.Port{Thing: k.ID}
			}
		}
	})
}

// pinRuns: the pin can be turned away from the running line; that a shackle is
// pulled across is seen on the board and mended there.
func pinRuns(c *request) error {
	s, ok := c.thing.At.(*plan.Shackle)
	if !ok || !s.PinIsRunning {
		return c.no("turn-shackle")
	}
	return nil
}

func turnShackle(c *request) (*plan.Plan, error) { return c.set("pin_on_running_line", form.No) }

// bowShackle puts the weakest bow shackle of the kit that is rated no lower in
// the place of a dee.
func bowShackle(c *request) (*plan.Plan, error) {
	return c.rigged(func(r *plan.Rig) error {
		s, ok := r.Shackle(c.Thing)
		if !ok {
			return c.no("no-thing")
		}
		for _, k := range c.kitShackles(plan.ShackleBow) {
			if workingN(k.Rating) >= workingN(s.Rating) {
				swapShackle(s, k)
				return nil
			}
		}
		return c.no("none-strong-enough")
	})
}

func (c *request) kitShackles(kind string) []plan.Shackle {
	var list []plan.Shackle
	for i := range c.Kit {
		if k := c.Kit[i].Shackle; k != nil && k.Kind == kind && k.Rating.Known() {
			list = append(list, *k)
		}
	}
	slices.SortStableFunc(list, func(a, b plan.Shackle) int { return weaker(a.Rating, b.Rating) })
	return list
}

// kitBlocks are blocks of the kit with a sheave that takes every line through
// the block, the weakest first.
func (c *request) kitBlocks() []plan.Block {
	r, _ := c.Plan.Rig(c.Rig)
	takes := func(k *plan.Block) bool {
		for i := range r.Lines {
			l := &r.Lines[i]
			if slices.ContainsFunc(l.Path, func(p plan.Port) bool { return p.Thing == c.Thing }) &&
				(l.Diameter <= 0 || l.Diameter < k.LineMin || k.LineMax > 0 && l.Diameter > k.LineMax) {
				return false
			}
		}
		return k.Kind != plan.BlockRing && k.Rating.Known()
	}
	var list []plan.Block
	for i := range c.Kit {
		if k := c.Kit[i].Block; k != nil && takes(k) {
			list = append(list, *k)
		}
	}
	slices.SortStableFunc(list, func(a, b plan.Block) int { return weaker(a.Rating, b.Rating) })
	return list
}

// blockForRing puts the strongest block of the kit that takes the line in the
// place of a ring.
func blockForRing(c *request) (*plan.Plan, error) {
	return c.rigged(func(r *plan.Rig) error {
		b, ok := r.Block(c.Thing)
		list := c.kitBlocks()
		if !ok || len(list) == 0 {
			return c.no("kit-has-none")
		}
		swapBlock(b, list[len(list)-1])
		return nil
	})
}

func isGear(c *request) error {
	switch c.thing.At.(type) {
	case *plan.Sling, *plan.Shackle, *plan.Block:
		return nil
	}
	return c.no("stronger-part")
}

// strongerPart puts the weakest piece of the kit in a part's place that the
// winch does not break.
func strongerPart(c *request) (*plan.Plan, error) {
	r, ok := c.Plan.Rig(c.Rig)
	if !ok {
		return nil, c.no("no-thing")
	}
	var tries []func(r *plan.Rig)
	if s, ok := r.Sling(c.Thing); ok {
		list := c.kitSlings(func(k *plan.Sling) bool { return gear.Static(k.Material) && k.Length == s.Length && k.Rating.Known() })
		slices.SortStableFunc(list, func(a, b plan.Sling) int { return weaker(a.Rating, b.Rating) })
		for _, k := range list {
			tries = append(tries, func(r *plan.Rig) {
				s, _ := r.Sling(c.Thing)
				condition := s.Condition
				if swapSling(s, k); s.Condition == "" {
					s.Condition, s.Presets = condition, withMembers(s.Presets, "condition")
				}
			})
		}
	}
	if s, ok := r.Shackle(c.Thing); ok {
		for _, k := range c.kitShackles(s.Kind) {
			tries = append(tries, func(r *plan.Rig) { s, _ := r.Shackle(c.Thing); swapShackle(s, k) })
		}
	}
	if _, ok := r.Block(c.Thing); ok {
		for _, k := range c.kitBlocks() {
			tries = append(tries, func(r *plan.Rig) { b, _ := r.Block(c.Thing); swapBlock(b, k) })
		}
	}
	for _, try := range tries {
		p, err := c.rigged(func(r *plan.Rig) error { try(r); return nil })
		if err != nil {
			return nil, err
		}
		if c.clears(p) && c.known(p) {
			return p, nil
		}
	}
	return nil, c.no("none-strong-enough")
}

// known reports whether the part still has a limit and an ultimate: one that is not
// known raises no finding and is no remedy.
func (c *request) known(p *plan.Plan) bool {
	a := (&request{Given: Given{Plan: p, Rig: c.Rig}}).answer()
	for i := range a.Parts {
		if q := &a.Parts[i]; q.Thing == c.Thing && (!q.Limit.Known || !q.Ultimate.Known) {
			return false
		}
	}
	return true
}

// leastStrap is the height of a strap from which lower gains nothing.
func leastStrap() quantity.Length {
	r := facts.Must(facts.TreeStrapHeightFloor)
	return quantity.Length(r.Likely * r.ToSI())
}
