package draw

import (
	"math"
	"slices"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// zoneLook is how a kind of zone is drawn: hatch, edge, colour.
type zoneLook struct {
	kind      part.ZoneKind
	angleDeg  float64
	spacingMM float64 // 0: no hatch
	dots      bool
	arrows    bool
	dash      []float64 // of the edge, px
}

// zoneLooks are of the kinds that make the keep-out, in the order in which they
// are drawn: what matters most on top.
var zoneLooks = [...]zoneLook{
	{kind: part.ZoneCasualty, angleDeg: 0, spacingMM: 5, dash: []float64{16, 3, 6, 3}},
	{kind: part.ZoneRollAway, angleDeg: 30, spacingMM: 4.4, dots: true, dash: fallDash},
	{kind: part.ZoneSlide, angleDeg: 30, spacingMM: 4.4, dots: true, dash: fallDash},
	{kind: part.ZoneTree, angleDeg: 30, spacingMM: 4.4, dots: true, dash: fallDash},
	{kind: part.ZoneRelease, arrows: true, dash: []float64{1.6, 4}},
	{kind: part.ZoneRecoil, angleDeg: 135, spacingMM: 4, dash: []float64{14, 6}},
	{kind: part.ZoneBight, angleDeg: 45, spacingMM: 2},
}

// fallDash is the edge of where something falls, rolls or slides.
var fallDash = []float64{12, 4, 2, 4, 2, 4}

// mmPx is a millimetre of a screen of 96 pixels an inch.
const mmPx = 96 / 25.4

// zoneArea is zones that are one area: hatch and edge are those of their union.
type zoneArea struct {
	of              []*part.Zone
	outlines, edges [][]r2.Point
}

// zoneKind is the area of one kind, drawn with its own hatch and edge.
type zoneKind struct {
	zoneArea
	look *zoneLook
}

// area is the zones that are to be one area.
func (d *drawing) area(of func(part.ZoneKind) bool) zoneArea {
	var z zoneArea
	for i := range d.a.Zones {
		if q := &d.a.Zones[i]; len(q.Outline) >= 3 && !d.s.Show.HideZones[string(q.Kind)] && of(q.Kind) {
			z.outlines = append(z.outlines, counterClockwise(d.outline(q.Outline)))
			z.of = append(z.of, q)
		}
	}
	z.edges = d.edges(z.outlines)
	return z
}

// edges are those of a union, as far as they are in the picture or near it.
func (d *brush) edges(outlines [][]r2.Point) [][]r2.Point {
	return unionEdges(outlines, d.view.box().ExpandedByMargin(d.px(20)))
}

// kindsApart are the kinds of zone drawn with their own hatch and edge: all where
// that is asked for, else those that what is pointed at stands in or makes.
func (d *drawing) kindsApart() []zoneKind {
	pointed := d.kindsPointed()
	var out []zoneKind
	for i := range zoneLooks {
		look := &zoneLooks[i]
		if !d.s.Show.ZonesApart && !slices.Contains(pointed, look.kind) {
			continue
		}
		if z := d.area(func(k part.ZoneKind) bool { return k == look.kind }); len(z.outlines) > 0 {
			out = append(out, zoneKind{z, look})
		}
	}
	return out
}

// kindsPointed are the kinds of zone that a person under the pointer stands in,
// and those that the finding pointed at is about: that its people stand in, or
// that come from its things.
func (d *drawing) kindsPointed() []part.ZoneKind {
	var out []part.ZoneKind
	if at := d.personAt(d.o.Hover); at != nil {
		out = append(out, at.Inside...)
	}
	if d.o.Flagged == "" {
		return out
	}
	for i := range d.a.Findings {
		f := &d.a.Findings[i]
		if f.Key() != d.o.Flagged {
			continue
		}
		for _, id := range f.Things {
			if at := d.personAt(id); at != nil {
				out = append(out, at.Inside...)
			}
			for k := range d.a.Zones {
				if z := &d.a.Zones[k]; z.Thing == id {
					out = append(out, z.Kind)
				}
			}
		}
	}
	return out
}

// crumbMM is the shortest piece of a hatch, millimetres of a screen of 96 pixels
// an inch: what is left over between clearings says nothing. (ours)
const crumbMM = 1

// hatchWidth is the stroke of a hatch, px.
const hatchWidth = 0.9

// drawKinds draws kinds apart: their hatch as far as nothing else is there, then
// their edge.
func (d *drawing) drawKinds(kinds []zoneKind, off *clearings, plates []r2.Rect) {
	for i := range kinds {
		z := &kinds[i]
		look := z.look
		line := d.c.ZoneRed
		if look.spacingMM > 0 {
			h := d.hatch(look.angleDeg, look.spacingMM)
			s := pen.Style{Stroke: faded(line, d.hatchTone()), Width: d.px(hatchWidth * d.bold), Apart: true}
			d.path.Reset()
			if look.dots {
				s.Width = d.sy(dotSide)
				h.dots(&d.path, z.outlines, off, s.Width)
			} else {
				h.lines(&d.path, z.outlines, off)
			}
			d.pen.Path(&d.path, &s)
		}
		if look.arrows {
			d.path.Reset()
			for i, o := range z.outlines {
				d.flightArrows(z.of[i], o, off)
			}
			d.pen.Path(&d.path, &pen.Style{Stroke: line, Width: d.lw(1.1), Join: pen.RoundJoin})
		}
		d.path.Reset()
		d.brokenEdges(z.edges, plates)
		d.stroke(line, 1.4, look.dash...)
	}
}

// hatch is a pattern tied to the ground.
func (d *drawing) hatch(angleDeg, spacingMM float64) hatchOf {
	return hatchOf{angleDeg: angleDeg, spacing: spacingMM * mmPx * d.u * d.sym, origin: d.at(plan.Point{}), view: d.view.box(), mem: &d.labels.mem.crossings, crumb: d.px(crumbMM * mmPx)}
}

// dotSide is the side of a dot, a square on its corner, px.
const dotSide = 1.95

// hatchTone is how strong hatches are: the eye has to find lines and numbers
// first. What copies has no tones. (ours)
func (d *brush) hatchTone() float64 {
	switch {
	case d.look.Print:
		return 1
	case d.look.Field:
		return 0.75
	case d.look.Dark:
		return 0.45
	}
	return 0.55
}

// flightArrows adds small arrows in rows along the way a part would fly.
func (d *drawing) flightArrows(z *part.Zone, outline []r2.Point, off *clearings) {
	from, dir, ok := d.flight(z, outline)
	if !ok {
		return
	}
	side := dir.Ortho()
	step, gap, h := d.sy(52), d.sy(34), d.sy(5)
	v := d.view.box()
	far, wide := 0.0, 0.0
	for _, p := range outline {
		far = math.Max(far, p.Sub(from).Dot(dir))
		wide = math.Max(wide, math.Abs(p.Sub(from).Dot(side)))
	}
	far, wide = math.Min(far, d.px(4000)), math.Min(wide, d.px(3000))
	for row := math.Ceil(-wide / gap); row*gap <= wide; row++ {
		shift := 0.0
		if math.Mod(row, 2) != 0 {
			shift = step / 2
		}
		for s := step*0.6 + shift; s < far; s += step {
			q := pen.Along(pen.Along(from, dir, s), side, row*gap)
			tip := pen.Along(q, dir, h*2)
			if !v.ContainsPoint(q) || !terrain.Inside(outline, q) || !terrain.Inside(outline, tip) {
				continue
			}
			left, right := pen.Along(pen.Along(tip, dir, -h*0.9), side, h*0.55), pen.Along(pen.Along(tip, dir, -h*0.9), side, -h*0.55)
			if off.meets(q, tip) || off.meets(left, tip) || off.meets(right, tip) {
				continue
			}
			d.path.Line(q.X, q.Y, tip.X, tip.Y)
			d.path.Polyline(left, tip, right)
		}
	}
}

// flight is where a release begins and its direction: from the thing along the
// force on it, else from the thing through the middle of the zone.
func (d *drawing) flight(z *part.Zone, outline []r2.Point) (from, dir r2.Point, ok bool) {
	var middle r2.Point
	for _, p := range outline {
		middle = middle.Add(p.Mul(1 / float64(len(outline))))
	}
	if n := d.node(z.Thing); n != nil {
		from = d.atVec(n.At)
		if dir = (r2.Point{X: n.Force.X, Y: -n.Force.Y}).Normalize(); dir != (r2.Point{}) && dir.Dot(middle.Sub(from)) > 0 {
			return from, dir, true
		}
	} else if at, known := d.thingPlace(z.Thing); known {
		from = at
	} else {
		return from, dir, false
	}
	dir = middle.Sub(from).Normalize()
	return from, dir, dir != (r2.Point{})
}

func ring(c r2.Point, r float64) []r2.Point {
	out := make([]r2.Point, 12)
	for i := range out {
		s, k := math.Sincos(float64(i) * math.Pi / 6)
		out[i] = r2.Point{X: c.X + r*k, Y: c.Y - r*s}
	}
	return out
}
