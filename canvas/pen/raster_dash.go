package pen

import (
	"math"

	"github.com/golang/geo/r2"
)

// dashed strokes the drawn parts of one run of points. The pattern starts anew
// with the run; parts out of reach only move the pattern on, so a line to far
// away costs no more than what is seen of it.
func (s *stroker) dashed(pts []r2.Point, closed bool) {
	at := math.Mod(s.offset, s.dashSum) // place in the pattern
	if at < 0 {
		at += s.dashSum
	}
	i := 0
	for i < len(s.dash)-1 && at >= s.dash[i] {
		at -= s.dash[i]
		i++
	}
	left := s.dash[i] - at // to the end of this dash or blank
	n := len(pts) - 1
	if closed {
		n++
	}
	for k := range n {
		a, b := pts[k], pts[(k+1)%len(pts)]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if length == 0 {
			continue
		}
		t0, t1, ok := s.clipLine(a, b)
		if !ok {
			s.stop(false)
			i, left = s.skip(i, left, length)
			continue
		}
		if t0 > 0 {
			s.stop(false)
			i, left = s.skip(i, left, t0*length)
		}
		for from, end := t0*length, t1*length; ; {
			drawn := i%2 == 0
			if drawn && !s.running {
				s.start(between(a, b, from/length))
			}
			if left > end-from {
				left -= end - from
				if drawn {
					s.line(between(a, b, end/length))
				}
				break
			}
			from += left
			if drawn {
				s.line(between(a, b, from/length))
				s.stop(false)
			}
			i = (i + 1) % len(s.dash)
			left = s.dash[i]
		}
		if t1 < 1 {
			s.stop(false)
			i, left = s.skip(i, left, (1-t1)*length)
		}
	}
	s.stop(false)
}

// skip moves the pattern on by a length that is not drawn.
func (s *stroker) skip(i int, left, length float64) (int, float64) {
	if length < left {
		return i, left - length
	}
	length = math.Mod(length-left, s.dashSum)
	i = (i + 1) % len(s.dash)
	for length >= s.dash[i] {
		length -= s.dash[i]
		i = (i + 1) % len(s.dash)
	}
	return i, s.dash[i] - length
}
