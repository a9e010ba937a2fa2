package pen

import (
	"errors"
	"image"
	"image/color"
	"image/draw"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"github.com/golang/geo/r2"
)

// Raster draws into an *image.RGBA. It lists what it is told and draws the
// list at Flush: first outlines are made from paths, then the picture is filled
// in bands of fixed height, each by whichever worker is free. The result does
// not depend on the number of workers. One Raster may be used frame after
// frame with Target; it keeps its memory and its glyph outlines.
type Raster struct {
	img   *image.RGBA
	base  Affine // pen units → pixels of the image
	scale float64

	flat     flattener // in pixels
	ops      []rasterOp
	dashes   []float64
	clips    []rasterClip // 0 is the whole image
	stack    []int        // clips in force, as indices
	hatch    hatcher
	glyphs   glyphCache
	photos   photoCache
	places   []placedGlyph
	stencils []placedStencil
	tones    []hairTone
	first    error

	workers []*rasterWorker
}

// rasterOp is one thing to draw: a fill, a stroke, a run of glyphs, a picture.
type rasterOp struct {
	kind       opKind
	clip       int
	colour     premultiplied
	contours   [2]int // range in flat.contours, or of places or stencils
	minY, maxY int    // rows it may touch, exclusive end

	width      float64
	cap        Cap
	join       Join
	dash       [2]int // range in dashes
	dashOffset float64
	tones      [2]int // range in tones

	photo *photo
	place Affine // pixels of the image → pixels of the photo
	alpha float64

	worker int // whose arena holds the edges
	edges  [2]int
}

type opKind uint8

const (
	fillOp opKind = iota
	strokeOp
	glyphOp
	stampOp
	photoOp
	hairOp
)

type rasterClip struct {
	x0, y0, x1, y1 int
	parent         int // clip this one is inside of; -1 for none
	contours       [2]int
	masked         bool // contours, or those of a parent, cut inside the box
}

// ErrNotFinite says that something was left out because a coordinate, a length
// or an angle was NaN or infinite.
var ErrNotFinite = errors.New("pen: a coordinate is not finite, the thing was not drawn")

// NewRaster returns a pen on img whose unit is scale pixels: 1 on screen,
// dpi/25.4 to draw in millimetres.
func NewRaster(img *image.RGBA, scale float64) *Raster {
	r := &Raster{}
	r.Target(img, scale, 0, 0)
	return r
}

// Target starts a new picture on img: a unit is scale pixels, pen origin is at
// (dxPx, dyPx) from the image's top left pixel. What was not flushed is
// dropped, clips and Err are cleared.
func (r *Raster) Target(img *image.RGBA, scale, dxPx, dyPx float64) {
	r.img, r.scale = img, scale
	r.base = ScaleMove(scale, dxPx, dyPx)
	r.first = nil
	r.drop()
	r.clips = append(r.clips[:0], rasterClip{x1: img.Rect.Dx(), y1: img.Rect.Dy(), parent: -1})
	r.stack = r.stack[:0]
	if !(scale > 0) || !r.base.finite() {
		r.fail(ErrNotFinite)
	}
}

func (r *Raster) drop() {
	r.flat.reset()
	r.ops = r.ops[:0]
	r.dashes = r.dashes[:0]
	r.places = r.places[:0]
	r.stencils = r.stencils[:0]
	r.tones = r.tones[:0]
}

func (r *Raster) fail(err error) {
	if r.first == nil {
		r.first = err
	}
}

// Err is the first reason why something was not drawn since Target.
func (r *Raster) Err() error { return r.first }

// Paper fills the whole image with one colour, dropping what was not flushed.
func (r *Raster) Paper(c color.NRGBA) {
	r.flat.reset()
	r.ops = r.ops[:0]
	draw.Draw(r.img, r.img.Rect, image.NewUniform(c), image.Point{}, draw.Src)
	r.reclip()
}

func (r *Raster) clip() int {
	if n := len(r.stack); n > 0 {
		return r.stack[n-1]
	}
	return 0
}

// Path implements Pen.
func (r *Raster) Path(p *Path, s *Style) {
	box := p.Bounds()
	if box.IsEmpty() {
		if !p.Empty() {
			r.fail(ErrNotFinite)
		}
		return
	}
	fill, hatch, stroke := s.Fill.A > 0, s.Hatch.on(), s.stroked()
	if !fill && !hatch && !stroke {
		return
	}
	reach := 0.0
	if stroke {
		reach = s.Width*r.scale/2*MiterLimit + 1
	}
	c := &r.clips[r.clip()]
	a, b := r.base.Apply(box.Lo()), r.base.Apply(box.Hi())
	if a.X-reach > float64(c.x1) || b.X+reach < float64(c.x0) ||
		a.Y-reach > float64(c.y1) || b.Y+reach < float64(c.y0) {
		return
	}
	tolerance := flatTolerance
	if stroke {
		tolerance = edgedTolerance
	}
	from, to := r.flat.add(p, r.base, tolerance)
	op := rasterOp{clip: r.clip(), contours: [2]int{from, to}}
	if fill {
		op.kind, op.colour = fillOp, premultiply(s.Fill)
		r.list(op, a.Y, b.Y)
	}
	if hatch {
		lo, hi := r.visible()
		r.hatch.draw(r, p, &s.Hatch, lo, hi)
	}
	if stroke && !r.hairs(from, to, s) {
		op.kind, op.colour = strokeOp, premultiply(s.Stroke)
		op.width, op.cap, op.join = s.Width*r.scale, s.Cap, s.Join
		if pattern, _ := s.dashes(); pattern != nil {
			op.dash[0] = len(r.dashes)
			for _, d := range pattern {
				r.dashes = append(r.dashes, d*r.scale)
			}
			if len(pattern)%2 == 1 {
				for _, d := range pattern {
					r.dashes = append(r.dashes, d*r.scale)
				}
			}
			op.dash[1] = len(r.dashes)
			op.dashOffset = s.DashOffset * r.scale
		}
		r.list(op, a.Y-reach, b.Y+reach)
	}
}

