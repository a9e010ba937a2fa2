package survey_test

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/survey"
	"kedge/canvas/words"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

const gpx = `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1" creator="hand" xmlns="http://www.topografix.com/GPX/1/1">
 <metadata><name>Curlew Moss</name></metadata>
 <wpt lat="51.0005" lon="7.0000"><ele>212.5</ele><name>Pine &amp; boulder</name><extensions><name>no</name></extensions></wpt>
 <wpt lat="51.0000" lon="7.0010"/>
 <trk><name>Peat track</name><trkseg>
  <trkpt lat="50.9995" lon="6.9990"><ele>210</ele><time>2026-05-01T10:00:00Z</time></trkpt>
  <trkpt lat="50.9996" lon="6.9995"><ele>211</ele></trkpt>
 </trkseg></trk>
 <rte><name>Round the bog</name>
  <rtept lat="51.0000" lon="7.0000"/><rtept lat="51.0002" lon="7.0000"/><rtept lat="51.0002" lon="7.0003"/><rtept lat="51.0000" lon="7.0000"/>
 </rte>
</gpx>`

func TestGPX(t *testing.T) {
	r, err := survey.Read("moss.gpx", []byte(gpx), survey.Options{})
	require.NoError(t, err)
	assert.Equal(t, survey.FormatGPX, r.Format)
	assert.True(t, r.OnGlobe)
	near(t, 51.0, r.OriginLat, 1e-9, "middle of 50.9995 and 51.0005")
	near(t, 7.0, r.OriginLon, 1e-9)
	require.Len(t, r.Points, 8)
	assert.Equal(t, "Pine & boulder", r.Points[0].Name, "not that of its extensions")
	near(t, 212.5, float64(r.Points[0].Z), 0)
	// M(51°) = 6373954 m by the formula of Radii: half a thousandth of a degree
	// north is 55.62 m; N cos φ: a thousandth of a degree east is 70.20 m.
	near(t, 55.62, r.Points[0].Y, 0.01)
	near(t, 0, r.Points[0].X, 1e-6)
	near(t, 70.20, r.Points[1].X, 0.01)
	require.Len(t, r.Outlines, 2)
	assert.Equal(t, "Peat track", r.Outlines[0].Name)
	assert.False(t, r.Outlines[0].Closed)
	assert.Equal(t, "Round the bog", r.Outlines[1].Name)
	assert.True(t, r.Outlines[1].Closed, "it comes back")
	assert.Len(t, r.Outlines[1].Corners, 3)
	assert.Equal(t, []string{"5 points without a height counted as 0 m."}, notes(t, r))

	p := plan.New()
	p.Site.Survey = r.Survey(english(t).Refusal)
	_, err = plan.FormatPlan(p)
	require.NoError(t, err, "a plan takes it")
	assert.Equal(t, "moss.gpx, GPX. 5 points without a height counted as 0 m.", p.Site.Survey.Source)
}

func TestGPXAcrossTheDateLine(t *testing.T) {
	r, err := survey.Read("", []byte(`<gpx><wpt lat="-16.5" lon="179.9999"/><wpt lat="-16.5" lon="-179.9999"/></gpx>`), survey.Options{})
	require.NoError(t, err)
	near(t, 180, math.Abs(r.OriginLon), 1e-9)
	// Two ten-thousandths of a degree at N cos φ, N(−16.5°) = 6379859 m: 21.35 m.
	near(t, 21.35, r.Points[1].X-r.Points[0].X, 0.01)
}

func TestGPXWithoutAFix(t *testing.T) {
	r, err := survey.Read("", []byte(`<gpx><wpt lat="0" lon="0"/><wpt lat="51" lon="7"/></gpx>`), survey.Options{})
	require.NoError(t, err)
	assert.Len(t, r.Points, 1)
	assert.Equal(t, []string{"1 point at 0°, 0° left out: a recorder without a fix writes such."}, notes(t, r))
}

func TestOnAnOriginThatIsThere(t *testing.T) {
	r, err := survey.Read("", []byte(`<gpx><wpt lat="51" lon="7"/></gpx>`), survey.Options{Origin: &survey.LatLon{Lat: 51, Lon: 6.999}})
	require.NoError(t, err)
	near(t, 70.20, r.Points[0].X, 0.01, "as in TestGPX")
	near(t, 6.999, r.OriginLon, 0)
}

