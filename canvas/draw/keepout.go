package draw

import (
	"image/color"
	"math"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/canvas/pen"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/terrain"
)

// zoneWord is the word of a kind of zone, and where along its edge it may
// stand.
type zoneWord struct {
	key, text string
	at        []r2.Point
	colour    color.NRGBA
}

// zoneAreas is what a picture shows of zones: the ground that everybody keeps out
// of as one area, the stand-off round it, and kinds apart.
type zoneAreas struct {
	keepOut, standOff zoneArea
	apart             []zoneKind
}

func isStandOff(k part.ZoneKind) bool { return k == part.ZoneStandOff }

// zoneAreas lays out the zones that are not switched off, and notes edges and
// words for the labels.
func (d *drawing) zoneAreas() *zoneAreas {
	if d.a == nil {
		return nil
	}
	z := &zoneAreas{apart: d.kindsApart(), standOff: d.area(isStandOff),
		keepOut: d.area(func(k part.ZoneKind) bool { return !isStandOff(k) })}
	d.pockets(&z.keepOut)
	mark := func(edges [][]r2.Point) {
		for _, e := range edges {
			for i := 1; i < len(e); i++ {
				d.labels.grid.Segment(e[i-1], e[i], d.px(1), label.Edge)
			}
		}
	}
	mark(z.keepOut.edges)
	mark(z.standOff.edges)
	for i := range z.apart {
		mark(z.apart[i].edges)
	}
	d.keepOutWords(&z.keepOut)
	d.standOffWords(&z.standOff)
	d.beyondWords(z.keepOut.outlines, z.standOff.outlines)
	return z
}

// pockets are those of an answer's zones, found once.
type pockets struct {
	of  *part.Zone // the first
	all [][]plan.Point
}

// pockets adds the places that nobody leaves but through the keep-out, where all of that
// is drawn.
func (d *drawing) pockets(z *zoneArea) {
	if len(z.of) == 0 {
		return
	}
	for i := range d.a.Zones {
		if q := &d.a.Zones[i]; !isStandOff(q.Kind) && d.s.Show.HideZones[string(q.Kind)] {
			return
		}
	}
	mem := &d.labels.mem.pockets
	if first := &d.a.Zones[0]; mem.of != first {
		*mem = pockets{first, d.a.Pockets()}
	}
	var own [][]r2.Point
	for _, o := range mem.all {
		own = append(own, counterClockwise(d.outline(o)))
	}
	if len(own) == 0 {
		return
	}
	z.outlines = append(z.outlines, own...)
	z.edges = d.edges(z.outlines)
	d.zoneTexts = append(d.zoneTexts, zoneWord{"zone pocket", d.w.Label("draw-pocket"), d.alongEdges(d.edges(own)), d.c.ZoneRedText})
}

// zones draws the areas.
func (d *drawing) zones(z *zoneAreas) {
	if z == nil {
		return
	}
	off, plates := d.clearings(), d.bareLabels()
	d.drawStandOff(z, off, plates)
	d.tint(z.keepOut.outlines)
	d.drawKinds(z.apart, off, plates)
	d.path.Reset()
	d.ticks(z.keepOut.edges, plates)
	d.stroke(d.c.ZoneRed, tickWidth)
	d.path.Reset()
	d.brokenEdges(z.keepOut.edges, plates)
	d.stroke(d.c.ZoneRed, edgeWidth)
}

// The edge of the keep-out and the ticks on its inner side, px; the tone of what
// is inside. (ours)
const (
	edgeWidth = 1.5
	tickWidth = 1.3
	tickLong  = 7
	tickApart = 9
	tintTone  = 0.055
	dimTone   = 0.2 // while places outside of it are looked for
)

// tint fills what is inside the keep-out with a breath of its colour; what copies,
// and what is read in the sun, has none.
func (d *drawing) tint(outlines [][]r2.Point) {
	tone := tintTone
	if d.o.Dim {
		tone = dimTone
	}
	if len(outlines) == 0 || d.look.Print || d.look.Field && !d.o.Dim {
		return
	}
	d.path.Reset()
	for _, o := range outlines {
		d.path.Polygon(o...)
	}
	d.fill(faded(d.c.ZoneRed, tone))
}

