package window

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"github.com/golang/geo/r2"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/canvas/panel"
	"kedge/solver"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
	"kedge/solver/travel"
)

// travelPanel is the strip under the board: the curve of the whole pull, what
// happens on the way, and the moment that the picture shows.
type travelPanel struct {
	w    *Window
	pane *panel.Pane
	atM  float64 // shown, metres along the way
	hand *panel.Slide
	fast float64 // how many times the winch's own speed it plays
	held *heldBody
	// moment is what the picture shows, solved once: pointing about changes nothing.
	moment struct {
		pull   *travel.Answer
		start  *plan.Plan
		atM    float64
		plan   *plan.Plan
		answer *solver.Assessment
		now    *solver.Assessment // for that moment alone
	}
	halt func() // ends playing; nil: it does not play
	tick func(do func()) (stop func())
}

const (
	stripHigh  = 96   // of the strip, logical pixels (ours)
	stripUnder = 560  // of the window: below, the board has the room (ours)
	keyStepM   = 0.25 // a key moves the casualty so far; with Shift a tenth of it (ours)
	playTick   = 50 * time.Millisecond
	usualSpeed = 0.05 // of the line, m/s, of a winch whose speed nobody entered (common practice: some 3 m/min under load)
)

// build gives the strip its keys and the hand.
func (tp *travelPanel) build() {
	if tp.tick = tp.w.opt.Tick; tp.tick == nil {
		tp.tick = tp.w.everyTick
	}
	tp.hand = panel.NewSlide(func(share float64) {
		tp.show(share * tp.w.board.Pull().LongM)
		tp.w.win.Canvas().Focus(tp.pane) // the arrow keys go on from there
	})
	tp.pane.Extra = []fyne.CanvasObject{tp.hand}
	tp.pane.Placed = func() {
		i := tp.pane.Find("track")
		if i < 0 {
			tp.hand.Hide()
			return
		}
		h := tp.pane.Hits[i]
		put(tp.hand, float32(h.X0), float32(h.Y0), float32(h.X1-h.X0), float32(h.Y1-h.Y0))
	}
	tp.pane.Keys = func(k fyne.KeyName) bool {
		step := keyStepM
		if panel.ShiftHeld() {
			step /= 10
		}
		switch k {
		case fyne.KeyLeft:
			tp.show(tp.shown() - step)
		case fyne.KeyRight:
			tp.show(tp.shown() + step)
		case fyne.KeyHome:
			tp.show(0)
		case fyne.KeyEnd:
			tp.show(math.Inf(1))
		default:
			return false
		}
		return true
	}
}

// visible reports whether the strip has room; it keeps it while there is no pull,
// so that the board does not move under the hand when there is one.
func (tp *travelPanel) visible() bool { return tp.w.shell.size.Height >= stripUnder }

// shown is the moment that the picture shows: of what was followed.
func (tp *travelPanel) shown() float64 { return min(tp.atM, tp.w.board.Pull().EndM) }

// show shows another moment.
func (tp *travelPanel) show(m float64) {
	tp.atM = max(0, min(m, tp.w.board.Pull().EndM))
	tp.w.refresh()
}

// now is the answer at the moment shown of a pull that starts with that plan and rig; nil
// if nothing is pulled along.
func (tp *travelPanel) now(start *plan.Plan, rig plan.ID) *solver.Assessment {
	m, pull := tp.shown(), tp.w.board.Pull()
	if m <= 0 {
		if len(pull.Moments) > 1 {
			return pull.Moments[0].Assessment
		}
		return nil
	}
	if t := &tp.moment; t.pull != pull || t.start != start || t.atM != m {
		t.pull, t.start, t.atM = pull, start, m
		t.plan, t.answer, t.now = pull.Shown(start, rig, m)
	}
	return tp.moment.now
}

