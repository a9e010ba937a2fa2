package draw

import (
	"math"

	"github.com/golang/geo/r2"
)

// What a cell of the picture is taken by.
const (
	bitLabel   uint8 = 1 << iota // a label: nothing else may lie there
	bitPerson                    // a person
	bitPoint                     // a block, shackle, damper, hook-on point
	bitLine                      // a line, sling leg, arrow or leader
	bitBody                      // a boulder or trunk
	bitEdge                      // the edge of a zone
	bitVehicle                   // a vehicle
	bitPlate                     // a note, the scale, the north arrow: as good as a label
)

// cellPx is the side of a cell: fine enough that a label stands no more than
// this from what it keeps off, coarse enough to be counted quickly. (ours)
const cellPx = 5

// occupancy is the picture in cells. A cell counts as taken as soon as a thing
// touches it, so what the cells call free is free.
type occupancy struct {
	x0, y0, cell float64
	nx, ny       int
	bits         []uint8
}

func (g *occupancy) reset(v r2.Rect, cell float64) {
	g.x0, g.y0, g.cell = v.X.Lo, v.Y.Lo, cell
	g.nx = int(math.Ceil((v.X.Hi-v.X.Lo)/cell)) + 1
	g.ny = int(math.Ceil((v.Y.Hi-v.Y.Lo)/cell)) + 1
	n := g.nx * g.ny
	if cap(g.bits) < n {
		g.bits = make([]uint8, n)
	}
	g.bits = g.bits[:n]
	clear(g.bits)
}

// cells are the columns and rows that a box touches, cut to the picture.
func (g *occupancy) cells(b r2.Rect) (x0, y0, x1, y1 int) {
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

// cellAt is what the cell under a point is taken by, nothing outside.
func (g *occupancy) cellAt(p r2.Point) uint8 {
	x, y := (p.X-g.x0)/g.cell, (p.Y-g.y0)/g.cell
	if !(x >= 0 && y >= 0 && x < float64(g.nx) && y < float64(g.ny)) {
		return 0
	}
	return g.bits[int(y)*g.nx+int(x)]
}

func (g *occupancy) mark(b r2.Rect, bit uint8) {
	x0, y0, x1, y1 := g.cells(b)
	for y := y0; y < y1; y++ {
		row := g.bits[y*g.nx : (y+1)*g.nx]
		for x := x0; x < x1; x++ {
			row[x] |= bit
		}
	}
}

// taken is what the box's cells are taken by, all together; no more is looked
// for once a label is found.
func (g *occupancy) taken(b r2.Rect) (bits uint8) {
	x0, y0, x1, y1 := g.cells(b)
	for y := y0; y < y1; y++ {
		for _, c := range g.bits[y*g.nx+x0 : y*g.nx+x1] {
			bits |= c
		}
		if bits&bitLabel != 0 {
			return bits
		}
	}
	return bits
}

// under is all that the box's cells are taken by.
func (g *occupancy) under(b r2.Rect) (bits uint8) {
	x0, y0, x1, y1 := g.cells(b)
	for y := y0; y < y1; y++ {
		for _, c := range g.bits[y*g.nx+x0 : y*g.nx+x1] {
			bits |= c
		}
	}
	return bits
}

// segment marks the cells within half a width of a straight line.
func (g *occupancy) segment(a, b r2.Point, half float64, bit uint8) {
	v := rect(g.x0, g.y0, g.x0+float64(g.nx)*g.cell, g.y0+float64(g.ny)*g.cell)
	t0, t1, ok := clip(v.ExpandedByMargin(half), a, b)
	if !ok {
		return
	}
	p, q := mix(a, b, t0), mix(a, b, t1)
	n := int(math.Ceil(p.Sub(q).Norm()/(g.cell*0.5))) + 1
	for i := 0; i <= n; i++ {
		c := mix(p, q, float64(i)/float64(n))
		g.mark(rect(c.X-half, c.Y-half, c.X+half, c.Y+half), bit)
	}
}

// polygon marks the cells whose middle is inside an outline.
func (g *occupancy) polygon(poly []r2.Point, bit uint8) {
	x0, y0, x1, y1 := g.cells(r2.RectFromPoints(poly...))
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			if insidePolygon(r2.Point{X: g.x0 + (float64(x)+0.5)*g.cell, Y: g.y0 + (float64(y)+0.5)*g.cell}, poly) {
				g.bits[y*g.nx+x] |= bit
			}
		}
	}
}
