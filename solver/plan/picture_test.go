package plan_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// camera is a pinhole above the ground: central projection, closed form.
type camera struct {
	at            plan.Point
	height        float64 // metres
	bearing, down float64 // of its axis: clockwise from north, below the horizontal, radians
	focal         float64 // pixels
	right, below  float64 // of the axis in the picture, pixels
}

// sees is where a place on the ground is in the picture, and how far it is along the axis.
func (c *camera) sees(p plan.Point) (u, v, depth float64) {
	sb, cb := math.Sincos(c.bearing)
	sd, cd := math.Sincos(c.down)
	x, y, z := p.X-c.at.X, p.Y-c.at.Y, -c.height
	side := x*cb - y*sb
	ahead := x*sb + y*cb
	depth = ahead*cd - z*sd
	under := -ahead*sd - z*cd // along the picture's "down"
	return c.right + c.focal*side/depth, c.below + c.focal*under/depth, depth
}

func (c *camera) points(places ...plan.Point) (all []plan.PicturePoint) {
	for _, p := range places {
		u, v, _ := c.sees(p)
		all = append(all, plan.PicturePoint{Right: u, Down: v, At: p})
	}
	return all
}

var oblique = camera{at: plan.Point{X: 3, Y: -12}, height: 4, bearing: 0.1, down: 0.35, focal: 1400, right: 1000, below: 750}

var yard = []plan.Point{{X: -3, Y: 2}, {X: 9, Y: 1}, {X: 14, Y: 25}, {X: -6, Y: 22}, {X: 4, Y: 9}, {X: 8, Y: 15}}

// What a pinhole sees lies again where it was, the places between and beyond too.
func TestPictureOfAPinholeLiesWhereItWasTaken(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		c := oblique
		c.at = plan.Point{X: random.Float64()*20 - 10, Y: -8 - 10*random.Float64()}
		c.height, c.down = 2+10*random.Float64(), 0.2+0.7*random.Float64()
		c.bearing = random.Float64()*0.6 - 0.3
		n := 4 + random.IntN(3)
		f, fault := plan.FitPicture(c.points(yard[:n]...))
		require.Nil(t, fault)
		assert.Equal(t, n > 4, f.Checked())
		assert.Less(t, float64(f.RMS), 1e-9)
		for range 5 {
			p := plan.Point{X: random.Float64()*15 - 5, Y: random.Float64() * 40}
			u, v, _ := c.sees(p)
			q, ok := f.Ground(u, v)
			assert.True(t, ok)
			assert.InDelta(t, 0, p.Dist(q), 1e-7)
			right, down, ok := f.Pixel(p)
			assert.True(t, ok)
			assert.InDelta(t, u, right, 1e-6)
			assert.InDelta(t, v, down, 1e-6)
			const d = 1e-4 // how long a pixel is, by differences
			pixel := 0.0
			for a := range 360 {
				s, cos := math.Sincos(float64(a) * math.Pi / 180)
				q, _ := f.Ground(u+d*cos, v+d*s)
				pixel = max(pixel, q.Dist(p)/d)
			}
			assert.InEpsilon(t, pixel, f.PixelM(p), 1e-2)
		}
		_, ok := f.Ground(c.right, c.below-c.focal*math.Tan(c.down)-1)
		assert.False(t, ok, "above the horizon, which is the angle of the axis above its middle")
		_, ok = f.Ground(c.right, c.below-c.focal*math.Tan(c.down)+1)
		assert.True(t, ok, "below it")
		_, _, ok = f.Pixel(c.at.Plus(-30*math.Sin(c.bearing), -30*math.Cos(c.bearing)))
		assert.False(t, ok, "behind the camera")
	}
}

// A square seen as a quadrilateral: the map in closed form by Heckbert, Fundamentals of
// Texture Mapping and Image Warping, 1989, section 2.2.3 (from memory).
func TestFitOfASquareIsTheClosedForm(t *testing.T) {
	q := []plan.Point{{X: 1, Y: 10}, {X: 12, Y: 11}, {X: 10, Y: 2}, {X: 2.5, Y: 1}}
	dx1, dx2, sx := q[1].X-q[2].X, q[3].X-q[2].X, q[0].X-q[1].X+q[2].X-q[3].X
	dy1, dy2, sy := q[1].Y-q[2].Y, q[3].Y-q[2].Y, q[0].Y-q[1].Y+q[2].Y-q[3].Y
	den := dx1*dy2 - dx2*dy1
	g, h := (sx*dy2-dx2*sy)/den, (dx1*sy-sx*dy1)/den
	want := [9]float64{q[1].X - q[0].X + g*q[1].X, q[3].X - q[0].X + h*q[3].X, q[0].X,
		q[1].Y - q[0].Y + g*q[1].Y, q[3].Y - q[0].Y + h*q[3].Y, q[0].Y, g, h, 1}
	var points []plan.PicturePoint
	for i, c := range []plan.Point{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}} {
		points = append(points, plan.PicturePoint{Right: c.X, Down: c.Y, At: q[i]})
	}
	f, fault := plan.FitPicture(points)
	require.Nil(t, fault)
	for i := range want {
		assert.InDelta(t, want[i], f.H[i]/f.H[8], 1e-12, "number %d", i)
	}
	for _, m := range f.Miss {
		assert.Zero(t, m, "four points are met")
	}
	assert.False(t, f.Checked())
}

