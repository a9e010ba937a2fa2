package hold

import (
	"math"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// TreeIn is a tree as pulled.
type TreeIn struct {
	Tree    *plan.Anchor
	Soil    string          // as resolved: the tree's own, else the ground's
	Height  quantity.Length // of the strap above ground; 0: not known, counted at the least
	Lifting bool
}

// TreeMoments are the two moments at the stem's base that a tree gives at.
type TreeMoments struct {
	Uproot   quantity.Moment // C(species, soil, roots) · stem mass
	Break    quantity.Moment // knot · MOR · π·d³/32
	StemMass quantity.Mass
	Tested   quantity.Mass // heaviest stem pulled of this kind; 0: none known

	best quantity.Moment // to uproot it, were the soil and roots that are not known the best of the table
}

// Tree is what a tree holds and may be loaded with:
//
//	hold  = min(C·m, knot·MOR·π·d³/32) / h,  h the strap's height, at least 1 m
//	limit = min(hold_low ÷ 3, D²/30 kN), D in cm
//
// D²/30 (from memory) is a working load already and is not divided again.
// Source of C, MOR, knot: parameters of a published wind-risk model after
// Can. J. For. Res. 36 (2006) 1871. Dead, rotten, doubtful or of unknown health:
// no hold. Pulled before, or its base moved a quarter degree: half.
func Tree(in TreeIn, sum *part.Sum, found *[]part.Finding) part.Capacity {
	a, b := in.Tree, book()
	if !treeStands(a, found) {
		return part.Capacity{}
	}
	m, s, ok := moments(in, found)
	if !ok {
		return part.Capacity{}
	}
	h := math.Max(b.heightFloor.x, float64(in.Height))
	if !(h >= b.heightFloor.x) || math.IsInf(h, 1) { // not a number
		return part.Capacity{}
	}
	share := 1.0
	if a.PulledBefore {
		share = b.movedShare.x
		raise(found, "tree-moved", part.Warning, a.ID, "", value("share", part.UnitShare, share))
	}
	governs := math.Min(float64(m.Uproot), float64(m.Break))
	low := governs / h * share
	// The table is a regression through pulled trees; the factor 3 stands for
	// the scatter of single trees. The range goes up only as far as soil and
	// roots that are not known might be better than counted.
	hold := ultimate(low, low, math.Min(float64(m.best), float64(m.Break))/h*share)
	if !hold.Known {
		return part.Capacity{}
	}
	surety := s.surety
	if in.Height > 0 && float64(in.Height) > strapHigh {
		raise(found, "tree-strap-high", part.Caution, a.ID, "lower-strap", value("height", part.UnitLength, float64(in.Height)),
			value("least", part.UnitLength, b.heightFloor.x))
	}
	if sum.On() {
		recordTree(sum, m, h, share, low)
	}
	c := divided(hold, surety, treeNote(m), isPreset(a), in.Lifting, sum)
	if rule := treeRule(b, a); rule < float64(c.Limit.Force) {
		c.Limit.Force, c.Limit.Basis, c.Limit.Factor = quantity.Force(rule), "D²/30", rule/low
		c.Limit.Surety = surety.Weaker(b.d2.surety)
		if sum.On() {
			sum.Add("tree-rule", value("limit", part.UnitLimit, rule),
				typed("trunk", part.UnitLength, float64(a.Trunk)), cited("rule", part.UnitNone, b.d2))
		}
	}
	return c
}

// strapHigh, metres: a strap above this is worth lowering, for twice the
// height is half the hold; up to the least height counted it costs nothing.
const strapHigh = 1.0

// treeRule is D²/30 kN in newtons; the handbook's coefficient is in SI.
func treeRule(b *handbook, a *plan.Anchor) float64 {
	return b.d2.x * float64(a.Trunk) * float64(a.Trunk)
}

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
		case "trunk_m", "height_m", "species", "health", "mass_kg", "hold_low_n", "rating", "layout", "depth_m":
			return true
		}
	}
	return false
}

// treeStands says whether a tree may hold anything at all.
func treeStands(a *plan.Anchor, found *[]part.Finding) bool {
	switch {
	case a.BaseMoved:
		raise(found, "tree-stop", part.Danger, a.ID, "other-anchor")
		return false
	case a.Health == plan.HealthDead || a.Health == plan.HealthRotten:
		raise(found, "tree-dead", part.Danger, a.ID, "other-anchor", word("health", a.Health))
		return false
	case a.Health == plan.HealthDoubtful:
		raise(found, "tree-doubtful", part.Danger, a.ID, "other-anchor")
		return false
	case a.Health != plan.HealthAlive:
		raise(found, "tree-health-unknown", part.Warning, a.ID, "type-health")
		return false
	}
	return true
}