// list adds an op with the rows it reaches, in pixels.
func (r *Raster) list(op rasterOp, minY, maxY float64) {
	c := &r.clips[op.clip]
	op.minY = int(math.Max(math.Floor(minY), float64(c.y0)))
	op.maxY = int(math.Min(math.Ceil(maxY)+1, float64(c.y1)))
	if op.minY < op.maxY && c.x0 < c.x1 {
		r.ops = append(r.ops, op)
	}
}

// visible is the clip's box in pen units.
func (r *Raster) visible() (lo, hi r2.Point) {
	c := r.clips[r.clip()]
	inv, ok := r.base.invert()
	if !ok {
		return
	}
	return inv.Apply(r2.Point{X: float64(c.x0), Y: float64(c.y0)}), inv.Apply(r2.Point{X: float64(c.x1), Y: float64(c.y1)})
}

// PushClip implements Pen. An upright rectangle snaps to whole pixels.
func (r *Raster) PushClip(p *Path) {
	up := r.clip()
	c := r.clips[up]
	c.parent, c.contours = up, [2]int{}
	box := p.Bounds()
	if box.IsEmpty() {
		if !p.Empty() {
			r.fail(ErrNotFinite)
		}
		c.x1, c.y1 = c.x0, c.y0 // nothing is inside
	} else {
		a, b := r.base.Apply(box.Lo()), r.base.Apply(box.Hi())
		if p.rect() {
			a, b = r2.Point{X: math.Round(a.X), Y: math.Round(a.Y)}, r2.Point{X: math.Round(b.X), Y: math.Round(b.Y)}
		} else {
			c.contours[0], c.contours[1] = r.flat.add(p, r.base, flatTolerance)
			c.masked = true
		}
		c.x0 = int(math.Max(float64(c.x0), math.Min(math.Floor(a.X), float64(c.x1))))
		c.y0 = int(math.Max(float64(c.y0), math.Min(math.Floor(a.Y), float64(c.y1))))
		c.x1 = int(math.Min(float64(c.x1), math.Max(math.Ceil(b.X), float64(c.x0))))
		c.y1 = int(math.Min(float64(c.y1), math.Max(math.Ceil(b.Y), float64(c.y0))))
	}
	r.clips = append(r.clips, c)
	r.stack = append(r.stack, len(r.clips)-1)
}

// PopClip implements Pen.
func (r *Raster) PopClip() {
	if n := len(r.stack); n > 0 {
		r.stack = r.stack[:n-1]
	}
}

// Fixed so that a picture never depends on the machine.
const (
	bandRows = 32 // rows of a band
	opChunk  = 16 // ops a worker takes at once when making edges
	// maxWorkers bounds the memory of band buffers.
	maxWorkers = 8
)

// Flush draws the list and returns Err. Clips in force stay in force.
func (r *Raster) Flush() error {
	if len(r.ops) == 0 {
		return r.first
	}
	n := min(runtime.GOMAXPROCS(0), maxWorkers)
	for len(r.workers) < n {
		r.workers = append(r.workers, newRasterWorker(len(r.workers)))
	}
	w, h := r.img.Rect.Dx(), r.img.Rect.Dy()
	for _, k := range r.workers {
		k.begin(r, w, h)
	}
	chunks := (len(r.ops) + opChunk - 1) / opChunk
	r.share(n, chunks, func(k *rasterWorker, i int) {
		for j := i * opChunk; j < min((i+1)*opChunk, len(r.ops)); j++ {
			k.outline(r, &r.ops[j])
		}
	})
	bands := (h + bandRows - 1) / bandRows
	r.share(n, bands, func(k *rasterWorker, i int) {
		k.band(r, i*bandRows, min((i+1)*bandRows, h))
	})
	r.drop()
	r.reclip()
	return r.first
}

// share gives the jobs 0…jobs−1 to n workers.
func (r *Raster) share(n, jobs int, do func(k *rasterWorker, job int)) {
	if n = min(n, jobs); n <= 1 {
		for i := range jobs {
			do(r.workers[0], i)
		}
		return
	}
	var next atomic.Int64
	var all sync.WaitGroup
	run := func(k *rasterWorker) {
		for {
			i := int(next.Add(1)) - 1
			if i >= jobs {
				return
			}
			do(k, i)
		}
	}
	for _, k := range r.workers[1:n] {
		all.Go(func() { run(k) })
	}
	run(r.workers[0])
	all.Wait()
}
