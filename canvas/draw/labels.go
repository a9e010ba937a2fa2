package draw

import (
	"image"
	"image/color"
	"math"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver"
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

	kept      map[string]keptPlace
	last      pictureOf
	grid      occupancy
	crossings crossings
	pictureOf *byte
	picture   image.Image
}

// keptPlace is where a label lay when it was last in the picture.
type keptPlace struct {
	off    r2.Point   // of the box's middle from its place, logical pixels
	home   plan.Point // its place
	form   int        // which of its texts it showed
	over   uint8      // what it lay on
	beside bool       // it names an edge and lay beside it
	age    int        // pictures since
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
	Key            string
	Thing          plan.ID // what it names, if a thing
	Part           string  // the part whose load it shows, if one
	Finding        int     // number of the finding it flags, 0: none
	X0, Y0, X1, Y1 float64
	At             r2.Point // what it belongs to
	Bare           bool     // it has no frame, only letters
}

// frameKind is what stands round a label.
type frameKind int

const (
	bare    frameKind = iota // letters with a halo
	thinBox                  // within
	barBox                   // near: a bar at the left
	inkBox                   // over: filled
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

// form is a way to say what a label says.
type form struct {
	lines    []textLine
	frame    frameKind
	nameless bool // only its leader tells what it is on
}

// label is a text that looks for a place.
type label struct {
	key    string
	rank   int // lower is placed first
	thing  plan.ID
	part   string
	lines  []textLine
	frame  frameKind
	short  []form      // what it shrinks to where there is no room, shorter and shorter
	level  color.NRGBA // of a flag
	on     color.NRGBA // number on it
	number int         // of a flag

	at     r2.Point // what it belongs to
	toward r2.Point // side it would like to be on; zero: any
	clear  float64  // how far it keeps from that place
	a, b   r2.Point // or: the line it belongs to
	isLine bool
	spots  []r2.Point // or: places its middle may lie on
	middle bool       // it may lie on its place, over the body there
	must   bool       // a number: it is drawn if there is any room at all
	lead   bool       // a leader is drawn when it was pushed away

	box    r2.Rect
	placed bool
	forms  []form // its lines and frame, then the short ones
	form   int    // which of them it shows
	from   int    // the first it may show
	beside bool   // it lies beside the edge it names
	hot    bool
	blank  bool // to be written into
	hover  bool // it says more, or is there at all, because it is pointed at
}

// labeller gathers the labels of a picture and finds each a place.
type labeller struct {
	d         *drawing
	grid      *occupancy
	mem       *Labels
	all       []label
	words     []zoneWord
	tips      []forceArrow // resultants, whose tags stand at their tips
	stretches []drawnStretch
	homes     []home // of things that have a name
	area      r2.Rect
	done      bool // all labels have their places
	same      bool // the last picture was of the same rig at the same scale
	still     bool // and of the same plan and answer, seen the same way
}

func newLabeller(d *drawing) *labeller {
	mem := d.s.Labels
	if mem == nil {
		mem = &Labels{}
	}
	l := &labeller{d: d, mem: mem, grid: &mem.grid, area: d.s.View.box().ExpandedByMargin(-d.px(3))}
	l.grid.reset(d.s.View.box(), d.px(cellPx))
	mem.Boxes, mem.Left = mem.Boxes[:0], mem.Left[:0]
	last := &mem.last
	l.same = mem.kept != nil && last.rig == d.s.Rig && last.look == d.s.Look && last.view.PerM == d.s.View.PerM && last.view.UnitsPerPx == d.s.View.UnitsPerPx
	l.still = l.same && last.plan == d.s.Plan && last.answer == d.a && last.view == d.s.View
	return l
}

// add notes a label; once all are placed it does nothing.
func (l *labeller) add(x label) {
	if !l.done {
		x.forms = append([]form{{lines: x.lines, frame: x.frame}}, x.short...)
		x.from = min(x.from, len(x.forms)-1)
		x.as(x.from)
		l.all = append(l.all, x)
	}
}

// size is the outside of a label's box.
func (l *labeller) size(x *label, lines []textLine) (w, h float64) {
	d := l.d
	if x.frame == flagBox {
		return d.sy(23), d.sy(21)
	}
	for _, t := range lines {
		tw, _, _ := pen.Measure(t.text, &pen.TextStyle{Size: t.size, Bold: t.bold})
		w = math.Max(w, tw)
		h += t.size * lineHeight
	}
	switch x.frame {
	case bare:
		return w + d.px(3), h
	case barBox, markBox:
		w += d.sy(9)
	}
	w, h = w+d.sy(14), h+d.sy(7)
	if x.blank {
		w, h = math.Max(w, d.px(blankWide)), math.Max(h, d.px(blankHigh))
	}
	return w, h
}

// Least size of a blank, px: on a sheet 25 by 8 mm, for a figure in ordinary
// handwriting. (storyboards.md B)
const (
	blankWide = 83.5
	blankHigh = 26.8
)

// lineHeight is the distance of two lines of a label, times the size of its
// letters.
const lineHeight = 1.28

// place finds a place for every label, the most important first. Equal ranks
// go by their key: the same scene always gives the same picture.
func (l *labeller) place() {
	for i := range l.all {
		if _, hand := l.mem.Hand[l.all[i].key]; hand {
			l.all[i].rank = rankHand
		}
	}
	slices.SortStableFunc(l.all, func(a, b label) int {
		if a.rank != b.rank {
			return a.rank - b.rank
		}
		if a.key < b.key {
			return -1
		} else if a.key > b.key {
			return 1
		}
		return 0
	})
	l.homes = l.homes[:0]
	for i := range l.all {
		if x := &l.all[i]; (x.rank == rankName || x.rank == rankPerson) && !x.isLine && len(x.spots) == 0 {
			l.homes = append(l.homes, home{x.thing, x.at, x.clear})
		}
	}
	// Labels put by hand have their places; then those that have no reason to
	// move keep theirs, so that nothing jumps because of a neighbour.
	for i := range l.all {
		if x := &l.all[i]; x.rank == rankHand {
			l.settle(x)
		}
	}
	if l.still || l.mem.Hold || l.same {
		for i := range l.all {
			if x := &l.all[i]; !x.placed && !x.hover && l.stays(x) {
				l.take(x)
			}
		}
		for i := range l.all {
			if x := &l.all[i]; !x.placed && x.hover && l.grow(x) {
				l.take(x)
			}
		}
	}
	for i := range l.all {
		if x := &l.all[i]; !x.placed && !x.hover {
			l.settle(x)
		}
	}
	for i := range l.all {
		if x := &l.all[i]; !x.placed && x.hover {
			l.settle(x)
		}
	}
	l.missing()
	for i := range l.all {
		x := &l.all[i]
		switch {
		case x.placed:
			l.mem.Boxes = append(l.mem.Boxes, LabelBox{Key: x.key, Thing: x.thing, Part: x.part, Finding: x.number,
				X0: x.box.X.Lo, Y0: x.box.Y.Lo, X1: x.box.X.Hi, Y1: x.box.Y.Hi, At: l.home(x), Bare: x.frame == bare})
		case x.must && x.rank != rankWord:
			l.mem.Left = append(l.mem.Left, x.key)
		}
	}
	l.remember()
	l.done = true
}

// settle looks for a place and takes it, if there is one.
func (l *labeller) settle(x *label) {
	if l.placeOne(x); x.placed {
		l.take(x)
	}
}

// take marks the place of a label.
func (l *labeller) take(x *label) {
	l.grid.mark(x.box.ExpandedByMargin(l.d.px(1.5)), bitLabel)
	if x.lead {
		if a, b, ok := l.leader(x); ok {
			l.grid.segment(a, b, l.d.px(1), bitLine)
		}
	}
}

// home is the place offsets of a label count from.
func (l *labeller) home(x *label) r2.Point {
	if x.isLine {
		return mix(x.a, x.b, 0.5)
	}
	if len(x.spots) > 0 {
		return x.spots[0]
	}
	return x.at
}

// leader is the line from a label's edge to its thing, if it stands off.
func (l *labeller) leader(x *label) (a, b r2.Point, ok bool) { return l.leaderOf(x, x.box) }

// leaderOf is the leader a label would have if it lay in a box.
func (l *labeller) leaderOf(x *label, at r2.Rect) (a, b r2.Point, ok bool) {
	m := at.Center()
	b = x.at
	if x.isLine {
		b = nearestOnSegment(m, x.a, x.b)
	}
	a = at.ClampPoint(b)
	near := l.d.px(14)
	if x.forms[x.form].nameless {
		near = l.d.px(3)
	}
	if a.Sub(b).Norm() < x.clear+near {
		return a, b, false
	}
	if !x.isLine {
		b = along(b, a.Sub(b).Normalize(), math.Min(x.clear*0.8, a.Sub(b).Norm()))
	}
	return a, b, true
}
