package panel

import (
	"image"
	"image/color"
	"slices"
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
	Shades Shades
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
	// Grown makes room for a scrolled pane that has another height.
	Grown()
	// Key does what a key does that a pane has no use for; by is 1 or -1 where
	// the key goes on from the last or before the first thing to press.
	Key(name fyne.KeyName, by int)
	// Shortcut does what keys held together do.
	Shortcut(fyne.Shortcut)
}

// Pane is a panel drawn with a pen.
type Pane struct {
	widget.BaseWidget
	Name  string
	Snap  func() func(*Drawing) // on the interface goroutine: what the worker draws
	Grows bool                  // it is as high as what is in it
	Read  bool                  // it is read: what is in sight keeps its place when something comes above it
	Alone bool                  // it is none of the window's own, and draws itself anew
	Most  func() float64        // bounds the size of its text; nil: nothing does

	Scroll *container.Scroll           // it lies in; nil: in none
	Extra  []fyne.CanvasObject         // over the picture: the entry of a field
	Placed func()                      // after a new picture: put Extra in its place
	Reveal func(y0, y1 float32)        // scrolls so that a stripe is seen
	Drawn  func()                      // after every new picture
	OnTall func()                      // it has grown or shrunk
	Escape func()                      // what Escape does; nil: back to the board
	Keys   func(key fyne.KeyName) bool // takes a key before the panel does; nil: none

	// As it was drawn last:
	Surface *Surface
	Hits    []Hit
	Tall    float32
	Record  pen.Recorder // for tests

	Focus, Hover string // hits by their ids
	focused      bool
	host         Host
	made         uint64 // digest of the picture made last; the worker's own
}

var (
	_ fyne.Focusable         = (*Pane)(nil)
	_ fyne.Tabbable          = (*Pane)(nil)
	_ fyne.Tappable          = (*Pane)(nil)
	_ fyne.SecondaryTappable = (*Pane)(nil)
	_ fyne.Shortcutable      = (*Pane)(nil)
	_ desktop.Hoverable      = (*Pane)(nil)
	_ desktop.Cursorable     = (*Pane)(nil)
)

// NewPane is a pane of a window. snap is called on the interface goroutine and
// returns what the worker draws, from values that do not change.
func NewPane(host Host, name string, grows bool, snap func() func(*Drawing)) *Pane {
	p := &Pane{host: host, Name: name, Grows: grows, Snap: snap}
	p.Surface = NewSurface(func() color.Color { return color.Transparent })
	p.ExtendBaseWidget(p)
	return p
}

// Update draws the panel again.
func (p *Pane) Update() {
	size := p.Size()
	if size.Width < 2 || size.Height < 2 && !p.Grows || !p.Visible() {
		return
	}
	style, draw := p.host.Style(), p.Snap()
	if p.Most != nil {
		style.Text = min(style.Text, p.Most())
	}
	on := Drawing{Shades: style.Shades, Scale: style.Text, W: float64(size.Width), Hover: p.Hover}
	if p.focused {
		on.Focus = p.Focus
	}
	if !p.Grows {
		on.H = float64(size.Height)
	}
	p.host.Do(p.Name, func() func() {
		first, again, sum := on, on, newDigest()
		first.Pen = sum
		var record *pen.Recorder
		if style.Record {
			record = &pen.Recorder{}
			first.Pen = recording{sum, record}
		}
		draw(&first)
		tall := first.H
		if p.Grows {
			tall = max(first.Y+first.Px(8), 1)
		}
		w, h := int(float64(size.Width)*style.Pixels+0.5), int(tall*style.Pixels+0.5)
		sum.number(uint64(w)<<32 + uint64(h))
		var img *image.RGBA
		// What was made last, not what was shown when the job was given: of two
		// jobs given at once the second must not be taken for the first.
		if made := sum.h.Sum64(); made != p.made {
			p.made = made
			img = p.Surface.Take(w, h)
			r := p.host.Raster(img, style.Pixels)
			r.Paper(style.Shades.Panel)
			again.Pen = r
			draw(&again)
			_ = r.Flush() // a text with a coordinate that is not finite is left out; tests look for it
		}
		return func() { p.show(img, first.hits, float32(tall), record) }
	})
}

