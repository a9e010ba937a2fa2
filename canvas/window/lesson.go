package window

import (
	"slices"

	"kedge/canvas/board"
	"kedge/canvas/panel"
	"kedge/canvas/store"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// lessonPanel is the strip over the board with one step at a time of a first pull, on a
// plan of its own.
type lessonPanel struct {
	w    *Window
	pane *panel.Pane
	on   bool
	at   int        // the step, from 0
	done []bool     // steps that were seen done
	was  *plan.Plan // as the step began
}

// lessonLeast is how high the strip is before it is drawn, logical pixels.
const lessonLeast = 64

// lessonSteps say of each step whether it is done, by the plan and what is seen of it.
var lessonSteps = [...]func(*lessonPanel) bool{
	func(lp *lessonPanel) bool { return lp.w.board.Plan().Casualty() != nil && lp.blocks() > 0 },
	func(lp *lessonPanel) bool { return lp.w.board.Question() == nil && lp.w.answer().Move.Known },
	func(lp *lessonPanel) bool { return len(lp.w.whys.open) > 0 },
	func(lp *lessonPanel) bool { return stoodElsewhere(lp.was, lp.w.board.Plan()) },
	func(lp *lessonPanel) bool { return lp.w.travel.shown() > 0 },
	func(lp *lessonPanel) bool { return lp.outside(plan.RoleOperator) && lp.outside(plan.RoleSpotter) },
	func(lp *lessonPanel) bool { return lp.w.printer.now != nil },
}

func (lp *lessonPanel) blocks() int {
	r, ok := lp.w.board.Plan().Rig(lp.w.board.Rig())
	if !ok {
		return 0
	}
	return len(r.Blocks)
}

// stoodElsewhere reports whether a vehicle or an anchor stood elsewhere before.
func stoodElsewhere(was, now *plan.Plan) bool {
	return slices.ContainsFunc(now.Site.Vehicles, func(v plan.Vehicle) bool {
		before, ok := was.Vehicle(v.ID)
		return ok && (before.At != v.At || before.Bearing != v.Bearing)
	}) || slices.ContainsFunc(now.Site.Anchors, func(a plan.Anchor) bool {
		before, ok := was.Anchor(a.ID)
		return ok && before.At != a.At
	})
}

// outside reports whether somebody of a role stands in no zone, all of them drawn.
func (lp *lessonPanel) outside(role string) bool {
	return slices.ContainsFunc(lp.w.answer().People, func(q solver.PersonAt) bool {
		x, ok := lp.w.board.Plan().Person(q.Person)
		return ok && x.Role == role && q.Zoned && !q.Partly && len(q.Inside) == 0
	})
}

// begin begins the lesson on a bare sheet, a new plan without a file.
func (lp *lessonPanel) begin() {
	w := lp.w
	w.file.guard(func() {
		p := *board.Empty()
		p.Title = w.label("lesson-title")
		w.begin.off = false
		if w.file.begin(&p, "", store.Stamp{}) {
			lp.on, lp.done = true, make([]bool, len(lessonSteps))
			w.printer.close()
			lp.turn(0)
		}
	})
}

// turn turns to a step.
func (lp *lessonPanel) turn(to int) {
	lp.at, lp.was = to, lp.w.board.Plan()
	lp.w.refresh()
}

// leave ends the lesson; its plan stays as any other.
func (lp *lessonPanel) leave() {
	lp.on = false
	lp.w.focusBoard()
	lp.w.refresh()
}

// watch sees whether the step is done.
func (lp *lessonPanel) watch() {
	if lp.on && !lp.done[lp.at] {
		lp.done[lp.at] = lessonSteps[lp.at](lp)
	}
}

// arrange puts the strip, and returns where what is below it begins.
func (lp *lessonPanel) arrange(x, y, wide float32) float32 {
	if !lp.on {
		lp.pane.Hide()
		return y
	}
	high := max(lp.pane.Tall, lessonLeast*float32(lp.w.textScale()))
	put(lp.pane, x, y, wide, high)
	return y + high + gap
}

// snap draws the step: what to do, why, and whether it is done.
func (lp *lessonPanel) snap() func(*panel.Drawing) {
	if !lp.on {
		return func(*panel.Drawing) {}
	}
	w, step := lp.w, "lesson-"+itoa(lp.at+1)
	head := w.label("lesson-step", part.Text("step", itoa(lp.at+1)), part.Text("of", itoa(len(lessonSteps))), part.Text("title", w.label(step)))
	does, why, state, done := w.label(step+"-do"), w.label(step+"-why"), w.label("lesson-open"), lp.done[lp.at]
	if done {
		state = w.label("lesson-done")
	}
	at := lp.at
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.Px(2), d.Shades.Pick)
		right, y := d.W-d.Px(10), d.Px(8)
		button := func(id, word string, on bool, press func()) {
			right -= d.ButtonWide(word)
			d.Button(right, y, id, word, on, press, "")
			right -= d.Px(6)
		}
		button("leave", w.label("lesson-leave"), done && at == len(lessonSteps)-1, lp.leave)
		if at < len(lessonSteps)-1 {
			button("next", w.label("lesson-next"), done, func() { lp.turn(at + 1) })
		}
		if at > 0 {
			button("back", w.label("lesson-back"), false, func() { lp.turn(at - 1) })
		}
		mid, left := y+d.ButtonHigh()/2, d.Px(12)
		right -= panel.Width(state, d.Small()) + d.Px(8)
		d.Text(right, mid, state, d.Small(), 0)
		d.Text(left, mid, head, panel.Bold(d.Mid()), right-left-d.Px(8))
		y = d.Para(left, y+d.ButtonHigh()+d.Px(6), d.W-2*left, does, panel.Coloured(d.Mid(), d.Shades.Ink))
		d.Y = d.Para(left, y+d.Px(2), d.W-2*left, why, d.Small())
	}
}
