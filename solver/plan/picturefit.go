package plan

import (
	"math"

	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// PictureFit is how a picture lies on the ground: the map from plane to plane that misses
// the measured points least, in metres on the ground. It holds for what lies in the ground's
// plane; what stands up is drawn leaning away. The lens is taken as one that keeps straight
// lines straight.
//
// Source: Hartley and Zisserman, Multiple View Geometry in Computer Vision, 2nd edition 2003,
// chapters 2.3 and 4 (normalized linear start, then least geometric error) and 5.2
// (covariance carried through the fit); from memory.
type PictureFit struct {
	H      [9]float64        // row by row: (right, down, 1) in pixels to (x·w, y·w, w) in metres; w > 0 this side of the horizon
	Miss   []quantity.Length // by how far each point is missed; with four of them 0
	RMS    quantity.Length   // root mean square of these
	Checks []PointCheck      // of each point

	back   [9]float64    // the inverse of H, w > 0 of what is in front of the camera
	leastW float64       // of the measured points: of the farthest from the camera
	norm   plane         // of the picture, for the errors
	metres float64       // of one unit of the fit on the ground
	h      [8]float64    // the map in the units of the fit
	cov    [8][8]float64 // how well it is known, in the units of the fit
	known  bool          // a ± was said, or there are more points than needed
}

// seenBeyond is how far beyond the farthest measured point a picture is drawn: as many
// times as far from the camera. (ours: farther off each pixel is metres of ground, and
// nothing says how well it lies)
const seenBeyond = 1.5

// plane carries places of a plane into the units of a fit: about 0, some 1 in size.
type plane struct{ x, y, k float64 }

func (n plane) to(p Point) Point { return Point{(p.X - n.x) * n.k, (p.Y - n.y) * n.k} }

// planeOf are the units in which points have their mean at 0 and √2 as mean distance.
func planeOf(points []PicturePoint, ground bool) plane {
	var n plane
	for i := range points {
		p := points[i].spot(ground)
		n.x += p.X / float64(len(points))
		n.y += p.Y / float64(len(points))
	}
	far := 0.0
	for i := range points {
		far += points[i].spot(ground).Dist(Point{n.x, n.y}) / float64(len(points))
	}
	n.k = math.Sqrt2 / far
	return n
}

// FitPicture is how a picture lies by measured points; else why they do not say it: too few,
// two at one place, all but one on a line, or a map that turns the picture over or has its
// horizon among the points.
func FitPicture(points []PicturePoint) (*PictureFit, *refusal.Error) {
	if fault := pointsFault(points); fault != nil {
		return nil, fault
	}
	from, to := planeOf(points, false), planeOf(points, true)
	s := &fitting{points: points}
	for i := range points {
		s.from, s.to = append(s.from, from.to(points[i].spot(false))), append(s.to, to.to(points[i].At))
	}
	s.weigh(to.k)
	if !s.start() || !s.refine() {
		return nil, pictureNoFit.At("")
	}
	if fault := s.fault(); fault != nil {
		return nil, fault
	}
	return s.fit(from, to), nil
}

// fitting is a fit that is being found, in the units of the fit.
type fitting struct {
	points   []PicturePoint
	from, to []Point
	sigma    []float64 // by how far each point may be out; all 1: nothing is known of that
	said     bool      // a ± was said of one of them
	h        [8]float64
	normal   [8][8]float64 // of the last refinement
	cost     float64
}

// weigh takes the ± of each point; one of which nothing is said is no better than the worst.
func (s *fitting) weigh(k float64) {
	worst := 0.0
	for i := range s.points {
		worst = max(worst, float64(s.points[i].Doubt))
	}
	s.said = worst > 0
	worst = max(worst, leastApartM)
	for i := range s.points {
		switch d := float64(s.points[i].Doubt); {
		case d > 0:
			s.sigma = append(s.sigma, max(d, leastApartM)*k) // no point weighs endlessly
		case s.said:
			s.sigma = append(s.sigma, worst*k)
		default:
			s.sigma = append(s.sigma, 1)
		}
	}
}

// w is the scale of the map at a place: how near it is to the camera, 0 at the horizon.
func scaleAt(h *[8]float64, p Point) float64 { return h[6]*p.X + h[7]*p.Y + 1 }

func mapped(h *[8]float64, p Point) Point {
	w := scaleAt(h, p)
	return Point{(h[0]*p.X + h[1]*p.Y + h[2]) / w, (h[3]*p.X + h[4]*p.Y + h[5]) / w}
}

// slopes are how the mapped place moves with each of the eight numbers of the map.
func slopes(h *[8]float64, p Point) (x, y [8]float64) {
	w, q := scaleAt(h, p), mapped(h, p)
	a, b, c := p.X/w, p.Y/w, 1/w
	return [8]float64{a, b, c, 0, 0, 0, -q.X * a, -q.X * b}, [8]float64{0, 0, 0, a, b, c, -q.Y * a, -q.Y * b}
}

// start solves the equations made linear: those of the map times its scale.
func (s *fitting) start() bool {
	var m [8][8]float64
	var r [8]float64
	for i, p := range s.from {
		q := s.to[i]
		weight := 1 / (s.sigma[i] * s.sigma[i])
		gather(&m, &r, [8]float64{p.X, p.Y, 1, 0, 0, 0, -q.X * p.X, -q.X * p.Y}, q.X, weight)
		gather(&m, &r, [8]float64{0, 0, 0, p.X, p.Y, 1, -q.Y * p.X, -q.Y * p.Y}, q.Y, weight)
	}
	h, ok := solved8(m, r)
	s.h = h
	return ok
}

// gather adds one equation to the normal equations.
func gather(m *[8][8]float64, r *[8]float64, row [8]float64, right, weight float64) {
	for i := range row {
		for j := range row {
			m[i][j] += weight * row[i] * row[j]
		}
		r[i] += weight * row[i] * right
	}
}

// missed is how far the map h is off the points, squares over those of their ±, with the
// normal equations there.
func (s *fitting) missed(h *[8]float64) (cost float64, m [8][8]float64, r [8]float64) {
	for i, p := range s.from {
		q, weight := mapped(h, p), 1/(s.sigma[i]*s.sigma[i])
		dx, dy := s.to[i].X-q.X, s.to[i].Y-q.Y
		cost += weight * (dx*dx + dy*dy)
		x, y := slopes(h, p)
		gather(&m, &r, x, dx, weight)
		gather(&m, &r, y, dy, weight)
	}
	return cost, m, r
}

// refine makes the misses on the ground least, by damped steps (Levenberg and Marquardt).
func (s *fitting) refine() bool {
	cost, m, r := s.missed(&s.h)
	damp := 1e-6
	for range 100 {
		a := m
		for i := range a {
			a[i][i] *= 1 + damp
		}
		step, ok := solved8(a, r)
		next, size := s.h, 0.0
		for i := range step {
			next[i] += step[i]
			size = max(size, math.Abs(step[i]))
		}
		c, m2, r2 := s.missed(&next)
		if ok && c <= cost {
			s.h, cost, m, r = next, c, m2, r2
			damp = max(damp/10, 1e-12)
		} else if damp *= 10; damp > 1e12 {
			break
		}
		if ok && size < 1e-13 {
			break
		}
	}
	s.cost, s.normal = cost, m
	return cost < math.Inf(1) // no number is not
}

// fault is what a map that was found cannot be.
func (s *fitting) fault() *refusal.Error {
	near, far := 0, 0
	for i, p := range s.from {
		w := scaleAt(&s.h, p)
		if w > scaleAt(&s.h, s.from[near]) {
			near = i
		}
		if w < scaleAt(&s.h, s.from[far]) {
			far = i
		}
	}
	if h := &s.h; !(scaleAt(h, s.from[far]) > 0) {
		return pictureHorizon.At("", min(near, far)+1, max(near, far)+1)
	}
	if !(determinant(full(&s.h)) < 0) { // "down" of a picture points south where "right" is east
		return pictureOver.At("")
	}
	return nil
}

func (s *fitting) fit(from, to plane) *PictureFit {
	f := &PictureFit{norm: from, metres: 1 / to.k, h: s.h, known: s.said || len(s.points) > LeastPicturePoints}
	in := [9]float64{from.k, 0, -from.x * from.k, 0, from.k, -from.y * from.k, 0, 0, 1}
	out := [9]float64{1 / to.k, 0, to.x, 0, 1 / to.k, to.y, 0, 0, 1}
	f.H = times(out, times(full(&s.h), in))
	f.back = times([9]float64{1 / from.k, 0, from.x, 0, 1 / from.k, from.y, 0, 0, 1},
		times(inverse(full(&s.h)), [9]float64{to.k, 0, -to.x * to.k, 0, to.k, -to.y * to.k, 0, 0, 1}))
	f.leastW = math.Inf(1)
	sum := 0.0
	for i, p := range s.from {
		f.leastW = min(f.leastW, scaleAt(&s.h, p))
		miss := 0.0
		if len(s.points) > LeastPicturePoints { // four are met, but for the last digits of a float
			miss = mapped(&s.h, p).Dist(s.to[i]) * f.metres
		}
		f.Miss = append(f.Miss, quantity.Length(miss))
		sum += miss * miss
	}
	f.RMS = quantity.Length(math.Sqrt(sum / float64(len(s.points))))
	spread := 1.0 // of the misses, over what their ± make one expect
	if free := 2*len(s.points) - 8; free > 0 {
		spread = s.cost / float64(free)
	}
	if s.said {
		spread = max(spread, 1)
	}
	var inverse [8][8]float64
	for j := range 8 {
		var unit [8]float64
		unit[j] = 1
		inverse[j], _ = solved8(s.normal, unit)
		for k, x := range inverse[j] {
			f.cov[j][k] = spread * x
		}
	}
	f.Checks = s.checks(f, &inverse)
	return f
}

// Checked reports whether there are more points than the map needs: only then says a miss
// anything.
func (f *PictureFit) Checked() bool { return len(f.Miss) > LeastPicturePoints }

// Worst is the point that is missed most, from 0.
func (f *PictureFit) Worst() int {
	worst := 0
	for i, m := range f.Miss {
		if m > f.Miss[worst] {
			worst = i
		}
	}
	return worst
}

// Ground is the place on the ground of a point of the picture, in pixels; false: it is at the
// horizon or above.
func (f *PictureFit) Ground(right, down float64) (Point, bool) {
	x, y, w := apply(&f.H, right, down)
	return Point{x / w, y / w}, w > 0
}

// Pixel is where a place on the ground is seen in the picture, in pixels, be it beyond its
// edges; false: it is behind the camera.
func (f *PictureFit) Pixel(p Point) (right, down float64, ok bool) {
	x, y, w := apply(&f.back, p.X, p.Y)
	return x / w, y / w, w > 0
}

// Back is the map from the ground to the picture, row by row: (x, y, 1) in metres to
// (right·w, down·w, w) in pixels; w > 0 of what is in front of the camera.
func (f *PictureFit) Back() [9]float64 { return f.back }

// Outline are the corners on the ground of as much of a picture of that size as is drawn:
// what is in front of the horizon and not far beyond the measured points.
func (f *PictureFit) Outline(width, height int) []Point {
	w, h := float64(width), float64(height)
	corners := []Point{{0, 0}, {w, 0}, {w, h}, {0, h}}
	over := func(p Point) float64 { return scaleAt(&f.h, f.norm.to(p)) - f.leastW/seenBeyond }
	var all []Point
	add := func(p Point) {
		if g, ok := f.Ground(p.X, p.Y); ok {
			all = append(all, g)
		}
	}
	for i, a := range corners {
		b := corners[(i+1)%4]
		va, vb := over(a), over(b)
		if va >= 0 {
			add(a)
		}
		if va*vb < 0 {
			t := va / (va - vb)
			add(a.Plus((b.X-a.X)*t, (b.Y-a.Y)*t))
		}
	}
	return all
}

// Shows reports whether a place on the ground lies in as much of a picture of that size as
// is drawn.
func (f *PictureFit) Shows(p Point, width, height int) bool {
	right, down, ok := f.Pixel(p)
	return ok && right >= 0 && down >= 0 && right <= float64(width) && down <= float64(height) &&
		scaleAt(&f.h, f.norm.to(Point{right, down})) >= f.leastW/seenBeyond
}

// PixelM is how long a pixel of the picture is on the ground at a place, metres, the way
// that it is longest.
func (f *PictureFit) PixelM(p Point) float64 {
	right, down, _ := f.Pixel(p)
	x, y, w := apply(&f.H, right, down)
	h := &f.H
	// The slopes of x/w and y/w.
	return longest((h[0]-x/w*h[6])/w, (h[1]-x/w*h[7])/w, (h[3]-y/w*h[6])/w, (h[4]-y/w*h[7])/w)
}

// Doubt is by how much a place traced over the picture is not known, to any side: how well
// the fit is known there, by the ± of its points and by how it misses them, together with one
// pixel of the picture, and no less than the root mean square of the misses. It grows with
// the distance from the points. 0: four points and no ± say nothing of it.
func (f *PictureFit) Doubt(p Point) quantity.Length {
	right, down, ok := f.Pixel(p)
	if !f.known || !ok {
		return 0
	}
	x, y := slopes(&f.h, f.norm.to(Point{right, down}))
	xx, xy, yy := carried(&f.cov, &x, &x), carried(&f.cov, &x, &y), carried(&f.cov, &y, &y)
	most := (xx+yy)/2 + math.Hypot((xx-yy)/2, xy) // the greater eigenvalue: the worst way
	return quantity.Length(max(math.Hypot(math.Sqrt(max(most, 0))*f.metres, f.PixelM(p)), float64(f.RMS)))
}

// carried is a·m·b.
func carried(m *[8][8]float64, a, b *[8]float64) float64 {
	sum := 0.0
	for i := range a {
		for j := range b {
			sum += a[i] * m[i][j] * b[j]
		}
	}
	return sum
}
