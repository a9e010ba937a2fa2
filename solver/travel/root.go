package travel

import "math"

const (
	// rootM, metres: events are found this closely. One side of an event is looked
	// at from besideM off.
	rootM   = 1e-10
	besideM = 1e-9
	// rootTries bounds the search for one root; halving alone takes 32 from a grid
	// step.
	rootTries = 80
	// slopeM, metres, is half the base of a difference quotient.
	slopeM = 1e-3
)

// root is where f, of different sign at a and b (fa, fb), changes its sign, to
// rootM: false position that halves the value that stays (the Illinois change), and
// halves the bracket where that does not close it. f may jump. A value that is not a
// number counts as beyond b.
func root(f func(float64) float64, a, b, fa, fb float64) float64 {
	for try := 0; try < rootTries && b-a > rootM; try++ {
		width := b - a
		x := a + width*fa/(fa-fb)
		if try%3 == 2 || !(x > a && x < b) {
			x = a + width/2
		}
		// Step a little past the root, so that the far end closes in too.
		y := f(x)
		switch {
		case y == 0:
			return x
		case y != y || (y > 0) == (fb > 0):
			b, fb = x, y
			fa /= 2
			if fb != fb {
				fb = -fa
			}
		default:
			a, fa = x, y
			fb /= 2
		}
	}
	return a + (b-a)/2
}

// lowest looks for the least value of f between a and c, b being a place between
// them with a value below both. It ends at once where f is not above nought, and
// after steps otherwise.
func lowest(f func(float64) float64, a, b, c, fb float64, steps int) (at, value float64) {
	const golden = 0.3819660112501051 // (3 − √5)/2
	for ; steps > 0 && fb > 0; steps-- {
		right := c-b > b-a
		x := b - golden*(b-a)
		if right {
			x = b + golden*(c-b)
		}
		y := f(x)
		switch {
		case y < fb && right:
			a, b, fb = b, x, y
		case y < fb:
			c, b, fb = b, x, y
		case right:
			c = x
		default:
			a = x
		}
	}
	return b, fb
}

// vertex is the place and value of the parabola through three points, and false if
// it has no highest or lowest place between them.
func vertex(x, y [3]float64) (at, value float64, ok bool) {
	d1 := (y[1] - y[0]) / (x[1] - x[0])
	d2 := (y[2] - y[1]) / (x[2] - x[1])
	c := (d2 - d1) / (x[2] - x[0])
	at = (x[0]+x[1])/2 - d1/(2*c)
	if c == 0 || !(at > x[0] && at < x[2]) {
		return x[1], y[1], false
	}
	h := at - x[1]
	slope := d1 + c*(x[1]-x[0])
	return at, y[1] + h*(slope+c*h), !math.IsNaN(at)
}
