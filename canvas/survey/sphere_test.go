package survey_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/canvas/survey"
)

// list is places as a file lists them, to a ten-thousandth of a millimetre.
func list(places []survey.LatLon) []byte {
	var b strings.Builder
	b.WriteString("latitude,longitude\n")
	for _, p := range places {
		fmt.Fprintf(&b, "%.12f,%.12f\n", p.Lat, p.Lon)
	}
	return []byte(b.String())
}

// wrapped is a longitude from -180 to 180, either for the date line itself.
func wrapped(lonDeg float64) float64 {
	if w := math.Remainder(lonDeg, 360); w != 0 {
		return w
	}
	return 0
}

// The ellipsoid is one of revolution: a site laid across the date line is the
// same site laid at Greenwich. The origin is rounded to 1e-7 degrees, 1 cm, which
// turns the map by 1e-7° · sin φ and so moves 500 m by less than 1e-5 m.
func TestAcrossTheDateLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat := rapid.Float64Range(-80, 80).Draw(t, "lat")
		n := rapid.IntRange(2, 12).Draw(t, "points")
		here, there := make([]survey.LatLon, n), make([]survey.LatLon, n)
		for i := range here {
			north, east := rapid.Float64Range(-0.002, 0.002).Draw(t, "north"), rapid.Float64Range(-0.002, 0.002).Draw(t, "east")
			here[i], there[i] = survey.LatLon{Lat: lat + north, Lon: east}, survey.LatLon{Lat: lat + north, Lon: wrapped(180 + east)}
		}
		a, err := survey.Read("", list(here), survey.Options{})
		require.NoError(t, err)
		b, err := survey.Read("", list(there), survey.Options{})
		require.NoError(t, err)
		near(t, 0, wrapped(b.OriginLon-a.OriginLon-180), 2.1e-7)
		for i := range a.Points {
			near(t, a.Points[i].X-a.Points[0].X, b.Points[i].X-b.Points[0].X, 1e-5)
			near(t, a.Points[i].Y-a.Points[0].Y, b.Points[i].Y-b.Points[0].Y, 1e-5)
		}
	})
}

// About a pole a place is its distance from there and its longitude, on a circle
// of the polar radius of curvature (NIMA TR8350.2, table 3.3); within 300 m that
// is plane to (r/R)², 2e-9.
func TestRoundAPole(t *testing.T) {
	const polarM = 6399593.6258
	rapid.Check(t, func(t *rapid.T) {
		pole := rapid.SampledFrom([]float64{-90, 90}).Draw(t, "pole")
		n := rapid.IntRange(2, 12).Draw(t, "points")
		flat, places := make([][2]float64, n), make([]survey.LatLon, n)
		for i := range places {
			x, y := rapid.Float64Range(-200, 200).Draw(t, "x"), rapid.Float64Range(-200, 200).Draw(t, "y")
			flat[i] = [2]float64{x, y}
			places[i] = survey.LatLon{Lat: pole - math.Copysign(math.Hypot(x, y)/polarM*180/math.Pi, pole), Lon: math.Atan2(y, x) * 180 / math.Pi}
		}
		r, err := survey.Read("", list(places), survey.Options{})
		require.NoError(t, err)
		for i := range places {
			for j := range i {
				want := math.Hypot(flat[i][0]-flat[j][0], flat[i][1]-flat[j][1])
				near(t, want, math.Hypot(r.Points[i].X-r.Points[j].X, r.Points[i].Y-r.Points[j].Y), 1e-5)
			}
		}
	})
}

// Two places 2° apart or more, the far side of the earth among them, are no site:
// one of them is 1° from any origin, 111 km.
func TestFarApartIsNoSite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := survey.LatLon{Lat: rapid.Float64Range(-90, 90).Draw(t, "lat"), Lon: rapid.Float64Range(-180, 180).Draw(t, "lon")}
		b := survey.LatLon{Lat: -a.Lat, Lon: wrapped(a.Lon + 180)} // opposite
		if !rapid.Bool().Draw(t, "opposite") {
			b = survey.LatLon{Lat: rapid.Float64Range(-90, 90).Draw(t, "other lat"), Lon: rapid.Float64Range(-180, 180).Draw(t, "other lon")}
		}
		rad := math.Pi / 180 // the cosine rule of the sphere
		cos := math.Sin(a.Lat*rad)*math.Sin(b.Lat*rad) + math.Cos(a.Lat*rad)*math.Cos(b.Lat*rad)*math.Cos((a.Lon-b.Lon)*rad)
		if cos > math.Cos(2.01*rad) || math.Hypot(a.Lat, a.Lon) < 1e-6 || math.Hypot(b.Lat, b.Lon) < 1e-6 {
			t.Skip("near, or left out as nowhere")
		}
		_, err := survey.Read("", list([]survey.LatLon{a, b}), survey.Options{})
		require.ErrorIs(t, err, survey.ErrPlace)
		_, err = survey.Read("", list([]survey.LatLon{a}), survey.Options{Origin: &b})
		require.ErrorIs(t, err, survey.ErrPlace)
	})
}

// The bounds of latitude and longitude: RFC 7946, 4, and ISO 6709.
func TestNoPlaceOnEarth(t *testing.T) {
	for _, c := range []struct {
		at   survey.LatLon
		want error
	}{
		{survey.LatLon{Lat: 90, Lon: 180}, nil},
		{survey.LatLon{Lat: -90, Lon: -180}, nil},
		{survey.LatLon{Lat: 90.000001, Lon: 0}, survey.ErrPlace},
		{survey.LatLon{Lat: -90.000001, Lon: 0}, survey.ErrPlace},
		{survey.LatLon{Lat: 1, Lon: 180.000001}, survey.ErrPlace},
		{survey.LatLon{Lat: 1, Lon: -180.000001}, survey.ErrPlace},
	} {
		_, err := survey.Read("", list([]survey.LatLon{c.at}), survey.Options{})
		require.ErrorIs(t, err, c.want, "%v", c.at)
		_, err = survey.Read("", list([]survey.LatLon{{Lat: 89.9, Lon: 7}}), survey.Options{Origin: &c.at})
		if c.want != nil {
			require.ErrorIs(t, err, c.want, "%v", c.at)
		}
	}
}
