package hold

import (
	"math"
	"strings"
	"sync"

	"kedge/solver/facts"
	"kedge/solver/part"
)

// fact is a handbook figure, resolved once, in SI.
type fact struct {
	id     facts.ID
	x      float64
	surety part.Surety
}

// species is a row of the tree tables.
type species struct {
	name    string
	moment  [soils][roots]float64 // N·m per kg of stem; 0: the table lacks it
	tested  [soils]float64        // heaviest stem pulled, kg; 0: none known
	density float64               // kg/m³
	mor     float64               // Pa
	knot    float64
	spruce  bool
	leafy   bool
	id      facts.ID // of the moment's row
	own     string   // what its other rows are called by
	surety  part.Surety
}

// layout is a picket holdfast of the table.
type layout struct {
	name string
	fact
}

// handbook is every figure the rules of this package read.
type handbook struct {
	trees                       []species // sorted by name
	conifer, broadleaf          species   // species not known
	spruce, conifers            volume
	form                        fact
	breastHeight, taper         fact
	taperLeast, thin            fact
	lowShare, beyond            fact
	d2, heightFloor, movedShare fact
	factor, lifting             fact
	gearFactor, rigLifting      fact
	lineFactor                  fact

	layouts                       []layout
	wetClay, wetSand, saturated   fact
	picketUnknown                 fact
	picketLean                    fact
	hardpan, wetFine, deadUnknown fact
	deadman, deadmanVertical      facts.Row
	deadmanFact, deadmanUp        fact
	slopes                        [][]float64 // run per rise, angle
	slenderLog                    fact
	trench, trenchLow             fact
	boulderLow, boulderLikely     fact
	boulderHigh                   fact
	rock                          fact // density, high end
}

var book = sync.OnceValue(resolveBook)

// Soils and rootings of the tree tables.
const (
	soils = 4
	roots = 3
)

func resolveBook() *handbook {
	b := &handbook{
		spruce:       volume{likely(facts.StemSpruceC), likely(facts.StemSpruceP), likely(facts.StemSpruceQ)},
		conifers:     volume{likely(facts.StemConiferC), likely(facts.StemConiferP), likely(facts.StemConiferQ)},
		form:         careful(facts.StemFormFactor),
		breastHeight: likely(facts.TreeBreastHeight), taper: low(facts.TreeTaper), taperLeast: likely(facts.TreeTaperLeast),
		thin: careful(facts.TreeThin), lowShare: careful(facts.TreeLowShare), beyond: careful(facts.HoldBeyond),
		d2: careful(facts.TreeD2Rule), heightFloor: careful(facts.TreeStrapHeightFloor), movedShare: careful(facts.TreeMovedShare),
		factor: careful(facts.FactorPullingHold), lifting: careful(facts.FactorLiftingHold),
		lineFactor: careful(facts.FactorPullingWinchLine),
		gearFactor: careful(facts.FactorPullingAnchorGear), rigLifting: careful(facts.FactorLiftingRigging),
		layouts: []layout{
			{"1", careful(facts.PicketLayout1)}, {"1-1", careful(facts.PicketLayout11)},
			{"1-1-1", careful(facts.PicketLayout111)}, {"2-1", careful(facts.PicketLayout21)},
			{"3-2-1", careful(facts.PicketLayout321)},
		},
		wetClay: careful(facts.PicketSoilWetClay), wetSand: careful(facts.PicketSoilWetSand),
		saturated: careful(facts.PicketSoilSaturated), picketUnknown: careful(facts.PicketSoilUnknown),
		picketLean: careful(facts.PicketLean),
		hardpan:    careful(facts.DeadmanSoilHardpan), wetFine: careful(facts.DeadmanSoilWetFine), deadUnknown: careful(facts.DeadmanSoilUnknown),
		deadman: facts.Must(facts.DeadmanLoam), deadmanVertical: facts.Must(facts.DeadmanLoamVertical),
		deadmanFact: table(facts.DeadmanLoam), deadmanUp: table(facts.DeadmanLoamVertical), slopes: facts.Must(facts.DeadmanSlope).Cells(),
		slenderLog: careful(facts.DeadmanSlenderLog),
		trench:     careful(facts.DeadmanTrenchFM), trenchLow: careful(facts.DeadmanTrenchTM),
		boulderLow: low(facts.BoulderFriction), boulderLikely: likely(facts.BoulderFriction), boulderHigh: high(facts.BoulderFriction), rock: high(facts.BoulderDensity),
	}
	b.resolveTrees()
	return b
}

// resolveTrees reads every species of the tables.
func (b *handbook) resolveTrees() {
	for _, row := range facts.All() { // sorted by id
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
	figure := func(member string) float64 { return likely(facts.ID("tree." + own + "." + member)).x }
	s := species{
		name: name, id: row.ID, own: own, surety: part.SuretyOf(string(row.Surety)),
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

func careful(id facts.ID) fact {
	row := facts.Must(id)
	x, ok := row.CarefulValue()
	if !ok {
		x = row.Likely
	}
	return resolved(row, x)
}

func low(id facts.ID) fact    { row := facts.Must(id); return resolved(row, row.Low) }
func likely(id facts.ID) fact { row := facts.Must(id); return resolved(row, row.Likely) }
func high(id facts.ID) fact   { row := facts.Must(id); return resolved(row, row.High) }

// table is the head of a table row; its figures are read by its columns.
func table(id facts.ID) fact {
	row := facts.Must(id)
	return fact{id, math.NaN(), part.SuretyOf(string(row.Surety))}
}

func resolved(row facts.Row, x float64) fact {
	return fact{row.ID, x * row.ToSI(), part.SuretyOf(string(row.Surety))}
}
