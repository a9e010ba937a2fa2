package window

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Dividers by the name they are kept under in the preferences: between board
// and side, below Details, below Findings. The share of each is that of the
// first of the two panels, but for the side its own.
const (
	dividerSide     = "side"
	dividerDetails  = "details"
	dividerFindings = "findings"
)

// grip is how wide a divider is to the pointer, logical pixels.
const grip = 7

// Least a panel of the side is high, and the side is wide, at desk. (ours)
const (
	panelLeast = 70
	sideLeast  = 300
)

// divider is the edge between two panels, to be dragged. Two clicks on it give
// the panels back the room they would have by themselves.
type divider struct {
	widget.BaseWidget
	w       *Window
	name    string
	upright bool // it lies between left and right
	line    *canvas.Rectangle
	over    bool
}

var (
	_ fyne.Draggable      = (*divider)(nil)
	_ fyne.DoubleTappable = (*divider)(nil)
	_ desktop.Hoverable   = (*divider)(nil)
	_ desktop.Cursorable  = (*divider)(nil)
)

func newDivider(w *Window, name string, upright bool) *divider {
	d := &divider{w: w, name: name, upright: upright, line: canvas.NewRectangle(color.Transparent)}
	d.ExtendBaseWidget(d)
	return d
}

// share is what was chosen for a divider, 0 if nothing was.
func (w *Window) share(name string) float32 { return float32(w.prefs.Panels[name]) }

// setShare keeps a choice; 0 takes it back.
func (w *Window) setShare(name string, share float32) {
	next := map[string]float64{}
	for k, v := range w.prefs.Panels {
		next[k] = v
	}
	delete(next, name)
	if share > 0 {
		next[name] = float64(min(share, 1))
	}
	w.prefs.Panels = next
}

// Dragged implements fyne.Draggable.
func (d *divider) Dragged(e *fyne.DragEvent) {
	w := d.w
	size, k := w.shell.size, float32(w.textScale())
	at := d.Position().Add(e.Position)
	switch d.name {
	case dividerSide:
		w.setShare(d.name, max(size.Width-at.X, sideLeast*k)/size.Width)
	case dividerDetails:
		top := w.detailsScroll.Position().Y
		if high := w.detailsScroll.Size().Height + w.findingsScroll.Size().Height + w.loadsScroll.Size().Height; high > 0 {
			w.setShare(d.name, max(at.Y-top, panelLeast*k)/high)
		}
	case dividerFindings:
		top := w.findingsScroll.Position().Y
		if high := w.findingsScroll.Size().Height + w.loadsScroll.Size().Height; high > 0 {
			w.setShare(d.name, max(at.Y-top, panelLeast*k)/high)
		}
	}
	w.refresh()
}

// DragEnd implements fyne.Draggable.
func (d *divider) DragEnd() { d.w.keepPreferences() }

// DoubleTapped implements fyne.DoubleTappable.
func (d *divider) DoubleTapped(*fyne.PointEvent) {
	d.w.setShare(d.name, 0)
	d.w.keepPreferences()
	d.w.refresh()
}

// MouseIn implements desktop.Hoverable.
func (d *divider) MouseIn(*desktop.MouseEvent) { d.show(true) }

// MouseMoved implements desktop.Hoverable.
func (d *divider) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (d *divider) MouseOut() { d.show(false) }

func (d *divider) show(on bool) {
	d.over = on
	d.line.FillColor = color.Transparent
	if on {
		d.line.FillColor = d.w.shades.Pick
	}
	d.line.Refresh()
}

// Cursor implements desktop.Cursorable.
func (d *divider) Cursor() desktop.Cursor {
	if d.upright {
		return desktop.HResizeCursor
	}
	return desktop.VResizeCursor
}

// MinSize implements fyne.CanvasObject.
func (d *divider) MinSize() fyne.Size { return fyne.NewSize(grip, grip) }

// CreateRenderer implements fyne.Widget.
func (d *divider) CreateRenderer() fyne.WidgetRenderer { return &dividerRenderer{d} }

type dividerRenderer struct{ d *divider }

func (r *dividerRenderer) Destroy() {}
func (r *dividerRenderer) Layout(s fyne.Size) {
	if r.d.upright {
		r.d.line.Move(fyne.NewPos(s.Width/2-1, 0))
		r.d.line.Resize(fyne.NewSize(2, s.Height))
		return
	}
	r.d.line.Move(fyne.NewPos(0, s.Height/2-1))
	r.d.line.Resize(fyne.NewSize(s.Width, 2))
}
func (r *dividerRenderer) MinSize() fyne.Size           { return r.d.MinSize() }
func (r *dividerRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.d.line} }
func (r *dividerRenderer) Refresh()                     { r.d.line.Refresh() }

// sideWidth is how wide the side is in a window that has room for all of it.
func (w *Window) sideWidth() float32 {
	k := float32(w.textScale())
	side := sideWide * k
	if s := w.share(dividerSide); s > 0 {
		side = s * w.shell.size.Width
	}
	most := w.shell.size.Width - railWide*k - boardLeastW
	return max(min(side, most), sideLeast*k)
}

// split is how much of the room of two panels the first takes, as was chosen
// or, where nothing was, as it would by itself.
func (w *Window) split(name string, high, byItself float32) float32 {
	if s := w.share(name); s > 0 {
		byItself = s * high
	}
	least := min(panelLeast*float32(w.textScale()), high/3)
	return max(min(byItself, high-least), least)
}
