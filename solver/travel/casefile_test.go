package travel_test

import (
	"encoding/json"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/require"

	"kedge/solver/gear"
	"kedge/solver/quantity"
	"kedge/solver/statics"
	"kedge/solver/travel"
)

// casesDir adds more case files: go test ./solver/travel -run TestCases -args -cases DIR
var casesDir = flag.String("cases", "", "directory of more case files, format kedge-travel-cases")

const (
	caseFile = "../../testdata/travel/cases.json"
	ownCases = 8 // in it
)

type refFile struct {
	Cases []refCase `json:"cases"`
}

type refCase struct {
	ID     string `json:"id"`
	Points []struct {
		ID, Kind string
		Pos      []float64
	} `json:"points"`
	Ropes  []refRope `json:"ropes"`
	Slings []struct {
		ID, A, B string
		Length   float64
		K        *float64 `json:"stiffness_N_per_m"`
	} `json:"slings"`
	Motion struct {
		Kind    string
		D, Ref  []float64
		Heading float64 `json:"heading_deg"`
		Radius  float64
	} `json:"motion"`
	Sense      string      `json:"sense"`
	TravelEnd  float64     `json:"travel_end"`
	Resistance [][]float64 `json:"resistance"`
	Drum       struct {
		Core    float64 `json:"core_diameter"`
		Line    float64 `json:"line_diameter"`
		Width   float64
		Turns   int     `json:"turns_per_layer"`
		Pull    float64 `json:"pull_layer1"`
		OnDrum  float64 `json:"on_drum_start"`
		Wraps   int     `json:"min_wraps"`
		MaxLays int     `json:"layers_max"`
	} `json:"drum"`
	Attachments []struct {
		ID      string
		FromEnd float64 `json:"from_end"`
	} `json:"attachments"`
	Obstacles []struct {
		ID, Kind string
		Centre   []float64
		Radius   float64
		Corners  [][]float64
	} `json:"obstacles"`
	Limits []struct {
		Part  string
		Limit float64
	} `json:"limits"`
	Surface *struct {
		Pose     []float64
		Yaw      float64 `json:"pose_yaw_deg"`
		Hooks    map[string][]float64
		Contacts []struct{ X, Y, N, C, Mu float64 }
	} `json:"limit_surface"`
	Asked struct {
		OffWay []float64 `json:"off_way_deg"`
		Gaps   []struct {
			A, B string
			Gap  float64
		} `json:"gaps"`
		Backward []struct {
			Index int
			Point string
		} `json:"backward"`
		Maxima []string `json:"maxima"`
	} `json:"asked"`
	Expected struct {
		Rows   []refRow         `json:"rows"`
		Events []map[string]any `json:"events"`
	} `json:"expected"`
}

type refRope struct {
	ID      string
	Path    []string
	HaulEnd string `json:"haul_end"`
	Length  *float64
	Eta     []float64
	Eta180  []float64
}

type refRow struct {
	S          float64
	Status     string
	Resistance *float64
	PerUnit    *float64 `json:"pull_per_unit_tension"`
	Tension    *float64
	PaidIn     *float64 `json:"paid_in"`
	OnDrum     *float64 `json:"on_drum"`
	Layer      *int
	PullLimit  *float64             `json:"pull_limit"`
	WinchUsed  *float64             `json:"winch_used"`
	OffWay     *float64             `json:"off_way_deg"`
	OffHook    *float64             `json:"off_hook_motion_deg"`
	Heading    *float64             `json:"heading_deg"`
	Yaw        *float64             `json:"yaw_deg"`
	Free       map[string][]float64 `json:"free"`
	Casualty   map[string][]float64 `json:"casualty_points"`
	Force      []float64            `json:"casualty_force"`
	Pose       []float64            `json:"pose"`
	Twist      []float64            `json:"twist_per_m"`
	Wrench     []float64            `json:"wrench_per_unit_tension"`
	Stretches  []struct {
		Line, A, B string
		Index      int
		Tension    *float64
		Length     float64
		Dir        []float64
	} `json:"stretches"`
	Sheaves []struct {
		Rope, Point string
		Visit       int
		Ratio       *float64
	} `json:"sheaves"`
	Blocks []struct {
		Rope, Point string
		Visit       int
		Load, Dir   []float64
		Magnitude   *float64
	} `json:"block_loads"`
	Slings []struct {
		ID      string
		Tension *float64
		Slack   bool
		Length  *float64
		Dir     []float64
	} `json:"slings"`
}

func loadCases(t *testing.T) []refCase {
	t.Helper()
	names := []string{caseFile}
	if *casesDir != "" {
		dir := *casesDir
		if _, err := os.Stat(dir); err != nil && !filepath.IsAbs(dir) {
			dir = filepath.Join("../..", dir) // given from the root of the repository
		}
		more, err := filepath.Glob(filepath.Join(dir, "*.json"))
		require.NoError(t, err)
		require.NotEmpty(t, more, "no case files in %s", *casesDir)
		names = append(names, more...)
	}
	var all []refCase
	for i, n := range names {
		raw, err := os.ReadFile(n)
		require.NoError(t, err)
		var kind struct{ Format string }
		require.NoError(t, json.Unmarshal(raw, &kind), n)
		if kind.Format != "kedge-travel-cases" && i > 0 {
			t.Logf("%s holds other cases: %s", n, kind.Format)
			continue
		}
		var f refFile
		require.NoError(t, json.Unmarshal(raw, &f), n)
		require.NotEmpty(t, f.Cases, n)
		all = append(all, f.Cases...)
	}
	require.True(t, len(names) == 1 || len(all) > ownCases, "no case file of travel in %s", *casesDir)
	return all
}

