package survey_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/canvas/survey"
)

// near fails on NaN, which InDelta lets pass when both are.
func near(t require.TestingT, want, got, within float64, what ...any) {
	require.False(t, math.IsNaN(want) || math.IsNaN(got), what...)
	assert.InDelta(t, want, got, within, what...)
}

// vincenty is the length of the geodesic on the WGS 84 ellipsoid, metres, and its
// first bearing, degrees: T. Vincenty, Direct and inverse solutions of geodesics
// on the ellipsoid with application of nested equations, Survey Review XXIII,
// 176, 1975, the inverse formula, equations 3, 4, 10, 11 and 13 to 19.
func vincenty(from, to survey.LatLon) (lengthM, bearingDeg float64) {
	const a, f = 6378137.0, 1 / 298.257223563
	b := a * (1 - f)
	rad := math.Pi / 180
	u1, u2 := math.Atan((1-f)*math.Tan(from.Lat*rad)), math.Atan((1-f)*math.Tan(to.Lat*rad))
	l := (to.Lon - from.Lon) * rad
	lambda := l
	var sinS, cosS, sigma, cos2Alpha, cos2M float64
	for range 100 {
		sinS = math.Hypot(math.Cos(u2)*math.Sin(lambda), math.Cos(u1)*math.Sin(u2)-math.Sin(u1)*math.Cos(u2)*math.Cos(lambda))
		if sinS == 0 {
			return 0, 0
		}
		cosS = math.Sin(u1)*math.Sin(u2) + math.Cos(u1)*math.Cos(u2)*math.Cos(lambda)
		sigma = math.Atan2(sinS, cosS)
		sinAlpha := math.Cos(u1) * math.Cos(u2) * math.Sin(lambda) / sinS
		cos2Alpha = 1 - sinAlpha*sinAlpha
		cos2M = 0
		if cos2Alpha > 0 {
			cos2M = cosS - 2*math.Sin(u1)*math.Sin(u2)/cos2Alpha
		}
		c := f / 16 * cos2Alpha * (4 + f*(4-3*cos2Alpha))
		was := lambda
		lambda = l + (1-c)*f*sinAlpha*(sigma+c*sinS*(cos2M+c*cosS*(-1+2*cos2M*cos2M)))
		if math.Abs(lambda-was) < 1e-14 {
			break
		}
	}
	uu := cos2Alpha * (a*a - b*b) / (b * b)
	A := 1 + uu/16384*(4096+uu*(-768+uu*(320-175*uu)))
	B := uu / 1024 * (256 + uu*(-128+uu*(74-47*uu)))
	d := B * sinS * (cos2M + B/4*(cosS*(-1+2*cos2M*cos2M)-B/6*cos2M*(-3+4*sinS*sinS)*(-3+4*cos2M*cos2M)))
	bearing := math.Atan2(math.Cos(u2)*math.Sin(lambda), math.Cos(u1)*math.Sin(u2)-math.Sin(u1)*math.Cos(u2)*math.Cos(lambda))
	return b * A * (sigma - d), math.Mod(bearing/rad+360, 360)
}

func dms(d, m, s float64) float64 { return d + m/60 + s/3600 }

// The oracle itself: the worked example of a geodesic in the Geocentric Datum
// of Australia Technical Manual (ICSM), 54 972.271 m at 306°52'05.37". Its ellipsoid, GRS 80, differs from WGS 84 by 0.1 mm.
func TestVincenty(t *testing.T) {
	length, bearing := vincenty(
		survey.LatLon{Lat: -dms(37, 57, 3.72030), Lon: dms(144, 25, 29.52440)},
		survey.LatLon{Lat: -dms(37, 39, 10.15610), Lon: dms(143, 55, 35.38390)})
	near(t, 54972.271, length, 0.001)
	near(t, dms(306, 52, 5.37), bearing, 0.01/3600)
}

func TestRadii(t *testing.T) {
	// NIMA TR8350.2, table 3.3: a = 6378137 m, e² = 6.69437999014e-3, polar
	// radius of curvature c = 6399593.6258 m. M(0) = a (1 − e²), closed form.
	m, n := survey.Radii(0)
	near(t, 6378137*(1-6.69437999014e-3), m, 1e-4)
	near(t, 6378137, n, 1e-9)
	for _, pole := range []float64{-90, 90} {
		m, n = survey.Radii(pole)
		near(t, 6399593.6258, m, 1e-4)
		near(t, 6399593.6258, n, 1e-4)
	}
}

// Within 2 km, length and bearing on the plane are those of the geodesic.
func TestPlaneIsTrue(t *testing.T) {
	for _, lat := range []float64{0, 12.5, -37.9, 51.2, 64.1, -78.5, 89} {
		for _, lon := range []float64{0, -3.4, 179.999} {
			for _, far := range []float64{50, 500, 2000} {
				t.Run(fmt.Sprint(lat, lon, far), func(t *testing.T) {
					origin := survey.LatLon{Lat: lat, Lon: lon}
					for bearing := 0.0; bearing < 360; bearing += 30 {
						x, y := far*math.Sin(bearing*math.Pi/180), far*math.Cos(bearing*math.Pi/180)
						there := back(origin, x, y)
						length, way := vincenty(origin, there)
						near(t, far, length, far*1e-6)
						turn := math.Remainder(way-bearing, 360)
						near(t, 0, turn*math.Pi/180, 1e-6)
						// And between two places that are not the origin.
						other := back(origin, -y/2, x/2)
						length, _ = vincenty(there, other)
						near(t, math.Hypot(x+y/2, y-x/2), length, far*1e-6)
					}
				})
			}
		}
	}
}

func TestPlaneThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		origin := survey.LatLon{Lat: rapid.Float64Range(-89, 89).Draw(t, "lat"), Lon: rapid.Float64Range(-180, 180).Draw(t, "lon")}
		x, y := rapid.Float64Range(-20e3, 20e3).Draw(t, "x"), rapid.Float64Range(-20e3, 20e3).Draw(t, "y")
		gotX, gotY := survey.NewPlane(origin).Place(back(origin, x, y))
		near(t, x, gotX, 1e-6)
		near(t, y, gotY, 1e-6)
	})
}

// back is the place of the ellipsoid that lies at x, y, metres, on the plane
// that touches at origin, by stepping along the radii of curvature:
//
//	Δφ = Δy / M    Δλ = Δx / (N cosφ)
func back(origin survey.LatLon, xM, yM float64) survey.LatLon {
	const radian = math.Pi / 180
	plane, at := survey.NewPlane(origin), origin
	for range 20 {
		x, y := plane.Place(at)
		m, n := survey.Radii(at.Lat)
		dx, dy := xM-x, yM-y
		at.Lat += dy / m / radian
		at.Lon += dx / (n * max(math.Cos(at.Lat*radian), 1e-6)) / radian
		if math.Abs(dx) < 1e-9 && math.Abs(dy) < 1e-9 {
			break
		}
	}
	return at
}