func (p *Pane) show(img *image.RGBA, hits []Hit, tall float32, record *pen.Recorder) {
	held, was := p.held(hits)
	p.Hits = hits
	if record != nil {
		p.Record = *record
	}
	if img != nil {
		p.Surface.Show(img)
	}
	if p.Grows && tall != p.Tall {
		p.Tall = tall
		p.Surface.Raster.Resize(fyne.NewSize(p.Size().Width, tall))
		if p.Scroll != nil {
			p.host.Grown()
			p.Scroll.Refresh()
		}
		if p.OnTall != nil {
			p.OnTall()
		}
	}
	if i := p.Find(held); held != "" && i >= 0 {
		p.scrollBy(float32(p.Hits[i].Y0 - was))
	}
	if p.Placed != nil {
		p.Placed()
	}
	if p.focused && len(hits) > 0 && p.Find(p.Focus) < 0 { // it was empty when it got the keys
		p.Step(1)
	}
	if p.Drawn != nil {
		p.Drawn()
	}
}

// held is the hit that keeps its place on the screen when the pane is drawn anew with others,
// and where it is: the one under the pointer, else the one that has the keys, else, where
// somebody reads, the topmost in sight that stays; "" if there is none.
func (p *Pane) held(next []Hit) (id string, y float64) {
	if i := p.Find(p.Hover); p.Hover != "" && i >= 0 {
		return p.Hover, p.Hits[i].Y0
	}
	if i := p.Find(p.Focus); p.focused && p.Focus != "" && i >= 0 {
		return p.Focus, p.Hits[i].Y0
	}
	if !p.Read || p.Scroll == nil || !(p.Scroll.Offset.Y > 0) { // at its top a list shows what is new
		return "", 0
	}
	for _, h := range p.Hits {
		if h.Y0 >= float64(p.Scroll.Offset.Y) && slices.ContainsFunc(next, func(n Hit) bool { return n.ID == h.ID }) {
			return h.ID, h.Y0
		}
	}
	return "", 0
}

// InSight reports whether something of a hit is to be seen as the pane is scrolled.
func (p *Pane) InSight(i int) bool {
	s, h := p.Scroll, &p.Hits[i]
	return s == nil || float32(h.Y1) > s.Offset.Y && float32(h.Y0) < s.Offset.Y+s.Size().Height
}

// scrollBy scrolls on by so many logical pixels, as far as there is something to see.
func (p *Pane) scrollBy(dy float32) {
	if s := p.Scroll; s != nil && dy != 0 {
		s.ScrollToOffset(fyne.NewPos(0, max(0, min(s.Offset.Y+dy, p.Tall-s.Size().Height))))
	}
}

// Top scrolls so that a hit is at the top, with what follows it below.
func (p *Pane) Top(i int) {
	if p.Scroll != nil {
		p.scrollBy(float32(p.Hits[i].Y0) - 8 - p.Scroll.Offset.Y)
	}
}

// at is the hit under a place, -1 if there is none; the last drawn lies on
// top.
func (p *Pane) at(pos fyne.Position) int {
	for i := len(p.Hits) - 1; i >= 0; i-- {
		if p.Hits[i].has(float64(pos.X), float64(pos.Y)) {
			return i
		}
	}
	return -1
}

// Find is the index of a hit by its id, -1 if there is none.
func (p *Pane) Find(id string) int {
	for i := range p.Hits {
		if p.Hits[i].ID == id {
			return i
		}
	}
	return -1
}

// Press does what a hit does, or says why not.
func (p *Pane) Press(i int) {
	var h Hit
	if i >= 0 {
		h = p.Hits[i]
	}
	p.host.Pressed()
	switch {
	case h.Why != "":
		p.host.Say(h.Why)
	case h.Press != nil:
		h.Press()
	}
	p.host.Refresh()
}

