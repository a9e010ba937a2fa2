// Package report puts what a reconstruction found into sections of text: for the command
// line, for sheets, for the board.
package report

import (
	"context"
	"errors"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"kedge/canvas/form"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/doubt"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// Report is what was found of a rig, to be written.
type Report struct {
	Plan   *plan.Plan // the casualty where it was
	Rig    plan.ID
	AtM    float64 // along its way
	WayM   float64 // how far the casualty has to go, by the plan; 0: not known
	LongM  float64 // how far along its way the pull goes that is to be followed; 0: the casualty is at one place
	Names  words.Names
	Found  *doubt.Reconstruction // nil: the rig is not computed
	Why    error                 // then
	w      *words.Words
	asked  []string  // changes that somebody asked for, by name
	brings []brought // what those bring that the plan has not
	tried  []doubt.Change
}

// Section is a part of a report: lines, a table, or both.
type Section struct {
	Title string
	Rows  [][]string // the first is the head; none: no table
	Lines []string   // behind it
}

// How a rig is drawn wherever nobody says otherwise: command line, sheets and board give
// the same figures.
const (
	PerSet = 1024 // points of each set, a power of two
	Seed   = 1
)

// placed is the plan with the casualty where a rut says that it was, and how far along its
// way that is; with the pull to be followed from where it is drawn on if nobody knows that
// exactly and it has a way out. The error is the context's.
func placed(ctx context.Context, p *plan.Plan, rig plan.ID) (at *plan.Plan, atM float64, along []doubt.WayPoint, err error) {
	r, ok := p.Rig(rig)
	if !ok {
		return p, 0, nil, nil
	}
	if v := solver.CasualtyOf(p, rig); v != nil {
		if m, exact := doubt.RutM(r.Incident, v.ID); exact {
			return travel.At(p, rig, m), m, nil, nil
		}
	}
	along, err = wayOf(ctx, p, rig, pastPoints)
	return p, 0, along, err
}

// New asks what may have happened with a rig, and what the request's changes of the plan as
// it is given, the other rigs of the plan, other pieces and the remedies of its findings would have done. With
// fewer points than [PerSet], for a first look, nothing but the request's is tried. The
// error is the context's.
func New(w *words.Words, p *plan.Plan, rig plan.ID, q doubt.Request) (*Report, error) {
	a := &Report{Rig: rig, WayM: float64(wayLength(p, rig)), w: w}
	ctx := q.Context
	if ctx == nil {
		ctx = context.Background()
	}
	var err error
	if a.Plan, a.AtM, q.Along, err = placed(ctx, p, rig); err != nil {
		return nil, err
	}
	answer := a.name()
	if n := len(q.Along); n > 0 {
		a.LongM = q.Along[n-1].AtM
	}
	q.Changes = slices.Clone(q.Changes)
	for i := range q.Changes {
		c := &q.Changes[i]
		a.asked = append(a.asked, c.Name)
		long := wayLength(c.Plan, rig)
		c.Short = 0 < long && float64(long) < a.AtM
		c.Plan = travel.At(c.Plan, rig, a.AtM)
	}
	if q.Per >= PerSet {
		a.tried = a.try(answer)
		q.Changes = slices.Concat(q.Changes, a.tried)
	}
	for i := range q.Changes {
		c := &q.Changes[i]
		if len(q.Along) == 0 || wayLength(c.Plan, rig) == wayLength(a.Plan, rig) {
			c.Along = alongOf(c.Plan, rig, q.Along)
		} else if c.Along, err = wayOf(ctx, c.Plan, rig, pastPoints); err != nil { // another pull has places of its own
			return nil, err
		}
	}
	if a.Found, a.Why = doubt.Reconstruct(a.Plan, rig, q); a.Found != nil {
		a.assessChanges(answer.Findings)
	}
	return a, ctx.Err()
}

// name gives things their names.
func (a *Report) name() *solver.Assessment {
	answer := solver.Assess(a.Plan, a.Rig)
	a.Names = a.w.Naming(answer, a.w.Names(a.Plan, a.Rig))
	return answer
}

// In is the report in other words, of the same trials; nil: what was tried otherwise is not
// the same in those, and has to be drawn anew.
func (a *Report) In(w *words.Words) *Report {
	b := *a
	b.w = w
	answer := b.name()
	if a.Found == nil {
		return &b
	}
	if len(a.tried) > 0 {
		b.tried = b.try(answer)
	}
	called := map[*plan.Plan]string{}
	if !slices.EqualFunc(a.tried, b.tried, func(was, now doubt.Change) bool {
		called[was.Plan] = now.Name
		return reflect.DeepEqual(was.Plan, now.Plan)
	}) {
		return nil
	}
	f := *a.Found
	f.Changes = slices.Clone(f.Changes)
	for i := range f.Changes {
		if name, ok := called[f.Changes[i].Plan]; ok {
			f.Changes[i].Name = name
		}
	}
	b.Found, b.tried = &f, a.tried
	return &b
}

// Cautions are the sentences that stand above the answer.
func (a *Report) Cautions() (all []string) {
	w, f := a.w, a.Found
	say := func(id string, values ...part.Value) { all = append(all, w.Label(id, values...)) }
	worst := part.Text("pin", w.Label("doubt-not-known"))
	for _, u := range f.Pins {
		if u.Why == "" && u.Fact == f.Answer.Worst {
			worst = part.Text("pin", w.Pin(u.Pin, a.Names))
		}
	}
	switch f.Answer.Verdict {
	case doubt.TooFew:
		say("recon-too-few", worst)
	case doubt.RareFacts:
		say("recon-rare", part.Count("n", max(1, 1/f.Answer.Outright.Value)), worst)
	case doubt.FewAgree:
		say("recon-few", part.Count("n", f.Answer.OutOf20000), worst)
	}
	all = append(all, a.ofEvidence()...)
	if len(f.Without) > 0 {
		say("recon-without", part.Text("list", partNames(w, f.Without, a.Names)))
	}
	if len(f.NotDrawn) > 0 {
		say("doubt-not-drawn", part.Text("list", members(w, f.NotDrawn, a.Names)))
	}
	if a.AtM > 0 {
		say("recon-moment", part.Length("s", a.AtM))
	}
	if f.ToM < a.LongM {
		say("recon-cut", part.Length("s", f.ToM), part.Length("length", a.LongM))
	}
	if len(f.Unknown) > 0 {
		say("recon-lost", part.Text("list", partNames(w, f.Unknown, a.Names)))
	}
	if f.Refused > 0 {
		say("recon-refused", part.Text("chance", w.Frequency(f.Refused)))
	}
	if len(f.Slides) > 0 {
		say("recon-slides", part.Text("list", partNames(w, f.Slides, a.Names)))
	}
	if f.Slow {
		say("recon-slow")
	}
	if a.Weigh() == 0 {
		say("recon-idle")
	}
	if f.Answer.LeftOut > 0.01 {
		say("recon-left-out", part.Text("chance", w.Frequency(f.Answer.LeftOut)))
	}
	all = append(append(all, a.brought()...), pictureOff(w, a.Plan)...)
	for _, c := range f.Changes { // of what was only tried its row says it
		if c.Err != nil && slices.Contains(a.asked, c.Name) {
			say("recon-change-refused", part.Text("change", c.Name))
		}
	}
	return all
}

// ofEvidence are the cautions of what was seen, told and held before.
func (a *Report) ofEvidence() (all []string) {
	w, f := a.w, a.Found
	say := func(id string, values ...part.Value) { all = append(all, w.Label(id, values...)) }
	for _, i := range f.Blocked {
		say("recon-blocked", part.Text("pin", w.Pin(f.Pins[i].Pin, a.Names)))
	}
	for _, i := range f.Unplaced {
		say("recon-unplaced", part.Text("pin", w.Pin(f.Pins[i].Pin, a.Names)))
	}
	casualty := plan.ID("")
	if v := solver.CasualtyOf(a.Plan, a.Rig); v != nil {
		casualty = v.ID
	}
	for i := range f.Pins {
		if u := &f.Pins[i]; u.Past(casualty, a.WayM) {
			say("recon-past-way", part.Text("pin", w.Pin(u.Pin, a.Names)), part.Length("length", a.WayM))
		}
	}
	for _, c := range f.Contradict {
		say("recon-contradict", part.Text("a", w.Pin(f.Pins[c[0]].Pin, a.Names)), part.Text("b", w.Pin(f.Pins[c[1]].Pin, a.Names)))
	}
	if told := a.unsourced(); len(told) > 1 {
		say("recon-sources", part.Text("list", strings.Join(told, "; ")))
	}
	for _, q := range f.Idle {
		say("recon-idle-prior", part.Text("part", w.Part(string(q.Thing), a.Names)), part.Text("weakness", w.EvidenceWord("weak", q.Weak)))
	}
	return all
}

// unsourced are the pins that were told and weigh, and of which it is not entered who told
// them: each counts as an account of its own.
func (a *Report) unsourced() (told []string) {
	for i := range a.Found.Pins {
		u := &a.Found.Pins[i]
		if u.Weighs() && u.Pin.KnownAs() == plan.KnownTold && strings.TrimSpace(u.Pin.Source) == "" {
			told = append(told, a.w.Pin(u.Pin, a.Names))
		}
	}
	return told
}

// partNames are the names of parts.
func partNames(w *words.Words, parts []part.Part, names words.Names) string {
	var list []string
	for i := range parts {
		list = append(list, w.PartName(&parts[i], names))
	}
	return strings.Join(list, ", ")
}

// Weigh is how many pieces of evidence weigh anything.
func (a *Report) Weigh() (n int) {
	for i := range a.Found.Pins {
		if a.Found.Pins[i].Weighs() {
			n++
		}
	}
	return n
}

// NoAnswer says why the rig is not computed.
func (a *Report) NoAnswer() string {
	id := "recon-not-computed"
	if errors.Is(a.Why, doubt.ErrTwoLines) {
		id = "recon-two-lines"
	}
	return a.w.Label(id, part.Text("rig", a.w.Rig(a.Plan, a.Rig)))
}

// Head says of what the report is.
func (a *Report) Head() string {
	id, s := "recon-of", a.AtM
	if a.followed() {
		id, s = "recon-of-pull", a.Found.ToM
	}
	return a.w.Label(id, part.Text("rig", a.w.Rig(a.Plan, a.Rig)), part.Count("count", a.Found.Trials), part.Text("seed", strconv.FormatUint(a.Found.Seed, 10)),
		part.Length("s", s))
}

// followed reports whether the pull was followed along the way.
func (a *Report) followed() bool { return a.Found.ToM > 0 }

// How says what the answer is of: of one moment, or of the pull that was followed.
func (a *Report) How() string {
	if a.followed() {
		return a.w.Label("recon-followed")
	}
	return a.w.Label("recon-as-drawn")
}

// PlaceM is where along its way the casualty was in the moment of a listed candidate: in
// half of the trials of it that far, or less.
func (a *Report) PlaceM(i int) float64 {
	if m := a.Found.Moments[i].AtM[1]; a.followed() && !math.IsNaN(m) {
		return m
	}
	return a.AtM
}

// Settled reports whether there is an answer without a caution.
func (a *Report) Settled() bool { return a.Found != nil && len(a.Cautions()) == 0 }

// Seed is that of the trials; 0: there were none.
func (a *Report) Seed() uint64 {
	if a.Found == nil {
		return 0
	}
	return a.Found.Seed
}

// Answered reports whether there is an answer.
func (a *Report) Answered() bool { return a.Found.Answered() }

// Evidence is what was seen and told, and what became of it.
func (a *Report) Evidence() Section {
	w, f := a.w, a.Found
	s := Section{Title: w.Label("recon-facts")}
	for i := range f.Pins {
		u := &f.Pins[i]
		why := ""
		switch {
		case u.Why != "":
			why = w.Label(u.Why)
		case u.Fact < len(f.Answer.Fits):
			if others := f.Answer.Fits[u.Fact].GivenOthers.Value; math.IsNaN(others) {
				why = w.Label("pin-fits-none")
			} else {
				why = w.Label("pin-fits", part.Text("others", w.Frequency(others)))
			}
		}
		s.Lines = append(s.Lines, w.Pin(u.Pin, a.Names))
		if ph := a.Plan.Photo(u.Pin.Shows); ph != nil {
			s.Lines = append(s.Lines, "   "+w.Label("pin-photo", part.Text("file", form.PhotoFile(w, ph))))
		}
		if why != "" {
			s.Lines = append(s.Lines, "   "+why)
		}
	}
	s.Lines = append(s.Lines, a.Agree())
	return s
}

// Agree is how many trials agree with all that was observed.
func (a *Report) Agree() string {
	return a.w.Label("recon-agree", part.Count("n", a.Found.Answer.OutOf20000), part.Count("ess", a.Found.Answer.ESS))
}

// leastShown is the chance given the facts below which a candidate is not listed.
const leastShown = 0.005

// Listed are the candidates that are listed, the likeliest first.
func (a *Report) Listed() []doubt.Candidate {
	all := a.Found.Answer.Candidates
	n := min(1, len(all))
	for n < len(all) && all[n].Posterior.Value >= leastShown {
		n++
	}
	return all[:n]
}

// Moment is the line tension and the load on the part when a listed candidate failed,
// short for a tag of it and as a sentence.
func (a *Report) Moment(i int) (tag, sentence string) {
	m := a.Found.Moments[i]
	if math.IsNaN(m.TensionN[0]) {
		return "", ""
	}
	tension := bandText(m.TensionN, a.w.Load)
	if math.IsNaN(m.LoadN[0]) {
		return "", a.w.Label("moment-whole", tension...)
	}
	load := bandText(m.LoadN, a.w.Load)
	sentence = a.w.Label("moment-load", load...) + " " + a.w.Label("moment-tension", tension...)
	if a.followed() {
		sentence += " " + a.w.Label("moment-place", bandText(m.AtM, a.w.Length)...)
	}
	return a.w.Label("moment-tag", load...), sentence
}

// Candidates is what may have failed, and the line tension then.
func (a *Report) Candidates() Section {
	w, f := a.w, a.Found
	s := Section{Title: w.Label("recon-candidates"), Rows: [][]string{{w.Label("column-candidate"), w.Label("column-ratio"), w.Label("column-prior"), w.Label("column-posterior")}}}
	if a.followed() {
		s.Rows[0] = append(s.Rows[0], w.Label("column-place"), w.Label("column-load-there"))
	}
	for i, c := range a.Listed() {
		ratio := words.NoFigure
		if f.Ratios[i].Known {
			ratio = w.Likelihood(f.Ratios[i].Ratio)
		}
		s.Rows = append(s.Rows, []string{w.Candidate(&c, a.Names), ratio, w.Frequency(c.Prior.Value), a.within(c.Posterior)})
		if m := &f.Moments[i]; a.followed() {
			row := &s.Rows[i+1]
			*row = append(*row, points(c.Part != "", m.AtM, w.Length), points(c.Part != "", m.LoadN, w.Load))
		}
	}
	s.Lines = []string{w.Label("recon-none", part.Text("none", w.Frequency(f.NonePrior))), w.Label("recon-none-jerk", part.Text("jerk", w.Frequency(f.JerkPrior))),
		w.Label("recon-tension", bandText(f.Answer.BandN, w.Load)...)}
	return s
}

// points are the 5, 50 and 95 % points of a figure in a cell.
func points[Q ~float64](known bool, b [3]float64, say func(Q) string) string {
	if !known || math.IsNaN(b[0]) {
		return words.NoFigure
	}
	return say(Q(b[0])) + " · " + say(Q(b[1])) + " · " + say(Q(b[2]))
}

// Sensitivity is how far the first candidate's chance hangs on the assumptions.
func (a *Report) Sensitivity() Section {
	w, f := a.w, a.Found
	s := Section{Title: w.Label("recon-sensitive")}
	for _, x := range f.Sensitive {
		pin := ""
		if x.Pin >= 0 {
			pin = string(f.Pins[x.Pin].Pin.ID)
		}
		s.Lines = append(s.Lines, w.Label("sensitive-"+x.What, part.Text("pin", pin))+": "+w.Frequency(x.Given.Value))
	}
	if !math.IsNaN(f.HalfPrior) {
		s.Lines = append(s.Lines, w.Label("recon-half", part.Text("part", w.Part(f.Answer.Candidates[0].Part, a.Names)), part.Text("chance", w.Frequency(f.HalfPrior))))
	}
	return s
}

// within is a chance with the interval that holds it as far as sampling goes.
func (a *Report) within(e doubt.Estimate) string {
	low, high := e.Interval()
	return a.w.Label("recon-within", part.Text("x", a.w.Frequency(e.Value)), part.Text("low", a.w.Frequency(max(0, low))), part.Text("high", a.w.Frequency(min(1, high))))
}

// Change is how often a part fails before and with a change, and in how many of the pulls
// that agree with the facts one fails with it too.
func (a *Report) Change(i int) (before, after, still string) {
	c := &a.Found.Changes[i]
	still = words.NoFigure
	if a.Answered() {
		still = a.w.Frequency(c.StillFails.Value)
	}
	before, after = a.w.Frequency(c.Before.Value), a.w.Frequency(c.After.Value)
	if low, high := c.Less.Interval(); before == after && (low > 0 || high < 0) { // of a hundred it does not show
		of := func(x float64) string { return a.w.Chance(int(math.Round(x*1e4)), 1e4) }
		before, after = of(c.Before.Value), of(c.After.Value)
	}
	return before, after, still
}

// Changes is what would have lowered the chance.
func (a *Report) Changes() Section {
	w, f := a.w, a.Found
	s := Section{Title: w.Label("recon-changes")}
	if len(f.Changes) == 0 {
		s.Lines = []string{w.Label("recon-no-changes")}
		return s
	}
	s.Rows = [][]string{{w.Label("column-change"), w.Label("column-before-after"), w.Label("column-still")}}
	for i := range f.Changes {
		c := &f.Changes[i]
		if c.Err != nil {
			s.Rows = append(s.Rows, []string{c.Name, w.Label("recon-change-failed"), ""})
			continue
		}
		before, after, still := a.Change(i)
		s.Rows = append(s.Rows, []string{c.Name, w.Label("recon-from-to", part.Text("before", before), part.Text("after", after)), still})
	}
	return s
}

// Assumptions is all that was drawn, and how the picture lies that places were traced over.
func (a *Report) Assumptions() Section {
	w, f := a.w, a.Found
	s := Section{Title: w.Label("recon-assumed"), Rows: assumed(w, f.Assumed, a.Names)}
	typed := slices.ContainsFunc(f.Assumed, func(x doubt.Assumption) bool { return x.Typed })
	if !typed {
		s.Lines = []string{w.Label("recon-no-other-doubt")}
	}
	s.Lines = append(s.Lines, form.PictureLies(w, a.Plan.Site.Underlay)...)
	return s
}

// Priors is what was held likely before the pull.
func (a *Report) Priors() Section {
	s := Section{Title: a.w.Label("recon-priors"), Rows: [][]string{{a.w.Label("column-candidate"), a.w.Label("column-prior"), a.w.Label("column-founded")}}}
	for i := range a.Found.Priors {
		what, chance, founded := a.w.Prior(&a.Found.Priors[i], a.Names)
		s.Rows = append(s.Rows, []string{what, chance, founded})
	}
	return s
}
