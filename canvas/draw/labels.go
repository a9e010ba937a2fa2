package draw

import (
	"image/color"
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Labels is what a picture remembers of its labels from frame to frame. The
// zero value is ready. It belongs to whoever draws; the scenes of one board
// share one.
type Labels struct {
	// Hold keeps every label at its distance from its thing, as long as no two
	// overlap: set while a gesture goes on.
	Hold bool
	// Hand is where labels were placed by hand, from the place they belong to,
	// in logical pixels, by the key of their box. They stay put.
	Hand map[string]r2.Point
	// Boxes are the labels of the last picture, what matters most first: for the
	// pointer, and for tests.
	Boxes []LabelBox
	// Left are the keys of labels with a number or a warning that found no room
	// in the last picture. The lists beside the board have them.
	Left []string

	places    label.Memory
	last      pictureOf
	grid      label.Grid
	crossings crossings
	pockets   pockets
	traced    traced
}

// pictureOf is what the last picture was of. Labels of the same plan with the
// same answer, seen the same way, have no reason to move.
type pictureOf struct {
	plan   *plan.Plan
	answer *solver.Assessment
	rig    plan.ID
	view   View
	look   Look
	many   bool // there were so many tags that some shrink
	tight  bool // there was so little room that tags drop their second lines
}

// LabelBox is where a label lies in the picture, in pen units.
type LabelBox struct {
	Key     string
	Thing   plan.ID  // what it names, if a thing
	Part    string   // the part whose load it shows, if one; of several the worst
	Parts   []string // all whose load it shows, the worst first
	Finding int      // number of the finding it flags, 0: none
	Box     r2.Rect
	At      r2.Point // what it belongs to
	Bare    bool     // it has no frame, only letters
}

// frameKind is what stands round a label.
type frameKind int

const (
	bare    frameKind = iota // letters with a halo
	thinBox                  // within
	barBox                   // near: a bar at the left
	inkBox                   // over: filled
	overBox                  // over, and no DANGER: a thick edge in the colour of a WARNING
	dashBox                  // refused, not computed
	markBox                  // no rating: a question mark at the left
	greyBox                  // slack
	flagBox                  // a numbered triangle
	pickBox                  // live text of the board
)

type textLine struct {
	text   string
	size   float64
	bold   bool
	colour color.NRGBA
}

// tailStyle is how the tail of a tag's first line is written.
func (d *brush) tailStyle() pen.TextStyle {
	return pen.TextStyle{Size: d.text.small, Colour: d.c.Quiet}
}

// tailGap is between a line and its tail, px. (ours)
const tailGap = 7

// form is a way to say what a label says.
type form struct {
	lines    []textLine
	frame    frameKind
	nameless bool // only its leader tells what it is on
	tail     string
}

// caption is a text that looks for a place: what of it the places do not depend
// on.
type caption struct {
	label.Wish
	part     string
	parts    []string // with those that share its load, the worst first
	lines    []textLine
	tail     string // behind the first line, small and grey
	frame    frameKind
	short    []form      // what it shrinks to where there is no room, shorter and shorter
	level    color.NRGBA // of a flag
	on       color.NRGBA // number on it
	number   int         // of a flag
	hot      bool
	unfolded []textLine // what it says while it is pointed at, if more
	blank    bool       // to be written into

	place label.Place
}

// captions gathers the labels of a picture and draws them where they are laid.
type captions struct {
	d    *drawing
	mem  *Labels
	grid *label.Grid
	all  []caption
	done bool // all have their places
}

func newCaptions(d *drawing) *captions {
	mem := d.s.Labels
	if mem == nil {
		mem = &Labels{}
	}
	l := &captions{d: d, mem: mem, grid: &mem.grid}
	l.grid.Reset(d.view.box(), d.u)
	mem.Boxes, mem.Left = mem.Boxes[:0], mem.Left[:0]
	return l
}

// add notes a label; once all are laid it does nothing.
func (l *captions) add(x caption) {
	if !l.done {
		l.all = append(l.all, x)
	}
}

// forms are the ways to say what a label says, the whole one first.
func (x *caption) forms() []form {
	return append([]form{{lines: x.lines, frame: x.frame, tail: x.tail}}, x.short...)
}

// sizes are the boxes of a label's forms.
func (d *brush) sizes(x *caption) []label.Form {
	var out []label.Form
	for i, f := range x.forms() {
		w, h := d.size(f.lines, f.tail, f.frame, x.blank)
		if i > 0 && i == len(x.short) && x.unfolded != nil { // over what it was
			w = math.Max(w, out[0].W)
		}
		out = append(out, label.Form{W: w, H: h, Nameless: f.nameless})
	}
	return out
}

// size is the outside of a label's box.
func (d *brush) size(lines []textLine, tail string, frame frameKind, blank bool) (w, h float64) {
	if frame == flagBox {
		return d.sy(23), d.sy(21)
	}
	for i, t := range lines {
		tw, _, _ := pen.Measure(t.text, &pen.TextStyle{Size: t.size, Bold: t.bold})
		if i == 0 && tail != "" {
			s := d.tailStyle()
			more, _, _ := pen.Measure(tail, &s)
			tw += d.sy(tailGap) + more
		}
		w = math.Max(w, tw)
		h += t.size * lineHeight
	}
	switch frame {
	case bare:
		return w + d.px(3), h
	case barBox, markBox:
		w += d.sy(9)
	}
	w, h = w+d.sy(14), h+d.sy(7)
	if blank {
		w, h = math.Max(w, d.px(blankWide)), math.Max(h, d.px(blankHigh))
	}
	return w, h
}

// Least size of a blank, px: on a sheet 25 by 8 mm, for a figure in ordinary
// handwriting. (ours)
const (
	blankWide = 83.5
	blankHigh = 26.8
)

// lineHeight is the distance of two lines of a label, times the size of its
// letters.
const lineHeight = 1.28

// lay finds every label its place and says how many numbers and warnings found
// none: a picture that leaves something out says so.
func (l *captions) lay() {
	d, last := l.d, &l.mem.last
	pic := label.Picture{Ground: d.view, PerM: d.view.PerM, Px: d.u, Area: d.view.box().ExpandedByMargin(-d.px(3)), Grid: l.grid, Hand: l.mem.Hand, Hold: l.mem.Hold}
	pic.Same = !l.mem.places.Empty() && last.rig == d.s.Rig && last.look == d.look && last.view.PerM == d.view.PerM && last.view.UnitsPerPx == d.view.UnitsPerPx
	pic.Still = pic.Same && last.plan == d.s.Plan && last.answer == d.a && last.view == d.view
	last.plan, last.answer, last.rig, last.view, last.look = d.s.Plan, d.a, d.s.Rig, d.view, d.look
	wishes := make([]label.Wish, len(l.all))
	for i := range l.all {
		l.all[i].Forms = d.sizes(&l.all[i])
		wishes[i] = l.all[i].Wish
	}
	var laid []caption
	for _, p := range label.Lay(pic, wishes, &l.mem.places) {
		x := l.all[p.Of]
		if p.Left {
			l.mem.Left = append(l.mem.Left, x.Key)
		}
		if p.Laid {
			laid = append(laid, x.at(p))
		}
	}
	l.all, l.done = laid, true
	if n := len(l.mem.Left); n > 0 {
		l.countLeft(&pic, n)
	}
	for i := range l.all {
		x := &l.all[i]
		if x.part != "" && x.parts == nil {
			x.parts = []string{x.part}
		}
		l.mem.Boxes = append(l.mem.Boxes, LabelBox{Key: x.Key, Thing: x.Thing, Part: x.part, Parts: x.parts, Finding: x.number,
			Box: x.place.Box, At: x.Home(), Bare: x.frame == bare})
	}
}

// at is the label in the form it takes at its place.
func (x caption) at(p label.Place) caption {
	f := x.forms()[p.Form]
	x.place, x.lines, x.frame, x.tail = p, f.lines, f.frame, f.tail
	return x
}

// countLeft says how many are left out.
func (l *captions) countLeft(pic *label.Picture, n int) {
	d := l.d
	count := part.Count("count", n)
	x := caption{Wish: label.Wish{Key: "left"}, frame: dashBox, lines: []textLine{{d.w.Label("draw-left", count), d.text.mid, true, d.c.Ink}},
		short: []form{{lines: []textLine{{d.w.Label("draw-left-short", count), d.text.mid, true, d.c.Ink}}, frame: dashBox}}}
	if f, box, ok := pic.Corner(d.sizes(&x)); ok {
		l.all = append(l.all, x.at(label.Place{Form: f, Box: box}))
	}
}
