package travel

import (
	"slices"

	"kedge/solver/facts"
	"kedge/solver/plan"
)

// Rerig is a place of the travel up to which a rig does, and at which to stop and rig
// anew: what comes beyond it is not so as drawn.
type Rerig struct {
	AtM         float64
	Kind        EventKind // OverLimit, OffWayBeyond, ReachesBlock or ReachesFairlead
	Part        string    // OverLimit: the part whose share is told
	Thing       plan.ID   // ReachesBlock, ReachesFairlead: the damper or joined line
	Other       plan.ID   // the block or vehicle that it reaches
	LimitDeg    float64   // OffWayBeyond
	Drawn       float64   // share of the part's limit, or degrees off the way, as drawn
	Worst       float64   // the same where it is worst beyond, as far as the pull was followed
	WorstM      float64   // where that is
	WorstIsOpen bool      // its limit is not known there: Worst means nothing
}

// askew is how far off its way the pull lies, degrees: as drawn, and at its worst.
type askew struct{ drawn, worst, worstM float64 }

func (f *lookout) askew() (a askew) {
	a.drawn = f.one(askOffWay, 0)
	for i := range f.nodes {
		if n := &f.nodes[i]; n.at(askOffWay) > a.worst {
			a.worst, a.worstM = n.at(askOffWay), n.sM
		}
	}
	return a
}

// rerigs are the places to rig anew of what happens on the way, each cause once, in the
// order of the way: a part comes over its limit, the pull lies off the way by what the
// handbook warns of, something on a line comes to where it does not pass.
func (f *follower) rerigs() (all []Rerig) {
	for _, e := range f.out.Events {
		same := func(r Rerig) bool { return r.Kind == e.Kind && r.Part == e.Part && r.Thing == e.Thing }
		if e.Start || slices.ContainsFunc(all, same) {
			continue
		}
		r := Rerig{AtM: e.AtM, Kind: e.Kind, Part: e.Part, Thing: e.Thing, Other: e.Other, LimitDeg: e.LimitDeg}
		switch e.Kind {
		case OverLimit:
			worst, ok := f.out.Part(e.Part)
			first, was := f.out.Moments[0].Part(e.Part)
			if !ok || !was || !first.Known() {
				continue
			}
			r.Drawn, r.Worst, r.WorstM, r.WorstIsOpen = first.Most(), worst.Most(), worst.AtM, !worst.Known()
		case OffWayBeyond:
			if e.LimitDeg < facts.WayOutWarning.Value() {
				continue
			}
			r.Drawn, r.Worst, r.WorstM = f.off.drawn, f.off.worst, f.off.worstM
		case ReachesBlock, ReachesFairlead:
		default:
			continue
		}
		all = append(all, r)
	}
	return all
}
