package window

import (
	"image"
	"image/color"
	"math"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"kedge/canvas/board"
	"kedge/canvas/draw"
	"kedge/canvas/panel"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// boardView shows the board and hands it what the person does.
type boardView struct {
	widget.BaseWidget
	win     *Window
	surface *panel.Surface
	boxes   []draw.LabelBox // labels of the picture shown

	pointer fyne.Position       // as it was last
	over    bool                // it is over the board
	down    desktop.MouseButton // held
	clicks  int
	asking  bool               // what a drag leads to is being assessed
	held    *board.PointerMove // the newest move since, nil if there was none
	last    struct {
		at   time.Time
		pos  fyne.Position
		down desktop.MouseButton
	}

	// of the worker alone:
	keep   draw.Labels
	ground *image.RGBA // what does not move
	groundKey
}

// groundKey tells whether the layer that does not move is still the same.
type groundKey struct {
	plan    *plan.Plan
	rig     plan.ID
	view    draw.View
	look    draw.Look
	hidden  [3]bool // grid, picture to trace, survey
	dragged []plan.ID
	scale   float64
	words   any
}

var (
	_ fyne.Focusable     = (*boardView)(nil)
	_ fyne.Tabbable      = (*boardView)(nil)
	_ fyne.Draggable     = (*boardView)(nil)
	_ fyne.Scrollable    = (*boardView)(nil)
	_ fyne.Shortcutable  = (*boardView)(nil)
	_ desktop.Mouseable  = (*boardView)(nil)
	_ desktop.Hoverable  = (*boardView)(nil)
	_ desktop.Cursorable = (*boardView)(nil)
)

// Two presses within this time and distance are a double click. (common
// practice of desktops: 400 ms, a few pixels)
const (
	doubleWithin   = 400 * time.Millisecond
	doubleAroundPx = 4
)

// wheelPx is what Fyne reports for one click of a wheel. (met in trials)
const wheelPx = 25

func newBoardView(w *Window) *boardView {
	v := &boardView{win: w}
	v.surface = panel.NewSurface(func() color.Color { return w.shades.Paper })
	v.ExtendBaseWidget(v)
	return v
}

// update draws the board again.
func (v *boardView) update() {
	size := v.Size()
	if size.Width < 2 || size.Height < 2 {
		return
	}
	b, scale := v.win.board, v.win.scale()
	still := b.Plan() // of the layer that does not move
	s := draw.Scene{
		Plan: b.Shown(), Rig: b.Rig(), Answer: b.Answer(), Words: b.Words(), View: b.View(),
		Look: v.win.look(), Show: v.win.show, Overlay: v.win.overlay(), Labels: &v.keep,
	}
	v.win.reading.preview(&s)
	v.win.travel.picture(&s)
	if s.Overlay == nil || len(s.Overlay.Dragged) == 0 {
		still = s.Plan
	}
	hold, hand := v.down != 0, b.LabelHand()
	w, h := int(float64(size.Width)*scale+0.5), int(float64(size.Height)*scale+0.5)
	v.win.worker.Do(panel.Urgent, func() func() {
		var dragged []plan.ID
		if s.Overlay != nil {
			dragged = s.Overlay.Dragged
		}
		key := groundKey{still, s.Rig, s.View, s.Look, [3]bool{s.Show.HideGrid, s.Show.HideUnderlay, s.Show.HideSurvey}, dragged, scale, s.Words}
		if v.ground == nil || v.ground.Rect.Dx() != w || v.ground.Rect.Dy() != h || !key.same(&v.groundKey) {
			if v.ground == nil || v.ground.Rect.Dx() != w || v.ground.Rect.Dy() != h {
				v.ground = image.NewRGBA(image.Rect(0, 0, w, h))
			}
			r := v.win.host.Raster(v.ground, scale)
			at := s
			at.Plan = still
			draw.DrawStatic(r, &at)
			_ = r.Flush() // what is not finite is left out; draw's tests look for it
			v.groundKey = key
		}
		img := v.surface.Take(w, h)
		copy(img.Pix, v.ground.Pix)
		v.keep.Hold, v.keep.Hand = hold, hand
		r := v.win.host.Raster(img, scale)
		draw.DrawMoving(r, &s)
		_ = r.Flush()
		boxes := slices.Clone(v.keep.Boxes)
		return func() {
			v.boxes = boxes
			v.surface.Show(img)
			v.win.board.SetLabelBoxes(boxes)
		}
	})
}

func (k *groundKey) same(o *groundKey) bool {
	return k.plan == o.plan && k.rig == o.rig && k.view == o.view && k.look == o.look && k.hidden == o.hidden &&
		k.scale == o.scale && k.words == o.words && slices.Equal(k.dragged, o.dragged)
}

// handle gives an event to the board.
func (v *boardView) handle(e board.Event) {
	v.letMove()
	v.win.board.Handle(e)
	v.win.refresh()
}

// drag gives a move with a button held to the board; while the one before is
// being assessed it waits, and only the newest is kept. So a drag on a large
// plan never holds up the window, and each frame is that of one place.
func (v *boardView) drag(e board.PointerMove) {
	if v.asking {
		v.held = &e
		return
	}
	v.handle(e)
}

// letMove gives the move that waits to the board, before anything else happens
// there.
func (v *boardView) letMove() {
	if e := v.held; e != nil {
		v.held = nil
		v.win.board.Handle(*e)
	}
}

// answerElsewhere has the worker assess what a drag shows, if the board does not
// know it yet; the window is drawn anew when it is known. False: there is
// nothing to wait for.
func (v *boardView) answerElsewhere() bool {
	if v.down == 0 {
		return false
	}
	p, rig := v.win.board.Unanswered()
	if p == nil {
		return false
	}
	v.asking = true
	v.win.worker.Do("answer", func() func() {
		a := travel.Of(p, rig)
		return func() {
			v.asking = false
			v.win.board.TakeAnswer(p, rig, a)
			v.win.refresh()
			if e := v.held; e != nil {
				v.held = nil
				v.drag(*e)
			}
		}
	})
	return true
}

// planAt is the place of the plan under a place of the board.
func (v *boardView) planAt(p fyne.Position) plan.Point {
	return v.win.board.View().ToPlan(float64(p.X), float64(p.Y))
}

// MouseDown implements desktop.Mouseable.
func (v *boardView) MouseDown(e *desktop.MouseEvent) {
	v.win.acted()
	v.win.details.closeEntry()
	v.win.focusBoard()
	now, l := v.win.opt.now(), &v.last
	if e.Button == l.down && now.Sub(l.at) < doubleWithin && math.Hypot(float64(e.Position.X-l.pos.X), float64(e.Position.Y-l.pos.Y)) < doubleAroundPx {
		v.clicks++
	} else {
		v.clicks = 1
	}
	l.at, l.pos, l.down = now, e.Position, e.Button
	v.down = e.Button
	if e.Button == desktop.MouseButtonPrimary && !v.win.board.OnHandle(v.planAt(e.Position)) && v.win.travel.take(v.planAt(e.Position)) {
		return
	}
	v.handle(board.PointerDown{X: float64(e.Position.X), Y: float64(e.Position.Y), Button: buttonOf(e.Button), Clicks: v.clicks, Mods: modsOf(e.Modifier)})
}

// MouseUp implements desktop.Mouseable.
func (v *boardView) MouseUp(e *desktop.MouseEvent) {
	if v.down == 0 {
		return
	}
	v.down = 0
	if v.win.travel.letGo() {
		return
	}
	v.handle(board.PointerUp{X: float64(e.Position.X), Y: float64(e.Position.Y), Mods: modsOf(e.Modifier)})
	if e.Button == desktop.MouseButtonSecondary && v.win.board.Tool() == board.ToolSelect {
		at := v.win.app.Driver().AbsolutePositionForObject(v)
		v.win.menus.show("board", v.win.menus.of("board"), at.Add(e.Position))
	}
}

// Dragged implements fyne.Draggable: the pointer moved with a button held.
func (v *boardView) Dragged(e *fyne.DragEvent) {
	if v.win.travel.follow(v.planAt(e.Position)) {
		return
	}
	if v.down != 0 {
		v.drag(board.PointerMove{X: float64(e.Position.X), Y: float64(e.Position.Y), Mods: modsHeld()})
	}
}

// DragEnd implements fyne.Draggable; MouseUp came before it, unless the button
// was let go where nobody heard of it.
func (v *boardView) DragEnd() {
	if v.down != 0 {
		v.down = 0
		v.handle(board.PointerUp{X: float64(v.last.pos.X), Y: float64(v.last.pos.Y), Mods: modsHeld()})
	}
}

// letGo gives up what the pointer holds, as if it had not been taken.
func (v *boardView) letGo() {
	if v.down == 0 {
		return
	}
	v.down, v.last.down, v.held = 0, 0, nil
	v.win.board.Handle(board.Key{Name: "Escape"})
}

// MouseIn implements desktop.Hoverable.
func (v *boardView) MouseIn(e *desktop.MouseEvent) { v.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (v *boardView) MouseMoved(e *desktop.MouseEvent) {
	v.pointer, v.over = e.Position, true
	v.win.pointed.part, v.win.pointed.finding = "", "" // the board knows what is under the pointer now
	v.handle(board.PointerMove{X: float64(e.Position.X), Y: float64(e.Position.Y), Mods: modsHeld()})
}

// MouseOut implements desktop.Hoverable.
func (v *boardView) MouseOut() {
	v.over = false
	if v.down == 0 {
		v.handle(board.PointerLeave{})
	}
}

// Scrolled implements fyne.Scrollable.
func (v *boardView) Scrolled(e *fyne.ScrollEvent) {
	v.handle(board.Wheel{X: float64(e.Position.X), Y: float64(e.Position.Y), DX: float64(e.Scrolled.DX), DY: float64(e.Scrolled.DY) / wheelPx, Mods: modsHeld()})
}

// Cursor implements desktop.Cursorable.
func (v *boardView) Cursor() desktop.Cursor {
	if v.win.board.Tool() != board.ToolSelect {
		return desktop.CrosshairCursor
	}
	return desktop.DefaultCursor
}

// FocusGained implements fyne.Focusable.
func (v *boardView) FocusGained() { v.win.refresh() }

// FocusLost implements fyne.Focusable.
func (v *boardView) FocusLost() { v.win.refresh() }

// AcceptsTab implements fyne.Tabbable: Tab walks the things on the board.
func (v *boardView) AcceptsTab() bool { return true }

// TypedKey implements fyne.Focusable.
func (v *boardView) TypedKey(e *fyne.KeyEvent) {
	v.win.acted()
	if v.win.commands.namedKey(e.Name) {
		return
	}
	if e.Name == fyne.KeyEscape && v.win.begin.escape() {
		v.win.refresh()
		return
	}
	if name, ok := keyNames[e.Name]; ok {
		v.handle(board.Key{Name: name, Mods: modsHeld()})
	}
}

// TypedRune implements fyne.Focusable.
func (v *boardView) TypedRune(r rune) {
	v.win.acted()
	if r == '?' && v.win.whys.here() {
		return
	}
	v.handle(board.Rune{R: r})
}

// TypedShortcut implements fyne.Shortcutable.
func (v *boardView) TypedShortcut(s fyne.Shortcut) { v.win.commands.shortcut(s) }

// MinSize implements fyne.CanvasObject.
func (v *boardView) MinSize() fyne.Size { return fyne.NewSize(200, 150) }

// Resize implements fyne.CanvasObject.
func (v *boardView) Resize(s fyne.Size) {
	if s == v.Size() {
		return
	}
	v.letGo() // the pointer lies over another place by now: what is held must not be dropped there
	v.BaseWidget.Resize(s)
	v.surface.Raster.Resize(s)
	v.win.board.Handle(board.Resize{W: float64(s.Width), H: float64(s.Height)})
	v.update()
}

// CreateRenderer implements fyne.Widget.
func (v *boardView) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(v.surface.Raster)
}

// keyNames are the keys the board knows, by the driver's names.
var keyNames = map[fyne.KeyName]string{
	fyne.KeyEscape: "Escape", fyne.KeyReturn: "Enter", fyne.KeyEnter: "Enter", fyne.KeyTab: "Tab",
	fyne.KeyBackspace: "Backspace", fyne.KeyDelete: "Delete", fyne.KeyHome: "Home", fyne.KeyEnd: "End",
	fyne.KeyLeft: "ArrowLeft", fyne.KeyRight: "ArrowRight", fyne.KeyUp: "ArrowUp", fyne.KeyDown: "ArrowDown",
	fyne.KeyPageUp: "PageUp", fyne.KeyPageDown: "PageDown",
}

func buttonOf(b desktop.MouseButton) board.Button {
	switch b {
	case desktop.MouseButtonTertiary:
		return board.ButtonMiddle
	case desktop.MouseButtonSecondary:
		return board.ButtonSecond
	}
	return board.ButtonFirst
}

func modsOf(m fyne.KeyModifier) board.Mods {
	return board.Mods{Shift: m&fyne.KeyModifierShift != 0, Ctrl: m&(fyne.KeyModifierControl|fyne.KeyModifierSuper) != 0, Alt: m&fyne.KeyModifierAlt != 0}
}

func modsHeld() board.Mods { return modsOf(panel.Held()) }
