package hold

import (
	"kedge/solver/part"
	"kedge/solver/plan"
)

// kind is what decides the hold of one kind of anchor.
type kind struct {
	aim    func(in In, found *[]part.Finding) (s State, may bool) // how the load lies to the direction it was set for, and whether it may come from there; nil: as on the map
	stands func(in In, found *[]part.Finding) bool                // whether it may be loaded at all, a measured hold or not; nil: nothing speaks against it
	hold   func(in In, derivation *part.Derivation, found *[]part.Finding) part.Capacity
	most   func(in In) (newtons float64, ok bool) // high end of what the rules give, where hold gives none; nil: not known
}

// kinds are the rules by kind of anchor.
var kinds = map[string]kind{
	plan.AnchorTree: {
		stands: func(in In, found *[]part.Finding) bool {
			if !treeStands(in.Anchor, found) {
				return false
			}
			strapAssumed(in.Anchor, found)
			return true
		},
		hold: func(in In, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
			return Tree(TreeIn{Tree: in.Anchor, Soil: in.soil(), Height: in.Height, Strap: in.Strap, Lifting: in.Lifting}, derivation, found)
		},
		most: In.treeMost,
	},
	plan.AnchorPickets: {
		hold: func(in In, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
			return Pickets(in.ground(), derivation, found)
		},
		most: func(in In) (float64, bool) { return 0, in.soil() == SoilDrySand },
	},
	plan.AnchorDeadman: {
		hold: func(in In, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
			return Deadman(in.ground(), derivation, found)
		},
	},
	plan.AnchorBoulder: {
		hold: func(in In, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
			a, high := in.Anchor, float64(in.Anchor.Height)
			return Boulder(BoulderIn{Thing: a.ID, Mass: a.Mass, Volume: seen(squat*high*squat*high, high), Rise: rise(in), Slope: fall(in), Lacks: in.Lacks, Preset: isPreset(a), Lifting: in.Lifting}, derivation, found)
		},
	},
	plan.AnchorScrew: {
		aim:    In.screwAxis,
		stands: screwStands,
		hold:   func(In, *part.Derivation, *[]part.Finding) part.Capacity { return part.Capacity{} },
	},
	plan.AnchorRated: {
		hold: func(in In, derivation *part.Derivation, found *[]part.Finding) part.Capacity {
			a := in.Anchor
			return Rated(RatedIn{Thing: a.ID, Rating: a.Rating, Preset: isPreset(a), Lifting: in.Lifting}, derivation, found)
		},
	},
}