// pressSecond does what the other button does on a hit; false if that is
// nothing.
func (p *Pane) pressSecond(i int) bool {
	if i < 0 || p.Hits[i].Second == nil {
		return false
	}
	p.Hits[i].Second()
	p.host.Refresh()
	return true
}

// Tapped implements fyne.Tappable.
func (p *Pane) Tapped(e *fyne.PointEvent) { p.Press(p.at(e.Position)) }

// TappedSecondary implements fyne.SecondaryTappable.
func (p *Pane) TappedSecondary(e *fyne.PointEvent) { p.pressSecond(p.at(e.Position)) }

// MouseIn implements desktop.Hoverable.
func (p *Pane) MouseIn(e *desktop.MouseEvent) { p.MouseMoved(e) }

// MouseMoved implements desktop.Hoverable.
func (p *Pane) MouseMoved(e *desktop.MouseEvent) {
	id := ""
	if i := p.at(e.Position); i >= 0 {
		id = p.Hits[i].ID
	}
	p.Point(id)
}

// MouseOut implements desktop.Hoverable.
func (p *Pane) MouseOut() { p.Point("") }

// Point points at a hit by its id, empty: at nothing.
func (p *Pane) Point(id string) {
	if id == p.Hover {
		return
	}
	if i := p.Find(p.Hover); i >= 0 && p.Hits[i].Over != nil {
		p.Hits[i].Over(false)
	}
	p.Hover = id
	if i := p.Find(id); i >= 0 {
		if p.Hits[i].Over != nil {
			p.Hits[i].Over(true)
		}
		if p.Hits[i].Why != "" {
			p.host.Say(p.Hits[i].Why)
		}
	}
	p.anew()
}

// anew draws the window again, and this panel if it is none of the window's.
func (p *Pane) anew() {
	p.host.Refresh()
	if p.Alone {
		p.Update()
	}
}

