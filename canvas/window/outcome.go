package window

import (
	"context"
	"errors"
	"runtime"
	"slices"

	"kedge/canvas/draw"
	"kedge/canvas/panel"
	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver/doubt"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// outcomePanel shows what may have happened with the rig shown, by what was seen of it;
// where nothing was, how often what may come of it over the whole pull. It is reckoned while it is to be
// seen, with few trials first.
type outcomePanel struct {
	w         *Window
	pane      *panel.Pane
	worker    panel.Worker // reckons
	how       *reckoning
	asked     outcomeKey // what is reckoned, or was
	stop      context.CancelFunc
	got       *outcome         // shown last; nil: none yet
	picked    *doubt.Candidate // whose moment is drawn; nil: none
	typedOnly bool             // chances are of what was typed alone, not of known scatter
	turned    map[string]bool  // sections that are not as they begin, open or folded
	typing    *priorEntry      // nil: nothing is typed
	doubts    struct {         // whether something is in doubt, asked once a plan
		plan *plan.Plan
		rig  plan.ID
		any  bool
	}
}

// outcomeKey is what an outcome is of.
type outcomeKey struct {
	rigTold
	typed bool
}

// outcome is what was found, put into sections. It does not change.
type outcome struct {
	outcomeKey
	more     bool           // trials follow
	request  doubt.Request  // of chances, but for its points: that of every step
	report   *report.Report // nil: nothing was seen
	chances  *report.Chances
	listed   []doubt.Candidate  // none: there is no answer
	along    []*doubt.PartAlong // as listed
	nothing  bool               // is in doubt
	head     []string
	cautions []string
	sections []outcomeSection
}

// outcomeSection is a section of the panel.
type outcomeSection struct {
	report.Section
	id   string // "candidates", "along", "changes", "priors": their rows can be pressed
	hint string
	open bool // it begins so
}

// reckoning is how outcomes are reckoned: what was seen by whom, and the points of a set in
// the steps in which the answer comes, the last those of every other answer: of what was
// seen, whose least is more, and of chances.
type reckoning struct {
	report      func(w *words.Words, p *plan.Plan, rig plan.ID, q doubt.Request) (*report.Report, error)
	past, ahead []int
}

var wholly = reckoning{report.New, []int{256, report.PerSet}, []int{16, 64, 256, report.PerSet}}

// seen reports whether something was seen of the rig shown.
func (op *outcomePanel) seen() bool { return seenOf(op.w.board.Plan(), op.w.board.Rig()) }

// seenOf reports whether something was seen of a rig.
func seenOf(p *plan.Plan, rig plan.ID) bool {
	r, ok := p.Rig(rig)
	return ok && r.Incident.Seen()
}

// offered reports whether the panel has a tab though it is not open: there is something
// to say of the rig.
func (op *outcomePanel) offered() bool {
	m := &op.doubts
	if p, rig := op.w.board.Plan(), op.w.board.Rig(); m.plan != p || m.rig != rig {
		m.plan, m.rig, m.any = p, rig, op.seen() || doubt.InDoubt(p, rig)
	}
	return m.any
}

// shown reports whether the panel is to be seen.
func (op *outcomePanel) shown() bool { return op.pane.Shown() && op.w.printer.now == nil }

// watch reckons anew what is shown, or gives up what is not.
func (op *outcomePanel) watch() {
	if !op.shown() {
		op.closeEntry()
		op.giveUp()
		return
	}
	key := op.key(op.w.board.Plan())
	if key == op.asked {
		return
	}
	op.giveUp()
	ctx, stop := context.WithCancel(context.Background())
	op.asked, op.stop = key, stop
	op.step(ctx, key, 0, doubt.Request{})
}

// key is of what the outcome of a plan is.
func (op *outcomePanel) key(p *plan.Plan) outcomeKey {
	return outcomeKey{rigTold{p, op.w.board.Rig(), op.w.words()}, op.typedOnly}
}

// giveUp has the worker leave what it reckons. What is not whole is asked for again.
func (op *outcomePanel) giveUp() {
	if op.stop != nil {
		op.stop()
		op.stop, op.asked = nil, outcomeKey{}
	}
}

// step reckons with the points of a step, shows it, and goes on to the next with the
// request of chances that the first made.
func (op *outcomePanel) step(ctx context.Context, key outcomeKey, n int, q doubt.Request) {
	was := op.got
	op.worker.Do("outcome", func() func() {
		o := was.told(key)
		if o == nil {
			o = op.how.reckon(ctx, key, n, q)
		}
		if o == nil {
			return nil
		}
		return func() {
			if ctx.Err() != nil {
				return
			}
			op.got = o
			if o.more {
				op.step(ctx, key, n+1, o.request)
			} else {
				op.stop()
				op.stop = nil
			}
			op.w.refresh()
		}
	})
}

// told is the same outcome in other words, if it is whole; nil: it is of something else.
func (o *outcome) told(key outcomeKey) *outcome {
	if o == nil || o.more || o.outcomeKey != (outcomeKey{rigTold{key.plan, key.rig, o.words}, key.typed}) {
		return nil
	}
	n := &outcome{outcomeKey: key, nothing: o.nothing}
	switch {
	case o.report != nil:
		if n.report = o.report.In(key.words); n.report == nil {
			return nil
		}
		n.putPast(key.words)
	case o.chances != nil:
		n.chances = o.chances.In(key.words)
		n.putAhead(key.words)
	}
	return n
}

// reckon is the answer with the points of a step; nil: it was given up.
func (r *reckoning) reckon(ctx context.Context, key outcomeKey, step int, q doubt.Request) *outcome {
	workers := max(1, runtime.NumCPU()-1) // one is left to draw
	o := &outcome{outcomeKey: key}
	if seenOf(key.plan, key.rig) {
		o.more = step+1 < len(r.past)
		a, err := r.report(key.words, key.plan, key.rig, doubt.Request{Context: ctx, Per: r.past[step], Seed: report.Seed, Workers: workers})
		if err != nil {
			return nil
		}
		o.report, o.more = a, o.more && a.Found != nil
		o.putPast(key.words)
		return o
	}
	if step == 0 {
		var err error
		if q, err = report.Request(ctx, key.plan, key.rig, key.typed); err != nil {
			return nil
		}
		q.Workers = workers
	}
	q.Per, o.more, o.request = r.ahead[step], step+1 < len(r.ahead), q
	a, err := report.NewChances(key.words, key.plan, key.rig, q)
	switch {
	case errors.Is(err, doubt.ErrNoDoubt):
		o.nothing, o.more = true, false
		return o
	case err != nil:
		return nil
	}
	o.chances, o.more = a, o.more && a.Found != nil
	o.putAhead(key.words)
	return o
}

// putPast puts what may have happened into sections.
func (o *outcome) putPast(w *words.Words) {
	a := o.report
	if a.Found == nil {
		o.cautions = []string{a.NoAnswer()}
		return
	}
	o.cautions, o.head = a.Cautions(), []string{w.Label("outcome-pins", part.Count("count", len(a.Found.Pins)), part.Count("weigh", a.Weigh())), a.Agree(), a.Head(), a.How()}
	add := func(id string, s report.Section, open bool, hint string) {
		o.sections = append(o.sections, outcomeSection{Section: s, id: id, open: open, hint: hint})
	}
	if a.Answered() {
		o.listed = a.Listed()
		add("candidates", a.Candidates(), true, w.Label("outcome-hint"))
	}
	if !o.more { // nothing is tried yet
		add("changes", a.Changes(), true, w.Label("outcome-compare"))
	}
	if a.Answered() {
		add("sensitive", a.Sensitivity(), false, "")
	}
	add("facts", a.Evidence(), false, "")
	add("priors", priorRows(a, w), false, w.Label("outcome-prior-how"))
	add("assumed", a.Assumptions(), false, "")
	add("limits", report.Section{Title: w.Label("report-limits"), Lines: []string{w.Label("recon-limits")}}, true, "")
}

// fresh is what was found of the plan shown; nil: nothing yet, or of the plan before.
func (op *outcomePanel) fresh() *outcome {
	if o := op.got; o != nil && o.outcomeKey == op.key(op.w.board.Shown()) {
		return o
	}
	return nil
}

// pick draws the moment of a listed candidate: the part is selected and brought to
// sight, the strip stands where the casualty was: of a pull that was followed, in the middle
// of where it may have been.
func (op *outcomePanel) pick(c doubt.Candidate) {
	if op.same(&c) {
		op.picked = nil
		return
	}
	op.picked = &c
	o := op.fresh()
	if o == nil {
		return
	}
	for i := range o.listed {
		if op.same(&o.listed[i]) {
			op.w.travel.show(o.report.PlaceM(i))
		}
	}
	op.find(c.Part)
}

// find selects what a part belongs to and brings it to sight.
func (op *outcomePanel) find(part string) {
	if thing := op.thingOf(part); thing != "" {
		op.w.board.Select(thing)
		op.w.reveal(thing)
	}
}

// thingOf is the thing that a candidate's part belongs to.
func (op *outcomePanel) thingOf(id string) plan.ID {
	if p, ok := op.w.answer().Part(id); ok {
		return p.Thing
	}
	return plan.ID(id)
}

// same reports whether a candidate is what was picked, whatever is found of it.
func (op *outcomePanel) same(c *doubt.Candidate) bool {
	p := op.picked
	return p != nil && p.Part == c.Part && p.Below == c.Below && p.Way == c.Way && p.Jerk == c.Jerk
}

// mark adds the moment of the candidate that was picked to what lies over the picture:
// its part, and the load on it then.
func (op *outcomePanel) mark(o *draw.Overlay) *draw.Overlay {
	got := op.fresh()
	if got == nil || op.picked == nil || !op.shown() {
		return o
	}
	for i, c := range got.listed {
		if !op.same(&c) || c.Part == "" {
			continue
		}
		thing := op.thingOf(c.Part)
		at, ok := op.w.placeOf(thing)
		tag, _ := got.report.Moment(i)
		if !ok || tag == "" {
			return o
		}
		marked := *o
		if marked.HoverPart == "" {
			marked.HoverPart = op.w.board.PartOf(thing)
		}
		marked.Texts = append(slices.Clone(o.Texts), draw.FreeText{At: at, Text: tag})
		return &marked
	}
	return o
}
