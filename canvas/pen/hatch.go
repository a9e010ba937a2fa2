package pen

import (
	"cmp"
	"math"
	"slices"

	"kedge/solver/quantity"

	"github.com/golang/geo/r2"
)

// maxHatchRows bounds the lines of one hatch; a finer pattern is thinned out by
// doubling its spacing.
const maxHatchRows = 4000

// hatcher resolves hatches into plain paths and keeps its memory.
type hatcher struct {
	flat    flattener
	crosses []cross
	path    Path
}

type cross struct {
	at  float64
	dir int
}

// draw gives the resolved hatch to a pen.
func (k *hatcher) draw(on Pen, outline *Path, h *Hatch, lo, hi r2.Point) {
	k.path.Reset()
	k.add(&k.path, outline, h, lo, hi)
	if k.path.Empty() {
		return
	}
	if h.Dots {
		on.Path(&k.path, &Style{Fill: h.Colour})
	} else {
		on.Path(&k.path, &Style{Stroke: h.Colour, Width: h.Width, Apart: true})
	}
}

// add appends to dst the hatch of outline: open two-point contours for lines,
// small closed ones for dots. lo and hi bound what is needed, in pen units. The
// lines end on the outline (non-zero rule).
func (k *hatcher) add(dst *Path, outline *Path, h *Hatch, lo, hi r2.Point) {
	box := outline.Bounds()
	if box.IsEmpty() || !h.on() {
		return
	}
	lo = r2.Point{X: math.Max(lo.X, box.X.Lo) - h.Width, Y: math.Max(lo.Y, box.Y.Lo) - h.Width}
	hi = r2.Point{X: math.Min(hi.X, box.X.Hi) + h.Width, Y: math.Min(hi.Y, box.Y.Hi) + h.Width}
	if lo.X > hi.X || lo.Y > hi.Y {
		return
	}
	// Turned axes: s along the lines, t across, origin at the hatch's.
	sin, cos := quantity.Degrees(h.AngleDeg).SinCos()
	turn := Affine{A: cos, B: sin, C: -sin, D: cos}
	turn.E = -(turn.A*h.OriginX + turn.C*h.OriginY)
	turn.F = -(turn.B*h.OriginX + turn.D*h.OriginY)
	back, _ := turn.invert()
	k.flat.reset()
	k.flat.add(outline, turn, h.Spacing/50) // a fiftieth of the spacing is not seen
	sMin, sMax, tMin, tMax := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, q := range [4]r2.Point{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}} {
		q = turn.Apply(q)
		sMin, sMax = math.Min(sMin, q.X), math.Max(sMax, q.X)
		tMin, tMax = math.Min(tMin, q.Y), math.Max(tMax, q.Y)
	}
	step := h.Spacing
	for (tMax-tMin)/step > maxHatchRows {
		step *= 2
	}
	for row := math.Ceil(tMin / step); row*step <= tMax; row++ {
		k.row(row * step)
		depth := 0
		for i, c := range k.crosses {
			if depth != 0 {
				a, b := math.Max(k.crosses[i-1].at, sMin), math.Min(c.at, sMax)
				if a < b {
					if h.Dots {
						addDots(dst, back, h, step, row, a, b)
					} else {
						p, q := back.Apply(r2.Point{X: a, Y: row * step}), back.Apply(r2.Point{X: b, Y: row * step})
						dst.Line(p.X, p.Y, q.X, q.Y)
					}
				}
			}
			depth += c.dir
		}
	}
}

// row finds where the line t crosses the outline, sorted along it.
func (k *hatcher) row(t float64) {
	k.crosses = k.crosses[:0]
	for _, c := range k.flat.contours {
		pts := k.flat.pts[c.from:c.to]
		prev := pts[len(pts)-1]
		for _, p := range pts {
			if (prev.Y <= t) != (p.Y <= t) {
				dir := 1
				if prev.Y > p.Y {
					dir = -1
				}
				k.crosses = append(k.crosses, cross{prev.X + (p.X-prev.X)*((t-prev.Y)/(p.Y-prev.Y)), dir})
			}
			prev = p
		}
	}
	slices.SortFunc(k.crosses, func(a, b cross) int {
		if c := cmp.Compare(a.at, b.at); c != 0 {
			return c
		}
		return cmp.Compare(a.dir, b.dir)
	})
}

// addDots puts dots between a and b, every other row shifted by half: regular
// octagons of the area of a circle of diameter Width.
//
//	area of an octagon = 2√2 · (corner radius)²
func addDots(dst *Path, back Affine, h *Hatch, step, row, a, b float64) {
	shift := 0.0
	if math.Mod(row, 2) != 0 {
		shift = step / 2
	}
	r := h.Width / 2 * math.Sqrt(math.Pi/(2*math.Sqrt2))
	for i := math.Ceil((a - shift) / step); i*step+shift <= b; i++ {
		c := back.Apply(r2.Point{X: i*step + shift, Y: row * step})
		for j := range 8 {
			sin, cos := quantity.Degrees(float64(j)*45 + 22.5).SinCos()
			if j == 0 {
				dst.MoveTo(c.X+r*cos, c.Y-r*sin)
			} else {
				dst.LineTo(c.X+r*cos, c.Y-r*sin)
			}
		}
		dst.Close()
	}
}