// Cursor implements desktop.Cursorable.
func (p *Pane) Cursor() desktop.Cursor {
	if i := p.Find(p.Hover); i >= 0 && p.Hits[i].Press != nil {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// FocusGained implements fyne.Focusable.
func (p *Pane) FocusGained() {
	p.focused = true
	if p.Find(p.Focus) < 0 {
		p.Step(1)
	}
	p.Update()
}

// FocusLost implements fyne.Focusable.
func (p *Pane) FocusLost() {
	p.focused = false
	p.Update()
}

// AcceptsTab implements fyne.Tabbable.
func (p *Pane) AcceptsTab() bool { return true }

// Step moves the focus to the next hit that can be pressed; false at the end.
func (p *Pane) Step(by int) bool {
	i := p.Find(p.Focus)
	if i < 0 && by < 0 {
		i = len(p.Hits)
	}
	for i += by; i >= 0 && i < len(p.Hits); i += by {
		if p.Hits[i].Idle || p.Hits[i].ID == "" {
			continue
		}
		p.Focus = p.Hits[i].ID
		p.RevealHit(i)
		if p.Hits[i].Why != "" {
			p.host.Say(p.Hits[i].Why)
		}
		p.anew()
		return true
	}
	return false
}

// TypedKey implements fyne.Focusable.
func (p *Pane) TypedKey(e *fyne.KeyEvent) {
	if p.Keys != nil && p.Keys(e.Name) {
		return
	}
	by := 1
	switch e.Name {
	case fyne.KeyTab:
		if ShiftHeld() {
			by = -1
		}
		if p.Step(by) {
			return
		}
		if p.Escape != nil { // in a question Tab goes round
			p.Focus = ""
			p.Step(by)
			return
		}
	case fyne.KeyDown, fyne.KeyRight:
		p.Step(1)
		return
	case fyne.KeyUp, fyne.KeyLeft:
		p.Step(-1)
		return
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		if i := p.Find(p.Focus); i < 0 || p.Hits[i].Press != nil || !p.pressSecond(i) {
			p.Press(i)
		}
		return
	case fyne.KeyEscape:
		if p.Escape != nil {
			p.Escape()
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
func (p *Pane) TypedRune(r rune) {
	if r == '?' {
		p.pressSecond(p.Find(p.Focus))
	}
}

// TypedShortcut implements fyne.Shortcutable.
func (p *Pane) TypedShortcut(s fyne.Shortcut) { p.host.Shortcut(s) }

// MinSize implements fyne.CanvasObject.
func (p *Pane) MinSize() fyne.Size {
	if p.Grows {
		return fyne.NewSize(1, p.Tall)
	}
	return fyne.NewSize(1, 1)
}

// Resize implements fyne.CanvasObject.
func (p *Pane) Resize(s fyne.Size) {
	if s == p.Size() {
		return
	}
	p.BaseWidget.Resize(s)
	p.Update()
}

// CreateRenderer implements fyne.Widget.
func (p *Pane) CreateRenderer() fyne.WidgetRenderer { return &paneRenderer{p} }

// paneRenderer shows the picture of a pane, and over it what lies there.
type paneRenderer struct{ p *Pane }

func (r *paneRenderer) Destroy() {}
func (r *paneRenderer) Layout(s fyne.Size) {
	if r.p.Grows && r.p.Tall > 0 {
		s.Height = r.p.Tall
	}
	r.p.Surface.Raster.Resize(s)
}
func (r *paneRenderer) MinSize() fyne.Size { return r.p.MinSize() }
func (r *paneRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.p.Surface.Raster}, r.p.Extra...)
}
func (r *paneRenderer) Refresh() { r.p.Surface.Raster.Refresh() }

// recording gives what it is given to two pens.
type recording struct {
	*digest
	rec *pen.Recorder
}

func (b recording) Path(p *pen.Path, s *pen.Style) { b.digest.Path(p, s); b.rec.Path(p, s) }
func (b recording) PushClip(p *pen.Path)           { b.digest.PushClip(p); b.rec.PushClip(p) }
func (b recording) PopClip()                       { b.digest.PopClip(); b.rec.PopClip() }
func (b recording) Text(x, y float64, s string, t *pen.TextStyle) {
	b.digest.Text(x, y, s, t)
	b.rec.Text(x, y, s, t)
}

// Scrolled lays a pane that grows into a scroll, and has it reveal what gets the
// keys.
func Scrolled(p *Pane) *container.Scroll {
	s := container.NewVScroll(p)
	p.Scroll = s
	p.Reveal = func(y0, y1 float32) {
		switch top, high := s.Offset.Y, s.Size().Height; {
		case y0 < top:
			s.ScrollToOffset(fyne.NewPos(0, max(y0-8, 0)))
		case y1 > top+high:
			s.ScrollToOffset(fyne.NewPos(0, y1-high+8))
		}
	}
	return s
}

// Outer is what lies in the window: the pane, or the scroll that it lies in.
func (p *Pane) Outer() fyne.CanvasObject {
	if p.Scroll != nil {
		return p.Scroll
	}
	return p
}

// Shown reports whether the pane is to be seen in the window.
func (p *Pane) Shown() bool { return p.Outer().Visible() }

// RevealHit scrolls so that a hit is seen.
func (p *Pane) RevealHit(i int) {
	if p.Reveal != nil {
		p.Reveal(float32(p.Hits[i].Y0), float32(p.Hits[i].Y1))
	}
}

// Below is the place of the window below a hit, the pane's own corner if there
// is none of that id: where a menu is shown.
func (p *Pane) Below(id string) fyne.Position {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(p)
	if i := p.Find(id); i >= 0 {
		at = at.Add(fyne.NewPos(float32(p.Hits[i].X0), float32(p.Hits[i].Y1)))
	}
	return at
}
