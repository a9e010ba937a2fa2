package hold

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// TreeIn is a tree as pulled.
type TreeIn struct {
	Tree    *plan.Anchor
	Soil    string          // as resolved: the tree's own, else the ground's
	Height  quantity.Length // of the strap above ground; 0: not known, counted at the least
	Strap   plan.ID         // a strap of which nobody entered how high it lies; empty: none
	Lifting bool
}

// TreeMoments are the two mean moments at the stem's base that a tree gives at.
type TreeMoments struct {
	Uproot   quantity.Moment // C(species, soil, roots) · stem mass
	Break    quantity.Moment // knot · MOR · π·d³/32
	StemMass quantity.Mass
	Tested   quantity.Mass // heaviest stem pulled of this kind; 0: none known

	best quantity.Moment // to uproot it, were the soil and roots that are not known the best of the table
}

// governs is the lower of the two.
func (m TreeMoments) governs() float64 { return math.Min(float64(m.Uproot), float64(m.Break)) }

// Tree is what a tree holds and may be loaded with:
//
//	mean  = min(C·m, knot·MOR·π·d³/32) / h,  h the strap's height, at least 1 m
//	low   = 0.65 · mean [ours]
//	limit = min(low ÷ 3, D²/30 kN), D in cm
//
// d and D are the diameter 1.3 m above the ground, see [terrain.AtBreast]. D²/30 (from
// memory) is a working load already and is not divided again. Source of C, MOR,
// knot: parameters of a published wind-risk model after Can. J. For. Res. 36
// (2006) 1871, which are means. Dead, rotten, doubtful or of unknown health: no
// hold. Pulled before, or its base moved a quarter degree: half.
func Tree(in TreeIn, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	a := in.Tree
	if !treeStands(a, found) {
		return part.Capacity{}
	}
	t, ok := in.stem(derivation, found)
	if !ok {
		return part.Capacity{}
	}
	m := t.moments(derivation, found)
	h := math.Max(facts.TreeStrapHeightFloor.Conservative().X, float64(in.Height))
	if !(h >= facts.TreeStrapHeightFloor.Conservative().X) || math.IsInf(h, 1) { // not a number
		return part.Capacity{}
	}
	share := 1.0
	if a.PulledBefore {
		share = facts.TreeMovedShare.Conservative().X
		raise(found, "tree-moved", part.Warning, a.ID, "", part.Number("share", part.UnitShare, share))
	}
	mean := m.governs() / h * share
	low := facts.TreeLowShare.Conservative().X * m.governs() / h * share
	hold := ultimate(low, mean, math.Min(float64(m.best), float64(m.Break))/h*share)
	if !hold.Known {
		return part.Capacity{}
	}
	confidence := t.species.confidence.Weaker(facts.TreeLowShare.Conservative().Confidence)
	if in.Strap != "" {
		part.NotDecided(found, "tree-strap-high", a.ID, part.Lack{Thing: in.Strap, Member: "height_m"})
	}
	if in.Height > 0 && float64(in.Height) > strapHigh {
		raise(found, "tree-strap-high", part.Caution, a.ID, "lower-strap", part.Length("height", in.Height),
			part.Length("least", facts.TreeStrapHeightFloor.Conservative().X))
	}
	if derivation.On() {
		operands := []part.Operand{cited("low", part.UnitNone, facts.TreeLowShare.Conservative()), computed("uproot", part.UnitMoment, float64(m.Uproot)),
			computed("breaks", part.UnitMoment, float64(m.Break)), computed("height", part.UnitLength, h)}
		formula := "tree-hold"
		if a.PulledBefore {
			formula, operands = "tree-hold-moved", append(operands, cited("share", part.UnitFactor, facts.TreeMovedShare.Conservative()))
		}
		derivation.Add(formula, part.Number("hold", part.UnitLimit, low), operands...)
	}
	c := divided(hold, confidence, treeNote(m), isPreset(a), in.Lifting, derivation)
	if rule := facts.TreeD2Rule.Conservative().X * t.d * t.d; rule < float64(c.Limit.Force) {
		c.Limit.Force, c.Limit.Basis = quantity.Force(rule), "D²/30"
		c.Limit.Confidence = confidence.Weaker(facts.TreeD2Rule.Conservative().Confidence)
		if derivation.On() {
			divisor := facts.TreeD2Rule.Conservative()
			divisor.X = cmPerM * cmPerM * kN / facts.TreeD2Rule.Conservative().X // cm² per kN
			derivation.Add("tree-rule", part.Number("limit", part.UnitLimit, rule), computed("diameter", part.UnitNone, t.d*cmPerM), cited("divisor", part.UnitNone, divisor))
		}
	}
	return c
}

