package hold

import "kedge/solver/facts"

// The soils a plan can name for its anchors. An empty word, or one not listed,
// is not known.
const (
	SoilFreeDraining = "free-draining"   // free-draining mineral soil
	SoilGleyed       = "gleyed"          // gleyed mineral soil: grey, waterlogged for part of the year
	SoilPeaty        = "peaty"           // peat over mineral soil
	SoilDeepPeat     = "deep-peat"       // peat deeper than the roots
	SoilLoam         = "loam"            // undisturbed loam, ordinary earth
	SoilWetClay      = "wet-clay-gravel" // wet clay and gravel mixtures
	SoilWetSand      = "wet-clay-sand"   // wet river clay and sand
	SoilSaturated    = "saturated"       // any soil full of water
	SoilHardpan      = "hardpan"         // hardpan or rock
	SoilWetFine      = "wet-fine"        // fine-grained or sandy soil with high moisture
	SoilDrySand      = "dry-sand"        // loose dry sand
)

// Soils lists the soils a plan can name, in the order a menu shows them.
func Soils() []string {
	return []string{
		SoilLoam, SoilFreeDraining, SoilGleyed, SoilPeaty, SoilDeepPeat, SoilWetClay,
		SoilWetSand, SoilWetFine, SoilSaturated, SoilHardpan, SoilDrySand,
	}
}

// treeSoil is the column of the tree tables, 0 to 3. Soil that they do not
// know counts as gleyed, the lowest of every species.
func treeSoil(soil string) (column int, known bool) {
	switch soil {
	case SoilFreeDraining:
		return 0, true
	case SoilGleyed:
		return 1, true
	case SoilPeaty:
		return 2, true
	case SoilDeepPeat:
		return 3, true
	}
	return 1, false
}

// treeRoots is the column of the roots. Roots of unknown depth count as
// shallow, the lowest.
func treeRoots(rooting string) (column int, known bool) {
	switch rooting {
	case "deep":
		return 1, true
	case "shallow":
		return 0, true
	}
	return 0, false
}

// picketSoil is the factor on the loam table of picket holdfasts; ok is false
// in loose dry sand, where that table must never be used. Peat and soils the
// tables do not know count as the lowest factor.
func picketSoil(b *handbook, soil string) (f facts.Figure, known, ok bool) {
	switch soil {
	case SoilLoam:
		return facts.Figure{X: 1, Confidence: b.layouts[0].Confidence}, true, true
	case SoilWetClay:
		return facts.PicketSoilWetClay.Conservative(), true, true
	case SoilWetSand:
		return facts.PicketSoilWetSand.Conservative(), true, true
	case SoilSaturated, SoilWetFine:
		return facts.PicketSoilSaturated.Conservative(), true, true
	case SoilDrySand:
		return facts.Figure{}, true, false
	}
	return facts.PicketSoilUnknown.Conservative(), false, true
}

// deadmanSoil is the factor on the loam table of deadmen.
func deadmanSoil(soil string) (f facts.Figure, known bool) {
	switch soil {
	case SoilLoam:
		return facts.Figure{X: 1, Confidence: facts.DeadmanLoam.Table().Confidence}, true
	case SoilHardpan:
		return facts.DeadmanSoilHardpan.Conservative(), true
	case SoilWetFine, SoilSaturated, SoilWetSand:
		return facts.DeadmanSoilWetFine.Conservative(), true
	}
	return facts.DeadmanSoilUnknown.Conservative(), false
}
