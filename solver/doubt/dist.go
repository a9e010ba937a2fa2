package doubt

import (
	"errors"
	"fmt"
	"math"

	"kedge/solver/part"
)

// ErrDist is wrapped by the errors of distributions that there cannot be.
var ErrDist = errors.New("doubt: no such distribution")

// Dist says how a figure scatters, in the figure's own unit. The zero Dist is the
// figure 0, known exactly.
type Dist struct {
	kind    distKind
	a, b, c float64 // mean and sd; of the logarithm for a lognormal; low, likely and high
}

type distKind uint8

const (
	sure distKind = iota
	normal
	lognormal
	uniform
	triangular
)

// Sure is a figure that is known.
func Sure(x float64) Dist { return Dist{sure, x, 0, x} }

// Normal scatters with a standard deviation about a mean.
func Normal(mean, sd float64) (Dist, error) {
	return valid(Dist{normal, mean, sd, 0}, sd >= 0, "normal", mean, sd)
}

// Lognormal is for what multiplies or cannot be negative: its own mean, and its
// standard deviation over it.
func Lognormal(mean, cov float64) (Dist, error) {
	v := math.Log1p(cov * cov)
	return valid(Dist{lognormal, math.Log(mean) - v/2, math.Sqrt(v), 0}, mean > 0 && cov >= 0, "lognormal", mean, cov)
}

// Uniform lies anywhere between two figures alike.
func Uniform(low, high float64) (Dist, error) {
	return valid(Dist{uniform, low, 0, high}, low <= high, "uniform", low, high)
}

// Triangular rises straight from low to likely and falls straight to high.
func Triangular(low, likely, high float64) (Dist, error) {
	return valid(Dist{triangular, low, likely, high}, low <= likely && likely <= high, "triangular", low, likely, high)
}

// triangleOf is a range read as a triangle, its likely figure brought between its ends.
func triangleOf(r part.Range) (Dist, error) {
	return Triangular(float64(r.Low), float64(min(max(r.Likely, r.Low), r.High)), float64(r.High))
}

// valid is d, or an error if it cannot be or a figure of it is not finite.
func valid(d Dist, can bool, name string, figures ...float64) (Dist, error) {
	for _, x := range figures {
		can = can && !math.IsNaN(x) && !math.IsInf(x, 0)
	}
	if !can {
		return Dist{}, fmt.Errorf("%w: %s %v", ErrDist, name, figures)
	}
	return d, nil
}

// At is the figure that so large a share lies below, 0 < share < 1.
func (d Dist) At(share float64) float64 {
	switch d.kind {
	case normal, lognormal:
		return d.OfNormal(Quantile(share))
	case uniform, triangular:
		return d.between(share, 1-share)
	}
	return d.a
}

// OfNormal is the figure that as much lies below as below a standard normal z: exact
// in both tails, where 1 - share is not.
func (d Dist) OfNormal(z float64) float64 {
	switch d.kind {
	case normal:
		return d.a + d.b*z
	case lognormal:
		return math.Exp(d.a + d.b*z)
	case uniform, triangular:
		return d.between(Phi(z), Phi(-z))
	}
	return d.a
}

// between is the figure of a uniform or triangular scatter with these shares below
// and above it.
func (d Dist) between(below, above float64) float64 {
	span := d.c - d.a
	switch {
	case d.kind == uniform || span == 0:
		return d.a + span*below
	case below*span < d.b-d.a:
		return d.a + math.Sqrt(below*span*(d.b-d.a))
	}
	return d.c - math.Sqrt(above*span*(d.c-d.b))
}

// times is the scatter of the figure times k > 0.
func (d Dist) times(k float64) Dist {
	if d.kind == lognormal {
		d.a += math.Log(k)
		return d
	}
	return Dist{d.kind, d.a * k, d.b * k, d.c * k}
}

// Scatters reports whether there is any doubt in the figure.
func (d Dist) Scatters() bool {
	switch d.kind {
	case normal, lognormal:
		return d.b > 0
	}
	return d.a < d.c
}

// meanOfLog is the mean of a lognormal scatter.
func (d Dist) meanOfLog() float64 { return math.Exp(d.a + d.b*d.b/2) }

// sdOfLog is the standard deviation of a lognormal scatter.
func (d Dist) sdOfLog() float64 { return d.meanOfLog() * math.Sqrt(math.Expm1(d.b*d.b)) }