// ticks adds short strokes on the inner side of edges, as maps draw a hollow: in
// and out are told apart without colour.
func (d *brush) ticks(edges [][]r2.Point, plates []r2.Rect) {
	step, long, v := d.px(tickApart), d.px(tickLong*d.bold), d.view.box()
	var near []r2.Rect
	for _, e := range edges {
		rest := step / 2 // from the corner to the next tick
		for i := 1; i < len(e); i++ {
			a, b := e[i-1], e[i]
			l := b.Sub(a).Norm()
			if !(l > 0) {
				continue
			}
			in := b.Sub(a).Normalize().Ortho().Mul(-1) // unionEdges has the inside at this hand
			near = within(near[:0], plates, a, b, long+d.px(1))
			s := rest
			for ; s < l; s += step {
				p := pen.Mix(a, b, s/l)
				q := pen.Along(p, in, long)
				if v.ContainsPoint(p) && !onPlate(near, p, q) {
					d.path.Line(p.X, p.Y, q.X, q.Y)
				}
			}
			rest = s - l
		}
	}
}

func onPlate(plates []r2.Rect, a, b r2.Point) bool {
	for _, p := range plates {
		if _, _, ok := pen.Cut(p, a, b); ok {
			return true
		}
	}
	return false
}

// sparseMM is how far apart the dots inside the stand-off are, millimetres of a
// screen of 96 pixels an inch: some lie in any piece that somebody looks at. (ours)
const (
	sparseMM = 6
	dotTone  = 0.75 // there are few of them
)

// drawStandOff draws the ring as a thin line, and sparse dots between it and the
// keep-out: white paper beside a line never reads as a place to stand.
func (d *drawing) drawStandOff(z *zoneAreas, off *clearings, plates []r2.Rect) {
	if len(z.standOff.outlines) == 0 {
		return
	}
	line := d.c.ZoneOrange
	bare := *off
	for _, o := range z.keepOut.outlines {
		bare.take(o)
	}
	h := d.hatch(0, sparseMM)
	s := pen.Style{Stroke: faded(line, max(d.hatchTone(), dotTone)), Width: d.sy(dotSide), Apart: true}
	d.path.Reset()
	h.dots(&d.path, z.standOff.outlines, &bare, s.Width)
	d.pen.Path(&d.path, &s)
	d.path.Reset()
	d.brokenEdges(z.standOff.edges, plates)
	d.stroke(line, 1, 14, 5, 2, 5)
}

// keepOutWords notes the word of each kind in the keep-out, once: at the stretch
// of edge that the kind makes, or inside where it makes none that is seen.
func (d *drawing) keepOutWords(z *zoneArea) {
	c := d.c.ZoneRedText
	along := d.alongEdges(z.edges)
	for _, k := range part.ZoneKinds {
		var own [][]r2.Point
		for i, q := range z.of {
			if q.Kind == k {
				own = append(own, z.outlines[i])
			}
		}
		if len(own) == 0 {
			continue
		}
		at := onSome(along, own, d.px(1))
		if len(at) == 0 {
			at = d.alongEdges(d.edges(own))
		}
		d.zoneTexts = append(d.zoneTexts, zoneWord{"zone " + string(k), d.w.Zone(k), at, c})
	}
}

// onSome are the points that lie on the edge of one of some polygons.
func onSome(points []r2.Point, polys [][]r2.Point, within float64) []r2.Point {
	near := make([]r2.Rect, len(polys))
	for i, o := range polys {
		near[i] = r2.RectFromPoints(o...).ExpandedByMargin(within)
	}
	var out []r2.Point
	for _, p := range points {
		for i, o := range polys {
			if near[i].ContainsPoint(p) && terrain.EdgeDistance(o, p) <= within {
				out = append(out, p)
				break
			}
		}
	}
	return out
}