// onPlan is a place of two coordinates; of none the origin.
func onPlan(x []float64) r2.Point { return r2.Point{X: vec(x).X, Y: vec(x).Y} }

// vec is a place or vector of a case; one of two numbers lies in the plane.
func vec(x []float64) r3.Vector {
	var v [3]float64
	copy(v[:], x)
	return r3.Vector{X: v[0], Y: v[1], Z: v[2]}
}

// ids maps names of a case to indices of its course.
type ids struct{ point, line, sling map[string]int }

func (n ids) at(t *testing.T, of map[string]int, id string) int {
	t.Helper()
	i, ok := of[id]
	require.True(t, ok, "nothing is called %q", id)
	return i
}

// part reads a part's name: line:INDEX (of the first line), line:ROPE:INDEX or
// ROPE:INDEX, block:POINT, sling:ID, point:POINT, winch:…
func (n ids) part(t *testing.T, name string) travel.Part {
	t.Helper()
	kind, rest, _ := strings.Cut(name, ":")
	switch kind {
	case "winch":
		return travel.Part{Kind: travel.WinchPart}
	case "block":
		return travel.Part{Kind: travel.BlockPart, Index: n.at(t, n.point, rest)}
	case "point":
		return travel.Part{Kind: travel.PointPart, Index: n.at(t, n.point, rest)}
	case "sling":
		return travel.Part{Kind: travel.SlingPart, Index: n.at(t, n.sling, rest)}
	case "line":
		p := travel.Part{}
		rope, index, two := strings.Cut(rest, ":")
		if two {
			p.Line = n.at(t, n.line, rope)
			rest = index
		} else if i, known := n.line[rest]; known {
			return travel.Part{Line: i}
		}
		k, err := strconv.Atoi(rest)
		require.NoError(t, err, name)
		p.Index = k
		return p
	}
	line, known := n.line[kind]
	k, err := strconv.Atoi(rest)
	require.True(t, known && err == nil, "part %q is not understood", name)
	return travel.Part{Line: line, Index: k}
}

// course builds the course of a case.
func (c *refCase) course(t *testing.T) (*travel.Course, ids) {
	t.Helper()
	n := ids{map[string]int{}, map[string]int{}, map[string]int{}}
	out := &travel.Course{EndM: c.TravelEnd, PayOut: c.Sense == "pay_out"}
	require.Contains(t, []string{"", "haul", "pay_out"}, c.Sense)
	r := &out.Rig
	r.Bodies = make([]statics.Body, 1)
	for i, p := range c.Points {
		n.point[p.ID] = i
		kind, ok := map[string]statics.PointKind{"anchor": statics.Fixed, "free": statics.Free, "vehicle": statics.OnBody}[p.Kind]
		require.True(t, ok, p.Kind)
		r.Points = append(r.Points, statics.Point{Kind: kind, Pos: vec(p.Pos)})
	}
	for i, p := range c.Ropes {
		n.line[p.ID] = i
		require.Contains(t, []string{"", "first"}, p.HaulEnd)
		l := statics.Line{Drum: i == 0}
		for _, id := range p.Path {
			l.Path = append(l.Path, n.at(t, n.point, id))
		}
		for _, eta := range p.Eta {
			l.Sheaves = append(l.Sheaves, statics.Sheave{Model: statics.Constant, Eta: eta})
		}
		for _, eta := range p.Eta180 {
			l.Sheaves = append(l.Sheaves, statics.Sheave{Model: statics.ByWrap, Eta: eta})
		}
		if p.Length != nil {
			l.LengthM = *p.Length
		}
		r.Lines = append(r.Lines, l)
	}
	for i, g := range c.Slings {
		n.sling[g.ID] = i
		require.Nil(t, g.K, "stretching slings")
		r.Slings = append(r.Slings, statics.Sling{A: n.at(t, n.point, g.A), B: n.at(t, n.point, g.B), LengthM: g.Length})
	}
	c.move(t, out)
	c.watched(t, out, n)
	return out, n
}

