package survey

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// node is any object of GeoJSON (RFC 7946): a collection, a feature or a
// geometry.
type node struct {
	Type        string                     `json:"type"`
	Features    nodes                      `json:"features"`
	Geometry    *node                      `json:"geometry"`
	Geometries  nodes                      `json:"geometries"`
	Coordinates json.RawMessage            `json:"coordinates"`
	Properties  map[string]json.RawMessage `json:"properties"`
	ID          json.RawMessage            `json:"id"`
	CRS         *struct {
		Properties struct {
			Name string `json:"name"`
		} `json:"properties"`
	} `json:"crs"` // of the form before RFC 7946
}

// nodes are the members of a collection.
type nodes []node

// maxGeoJSONDepth is how deep brackets may be nested: a collection's polygons in a
// feature's geometry need ten, and their properties some. (ours)
const maxGeoJSONDepth = 24

// UnmarshalJSON stops at the first member that is none, and where there are more
// than a survey has points: an empty one takes a few bytes in the file and fifty
// times that in memory.
func (ns *nodes) UnmarshalJSON(data []byte) error {
	if string(data) == "null" {
		return nil
	}
	dec := json.NewDecoder(bytes.NewReader(data))
	if first, err := dec.Token(); err != nil || first != json.Delim('[') {
		return json.Unmarshal(data, new([]node)) // says what it is instead
	}
	for dec.More() {
		if len(*ns) >= plan.MaxSurveyPoints {
			return manyPoints.At("")
		}
		*ns = append(*ns, node{})
		if err := dec.Decode(&(*ns)[len(*ns)-1]); err != nil {
			return err
		}
	}
	return nil
}

// depthOf is how deep the brackets of a JSON text are nested.
func depthOf(data []byte) int {
	depth, most, text := 0, 0, false
	for i := 0; i < len(data); i++ {
		switch c := data[i]; {
		case text && c == '\\':
			i++
		case c == '"':
			text = !text
		case text:
		case c == '[', c == '{':
			depth++
			most = max(most, depth)
		case c == ']', c == '}':
			depth--
		}
	}
	return most
}

func readGeoJSON(data []byte, o Options) (Result, error) {
	if depthOf(data) > maxGeoJSONDepth {
		return Result{}, deep.At("")
	}
	var top node
	if err := json.Unmarshal(data, &top); err != nil {
		if errors.As(err, new(*refusal.Error)) {
			return Result{}, err
		}
		return Result{}, badForm.At("", strings.TrimPrefix(err.Error(), "json: "))
	}
	if top.CRS != nil && !isWGS84(top.CRS.Properties.Name) {
		return Result{}, otherSystem.At("", cleanName(top.CRS.Properties.Name))
	}
	var g gathered
	if err := g.node(top, mark{}); err != nil {
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

// node takes an object in; of its places the name and how well they are known are those of a
// feature.
func (g *gathered) node(n node, of mark) error {
	point := func(c []float64) error {
		m, err := position(c, of)
		if err != nil {
			return err
		}
		return g.add(m)
	}
	line := func(c [][]float64) error { return g.trail(c, of, false) }
	polygon := func(c [][][]float64) error { return g.polygon(c, of) }
	switch n.Type {
	case "FeatureCollection":
		for _, f := range n.Features {
			if err := g.node(f, mark{}); err != nil {
				return err
			}
		}
		return nil
	case "Feature":
		if n.Geometry == nil {
			g.note(noGeometry.At(""))
			return nil
		}
		return g.node(*n.Geometry, mark{name: n.name(), doubt: n.doubt()})
	case "GeometryCollection":
		for _, m := range n.Geometries {
			if err := g.node(m, of); err != nil {
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

// maxNumbers is how many numbers a place may have, and a comma for each, with what
// parts it from the next.
const maxNumbers = 5

// readOne takes a node's coordinates as do wants them.
func readOne[T any](n node, do func(T) error) error {
	if bytes.Count(n.Coordinates, []byte{','}) > maxNumbers*plan.MaxSurveyPoints { // before room is made for them
		return manyPoints.At("")
	}
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
func position(c []float64, of mark) (mark, error) {
	if len(c) < 2 {
		return mark{}, badPosition.At("", len(c))
	}
	m := of
	m.lon, m.lat = c[0], c[1]
	if len(c) > 2 {
		m.height = quantity.Length(c[2])
	}
	return m, nil
}

func (g *gathered) trail(c [][]float64, of mark, closed bool) error {
	t := trail{name: of.name, closed: closed, marks: make([]mark, 0, len(c))}
	for _, one := range c {
		m, err := position(one, mark{doubt: of.doubt})
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
func (g *gathered) polygon(rings [][][]float64, of mark) error {
	if len(rings) == 0 {
		return nil
	}
	if len(rings) > 1 {
		g.note(holes.At(""))
	}
	return g.trail(rings[0], of, true)
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

// doubt is how well a feature says its places are known, metres; 0: it does not. RFC 7946
// says nothing of it, these are the members in use.
func (n node) doubt() quantity.Length {
	for _, key := range []string{"accuracy", "horizontal_accuracy", "horizontalAccuracy", "h_accuracy"} {
		var x float64
		if raw := n.Properties[key]; len(raw) > 0 && json.Unmarshal(raw, &x) == nil && x > 0 {
			return quantity.Length(x)
		}
	}
	return 0
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
