package window

import (
	"image"
	"image/color"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"kedge/canvas/pen"
)

// Surface is a picture on the screen that the worker draws anew: it takes the
// spare of two buffers, and what was shown goes back on the interface goroutine.
type Surface struct {
	Raster *canvas.Raster
	Front  *image.RGBA // what is shown; nil: nothing yet
	mu     sync.Mutex
	free   []*image.RGBA
}

// NewSurface is a surface that has the colour of ground until something is
// drawn.
func NewSurface(ground func() color.Color) *Surface {
	s := &Surface{}
	s.Raster = canvas.NewRaster(func(int, int) image.Image {
		if s.Front == nil {
			return image.NewUniform(ground())
		}
		return s.Front
	})
	return s
}

// Take is a picture of a size that nobody shows, in pixels.
func (s *Surface) Take(w, h int) *image.RGBA {
	s.mu.Lock()
	defer s.mu.Unlock()
	for n := len(s.free); n > 0; n = len(s.free) {
		img := s.free[n-1]
		s.free = s.free[:n-1]
		if img.Rect.Dx() == w && img.Rect.Dy() == h {
			return img
		}
	}
	return image.NewRGBA(image.Rect(0, 0, w, h))
}

// Show shows a picture that was taken.
func (s *Surface) Show(img *image.RGBA) {
	s.mu.Lock()
	if s.Front != nil && len(s.free) < 2 {
		s.free = append(s.free, s.Front)
	}
	s.mu.Unlock()
	s.Front = img
	s.Raster.Refresh()
}

// Style is how panes are drawn.
type Style struct {
	Shades shades
	Text   float64 // scale of text and what goes with it, 1 at desk
	Pixels float64 // of the screen that a logical one has
	Record bool    // keep what panes show as texts, for tests
}

// Host is the window that panes lie in.
type Host interface {
	Style() Style
	// Do has the worker draw; see [Worker].
	Do(name string, draw func() (show func()))
	// Raster is the worker's pen, on a picture.
	Raster(img *image.RGBA, scale float64) *pen.Raster
	// Say puts a sentence into the status line.
	Say(string)
	// Pressed comes before what a press does: what is typed elsewhere is taken.
	Pressed()
	// Refresh draws everything anew.
	Refresh()
	// Grown makes room for a pane that has another height.
	Grown(*pane)
	// Key does what a key does that a pane has no use for; by is 1 or -1 where
	// the key goes on from the last or before the first thing to press.
	Key(name fyne.KeyName, by int)
	// Shortcut does what keys held together do.
	Shortcut(fyne.Shortcut)
}

// pane is a panel drawn with a pen.
type pane struct {
	widget.BaseWidget
	host  Host
	name  string
	snap  func() func(*ink) // on the interface goroutine: what the worker draws
	grows bool              // it is as high as what is in it
	most  func() float64    // bounds the size of its text; nil: nothing does

	surface *Surface
	made    uint64 // digest of the picture made last; the worker's own
	hits    []hit
	tall    float32
	own     bool                // it is none of the window's own, and draws itself anew
	extra   []fyne.CanvasObject // over the picture: the entry of a field
	placed  func()              // after a new picture: put extra in its place

	focused      bool
	focus, hover string
	reveal       func(y0, y1 float32)    // scrolls so that a stripe is seen
	drawnNow     func()                  // after every new picture
	onTall       func()                  // it has grown or shrunk
	escape       func()                  // what Escape does; nil: back to the board
	keys         func(fyne.KeyName) bool // takes a key before the panel does; nil: none
	drawn        pen.Recorder            // what the last picture shows, for tests
}

var (
	_ fyne.Focusable         = (*pane)(nil)
	_ fyne.Tabbable          = (*pane)(nil)
	_ fyne.Tappable          = (*pane)(nil)
	_ fyne.SecondaryTappable = (*pane)(nil)
	_ fyne.Shortcutable      = (*pane)(nil)
	_ desktop.Hoverable      = (*pane)(nil)
	_ desktop.Cursorable     = (*pane)(nil)
)

// newPane is a pane of a window. snap is called on the interface goroutine and
// returns what the worker draws, from values that do not change.
func newPane(host Host, name string, grows bool, snap func() func(*ink)) *pane {
	p := &pane{host: host, name: name, grows: grows, snap: snap}
	p.surface = NewSurface(func() color.Color { return color.Transparent })
	p.ExtendBaseWidget(p)
	return p
}

