package pen

import (
	"encoding/binary"
	"math"

	"github.com/golang/geo/r2"
)

// Straight pieces that lie apart from one another, such as the lines of a
// hatch, need no sum of areas: how much of a pixel a line covers depends on
// how far the pixel's middle is from the line's middle, and on the line's
// direction, alone. A table of the colour over that distance is made once for
// all pieces of one direction.
//
// The unit square seen along a direction with normal (nx, ny) is a trapezium:
//
//	outer half-width a = (|nx| + |ny|)/2, inner b = ||nx| − |ny||/2, area 1
//
// and a line of width w at distance d covers C(d + w/2) − C(d − w/2) of it, C
// being the trapezium's area left of its argument (Gupta and Sproull's way to
// draw smooth lines, with a square pixel for their cone).

const (
	// hairSteps is how finely the distance is told apart, to a pixel: 1/64 is
	// less than two shades of 255.
	hairSteps = 64
	// maxHairPx bounds the table: a wider stroke is outlined.
	maxHairPx = 16
	// hairSame is how far two directions may differ, as the sine of the angle,
	// to share a table: over a thousand pixels a hundredth of one.
	hairSame = 1e-5
	// levelSine is the slope below which a line counts as level or upright: over
	// ten thousand pixels it is off by a hundred-thousandth of one.
	levelSine = 1e-9
)

// hairTone is the colour at a distance from the middle of a line.
type hairTone struct {
	glaze glaze
	cover uint32 // 0 to 255
}

// hairs lists a stroke whose contours are single straight pieces, one op for
// each run of one direction. Where they meet an opaque colour is the same laid
// once or twice; a translucent one has to lie apart, as the style says or as
// one piece does. It is false if the path is something else.
func (r *Raster) hairs(from, to int, s *Style) bool {
	width := s.Width * r.scale
	if s.Cap != ButtCap || !(width <= maxHairPx) || r.clips[r.clip()].masked {
		return false
	}
	width = math.Max(width, minStrokePx)
	if len(s.Dash) > 0 || !s.Apart && to-from > 1 && s.Stroke.A != 255 {
		return false
	}
	all := r.flat.contours[from:to]
	for _, c := range all {
		if c.closed || c.to-c.from > 2 {
			return false
		}
	}
	colour := premultiply(s.Stroke)
	direction := func(c contour) (r2.Point, bool) {
		if c.to-c.from < 2 {
			return r2.Point{}, false
		}
		a, b := r.flat.pts[c.from], r.flat.pts[c.from+1]
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		return r2.Point{X: (b.X - a.X) / l, Y: (b.Y - a.Y) / l}, l > 0
	}
	var had [2]toned
	for i := 0; i < len(all); {
		u, ok := direction(all[i])
		k := i + 1
		if !ok {
			i = k
			continue
		}
		lo, hi := math.Inf(1), math.Inf(-1)
		for k = i; k < len(all); k++ {
			v, ok := direction(all[k])
			if !ok || !(math.Abs(u.X*v.Y-u.Y*v.X) <= hairSame) {
				break
			}
			a, b := r.flat.pts[all[k].from], r.flat.pts[all[k].from+1]
			lo, hi = math.Min(lo, math.Min(a.Y, b.Y)), math.Max(hi, math.Max(a.Y, b.Y))
		}
		op := rasterOp{kind: hairOp, clip: r.clip(), colour: colour, contours: [2]int{from + i, from + k}, width: width}
		op.tones = r.hairTones(&had, colour, u, width)
		r.list(op, lo-width/2-1, hi+width/2+1)
		i = k
	}
	return true
}

// toned is where the tones of lines of a direction lie.
type toned struct {
	u     r2.Point
	tones [2]int
}

// hairTones are the tones of lines of a direction, with those of the last two of the path
// at hand: the lines of a cross, one after another, have no more.
func (r *Raster) hairTones(had *[2]toned, colour premultiplied, u r2.Point, width float64) [2]int {
	if had[0].u != u {
		had[0], had[1] = had[1], had[0]
	}
	if had[0].u != u {
		from := len(r.tones)
		r.tones = addHairTones(r.tones, colour, u, width)
		had[0] = toned{u, [2]int{from, len(r.tones)}}
	}
	return had[0].tones
}

// addHairTones appends the tones from the middle of a line outward; the last
// is nothing.
func addHairTones(tones []hairTone, colour premultiplied, u r2.Point, width float64) []hairTone {
	nx, ny := math.Abs(u.Y), math.Abs(u.X)
	a, b := (nx+ny)/2, math.Abs(nx-ny)/2
	top := 1 / math.Max(nx, ny) // height of the trapezium
	area := func(x float64) float64 {
		left := func(x float64) float64 { // of x ≤ 0
			switch {
			case x <= -a:
				return 0
			case x < -b:
				return top * (x + a) * (x + a) / (2 * (a - b))
			}
			return top * ((a-b)/2 + x + b)
		}
		if x <= 0 {
			return left(x)
		}
		return 1 - left(-x)
	}
	n := int(math.Ceil((width/2 + a) * hairSteps))
	var tone hairTone
	for i := range n + 1 {
		d := float64(i) / hairSteps
		cover := uint32(255*max(0, min(1, area(d+width/2)-area(d-width/2))) + 0.5)
		if i == 0 || cover != tone.cover {
			tone = hairTone{colour.times(cover), cover}
		}
		tones = append(tones, tone)
	}
	return append(tones, hairTone{})
}

