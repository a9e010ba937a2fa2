package hold

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// measured is a hold somebody measured or vouches for. It overrules the
// tables, and is told where it contradicts them.
func measured(in In, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
	a := in.Anchor
	typedLow, known := a.HoldLow.Get()
	given := float64(typedLow)
	switch {
	case !known:
		raise(found, "hold-low-unknown", part.Warning, a.ID, "type-hold")
		lacks(found, "hold_low_n")
		return part.Capacity{}
	case given == 0:
		derivation.Add("holds-nothing", part.Number("limit", part.UnitLimit, 0))
		return part.Capacity{Limit: part.Limit{Known: true, Basis: "holds nothing", Confidence: part.ConfidenceTyped}, Note: "measured hold"}
	case !positive(given):
		raise(found, "anchor-impossible", part.Danger, a.ID, "type-hold")
		return part.Capacity{}
	}
	in.believed(given, found)
	low, likely, high := given, float64(a.HoldLikely), float64(a.HoldHigh)
	if a.Kind == plan.AnchorTree && a.PulledBefore {
		share := facts.TreeMovedShare.Conservative().X
		low, likely, high = low*share, likely*share, high*share
		raise(found, "tree-moved", part.Warning, a.ID, "", part.Number("share", part.UnitShare, share))
	}
	if derivation.On() {
		if low == given {
			derivation.Add("measured-hold", part.Number("hold", part.UnitLimit, low), typed("typed", part.UnitLimit, given))
		} else {
			derivation.Add("measured-hold-moved", part.Number("hold", part.UnitLimit, low), typed("typed", part.UnitLimit, given), cited("share", part.UnitFactor, facts.TreeMovedShare.Conservative()))
		}
	}
	return divided(ultimate(low, likely, high), part.ConfidenceTyped, "measured hold", isPreset(a), in.Lifting, derivation)
}

// believed tells an entered hold that is far beyond what the rules of its kind
// give, with a source too, and one without a source where none is believed: on a
// thin stem, in water.
func (in In) believed(given float64, found *[]part.Finding) {
	a := in.Anchor
	sourced := a.HoldSource != ""
	typed := part.Number("hold", part.UnitLimit, given)
	c := kinds[a.Kind].hold(in, nil, nil)
	most, ok := in.most(c)
	switch {
	case ok && given > facts.HoldBeyond.Conservative().X*most:
		level := part.Warning
		if sourced {
			level = part.Caution
		}
		raise(found, "hold-beyond-table", level, a.ID, "type-hold", typed, part.Number("table", part.UnitLimit, most))
	case !sourced && a.Kind == plan.AnchorTree && !(c.Ultimate.Known && given <= facts.HoldBeyond.Conservative().X*float64(c.Ultimate.Likely)):
		part.NotDecided(found, "hold-beyond-table", a.ID, in.unmeasured()...)
	case !sourced && a.Kind != plan.AnchorTree && !c.Ultimate.Known && !ok:
		// Nothing stands behind the figure: neither a source nor a table.
		part.NotDecided(found, "hold-beyond-table", a.ID, part.Lack{Thing: a.ID, Member: "hold_source"})
	}
	if sourced {
		return
	}
	if in.Water != "" {
		raise(found, "hold-in-water", part.Warning, a.ID, "type-source", typed)
		if found != nil {
			f := &(*found)[len(*found)-1]
			f.Things = append(f.Things, in.Water)
		}
	}
	if a.Kind != plan.AnchorTree {
		return
	}
	switch d := float64(terrain.AtBreast(a)); {
	case d == 0:
		part.NotDecided(found, "hold-thin-stem", a.ID, part.Lack{Thing: a.ID, Member: "girth_m"}, part.Lack{Thing: a.ID, Member: "trunk_m"})
	case d < facts.TreeThin.Conservative().X:
		raise(found, "hold-thin-stem", part.Warning, a.ID, "type-source", typed, part.Length("diameter", d), part.Length("least", facts.TreeThin.Conservative().X))
	}
}

// unmeasured are the members of a tree without which its hold is not known, or
// only between ends that are apart.
func (in In) unmeasured() (list []part.Lack) {
	a := in.Anchor
	_, soilKnown := treeSoil(in.soil())
	for _, m := range [...]struct {
		name    string
		missing bool
	}{
		{"height_m", a.Height == 0}, {"species", a.Species == ""}, {"soil", !soilKnown}, {"rooting", a.Rooting == ""},
	} {
		if m.missing {
			list = append(list, part.Lack{Thing: a.ID, Member: m.name})
		}
	}
	return list
}

// most is the high end of what the rules of an anchor's kind give, c by its
// table; ok is false where they give none. Pickets in loose dry sand hold nothing.
func (in In) most(c part.Capacity) (newtons float64, ok bool) {
	if c.Ultimate.Known {
		return float64(c.Ultimate.High), true
	}
	if most := kinds[in.Anchor.Kind].most; most != nil {
		return most(in)
	}
	return 0, false
}

// treeMost is, of a tree of unknown height, what breaks the trunk, of one of
// unknown species too what breaks the strongest of the table.
func (in In) treeMost() (newtons float64, ok bool) {
	a, b := in.Anchor, book()
	d := float64(terrain.AtBreast(a))
	if !positive(d) {
		return 0, false
	}
	s, known := b.tree(a.Species)
	breaks := s.breaking(d)
	for i := range b.trees {
		if !known {
			breaks = math.Max(breaks, b.trees[i].breaking(d))
		}
	}
	return breaks / math.Max(facts.TreeStrapHeightFloor.Conservative().X, float64(in.Height)), true
}