// picture has a scene show the moment: the casualty there, lines as they lie there,
// loads and zones of the whole pull.
func (tp *travelPanel) picture(s *draw.Scene) {
	s.Now = tp.now(s.Plan, s.Rig)
	start := s.Plan
	if tp.shown() <= 0 {
		return
	}
	s.Plan, s.Answer = tp.moment.plan, tp.moment.answer
	if v := solver.CasualtyOf(start, s.Rig); v != nil && s.Overlay != nil && s.Overlay.Ghost == nil {
		o := *s.Overlay
		o.Ghost = &draw.Ghost{Vehicle: v, Label: tp.w.label("travel-start")}
		s.Overlay = &o
	}
}

// heldBody is the casualty taken hold of where it is shown: where it is along the way
// that it takes, wayParts of that apart, how long that is, and how far the hand is from
// its middle.
type heldBody struct {
	trace [wayParts + 1]plan.Point
	endM  float64
	aside plan.Point
}

// at is how far along the way one of its places is, metres.
func (h *heldBody) at(i int) float64 { return h.endM * float64(i) / wayParts }

// take takes hold of the casualty where it is shown on its way, if a place lies on
// it; where it is drawn it is the board's.
func (tp *travelPanel) take(at plan.Point) bool {
	m := tp.shown()
	p, rig := tp.w.board.Shown(), tp.w.board.Rig()
	if m <= 0 || tp.w.board.Tool() != board.ToolSelect {
		return false
	}
	trace, known := travel.Trace(p, rig)
	if !known {
		return false
	}
	v := solver.CasualtyOf(travel.At(p, rig, m), rig)
	if corners := v.Corners(); !terrain.Inside(corners[:], at) {
		return false
	}
	h := &heldBody{endM: tp.w.board.Pull().EndM, aside: plan.Point{X: at.X - v.At.X, Y: at.Y - v.At.Y}}
	for i := range h.trace {
		h.trace[i] = trace(h.at(i))
	}
	tp.held = h
	return true
}

// wayParts is how finely the place of a hand on the way is sought. (ours)
const wayParts = 400

// follow moves the casualty that is held to the place of its way nearest to the hand.
func (tp *travelPanel) follow(at plan.Point) bool {
	h := tp.held
	if h == nil {
		return false
	}
	at = at.Plus(-h.aside.X, -h.aside.Y)
	best, near := 0.0, math.Inf(1)
	for i, q := range h.trace {
		if d := q.Dist(at); d < near {
			best, near = h.at(i), d
		}
	}
	tp.show(best)
	return true
}

// letGo lets go of the casualty.
func (tp *travelPanel) letGo() bool {
	held := tp.held != nil
	tp.held = nil
	return held
}

// toggle plays the pull, or stops it; at its end it begins anew. fast is how many
// times the speed of the winch.
func (tp *travelPanel) toggle(fast float64) {
	if tp.halt != nil {
		tp.stop()
		tp.w.refresh()
		return
	}
	if tp.shown() >= tp.w.board.Pull().EndM {
		tp.atM = 0
	}
	tp.fast, tp.halt = fast, tp.tick(tp.step)
	tp.w.refresh()
}

// everyTick does something at each tick on the interface goroutine, until it is
// stopped.
func (w *Window) everyTick(do func()) (stop func()) {
	ticker, ended := time.NewTicker(playTick), make(chan struct{})
	go func() {
		for {
			select {
			case <-ended:
				return
			case <-ticker.C:
				w.onUI(do)
			}
		}
	}()
	return func() {
		ticker.Stop()
		close(ended)
	}
}

func (tp *travelPanel) stop() {
	if tp.halt != nil {
		tp.halt()
		tp.halt = nil
	}
}

// step is one tick of playing.
func (tp *travelPanel) step() {
	if tp.halt == nil {
		return
	}
	tp.show(tp.shown() + tp.speed()*tp.fast*playTick.Seconds())
	if tp.shown() >= tp.w.board.Pull().EndM {
		tp.stop()
		tp.w.refresh()
	}
}

