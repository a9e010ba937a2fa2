package report

import (
	"context"
	"math"
	"runtime"
	"slices"

	"kedge/solver"
	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/travel"
)

// At how many moments of a pull a trial is asked, beside those at which a part is at its
// worst as the figures stand: in steps of a quarter metre, a way of six metres; of what
// happened in fewer, since many more trials are drawn. (ours)
const (
	mostPoints = 25
	pastPoints = 7
)

// Request is how the chances of a rig are drawn wherever nobody says otherwise, over the
// whole pull: command line and board give the same figures. typed: only what the plan says
// itself is in doubt, not what is known to scatter. The error is the context's.
func Request(ctx context.Context, p *plan.Plan, rig plan.ID, typed bool) (doubt.Request, error) {
	pull, err := wayOf(ctx, p, rig, mostPoints)
	return doubt.Request{Context: ctx, Per: PerSet, Seed: Seed, Workers: runtime.NumCPU(), Typed: typed, Along: pull}, err
}

// wayOf is the way of a rig's casualty with the plan at each moment, to be drawn, of most
// moments beside the worst; nil: it has none. The error is the context's.
func wayOf(ctx context.Context, p *plan.Plan, rig plan.ID, most int) (pull []doubt.WayPoint, err error) {
	a, err := travel.Assess(ctx, p, rig, nil)
	if err != nil || len(a.Moments) < 2 {
		return nil, err
	}
	var all, at []float64
	for i := range a.Moments {
		all = append(all, a.Moments[i].AtM)
	}
	slices.Sort(all)
	step := int(math.Ceil(float64(len(all)) / float64(most)))
	for i := 0; i < len(all); i += step {
		at = append(at, all[i])
	}
	at = append(at, all[len(all)-1])
	for i := range a.Parts {
		if s := a.Parts[i].AtM; slices.Contains(all, s) {
			at = append(at, s)
		}
	}
	slices.Sort(at)
	for _, s := range slices.Compact(at) {
		pull = append(pull, doubt.WayPoint{AtM: s})
	}
	return alongOf(p, rig, pull), ctx.Err()
}

// alongOf is a plan at the places of a pull.
func alongOf(p *plan.Plan, rig plan.ID, pull []doubt.WayPoint) (along []doubt.WayPoint) {
	for i := range pull {
		along = append(along, doubt.WayPoint{AtM: pull[i].AtM, Plan: travel.At(p, rig, pull[i].AtM)})
	}
	return along
}

// wayLength is how far the casualty is said to have to go.
func wayLength(p *plan.Plan, rig plan.ID) quantity.Length {
	if v := solver.CasualtyOf(p, rig); v != nil {
		return v.Stuck.WayLength
	}
	return 0
}
