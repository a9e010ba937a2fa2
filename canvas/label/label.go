// Package label finds places for the labels of a picture: [Lay] takes what the
// picture is covered with, a wish for each label and what is remembered of the
// picture before, and gives a box for each label that finds one. It knows
// sizes and places, no texts: whoever draws says how large each form of a
// label is.
//
// What matters most is placed first. No label covers another, or a person; where
// there is no room it takes a smaller form, is pushed off with a leader, and
// last of all is left out.
//
// Places are in pen units, x right, y down; costs and the small distances are
// logical pixels.
package label

import (
	"math"
	"slices"
	"strings"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// Rank is what a label is for. The lower ones are placed first and keep their
// best places.
type Rank int

const (
	ByHand Rank = iota // put there by hand
	Live               // said at the pointer
	Flag
	Over
	Flagged
	OfPerson
	OfBlock
	OfStretch
	Other
	Word // of a zone
	Name
	Length
)

// Form is a way to say what a label says.
type Form struct {
	W, H     float64 // its box
	Nameless bool    // only its leader tells what it is on
}

// Wish is a label that looks for a place.
type Wish struct {
	Key   string // its own from picture to picture
	Rank  Rank
	Thing plan.ID // what it names, if a thing
	Forms []Form  // the whole one, then shorter and shorter ones
	From  int     // the first it may take

	At     r2.Point // what it belongs to
	Toward r2.Point // side it would like to be on, a unit vector; zero: any
	Clear  float64  // how far it keeps from that place
	A, B   r2.Point // or: the line it belongs to
	IsLine bool
	Spots  []r2.Point // or: places its middle may lie on

	Middle bool // it may lie on its place, over the body there
	Must   bool // a number: it is laid if there is any room at all
	Lead   bool // a leader is drawn when it was pushed away
	Hover  bool // it says more, or is there at all, because it is pointed at
}

// Home is the place that offsets of a label count from.
func (w *Wish) Home() r2.Point {
	if w.IsLine {
		return pen.Mix(w.A, w.B, 0.5)
	}
	if len(w.Spots) > 0 {
		return w.Spots[0]
	}
	return w.At
}

// Place is what became of a wish.
type Place struct {
	Of     int // number of the wish
	Laid   bool
	Left   bool // a number or a warning that found no room
	Box    r2.Rect
	Form   int // which of its forms it takes
	Leads  bool
	Leader [2]r2.Point // if it leads: from its edge to its thing
}

// Ground maps the picture to what it shows, in which places are remembered.
type Ground interface {
	ToPen(plan.Point) (x, y float64)
	ToPlan(x, y float64) plan.Point
}

// Picture is what labels are laid in.
type Picture struct {
	Ground Ground
	PerM   float64 // pen units per metre
	Px     float64 // pen units per logical pixel
	Area   r2.Rect // labels lie inside
	Grid   *Grid   // what they keep off; the labels laid are added
	// Hand is where labels were placed by hand, from the place they belong to,
	// in logical pixels, by their keys. They stay put.
	Hand map[string]r2.Point
	Hold bool // every label keeps its distance from its thing: a gesture goes on
	// Same: the picture before was of the same rig at the same scale.
	// Still: and of the same plan and answer, seen the same way.
	Same, Still bool
}

// layer is one call of Lay.
type layer struct {
	Picture
	mem   *Memory
	all   []item
	homes []home // of things that have a name
}

// item is a wish while it looks for a place.
type item struct {
	Wish
	of     int
	rank   Rank
	form   int
	box    r2.Rect
	laid   bool
	beside bool // it lies beside the edge it names
}

// Lay finds a place for every label, the most important first, and gives the
// places in that order. Equal ranks go by their key: the same wishes always give
// the same places.
func Lay(p Picture, wishes []Wish, mem *Memory) []Place {
	l := &layer{Picture: p, mem: mem, all: make([]item, len(wishes))}
	for i := range wishes {
		x := item{Wish: wishes[i], of: i, rank: wishes[i].Rank}
		x.From = min(x.From, len(x.Forms)-1)
		x.form = x.From
		if _, hand := p.Hand[x.Key]; hand {
			x.rank = ByHand
		}
		l.all[i] = x
	}
	slices.SortStableFunc(l.all, func(a, b item) int {
		if a.rank != b.rank {
			return int(a.rank - b.rank)
		}
		return strings.Compare(a.Key, b.Key)
	})
	for i := range l.all {
		if x := &l.all[i]; (x.rank == Name || x.rank == OfPerson) && !x.IsLine && len(x.Spots) == 0 {
			l.homes = append(l.homes, home{x.Thing, x.At, x.Clear})
		}
	}
	l.layAll()
	out := make([]Place, len(l.all))
	for i := range l.all {
		x := &l.all[i]
		out[i] = Place{Of: x.of, Laid: x.laid, Left: !x.laid && x.Must && x.rank != Word, Box: x.box, Form: x.form}
		if x.laid && x.Lead {
			out[i].Leader[0], out[i].Leader[1], out[i].Leads = l.leader(x, x.box)
		}
	}
	l.remember()
	return out
}

// layAll: labels put by hand have their places; then those that have no reason
// to move keep theirs, so that nothing jumps because of a neighbour.
func (l *layer) layAll() {
	each := func(which func(*item) bool, place func(*item) bool) {
		for i := range l.all {
			if x := &l.all[i]; !x.laid && which(x) && place(x) {
				l.take(x)
			}
		}
	}
	pointed := func(x *item) bool { return x.Hover }
	unpointed := func(x *item) bool { return !x.Hover }
	each(func(x *item) bool { return x.rank == ByHand }, l.place)
	if l.Still || l.Hold || l.Same {
		each(unpointed, l.stay)
		each(pointed, l.grow)
	}
	each(unpointed, l.place)
	each(pointed, l.place)
}

// take marks the place of a label.
func (l *layer) take(x *item) {
	l.Grid.Mark(x.box.ExpandedByMargin(1.5*l.Px), Label)
	if x.Lead {
		if a, b, ok := l.leader(x, x.box); ok {
			l.Grid.Segment(a, b, l.Px, Line)
		}
	}
}

// leader is the line from the edge of a label in a box to its thing; ok is
// false where it lies near enough to need none.
func (l *layer) leader(x *item, box r2.Rect) (a, b r2.Point, ok bool) {
	b = x.At
	if x.IsLine {
		b, _ = terrain.Nearest(box.Center(), x.A, x.B)
	}
	a = box.ClampPoint(b)
	near := 14 * l.Px
	if x.Forms[x.form].Nameless {
		near = 3 * l.Px
	}
	if a.Sub(b).Norm() < x.Clear+near {
		return a, b, false
	}
	if !x.IsLine {
		b = pen.Along(b, a.Sub(b).Normalize(), math.Min(x.Clear*0.8, a.Sub(b).Norm()))
	}
	return a, b, true
}

// Corner finds a free place for a form in the lower right corner of a laid
// picture, or as near to it as there is room, and takes it.
func (p *Picture) Corner(forms []Form) (form int, box r2.Rect, ok bool) {
	least, corner := math.Inf(1), p.Area.Hi()
	for f, size := range forms {
		for _, step := range [...]float64{sweepPx * p.Px, sweepPx / 4 * p.Px} {
			for y := corner.Y - size.H; y >= p.Area.Y.Lo; y -= step {
				for x := corner.X - size.W; x >= p.Area.X.Lo; x -= step {
					b := pen.Box(x, y, x+size.W, y+size.H)
					if away := b.Center().Sub(corner).Norm(); away < least && p.Grid.under(b)&(Label|Person|Vehicle) == 0 {
						box, ok, least = b, true, away
					}
				}
			}
			if ok {
				p.Grid.Mark(box.ExpandedByMargin(1.5*p.Px), Label)
				return f, box, true
			}
		}
	}
	return 0, box, false
}