func TestGeoJSON(t *testing.T) {
	r, err := survey.Read("moss.geojson", []byte(`{"type":"FeatureCollection","features":[
	 {"type":"Feature","properties":{"name":"Boulder 1"},"geometry":{"type":"Polygon","coordinates":[
	   [[7,51],[7.0001,51],[7.0001,51.0001],[7,51]],[[7.00005,51.00001],[7.00006,51.00001],[7.00006,51.00002],[7.00005,51.00001]]]}},
	 {"type":"Feature","id":4,"properties":null,"geometry":{"type":"Point","coordinates":[7,51,212.5]}},
	 {"type":"Feature","properties":{},"geometry":{"type":"GeometryCollection","geometries":[
	   {"type":"MultiPoint","coordinates":[[7,51],[7.0001,51]]},
	   {"type":"MultiLineString","coordinates":[[[7,51],[7.0001,51]]]},
	   {"type":"MultiPolygon","coordinates":[[[[7,51],[7.0002,51],[7.0002,51.0002],[7,51]]]]}]}},
	 {"type":"Feature","properties":{},"geometry":null}]}`), survey.Options{})
	require.NoError(t, err)
	assert.Equal(t, survey.FormatGeoJSON, r.Format)
	require.Len(t, r.Outlines, 3)
	assert.Equal(t, "Boulder 1", r.Outlines[0].Name)
	assert.True(t, r.Outlines[0].Closed)
	assert.Len(t, r.Outlines[0].Corners, 3, "RFC 7946 repeats the first, a plan does not")
	near(t, 7.02, r.Outlines[0].Corners[1].X-r.Outlines[0].Corners[0].X, 0.001, "a tenth of that in TestGPX")
	require.Len(t, r.Points, 5, "a point, two, and the two of a line")
	assert.Equal(t, "4", r.Points[0].Name)
	near(t, 212.5, float64(r.Points[0].Z), 0)
	assert.Contains(t, notes(t, r), "Holes in areas were left out.")
	assert.Contains(t, notes(t, r), "Features without a geometry were left out.")
}

func TestCSV(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       string // name@x,y,z …
		notes      []string
	}{
		{"plain", "name,x,y,z\nPine,1.5,2.25,0.5\nRock,-3,4,\n", "Pine@1.5,2.25,0.5 Rock@-3,4,0",
			[]string{"x was taken as east, y as north.", "1 point without a height counted as 0 m."}},
		{"semicolons and decimal commas, German heads, a mark of byte order", "\ufeffPunkt;Rechtswert [m];Hochwert [m];Höhe\r\nKiefer;1,5;2,25;0,5\r\nFels;-3;4;1\r\n", "Kiefer@1.5,2.25,0.5 Fels@-3,4,1", nil},
		{"tabs, Spanish heads", "nombre\teste\tnorte\tcota\npino\t1.5\t2.25\t0.5\n", "pino@1.5,2.25,0.5", nil},
		{"feet", "id,easting (ft),northing (ft)\n1,10,100\n", "1@3.048,30.48,0", nil},
		{"millimetres in the head", "x_mm;y_mm\n1500;2250\n", "@1.5,2.25,0", nil},
		{"a unit that is none", "east [chains],north\n1,2\n", "@1,2,0", []string{"\"chains\" is no unit known here: the column was taken as metres."}},
		{"quotes, blanks, remarks", "# walked on Friday\nname, east, north\n\"Pine, old\", 1.5, 2.25\n\n# end\n", "Pine, old@1.5,2.25,0", nil},
		{"without heads", "1.5;2.25\n3;4\n", "@1.5,2.25,0 @3,4,0", []string{"The columns have no heads: they were taken as east and north, in metres."}},
		{"without heads, a name first", "P1,1.5,2.25,0.5\nN2,3,4,1\n", "P1@1.5,2.25,0.5 N2@3,4,1", []string{"The columns have no heads: they were taken as east, north and height, in metres."}},
		{"without heads, counted", "1,1.5,2.25,0.5\n2,3,4,1\n", "1@1.5,2.25,0.5 2@3,4,1", []string{"The columns have no heads: they were taken as east, north and height, in metres."}},
		{"blanks", "P1  1.5   2.25\nP2  3  4\n", "P1@1.5,2.25,0 P2@3,4,0", []string{"The columns have no heads: they were taken as east and north, in metres."}},
		{"thousands with decimals", "x;y\n1.234,5;2\n", "@1234.5,2,0", []string{"x was taken as east, y as north."}},
		{"millimetres or thousands", "east;north\n1,500;2,250\n", "@1.5,2.25,0", []string{"2,250 was read as 2.250 m, not as 2250 m."}},
		{"a national grid", "east;north\n3456700;5678900\n3456710;5678904\n", "@-5,-2,0 @5,2,0", []string{"3456705 m east and 5678902 m north were taken off all coordinates."}},
		{"rows that cannot be read", "east,north\n1,2\nx,y\n3,4\n5\n6,7\n", "@1,2,0 @3,4,0 @6,7,0", []string{"2 of 5 rows cannot be read and were left out: line 3, 5."}},
		{"letters of Windows", "Punkt;ost;nord\nB\xe4ume;1;2\n", "Bäume@1,2,0", []string{"The letters were read as Windows-1252."}},
		{"looks like degrees", "7.00001,51.00001\n7.00002,51.00002\n", "@7.00001,51.00001,0 @7.00002,51.00002,0",
			[]string{"The columns have no heads: they were taken as east and north, in metres.", "They look like latitude and longitude: if they are, say so."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := survey.Read("list.csv", []byte(c.text), survey.Options{})
			require.NoError(t, err)
			assert.Equal(t, c.want, places(r))
			assert.Equal(t, c.notes, notes(t, r))
			assert.False(t, r.OnGlobe)
			require.NotNil(t, r.Preview)
			assert.NotEmpty(t, r.Preview.Rows)
		})
	}
}

