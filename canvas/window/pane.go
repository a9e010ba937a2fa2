package window

import (
	"image"
	"image/color"
	"slices"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"kedge/canvas/pen"
)

// buffers are the pictures of one surface that nobody shows: the worker takes
// one, the interface goroutine hands back the one that was shown.
type buffers struct {
	mu   sync.Mutex
	free []*image.RGBA
}

func (b *buffers) take(w, h int) *image.RGBA {
	b.mu.Lock()
	defer b.mu.Unlock()
	for n := len(b.free); n > 0; n = len(b.free) {
		img := b.free[n-1]
		b.free = b.free[:n-1]
		if img.Rect.Dx() == w && img.Rect.Dy() == h {
			return img
		}
	}
	return image.NewRGBA(image.Rect(0, 0, w, h))
}

func (b *buffers) give(img *image.RGBA) {
	if img == nil {
		return
	}
	b.mu.Lock()
	defer b.mu.Unlock()
	if len(b.free) < 2 {
		b.free = append(b.free, img)
	}
}

// pane is a panel drawn with a pen.
type pane struct {
	widget.BaseWidget
	win   *Window
	name  string
	snap  func() func(*ink) // on the interface goroutine: what the worker draws
	grows bool              // it is as high as what is in it
	most  func() float64    // bounds the size of its text; nil: nothing does

	raster *canvas.Raster
	front  *image.RGBA
	bufs   buffers
	made   uint64 // tally of the picture made last; the worker's own
	hits   []hit
	tall   float32
	extra  []fyne.CanvasObject // over the picture: the entry of a field
	placed func()              // after a new picture: put extra in its place

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

func newPane(w *Window, name string, grows bool, snap func() func(*ink)) *pane {
	p := &pane{win: w, name: name, grows: grows, snap: snap}
	p.raster = canvas.NewRaster(func(int, int) image.Image {
		if p.front == nil {
			return image.NewUniform(color.Transparent)
		}
		return p.front
	})
	p.ExtendBaseWidget(p)
	return p
}

// update draws the panel again.
func (p *pane) update() {
	size := p.Size()
	if size.Width < 2 || size.Height < 2 && !p.grows || !p.Visible() {
		return
	}
	scale := p.win.scale()
	draw, c, k := p.snap(), p.win.shades, p.win.textScale()
	if p.most != nil {
		k = min(k, p.most())
	}
	focus, hover := "", p.hover
	if p.focused {
		focus = p.focus
	}
	recording := p.win.opt.Record
	p.win.worker.Do(p.name, func() func() {
		first := &ink{Pen: newTally(), c: c, k: k, w: float64(size.Width), focus: focus, hover: hover}
		var record *pen.Recorder
		if recording {
			record = &pen.Recorder{}
			first.Pen = both{newTally(), record}
		}
		if !p.grows {
			first.h = float64(size.Height)
		}
		draw(first)
		tall := first.h
		if p.grows {
			tall = max(first.y+first.px(8), 1)
		}
		w, h := int(float64(size.Width)*scale+0.5), int(tall*scale+0.5)
		sum := tallyOf(first.Pen)
		sum = sum*31 + uint64(w)<<32 + uint64(h)
		var img *image.RGBA
		// What was made last, not what was shown when the job was given: of two
		// jobs given at once the second must not be taken for the first.
		if sum != p.made {
			p.made = sum
			img = p.bufs.take(w, h)
			r := p.win.rasterOn(img, scale)
			r.Paper(c.Panel)
			again := &ink{Pen: r, c: c, k: k, w: first.w, h: first.h, focus: focus, hover: hover}
			draw(again)
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
		p.bufs.give(p.front)
		p.front = img
		p.raster.Refresh()
	}
	if p.grows && tall != p.tall {
		p.tall = tall
		p.raster.Resize(fyne.NewSize(p.Size().Width, tall))
		p.win.relayout(p)
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
	p.win.acted()
	if i < 0 {
		p.win.closeEntry()
		p.win.refresh()
		return
	}
	h := p.hits[i]
	p.win.closeEntry()
	switch {
	case h.why != "":
		p.win.say(h.why)
	case h.press != nil:
		h.press()
	}
	p.win.refresh()
}

// Tapped implements fyne.Tappable.
func (p *pane) Tapped(e *fyne.PointEvent) { p.press(p.at(e.Position)) }

// TappedSecondary implements fyne.SecondaryTappable.
func (p *pane) TappedSecondary(e *fyne.PointEvent) {
	if i := p.at(e.Position); i >= 0 && p.hits[i].second != nil {
		p.hits[i].second()
		p.win.refresh()
	}
}

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
			p.win.say(p.hits[i].why)
		}
	}
	p.win.refresh()
	p.refreshOwn()
}

// refreshOwn draws the panel again if the window does not.
func (p *pane) refreshOwn() {
	if !slices.Contains(p.win.panes(), p) {
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
			p.win.say(p.hits[i].why)
		}
		p.win.refresh()
		p.refreshOwn()
		return true
	}
	return false
}

// TypedKey implements fyne.Focusable.
func (p *pane) TypedKey(e *fyne.KeyEvent) {
	if p.keys != nil && p.keys(e.Name) {
		return
	}
	switch e.Name {
	case fyne.KeyTab:
		by := 1
		if p.win.mods().Shift {
			by = -1
		}
		switch {
		case p.step(by):
		case p.escape != nil: // in a question Tab goes round
			p.focus = ""
			p.step(by)
		default:
			p.win.nextRegion(by)
		}
	case fyne.KeyDown, fyne.KeyRight:
		p.step(1)
	case fyne.KeyUp, fyne.KeyLeft:
		p.step(-1)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		i := p.find(p.focus)
		if i >= 0 && p.hits[i].press == nil && p.hits[i].second != nil {
			p.hits[i].second()
			p.win.refresh()
			return
		}
		p.press(i)
	case fyne.KeyEscape:
		if p.escape != nil {
			p.escape()
			return
		}
		p.win.leavePanel()
	default:
		if !p.win.busy() {
			p.win.namedKey(e.Name)
		}
	}
}

// TypedRune implements fyne.Focusable.
func (p *pane) TypedRune(r rune) {
	if r == '?' {
		if i := p.find(p.focus); i >= 0 && p.hits[i].second != nil {
			p.hits[i].second()
			p.win.refresh()
		}
	}
}

// TypedShortcut implements fyne.Shortcutable.
func (p *pane) TypedShortcut(s fyne.Shortcut) {
	if !p.win.busy() {
		p.win.shortcut(s)
	}
}

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
	r.p.raster.Resize(s)
}
func (r *paneRenderer) MinSize() fyne.Size { return r.p.MinSize() }
func (r *paneRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.p.raster}, r.p.extra...)
}
func (r *paneRenderer) Refresh() { r.p.raster.Refresh() }

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

func tallyOf(p pen.Pen) uint64 {
	switch t := p.(type) {
	case both:
		return t.h.Sum64()
	case *tally:
		return t.h.Sum64()
	}
	return 0
}
