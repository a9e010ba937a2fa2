package hold

import (
	"strings"
	"sync"

	"kedge/solver/facts"
	"kedge/solver/part"
)

// species is a row of the tree tables.
type species struct {
	name       string
	moment     [soils][roots]float64 // N·m per kg of stem; 0: the table lacks it
	tested     [soils]float64        // heaviest stem pulled, kg; 0: none known
	density    float64               // kg/m³
	mor        float64               // Pa
	knot       float64
	spruce     bool
	leafy      bool
	id         facts.ID // of the moment's row
	own        string   // what its other rows are called by
	confidence part.Confidence
}

// layout is a picket holdfast of the table.
type layout struct {
	name string
	facts.Figure
}

// handbook is what is found among rows, and what is put together from several.
type handbook struct {
	trees              []species // sorted by name
	conifer, broadleaf species   // species not known
	spruce, conifers   volume

	layouts []layout
	slopes  [][]float64 // run per rise, angle
}

var book = sync.OnceValue(resolveBook)

// Soils and rootings of the tree tables.
const (
	soils = 4
	roots = 3
)

func resolveBook() *handbook {
	b := &handbook{
		spruce:   volume{facts.StemSpruceC.Likely(), facts.StemSpruceP.Likely(), facts.StemSpruceQ.Likely()},
		conifers: volume{facts.StemConiferC.Likely(), facts.StemConiferP.Likely(), facts.StemConiferQ.Likely()},
		layouts: []layout{
			{"1", facts.PicketLayout1.Conservative()}, {"1-1", facts.PicketLayout11.Conservative()},
			{"1-1-1", facts.PicketLayout111.Conservative()}, {"2-1", facts.PicketLayout21.Conservative()},
			{"3-2-1", facts.PicketLayout321.Conservative()},
		},
		slopes: facts.Must(facts.DeadmanSlope).Cells(),
	}
	b.resolveTrees()
	return b
}

// resolveTrees reads every species of the tables.
func (b *handbook) resolveTrees() {
	for row := range facts.All() { // sorted by id
		name, ok := strings.CutPrefix(string(row.ID), "tree.")
		if !ok {
			continue
		}
		if name, ok = strings.CutSuffix(name, ".moment"); !ok {
			continue
		}
		s := readSpecies(name, row)
		switch name {
		case "unknown-conifer":
			b.conifer = s
		case "unknown-broadleaf":
			b.broadleaf = s
		default:
			b.trees = append(b.trees, s)
		}
	}
}

func readSpecies(name string, row facts.Row) species {
	own := name
	if strings.HasPrefix(name, "unknown-") {
		own = "unknown"
	}
	figure := func(member string) float64 { return facts.ID("tree." + own + "." + member).Likely().X }
	s := species{
		name: name, id: row.ID, own: own, confidence: part.ConfidenceOf(string(row.Confidence)),
		density: figure("density"), mor: figure("mor"), knot: figure("knot"),
		spruce: strings.HasSuffix(name, "spruce"),
		leafy:  name == "birch" || name == "beech" || name == "oak" || name == "unknown-broadleaf",
	}
	for _, cells := range row.Cells() { // soil, shallow, deep, unknown
		if i := int(cells[0]) - 1; i >= 0 && i < soils {
			copy(s.moment[i][:], cells[1:])
		}
	}
	if tested, ok := facts.Get(facts.ID("tree." + name + ".tested")); ok {
		for _, cells := range tested.Cells() {
			if i := int(cells[0]) - 1; i >= 0 && i < soils {
				s.tested[i] = cells[1]
			}
		}
	}
	return s
}

// member is the row of another figure of a species.
func (s *species) member(name string) facts.ID { return facts.ID("tree." + s.own + "." + name) }

// tree is a species by its row id: "scots-pine", "tree.scots-pine" or the id
// of its moment row. One that is not in the table counts as not known.
func (b *handbook) tree(id string) (s *species, known bool) {
	id = strings.TrimSuffix(strings.TrimPrefix(id, "tree."), ".moment")
	for i := range b.trees {
		if b.trees[i].name == id {
			return &b.trees[i], true
		}
	}
	if id == "unknown-broadleaf" || id == "broadleaf" {
		return &b.broadleaf, false
	}
	return &b.conifer, false
}

// Species lists the species groups the tables have, sorted, as a plan names
// them.
func Species() []string {
	out := make([]string, 0, len(book().trees)+2)
	for i := range book().trees {
		out = append(out, book().trees[i].name)
	}
	return append(out, "unknown-broadleaf", "unknown-conifer")
}
