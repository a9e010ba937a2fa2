package panel

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// Offer is one thing that can be gone to or done.
type Offer struct {
	ID    string // of its row
	Name  string
	Sort  string // what it is, on the right
	Below string // a line below it; empty: none
	Why   string // why it cannot be done now; empty: it can
	Take  func()
}

// Finding is what is asked of whoever looks for something.
type Finding struct {
	Hint   string                     // what is said while nothing is typed
	None   string                     // what is said of nothing found
	Offers func(typed string) []Offer // the nearest first
	Closed func()                     // it is not shown any more
	Cannot func(why string)           // what was taken cannot be done
}

// Finder is a line to type into and the list of what is found.
type Finder struct {
	Typed *Entry
	List  *Pane

	asked  Finding
	host   Host
	pop    *widget.PopUp
	scroll *container.Scroll
	offers []Offer
	at     int // the row that Enter takes
}

// Find asks what is looked for and gives the keys to the line. Up and Down choose a
// row, Enter takes it, Escape leaves.
func Find(host Host, on fyne.Canvas, asked Finding) *Finder {
	f := &Finder{asked: asked, host: host}
	f.Typed = NewEntry(asked.Hint, f.key)
	f.Typed.OnChanged = func(string) { f.seek() }
	f.Typed.OnSubmitted = func(string) { f.take(f.at) }
	f.List = NewPane(host, "find-list", true, f.snap)
	f.List.Escape, f.List.Alone = f.Close, true
	f.scroll = container.NewVScroll(f.List)
	f.List.OnTall = f.scroll.Refresh
	k := float32(host.Style().Text)
	wide, high := min(620*k, on.Size().Width-40), min(440*k, on.Size().Height-60)
	f.pop = widget.NewModalPopUp(container.New(&findLayout{wide, high, k}, f.Typed, f.scroll), on)
	f.pop.Show()
	f.seek()
	on.Focus(f.Typed)
	return f
}

func (f *Finder) key(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyEscape:
		f.Close()
	case fyne.KeyDown, fyne.KeyTab:
		f.step(1)
	case fyne.KeyUp:
		f.step(-1)
	case fyne.KeyPageDown:
		f.step(8)
	case fyne.KeyPageUp:
		f.step(-8)
	default:
		return false
	}
	return true
}

// seek looks again for what is typed.
func (f *Finder) seek() {
	f.offers, f.at = f.asked.Offers(f.Typed.Text), 0
	f.scroll.ScrollToTop()
	f.List.Update()
}

func (f *Finder) step(by int) {
	f.at = max(0, min(len(f.offers)-1, f.at+by))
	f.List.Update()
}

// Chosen is the row that Enter takes; an empty one if nothing is found.
func (f *Finder) Chosen() Offer {
	if f.at >= len(f.offers) {
		return Offer{}
	}
	return f.offers[f.at]
}

// Close goes nowhere.
func (f *Finder) Close() {
	f.pop.Hide()
	f.asked.Closed()
	f.host.Refresh()
}

// take goes to a row or does it; of what cannot be done it says why and stays.
func (f *Finder) take(i int) {
	switch {
	case i >= len(f.offers):
		return
	case f.offers[i].Why != "":
		f.at = i
		f.asked.Cannot(f.offers[i].Why)
		f.List.Update()
		return
	}
	f.Close()
	f.offers[i].Take()
	f.host.Refresh()
}

// snap draws the rows.
func (f *Finder) snap() func(*Drawing) {
	offers, at := f.offers, f.at
	return func(d *Drawing) {
		if len(offers) == 0 {
			d.Note(f.asked.None, d.Mid(), 0)
			return
		}
		for i := range offers {
			top := d.Y
			f.row(d, &offers[i], i == at, func() { f.take(i) })
			if i == at {
				f.reveal(top, d.Y)
			}
		}
	}
}

// reveal scrolls so that the chosen row is seen.
func (f *Finder) reveal(top, foot float64) {
	y, high := float64(f.scroll.Offset.Y), float64(f.scroll.Size().Height)
	switch {
	case high <= 0:
	case top < y:
		f.scroll.ScrollToOffset(fyne.NewPos(0, float32(top)))
	case foot > y+high:
		f.scroll.ScrollToOffset(fyne.NewPos(0, float32(foot-high)))
	}
}

// row draws one offer: its name and sort, and below what it is or why it cannot be.
func (f *Finder) row(d *Drawing, o *Offer, chosen bool, take func()) {
	below := o.Below
	if o.Why != "" {
		below = o.Why
	}
	top := d.Y
	sort := d.Small()
	wide := Width(o.Sort, sort)
	var lines []string
	if below != "" {
		lines = Wrap(below, d.Small(), d.W-d.Px(42))
	}
	high := d.Px(28) + float64(len(lines))*LineHigh(d.Small())
	if len(lines) > 0 {
		high += d.Px(4)
	}
	switch {
	case chosen:
		d.Box(d.Px(4), top+1, d.W-d.Px(8), high-2, 5, d.Shades.Card, d.Shades.Ink, 1.2)
	case d.Hover == o.ID:
		d.Fill(0, top, d.W, high, d.Shades.Hover)
	}
	name := d.Mid()
	if o.Why != "" {
		name = Coloured(name, d.Shades.Quiet)
	}
	d.Text(d.Px(14), top+d.Px(14), o.Name, name, d.W-d.Px(42)-wide)
	d.Right(d.W-d.Px(14), top+d.Px(14), o.Sort, sort)
	y := top + d.Px(28)
	for _, l := range lines {
		d.Text(d.Px(28), y+LineHigh(d.Small())/2, l, d.Small(), d.W-d.Px(42))
		y += LineHigh(d.Small())
	}
	d.Hit(Hit{ID: o.ID, X0: d.Px(4), Y0: top, X1: d.W - d.Px(4), Y1: top + high, Press: take})
	d.Y = top + high
}

// findLayout puts the line above the list.
type findLayout struct{ wide, high, k float32 }

func (l *findLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(l.wide, l.high) }

func (l *findLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	entry := max(34*l.k, o[0].MinSize().Height)
	o[0].Move(fyne.NewPos(8, 8))
	o[0].Resize(fyne.NewSize(s.Width-16, entry))
	o[1].Move(fyne.NewPos(0, entry+14))
	o[1].Resize(fyne.NewSize(s.Width, s.Height-entry-14))
}