// update draws the panel again.
func (p *pane) update() {
	size := p.Size()
	if size.Width < 2 || size.Height < 2 && !p.grows || !p.Visible() {
		return
	}
	style, draw := p.host.Style(), p.snap()
	if p.most != nil {
		style.Text = min(style.Text, p.most())
	}
	on := ink{c: style.Shades, k: style.Text, w: float64(size.Width), hover: p.hover}
	if p.focused {
		on.focus = p.focus
	}
	if !p.grows {
		on.h = float64(size.Height)
	}
	p.host.Do(p.name, func() func() {
		first, again, sum := on, on, newTally()
		first.Pen = sum
		var record *pen.Recorder
		if style.Record {
			record = &pen.Recorder{}
			first.Pen = both{sum, record}
		}
		draw(&first)
		tall := first.h
		if p.grows {
			tall = max(first.y+first.px(8), 1)
		}
		w, h := int(float64(size.Width)*style.Pixels+0.5), int(tall*style.Pixels+0.5)
		sum.u(uint64(w)<<32 + uint64(h))
		var img *image.RGBA
		// What was made last, not what was shown when the job was given: of two
		// jobs given at once the second must not be taken for the first.
		if made := sum.h.Sum64(); made != p.made {
			p.made = made
			img = p.surface.Take(w, h)
			r := p.host.Raster(img, style.Pixels)
			r.Paper(style.Shades.Panel)
			again.Pen = r
			draw(&again)
			_ = r.Flush() // a text with a coordinate that is not finite is left out; tests look for it
		}
		return func() { p.show(img, first.hits, float32(tall), record) }
	})
}

func (p *pane) show(img *image.RGBA, hits []hit, tall float32, record *pen.Recorder) {
	p.hits = hits
	if record != nil {
		p.drawn = *record
	}
	if img != nil {
		p.surface.Show(img)
	}
	if p.grows && tall != p.tall {
		p.tall = tall
		p.surface.Raster.Resize(fyne.NewSize(p.Size().Width, tall))
		p.host.Grown(p)
		if p.onTall != nil {
			p.onTall()
		}
	}
	if p.placed != nil {
		p.placed()
	}
	if p.focused && len(hits) > 0 && p.find(p.focus) < 0 { // it was empty when it got the keys
		p.step(1)
	}
	if p.drawnNow != nil {
		p.drawnNow()
	}
}

// at is the hit under a place, -1 if there is none; the last drawn lies on
// top.
func (p *pane) at(pos fyne.Position) int {
	for i := len(p.hits) - 1; i >= 0; i-- {
		if p.hits[i].has(float64(pos.X), float64(pos.Y)) {
			return i
		}
	}
	return -1
}

func (p *pane) find(id string) int {
	for i := range p.hits {
		if p.hits[i].id == id {
			return i
		}
	}
	return -1
}

// press does what a hit does, or says why not.
func (p *pane) press(i int) {
	var h hit
	if i >= 0 {
		h = p.hits[i]
	}
	p.host.Pressed()
	switch {
	case h.why != "":
		p.host.Say(h.why)
	case h.press != nil:
		h.press()
	}
	p.host.Refresh()
}

// pressSecond does what the other button does on a hit; false if that is
// nothing.
func (p *pane) pressSecond(i int) bool {
	if i < 0 || p.hits[i].second == nil {
		return false
	}
	p.hits[i].second()
	p.host.Refresh()
	return true
}

// Tapped implements fyne.Tappable.
func (p *pane) Tapped(e *fyne.PointEvent) { p.press(p.at(e.Position)) }

// TappedSecondary implements fyne.SecondaryTappable.
func (p *pane) TappedSecondary(e *fyne.PointEvent) { p.pressSecond(p.at(e.Position)) }

