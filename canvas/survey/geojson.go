package survey

import (
	"encoding/json"
	"fmt"
	"strings"

	"kedge/solver/quantity"
)

// node is any object of GeoJSON (RFC 7946): a collection, a feature or a
// geometry.
type node struct {
	Type        string                     `json:"type"`
	Features    []node                     `json:"features"`
	Geometry    *node                      `json:"geometry"`
	Geometries  []node                     `json:"geometries"`
	Coordinates json.RawMessage            `json:"coordinates"`
	Properties  map[string]json.RawMessage `json:"properties"`
	ID          json.RawMessage            `json:"id"`
	CRS         *struct {
		Properties struct {
			Name string `json:"name"`
		} `json:"properties"`
	} `json:"crs"` // of the form before RFC 7946
}

func readGeoJSON(data []byte, o Options) (Result, error) {
	var top node
	if err := json.Unmarshal(data, &top); err != nil {
		return Result{}, badForm.At("", strings.TrimPrefix(err.Error(), "json: "))
	}
	if top.CRS != nil && !isWGS84(top.CRS.Properties.Name) {
		return Result{}, otherSystem.At("", cleanName(top.CRS.Properties.Name))
	}
	var g gathered
	if err := g.node(top, ""); err != nil {
		return Result{}, err
	}
	return g.onGlobe(FormatGeoJSON, o)
}

// isWGS84 reports whether the name of a reference system is one of those that
// GeoJSON files before RFC 7946 gave WGS 84 in the order longitude, latitude.
func isWGS84(name string) bool {
	name = strings.ToUpper(name)
	return name == "" || strings.HasSuffix(name, "CRS84") || name == "EPSG:4326" || strings.HasSuffix(name, ":EPSG::4326")
}

func (g *gathered) node(n node, name string) error {
	point := func(c []float64) error {
		m, err := position(c, name)
		if err != nil {
			return err
		}
		return g.add(m)
	}
	line := func(c [][]float64) error { return g.trail(c, name, false) }
	polygon := func(c [][][]float64) error { return g.polygon(c, name) }
	switch n.Type {
	case "FeatureCollection":
		for _, f := range n.Features {
			if err := g.node(f, ""); err != nil {
				return err
			}
		}
		return nil
	case "Feature":
		if n.Geometry == nil {
			g.note(noGeometry.At(""))
			return nil
		}
		return g.node(*n.Geometry, n.name())
	case "GeometryCollection":
		for _, m := range n.Geometries {
			if err := g.node(m, name); err != nil {
				return err
			}
		}
		return nil
	case "Point":
		return readOne(n, point)
	case "MultiPoint":
		return readEach(n, point)
	case "LineString":
		return readOne(n, line)
	case "MultiLineString":
		return readEach(n, line)
	case "Polygon":
		return readOne(n, polygon)
	case "MultiPolygon":
		return readEach(n, polygon)
	}
	return otherGeoJSON.At("", cleanName(n.Type))
}

// readOne takes a node's coordinates as do wants them.
func readOne[T any](n node, do func(T) error) error {
	var c T
	if len(n.Coordinates) == 0 || json.Unmarshal(n.Coordinates, &c) != nil {
		return badCoordinates.At("", n.Type)
	}
	return do(c)
}

func readEach[T any](n node, do func(T) error) error {
	return readOne(n, func(all []T) error {
		for _, c := range all {
			if err := do(c); err != nil {
				return err
			}
		}
		return nil
	})
}

// position is longitude, latitude and perhaps a height, in this order: RFC 7946,
// 3.1.1.
func position(c []float64, name string) (mark, error) {
	if len(c) < 2 {
		return mark{}, badPosition.At("", len(c))
	}
	m := mark{name: name, lon: c[0], lat: c[1]}
	if len(c) > 2 {
		m.height = quantity.Length(c[2])
	}
	return m, nil
}

func (g *gathered) trail(c [][]float64, name string, closed bool) error {
	t := trail{name: name, closed: closed, marks: make([]mark, 0, len(c))}
	for _, one := range c {
		m, err := position(one, "")
		if err == nil {
			err = g.one()
		}
		if err != nil {
			return err
		}
		t.marks = append(t.marks, m)
	}
	g.trails = append(g.trails, t)
	return nil
}

// polygon takes the outer ring; an outline has no holes.
func (g *gathered) polygon(rings [][][]float64, name string) error {
	if len(rings) == 0 {
		return nil
	}
	if len(rings) > 1 {
		g.note(holes.At(""))
	}
	return g.trail(rings[0], name, true)
}

// name is what a feature is called: RFC 7946 says nothing of it, these are the
// members in use.
func (n node) name() string {
	for _, key := range []string{"name", "Name", "NAME", "title", "label", "id"} {
		if s := scalar(n.Properties[key]); s != "" {
			return s
		}
	}
	return scalar(n.ID)
}

func scalar(raw json.RawMessage) string {
	var v any
	if len(raw) == 0 || json.Unmarshal(raw, &v) != nil {
		return ""
	}
	switch v := v.(type) {
	case string:
		return cleanName(v)
	case float64:
		return fmt.Sprint(v)
	}
	return ""
}
