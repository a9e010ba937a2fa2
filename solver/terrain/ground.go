package terrain

import (
	"fmt"
	"math"

	"github.com/golang/geo/r3"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// MaxSlope is the steepest ground, degrees: the bound of plan.Ground.
const MaxSlope quantity.Degrees = 60

// Ground is the plane everything stands on. The zero value is not a ground; use
// [Flat] or [NewGround].
type Ground struct {
	sin, cos, tan float64
	east, north   float64 // horizontal unit vector downhill
	lacks         string
}

// Flat is level ground.
var Flat = Ground{cos: 1, north: 1}

// NewGround is the plane of g. It refuses slopes that are not finite or not
// from 0 to [MaxSlope]; a valid plan has none. A slope that is not known is
// drawn level, one without a direction falls to the north: whoever decides
// something by them asks [Ground.Lacks] first.
func NewGround(g plan.Ground) (Ground, error) {
	slope, slopeKnown := g.Slope.Get()
	downhill, downhillKnown := g.Downhill.Get()
	if !(slope >= 0 && slope <= MaxSlope) {
		return Ground{}, fmt.Errorf("terrain: ground: slope of %v° is not from 0 to %v°", float64(slope), float64(MaxSlope))
	}
	if d := float64(downhill); math.IsNaN(d) || math.IsInf(d, 0) {
		return Ground{}, fmt.Errorf("terrain: ground: downhill bearing %v is not finite", d)
	}
	if slope == 0 {
		gr := Flat
		if !slopeKnown {
			gr.lacks = "slope_deg"
		}
		return gr, nil
	}
	gr := Ground{}
	gr.sin, gr.cos = math.Sincos(slope.Radians())
	gr.tan = gr.sin / gr.cos
	gr.east, gr.north = plan.Heading(downhill)
	if !downhillKnown {
		gr.lacks = "downhill_bearing_deg"
	}
	return gr, nil
}

// Lacks is the JSON name of the member of the ground that is not known and
// without which no slope along or across a heading is; empty: none.
func (g *Ground) Lacks() string { return g.lacks }

// Z is the height of the plane at (x, y), metres.
//
//	z = -tan β · (u · p), u the horizontal unit vector downhill
func (g *Ground) Z(x, y float64) float64 { return -g.tan * (g.east*x + g.north*y) }

// Lift is the point aboveM metres over the plane at p, measured upright.
func (g *Ground) Lift(p plan.Point, aboveM float64) r3.Vector {
	return r3.Vector{X: p.X, Y: p.Y, Z: g.Z(p.X, p.Y) + aboveM}
}

// Spot is the place of a hook-on point.
func (g *Ground) Spot(s plan.Spot) r3.Vector { return g.Lift(s.At, float64(s.Height)) }

// Above is how high v is over the plane, metres, measured upright.
func (g *Ground) Above(v r3.Vector) float64 { return v.Z - g.Z(v.X, v.Y) }

// Normal is the unit vector square to the plane, upward.
func (g *Ground) Normal() r3.Vector {
	return r3.Vector{X: g.sin * g.east, Y: g.sin * g.north, Z: g.cos}
}

// Downhill is the unit vector down the fall line, along the plane. Of level
// ground it is level and points north.
func (g *Ground) Downhill() r3.Vector {
	return r3.Vector{X: g.cos * g.east, Y: g.cos * g.north, Z: -g.sin}
}

// Along is the unit vector along the plane whose bearing on the map is bearing.
func (g *Ground) Along(bearing quantity.Degrees) r3.Vector {
	e, n := plan.Heading(bearing)
	return r3.Vector{X: e, Y: n, Z: g.Z(e, n)}.Normalize()
}

// Across is the unit vector along the plane to the right of bearing, square to
// [Ground.Along].
func (g *Ground) Across(bearing quantity.Degrees) r3.Vector {
	return g.Along(bearing).Cross(g.Normal())
}

// SinFall is the sine of the slope along a bearing, positive where the ground
// falls that way.
//
//	sin a = sin β · cos ψ
//
// with ψ from the fall line, measured in the plane.
func (g *Ground) SinFall(bearing quantity.Degrees) float64 { return -g.Along(bearing).Z }

// Fall is the slope along a bearing, positive where the ground falls that way.
func (g *Ground) Fall(bearing quantity.Degrees) quantity.Degrees {
	return arcsine(g.SinFall(bearing))
}

// SinLateral is the sine of the slope across a heading, positive where the
// ground falls to its right; with [Ground.SinFall] it makes up the whole slope.
//
//	sin β_lat = sin β · sin ψ
func (g *Ground) SinLateral(heading quantity.Degrees) float64 { return -g.Across(heading).Z }

// Lateral is the slope across a heading, positive where the ground falls to its
// right.
func (g *Ground) Lateral(heading quantity.Degrees) quantity.Degrees {
	return arcsine(g.SinLateral(heading))
}

func arcsine(x float64) quantity.Degrees {
	return quantity.FromRadians(math.Asin(max(-1, min(1, x))))
}

// OnGround is v's part along the plane.
func (g *Ground) OnGround(v r3.Vector) r3.Vector {
	n := g.Normal()
	return v.Sub(n.Mul(v.Dot(n)))
}