// moments are the two moments of a tree; ok is false if its size is not known.
func moments(in TreeIn, found *[]part.Finding) (m TreeMoments, s *species, ok bool) {
	a, b := in.Tree, book()
	d, h := float64(a.Trunk), float64(a.Height)
	switch {
	case d == 0 || h == 0:
		raise(found, "tree-size-unknown", part.Warning, a.ID, "type-size")
		return m, nil, false
	case !positive(d) || !positive(h):
		raise(found, "anchor-impossible", part.Danger, a.ID, "type-size")
		return m, nil, false
	}
	s, known := b.tree(a.Species)
	if !known {
		raise(found, "tree-species-unknown", part.Notice, a.ID, "type-species")
	}
	column, soilKnown := treeSoil(in.Soil)
	root, rootsKnown := treeRoots(a.Rooting)
	if !soilKnown {
		raise(found, "soil-unknown", part.Notice, a.ID, "type-soil")
		root = 0 // gleyed and shallow, the lowest column
	} else if !rootsKnown {
		raise(found, "tree-roots-unknown", part.Notice, a.ID, "type-roots")
	}
	c := s.moment[column][root]
	if !soilKnown && c == 0 { // a species with one soil only
		c = lowestMoment(s)
	}
	if c == 0 {
		raise(found, "tree-soil-not-in-table", part.Warning, a.ID, "type-soil")
		return m, s, false
	}
	m.StemMass = stemMass(s, known, d, h)
	m.Tested = quantity.Mass(s.tested[column])
	m.Uproot = quantity.Moment(c * float64(m.StemMass))
	m.best = quantity.Moment(bestMoment(s, column, root, soilKnown, rootsKnown) * float64(m.StemMass))
	m.Break = quantity.Moment(s.knot * s.mor * math.Pi * d * d * d / 32)
	switch {
	case m.Tested == 0:
		raise(found, "tree-untested", part.Caution, a.ID, "", value("stem", part.UnitMass, float64(m.StemMass)))
	case m.StemMass > m.Tested:
		raise(found, "tree-extrapolated", part.Caution, a.ID, "", value("stem", part.UnitMass, float64(m.StemMass)),
			value("tested", part.UnitMass, float64(m.Tested)))
	}
	return m, s, true
}

func lowestMoment(s *species) float64 {
	least := 0.0
	for _, row := range s.moment {
		for _, c := range row {
			if c > 0 && (least == 0 || c < least) {
				least = c
			}
		}
	}
	return least
}

// bestMoment is the highest figure that fits what is known.
func bestMoment(s *species, column, root int, soilKnown, rootsKnown bool) float64 {
	best := s.moment[column][root]
	for i, row := range s.moment {
		for j, c := range row {
			if (soilKnown && i != column) || (rootsKnown && soilKnown && j != root) {
				continue
			}
			best = math.Max(best, c)
		}
	}
	return best
}

// Moments are the two moments of a tree, as [Tree] takes them, whatever its
// health. ok is false if its size is not known or its soil not in the table.
func Moments(in TreeIn) (m TreeMoments, ok bool) {
	m, _, ok = moments(in, nil)
	return m, ok
}

// stemMass is density times volume. Conifers by the published equations,
// broadleaves and unknown species by the lower of what may apply.
func stemMass(s *species, known bool, trunkM, heightM float64) quantity.Mass {
	b := book()
	const cmPerM = 100
	d := trunkM * cmPerM
	spruce := func() float64 { return b.spruceC * math.Pow(d, b.spruceP) * math.Pow(heightM, b.spruceQ) }
	conifer := func() float64 { return b.coniferC * math.Pow(d, b.coniferP) * math.Pow(heightM, b.coniferQ) }
	var v float64
	switch {
	case s.leafy:
		v = b.form.x * math.Pi / 4 * trunkM * trunkM * heightM
	case !known:
		v = math.Min(spruce(), conifer())
	case s.spruce:
		v = spruce()
	default:
		v = conifer()
	}
	return quantity.Mass(v * s.density)
}

func recordTree(sum *part.Sum, m TreeMoments, h, share, low float64) {
	sum.Add("tree-moment", value("moment", part.UnitMoment, math.Min(float64(m.Uproot), float64(m.Break))),
		computed("uproot", part.UnitMoment, float64(m.Uproot)), computed("breaks", part.UnitMoment, float64(m.Break)),
		computed("stem", part.UnitMass, float64(m.StemMass)))
	sum.Add("tree-hold", value("hold", part.UnitLimit, low),
		computed("moment", part.UnitMoment, math.Min(float64(m.Uproot), float64(m.Break))),
		computed("height", part.UnitLength, h), computed("share", part.UnitFactor, share))
}
