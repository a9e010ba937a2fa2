package travel

import "math"

const (
	// rootM, metres: events are found this closely. One side of an event is looked
	// at from besideM off.
	rootM   = 1e-10
	besideM = 1e-9
	// rootTries bounds the search for one root; halving alone takes 32 from a grid
	// step, this some eight.
	rootTries = 80
	// slopeM, metres, is half the base of a difference quotient.
	slopeM = 1e-3
)

// root is where f, of different sign at a and b (fa, fb), changes its sign, to
// rootM: inverse quadratic interpolation where the last three values allow it, and
// halving where they do not (T. R. Chandrupatla, 1997). f may jump. A value that is not
// a number counts as beyond b.
func root(f func(float64) float64, a, b, fa, fb float64) float64 {
	beyond := fb
	t := 0.5
	for range rootTries {
		x := a + t*(b-a)
		y := f(x)
		if y != y {
			y = beyond
		}
		c, fc := a, fa
		if (y > 0) != (fa > 0) {
			c, fc, b, fb = b, fb, a, fa
		}
		a, fa = x, y
		least := rootM / 2 / math.Abs(b-a)
		if fa == 0 || least > 0.5 {
			break
		}
		xi, phi := (a-b)/(c-b), (fa-fb)/(fc-fb)
		t = 0.5
		if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
			t = fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		}
		t = math.Min(math.Max(t, least), 1-least)
	}
	if math.Abs(fb) < math.Abs(fa) {
		return b
	}
	return a
}

// lowest looks for the least value of f between a and c, b being a place between
// them with a value below both. It ends at once where f is not above zero, and
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
