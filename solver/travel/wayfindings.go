package travel

import (
	"math"
	"slices"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// sameM, metres, is how near two lengths are the same. (ours: far below any shown)
const sameM = 1e-6

// wayFindings adds what is to be said of the way out itself, and of the lines that are
// paid out along it.
func (f *follower) wayFindings(all []part.Finding) []part.Finding {
	v := solver.CasualtyOf(f.p, f.rig)
	if v == nil || !(f.out.LongM > 0) {
		return all
	}
	w, known := v.WayLine()
	switch {
	case !known:
		return all
	case f.drag != nil:
		return f.paysOut(f.drags(all), v.ID)
	}
	steered, tightestM := w.Steered(f.out.LongM)
	// Wheels steer by 45° at most: the rear axle then goes round a circle whose radius
	// is the wheelbase, whatever was entered. (closed form)
	turnsM := max(w.TurnM, float64(v.Wheelbase))
	if steered && tightestM < turnsM*(1-sameM) {
		all = append(all, part.Finding{ID: "way-bends-tight", Level: part.Caution, Things: []plan.ID{v.ID}, Values: []part.Value{
			part.Length("bend", tightestM), part.Length("turns", turnsM)}})
	}
	if steered && (v.Stuck.Overturned || !slices.ContainsFunc(f.p.Site.People, func(p plan.Person) bool { return p.Role == plan.RoleDriver && p.Vehicle == v.ID })) {
		all = append(all, part.Finding{ID: "way-not-steered", Level: part.Warning, Things: []plan.ID{v.ID}})
	}
	return f.paysOut(all, v.ID)
}

// paysOut says of each line paid out by friction how long it must be for the way that
// was followed, where that is longer than the one entered.
func (f *follower) paysOut(all []part.Finding, casualty plan.ID) []part.Finding {
	i := f.p.RigIndex(f.rig)
	lines := f.p.Rigs[i].Lines
	longest := make([]float64, len(lines))
	for _, m := range f.out.Moments {
		for k, l := range f.at(m.AtM).Rigs[i].Lines {
			longest[k] = math.Max(longest[k], float64(l.Length))
		}
	}
	for k := range lines {
		l := &lines[k]
		if _, _, held := heldBy(l, casualty); held && longest[k] > float64(l.Length)+sameM {
			all = append(all, part.Finding{ID: "hold-back-pays-out", Level: part.Caution, Things: []plan.ID{l.ID}, Travel: f.out.EndM, Values: []part.Value{
				part.Length("needs", longest[k]), part.Length("has", l.Length)}})
		}
	}
	return all
}
