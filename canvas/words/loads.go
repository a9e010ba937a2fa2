package words

import (
	"cmp"
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

// LoadColumn is a column of the table of loads; its head is the label
// "column-" and its name.
type LoadColumn string

// The columns of the table of loads, in their order.
const (
	ColumnPart    LoadColumn = "part"
	ColumnMove    LoadColumn = "move"
	ColumnLoosen  LoadColumn = "loosen" // only where it asks more than to move
	ColumnStall   LoadColumn = "stall"
	ColumnLimit   LoadColumn = "limit"
	ColumnBasis   LoadColumn = "basis" // of the limit, with its mark; of one that is not known, why
	ColumnUsed    LoadColumn = "used"
	ColumnFailure LoadColumn = "failure" // share of what it gives at, where that is known
	ColumnStatus  LoadColumn = "status"
	ColumnAt      LoadColumn = "at" // of a whole pull: where along the travel it is worst; only where that is not as drawn of all
)

// Text reports whether a column holds words, not figures.
func (c LoadColumn) Text() bool { return c == ColumnPart || c == ColumnBasis || c == ColumnStatus }

// NoFigure stands in a table where there is no figure; the state beside it says
// why.
const NoFigure = "–"

// LoadTable is the table of loads as window, sheets and command line show it.
type LoadTable struct {
	Columns []LoadColumn
	Rows    []LoadRow
}

// LoadRow is a part in the table: what stands in each column, forces as numbers
// in the unit of the words. Loads are rounded up, limits down, shares up.
type LoadRow struct {
	Part   *part.Part
	Cells  map[LoadColumn]string
	Reason string     // why it was refused or not computed; empty for any other
	Number int        // of the first DANGER or WARNING that names it, from 1; 0: none
	Level  part.Level // of that one
}

// Uncomputed reports whether the part has no share because nothing was computed
// that one could state.
func (r *LoadRow) Uncomputed() bool {
	return r.Part.Status == part.Refused || r.Part.Status == part.NotComputed || r.Part.Status == part.NotUnderstood
}

// Loads is the table of loads of an answer, ordered by a column: the heaviest
// load or lowest limit first, by the share the worst.
func (w *Words) Loads(a *solver.Assessment, n Names, by LoadColumn) LoadTable {
	t := LoadTable{Columns: []LoadColumn{ColumnPart, ColumnMove, ColumnLoosen, ColumnStall, ColumnLimit, ColumnBasis, ColumnUsed, ColumnFailure, ColumnStatus, ColumnAt}}
	if !a.Looser() {
		t.Columns = slices.DeleteFunc(t.Columns, func(c LoadColumn) bool { return c == ColumnLoosen })
	}
	if !slices.ContainsFunc(a.Parts, func(p part.Part) bool { return p.AtM > 0 }) {
		t.Columns = slices.DeleteFunc(t.Columns, func(c LoadColumn) bool { return c == ColumnAt })
	}
	n = w.Naming(a, n)
	cards := Cards(a.Findings)
	for _, p := range w.loadOrder(a, n, by) {
		t.Rows = append(t.Rows, w.loadRow(a, cards, p, n))
	}
	return t
}

func (w *Words) loadRow(a *solver.Assessment, cards []Card, p *part.Part, n Names) LoadRow {
	r := LoadRow{Part: p, Cells: map[LoadColumn]string{
		ColumnPart: w.PartName(p, n), ColumnMove: w.LoadFigure(p.Move), ColumnLoosen: w.LoadFigure(p.Loosen), ColumnStall: w.LoadFigure(p.Stall),
		ColumnLimit: w.LimitFigure(p.Limit), ColumnUsed: w.UsedOf(p), ColumnFailure: NoFigure, ColumnStatus: w.StatusOf(p),
		ColumnAt: w.Length(quantity.Length(p.AtM)),
	}}
	if r.Uncomputed() && !p.Limit.Known { // it may have a tag: the limit was not computed
		r.Cells[ColumnLimit] = NoFigure
	}
	if p.Limit.Basis != "" {
		r.Cells[ColumnBasis] = w.Basis(p.Limit.Basis) + w.LimitMark(p.Limit)
	}
	if r.Uncomputed() || !p.Known() && (p.Status == part.NoLimit || p.Status == part.Slack) {
		r.Cells[ColumnUsed] = NoFigure
	}
	if share, ok := p.ToFailure(p.Planned()); ok {
		r.Cells[ColumnFailure] = w.Share(share)
	}
	if r.Uncomputed() {
		r.Reason = w.Reason(a, p, n)
	}
	for i := range a.Findings {
		if a.Findings[i].Level >= part.Warning && slices.Contains(a.Findings[i].Parts, p.ID) {
			r.Number, r.Level = CardNumber(cards, i), a.Findings[i].Level
			break
		}
	}
	return r
}

// LoadFigure is a load as a number rounded up, [NoFigure] if it is not known.
func (w *Words) LoadFigure(l part.Load) string {
	if !l.Known {
		return NoFigure
	}
	return w.Written(quantity.FormatForce(l.Force, w.System(), quantity.AsLoad)).Number
}

// Now is the load of a part at the moment shown, "now 41.8", where it reads otherwise than
// the worst over the pull; "" if it does not, or is not known. The moment may be nil.
func Now(w *Words, moment *solver.Assessment, p *part.Part) string {
	if moment == nil || !p.Move.Known {
		return ""
	}
	q, ok := moment.Part(p.ID)
	if !ok || !q.Told().Known || w.LoadFigure(q.Told()) == w.LoadFigure(p.Told()) {
		return ""
	}
	return w.Label("draw-now", part.Text("load", w.LoadFigure(q.Told())))
}

// LimitFigure is a limit as a number rounded down, "no rating" if there is none.
func (w *Words) LimitFigure(l part.Limit) string {
	if !l.Known {
		return w.Label("no-rating")
	}
	return w.Written(quantity.FormatForce(l.Force, w.System(), quantity.AsLimit)).Number
}

// loadOrder are an answer's parts by a column.
func (w *Words) loadOrder(a *solver.Assessment, n Names, by LoadColumn) []*part.Part {
	heavier := func(p, q part.Load) int { return cmp.Compare(forceOr(q.Force, q.Known), forceOr(p.Force, p.Known)) }
	return a.PartsBy(func(p, q *part.Part) int {
		switch by {
		case ColumnPart:
			return strings.Compare(w.PartName(p, n), w.PartName(q, n))
		case ColumnMove:
			return heavier(p.Move, q.Move)
		case ColumnLoosen:
			return heavier(p.Loosen, q.Loosen)
		case ColumnStall:
			return heavier(p.Stall, q.Stall)
		case ColumnLimit: // one that is not known may be the lowest
			return cmp.Compare(forceOr(p.Limit.Force, p.Limit.Known), forceOr(q.Limit.Force, q.Limit.Known))
		}
		return part.WorstFirst(p, q)
	})
}

// forceOr is a force, less than any where there is none.
func forceOr(f quantity.Force, is bool) quantity.Force {
	if !is {
		return -1
	}
	return f
}
