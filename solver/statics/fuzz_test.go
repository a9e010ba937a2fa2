package statics_test

import (
	"encoding/binary"
	"math"
	"testing"

	"github.com/golang/geo/r3"

	"kedge/solver/statics"
)

// FuzzSolve builds a rig from bytes, sound or not, and checks that whatever
// comes out is either in balance or withheld with a reason, warm as well.
func FuzzSolve(f *testing.F) {
	for seed := uint64(0); seed < 8; seed++ {
		var b []byte
		for i := uint64(0); i < 40; i++ {
			b = binary.LittleEndian.AppendUint64(b, (seed+1)*0x9e3779b97f4a7c15*(i+1))
		}
		f.Add(b)
	}
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, b []byte) {
		r := rigOf(b)
		var s statics.Solver
		var out statics.Result
		st := s.Solve(&r, &out)
		if (r.Validate() != nil) != (st == statics.BadInput) {
			t.Errorf("status %v, Validate says %v", st, r.Validate())
		}
		checkAnswer(t, &r, &out, st)
		checkAnswer(t, &r, &out, s.Warm(&r, &out))
		if len(r.Bodies) > 0 {
			checkAnswer(t, &r, &out, s.RequiredPull(&r, 0, 1e4, &out))
		}
	})
}

// reader takes bounded numbers from bytes; zeros when they run out.
type reader struct{ b []byte }

func (r *reader) byte() int {
	if len(r.b) == 0 {
		return 0
	}
	x := r.b[0]
	r.b = r.b[1:]
	return int(x)
}

// length is -32 to 32 m in steps of 1/1024 m, now and then not finite or far off.
func (r *reader) length() float64 {
	x := r.byte()<<8 | r.byte()
	switch x {
	case 0xffff:
		return math.NaN()
	case 0xfffe:
		return math.Inf(1)
	case 0xfffd:
		return 1e200
	}
	return float64(x-0x8000) / 1024
}

func rigOf(b []byte) statics.Rig {
	d := &reader{b}
	r, level := statics.Rig{}, d.byte()%2 == 0
	points := 2 + d.byte()%8
	r.Bodies = []statics.Body{{Motion: r3.Vector{X: d.length(), Y: d.length()}}}
	for i := 0; i < points; i++ {
		p := statics.Point{Kind: statics.PointKind(d.byte() % 3), Pos: r3.Vector{X: d.length(), Y: d.length()}}
		if !level {
			p.Pos.Z = d.length() / 8
		}
		r.Points = append(r.Points, p)
	}
	for i := 1 + d.byte()%3; i > 0; i-- {
		l := statics.Line{Drum: d.byte()%2 == 0, TensionN: float64(d.byte()) * 300}
		for k := 2 + d.byte()%4; k > 0; k-- {
			l.Path = append(l.Path, d.byte()%points)
		}
		for k := len(l.Path) - 2; k > 0; k-- {
			l.Sheaves = append(l.Sheaves, statics.Sheave{Model: statics.SheaveModel(d.byte() % 4),
				Eta: float64(d.byte()+100) / 355, Mu: float64(d.byte()) / 1000})
		}
		if d.byte()%2 == 0 {
			l.LengthM = math.Abs(d.length())
		}
		l.ComplianceMPerN = float64(d.byte()) * 1e-7
		r.Lines = append(r.Lines, l)
	}
	for i := d.byte() % 6; i > 0; i-- {
		g := statics.Sling{A: d.byte() % points, B: d.byte() % points, StiffnessNPerM: float64(d.byte()) * 2e4}
		if d.byte()%2 == 0 {
			g.LengthM = math.Abs(d.length()) / 4
		}
		r.Slings = append(r.Slings, g)
	}
	for i := d.byte() % 3; i > 0; i-- {
		r.Loads = append(r.Loads, statics.PointLoad{Point: d.byte() % points, ForceN: r3.Vector{X: d.length() * 100, Y: d.length() * 100}})
	}
	return r
}
