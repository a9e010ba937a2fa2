package draw

import (
	"image/color"
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/canvas/pen"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
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
	orange    bool
}

// zoneLooks are in the order in which they are drawn: what matters most on top.
var zoneLooks = [...]zoneLook{
	{kind: part.ZoneStandOff, dash: []float64{14, 5, 2, 5}, orange: true},
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

// zoneWord is the word of a kind of zone, and where along its edge it may
// stand.
type zoneWord struct {
	key, text string
	at        []r2.Point
	colour    color.NRGBA
}

// zoneArea is the zones of one kind: they are one area, their hatch and edge
// are those of their union.
type zoneArea struct {
	look            *zoneLook
	of              []*part.Zone
	outlines, edges [][]r2.Point
}

// zoneAreas lays out every kind of zone that is not switched off, and notes
// edges and words for the labels.
func (d *drawing) zoneAreas() []zoneArea {
	if d.a == nil {
		return nil
	}
	var out []zoneArea
	for i := range zoneLooks {
		look := &zoneLooks[i]
		k := look.kind
		if d.s.Show.HideZones[string(k)] {
			continue
		}
		z := zoneArea{look: look}
		for i := range d.a.Zones {
			if q := &d.a.Zones[i]; q.Kind == k && len(q.Outline) >= 3 {
				z.outlines = append(z.outlines, counterClockwise(d.outline(q.Outline)))
				z.of = append(z.of, q)
			}
		}
		if len(z.outlines) == 0 {
			continue
		}
		z.edges = unionEdges(z.outlines, d.view.box().ExpandedByMargin(d.px(20)))
		for _, e := range z.edges {
			for i := 1; i < len(e); i++ {
				d.labels.grid.Segment(e[i-1], e[i], d.px(1), label.Edge)
			}
		}
		_, text := d.zoneColours(look)
		d.zoneWords(k, z.of, z.outlines, z.edges, text)
		out = append(out, z)
	}
	return out
}

// zoneColours are those of a kind's lines and of its word.
func (d *brush) zoneColours(look *zoneLook) (line, text color.NRGBA) {
	if look.orange {
		return d.c.ZoneOrange, d.c.ZoneOrangeText
	}
	return d.c.ZoneRed, d.c.ZoneRedText
}

// crumbMM is the shortest piece of a hatch, millimetres of a screen of 96 pixels
// an inch: what is left over between clearings says nothing. (ours)
const crumbMM = 1

// hatchWidth is the stroke of a hatch, px.
const hatchWidth = 0.9

// zones draws the areas: their hatch as far as nothing else is there, then
// their edge.
func (d *drawing) zones(areas []zoneArea) {
	if len(areas) == 0 {
		return
	}
	off, plates := d.clearings(), d.bareLabels()
	v := d.view.box()
	for i := range areas {
		z := &areas[i]
		look := z.look
		line, _ := d.zoneColours(look)
		if look.spacingMM > 0 {
			h := hatchOf{angleDeg: look.angleDeg, spacing: look.spacingMM * mmPx * d.u * d.sym, origin: d.at(plan.Point{}), view: v, mem: &d.labels.mem.crossings, crumb: d.px(crumbMM * mmPx)}
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

// zoneWords notes the word of a kind of zone: once, and each stand-off of
// another radius with its own.
func (d *drawing) zoneWords(k part.ZoneKind, of []*part.Zone, outlines, edges [][]r2.Point, c color.NRGBA) {
	if k != part.ZoneStandOff {
		d.zoneTexts = append(d.zoneTexts, zoneWord{"zone " + string(k), d.w.Zone(k), d.alongEdges(edges), c})
		return
	}
	var said []quantity.Length
	for i, z := range of {
		same := false
		for _, r := range said {
			same = same || math.Abs(float64(r-z.Radius)) < 0.05 // one figure after rounding to a decimetre
		}
		if same {
			continue
		}
		said = append(said, z.Radius)
		text := d.w.Zone(k)
		if z.Radius > 0 {
			text += " " + d.w.LengthNeeded(z.Radius)
		}
		var own []r2.Point // places on the edge that are this ring's
		for _, p := range d.alongEdges(edges) {
			if onOutline(p, outlines[i], d.px(1)) {
				own = append(own, p)
			}
		}
		d.zoneTexts = append(d.zoneTexts, zoneWord{"zone " + string(k) + " " + text, text, own, c})
	}
}

// onOutline reports whether a point lies on the edge of a polygon.
func onOutline(p r2.Point, poly []r2.Point, within float64) bool {
	for i, a := range poly {
		if d, _ := terrain.ToSegment(p, a, poly[(i+1)%len(poly)]); d <= within {
			return true
		}
	}
	return false
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
