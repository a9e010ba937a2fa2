package draw

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
)

// angleDeg is a direction, counter-clockwise as seen.
func angleDeg(d r2.Point) float64 { return math.Atan2(-d.Y, d.X) * 180 / math.Pi }

// frame maps a thing's own axes, ahead and left, to the picture.
func frame(at, ahead r2.Point) pen.Affine {
	left := r2.Point{X: ahead.Y, Y: -ahead.X}
	return pen.Affine{A: ahead.X, B: ahead.Y, C: left.X, D: left.Y, E: at.X, F: at.Y}
}

// view is the picture as a box.
func (v *View) box() r2.Rect { return pen.Box(v.X0, v.Y0, v.X0+v.W, v.Y0+v.H) }