// MouseIn implements desktop.Hoverable.
func (p *pane) MouseIn(e *desktop.MouseEvent) { p.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (p *pane) MouseMoved(e *desktop.MouseEvent) {
	id := ""
	if i := p.at(e.Position); i >= 0 {
		id = p.hits[i].id
	}
	p.point(id)
}

// MouseOut implements desktop.Hoverable.
func (p *pane) MouseOut() { p.point("") }

func (p *pane) point(id string) {
	if id == p.hover {
		return
	}
	if i := p.find(p.hover); i >= 0 && p.hits[i].over != nil {
		p.hits[i].over(false)
	}
	p.hover = id
	if i := p.find(id); i >= 0 {
		if p.hits[i].over != nil {
			p.hits[i].over(true)
		}
		if p.hits[i].why != "" {
			p.host.Say(p.hits[i].why)
		}
	}
	p.anew()
}

// anew draws the window again, and this panel if it is none of the window's.
func (p *pane) anew() {
	p.host.Refresh()
	if p.own {
		p.update()
	}
}

// Cursor implements desktop.Cursorable.
func (p *pane) Cursor() desktop.Cursor {
	if i := p.find(p.hover); i >= 0 && p.hits[i].press != nil {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// FocusGained implements fyne.Focusable.
func (p *pane) FocusGained() {
	p.focused = true
	if p.find(p.focus) < 0 {
		p.step(1)
	}
	p.update()
}

// FocusLost implements fyne.Focusable.
func (p *pane) FocusLost() {
	p.focused = false
	p.update()
}

// AcceptsTab implements fyne.Tabbable.
func (p *pane) AcceptsTab() bool { return true }

// step moves the focus to the next hit that can be pressed; false at the end.
func (p *pane) step(by int) bool {
	i := p.find(p.focus)
	if i < 0 && by < 0 {
		i = len(p.hits)
	}
	for i += by; i >= 0 && i < len(p.hits); i += by {
		if p.hits[i].idle || p.hits[i].id == "" {
			continue
		}
		p.focus = p.hits[i].id
		if p.reveal != nil {
			p.reveal(float32(p.hits[i].y0), float32(p.hits[i].y1))
		}
		if p.hits[i].why != "" {
			p.host.Say(p.hits[i].why)
		}
		p.anew()
		return true
	}
	return false
}

// TypedKey implements fyne.Focusable.
func (p *pane) TypedKey(e *fyne.KeyEvent) {
	if p.keys != nil && p.keys(e.Name) {
		return
	}
	by := 1
	switch e.Name {
	case fyne.KeyTab:
		if ShiftHeld() {
			by = -1
		}
		if p.step(by) {
			return
		}
		if p.escape != nil { // in a question Tab goes round
			p.focus = ""
			p.step(by)
			return
		}
	case fyne.KeyDown, fyne.KeyRight:
		p.step(1)
		return
	case fyne.KeyUp, fyne.KeyLeft:
		p.step(-1)
		return
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		if i := p.find(p.focus); i < 0 || p.hits[i].press != nil || !p.pressSecond(i) {
			p.press(i)
		}
		return
	case fyne.KeyEscape:
		if p.escape != nil {
			p.escape()
			return
		}
	}
	p.host.Key(e.Name, by)
}

// ShiftHeld reports whether a Shift key is held down.
func ShiftHeld() bool { return Held()&fyne.KeyModifierShift != 0 }

// Held are the keys held down that change what others do.
func Held() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}

// TypedRune implements fyne.Focusable.
func (p *pane) TypedRune(r rune) {
	if r == '?' {
		p.pressSecond(p.find(p.focus))
	}
}

// TypedShortcut implements fyne.Shortcutable.
func (p *pane) TypedShortcut(s fyne.Shortcut) { p.host.Shortcut(s) }

// MinSize implements fyne.CanvasObject.
func (p *pane) MinSize() fyne.Size {
	if p.grows {
		return fyne.NewSize(1, p.tall)
	}
	return fyne.NewSize(1, 1)
}

// Resize implements fyne.CanvasObject.
func (p *pane) Resize(s fyne.Size) {
	if s == p.Size() {
		return
	}
	p.BaseWidget.Resize(s)
	p.update()
}

// CreateRenderer implements fyne.Widget.
func (p *pane) CreateRenderer() fyne.WidgetRenderer { return &paneRenderer{p} }

type paneRenderer struct{ p *pane }

func (r *paneRenderer) Destroy() {}
func (r *paneRenderer) Layout(s fyne.Size) {
	if r.p.grows && r.p.tall > 0 {
		s.Height = r.p.tall
	}
	r.p.surface.Raster.Resize(s)
}
func (r *paneRenderer) MinSize() fyne.Size { return r.p.MinSize() }
func (r *paneRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.p.surface.Raster}, r.p.extra...)
}
func (r *paneRenderer) Refresh() { r.p.surface.Raster.Refresh() }

// both gives what it is given to two pens.
type both struct {
	*tally
	rec *pen.Recorder
}

func (b both) Path(p *pen.Path, s *pen.Style) { b.tally.Path(p, s); b.rec.Path(p, s) }
func (b both) PushClip(p *pen.Path)           { b.tally.PushClip(p); b.rec.PushClip(p) }
func (b both) PopClip()                       { b.tally.PopClip(); b.rec.PopClip() }
func (b both) Text(x, y float64, s string, t *pen.TextStyle) {
	b.tally.Text(x, y, s, t)
	b.rec.Text(x, y, s, t)
}

// scrolled lays a pane that grows into a scroll, and has it reveal what gets the
// keys.
func scrolled(p *pane) *container.Scroll {
	s := container.NewVScroll(p)
	p.reveal = func(y0, y1 float32) {
		switch top, high := s.Offset.Y, s.Size().Height; {
		case y0 < top:
			s.ScrollToOffset(fyne.NewPos(0, max(y0-8, 0)))
		case y1 > top+high:
			s.ScrollToOffset(fyne.NewPos(0, y1-high+8))
		}
	}
	return s
}
