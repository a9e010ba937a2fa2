package doubt

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// ErrNoDoubt is the error of a plan none of whose figures is in doubt.
var ErrNoDoubt = errors.New("doubt: no figure of the plan is in doubt")

// Chances is a rig drawn with the figures of its plan that are in doubt and, unless only
// those are asked for, with the known scatter of what the plan gives no range of. All else
// is as [solver.Assess] takes it: at the end that errs on the conservative side.
type Chances struct {
	Trials   int
	Refused  int          // trials in which the rig was refused: nothing is known of them
	Drawn    []Doubtful   // by id; behind them the resistance, if it is drawn
	Assumed  []Assumption // every figure that is drawn and not typed, and the strengths by part; none of a request for what is typed
	NotDrawn []Doubtful   // in doubt, but no figure that can be drawn: taken as check takes them
	MoveN    [3]float64   // 5, 50 and 95 % points of the line tension that moves the casualty; NaN: not computed in every trial
	Parts    []PartChances
	Along    *Along   // over the whole pull; nil: it was not asked for
	Samples  *Table   // a row a trial, set after set; NaN: not known
	Columns  []string // what stands in each column of Samples, "V1.mass_kg", "B1.load_n"
}

// PartChances is what came of one part. A trial counts for nothing but NotKnown of what
// was not computed, not decided, or has no limit in it.
type PartChances struct {
	Part     part.Part // as it was in the first trial
	PlannedN [3]float64
	Passes
	Drivers []Driver
}

// Passes is in how many trials a part passes what it may.
type Passes struct {
	OverLimit   Count // at the pull that moves it or breaks it loose
	OverAtStall Count // at the most the winch gives
	Gives       Count // at the planned pull: the load reaches the strength
	GivesStall  Count // at stall
}

// Count is how many trials something came of, out of those in which it is known.
type Count struct {
	Hits, Of int
	NotKnown int
	Chance   Estimate
}

// Driver is a figure that the load of a part hangs on.
type Driver struct {
	Doubtful
	Rank  float64 // rank correlation with the share of the limit, or the load if there is none; -1 to 1
	Share float64 // first-order share of its variance, 0 to 1
}

// leastShare is the share below which a figure is not listed as a driver.
const leastShare = 0.02

// Columns of the table: the inputs, the tension to move it, then those of every part.
const (
	colPlanned = iota
	colUsed
	colPasses // and on: those of Passes

	partColumns = colPasses + passesColumns
)

// Columns of [Passes].
const (
	passOver = iota
	passOverStall
	passGives
	passGivesStall
	passesColumns
)

// SamplePlan draws a rig with everything of its plan that is in doubt, as the plan has it
// and, if the request says how it goes on, over the whole pull. Changes of the request are
// not asked.
func SamplePlan(p *plan.Plan, rig plan.ID, q Request) (*Chances, error) {
	s, err := newPlanSample(p, rig, q.Typed)
	if err != nil {
		return nil, err
	}
	t := Draw(s.dims, s.base()+len(s.parts)*partColumns, q, func() func(u, y []float64) {
		m := s.moment(p)
		return func(u, y []float64) { s.try(m, u, y) }
	})
	out := s.chances(t, q)
	if len(q.Along) > 0 {
		out.Along, err = s.along(q)
	}
	if q.given() {
		return nil, q.Context.Err()
	}
	if err != nil {
		return nil, err
	}
	out.Samples, out.Columns = t, s.columns()
	for i := range s.all {
		out.Drawn = append(out.Drawn, s.all[i].Doubtful)
	}
	out.NotDrawn, out.Assumed = s.not, s.assumed
	return out, nil
}

// base is the first column of the parts: behind what is drawn, the tension to move it and,
// if it is drawn, the resistance in newtons.
func (s *planSample) base() int { return len(s.all) + 1 + int(b2f(s.resists)) }

// columns are the names of the columns of the table.
func (s *planSample) columns() (names []string) {
	for i := range s.all {
		d := &s.all[i].Doubtful
		switch {
		case d.What != "":
			names = append(names, d.What+"_rank")
		case d.Thing == "":
			names = append(names, "ground."+d.Member)
		default:
			names = append(names, string(d.Thing)+"."+d.Member)
		}
	}
	if names = append(names, "to_move_n"); s.resists {
		names = append(names, "resistance_n")
	}
	for i := range s.parts {
		for _, c := range [partColumns]string{"load_n", "used", "over_limit", "over_limit_at_stall", "gives", "gives_at_stall"} {
			names = append(names, s.parts[i].ID+"."+c)
		}
	}
	return names
}

// settle takes the doubt off the figure: it is known in every trial.
func (d *settable) settle() {
	if d.head != nil { // the ground has none, and no doubts
		settle(d.head, d.Member)
	}
}

func settle(h *plan.Head, member string) {
	h.Doubts = slices.DeleteFunc(slices.Clone(h.Doubts), func(x plan.Doubt) bool { return x.Member == member })
}

func byID(all []settable) {
	slices.SortFunc(all, func(a, b settable) int { return cmp.Compare(a.id(), b.id()) })
}

func fill(y []float64, x float64) {
	for i := range y {
		y[i] = x
	}
}

