package pen

import "github.com/golang/geo/r2"

// reclip keeps the clips in force across a flush: their contours are moved to
// the start of the emptied arenas, everything else of the clip list is dropped.
func (r *Raster) reclip() {
	old := flattener{}
	if len(r.stack) > 0 {
		old = flattener{append([]r2.Point(nil), r.flat.pts[:cap(r.flat.pts)]...), append([]contour(nil), r.flat.contours[:cap(r.flat.contours)]...)}
	}
	r.flat.reset()
	keep := append([]rasterClip(nil), r.clips[0])
	for i, at := range r.stack {
		c := r.clips[at]
		from := len(r.flat.contours)
		for _, k := range contoursIn(old.contours, c.contours) {
			begin := len(r.flat.pts)
			r.flat.pts = append(r.flat.pts, old.pts[k.from:k.to]...)
			r.flat.contours = append(r.flat.contours, contour{begin, len(r.flat.pts), k.closed})
		}
		c.contours = [2]int{from, len(r.flat.contours)}
		c.parent = i
		keep = append(keep, c)
		r.stack[i] = i + 1
	}
	r.clips = append(r.clips[:0], keep...)
}

func contoursIn(all []contour, span [2]int) []contour {
	if span[0] >= span[1] {
		return nil
	}
	return all[span[0]:span[1]]
}