// move gives the course its motion, resistance and drum.
func (c *refCase) move(t *testing.T, out *travel.Course) {
	m := &out.Motion
	switch c.Motion.Kind {
	case "straight":
		m.Dir = vec(c.Motion.D)
		m.Dir = m.Dir.Normalize()
	case "arc":
		*m = travel.Motion{Kind: travel.Arc, Ref: vec(c.Motion.Ref), HeadingRad: c.Motion.Heading * math.Pi / 180, RadiusM: c.Motion.Radius}
	case "free":
		require.NotNil(t, c.Surface)
		*m = travel.Motion{Kind: travel.Free, Ref: vec(c.Surface.Pose), HeadingRad: c.Surface.Yaw * math.Pi / 180}
		for _, k := range c.Surface.Contacts {
			m.Contacts = append(m.Contacts, statics.Tyre{XM: k.X, YM: k.Y, LoadN: k.N, Along: k.C, Across: k.Mu})
		}
	default:
		t.Fatalf("motion %q is not understood", c.Motion.Kind)
	}
	for _, k := range c.Resistance {
		out.Resistance = append(out.Resistance, travel.Knot{AtM: k[0], ForceN: k[1]})
	}
	d := c.Drum
	out.Drum = travel.Drum{
		Drum:  gear.Drum{Diameter: quantity.Length(d.Core), Width: quantity.Length(d.Width), Line: quantity.Length(d.Line)},
		Rated: quantity.Force(d.Pull), OnDrum: quantity.Length(d.OnDrum), MinWraps: d.Wraps, MaxLayers: d.MaxLays}
	require.Equal(t, d.Turns, out.Drum.WrapsPerLayer())
}

// watched gives the course what the case asks for.
func (c *refCase) watched(t *testing.T, out *travel.Course, n ids) {
	for _, a := range c.Attachments {
		out.OnLine = append(out.OnLine, travel.OnLine{ID: a.ID, FromEndM: a.FromEnd})
	}
	for _, o := range c.Obstacles {
		x := travel.Obstacle{ID: o.ID, Centre: onPlan(o.Centre), RadiusM: o.Radius}
		for _, k := range o.Corners {
			x.Corners = append(x.Corners, onPlan(k))
		}
		require.Contains(t, []string{"circle", "polygon"}, o.Kind)
		out.Obstacles = append(out.Obstacles, x)
	}
	for _, l := range c.Limits {
		out.Limits = append(out.Limits, travel.Limit{Part: n.part(t, l.Part), Load: l.Limit})
	}
	out.OffWayDeg = c.Asked.OffWay
	for _, g := range c.Asked.Gaps {
		out.Gaps = append(out.Gaps, travel.Gap{A: n.at(t, n.point, g.A), B: n.at(t, n.point, g.B), DistanceM: g.Gap})
	}
	for _, b := range c.Asked.Backward {
		out.Backward = append(out.Backward, travel.Backward{Stretch: b.Index, Point: n.at(t, n.point, b.Point)})
	}
	for _, p := range c.Asked.Maxima {
		out.Maxima = append(out.Maxima, n.part(t, p))
	}
}

// told is an event in the members of the case file.
func told(c *refCase, e *travel.Event, partName func(travel.Part) []string) map[string]any {
	m := map[string]any{"kind": strings.ReplaceAll(string(e.Kind), "-", "_"), "s": e.AtM}
	point := func(i int) string { return c.Points[i].ID }
	if e.Start {
		m["at_start"] = true
	}
	switch e.Kind {
	case travel.LayerChange:
		m["border"], m["from"], m["to"] = float64(min(e.From, e.To)), float64(e.From), float64(e.To)
	case travel.DrumFull:
		m["layers_max"] = float64(c.Drum.MaxLays)
	case travel.LineOut:
		m["min_wraps"] = float64(c.Drum.Wraps)
	case travel.ReachesBlock, travel.ReachesFairlead:
		m["what"] = c.Attachments[e.OnLine].ID
		if e.Kind == travel.ReachesBlock {
			m["block"] = point(e.Point)
		}
	case travel.OffWayBeyond, travel.OffWayWithin:
		m["angle_deg"] = e.Level
	case travel.StretchTouches:
		path := c.Ropes[e.Line].Path
		m["obstacle"], m["stretch"] = c.Obstacles[e.Obstacle].ID, []any{path[e.Stretch], path[e.Stretch+1]}
		m["at"] = []any{e.Place.X, e.Place.Y}
	case travel.OverLimit, travel.WithinLimitAgain:
		m["part"], m["limit"], m["tension"] = partName(e.Part), e.Level, e.TensionN
		if e.ByJump {
			m["by_jump"], m["before"], m["after"] = true, e.Before, e.After
		}
	case travel.GapReached:
		g := c.Asked.Gaps[e.Gap]
		m["a"], m["b"], m["gap"] = g.A, g.B, g.Gap
	case travel.PullsBackward:
		m["index"], m["point"] = float64(e.Stretch), point(e.Point)
	case travel.SheaveReverses, travel.SheaveSticks:
		m["block"], m["visit"] = point(e.Point), float64(e.Visit+1)
		m["ratio_before"], m["ratio_after"] = e.RatioBefore, e.RatioAfter
	case travel.SlingSlack, travel.SlingTaut:
		m["sling"] = c.Slings[e.Sling].ID
	case travel.MaxLoad:
		m["part"], m["value"], m["where"] = partName(e.Part), e.Value, string(e.Where)
		m["shape"] = "border"
		if e.Smooth {
			m["shape"] = "smooth"
		}
		if e.Left {
			m["left_limit"] = true
		}
	}
	return m
}

func describe(m map[string]any) string { return fmt.Sprint(m) }
