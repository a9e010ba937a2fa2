package plan

import "math"

// PointCheck is what the other points say of a measured one.
type PointCheck struct {
	Least float64 // share of an error of it that shows as a miss, the way on the ground that it shows least: 0 to 1
	Off   bool    // it is missed by far more than its ±, or than a picture that lies well
}

// Hides reports whether an error of the point may hide: hardly any of it would show.
func (c PointCheck) Hides() bool { return c.Least < leastShows }

// Of measured points that may be wrong.
const (
	leastShows = 0.1           // local redundancy from which an error is taken to show (common practice, from memory)
	farOff     = 2 * 6.9077553 // square of a miss over its scatter that one point in a thousand has by chance: -2·ln 0.001 of a normal scatter both ways
	leastKept  = 0.01          // of a redundancy by which a miss is scaled up: below it is rounding (ours)
	offShare   = 1.0 / 20      // of the distance of the farthest two: a picture that misses a point by more does not lie well (ours)
)

// checks are what the points say of one another, with the inverse of the normal equations.
func (s *fitting) checks(f *PictureFit, inverse *[8][8]float64) (all []PointCheck) {
	span := 0.0
	for i := range s.points {
		for k := range i {
			span = max(span, s.points[i].At.Dist(s.points[k].At))
		}
	}
	for i := range s.points {
		c := PointCheck{}
		if len(s.points) > LeastPicturePoints {
			least, most, turn := s.redundancy(i, inverse)
			miss, q := s.to[i], mapped(&s.h, s.from[i])
			x, y := (miss.X-q.X)*f.metres, (miss.Y-q.Y)*f.metres
			sin, cos := math.Sincos(turn)
			along, across := x*cos+y*sin, y*cos-x*sin
			c.Least = min(max(least, 0), 1)
			c.Off = float64(f.Miss[i]) > offShare*span
			if d := math.Hypot(float64(s.points[i].Doubt), f.PixelM(s.points[i].At)); s.points[i].Doubt > 0 {
				c.Off = c.Off || (along*along/max(most, leastKept)+across*across/max(least, leastKept))/(d*d) > farOff
			}
		}
		all = append(all, c)
	}
	return all
}

// redundancy is which share of an error of a point shows as a miss of that point, along the
// two ways on the ground in which it does least and most, and how the latter is turned from
// the first axis, radians.
//
// Source: Baarda, A Testing Procedure for Use in Geodetic Networks, 1968; from memory.
func (s *fitting) redundancy(i int, inverse *[8][8]float64) (least, most, turn float64) {
	x, y := slopes(&s.h, s.from[i])
	w := 1 / (s.sigma[i] * s.sigma[i])
	xx, xy, yy := 1-w*carried(inverse, &x, &x), -w*carried(inverse, &x, &y), 1-w*carried(inverse, &y, &y)
	middle, off := (xx+yy)/2, math.Hypot((xx-yy)/2, xy)
	return middle - off, middle + off, math.Atan2(2*xy, xx-yy) / 2
}