// strapHigh, metres: a strap above this is worth lowering, for twice the
// height is half the hold; up to the least height counted it costs nothing.
const strapHigh = 1.0

// Units of the tables and of their sums, in SI.
const (
	cmPerM = 100
	kN     = 1000
)

// treeNote says which moment the hold is.
func treeNote(m TreeMoments) string {
	if m.Break < m.Uproot {
		return "the trunk breaks first"
	}
	return "the tree is pulled over first"
}

func isPreset(a *plan.Anchor) bool {
	for _, p := range a.Presets {
		switch p {
		case "girth_m", "trunk_m", "height_m", "species", "health", "mass_kg", "hold_low_n", "rating", "layout", "depth_m":
			return true
		}
	}
	return false
}

// treeStands reports whether a tree may hold anything at all.
func treeStands(a *plan.Anchor, found *[]part.Finding) bool {
	switch {
	case a.BaseMoved:
		raise(found, "tree-stop", part.Danger, a.ID, "other-anchor")
		return false
	case a.Health == plan.HealthDead || a.Health == plan.HealthRotten:
		raise(found, "tree-dead", part.Danger, a.ID, "other-anchor", part.Word("health", a.Health))
		return false
	case a.Health == plan.HealthDoubtful:
		raise(found, "tree-doubtful", part.Danger, a.ID, "other-anchor")
		return false
	case a.Health != plan.HealthAlive:
		raise(found, "tree-health-unknown", part.Warning, a.ID, "type-health")
		lacks(found, "health")
		return false
	}
	return true
}

// stem is a tree as the tables read it.
type stem struct {
	TreeIn
	species      *species
	known        bool // the species
	column, root int  // of the table
	soilKnown    bool
	rootsKnown   bool
	c            float64 // N·m per kg of stem
	d, h         float64 // diameter 1.3 m up, height, m
}

// stem reads a tree; ok is false if its size is not known, or its soil not in
// the table.
func (in TreeIn) stem(derivation *part.Derivation, found *[]part.Finding) (t stem, ok bool) {
	a, b := in.Tree, book()
	t = stem{TreeIn: in, h: float64(a.Height)}
	switch {
	case terrain.AtBreast(a) == 0 || t.h == 0:
		raise(found, "tree-size-unknown", part.Warning, a.ID, "type-size")
		if terrain.AtBreast(a) == 0 {
			lacks(found, "girth_m", "trunk_m")
		}
		if t.h == 0 {
			lacks(found, "height_m")
		}
		return t, false
	case !positive(float64(terrain.AtBreast(a))) || !positive(float64(terrain.AtStrap(a))) || !positive(t.h):
		raise(found, "anchor-impossible", part.Danger, a.ID, "type-size")
		return t, false
	}
	t.d = in.breast(derivation, found)
	t.species, t.known = b.tree(a.Species)
	if !t.known {
		raise(found, "tree-species-unknown", part.Notice, a.ID, "type-species")
		lacks(found, "species")
	}
	t.column, t.soilKnown = treeSoil(in.Soil)
	t.root, t.rootsKnown = treeRoots(a.Rooting)
	switch {
	case !t.soilKnown && t.species.partial():
		part.NotDecided(found, "tree-soil-not-in-table", a.ID, part.Lack{Thing: a.ID, Member: "soil"})
		return t, false
	case !t.soilKnown:
		raise(found, "soil-unknown", part.Notice, a.ID, "type-soil")
		lacks(found, "soil")
		t.root = 0 // gleyed and shallow, the lowest column
	case !t.rootsKnown:
		raise(found, "tree-roots-unknown", part.Notice, a.ID, "type-roots")
		lacks(found, "rooting")
	}
	t.c = t.species.moment[t.column][t.root]
	switch {
	case !t.soilKnown:
		t.c = t.species.lowest()
	case t.c == 0:
		raise(found, "tree-soil-not-in-table", part.Warning, a.ID, "type-soil")
		return t, false
	}
	return t, true
}

// partial reports whether the table lacks some soil of a species: of a soil that is
// not known it then says nothing.
func (s *species) partial() bool {
	for _, row := range s.moment {
		if row[0] == 0 {
			return true
		}
	}
	return false
}

// lowest is the lowest figure of a species.
func (s *species) lowest() float64 {
	least := math.Inf(1)
	for _, row := range s.moment {
		for _, c := range row {
			least = math.Min(least, c)
		}
	}
	return least
}

// best is the highest figure that fits what is known.
func (t *stem) best() float64 {
	best := t.c
	for i, row := range t.species.moment {
		for j, c := range row {
			if (t.soilKnown && i != t.column) || (t.rootsKnown && t.soilKnown && j != t.root) {
				continue
			}
			best = math.Max(best, c)
		}
	}
	return best
}

