package gear

import (
	"math"
	"strings"
	"sync"

	"kedge/solver/facts"
	"kedge/solver/plan"
)

// ends are both ends of a row and what lies between.
type ends struct{ low, likely, high facts.Figure }

// keeps is a share of strength that an end fitting or a knot leaves.
type keeps struct {
	name string
	facts.Figure
}

// handbook is what is found among rows, and what is put together from several.
type handbook struct {
	ends, knots                   []keeps
	lowestEndWire, lowestEndFibre facts.Figure
	basketUS                      [][]float64 // from horizontal, factor
	pointShare                    facts.Figure
	layerFloor                    facts.Figure
}

var book = sync.OnceValue(resolveBook)

func resolveBook() *handbook {
	b := &handbook{
		basketUS:   facts.Must(facts.SlingBasketUS).Cells(),
		layerFloor: lower(facts.WinchFullDrumFloor.Conservative(), facts.WinchSmallDrumFloor.Conservative()),
	}
	b.pointShare = shareAt(facts.Must(facts.ShackleSidePull), facts.ShackleSidePull.Table(), (facts.PointUnsaidFull.Conservative().X+facts.PointUnsaidWarning.Conservative().X)/2)
	b.resolveKeeps()
	return b
}

// resolveKeeps lists end fittings and knots, and finds the lowest of each.
func (b *handbook) resolveKeeps() {
	for row := range facts.All() { // sorted by id
		id := string(row.ID)
		switch {
		case row.IsTable():
		case strings.HasPrefix(id, "end."):
			b.ends = append(b.ends, keeps{id, row.ID.Conservative()})
		case strings.HasPrefix(id, "knot."):
			b.knots = append(b.knots, keeps{id, defaultOf(row).ID.Conservative()})
		}
	}
	b.lowestEndWire = facts.Figure{X: math.Inf(1)}
	for _, e := range b.ends {
		if !strings.HasPrefix(e.name, "end.hmpe") && e.X < b.lowestEndWire.X {
			b.lowestEndWire = e.Figure
		}
	}
	b.lowestEndFibre = facts.KnotUnknown.Conservative()
}

// defaultOf is the default of a row's choice; the row itself if it has none.
func defaultOf(row facts.Row) facts.Row {
	if rows := facts.Alternatives(row.Choice); len(rows) > 0 {
		return rows[0]
	}
	return row
}

// lower is the lower of two facts.
func lower(a, b facts.Figure) facts.Figure {
	if b.X < a.X {
		return b
	}
	return a
}

func rangeOf(id facts.ID) (e ends) {
	e.low, e.likely, e.high = id.Ends()
	return e
}

// shareAt is a step of a table as a fact.
func shareAt(row *facts.Row, head facts.Figure, x float64) facts.Figure {
	head.X, _ = row.Step(x)
	return head
}

// end is the end fitting of a line by its row id, with or without "end.".
func (b *handbook) end(id string) (facts.Figure, bool) { return find(b.ends, "end.", id) }

// knot is a knot by its row id, with or without "knot.".
func (b *handbook) knot(id string) (facts.Figure, bool) { return find(b.knots, "knot.", id) }

func find(list []keeps, prefix, id string) (facts.Figure, bool) {
	id = strings.TrimPrefix(id, prefix)
	for i := range list {
		if list[i].name[len(prefix):] == id {
			return list[i].Figure, true
		}
	}
	return facts.Figure{}, false
}

// synthetic tells a rope of fibres from wire and chain.
func synthetic(material string) bool {
	switch material {
	case plan.MaterialHMPE, plan.MaterialNylon, plan.MaterialPolyester, plan.MaterialFibre, plan.MaterialKinetic:
		return true
	}
	return false
}