// noisy are more points than needed, each out by what its ± says.
func noisy(seed uint64, c *camera, doubts ...float64) []plan.PicturePoint {
	random := rand.New(rand.NewPCG(seed, 7))
	points := c.points(yard...)
	for i := range points {
		d := doubts[i%len(doubts)]
		points[i].At = points[i].At.Plus(random.NormFloat64()*d, random.NormFloat64()*d)
		points[i].Doubt = quantity.Length(d)
	}
	return points
}

// The fit misses the points by as little as gonum's minimum of the same sum does, begun from
// the linear solution by singular values.
func TestFitMissesLeast(t *testing.T) {
	for seed := range uint64(10) {
		points := noisy(seed, &oblique, 0.2, 0.05, 0.4)
		f, fault := plan.FitPicture(points)
		require.Nil(t, fault)
		cost := func(h []float64) (sum float64) {
			for i := range points {
				u, v := points[i].Right/1000, points[i].Down/1000
				w := h[6]*u + h[7]*v + 1
				d := plan.Point{X: (h[0]*u + h[1]*v + h[2]) / w, Y: (h[3]*u + h[4]*v + h[5]) / w}.Dist(points[i].At)
				sum += d * d / float64(points[i].Doubt*points[i].Doubt)
			}
			return sum
		}
		a := mat.NewDense(2*len(points), 9, nil)
		for i := range points {
			u, v, p := points[i].Right/1000, points[i].Down/1000, points[i].At
			a.SetRow(2*i, []float64{u, v, 1, 0, 0, 0, -p.X * u, -p.X * v, -p.X})
			a.SetRow(2*i+1, []float64{0, 0, 0, u, v, 1, -p.Y * u, -p.Y * v, -p.Y})
		}
		var svd mat.SVD
		require.True(t, svd.Factorize(a, mat.SVDFull))
		var v mat.Dense
		svd.VTo(&v)
		start := make([]float64, 8)
		for i := range start {
			start[i] = v.At(i, 8) / v.At(8, 8)
		}
		best, err := optimize.Minimize(optimize.Problem{Func: cost}, start, &optimize.Settings{FuncEvaluations: 50000}, &optimize.NelderMead{})
		require.NoError(t, err)
		h := make([]float64, 8)
		for i := range h {
			h[i] = f.H[i] / f.H[8]
			if i%3 != 2 {
				h[i] *= 1000
			}
		}
		assert.LessOrEqual(t, cost(h), best.F*(1+1e-9), "seed %d", seed)
		assert.InEpsilon(t, best.F, cost(h), 0.02, "seed %d", seed)
		sum := 0.0
		for i, m := range f.Miss {
			p, _ := f.Ground(points[i].Right, points[i].Down)
			assert.InDelta(t, p.Dist(points[i].At), float64(m), 1e-9)
			assert.LessOrEqual(t, m, f.Miss[f.Worst()])
			sum += float64(m * m)
		}
		assert.InEpsilon(t, math.Sqrt(sum/6), float64(f.RMS), 1e-9)
	}
}

