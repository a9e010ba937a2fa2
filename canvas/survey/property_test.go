package survey_test

import (
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/canvas/survey"
)

// A list written in any of the ways comes back as it was.
func TestCSVThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		separator := rapid.SampledFrom([]string{";", "\t", ",", "|"}).Draw(t, "separator")
		decimal := "."
		if separator != "," && rapid.Bool().Draw(t, "decimal comma") {
			decimal = ","
		}
		heads := rapid.SampledFrom([][]string{{"name", "easting", "northing", "height"}, {"Punkt", "Ostwert", "Nordwert", "Höhe"}, {"nom", "est", "nord", "altitude"}}).Draw(t, "heads")
		newline := rapid.SampledFrom([]string{"\n", "\r\n"}).Draw(t, "newline")
		mark := rapid.SampledFrom([]string{"", "\ufeff"}).Draw(t, "mark")
		n := rapid.IntRange(1, 60).Draw(t, "points")
		var b strings.Builder
		b.WriteString(mark + strings.Join(heads, separator) + newline)
		want := make([][3]float64, n)
		for i := range want {
			row := []string{fmt.Sprintf("P%d", i)}
			for j := range want[i] {
				// Millimetres, in the hundreds: a number that is whole or has
				// three decimals, as total stations write it.
				mm := rapid.IntRange(-900_000, 900_000).Draw(t, "mm")
				text := strconv.FormatFloat(float64(mm)/1000, 'f', 3, 64)
				want[i][j], _ = strconv.ParseFloat(text, 64)
				row = append(row, strings.Replace(text, ".", decimal, 1))
			}
			b.WriteString(strings.Join(row, separator) + newline)
		}
		r, err := survey.Read("f", []byte(b.String()), survey.Options{})
		require.NoError(t, err)
		require.Len(t, r.Points, n)
		for i, p := range r.Points {
			require.Equal(t, fmt.Sprintf("P%d", i), p.Name)
			require.Equal(t, want[i], [3]float64{p.X, p.Y, float64(p.Z)})
		}
	})
}

// The same places as GPX, GeoJSON and a list are the same points, and lead back
// to the places.
func TestFormsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lat, lon := rapid.Float64Range(-80, 80).Draw(t, "lat"), rapid.Float64Range(-179, 179).Draw(t, "lon")
		n := rapid.IntRange(2, 20).Draw(t, "points")
		var gpx, list strings.Builder
		gpx.WriteString("<gpx>")
		list.WriteString("latitude,longitude,height\n")
		var coordinates [][]float64
		for range n {
			a := lat + rapid.Float64Range(-0.01, 0.01).Draw(t, "north")
			o := lon + rapid.Float64Range(-0.01, 0.01).Draw(t, "east")
			z := rapid.Float64Range(1, 3000).Draw(t, "height")
			text := func(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }
			for _, x := range []*float64{&a, &o, &z} { // as a file writes them
				*x, _ = strconv.ParseFloat(strconv.FormatFloat(*x, 'f', 12, 64), 64)
			}
			fmt.Fprintf(&gpx, `<wpt lat="%s" lon="%s"><ele>%s</ele></wpt>`, text(a), text(o), text(z))
			fmt.Fprintf(&list, "%s,%s,%s\n", text(a), text(o), text(z))
			coordinates = append(coordinates, []float64{o, a, z})
		}
		gpx.WriteString("</gpx>")
		geo, err := json.Marshal(map[string]any{"type": "MultiPoint", "coordinates": coordinates})
		require.NoError(t, err)
		first, err := survey.Read("", []byte(gpx.String()), survey.Options{})
		require.NoError(t, err)
		for _, data := range [][]byte{geo, []byte(list.String())} {
			other, err := survey.Read("", data, survey.Options{})
			require.NoError(t, err)
			require.Equal(t, first.Points, other.Points)
			require.Equal(t, [2]float64{first.OriginLat, first.OriginLon}, [2]float64{other.OriginLat, other.OriginLon})
		}
		origin := survey.LatLon{Lat: first.OriginLat, Lon: first.OriginLon}
		for i, p := range first.Points {
			back := back(origin, p.X, p.Y)
			near(t, coordinates[i][1], back.Lat, 1e-11)
			near(t, coordinates[i][0], back.Lon, 1e-10)
		}
	})
}

func hundredThousand(form string) []byte {
	var b strings.Builder
	switch form {
	case "GPX":
		b.WriteString(`<?xml version="1.0"?><gpx><trk><trkseg>` + "\n")
	case "GeoJSON":
		b.WriteString(`{"type":"LineString","coordinates":[[7,51,200]`)
	case "CSV":
		b.WriteString("name,latitude,longitude,height\n")
	}
	for i := range 99_999 {
		lat, lon := 51+float64(i%317)*1e-5, 7+float64(i/317)*1e-5
		switch form {
		case "GPX":
			fmt.Fprintf(&b, "<trkpt lat=\"%.7f\" lon=\"%.7f\">\n <ele>212.5</ele>\n <time>2026-05-01T10:00:00Z</time>\n</trkpt>\n", lat, lon)
		case "GeoJSON":
			fmt.Fprintf(&b, ",[%.7f,%.7f,212.5]", lon, lat)
		case "CSV":
			fmt.Fprintf(&b, "P%d,%.7f,%.7f,212.5\n", i, lat, lon)
		}
	}
	switch form {
	case "GPX":
		b.WriteString(`</trkseg></trk></gpx>`)
	case "GeoJSON":
		b.WriteString(`]}`)
	}
	return []byte(b.String())
}

func BenchmarkRead100000(b *testing.B) {
	for _, form := range []string{"GPX", "GeoJSON", "CSV"} {
		b.Run(form, func(b *testing.B) {
			data := hundredThousand(form)
			b.SetBytes(int64(len(data)))
			b.ReportAllocs()
			for b.Loop() {
				r, err := survey.Read("f", data, survey.Options{})
				if err != nil || len(r.Points) < 99_999 {
					b.Fatal(err, len(r.Points))
				}
			}
		})
	}
}
