package window

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// grip is how wide a divider is to the pointer, logical pixels.
const grip = 7

// divider is the edge between two panels, to be dragged.
type divider struct {
	widget.BaseWidget
	host    Host
	upright bool // it lies between left and right
	line    *canvas.Rectangle
	drag    func(to fyne.Position) // it is dragged to a place of its parent
	let     func()                 // it was let go
	reset   func()                 // two clicks: the panels get back the room they would have by themselves
}

var (
	_ fyne.Draggable      = (*divider)(nil)
	_ fyne.DoubleTappable = (*divider)(nil)
	_ desktop.Hoverable   = (*divider)(nil)
	_ desktop.Cursorable  = (*divider)(nil)
)

// newDivider is a divider of a window; upright: between left and right.
func newDivider(host Host, upright bool) *divider {
	d := &divider{host: host, upright: upright, line: canvas.NewRectangle(color.Transparent)}
	d.ExtendBaseWidget(d)
	return d
}

// Dragged implements fyne.Draggable.
func (d *divider) Dragged(e *fyne.DragEvent) { d.drag(d.Position().Add(e.Position)) }

// DragEnd implements fyne.Draggable.
func (d *divider) DragEnd() { d.let() }

// DoubleTapped implements fyne.DoubleTappable.
func (d *divider) DoubleTapped(*fyne.PointEvent) { d.reset() }

// MouseIn implements desktop.Hoverable.
func (d *divider) MouseIn(*desktop.MouseEvent) { d.show(d.host.Style().Shades.Pick) }

// MouseMoved implements desktop.Hoverable.
func (d *divider) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (d *divider) MouseOut() { d.show(color.Transparent) }

func (d *divider) show(c color.Color) {
	d.line.FillColor = c
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

// CreateRenderer implements fyne.Widget: the line is 2 wide in the middle.
func (d *divider) CreateRenderer() fyne.WidgetRenderer {
	const before, after = (grip - 2) / 2, grip - 2 - (grip-2)/2
	in := layout.NewCustomPaddedLayout(before, after, 0, 0)
	if d.upright {
		in = layout.NewCustomPaddedLayout(0, 0, before, after)
	}
	return widget.NewSimpleRenderer(container.New(in, d.line))
}