// The doubt of a place is how far it is scattered when the points are measured again and
// again, in the worst direction.
func TestDoubtOfAPlaceIsItsScatter(t *testing.T) {
	for name, places := range map[string][]plan.Point{"four points": yard[:4], "six": yard} {
		var at, sums [3][2]float64
		var cross, doubt [3]float64
		const n = 4000
		asked := []plan.Point{{X: 3, Y: 12}, {X: 0, Y: 24}, {X: 10, Y: 40}}
		for seed := range uint64(n) {
			random := rand.New(rand.NewPCG(seed, 3))
			points := oblique.points(places...)
			for i := range points {
				points[i].At = points[i].At.Plus(random.NormFloat64()*0.05, random.NormFloat64()*0.05)
				points[i].Doubt = 0.05
			}
			f, fault := plan.FitPicture(points)
			require.Nil(t, fault)
			for k, p := range asked {
				u, v, _ := oblique.sees(p)
				q, _ := f.Ground(u, v)
				dx, dy := q.X-p.X, q.Y-p.Y
				at[k][0], at[k][1] = at[k][0]+dx/n, at[k][1]+dy/n
				sums[k][0], sums[k][1], cross[k] = sums[k][0]+dx*dx/n, sums[k][1]+dy*dy/n, cross[k]+dx*dy/n
				d := float64(f.Doubt(p))
				doubt[k] += d * d / n
			}
		}
		for k, p := range asked {
			xx, yy, xy := sums[k][0]-at[k][0]*at[k][0], sums[k][1]-at[k][1]*at[k][1], cross[k]-at[k][0]*at[k][1]
			var eigen mat.EigenSym
			require.True(t, eigen.Factorize(mat.NewSymDense(2, []float64{xx, xy, xy, yy}), false))
			f, _ := plan.FitPicture(oblique.points(places...))
			pixel := f.PixelM(p)
			scatter := math.Sqrt(eigen.Values(nil)[1] + pixel*pixel)
			assert.GreaterOrEqual(t, math.Sqrt(doubt[k]), scatter*0.95, "%s, %v", name, p)
			assert.LessOrEqual(t, math.Sqrt(doubt[k]), scatter*1.35, "%s, %v: misses that are greater than expected widen it, smaller ones do not narrow it", name, p)
		}
	}
}

// Without a ± four points say nothing of how well a place is known; a fifth does.
func TestWhatIsNotSaidIsNoDoubtOfNothing(t *testing.T) {
	f, fault := plan.FitPicture(oblique.points(yard[:4]...))
	require.Nil(t, fault)
	assert.Zero(t, f.Doubt(yard[4]))
	points := oblique.points(yard[:5]...)
	points[4].At.X += 0.6
	f, fault = plan.FitPicture(points)
	require.Nil(t, fault)
	assert.Greater(t, f.RMS, quantity.Length(0))
	for _, p := range append([]plan.Point{{X: 10, Y: 40}}, yard...) {
		assert.GreaterOrEqual(t, f.Doubt(p), f.RMS, "never less than the misses")
	}
	assert.Greater(t, f.Doubt(plan.Point{X: 10, Y: 40}), 2*f.Doubt(yard[4]), "more, far beyond the points")
	points = oblique.points(yard...)
	for _, p := range yard { // twice as many, all out by as much
		points = append(points, oblique.points(p.Plus(0.7, 0.9))...)
	}
	for i := range points {
		points[i].At = points[i].At.Plus(0.3*math.Cos(2.5*float64(i)), 0.3*math.Sin(2.5*float64(i)))
	}
	f, fault = plan.FitPicture(points)
	require.Nil(t, fault)
	assert.Equal(t, f.RMS, f.Doubt(yard[4]), "many points know their mean better than any one place")
}

// Points that happen to fit better than their ± say no more than that.
func TestAPerfectFitIsNoBetterThanItsPoints(t *testing.T) {
	points := oblique.points(yard...)
	for i := range points {
		points[i].Doubt = 0.2
	}
	f, fault := plan.FitPicture(points)
	require.Nil(t, fault)
	assert.Less(t, float64(f.RMS), 1e-9)
	assert.Greater(t, float64(f.Doubt(yard[4])), 0.08, "0.2 m over six points and eight unknowns")
}

// A point of which no ± is said pulls no more than the worst of the others.
func TestPointWithoutPlusMinusIsNoBetterThanTheWorst(t *testing.T) {
	points := noisy(4, &oblique, 0.2, 0.05, 0.4)
	points[0].Doubt = 0
	f, _ := plan.FitPicture(points)
	points[0].Doubt = 0.4
	g, _ := plan.FitPicture(points)
	assert.Equal(t, g.H, f.H)
}

// Only what lies in front of the horizon is drawn, and no farther than half as far again from the
// camera as the farthest of the points.
func TestOutlineEndsBeforeTheHorizon(t *testing.T) {
	for _, down := range []float64{0.15, 0.35, 0.8, math.Pi / 2} {
		c := oblique
		c.down = down
		points := c.points(yard...)
		f, fault := plan.FitPicture(points)
		require.Nil(t, fault)
		farthest := 0.0
		for i := range points {
			_, _, depth := c.sees(points[i].At)
			farthest = max(farthest, depth)
		}
		outline := f.Outline(2000, 1500)
		require.GreaterOrEqual(t, len(outline), 4)
		assert.Nil(t, plan.OutlineFault(outline))
		for _, p := range outline {
			u, v, depth := c.sees(p)
			assert.LessOrEqual(t, depth, 1.5*farthest*(1+1e-9))
			assert.True(t, u > -1e-6 && u < 2000+1e-6 && v > -1e-6 && v < 1500+1e-6, "%v %v", u, v)
		}
		u, v, _ := c.sees(yard[4])
		assert.Equal(t, u >= 0 && v >= 0 && u <= 2000 && v <= 1500, f.Shows(yard[4], 2000, 1500))
		assert.False(t, f.Shows(c.at.Plus(3*farthest*math.Sin(c.bearing), 3*farthest*math.Cos(c.bearing)), 2000, 1500))
	}
}