func places(r survey.Result) string {
	var all []string
	for _, p := range r.Points {
		all = append(all, fmt.Sprintf("%s@%.6g,%.7g,%.6g", p.Name, p.X, p.Y, float64(p.Z)))
	}
	return strings.Join(all, " ")
}

func TestCSVDegrees(t *testing.T) {
	// One place in every way of writing it: 51°14'04.2" N is 51 + 14/60 + 4.2/3600
	// = 51.2345°, 7°06' W is -7.1°.
	for _, text := range []string{
		"lat,lon\n51.2345,-7.1\n51.2345,-7.1\n",
		"Breite;Länge\n51,2345;-7,1\n51,2345;-7,1\n",
		"latitude;longitude\n51°14'04.2\"N;7°06'W\n51°14′4.2″ N;W 7 6.0\n",
		"longitude\tlatitude\n-7 06 00\t51 14 04.2\n-7.1\tN51.2345\n",
		"name,lat_deg,lon_deg\nP,51.2345,-7.1\nQ,51.2345,-7.1\n",
	} {
		r, err := survey.Read("", []byte(text), survey.Options{})
		require.NoError(t, err, text)
		assert.True(t, r.OnGlobe)
		require.Len(t, r.Points, 2, text)
		near(t, 51.2345, r.OriginLat, 1e-7, text)
		near(t, -7.1, r.OriginLon, 1e-7, text)
		for _, p := range r.Points {
			near(t, 0, p.X, 0.01, text)
			near(t, 0, p.Y, 0.01, text)
		}
	}
}

func TestCSVAsChosen(t *testing.T) {
	text := []byte("north;east;what\n1;2;Pine\n")
	r, err := survey.Read("", text, survey.Options{Columns: &survey.Columns{Separator: ';', Decimal: '.', Header: true,
		Roles: []survey.Role{survey.RoleY, survey.RoleX, survey.RoleName}}})
	require.NoError(t, err)
	assert.Equal(t, "Pine@2,1,0", places(r))
	assert.Equal(t, []string{"north", "east", "what"}, r.Preview.Heads)
	assert.Equal(t, [][]string{{"1", "2", "Pine"}}, r.Preview.Rows)
	assert.Equal(t, 1, r.Preview.Total)

	r, err = survey.Read("", []byte("a;b\n1;2\n"), survey.Options{})
	require.ErrorIs(t, err, survey.ErrColumns)
	require.NotNil(t, r.Preview, "to choose by")
	chosen := r.Preview.Columns
	chosen.Roles = []survey.Role{survey.RoleX, survey.RoleY}
	r, err = survey.Read("", []byte("a;b\n1;2\n"), survey.Options{Columns: &chosen})
	require.NoError(t, err)
	assert.Equal(t, "@1,2,0", places(r))
}

func TestGPXInOtherLetters(t *testing.T) {
	latin := []byte("<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><gpx><wpt lat=\"51\" lon=\"7\"><name>B\xe4ume</name></wpt></gpx>")
	var wide []byte
	for _, u := range utf16.Encode([]rune("\ufeff<?xml version=\"1.0\" encoding=\"UTF-16\"?><gpx><wpt lat=\"51\" lon=\"7\"><name>Bäume</name></wpt></gpx>")) {
		wide = binary.LittleEndian.AppendUint16(wide, u)
	}
	for _, data := range [][]byte{latin, wide} {
		r, err := survey.Read("", data, survey.Options{})
		require.NoError(t, err)
		require.Len(t, r.Points, 1)
		assert.Equal(t, "Bäume", r.Points[0].Name)
	}
}

