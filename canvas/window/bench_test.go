package window

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"kedge/canvas/board"
	"kedge/canvas/panel"
)

// idle is a worker that drops every job: what is left is what the interface
// goroutine does itself.
type idle struct{}

func (idle) Do(string, func() func()) {}
func (idle) Close()                   {}

// BenchmarkDragOnInterface is the interface goroutine's share of one move of a
// drag in the redirect; its budget is 1 ms.
func BenchmarkDragOnInterface(b *testing.B) {
	s := sitAt(b, 1440, 900, example(b, "redirect"))
	s.worker, s.opt.Record = idle{}, false
	dragAnchor(b, s)
}

// dragAnchor drags the first anchor to and fro.
func dragAnchor(b *testing.B, s *seat) {
	a := s.board.Plan().Site.Anchors[0].At
	p := s.at(a.X, a.Y)
	s.board.Handle(board.PointerDown{X: float64(p.X), Y: float64(p.Y)})
	s.view.down = desktop.MouseButtonPrimary
	i := 0
	for b.Loop() {
		i++
		d := &fyne.DragEvent{}
		d.Position = s.at(a.X+float64(i%40)*0.05, a.Y)
		s.view.asking = false // as when the answer has come
		s.view.Dragged(d)
	}
}

// BenchmarkHoverOnInterface is the same with no button held, and on a sheet that was just
// begun, where most answers are missing.
func BenchmarkHoverOnInterface(b *testing.B) {
	b.Run("rigged", func(b *testing.B) { hover(b, sitAt(b, 1440, 900, example(b, "redirect"))) })
	b.Run("begun", func(b *testing.B) {
		s := sitAt(b, 1440, 900, "")
		s.commands.run("begin.redirect")
		s.refresh()
		hover(b, s)
	})
}

// hover moves the pointer to and fro over the ground.
func hover(b *testing.B, s *seat) {
	s.worker, s.opt.Record = idle{}, false
	i := 0
	for b.Loop() {
		i++
		e := &desktop.MouseEvent{}
		e.Position = s.at(10+float64(i%40)*0.2, 12)
		s.view.MouseMoved(e)
	}
}

// BenchmarkDragInline is the same with all drawing: what a frame costs the
// worker, panels included.
func BenchmarkDragInline(b *testing.B) {
	s := sitAt(b, 1440, 900, example(b, "redirect"))
	s.opt.Record = false
	dragAnchor(b, s)
}

// only does the jobs of some names, inline.
type only []string

func (o only) Do(name string, draw func() func()) {
	if slices.Contains(o, name) {
		inline{}.Do(name, draw)
	}
}
func (only) Close() {}

// BenchmarkDragPicture is the board's picture alone while an anchor with the
// whole rig on it is dragged; the frame's budget is 8 ms. The answer for the whole pull
// is found before it, and the strip follows with both and its own drawing.
func BenchmarkDragPicture(b *testing.B) {
	for _, does := range []only{{"answer"}, {"answer", panel.Urgent}, {"answer", panel.Urgent, "travel"}} {
		b.Run(strings.Join(does, " "), func(b *testing.B) {
			s := sitAt(b, 1440, 900, example(b, "redirect"))
			s.worker, s.opt.Record = does, false
			dragAnchor(b, s)
		})
	}
}
