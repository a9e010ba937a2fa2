package travel

import (
	"cmp"
	"context"
	"math"
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// stopM, metres: the place where a pull ends is found this closely.
const stopM = 1e-3

func lengthOf(m float64) quantity.Length { return quantity.Length(m) }

// judge asks [solver.Assess] about one place after the other, as a person would who
// looks at the plan with the casualty there.
type judge struct {
	p        *plan.Plan
	rig      plan.ID
	findings map[string]*part.Finding
	order    []string
}

// walk looks at every place in order, up to the end of the way or to what ends the
// pull. progress is told how far it is.
func (j *judge) walk(ctx context.Context, at []float64, start *solver.Assessment, q *asker, progress func(doneM float64)) (untilM float64, stop *Stop, err error) {
	q.judged = true
	for i, sM := range at {
		if err := ctx.Err(); err != nil {
			return untilM, nil, err
		}
		a := start
		if sM > 0 {
			a = solver.Assess(advanced(j.p, sM), j.rig)
		}
		next := sM
		if i+1 < len(at) {
			next = at[i+1]
		}
		if stop := j.stops(a, sM); stop != nil {
			if sM > 0 {
				untilM, stop = j.closer(untilM, sM, stop)
			}
			return untilM, stop, nil
		}
		untilM = sM
		for k := range a.Parts {
			q.seen[q.known(&a.Parts[k])].note(a.Parts[k].Status, sM)
		}
		j.take(a, sM)
		if stop := meets(a, sM, next); stop != nil {
			return stop.AtM, stop, nil
		}
		progress(sM)
	}
	return untilM, nil, nil
}

// closer narrows the place where a pull ends, between one where it goes on and one
// where it does not.
func (j *judge) closer(goes, ends float64, stop *Stop) (float64, *Stop) {
	for ends-goes > stopM {
		mid := goes + (ends-goes)/2
		if s := j.stops(solver.Assess(advanced(j.p, mid), j.rig), mid); s != nil {
			ends, stop = mid, s
		} else {
			goes = mid
		}
	}
	stop.AtM = ends
	return goes, stop
}

// reasons are the findings that refuse a rig, as what ends a pull.
var reasons = map[string]StopReason{
	"off-way-out-refused": LineAbeam, "nothing-pulls": LineAbeam,
	"blocks-touch": BlocksMeet,
	"too-short":    LineIsOut, "line-short": LineIsOut,
	"line-bears": LineBears, "line-on-trunk": LineBears, "strap-bears": LineBears,
}

func reasonOf(why string) StopReason {
	if r, known := reasons[why]; known {
		return r
	}
	return NotSolved
}

// stops says what ends the pull at a place; nil: nothing.
func (j *judge) stops(a *solver.Assessment, sM float64) *Stop {
	if a.Status != part.Within {
		s := &Stop{Reason: reasonOf(a.Why), AtM: sM, Why: a.Why}
		for i := range a.Findings {
			if a.Findings[i].ID == a.Why {
				s.Things = a.Findings[i].Things
				break
			}
		}
		return s
	}
	if l := missing(a); l != nil {
		return &Stop{Reason: LineIsOut, AtM: sM, Why: "line-short", Things: []plan.ID{l.Line}}
	}
	return blocksMeet(j.p, j.rig, a, sM)
}

// missing is a line that is too short for the path as it lies; nil: none is.
func missing(a *solver.Assessment) *solver.LineUse {
	for i := range a.Lines {
		if a.Lines[i].Missing > 0 {
			return &a.Lines[i]
		}
	}
	return nil
}

// blocksMeet says of a line of the pull that two blocks it runs over have come
// together: sheave to sheave, as far as their sizes are known.
func blocksMeet(p *plan.Plan, rig plan.ID, a *solver.Assessment, sM float64) *Stop {
	r, ok := p.Rig(rig)
	if !ok {
		return nil
	}
	radius := func(id plan.ID) float64 {
		for i := range r.Blocks {
			if r.Blocks[i].ID == id {
				return float64(r.Blocks[i].Sheave) / 2
			}
		}
		return 0
	}
	for i := range a.Stretches {
		s := &a.Stretches[i]
		if least := radius(s.PortA.Thing) + radius(s.PortB.Thing); least > 0 && float64(s.Length) <= least {
			return &Stop{Reason: BlocksMeet, AtM: sM, Why: "blocks-touch", Things: []plan.ID{s.PortA.Thing, s.PortB.Thing}}
		}
	}
	return nil
}

// meets says that the casualty comes against something before the next place.
func meets(a *solver.Assessment, sM, nextM float64) *Stop {
	var first *Stop
	for i := range a.Findings {
		f := &a.Findings[i]
		if f.ID != "casualty-meets" || len(f.Values) == 0 {
			continue
		}
		at := sM + math.Max(f.Values[0].X, 0)
		if at <= nextM && (first == nil || at < first.AtM) {
			first = &Stop{Reason: CasualtyMeets, AtM: at, Why: f.ID, Things: f.Things}
		}
	}
	return first
}

// take keeps the findings of a place: each once, where its level is highest.
func (j *judge) take(a *solver.Assessment, sM float64) {
	if j.findings == nil {
		j.findings = map[string]*part.Finding{}
	}
	for i := range a.Findings {
		f := a.Findings[i]
		key := f.ID
		for _, t := range f.Things {
			key += " " + string(t)
		}
		f.Travel = sM
		old, known := j.findings[key]
		if !known {
			j.order = append(j.order, key)
		}
		if !known || f.Level > old.Level {
			j.findings[key] = &f
		}
	}
}

// found are the findings kept, most severe first.
func (j *judge) found() []part.Finding {
	out := make([]part.Finding, len(j.order))
	for i, key := range j.order {
		out[i] = *j.findings[key]
	}
	slices.SortStableFunc(out, func(a, b part.Finding) int {
		return cmp.Or(cmp.Compare(b.Level, a.Level), cmp.Compare(a.Travel, b.Travel))
	})
	return out
}

// note takes the state of the part at a place: the least trustworthy is kept, and
// that it is over above all.
func (w *Worst) note(s part.Status, sM float64) {
	if w.StatusM != w.StatusM || rank(s) < rank(w.Status) || s == w.Status && sM < w.StatusM {
		w.Status, w.StatusM = s, sM
	}
}

// rank orders states as far as a whole way goes by them: over, then what is not
// known, then near, within and slack.
func rank(s part.Status) int {
	switch s {
	case part.Over:
		return -1
	case part.Near:
		return 100
	case part.Within:
		return 101
	case part.Slack:
		return 102
	}
	return int(s)
}
