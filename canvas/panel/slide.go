package panel

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// Slide lies over a part of a pane that a hand moves along: it tells how far along
// its width it was pressed or dragged, 0 to 1.
type Slide struct {
	widget.BaseWidget
	moved func(share float64)
}

var (
	_ fyne.Draggable     = (*Slide)(nil)
	_ fyne.Tappable      = (*Slide)(nil)
	_ desktop.Cursorable = (*Slide)(nil)
)

// NewSlide is a slide that tells where it is moved to.
func NewSlide(moved func(share float64)) *Slide {
	s := &Slide{moved: moved}
	s.ExtendBaseWidget(s)
	return s
}

func (s *Slide) tell(at fyne.Position) {
	if w := s.Size().Width; w > 0 {
		s.moved(float64(min(max(at.X/w, 0), 1)))
	}
}

// Tapped implements fyne.Tappable.
func (s *Slide) Tapped(e *fyne.PointEvent) { s.tell(e.Position) }

// Dragged implements fyne.Draggable.
func (s *Slide) Dragged(e *fyne.DragEvent) { s.tell(e.Position) }

// DragEnd implements fyne.Draggable.
func (s *Slide) DragEnd() {}

// Cursor implements desktop.Cursorable.
func (s *Slide) Cursor() desktop.Cursor { return desktop.HResizeCursor }

// CreateRenderer implements fyne.Widget.
func (s *Slide) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}