func TestPointsThatDoNotSayHowAPictureLies(t *testing.T) {
	good := func() []plan.PicturePoint { return oblique.points(yard...) }
	for want, points := range map[string][]plan.PicturePoint{
		"plan: picture-few n=3 more=1":    good()[:3],
		"plan: picture-few n=1 more=3":    good()[:1],
		"plan: picture-many most=40 n=41": make([]plan.PicturePoint, 41),
		"plan: picture-one-spot a=2 b=3": func() []plan.PicturePoint {
			q := good()
			q[2].Right, q[2].Down = q[1].Right+0.3, q[1].Down
			return q
		}(),
		"plan: picture-one-place a=1 b=4":   func() []plan.PicturePoint { q := good(); q[3].At = q[0].At; return q }(),
		"plan: picture-on-line a=1 b=2 c=3": oblique.points(plan.Point{X: -3, Y: 5}, plan.Point{X: 2, Y: 5}, plan.Point{X: 9, Y: 5}, plan.Point{X: 4, Y: 20}),
		"plan: picture-on-line a=2 b=3 c=4": oblique.points(plan.Point{X: 4, Y: 20}, plan.Point{X: -3, Y: 5}, plan.Point{X: 2, Y: 5.02}, plan.Point{X: 9, Y: 5}, plan.Point{X: 12, Y: 5.01}),
		"plan: picture-turns-over": func() []plan.PicturePoint { // north for east
			q := good()
			for i := range q {
				q[i].At.X, q[i].At.Y = q[i].At.Y, q[i].At.X
			}
			return q
		}(),
		"plan: picture-horizon a=2 b=4": func() []plan.PicturePoint { q := good()[:4]; q[0].At, q[1].At = q[1].At, q[0].At; return q }(),
	} {
		f, fault := plan.FitPicture(points)
		require.Nil(t, f, want)
		assert.EqualError(t, fault, want)
		assert.ErrorIs(t, fault, plan.ErrPicture)
		p := plan.New()
		p.Site.Underlay = &plan.Underlay{Type: "image/png", Metres: 0.01, Points: points}
		err := plan.Validate(p)
		require.ErrorIs(t, err, plan.ErrPicture)
		assert.Contains(t, err.Error(), "/site/underlay/measured_points")
		assert.Nil(t, p.Site.Underlay.Fit())
	}
	five := oblique.points(plan.Point{X: -3, Y: 5}, plan.Point{X: 2, Y: 5}, plan.Point{X: 9, Y: 5}, plan.Point{X: 4, Y: 20}, plan.Point{X: -2, Y: 18})
	_, fault := plan.FitPicture(five)
	assert.Nil(t, fault, "three on a line do no harm where there are four that are not")
}

func TestFitOfFarPlacesAndInAnyOrder(t *testing.T) {
	points := noisy(2, &oblique, 0.1)
	f, fault := plan.FitPicture(points)
	require.Nil(t, fault)
	far := append([]plan.PicturePoint{}, points...)
	for i := range far { // grid northings
		far[len(far)-1-i] = points[i]
		far[len(far)-1-i].At = points[i].At.Plus(550000, 5700000)
	}
	g, fault := plan.FitPicture(far)
	require.Nil(t, fault)
	assert.InDelta(t, float64(f.RMS), float64(g.RMS), 1e-7)
	p := plan.Point{X: 4, Y: 12}
	assert.InDelta(t, float64(f.Doubt(p)), float64(g.Doubt(p.Plus(550000, 5700000))), 1e-6)
	u, v, _ := f.Pixel(p)
	u2, v2, _ := g.Pixel(p.Plus(550000, 5700000))
	assert.InDelta(t, 0, math.Hypot(u-u2, v-v2), 1e-3)
}

func BenchmarkFitPicture(b *testing.B) {
	for name, points := range map[string][]plan.PicturePoint{"4 points": oblique.points(yard[:4]...), "6 points": noisy(1, &oblique, 0.1)} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, fault := plan.FitPicture(points); fault != nil {
					b.Fatal(fault)
				}
			}
		})
	}
}
