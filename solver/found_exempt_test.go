package solver_test

import (
	"maps"
	"slices"
	"sync"
	"testing"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// exemption is a reason for which an answer may rightly be lighter after a
// weakening. needs are a found plan for each rule whose finding may go; of no
// rule: it is no matter of one.
type exemption struct {
	why   string
	needs map[string]need
}

// need is a found plan that would become lighter.
type need struct {
	seed uint64
	by   string // the name of the weakening
}

// exemptions are all there are, by name.
var exemptions = map[string]exemption{
	"smaller tag": {"a lower tag fits the size", map[string]need{
		"rating-beyond-size": {76408, "L1: rating lower"},
	}},
	"longer": {"now it reaches", map[string]need{
		"too-short": {89, "L3: 2 m longer"},
	}},
	"thinner stem": {"a lighter stem is within the table and in nobody's way", map[string]need{
		"tree-extrapolated": {10534, "A2: thinner"},
		"casualty-meets":    {20106, "A1: thinner"},
		"tie-back-bears":    {37358, "A2: thinner"},
	}},
	"measured": {"a measured hold is that, and no table is used", map[string]need{
		"tree-extrapolated": {10534, "A2: measured, and holds little"},
		"tree-untested":     {70070, "A1: measured, and holds little"},
		"deadman-slender":   {1328, "A2: measured, and holds little"},
	}},
	"no foot": {"of a foot that is not said to be on the brake, none is missed", map[string]need{
		"foot-brake-nobody": {412, "V2: no foot on the brake"},
	}},
	"run of the lines": {"what is held shifts, and with it where the lines run and people stand to them", map[string]need{
		"bystander-in-stand-off": {80731, "A1: trunk not known"},
		"line-bears":             {11356, "S1: straight, not round"},
		"line-on-trunk":          {39395, "A1: thinner"},
		"person-in-zone-no-way":  {1325, "A1: trunk not known"},
		"person-in-zone":         {20792, "A1: kind not known"},
		"strap-bears":            {5753, "A1: thinner"},
		"tie-back-askew":         {22328, "A1: trunk not known"},
	}},
	"carries less": {"what is held shifts, and a part that was over its limit carries less than that", map[string]need{
		"": {253, "S1: straight, not round"},
	}},
	"barely over": {"what is held shifts, and a load hardly over its limit comes to be hardly under it", map[string]need{
		"vehicle-slides":      {10787, "A1: trunk not known"},
		"over-to-break-loose": {66589, "A1: trunk not known"},
	}},
	"tie-back in line": {"what is held shifts, and a tie-back comes to stand so that it counts: what it holds back does not slide", map[string]need{
		"vehicle-slides": {25461, "A1: trunk not known"},
	}},
	"tie-back reaches": {"round a thinner stem a tie-back reaches and counts: what it holds back does not slide", map[string]need{
		"vehicle-slides": {72772, "A2: thinner"},
	}},
	"restraint checked": {"a hold-back of a refused rig is not checked and silences nothing: once the rig is computed it may", map[string]need{
		"still-fastened": {89790, "A2 taken away"},
	}},
	"gone": {"of what carries nothing any more nothing is said", map[string]need{
		"": {24, "L2 taken away"},
	}},
	"zone gone": {"who stood only in zones of what carries nothing any more stands in none", map[string]need{
		"": {66494, "S1 taken away"},
	}},
	"not known": {"of what is not known any more a DANGER that was proved is not proved any more", map[string]need{
		"": {1, "A1: health not known"},
	}},
	"undecided of what is gone": {"what was not decided of a thing is no question once it is gone", map[string]need{
		"": {13241, "A1 taken away"},
	}},
	"decided for the worse": {"what was not decided is a DANGER now: nothing is withheld for want of it", map[string]need{
		"": {69373, "V2: lighter"},
	}},
}

// Each exemption is needed: without it its plan fails, with it none does. A longer
// run tells: of one whose plan is another since a rule has changed it names others.
func TestFoundExemptionsAreNeeded(t *testing.T) {
	if foundMore == 0 {
		t.Skip("left to a longer run")
	}
	for _, name := range slices.Sorted(maps.Keys(exemptions)) {
		for rule, n := range exemptions[name].needs {
			f := foundPlan(n.seed)
			a, all := solver.Assess(f.p, "R1"), f.weakenings()
			if !slices.ContainsFunc(all, func(w weakening) bool { return w.name == n.by && f.needs(a, &w, name, rule) }) {
				t.Errorf("%s %s: seed %d, %s does not need it; %v do", name, rule, n.seed, n.by, needing(t, name, rule))
			}
		}
	}
}

// needs reports whether a plan becomes no lighter by a weakening, and would without an
// exemption.
func (f *found) needs(a *solver.Assessment, w *weakening, name, rule string) bool {
	q := copied(f.p)
	w.apply(q)
	b, without := solver.Assess(q, "R1"), *w
	without.not, without.notOf = name, rule
	return lighter(a, b, w) == "" && lighter(a, b, &without) != ""
}

// needing are all plans of a longer run that need an exemption.
func needing(t *testing.T, name, rule string) (all []need) {
	var lock sync.Mutex
	eachFound(t, func(f *foundOne) {
		for _, w := range f.weakenings() {
			if f.needs(f.a, &w, name, rule) {
				lock.Lock()
				all = append(all, need{f.seed, w.name})
				lock.Unlock()
			}
		}
	})
	return all
}

// may reports whether an exemption counts, for a rule.
func (w *weakening) may(name, rule string) bool {
	return w.not != name || w.notOf != rule
}

// about tells that a finding is about one of those.
func about(f *part.Finding, those []string) bool {
	return slices.ContainsFunc(f.Things, func(id plan.ID) bool { return slices.Contains(those, string(id)) }) ||
		slices.ContainsFunc(f.Parts, func(id string) bool { return slices.Contains(those, id) })
}

// verdictWithout is how an answer ends with what a weakening rightly takes away
// set aside, and what is said of some things more.
func verdictWithout(a, after *solver.Assessment, w *weakening, of []string) solver.Verdict {
	b := *a
	if !w.may("not known", "") {
		of = nil
	}
	b.Findings = slices.DeleteFunc(slices.Clone(a.Findings), func(f part.Finding) bool {
		return w.clears(&f, a, after) || about(&f, of)
	})
	gone := of
	if w.may("gone", "") {
		gone = slices.Concat(of, w.gone)
	}
	b.Parts = slices.DeleteFunc(slices.Clone(a.Parts), func(p part.Part) bool {
		return slices.Contains(gone, string(p.Thing)) || slices.Contains(gone, p.ID)
	})
	if len(b.Parts) < len(a.Parts) && a.Status == part.Within {
		b.Complete = true // what is left is looked at part by part
	}
	return b.Verdict()
}

// run is the exemption for what shifts.
const run = "run of the lines"

// clears reports whether a finding of an answer is one that a weakening rightly takes
// away.
func (w *weakening) clears(f *part.Finding, before, after *solver.Assessment) bool {
	switch {
	case w.may("gone", "") && about(f, w.gone), w.may("zone gone", "") && w.zoneGone(f, before):
		return true
	case f.ID == part.NotDecidedID:
		return w.but != "" && !slices.ContainsFunc(f.Lacks, func(l part.Lack) bool { return !w.names(l.Rule, f) })
	}
	_, ofTheRun := exemptions[run].needs[f.ID]
	return w.names(f.ID, f) || w.moves && (ofTheRun && w.may(run, f.ID) || w.barely(f, before, after) || w.counts(f, before, after)) || w.checked(f, before, after)
}

// names reports whether a rule is one of those that a worse figure clears of the thing
// it is of.
func (w *weakening) names(rule string, f *part.Finding) bool {
	_, is := exemptions[w.but].needs[rule]
	return is && w.may(w.but, rule) && about(f, w.own)
}

// zoneGone reports whether a finding is of a person who stands in zones, each of what
// is gone. One who stood in a stand-off too may still stand in that.
func (w *weakening) zoneGone(f *part.Finding, before *solver.Assessment) (gone bool) {
	ring := f.ID == "bystander-in-stand-off"
	if !ring && f.ID != "person-in-zone" {
		return false
	}
	i := slices.IndexFunc(before.People, func(p solver.PersonAt) bool { return p.Person == f.Things[0] })
	for k := range before.Zones {
		z := &before.Zones[k]
		if i < 0 || !ring && z.Kind == part.ZoneStandOff || !surrounds(z.Outline, before.People[i].At) {
			continue
		}
		if gone = slices.Contains(w.gone, string(z.Thing)); !gone {
			return false
		}
	}
	return gone
}

// barely reports whether what was over a limit was so by no more than the lines may
// shift, and is not settled after it.
func (w *weakening) barely(f *part.Finding, before, after *solver.Assessment) bool {
	var id string
	switch f.ID {
	case "over-to-break-loose":
		id = f.Parts[0]
	case "vehicle-slides":
		id = string(f.Things[0]) + "/slide"
	default:
		return false
	}
	was, _ := before.Part(id)
	is, there := after.Part(id)
	return w.may("barely over", f.ID) && max(was.Used, was.UsedToLoosen()) <= 1+moved && there && !settledPart(is)
}

// counts reports whether a vehicle slid for want of a tie-back that was askew or did
// not reach and now does: of the vehicle, or of a restraint that is made weaker.
func (w *weakening) counts(f *part.Finding, before, after *solver.Assessment) bool {
	if f.ID != "vehicle-slides" {
		return false
	}
	of := func(id string) bool { return partThing(plan.ID(id)) == f.Things[0] }
	without := func(a *solver.Assessment) bool {
		return slices.ContainsFunc(a.Findings, func(g part.Finding) bool {
			return g.ID == "tie-back-askew" && w.may("tie-back in line", f.ID) && g.Things[0] == f.Things[0] ||
				g.ID == "too-short" && w.may("tie-back reaches", f.ID) && about(&g, w.own) && slices.ContainsFunc(w.own, of)
		})
	}
	return without(before) && !without(after)
}

// checked reports whether a casualty was still made fast only by a hold-back of a rig
// that was refused, rightly is no more, and so is checked now.
func (w *weakening) checked(f *part.Finding, before, after *solver.Assessment) bool {
	return f.ID == "still-fastened" && w.may("restraint checked", f.ID) && before.Why != "" && after.Why == "" &&
		slices.ContainsFunc(after.Parts, func(p part.Part) bool { return p.Thing == f.Things[1] && p.Known() }) && w.admits(before, after)
}

// shifted reports whether a part comes to be within a limit only because the lines
// run otherwise: it carries less than it did, and its limit is no higher. How
// much line is out and where a vehicle is pulled go with the run of the lines.
func (w *weakening) shifted(p, was *part.Part) bool {
	if !w.moves || was.Status != part.Over || !w.may("carries less", "") {
		return false
	}
	return p.Kind == part.KindWinch || p.Kind == part.KindSlide || p.Kind == part.KindTip ||
		p.Move.Force < was.Move.Force && p.Limit.Force <= was.Limit.Force*(1+moved)
}

// decided reports whether a part was withheld for want of what is no question any
// more: each rule that was not decided and is not said to be so now was of what is
// gone, or raises a DANGER of the same thing.
func (w *weakening) decided(before, after *solver.Assessment, was *part.Part) (open bool) {
	if was.Status != part.Undecided {
		return false
	}
	for i := range before.Findings {
		f := &before.Findings[i]
		if f.ID != part.NotDecidedID {
			continue
		}
		for _, l := range f.Lacks {
			if slices.ContainsFunc(after.Findings, func(g part.Finding) bool { return slices.Contains(g.Lacks, l) }) {
				continue
			}
			worse := func(g part.Finding) bool {
				return g.ID == l.Rule && g.Level == part.Danger && slices.Equal(g.Things, f.Things)
			}
			if !(w.may("undecided of what is gone", "") && about(f, w.gone)) && !(w.may("decided for the worse", "") && slices.ContainsFunc(after.Findings, worse)) {
				return false
			}
			open = true
		}
	}
	return open
}

// admits reports whether all that refused a rig is taken away rightly.
func (w *weakening) admits(before, after *solver.Assessment) (admitted bool) {
	for i := range before.Findings {
		if f := &before.Findings[i]; f.ID == before.Why {
			if !w.clears(f, before, after) {
				return false
			}
			admitted = true
		}
	}
	return admitted
}
