package survey

import (
	"math"

	"github.com/golang/geo/s2"
)

// WGS 84: NIMA TR8350.2, third edition, tables 3.1 and 3.3.
const (
	semiMajorM   = 6378137.0                     // a
	flattening   = 1 / 298.257223563             // f
	eccentricity = flattening * (2 - flattening) // e², first eccentricity squared
)

// LatLon is a place on the WGS 84 ellipsoid, degrees, north and east positive.
type LatLon struct{ Lat, Lon float64 }

// angles are its angles, for what is asked on a sphere: whether it is a place,
// the middle of many, how far apart two are in the rough. The sphere is up to
// 0.56 % off the ellipsoid and gives no coordinates.
func (l LatLon) angles() s2.LatLng { return s2.LatLngFromDegrees(l.Lat, l.Lon) }

// Radii are the radii of curvature at a latitude, metres: along the meridian and
// across it.
//
//	M = a (1 − e²) / (1 − e² sin²φ)^3/2
//	N = a / √(1 − e² sin²φ)
//
// NIMA TR8350.2, 4.1 (there R_M and R_N).
func Radii(latDeg float64) (meridianM, primeVerticalM float64) {
	s := math.Sin(latDeg * radian)
	w := 1 - eccentricity*s*s
	primeVerticalM = semiMajorM / math.Sqrt(w)
	return primeVerticalM * (1 - eccentricity) / w, primeVerticalM
}

const radian = math.Pi / 180

// Plane touches the ellipsoid at its origin; places are dropped on to it along
// its normal. A step on the plane differs from the geodesic by its third power:
//
//	(s − d) / s ≈ s² / 6 R²    4e-9 at 1 km, 1.6e-6 at 20 km
//
// closed form for a sphere, s = R arcsin(d/R).
type Plane struct {
	origin         LatLon
	sinLat, cosLat float64
	n              float64 // prime vertical radius at the origin
}

// NewPlane is the plane that touches at origin.
func NewPlane(origin LatLon) Plane {
	p := Plane{origin: origin}
	p.sinLat, p.cosLat = math.Sincos(origin.Lat * radian)
	_, p.n = Radii(origin.Lat)
	return p
}

// Place is where a place of the ellipsoid lies on the plane, metres east and
// north of the origin.
//
//	x = N cosφ sin Δλ
//	y = (1 − e²)(N sinφ − N₀ sinφ₀) cosφ₀ − (N cosφ cos Δλ − N₀ cosφ₀) sinφ₀
//
// the differences of the geocentric coordinates (TR8350.2, 4.2) turned into east
// and north at the origin.
func (p Plane) Place(at LatLon) (xM, yM float64) {
	sinLat, cosLat := math.Sincos(at.Lat * radian)
	sinTurn, cosTurn := math.Sincos((at.Lon - p.origin.Lon) * radian)
	n := semiMajorM / math.Sqrt(1-eccentricity*sinLat*sinLat)
	out := n*cosLat*cosTurn - p.n*p.cosLat               // away from the axis, in the origin's meridian
	up := (1 - eccentricity) * (n*sinLat - p.n*p.sinLat) // along the axis
	return n * cosLat * sinTurn, up*p.cosLat - out*p.sinLat
}
