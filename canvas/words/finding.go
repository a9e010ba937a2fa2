package words

import (
	"slices"
	"strings"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Finding is what a finding says and what to do about it. A finding without a
// text shows its id in brackets and its values by name. Of a whole pull it says
// where along the travel that is.
func (w *Words) Finding(f part.Finding, n Names) (what, do string) {
	values := w.findingValues(f, n)
	what, hasWhat := w.text(findingSection, f.ID, "what")
	do, hasDo := w.text(findingSection, f.ID, "do")
	if !hasWhat {
		return w.generic(f, n), ""
	}
	if hasDo {
		do = capital(fill(do, values))
	}
	what = capital(fill(what, values))
	if f.Travel > 0 {
		what += " (" + w.travel(&f) + ")"
	}
	return what, do
}

// FindingPattern is what a finding says and what to do about it whatever the
// plan: a value's place is taken by its name in angle brackets, and of the
// forms of a word stands the one for several.
func (w *Words) FindingPattern(id string) (what, do string) {
	name := func(s slot) (string, bool) {
		if s.forms != nil {
			return s.forms[1], true
		}
		if which, ok := strings.CutPrefix(s.name, "thing"); ok { // thing, thing2, …
			return "<" + strings.TrimSpace(w.Label("slot-item")+" "+which) + ">", true
		}
		return "<" + s.name + ">", true
	}
	what, ok := w.text(findingSection, id, "what")
	if !ok {
		return missing(id), missing(id)
	}
	do, _ = w.text(findingSection, id, "do")
	return capital(fill(what, name)), capital(fill(do, name))
}

// findingValues finds the value of a placeholder of a finding: a value of that
// name, or a name of what it is about.
func (w *Words) findingValues(f part.Finding, n Names) func(slot) (string, bool) {
	if n == nil {
		n = func(plan.ID) string { return "" } // values of things are then looked up, not taken as said
	}
	own := w.valuesOf(f.Values, n)
	return func(s slot) (string, bool) {
		if v, ok := own(s); ok {
			return v, true
		}
		switch s.name {
		case "thing", "thing2", "thing3":
			if i := ordinal(s.name, "thing"); i < len(f.Things) {
				return w.nameOf(string(f.Things[i]), n), true
			}
		case "part", "part2":
			if i := ordinal(s.name, "part"); i < len(f.Parts) {
				return w.nameOf(f.Parts[i], n), true
			}
			if s.name == "part" && len(f.Things) > 0 {
				return w.nameOf(string(f.Things[0]), n), true
			}
		case "fields":
			return w.Lacks(f.Lacks, n), len(f.Lacks) > 0
		case "travel":
			return w.value(part.Value{Unit: part.UnitLength, X: f.Travel}, s, n), true
		}
		return "", false
	}
}

// ordinal is the index that a placeholder's last digit tells: none is 0.
func ordinal(name, stem string) int {
	if rest := strings.TrimPrefix(name, stem); rest != "" {
		return int(rest[0]-'0') - 1
	}
	return 0
}

// generic is a finding that nobody wrote a text for.
func (w *Words) generic(f part.Finding, n Names) string {
	var b strings.Builder
	b.WriteString(missing(f.ID))
	for _, t := range f.Things {
		b.WriteString(" " + w.nameOf(string(t), n))
	}
	for _, v := range f.Values {
		b.WriteString(" " + v.Name + " = " + w.Value(v, n))
	}
	return b.String()
}

// capital is a sentence with its first letter as a capital: a part's name may
// begin with a small one.
func capital(s string) string {
	for i, r := range s {
		return strings.ToUpper(string(r)) + s[i+len(string(r)):]
	}
	return s
}

// Level is a level's signal word.
func (w *Words) Level(l part.Level) string { return w.Label("level-" + l.String()) }

// Verdict is the line at the head of a sheet. The text is one sentence without
// its level, for the badge, and without "n more", for the link beside it: what
// the most severe finding says and what the pull is planned on. has is false
// where there is no finding; the text then says that, or that there is nothing
// to check yet.
func (w *Words) Verdict(a *solver.Assessment, n Names) (level part.Level, has bool, text string, more int) {
	switch {
	case nothingToCheck(a):
		return part.Notice, false, w.Label("verdict-nothing"), 0
	case len(a.Findings) == 0 && !a.Complete:
		return part.Notice, false, w.Label("verdict-incomplete"), 0
	case len(a.Findings) == 0:
		return part.Notice, false, w.Label("verdict-none"), 0
	}
	f := a.Findings[0]
	what, _ := w.Finding(f, w.Naming(a, n))
	rests := w.PlannedOn(a)
	if a.Status == part.Refused {
		rests = w.Label("no-loads") // nothing was planned on anything
	}
	what = strings.TrimSuffix(what, ".")
	if open := w.Undecided(a, n); len(open) > 0 {
		both := []string{w.Label("verdict-not-decided", part.Text("parts", strings.Join(open, ", "))), what}
		if f.Level == part.Danger { // which comes first
			slices.Reverse(both)
		}
		what = strings.Join(both, " · ")
	}
	return f.Level, true, w.Label("verdict", part.Text("what", what), part.Text("planned", rests)), len(Cards(a.Findings)) - 1
}

// Undecided are the names of the parts that carry load and of which it is not decided
// whether they are within their limits, and of the things of which it is not
// decided whether they slide, tip or roll.
func (w *Words) Undecided(a *solver.Assessment, n Names) []string {
	var names []string
	add := func(s string) {
		if s != "" && !slices.Contains(names, s) {
			names = append(names, s)
		}
	}
	naming := w.Naming(a, n)
	for i := range a.Parts {
		if p := &a.Parts[i]; p.Status == part.Undecided {
			add(w.PartName(p, naming))
		}
	}
	for i := range a.Findings {
		f := &a.Findings[i]
		if f.ID != part.NotDecidedID || len(f.Things) == 0 {
			continue
		}
		for _, l := range f.Lacks {
			if moves(l.Rule) {
				add(w.nameOf(string(f.Things[0]), naming))
			}
		}
	}
	return names
}

// VerdictLine is the verdict as one line of text, its level in front.
//
//	DANGER  Spotter 1 stands inside the bight · planned on HIGH resistance, LOW hold · 2 more ▸
func (w *Words) VerdictLine(a *solver.Assessment, n Names) string {
	level, has, text, more := w.Verdict(a, n)
	if !has {
		return text
	}
	line := w.Level(level) + "  " + text
	if more > 0 {
		line += " · " + w.Label("more", part.Count("count", more))
	}
	return line
}

// nothingToCheck reports whether there is no rig to speak of: nothing pulls, and
// nobody has found anything else to say.
func nothingToCheck(a *solver.Assessment) bool {
	if a == nil {
		return true
	}
	if len(a.Parts) > 0 || len(a.Stretches) > 0 {
		return false
	}
	for _, f := range a.Findings {
		if f.ID != "nothing-pulls" && f.ID != "no-casualty" {
			return false
		}
	}
	return true
}

// PlannedOn says what the figures rest on: "planned on HIGH resistance, LOW
// hold". What is not said counts as high, as in a plan; where a casualty's
// resistance is not known, nothing is planned on it.
func (w *Words) PlannedOn(a *solver.Assessment) string {
	on := plan.PlanHigh
	if a != nil && a.Casualty != "" && !a.Resistance.Known {
		return w.Label("planned-on-unknown")
	}
	if a != nil && a.Resistance.PlanOn != "" {
		on = a.Resistance.PlanOn
	}
	return w.Label("planned-on", part.Text("on", w.Label("PLAN-"+on)))
}

// Chip is the mark of a plan that is not planned on the high resistance,
// "PLANNED ON LIKELY"; empty for the high one.
func (w *Words) Chip(a *solver.Assessment) string {
	if a == nil || a.Resistance.PlanOn == "" || a.Resistance.PlanOn == plan.PlanHigh {
		return ""
	}
	return w.Label("chip", part.Text("on", w.Label("PLAN-"+a.Resistance.PlanOn)))
}

// Range prints a range with what it is planned on: 29.3 kN (15.2 to 29.3,
// planned on high).
func (w *Words) Range(r part.Range, planOn string) string {
	if !r.Known {
		return w.Label("not-computed")
	}
	if planOn == "" {
		planOn = plan.PlanHigh
	}
	at := map[string]float64{plan.PlanLow: float64(r.Low), plan.PlanLikely: float64(r.Likely), plan.PlanHigh: float64(r.High)}[planOn]
	return w.Label("range", part.Force("at", at), part.Force("low", r.Low), part.Force("high", r.High),
		part.Text("on", w.Label("plan-"+planOn)))
}

// Hold prints a range of what something holds, rounded down, low end first:
// 42.9 kN (42.9 to 90.2, planned on low).
func (w *Words) Hold(r part.Range) string {
	if !r.Known {
		return w.Label("not-known")
	}
	force := func(name string, x float64) part.Value { return part.Number(name, part.UnitLimit, x) }
	return w.Label("range", force("at", float64(r.Low)), force("low", float64(r.Low)), force("high", float64(r.High)),
		part.Text("on", w.Label("plan-"+plan.PlanLow)))
}

// Status is the state of a part in a word.
func (w *Words) Status(s part.Status) string { return w.Label("status-" + s.String()) }

// StatusOf is the state of a part, and that it is only in it when the casualty
// is broken loose.
func (w *Words) StatusOf(p *part.Part) string {
	s := w.Status(p.Status)
	if p.ByLoosening() {
		return w.Label("to-break-loose", part.Text("what", s))
	}
	return s
}

// Zone is the word of a kind of zone.
func (w *Words) Zone(k part.ZoneKind) string { return w.Label("zone-" + string(k)) }

// List joins words: "a", "a and b", "a, b and c".
func (w *Words) List(items []string) string { return w.joined(items, "and") }

// joined joins words with commas, and the last with the word of a label.
func (w *Words) joined(items []string, with string) string {
	switch len(items) {
	case 0:
		return ""
	case 1:
		return items[0]
	}
	last := len(items) - 1
	return strings.Join(items[:last], ", ") + " " + w.Label(with) + " " + items[last]
}

// fixedList is every label "stem-1", "stem-2", … in turn.
func (w *Words) fixedList(stem string) []string {
	var all []string
	for i := 1; ; i++ {
		id := stem + "-" + plainNumber(float64(i))
		if !w.HasLabel(id) {
			return all
		}
		all = append(all, w.Label(id))
	}
}

// Cautions are the sentences that stand below every answer.
func (w *Words) Cautions() []string { return w.fixedList("caution") }

// NotChecked are the things no answer has looked at, each as it follows "Not
// checked:".
func (w *Words) NotChecked() []string { return w.fixedList("not-checked") }