// standOffWords notes the words of the stand-off: each ring of another radius
// with its own. Where all that is seen lies inside, the frame says so.
func (d *drawing) standOffWords(z *zoneArea) {
	c := d.c.ZoneOrangeText
	along := d.alongEdges(z.edges)
	var said []quantity.Length
	most := quantity.Length(0)
	for i, q := range z.of {
		most = max(most, q.Radius)
		same := false
		for _, r := range said {
			same = same || math.Abs(float64(r-q.Radius)) < 0.05 // one figure after rounding to a decimetre
		}
		if same {
			continue
		}
		said = append(said, q.Radius)
		text := d.standOffText(q.Radius)
		d.zoneTexts = append(d.zoneTexts, zoneWord{"zone " + string(q.Kind) + " " + text, text, onSome(along, z.outlines[i:i+1], d.px(1)), c})
	}
	if len(along) == 0 && insideSome(z.outlines, d.view.box().Center()) {
		text := d.w.Label("draw-all-inside", part.Text("zone", d.standOffText(most)))
		d.zoneTexts = append(d.zoneTexts, zoneWord{"all inside", text, d.alongFrame(text), c})
	}
}

// beyondWords says at the frame of a picture by itself that zones drawn in it reach out
// of it: nobody can look there, and the frame is not where they end.
func (d *drawing) beyondWords(areas ...[][]r2.Point) {
	beyond := func(o []r2.Point) bool { return !d.view.box().Contains(r2.RectFromPoints(o...)) }
	if !(d.look.Print || d.look.Alone) || !slices.ContainsFunc(slices.Concat(areas...), beyond) {
		return
	}
	line := func(id string) []textLine { return []textLine{{d.w.Label(id), d.text.mid, true, d.c.Ink}} }
	whole := line("draw-beyond")
	at := d.alongFrame(whole[0].text) // none: anywhere
	d.labels.add(caption{Wish: label.Wish{Key: "zones beyond", Rank: label.Flag, Spots: at, Must: true}, lines: whole, short: []form{{lines: line("draw-beyond-short")}}})
}

func (d *drawing) standOffText(r quantity.Length) string {
	text := d.w.Zone(part.ZoneStandOff)
	if r > 0 {
		text += " " + d.w.LengthNeeded(r)
	}
	return text
}

func insideSome(polys [][]r2.Point, p r2.Point) bool {
	for _, o := range polys {
		if terrain.Inside(o, p) {
			return true
		}
	}
	return false
}

// alongFrame are places for the middle of a text along the upper and the lower
// edge of the picture.
func (d *drawing) alongFrame(text string) []r2.Point {
	w, _, _ := pen.Measure(text, &pen.TextStyle{Size: d.text.mid, Bold: true})
	in := d.view.box().Expanded(r2.Point{X: -w/2 - d.px(10), Y: -d.text.mid - d.px(6)})
	var out []r2.Point
	for x := in.X.Lo; x <= in.X.Hi; x += d.px(24) {
		out = append(out, r2.Point{X: x, Y: in.Y.Lo}, r2.Point{X: x, Y: in.Y.Hi})
	}
	return out
}

// alongEdges are places along the edges that are in the picture, some 24 px
// apart.
func (d *brush) alongEdges(edges [][]r2.Point) []r2.Point {
	step, v := d.px(24), d.view.box()
	var out []r2.Point
	for _, e := range edges {
		rest := step / 2
		for i := 1; i < len(e); i++ {
			t0, t1, ok := pen.Cut(v, e[i-1], e[i])
			l := e[i-1].Sub(e[i]).Norm()
			if !ok || !(l > 0) {
				continue
			}
			s := t0*l + rest
			for ; s < t1*l; s += step {
				out = append(out, pen.Mix(e[i-1], e[i], s/l))
			}
			if t1 < 1 {
				rest = step / 2
			} else {
				rest = s - l
			}
		}
	}
	return out
}
