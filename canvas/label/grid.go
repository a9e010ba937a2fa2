package label

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver/terrain"
)

// Taken is what a cell of the picture is taken by.
type Taken uint8

const (
	Label   Taken = 1 << iota // a label: nothing else may lie there
	Person                    // a person
	Point                     // a block, shackle, damper, hook-on point
	Line                      // a line, sling leg, arrow or leader
	Body                      // a boulder or trunk
	Edge                      // the edge of a zone
	Vehicle                   // a vehicle
	Plate                     // a note, the scale, the north arrow: as good as a label
)

// cellPx is the side of a cell: fine enough that a label stands no more than
// this from what it keeps off, coarse enough to be counted quickly. (ours)
const cellPx = 5

// Grid is the picture in cells. A cell counts as taken as soon as a thing
// touches it, so what the cells call free is free. The zero value is ready for
// Reset, which keeps its memory.
type Grid struct {
	x0, y0, cell float64
	nx, ny       int
	cells        []Taken
}

// Reset empties the grid and lays it over a picture; px is a logical pixel.
func (g *Grid) Reset(v r2.Rect, px float64) {
	g.x0, g.y0, g.cell = v.X.Lo, v.Y.Lo, cellPx*px
	g.nx = int(math.Ceil((v.X.Hi-v.X.Lo)/g.cell)) + 1
	g.ny = int(math.Ceil((v.Y.Hi-v.Y.Lo)/g.cell)) + 1
	n := g.nx * g.ny
	if cap(g.cells) < n {
		g.cells = make([]Taken, n)
	}
	g.cells = g.cells[:n]
	clear(g.cells)
}

// span is the columns and rows that a box touches, cut to the picture.
func (g *Grid) span(b r2.Rect) (x0, y0, x1, y1 int) {
	k := 1 / g.cell
	return cellOf((b.X.Lo-g.x0)*k, g.nx), cellOf((b.Y.Lo-g.y0)*k, g.ny), cellOf((b.X.Hi-g.x0)*k+1, g.nx), cellOf((b.Y.Hi-g.y0)*k+1, g.ny)
}

// cellOf is the whole part of v, held between 0 and n.
func cellOf(v float64, n int) int {
	switch {
	case !(v > 0):
		return 0
	case v >= float64(n):
		return n
	}
	return int(v)
}

// at is what the cell under a point is taken by, nothing outside.
func (g *Grid) at(p r2.Point) Taken {
	x, y := (p.X-g.x0)/g.cell, (p.Y-g.y0)/g.cell
	if !(x >= 0 && y >= 0 && x < float64(g.nx) && y < float64(g.ny)) {
		return 0
	}
	return g.cells[int(y)*g.nx+int(x)]
}

// under is all that a box's cells are taken by.
func (g *Grid) under(b r2.Rect) Taken { return g.underUntil(b, 0) }

// underUntil is under, but looks for no more once it has found one of those.
func (g *Grid) underUntil(b r2.Rect, enough Taken) (by Taken) {
	x0, y0, x1, y1 := g.span(b)
	for y := y0; y < y1; y++ {
		for _, c := range g.cells[y*g.nx+x0 : y*g.nx+x1] {
			by |= c
		}
		if by&enough != 0 {
			return by
		}
	}
	return by
}

// Mark takes the cells that a box touches.
func (g *Grid) Mark(b r2.Rect, by Taken) {
	x0, y0, x1, y1 := g.span(b)
	for y := y0; y < y1; y++ {
		row := g.cells[y*g.nx : (y+1)*g.nx]
		for x := x0; x < x1; x++ {
			row[x] |= by
		}
	}
}

// Segment takes the cells within half a width of a straight line.
func (g *Grid) Segment(a, b r2.Point, half float64, by Taken) {
	v := pen.Box(g.x0, g.y0, g.x0+float64(g.nx)*g.cell, g.y0+float64(g.ny)*g.cell)
	t0, t1, ok := pen.Cut(v.ExpandedByMargin(half), a, b)
	if !ok {
		return
	}
	p, q := pen.Mix(a, b, t0), pen.Mix(a, b, t1)
	n := int(math.Ceil(p.Sub(q).Norm()/(g.cell*0.5))) + 1
	for i := 0; i <= n; i++ {
		c := pen.Mix(p, q, float64(i)/float64(n))
		g.Mark(pen.Box(c.X-half, c.Y-half, c.X+half, c.Y+half), by)
	}
}

// Polygon takes the cells whose middle is inside an outline.
func (g *Grid) Polygon(poly []r2.Point, by Taken) {
	x0, y0, x1, y1 := g.span(r2.RectFromPoints(poly...))
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			if terrain.Inside(poly, r2.Point{X: g.x0 + (float64(x)+0.5)*g.cell, Y: g.y0 + (float64(y)+0.5)*g.cell}) {
				g.cells[y*g.nx+x] |= by
			}
		}
	}
}
