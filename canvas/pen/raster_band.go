package pen

import "math/bits"

// bandBuffer sums signed areas of edges over the rows of one band. A cell holds
// by how much the coverage changes at its pixel; summed from the left it is the
// share of the pixel inside the outline. Only cells that were touched are
// visited again: a bit a cell says which.
type bandBuffer struct {
	w, stride      int
	cells          []float32
	touched        []uint64
	words          int // of touched, per row
	y0, y1         int
	rowFrom, rowTo int // rows touched by the last accumulate
	wordFrom       int // words of touched that it may have set, in any row
	wordTo         int
	spans          []span

	maskPix []uint8 // coverage of clip maskOf, a row of w bytes each
	maskOf  int
	scratch []edge
	cut     *bandBuffer
}

// span is a run of pixels of equal coverage, 1 to 255.
type span struct {
	x0, x1 int32
	cover  uint32
}

func (b *bandBuffer) size(w int) {
	if w == b.w && b.cells != nil {
		return
	}
	b.w, b.stride = w, w+2
	b.words = (b.stride + 63) / 64
	b.cells = make([]float32, b.stride*bandRows)
	b.touched = make([]uint64, b.words*bandRows)
	b.maskPix = nil
}

// accumulate adds the parts of the edges inside the band; false if none is.
func (b *bandBuffer) accumulate(edges []edge) bool {
	b.rowFrom, b.rowTo = bandRows, 0
	top, bottom := float32(b.y0), float32(b.y1)
	left, right := float32(b.w), float32(0)
	for i := range edges {
		e := &edges[i]
		if e.y0 < e.y1 {
			if e.y1 <= top || e.y0 >= bottom {
				continue
			}
			b.line(float64(e.x0), float64(e.y0), float64(e.x1), float64(e.y1), 1)
		} else {
			if e.y0 <= top || e.y1 >= bottom {
				continue
			}
			b.line(float64(e.x1), float64(e.y1), float64(e.x0), float64(e.y0), -1)
		}
		left, right = min(left, e.x0, e.x1), max(right, e.x0, e.x1)
	}
	// An edge touches its own pixels and the one right of them.
	b.wordFrom = min(max(0, int(left)>>6), b.words)
	b.wordTo = min((int(right)+1)>>6+1, b.words)
	return b.rowFrom < b.rowTo
}

// line adds one edge going down (y0 < y1) with the given sign. Within a row a
// straight piece from xa to xb over height d changes the cells it crosses by
// the areas of the trapezia it cuts off, d·(share left of the pixel's right
// side), summing to d.
func (b *bandBuffer) line(x0, y0, x1, y1, sign float64) {
	top, bottom := float64(b.y0), float64(b.y1)
	limit := float64(b.w)
	slope := (x1 - x0) / (y1 - y0)
	x, y := x0, y0
	if y < top {
		x, y = x0+slope*(top-y0), top
	}
	if x < 0 { // rounding of the slope can pass the clipped ends by a hair
		x = 0
	} else if x > limit {
		x = limit
	}
	end := y1
	if end > bottom {
		end = bottom
	}
	row := int(y) - b.y0
	b.rowFrom = min(b.rowFrom, row)
	for y < end {
		next := float64(b.y0 + row + 1)
		if next > end {
			next = end
		}
		xn := x0 + slope*(next-y0)
		if next == y1 {
			xn = x1
		}
		if xn < 0 {
			xn = 0
		} else if xn > limit {
			xn = limit
		}
		d := float32(sign * (next - y))
		xa, xb := x, xn
		if xa > xb {
			xa, xb = xb, xa
		}
		coverRow(b.cells[row*b.stride:(row+1)*b.stride], b.touched[row*b.words:(row+1)*b.words], xa, xb, d)
		x, y = xn, next
		row++
	}
	b.rowTo = max(b.rowTo, row)
}