// moments are the two moments of a tree, and whether stems as heavy as its own
// have been pulled.
func (t *stem) moments(derivation *part.Derivation, found *[]part.Finding) (m TreeMoments) {
	s := t.species
	m.StemMass = t.mass(derivation)
	mass := float64(m.StemMass)
	m.Tested = quantity.Mass(s.tested[t.column])
	m.Uproot = quantity.Moment(t.c * mass)
	m.best = quantity.Moment(t.best() * mass)
	m.Break = quantity.Moment(s.breaking(t.d))
	if derivation.On() {
		c := facts.Figure{ID: s.id, X: t.c / kN, Confidence: s.confidence}
		derivation.Add("tree-uproot", part.Number("uproot", part.UnitMoment, m.Uproot), cited("c", part.UnitNone, c), computed("stem", part.UnitNone, mass))
		knot, mor := facts.Figure{ID: s.member("knot"), X: s.knot, Confidence: s.confidence}, facts.Figure{ID: s.member("mor"), X: s.mor / kN, Confidence: s.confidence}
		derivation.Add("tree-break", part.Number("breaks", part.UnitMoment, m.Break), cited("knot", part.UnitNone, knot), cited("mor", part.UnitNone, mor), computed("diameter", part.UnitNone, t.d))
	}
	if found != nil {
		t.pulled(mass, found)
	}
	return m
}

// breaking is the moment that breaks a trunk of diameter d, N·m.
func (s *species) breaking(d float64) float64 { return s.knot * s.mor * math.Pi * d * d * d / 32 }

// pulled tells a stem that is heavier than any pulled for the table. Without
// species or soil that is decided only where it is so on every soil, or none.
func (t *stem) pulled(mass float64, found *[]part.Finding) {
	a, stem := t.Tree, part.Number("stem", part.UnitMass, mass)
	tested := t.species.tested[t.column]
	if a.Girth == 0 && mass <= tested { // as thick as at the strap it may be heavier
		thick := *t
		thick.d = float64(a.Trunk)
		if float64(thick.mass(nil)) > tested {
			part.NotDecided(found, "tree-extrapolated", a.ID, part.Lack{Thing: a.ID, Member: "girth_m"})
		}
	}
	var missing []part.Lack
	if !t.known {
		missing = append(missing, part.Lack{Thing: a.ID, Member: "species"})
	}
	if !t.soilKnown && t.species.tested != [soils]float64{} {
		missing = append(missing, part.Lack{Thing: a.ID, Member: "soil"})
	}
	switch {
	case len(missing) > 0:
		part.NotDecided(found, "tree-extrapolated", a.ID, missing...)
	case tested == 0:
		raise(found, "tree-untested", part.Caution, a.ID, "", stem)
	case mass > tested:
		raise(found, "tree-extrapolated", part.Caution, a.ID, "", stem, part.Number("tested", part.UnitMass, tested))
	}
}

// mass is that of the stem, kg: density times volume. Conifers by the model's
// equations V = c·Dᵖ·Hᵠ, D in cm, broadleaves by a form factor (low end), of a
// species that is not known the lowest of all.
func (t *stem) mass(derivation *part.Derivation) quantity.Mass {
	b, s := book(), t.species
	e, v := (*volume)(nil), facts.StemFormFactor.Conservative().X*math.Pi/4*t.d*t.d*t.h
	switch {
	case s.leafy:
	case t.known && s.spruce:
		e, v = &b.spruce, b.spruce.of(t.d, t.h)
	default: // of one that is not known a spruce's is never the lowest of the three
		if conifer := b.conifers.of(t.d, t.h); t.known || conifer <= v {
			e, v = &b.conifers, conifer
		}
	}
	mass := v * s.density
	if derivation.On() {
		density := cited("density", part.UnitNone, facts.Figure{ID: s.member("density"), X: s.density, Confidence: s.confidence})
		stem, height := part.Number("stem", part.UnitNone, mass), typed("height", part.UnitNone, t.h)
		if e == nil {
			derivation.Add("tree-stem-form", stem, cited("form", part.UnitNone, facts.StemFormFactor.Conservative()), computed("diameter", part.UnitNone, t.d), height, density)
		} else {
			derivation.Add("tree-stem", stem, cited("factor", part.UnitNone, e.c), computed("diameter", part.UnitNone, t.d*cmPerM),
				cited("p", part.UnitNone, e.p), height, cited("q", part.UnitNone, e.q), density)
		}
	}
	return quantity.Mass(mass)
}

// volume is an equation of the stem's volume.
type volume struct{ c, p, q facts.Figure }

// of is the volume of a stem, m³, of its diameter 1.3 m up and its height, m.
func (e *volume) of(d, h float64) float64 {
	return e.c.X * math.Pow(d*cmPerM, e.p.X) * math.Pow(h, e.q.X)
}
