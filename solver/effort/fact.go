package effort

import (
	"slices"
	"strings"
	"sync"

	"kedge/solver/facts"
)

// triple is low, likely, high.
type triple [3]float64

const (
	low = iota
	likely
	high
)

func (t triple) scale(f float64) triple { return triple{t[low] * f, t[likely] * f, t[high] * f} }

// surface is a row that a plan names by its id.
type surface struct {
	id         string
	v          triple
	confidence facts.Confidence
	fraction   facts.ID // row of common practice for it; empty: there is none
}

// three are the ends of a row and its middle, in SI.
func three(id facts.ID) triple {
	least, middle, most := id.Ends()
	return triple{least.X, middle.X, most.X}
}

// sinkageLimitCm is the deepest rut, cm, that the rule for ruts speaks of.
func sinkageLimitCm() float64 { return facts.Must(facts.SinkageLimit).Likely }

// sinkagePerCm is what that rule adds for each cm of a rut, of the weight.
func sinkagePerCm() float64 { return facts.Must(facts.SinkagePerCm).Likely }

// numbers are the families of rows that a plan names, and what is found among them.
type numbers struct {
	rolling, grip        []surface // sorted by id
	widestRoll, widestMu triple
	fractions            map[facts.ID]float64
	leastFraction        float64
	mire                 triple // hub, chassis, body

	cgBehind, cgHeight, cgHeightShare triple // stand-ins for a centre of gravity, see stand and cgHeight
}

// fractionOf is the common-practice row that speaks of the same ground as a
// rolling row; ground without one has no figure of common practice.
func fractionOf(id facts.ID) facts.ID {
	switch id {
	case facts.RollHardRoad:
		return facts.FractionHardRoad
	case facts.RollGravelFirm, facts.RollGravelLoose:
		return facts.FractionGravel
	case facts.RollGrass:
		return facts.FractionGrass
	case facts.RollSandLoose:
		return facts.FractionSandDrySoft
	case facts.RollSandFirm:
		return facts.FractionSandWetHard
	case facts.RollMud:
		return facts.FractionMudShallow
	case facts.RollBog:
		return facts.FractionBog
	}
	return ""
}

// book reads the handbook. A test of this package asks for it, so that a row
// that is missing fails there.
var book = sync.OnceValue(func() *numbers {
	n := &numbers{
		mire:      triple{facts.MireHub.Value(), facts.MireChassis.Value(), facts.MireBody.Value()},
		fractions: map[facts.ID]float64{},
		cgBehind:  three(facts.AxleCGBehindFront), cgHeight: three(facts.AxleCGHeight), cgHeightShare: three(facts.AxleCGHeightShare),
	}
	for r := range facts.All() {
		if r.IsTable() || r.Package != facts.Effort {
			continue
		}
		id := string(r.ID)
		s := surface{id, triple{r.Low, r.Likely, r.High}, r.Confidence, fractionOf(r.ID)}
		switch {
		case strings.HasPrefix(id, "roll."):
			n.rolling = append(n.rolling, s)
		case strings.HasPrefix(id, "grip."):
			n.grip = append(n.grip, s)
		case strings.HasPrefix(id, "fraction.") && r.Unit == "1":
			n.fractions[r.ID] = r.Likely
			if n.leastFraction == 0 || r.Likely < n.leastFraction {
				n.leastFraction = r.Likely
			}
		}
	}
	n.widestRoll, n.widestMu = widest(n.rolling), widest(n.grip)
	return n
})

// widest runs from the lowest low to the highest high; its likely is the
// middle row's own likely by size, so that it is a figure of the book.
func widest(rows []surface) triple {
	if len(rows) == 0 {
		return triple{}
	}
	all := make([]float64, 0, len(rows))
	w := rows[0].v
	for _, s := range rows {
		w[low], w[high] = min(w[low], s.v[low]), max(w[high], s.v[high])
		all = append(all, s.v[likely])
	}
	slices.Sort(all)
	w[likely] = all[len(all)/2]
	return w
}

// find looks an id up; ok is false for an empty or unknown one.
func find(rows []surface, id string) (surface, bool) {
	i, ok := slices.BinarySearchFunc(rows, id, func(s surface, id string) int { return strings.Compare(s.id, id) })
	if !ok {
		return surface{}, false
	}
	return rows[i], true
}
