package plan

import (
	"math"

	"github.com/go-json-experiment/json/jsontext"

	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// PicturePoint is a point of the ground whose place was measured and that is seen in the
// picture to trace. Four or more lay a picture that does not look straight down.
type PicturePoint struct {
	Name  string          `json:"name,omitzero"`
	Right float64         `json:"right_px"`         // of the picture's upper left corner, pixels
	Down  float64         `json:"down_px"`          // of it, pixels
	At    Point           `json:"at"`               // where it was measured
	Doubt quantity.Length `json:"doubt_m,omitzero"` // ± of that to any side; 0: not known
	Extra jsontext.Value  `json:",embed"`
}

// Of measured points of a picture.
const (
	LeastPicturePoints = 4  // two planes have eight unknowns, a point two equations (closed form)
	mostPicturePoints  = 40 // ours: nobody measures more, and any four of them are looked at

	leastApartPx = 0.5   // of two points in the picture: it is not clicked finer (ours)
	leastApartM  = 0.001 // of two measured places (ours: a length is typed to the millimetre)
	leastOffLine = 0.02  // of a point off the line through two others, shares of how far the three span (ours)
)

// spot is a place in a plane, picture or ground.
func (q *PicturePoint) spot(ground bool) Point {
	if ground {
		return q.At
	}
	return Point{q.Right, q.Down}
}

// pointsFault is what keeps points from saying how a picture lies, before anything is
// computed: too few or too many, two at one place, no four of them of which no three are on
// a line. Nil: nothing.
func pointsFault(points []PicturePoint) *refusal.Error {
	n := len(points)
	switch {
	case n < LeastPicturePoints:
		return pictureFew.At("", n, LeastPicturePoints-n)
	case n > mostPicturePoints:
		return pictureMany.At("", mostPicturePoints, n)
	}
	for b := range points {
		for a := range b {
			switch p, q := &points[a], &points[b]; {
			case p.spot(false).Dist(q.spot(false)) < leastApartPx:
				return sameInPicture.At("", a+1, b+1)
			case p.At.Dist(q.At) < leastApartM:
				return sameOnGround.At("", a+1, b+1)
			}
		}
	}
	return onLine(points)
}

// onLine refuses points of which no four are such that no three of them are on a line, in
// the picture or on the ground.
func onLine(points []PicturePoint) *refusal.Error {
	n := len(points)
	var first *refusal.Error
	bad := func(i, j, k int) bool {
		for _, ground := range []bool{false, true} {
			if flat(points[i].spot(ground), points[j].spot(ground), points[k].spot(ground)) {
				if first == nil {
					first = pictureOnLine.At("", i+1, j+1, k+1)
				}
				return true
			}
		}
		return false
	}
	for i := range n {
		for j := i + 1; j < n; j++ {
			for k := j + 1; k < n; k++ {
				if bad(i, j, k) {
					continue
				}
				for l := k + 1; l < n; l++ {
					if !bad(i, j, l) && !bad(i, k, l) && !bad(j, k, l) {
						return nil
					}
				}
			}
		}
	}
	return first
}

// flat reports whether three places lie all but on a line.
func flat(a, b, c Point) bool {
	long := max(a.Dist(b), b.Dist(c), c.Dist(a))
	area := math.Abs((b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X))
	return !(area > leastOffLine*long*long)
}

// Fit is how the picture lies by its measured points; nil: it has none, and lies by its
// middle, scale and turn. Of a valid plan it is never nil where there are points.
func (u *Underlay) Fit() *PictureFit {
	if u == nil || len(u.Points) == 0 {
		return nil
	}
	f, fault := FitPicture(u.Points)
	if fault != nil {
		return nil
	}
	return f
}

// validUnderlay refuses measured points that do not say how a picture lies.
func validUnderlay(path string, u *Underlay) error {
	if u == nil || len(u.Points) == 0 {
		return nil
	}
	if _, fault := FitPicture(u.Points); fault != nil {
		fault.Where = path + "/measured_points"
		return fault
	}
	return nil
}
