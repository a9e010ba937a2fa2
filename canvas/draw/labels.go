package draw

import (
	"image"
	"image/color"
	"math"
	"slices"

	"kedge/canvas/pen"
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
	Hand map[string]pen.Point
	// Boxes are the labels of the last picture in the order they were placed:
	// for the pointer, and for tests.
	Boxes []LabelBox

	kept      map[string]keptPlace
	grid      occupancy
	crossings crossings
	pictureOf *byte
	picture   image.Image
}

// keptPlace is where a label lay in the last picture.
type keptPlace struct {
	off    pen.Point // of the box's middle from its place, logical pixels
	shrunk bool      // it had shrunk to its short text
}

// LabelBox is where a label lies in the picture, in pen units.
type LabelBox struct {
	Key            string
	Thing          plan.ID // what it names, if a thing
	Part           string  // the part whose load it shows, if one
	Finding        int     // number of the finding it flags, 0: none
	X0, Y0, X1, Y1 float64
	At             pen.Point // what it belongs to
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

// label is a text that looks for a place.
type label struct {
	key    string
	rank   int // lower is placed first
	thing  plan.ID
	part   string
	lines  []textLine
	short  []textLine // what it shrinks to where there is no room; nil: the same
	frame  frameKind
	level  color.NRGBA // of a flag
	on     color.NRGBA // number on it
	number int         // of a flag

	at     pen.Point // what it belongs to
	toward pen.Point // side it would like to be on; zero: any
	clear  float64   // how far it keeps from that place
	a, b   pen.Point // or: the line it belongs to
	isLine bool
	spots  []pen.Point // or: places its middle may lie on
	middle bool        // it may lie on its place, over the body there
	must   bool        // a number: it is drawn if there is any room at all
	lead   bool        // a leader is drawn when it was pushed away

	box    box
	placed bool
	shrunk bool // it shows its short text
	hot    bool
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
	area      box
	done      bool // all labels have their places
}

func newLabeller(d *drawing) *labeller {
	mem := d.s.Labels
	if mem == nil {
		mem = &Labels{}
	}
	l := &labeller{d: d, mem: mem, grid: &mem.grid, area: d.s.View.box().grown(-d.px(3))}
	l.grid.reset(d.s.View.box(), d.px(cellPx))
	mem.Boxes = mem.Boxes[:0]
	l.stretches = nil
	return l
}

// add notes a label; once all are placed it does nothing.
func (l *labeller) add(x label) {
	if !l.done {
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
	return w + d.sy(14), h + d.sy(7)
}

// lineHeight is the distance of two lines of a label, times the size of its
// letters.
const lineHeight = 1.28

// place finds a place for every label, the most important first. Equal ranks
// go by their key: the same scene always gives the same picture.
func (l *labeller) place() {
	for i := range l.all {
		if _, hand := l.mem.Hand[l.all[i].key]; hand {
			l.all[i].rank = -1
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
	next := make(map[string]keptPlace, len(l.all))
	for i := range l.all {
		x := &l.all[i]
		l.placeOne(x)
		if !x.placed {
			continue
		}
		u := l.d.u
		next[x.key] = keptPlace{scaled(sub(x.box.middle(), l.home(x)), 1/u), x.shrunk}
		l.grid.mark(x.box.grown(l.d.px(1.5)), bitLabel)
		if x.lead {
			if a, b, ok := l.leader(x); ok {
				l.grid.segment(a, b, l.d.px(1), bitLine)
			}
		}
		l.mem.Boxes = append(l.mem.Boxes, LabelBox{Key: x.key, Thing: x.thing, Part: x.part, Finding: x.number,
			X0: x.box.x0, Y0: x.box.y0, X1: x.box.x1, Y1: x.box.y1, At: l.home(x)})
	}
	l.mem.kept, l.done = next, true
}

// home is the place offsets of a label count from.
func (l *labeller) home(x *label) pen.Point {
	if x.isLine {
		return mix(x.a, x.b, 0.5)
	}
	if len(x.spots) > 0 {
		return x.spots[0]
	}
	return x.at
}

// leader is the line from a label's edge to its thing, if it stands off.
func (l *labeller) leader(x *label) (a, b pen.Point, ok bool) { return l.leaderOf(x, x.box) }

// leaderOf is the leader a label would have if it lay in a box.
func (l *labeller) leaderOf(x *label, at box) (a, b pen.Point, ok bool) {
	m := at.middle()
	b = x.at
	if x.isLine {
		b = nearestOnSegment(m, x.a, x.b)
	}
	a = at.nearest(b)
	if dist(a, b) < x.clear+l.d.px(14) {
		return a, b, false
	}
	if !x.isLine {
		b = along(b, unit(sub(a, b)), math.Min(x.clear*0.8, dist(a, b)))
	}
	return a, b, true
}