// coverRow adds the piece from xa to xb, within one row and d of it high, to the
// row's cells, and marks them.
func coverRow(cells []float32, marks []uint64, xa, xb float64, d float32) {
	i := int(xa)
	if xb <= float64(i+1) {
		// Within one pixel: what is not left of it shows in the next.
		share := float32((xa+xb)/2 - float64(i))
		cells[i] += d - d*share
		cells[i+1] += d * share
		marks[i>>6] |= 1 << (i & 63)
		marks[(i+1)>>6] |= 1 << ((i + 1) & 63)
	} else {
		// With per the height share of one pixel's width, the share of the
		// piece left of pixel j's right side, averaged over the pixel, grows
		// by per from pixel to pixel; only the two end pixels differ.
		last := int(xb)
		if float64(last) == xb {
			last--
		}
		per := float32(1/(xb-xa)) * d
		first := float32(float64(i+1) - xa)
		tail := float32(xb - float64(last))
		head := per * first * first / 2 // covered of pixel i
		cells[i] += head
		if last == i+1 {
			// Covered of pixel i+1 is all but the triangle right of it.
			end := per * tail * tail / 2
			cells[last] += d - head - end
			cells[last+1] += end
		} else {
			cells[i+1] += per*(first+0.5) - head
			for j := i + 2; j < last; j++ {
				cells[j] += per
			}
			end := per * tail * tail / 2
			cells[last] += per*(tail+0.5) - end
			cells[last+1] += end
		}
		mark(marks, i, last+1)
	}
}

// mark sets the bits of the cells from…to.
func mark(marks []uint64, from, to int) {
	a, z := from>>6, to>>6
	first, last := ^uint64(0)<<(from&63), ^uint64(0)>>(63-to&63)
	if a == z {
		marks[a] |= first & last
		return
	}
	marks[a] |= first
	for w := a + 1; w < z; w++ {
		marks[w] = ^uint64(0)
	}
	marks[z] |= last
}

// coverThreshold takes what float32 sums leave over (some 1e-6) for nothing.
const coverThreshold = 1.0 / 512

// sweep turns a row's cells into spans and clears them.
func (b *bandBuffer) sweep(row int) {
	b.spans = b.spans[:0]
	cells := b.cells[row*b.stride : (row+1)*b.stride]
	marks := b.touched[row*b.words : (row+1)*b.words]
	var sum float32
	from, cover := 0, uint32(0)
	for wi := b.wordFrom; wi < b.wordTo; wi++ {
		word := marks[wi]
		if word == 0 {
			continue
		}
		marks[wi] = 0
		for word != 0 {
			x := wi<<6 + bits.TrailingZeros64(word)
			word &= word - 1
			sum += cells[x]
			cells[x] = 0
			a := sum
			if a < 0 {
				a = -a
			}
			c := uint32(255)
			if a < coverThreshold {
				c = 0
			} else if a < 1 {
				c = uint32(a*255 + 0.5)
			}
			if c == cover {
				continue
			}
			b.emit(from, x, cover)
			from, cover = x, c
		}
	}
	b.emit(from, b.w, cover)
}

func (b *bandBuffer) emit(from, to int, cover uint32) {
	if to > b.w {
		to = b.w
	}
	if cover > 0 && from < to {
		b.spans = append(b.spans, span{int32(from), int32(to), cover})
	}
}

// mask makes maskPix the coverage of a clip and all it is inside of.
func (b *bandBuffer) mask(r *Raster, clip int) {
	if b.maskOf == clip {
		return
	}
	b.maskOf = clip
	if b.maskPix == nil {
		b.maskPix = make([]uint8, b.w*bandRows)
	}
	// The op's own areas wait in the cells: the clip's go into a second buffer.
	if b.cut == nil {
		b.cut = &bandBuffer{}
	}
	cut := b.cut
	cut.size(b.w)
	cut.y0, cut.y1 = b.y0, b.y1
	for i := range b.maskPix {
		b.maskPix[i] = 255
	}
	box := Box(0, float64(b.y0), float64(b.w), float64(b.y1))
	for at := clip; at >= 0; at = r.clips[at].parent {
		c := &r.clips[at]
		if c.contours[0] == c.contours[1] {
			continue
		}
		cut.scratch = addContours(cut.scratch[:0], &box, &r.flat, c.contours)
		cut.accumulate(cut.scratch)
		for row := range b.y1 - b.y0 {
			line := b.maskPix[row*b.w : (row+1)*b.w]
			x := 0
			if row >= cut.rowFrom && row < cut.rowTo {
				cut.sweep(row)
				for _, s := range cut.spans {
					clear(line[x:s.x0])
					for i := s.x0; i < s.x1; i++ {
						line[i] = uint8(uint32(line[i]) * s.cover / 255)
					}
					x = int(s.x1)
				}
			}
			clear(line[x:])
		}
	}
}
