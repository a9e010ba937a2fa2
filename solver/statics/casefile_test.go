package statics_test

import (
	"encoding/json"
	"flag"
	"math"
	"os"
	"path/filepath"
	"sort"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/require"

	"kedge/solver/statics"
)

// casesDir adds more case files: go test ./solver/statics -run TestCases -args -cases DIR
var casesDir = flag.String("cases", "", "directory of more case files, format kedge-statics-cases")

const caseFile = "../../testdata/statics/cases.json"

// caseTol is the tolerance the case file asks for: of the largest tension
// (forces), of the longest stretch (lengths), of their product (moments).
const caseTol = 1e-7

type refFile struct {
	Format  string     `json:"format"`
	Origin  string     `json:"origin"`
	Cases   []refCase  `json:"cases"`
	Surface []refTyres `json:"limit_surface_cases"`
}

type refCase struct {
	ID     string `json:"id"`
	Dim    int    `json:"dim"` // 2: all in a level plane, places and vectors without their z
	Points []struct {
		ID, Kind string
		Pos      []float64
	} `json:"points"`
	Ropes []struct {
		ID      string
		Path    []string
		HaulEnd string `json:"haul_end"`
		Eta     []float64
		Tension *float64
		Length  *float64
	} `json:"ropes"`
	Slings []struct {
		ID, A, B string
		Length   float64
		K        *float64 `json:"stiffness_N_per_m"`
	} `json:"slings"`
	Loads []struct {
		Point string
		Force []float64
	} `json:"loads"`
	Vehicles []struct {
		ID     string
		Points []string
		Ref    []float64
		Motion []float64 `json:"motion_dir"`
	} `json:"vehicles"`
	Expected *refAnswer `json:"expected"`
	Flags    []string   `json:"flags"`
	Eta180   *float64   `json:"eta180"`
	Closed   *struct {
		Text   string
		Values map[string]float64
	} `json:"closed_form"`
	Inverse *struct{ Resistance, Tension float64 } `json:"inverse"`
}

type refAnswer struct {
	Free     map[string][]float64 `json:"free"`
	Segments []struct {
		Line            string
		Index           int
		A, B            string
		Tension, Length float64
	} `json:"segments"`
	Slings []struct {
		ID              string
		Tension, Length float64
		Dir             []float64
		Azimuth         float64 `json:"azimuth_deg"`
		Slack           bool
	} `json:"slings"`
	Blocks []struct {
		Rope      string
		Visit     int
		Point     string
		Load      []float64
		Magnitude float64
		Included  float64 `json:"included_angle_deg"`
	} `json:"block_loads"`
	Vehicles map[string]struct {
		Force     []float64
		MomentZ   *float64  `json:"moment_z"`
		Moment    []float64 `json:"moment"`
		Pull      *float64  `json:"pull_along_motion"`
		MA        *float64  `json:"MA"`
		MAIdeal   *float64  `json:"MA_ideal"`
		Kinematic *float64  `json:"kinematic_ratio_frictionless"`
	} `json:"vehicles"`
}

type refTyres struct {
	ID    string
	Tyres []struct{ X, Y, N, C, Mu float64 }
	Wren  []float64 `json:"wrench_per_T"`
	T     float64
}

func loadCases(t testing.TB) []refFile {
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
		sort.Strings(more)
		names = append(names, more...)
	}
	var files []refFile
	for _, n := range names {
		raw, err := os.ReadFile(n)
		require.NoError(t, err)
		var f refFile
		require.NoError(t, json.Unmarshal(raw, &f), n)
		require.Equal(t, "kedge-statics-cases", f.Format, n)
		require.NotEmpty(t, f.Cases, n)
		files = append(files, f)
	}
	return files
}

// vec is a place or vector of a case; one of two numbers lies in the plane.
func vec(x []float64) r3.Vector {
	var v [3]float64
	copy(v[:], x)
	return r3.Vector{X: v[0], Y: v[1], Z: v[2]}
}

func xyz(v r3.Vector) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }

// ids maps names of a case to indices of its rig.
type ids struct{ point, line, sling, body map[string]int }

// sense is -1 for a vehicle let down against the direction the case names, whose
// sheaves pay out: their ratios are above one.
func (c *refCase) sense() float64 {
	for _, p := range c.Ropes {
		for _, eta := range p.Eta {
			if p.Tension != nil && eta != 1 {
				return math.Copysign(1, 1-eta)
			}
		}
	}
	return 1
}

// rig builds the case. Ratios above one are sheaves paying out, which the solver
// has to find; a ratio the
// file gives for eta180 is the answer, the sheave is rated eta180 by wrap.
func (c *refCase) rig(t testing.TB) (statics.Rig, ids) {
	t.Helper()
	n := ids{map[string]int{}, map[string]int{}, map[string]int{}, map[string]int{}}
	require.Contains(t, []int{2, 3}, c.Dim)
	r := statics.Rig{}
	carrier := map[string]int{}
	for i, v := range c.Vehicles {
		n.body[v.ID] = i
		r.Bodies = append(r.Bodies, statics.Body{RefM: vec(v.Ref), Motion: vec(v.Motion).Mul(c.sense())})
		for _, p := range v.Points {
			carrier[p] = i
		}
	}
	for i, p := range c.Points {
		n.point[p.ID] = i
		q := statics.Point{Pos: vec(p.Pos)}
		switch p.Kind {
		case "anchor":
		case "free":
			q.Kind = statics.Free
		case "vehicle":
			q.Kind, q.Body = statics.OnBody, carrier[p.ID]
		default:
			t.Fatalf("unknown point kind %q", p.Kind)
		}
		r.Points = append(r.Points, q)
	}
	at := func(id string) int {
		i, ok := n.point[id]
		require.True(t, ok, "no point %q", id)
		return i
	}
	for i, p := range c.Ropes {
		n.line[p.ID] = i
		require.Contains(t, []string{"", "first"}, p.HaulEnd)
		l := statics.Line{}
		for _, id := range p.Path {
			l.Path = append(l.Path, at(id))
		}
		for _, eta := range p.Eta {
			h := statics.Sheave{Model: statics.Constant, Eta: eta}
			switch {
			case c.Eta180 != nil:
				h = statics.Sheave{Model: statics.ByWrap, Eta: *c.Eta180}
			case eta > 1:
				h.Eta = 1 / eta
			}
			l.Sheaves = append(l.Sheaves, h)
		}
		if p.Tension != nil {
			l.Drum, l.TensionN = true, *p.Tension
		}
		if p.Length != nil {
			l.LengthM = *p.Length
		}
		r.Lines = append(r.Lines, l)
	}
	for i, g := range c.Slings {
		n.sling[g.ID] = i
		s := statics.Sling{A: at(g.A), B: at(g.B), LengthM: g.Length}
		if g.K != nil {
			s.StiffnessNPerM = *g.K
		}
		r.Slings = append(r.Slings, s)
	}
	for _, l := range c.Loads {
		r.Loads = append(r.Loads, statics.PointLoad{Point: at(l.Point), ForceN: vec(l.Force)})
	}
	return r, n
}

func caseScale(c *refCase) (tens, long float64) {
	for _, g := range c.Expected.Segments {
		tens = math.Max(tens, g.Tension)
		long = math.Max(long, g.Length)
	}
	for _, g := range c.Expected.Slings {
		tens = math.Max(tens, g.Tension)
		long = math.Max(long, g.Length)
	}
	return tens, long
}