// hair draws the pieces of an op into the band's rows.
func (b *bandBuffer) hair(r *Raster, op *rasterOp) {
	c := &r.clips[op.clip]
	tones := r.tones[op.tones[0]:op.tones[1]]
	reach := float64(len(tones)-2) / hairSteps
	left, right := max(0, c.x0), min(b.w, c.x1)
	solid, inner := op.colour.solid(), -1.0
	for i := range tones { // how far from the middle the colour is whole
		if tones[i].glaze.rest != 0 {
			break
		}
		inner = float64(i) / hairSteps
	}
	for _, k := range r.flat.contours[op.contours[0]:op.contours[1]] {
		p, q := r.flat.pts[k.from], r.flat.pts[k.from+1]
		yMin, yMax := p.Y, q.Y
		if yMin > yMax {
			yMin, yMax = yMax, yMin
		}
		if yMax+reach <= float64(b.y0) || yMin-reach >= float64(b.y1) {
			continue
		}
		h := newHairline(p, q, reach, inner)
		first := max(b.y0, c.y0, int(math.Floor(math.Max(yMin-reach, -1))))
		last := min(b.y1, c.y1, int(math.Ceil(math.Min(yMax+reach, float64(b.y1)))))
		for y := first; y < last; y++ {
			fy := float64(y) + 0.5 - p.Y
			x, end, ok := h.span(fy, left, right)
			if !ok {
				continue
			}
			from, to := h.whole(fy, x, end)
			line := r.img.Pix[y*r.img.Stride:]
			for i := from; i <= to; i++ {
				binary.LittleEndian.PutUint32(line[4*i:], solid)
			}
			for ; x <= end; x++ {
				if x == from {
					x = to
					continue
				}
				fx := float64(x) + 0.5 - p.X
				t := &tones[min(int(math.Abs(h.ux*fy-h.uy*fx)*hairSteps+0.5), len(tones)-1)]
				if t.cover == 0 {
					continue
				}
				if s := h.ux*fx + h.uy*fy; s >= 0.5 && s <= h.l-0.5 {
					t.glaze.over(line[4*x:])
				} else {
					ends := max(0, min(1, s+0.5)) * max(0, min(1, h.l-s+0.5))
					op.colour.times(uint32(float64(t.cover)*ends + 0.5)).over(line[4*x:])
				}
			}
		}
	}
}

// hairline is a straight hair: in a row fy below its start the middles of pixels
// x right of it that are within reach of the line are those with
// |ux·fy − uy·x| ≤ reach; and of those the ones no more than half a pixel beyond
// its ends: −½ ≤ ux·x + uy·fy ≤ l+½.
type hairline struct {
	p                                          r2.Point
	l, ux, uy                                  float64 // length and direction
	reach, inner                               float64 // of its colour, and of its whole colour
	level, upright                             bool
	byY, byX, halfAcross, halfAlong, halfInner float64
}

func newHairline(p, q r2.Point, reach, inner float64) hairline {
	h := hairline{p: p, l: math.Hypot(q.X-p.X, q.Y-p.Y), reach: reach, inner: inner}
	h.ux, h.uy = (q.X-p.X)/h.l, (q.Y-p.Y)/h.l
	h.level, h.upright = math.Abs(h.uy) < levelSine, math.Abs(h.ux) < levelSine
	if !h.level {
		h.byY = 1 / h.uy
		h.halfAcross, h.halfInner = math.Abs(h.byY)*reach, math.Abs(h.byY)*inner
	}
	if !h.upright {
		h.byX = 1 / h.ux
		h.halfAlong = math.Abs(h.byX) * (h.l + 1) / 2
	}
	return h
}

// span is the first and the last pixel of a row that the hair reaches.
func (h *hairline) span(fy float64, left, right int) (x, end int, ok bool) {
	lo, hi := float64(left)+0.5-h.p.X, float64(right)-0.5-h.p.X
	if !h.level {
		m := h.ux * fy * h.byY
		lo, hi = max(lo, m-h.halfAcross), min(hi, m+h.halfAcross)
	} else if d := h.ux * fy; d > h.reach || d < -h.reach {
		return 0, 0, false
	}
	if !h.upright {
		m := (h.l/2 - h.uy*fy) * h.byX
		lo, hi = max(lo, m-h.halfAlong), min(hi, m+h.halfAlong)
	} else if s := h.uy * fy; s < -0.5 || s > h.l+0.5 {
		return 0, 0, false
	}
	if !(lo <= hi) {
		return 0, 0, false
	}
	x, end = int(math.Ceil(lo+h.p.X-0.5)), int(math.Floor(hi+h.p.X-0.5))
	return x, end, x <= end
}

// whole is the pixels of a span that are whole, between two ends where they are
// not; from end+1 to end if none is.
func (h *hairline) whole(fy float64, x, end int) (from, to int) {
	if !(h.inner > 0) {
		return end + 1, end
	}
	from, to = x, end
	if !h.level {
		m := h.ux*fy*h.byY + h.p.X - 0.5
		from, to = max(from, int(math.Ceil(m-h.halfInner))), min(to, int(math.Floor(m+h.halfInner)))
	} else if d := h.ux * fy; d > h.inner || d < -h.inner {
		to = from - 1
	}
	if !h.upright {
		m := (h.l/2-h.uy*fy)*h.byX + h.p.X - 0.5
		half := h.halfAlong - math.Abs(h.byX)
		from, to = max(from, int(math.Ceil(m-half))), min(to, int(math.Floor(m+half)))
	} else if s := h.uy * fy; s < 0.5 || s > h.l-0.5 {
		to = from - 1
	}
	if from > to {
		return end + 1, end
	}
	return from, to
}