func TestUTF16(t *testing.T) {
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		var data []byte
		for _, u := range utf16.Encode([]rune("\ufeffPunkt;ost;nord\nBäume;1;2\n")) {
			data = order.AppendUint16(data, u)
		}
		r, err := survey.Read("", data, survey.Options{})
		require.NoError(t, err)
		assert.Equal(t, "Bäume@1,2,0", places(r))
	}
}

func english(t testing.TB) *words.Words {
	t.Helper()
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	return w
}

// notes are what is said of a file that was read; nil for nothing.
func notes(t *testing.T, r survey.Result) (all []string) {
	t.Helper()
	for _, n := range r.Notes {
		all = append(all, english(t).Refusal(n))
	}
	return all
}

func TestRefused(t *testing.T) {
	many := "x,y\n" + strings.Repeat("1,2\n", plan.MaxSurveyPoints+1)
	deep := "<gpx>" + strings.Repeat("<a>", 100)
	for _, c := range []struct {
		name, text string
		want       error
		says       string
	}{
		{"nothing", " \n", survey.ErrEmpty, "f: it is empty. Take another file."},
		{"no point in GPX", "<gpx></gpx>", survey.ErrEmpty, "f: there is no point in it. Take another file."},
		{"another XML", "<kml/>", survey.ErrFormat, "f: it is not a GPX file but <kml>. Take a GPX, GeoJSON or CSV file."},
		{"cut off", `<gpx><wpt lat="1" lon="2"><name>a`, survey.ErrFormat, ""},
		{"cut off between", `<gpx><trk>`, survey.ErrFormat, "f: it is cut off inside <trk>. Export it again."},
		{"ends nothing", `<gpx></trk>`, survey.ErrFormat, "f: it is not well-formed: </trk> ends nothing. Export it again."},
		{"deep", deep, survey.ErrLimit, "f: its elements are nested too deep. Export it again."},
		{"no latitude", `<gpx><wpt lon="2"/></gpx>`, survey.ErrFormat, "f: point 1 has no latitude and longitude that can be read. Export it again."},
		{"not a number", `<gpx><wpt lat="NaN" lon="2"/></gpx>`, survey.ErrFormat, "f: point 1 has no latitude and longitude that can be read. Export it again."},
		{"no such place", `<gpx><wpt lat="91" lon="2"/></gpx>`, survey.ErrPlace, "f: latitude 91, longitude 2 is no place on earth. Export it as WGS 84, latitude and longitude in degrees."},
		{"far apart", `<gpx><wpt lat="51" lon="2"/><wpt lat="53" lon="2"><name>Hut</name></wpt></gpx>`, survey.ErrPlace, ""},
		{"opposite", `<gpx><wpt lat="51" lon="2"/><wpt lat="-51" lon="-178"/></gpx>`, survey.ErrPlace, ""},
		{"an entity", `<!DOCTYPE gpx [<!ENTITY a "b">]><gpx><wpt lat="1" lon="2"><name>&a;</name></wpt></gpx>`, survey.ErrFormat, ""},
		{"other system", `{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"urn:ogc:def:crs:EPSG::25832"}},"features":[]}`, survey.ErrSystem,
			"f: its coordinates are in \"urn:ogc:def:crs:EPSG::25832\", not in latitude and longitude of WGS 84. Export it as WGS 84."},
		{"grid in GeoJSON", `{"type":"Point","coordinates":[456700,5678900]}`, survey.ErrPlace, ""},
		{"other JSON", `{"format":"kedge-plan"}`, survey.ErrFormat, "f: \"\" is nothing that GeoJSON has. Take a GPX, GeoJSON or CSV file."},
		{"broken JSON", `{"type":`, survey.ErrFormat, "f: it is not well-formed: unexpected end of JSON input. Export it again."},
		{"half a position", `{"type":"Point","coordinates":[7]}`, survey.ErrFormat, "f: a position has 1 number, it needs longitude and latitude. Export it again."},
		{"words for numbers", `{"type":"Point","coordinates":["7","51"]}`, survey.ErrFormat, "f: the coordinates of a Point cannot be read. Export it again."},
		{"prose", "The peat track is wet.\nMind the bog.\n", survey.ErrColumns, "f: no columns are found in it. Take a list with a comma, semicolon or tab between two or more numbers."},
		{"heads unknown", "a,b\n1,2\n", survey.ErrColumns, "f: its columns are not understood (a, b). Say which columns are east and north, or latitude and longitude."},
		{"comma for both", "east,north\n1,5,2,25\n3,5,4,25\n", survey.ErrColumns, "f: its rows have 4 columns, its heads 2: the comma seems to part columns and decimals. Part the columns with semicolons, or write the numbers with a point."},
		{"comma for both, no heads", "1,5,2,25\n3,5,4,25\n", survey.ErrColumns, "f: it has 4 columns of whole numbers: the comma may part columns or decimals. Part the columns with semicolons, or write the numbers with a point."},
		{"both signs", "east;north\n1,5;2.5\n", survey.ErrColumns, "f: it has numbers with a comma and numbers with a point. Write all with the same decimal sign."},
		{"mostly unreadable", "east;north\n1;2\na;b\nc;d\n", survey.ErrColumns, "f: 2 of its 3 rows cannot be read, line 3 first. Say which columns are which."},
		{"larger than a grid", "east;north\n1e9;2\n", survey.ErrPlace, "f: its coordinates are larger than those of any grid. Check its columns and units."},
		{"too many", many, survey.ErrLimit, "f: it holds more than 100 000 points. Thin it, or cut out the site."},
		{"not a text", "x;y\n1;2\x00\n", survey.ErrFormat, "f: it is not a text. Take a GPX, GeoJSON or CSV file."},
		{"absurd height", "x;y;z\n1;2;1e300\n", survey.ErrPlace, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := survey.Read("f", []byte(c.text), survey.Options{})
			require.ErrorIs(t, err, c.want)
			assert.Empty(t, r.Points)
			var e *refusal.Error
			require.ErrorAs(t, err, &e)
			if c.says != "" {
				assert.Equal(t, c.says, english(t).Refusal(err))
			}
			assert.Len(t, e.Said, len(e.Values))
			assert.Regexp(t, "^survey: f: ", err.Error())
		})
	}
	_, err := survey.Read("f", make([]byte, survey.MaxBytes+1), survey.Options{})
	assert.ErrorIs(t, err, survey.ErrLimit)
	_, err = survey.Read("f", []byte("x;y\n1;2\n"), survey.Options{Columns: &survey.Columns{Separator: ',', Decimal: ',', Roles: []survey.Role{survey.RoleX, survey.RoleY}}})
	assert.ErrorIs(t, err, survey.ErrColumns)
	_, err = survey.Read("f", []byte(gpx), survey.Options{Origin: &survey.LatLon{Lat: math.NaN()}})
	assert.ErrorIs(t, err, survey.ErrPlace)
}

