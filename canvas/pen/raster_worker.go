package pen

// rasterWorker has the memory one goroutine needs to draw.
type rasterWorker struct {
	index  int
	stroke *stroker
	edges  []edge // of the ops this worker outlined
	rows   bandBuffer
}

func newRasterWorker(index int) *rasterWorker {
	return &rasterWorker{index: index, stroke: newStroker()}
}

func (k *rasterWorker) begin(r *Raster, w, h int) {
	k.edges = k.edges[:0]
	k.rows.size(w)
}

// outline makes the edges of one op.
func (k *rasterWorker) outline(r *Raster, op *rasterOp) {
	c := &r.clips[op.clip]
	box := Box(float64(c.x0), float64(c.y0), float64(c.x1), float64(c.y1))
	op.worker, op.edges[0] = k.index, len(k.edges)
	switch op.kind {
	case fillOp, photoOp:
		k.edges = addContours(k.edges, &box, &r.flat, op.contours)
	case strokeOp:
		s := k.stroke
		s.set(box, op.width, op.cap, op.join, r.dashes[op.dash[0]:op.dash[1]], op.dashOffset)
		s.scan.edges = k.edges
		for _, c := range r.flat.contours[op.contours[0]:op.contours[1]] {
			s.contour(r.flat.pts[c.from:c.to], c.closed)
		}
		k.edges = s.scan.edges
	case glyphOp:
		for _, g := range r.places[op.contours[0]:op.contours[1]] {
			for _, e := range g.edges {
				k.edges = addEdge(k.edges, &box,
					g.x+float64(e.x0), g.y+float64(e.y0), g.x+float64(e.x1), g.y+float64(e.y1))
			}
		}
	}
	op.edges[1] = len(k.edges)
}

// band draws all ops into the rows y0…y1−1.
func (k *rasterWorker) band(r *Raster, y0, y1 int) {
	b := &k.rows
	b.y0, b.y1, b.maskOf = y0, y1, -1
	for i := range r.ops {
		op := &r.ops[i]
		if op.maxY <= y0 || op.minY >= y1 {
			continue
		}
		switch op.kind {
		case stampOp:
			b.stamp(r, op)
			continue
		case hairOp:
			b.hair(r, op)
			continue
		}
		edges := r.workers[op.worker].edges[op.edges[0]:op.edges[1]]
		if !b.accumulate(edges) {
			continue
		}
		c := &r.clips[op.clip]
		if c.masked {
			b.mask(r, op.clip)
		}
		for row := b.rowFrom; row < b.rowTo; row++ {
			if b.sweep(row); len(b.spans) == 0 {
				continue
			}
			var mask []uint8
			if c.masked {
				mask = b.maskPix[row*b.w : (row+1)*b.w]
			}
			line := r.img.Pix[(y0+row)*r.img.Stride : (y0+row)*r.img.Stride+4*b.w]
			if op.kind == photoOp {
				op.photo.paint(line, y0+row, b.spans, mask, op)
			} else {
				op.colour.paint(line, b.spans, mask)
			}
		}
	}
}