// speed is how fast the casualty moves at the winch's own speed, m/s.
func (tp *travelPanel) speed() float64 {
	v := usualSpeed
	if w := winchOf(tp.w.board.Shown(), tp.w.board.Rig()); w != nil && w.LoadSpeed > 0 {
		v = float64(w.LoadSpeed)
	}
	if r := tp.w.answer().MotionRatio; r > 0 {
		v /= r
	}
	return v
}

// winchOf is the first winch that a rig pulls with; nil: none.
func winchOf(p *plan.Plan, rig plan.ID) *plan.Winch {
	r, ok := p.Rig(rig)
	if !ok {
		return nil
	}
	for i := range r.Lines {
		if path := r.Lines[i].Path; len(path) > 0 && path[0].Point == plan.PortWinch {
			if v, ok := p.Vehicle(path[0].Thing); ok && v.Winch != nil && gear.HasMotor(v.Winch) {
				return v.Winch
			}
		}
	}
	return nil
}

// snap draws the strip.
func (tp *travelPanel) snap() func(*panel.Drawing) {
	if !tp.visible() {
		return func(*panel.Drawing) {}
	}
	if !(tp.w.board.Pull().EndM > 0) {
		none := tp.w.label("strip-none")
		return func(d *panel.Drawing) {
			d.Fill(0, 0, d.W, d.H, d.Shades.Panel)
			d.Text(d.Px(14), d.H/2, none, panel.Coloured(d.Mid(), d.Shades.Quiet), d.W-d.Px(28))
		}
	}
	c := draw.Curve{Pull: tp.w.board.Pull(), Words: tp.w.words(), Names: tp.w.words().Naming(tp.w.answer(), tp.w.names()), ShownM: tp.shown()}
	for _, id := range tp.w.board.Selection() {
		if p := tp.w.board.PartOf(id); p != "" {
			c.Parts = append(c.Parts, p)
		}
	}
	hauls := tp.w.words().Hauls(c.Pull.Hauls(tp.w.board.Shown(), tp.w.board.Rig()), c.Names)
	word, four := tp.w.label("strip-play"), "4×"
	if tp.halt != nil {
		word = tp.w.label("strip-pause")
	}
	at := tp.w.label("strip-shown", part.Length("at", c.ShownM), part.Length("long", c.Pull.LongM))
	return func(d *panel.Drawing) {
		d.Fill(0, 0, d.W, d.H, d.Shades.Panel)
		left := d.Px(8)
		y := d.Px(6)
		for _, b := range [...]struct {
			id, word string
			fast     float64
		}{{"play", word, 1}, {"play-4", word + " " + four, 4}} {
			d.Button(left, y, b.id, b.word, false, func() { tp.toggle(b.fast) }, "")
			y += d.ButtonHigh() + d.Px(4)
		}
		d.Text(left, y+d.Px(8), at, d.Small(), d.Px(130))
		c.Note = hauls
		tp.plot(d, left+d.Px(136), &c)
	}
}

// plot draws the curve from x on, to be pressed.
func (tp *travelPanel) plot(d *panel.Drawing, x float64, c *draw.Curve) {
	c.Text, c.Ink, c.Quiet, c.Paper = d.Small().Size, d.Shades.Ink, d.Shades.Quiet, d.Shades.Panel
	plot := draw.DrawCurve(d.Pen, r2.RectFromPoints(r2.Point{X: x, Y: d.Px(4)}, r2.Point{X: d.W - d.Px(8), Y: d.H - d.Px(4)}), c)
	d.Hit(panel.Hit{ID: "track", X0: plot.X0, Y0: plot.Top, X1: plot.X1, Y1: d.H, Idle: true})
	f := plot.Worst
	if f.IsEmpty() {
		return
	}
	d.Hit(panel.Hit{ID: "worst", X0: f.X.Lo, Y0: 0, X1: f.X.Hi, Y1: plot.Top, Press: func() { tp.show(plot.WorstM) }})
	if d.Hover == "worst" {
		d.Fill(f.X.Lo, plot.Top-1, f.X.Hi-f.X.Lo, 1, d.Shades.Ink)
	}
}
