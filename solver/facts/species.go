package facts

import "strings"

// Columns of the tree tables: how deep the roots go.
const (
	RootsShallow = "shallow" // under 0.8 m
	RootsDeep    = "deep"    // over 0.8 m
	RootsUnknown = "unknown"
)

// Soils of the tree tables, the keys of Tree.Moment. Soil that is not known
// counts as gleyed with shallow roots, the lowest column of every species.
const (
	SoilFreeDraining = 1
	SoilGleyed       = 2
	SoilPeaty        = 3
	SoilDeepPeat     = 4
)

// Tree gathers the rows of one species.
type Tree struct {
	Species string // "scots-pine"
	Moment  Row    // N m of turning moment at the stem base per kg of stem, by soil; columns are the roots
	Density Row    // kg/m³, green
	MOR     Row    // MPa, bending strength, green
	Knot    Row    // factor on MOR
	Tested  Row    // kg, heaviest stem tested by soil; the zero Row where none is known: then every stem is extrapolated
}

// TreeOf gathers the rows of a species, with or without the "tree." of its
// rows. The names "unknown-conifer" and
// "unknown-broadleaf" give the lowest row of their kind. ok is false for a
// species the handbook lacks: it has no hold by table.
func TreeOf(species string) (tree Tree, ok bool) {
	species = strings.TrimPrefix(species, "tree.")
	figures := species
	if species == "unknown-conifer" || species == "unknown-broadleaf" {
		figures = "unknown"
	}
	t := Tree{Species: species}
	for _, part := range []struct {
		to *Row
		id string
	}{
		{&t.Moment, "tree." + species + ".moment"},
		{&t.Density, "tree." + figures + ".density"},
		{&t.MOR, "tree." + figures + ".mor"},
		{&t.Knot, "tree." + figures + ".knot"},
	} {
		if *part.to, ok = Get(ID(part.id)); !ok {
			return Tree{}, false
		}
	}
	t.Tested, _ = Get(ID("tree." + species + ".tested"))
	return t, true
}