// checkResult: whatever was read can be kept in a plan.
func checkResult(t *testing.T, r survey.Result, err error) {
	if err != nil {
		assert.True(t, strings.HasSuffix(english(t).Refusal(err), "."))
		return
	}
	p := plan.New()
	p.Site.Survey = r.Survey(english(t).Refusal)
	require.NoError(t, plan.Validate(p))
	data, err := plan.FormatPlan(p)
	require.NoError(t, err)
	_, err = plan.ParsePlan(data)
	require.NoError(t, err)
	for _, o := range r.Outlines {
		require.GreaterOrEqual(t, len(o.Corners), 2)
		for _, c := range o.Corners {
			require.LessOrEqual(t, math.Hypot(c.X, c.Y), survey.Reach*1.0)
		}
	}
}

func FuzzGPX(f *testing.F) {
	f.Add([]byte(gpx))
	f.Add([]byte(`<gpx><wpt lat="-16.5" lon="179.9999"/><wpt lat="-16.5" lon="-179.9999"/></gpx>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := survey.Read("f", append([]byte("<gpx>"), bytes.TrimPrefix(data, []byte("<gpx>"))...), survey.Options{})
		checkResult(t, r, err)
	})
}

func FuzzGeoJSON(f *testing.F) {
	f.Add([]byte(`{"type":"Feature","id":4,"properties":{"name":"a"},"geometry":{"type":"Point","coordinates":[7,51,212.5]}}`))
	f.Add([]byte(`{"type":"MultiPolygon","coordinates":[[[[7,51],[7.0002,51],[7.0002,51.0002],[7,51]]]]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := survey.Read("f", append([]byte("{"), bytes.TrimPrefix(data, []byte("{"))...), survey.Options{})
		checkResult(t, r, err)
	})
}

func FuzzCSV(f *testing.F) {
	f.Add([]byte("name,x,y,z\nPine,1.5,2.25,0.5\n"))
	f.Add([]byte("Breite;Länge\n51,2345;-7,1\n51°14'04.2\"N;7°06'W\n"))
	f.Add([]byte("P1  1.5   2.25\nP2  3  4\n"))
	f.Add([]byte("\xff\xfex\x00;\x00y\x00\n\x001\x00;\x002\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		r, err := survey.Read("f", data, survey.Options{})
		checkResult(t, r, err)
	})
}