// try is one trial: NaN for what is not known of it.
func (s *planSample) try(m *drawnMoment, u, y []float64) {
	fill(y, math.NaN())
	for i := range s.all {
		y[i] = s.all[i].Dist.At(u[i])
	}
	f := m.ask(y)
	if f == nil {
		return
	}
	scale, known := s.scale(f, u)
	if f.Move.Known && known {
		y[len(s.all)] = float64(f.Move.Tension) * scale
	}
	if s.resists && known {
		y[len(s.all)+1] = scale * float64(f.Resistance.Planned)
	}
	rest := y[s.base():]
	fill(rest, 0) // what is not there is not loaded
	for i := range f.Parts {
		p := &f.Parts[i]
		if k := s.at(p.ID, i); k >= 0 {
			row := rest[k*partColumns : (k+1)*partColumns]
			fill(row, math.NaN())
			tryPart(p, s.load(p, scale, known), s.strengths[k].of(p, u), row)
		}
	}
}

// tryPart is what one trial says of a part: its load to move or break it loose, and its
// strength, N; NaN: not known.
func tryPart(p *part.Part, load, strength float64, y []float64) {
	y[colPlanned] = load
	decided := p.Status == part.Over || p.Status == part.Near || p.Status == part.Within || p.Status == part.Slack
	limit, stall := math.NaN(), math.NaN()
	if p.Limit.Known && p.Limit.Force > 0 {
		limit = float64(p.Limit.Force)
		y[colUsed] = load / limit
	}
	if p.Stall.Known {
		stall = float64(p.Stall.Force)
	}
	if !decided {
		limit = math.NaN()
	}
	y = y[colPasses:]
	y[passOver], y[passOverStall] = passes(load, limit), passes(stall, limit)
	y[passGives], y[passGivesStall] = passes(load, strength), passes(stall, strength)
}

// passes is 1 if a load reaches what it may, 0 if not, NaN if either is not known.
func passes(load, most float64) float64 {
	if math.IsNaN(load) || math.IsNaN(most) {
		return math.NaN()
	}
	return b2f(!(load < most))
}

// chances counts the table, each part by a worker.
func (s *planSample) chances(t *Table, q Request) *Chances {
	out := &Chances{Trials: Sets * t.Per, MoveN: threeBands(t.Columns[len(s.all)]), Parts: make([]PartChances, len(s.parts))}
	orders := make([][]int, len(s.all)) // sorted once, not once a part
	shared(len(orders), q.Workers, func(k int) { orders[k] = byFigure(t.Columns[k]) })
	if q.given() {
		return out
	}
	shared(len(s.parts), q.Workers, func(i int) {
		c, p := t.Columns[s.base()+i*partColumns:], &out.Parts[i]
		*p = PartChances{Part: s.parts[i], PlannedN: threeBands(c[colPlanned]), Passes: t.passes(c[colPasses:])}
		y := c[colUsed]
		if anyNaN(y) {
			y = c[colPlanned]
		}
		if !anyNaN(y) && slices.Max(y)-slices.Min(y) > 1e-9*math.Abs(y[0]) { // less is rounding
			p.Drivers = s.drivers(t, orders, y, q)
		}
	})
	for row := range out.Trials {
		if s.refusedIn(t, row) {
			out.Refused++
		}
	}
	return out
}

// drivers are the figures that y hangs on, the most first. orders are those of the figures.
func (s *planSample) drivers(t *Table, orders [][]int, y []float64, q Request) (all []Driver) {
	var ofY []float64
	for k := range s.all {
		if q.given() {
			return nil
		}
		if share := shareBy(orders[k], y); share >= leastShare {
			if ofY == nil {
				ofY = ranks(y, byFigure(y))
			}
			all = append(all, Driver{s.all[k].Doubtful, ofRanks(ranks(t.Columns[k], orders[k]), ofY), share})
		}
	}
	slices.SortStableFunc(all, func(a, b Driver) int { return cmp.Compare(b.Share, a.Share) })
	return all
}

// refusedIn reports whether nothing at all is known of a trial.
func (s *planSample) refusedIn(t *Table, row int) bool {
	for _, c := range t.Columns[len(s.all):] {
		if !math.IsNaN(c[row]) {
			return false
		}
	}
	return true
}

func anyNaN(x []float64) bool { return slices.ContainsFunc(x, math.IsNaN) }

// threeBands are the 5, 50 and 95 % points, NaN if a trial lacks the figure.
func threeBands(x []float64) (b [3]float64) {
	if anyNaN(x) {
		fill(b[:], math.NaN())
		return b
	}
	copy(b[:], bands(x, nil, 0.05, 0.5, 0.95))
	return b
}

// passes counts the columns of a part.
func (t *Table) passes(c [][]float64) Passes {
	return Passes{OverLimit: t.count(c[passOver]), OverAtStall: t.count(c[passOverStall]), Gives: t.count(c[passGives]), GivesStall: t.count(c[passGivesStall])}
}

// count counts a column of 0, 1 and NaN.
func (t *Table) count(x []float64) (c Count) {
	for _, v := range x {
		switch {
		case math.IsNaN(v):
			c.NotKnown++
		case v > 0:
			c.Hits++
		}
	}
	c.Of = len(x) - c.NotKnown
	c.Chance = t.Of(func(from, to int) float64 {
		n, hits := 0, 0.0
		for _, v := range x[from:to] {
			if !math.IsNaN(v) {
				n, hits = n+1, hits+v
			}
		}
		return hits / float64(max(1, n))
	})
	return c
}
