package panel

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// Grip is how wide a divider is to the pointer, logical pixels.
const Grip = 7

// Divider is the edge between two panels, to be dragged.
type Divider struct {
	widget.BaseWidget
	host    Host
	upright bool // it lies between left and right
	line    *canvas.Rectangle
	Drag    func(to fyne.Position) // it is dragged to a place of its parent
	LetGo   func()                 // it was let go
	Reset   func()                 // two clicks: the panels get back the room they would have by themselves
}

var (
	_ fyne.Draggable      = (*Divider)(nil)
	_ fyne.DoubleTappable = (*Divider)(nil)
	_ desktop.Hoverable   = (*Divider)(nil)
	_ desktop.Cursorable  = (*Divider)(nil)
)

// NewDivider is a divider of a window; upright: between left and right.
func NewDivider(host Host, upright bool) *Divider {
	d := &Divider{host: host, upright: upright, line: canvas.NewRectangle(color.Transparent)}
	d.ExtendBaseWidget(d)
	return d
}

// Dragged implements fyne.Draggable.
func (d *Divider) Dragged(e *fyne.DragEvent) { d.Drag(d.Position().Add(e.Position)) }

// DragEnd implements fyne.Draggable.
func (d *Divider) DragEnd() { d.LetGo() }

// DoubleTapped implements fyne.DoubleTappable.
func (d *Divider) DoubleTapped(*fyne.PointEvent) { d.Reset() }

// MouseIn implements desktop.Hoverable.
func (d *Divider) MouseIn(*desktop.MouseEvent) { d.show(d.host.Style().Shades.Pick) }

// MouseMoved implements desktop.Hoverable.
func (d *Divider) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements desktop.Hoverable.
func (d *Divider) MouseOut() { d.show(color.Transparent) }

func (d *Divider) show(c color.Color) {
	d.line.FillColor = c
	d.line.Refresh()
}

// Cursor implements desktop.Cursorable.
func (d *Divider) Cursor() desktop.Cursor {
	if d.upright {
		return desktop.HResizeCursor
	}
	return desktop.VResizeCursor
}

// MinSize implements fyne.CanvasObject.
func (d *Divider) MinSize() fyne.Size { return fyne.NewSize(Grip, Grip) }

// CreateRenderer implements fyne.Widget: the line is 2 wide in the middle.
func (d *Divider) CreateRenderer() fyne.WidgetRenderer {
	const before, after = (Grip - 2) / 2, Grip - 2 - (Grip-2)/2
	in := layout.NewCustomPaddedLayout(before, after, 0, 0)
	if d.upright {
		in = layout.NewCustomPaddedLayout(0, 0, before, after)
	}
	return widget.NewSimpleRenderer(container.New(in, d.line))
}
