package pen

import (
	"math"

	"kedge/solver/quantity"

	"github.com/golang/geo/r2"
	"golang.org/x/image/font/sfnt"
)

// Text at screen sizes is drawn from cached outlines; larger text, seldom the
// same twice, goes through Path.
const (
	maxCachedSizePx = 256
	maxCachedGlyphs = 4096
)

// glyphKey names an outline in pixels about its origin. halo is the outline's
// half width, 0 for the letter itself.
type glyphKey struct {
	bold                 bool
	id                   sfnt.GlyphIndex
	sizePx, rotate, halo float64
}

type placedGlyph struct {
	edges []edge
	x, y  float64
}

type glyphCache struct {
	edges  map[glyphKey][]edge
	buf    sfnt.Buffer
	path   Path
	flat   flattener
	stroke *stroker

	halos     map[haloKey]*stencil
	haloBytes int
	moved     []edge
	sum       bandBuffer
}

// everywhere keeps all edges of a glyph about its origin.
var everywhere = Box(-1e4, -1e4, 1e4, 1e4)

func (c *glyphCache) outline(f *face, key glyphKey) ([]edge, error) {
	if e, ok := c.edges[key]; ok {
		return e, nil
	}
	if c.edges == nil || len(c.edges) >= maxCachedGlyphs {
		c.edges = make(map[glyphKey][]edge, 256)
	}
	sin, cos := quantity.Degrees(key.rotate).SinCos()
	c.path.Reset()
	err := f.addOutline(&c.path, &c.buf, key.id,
		Affine{A: cos * key.sizePx, B: -sin * key.sizePx, C: sin * key.sizePx, D: cos * key.sizePx})
	if err != nil {
		return nil, err
	}
	c.flat.reset()
	tolerance := float64(glyphTolerance)
	if key.halo > 0 {
		tolerance = haloTolerance
	}
	from, to := c.flat.add(&c.path, Identity(), tolerance)
	var edges []edge
	if key.halo == 0 {
		edges = addContours(nil, &everywhere, &c.flat, [2]int{from, to})
	} else {
		if c.stroke == nil {
			c.stroke = newStroker()
		}
		s := c.stroke
		s.set(everywhere, 2*key.halo, RoundCap, RoundJoin, nil, 0)
		s.scan.edges = nil
		for _, k := range c.flat.contours {
			s.contour(c.flat.pts[k.from:k.to], k.closed)
		}
		edges, s.scan.edges = s.scan.edges, nil
	}
	c.edges[key] = edges
	return edges, nil
}

// Text implements Pen.
func (r *Raster) Text(x, y float64, text string, t *TextStyle) {
	if !finite(x) || !finite(y) || !finite(t.Size) || !finite(t.RotateDeg) {
		r.fail(ErrNotFinite)
		return
	}
	if t.Size <= 0 || text == "" {
		return
	}
	f, err := faceOf(t.Bold)
	if err != nil {
		r.fail(err)
		return
	}
	sizePx, haloPx := t.Size*r.scale, 0.0
	if t.haloed() {
		haloPx = t.HaloWidth * r.scale
	}
	at := r.base.Apply(r2.Point{X: x, Y: y})
	c := &r.clips[r.clip()]
	reach := (f.width(text)+f.ascent+f.descent)*sizePx + haloPx + 1
	if at.X+reach < float64(c.x0) || at.X-reach > float64(c.x1) ||
		at.Y+reach < float64(c.y0) || at.Y-reach > float64(c.y1) {
		return
	}
	if sizePx > maxCachedSizePx {
		r.largeText(x, y, text, t)
		return
	}
	sin, cos := quantity.Degrees(t.RotateDeg).SinCos()
	up, down := f.ascent*sizePx+haloPx+1, f.descent*sizePx+haloPx+1
	start := f.startShift(text, t.Anchor) * sizePx
	end := start + f.width(text)*sizePx
	minY, maxY := math.Inf(1), math.Inf(-1)
	for _, q := range [4]r2.Point{{X: start - haloPx, Y: -up}, {X: end + haloPx, Y: -up}, {X: start - haloPx, Y: down}, {X: end + haloPx, Y: down}} {
		qy := at.Y - q.X*sin + q.Y*cos
		minY, maxY = math.Min(minY, qy), math.Max(maxY, qy)
	}
	run := glyphRun{f: f, text: text, key: glyphKey{bold: t.Bold, sizePx: sizePx, rotate: t.RotateDeg}, at: at, sin: sin, cos: cos, start: start, minY: minY, maxY: maxY}
	if haloPx > 0 {
		if t.Halo.A == 255 && sizePx <= maxHaloSizePx && haloPx <= maxHaloSizePx {
			r.stampRun(&run, haloPx, premultiply(t.Halo))
		} else {
			r.edgeRun(&run, haloPx, premultiply(t.Halo))
		}
	}
	switch {
	case t.Colour.A == 255 && sizePx <= maxStampSizePx && t.RotateDeg == 0:
		r.stampRun(&run, 0, premultiply(t.Colour))
	case t.Colour.A > 0:
		r.edgeRun(&run, 0, premultiply(t.Colour))
	}
}

// glyphRun is a text on its way into the picture.
type glyphRun struct {
	f          *face
	text       string
	key        glyphKey // of its letters, but for the letter and the halo
	at         r2.Point
	sin, cos   float64
	start      float64 // of the first letter, pixels from at
	minY, maxY float64
}

// each calls put for every letter with its place, as long as there is no error.
func (n *glyphRun) each(halo float64, put func(key glyphKey, x, y float64) error) error {
	along := n.start
	for _, ch := range n.text {
		g := n.f.glyph(ch)
		key := n.key
		key.id, key.halo = g.id, halo
		if err := put(key, n.at.X+n.cos*along, n.at.Y-n.sin*along); err != nil {
			return err
		}
		along += g.advance * n.key.sizePx
	}
	return nil
}

// edgeRun lists the letters as edges.
func (r *Raster) edgeRun(n *glyphRun, halo float64, colour premultiplied) {
	op := rasterOp{kind: glyphOp, clip: r.clip(), colour: colour}
	op.contours[0] = len(r.places)
	err := n.each(halo, func(key glyphKey, x, y float64) error {
		edges, err := r.glyphs.outline(n.f, key)
		if len(edges) > 0 && err == nil {
			r.places = append(r.places, placedGlyph{edges, x, y})
		}
		return err
	})
	if err != nil {
		r.fail(err)
		return
	}
	op.contours[1] = len(r.places)
	r.list(op, n.minY, n.maxY)
}

// stampRun lists the letters as stamps.
func (r *Raster) stampRun(n *glyphRun, halo float64, colour premultiplied) {
	op := rasterOp{kind: stampOp, clip: r.clip(), colour: colour}
	op.contours[0] = len(r.stencils)
	err := n.each(halo, func(key glyphKey, x, y float64) error {
		p, err := r.glyphs.stamp(n.f, key, x, y)
		if p.s.w > 0 && err == nil {
			r.stencils = append(r.stencils, p)
		}
		return err
	})
	if err != nil {
		r.fail(err)
		return
	}
	op.contours[1] = len(r.stencils)
	r.list(op, n.minY, n.maxY)
}

func (r *Raster) largeText(x, y float64, text string, t *TextStyle) {
	var p Path
	if err := TextPath(&p, x, y, text, t); err != nil {
		r.fail(err)
		return
	}
	if t.haloed() {
		r.Path(&p, &Style{Stroke: t.Halo, Width: 2 * t.HaloWidth, Cap: RoundCap, Join: RoundJoin})
	}
	r.Path(&p, &Style{Fill: t.Colour})
}
