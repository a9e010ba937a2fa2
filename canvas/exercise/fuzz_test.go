package exercise_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"kedge/canvas/exercise"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// FuzzQuestion reads a question: what is read is written so that it is read the same.
func FuzzQuestion(f *testing.F) {
	for _, s := range []string{"angle:B1", "load:V1/tip", "weakest", "first:", "what-if:R2:L1/1", "what-if:R:2:", "happens", "riddle:B1", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		q, err := exercise.ParseQuestion(s)
		if err != nil {
			return
		}
		if back, err := exercise.ParseQuestion(q.String()); err != nil || back != q {
			t.Fatalf("%q is %#v, and written %q %#v, %v", s, q, q.String(), back, err)
		}
	})
}

// FuzzVary reads what differs from variant to variant: what is read is written so that
// it is read the same, and a plan varied by it can be kept, nothing in it further off
// than asked for and half a step of rounding (0.05 m, 5 kg, 0.25°).
func FuzzVary(f *testing.F) {
	for _, s := range []string{"mass=20%,place=1.5,trunks=10%,turn=5,slings=2/3/4", "mass=0.5", "mass=1e-13", "trunks=33.3333333333333333%", "place=5", "turn=45°", "slings=1e-300/99", "place=nan", "weather=2"} {
		f.Add(s, uint64(1))
	}
	p := seeded.Example(f, "redirect")
	f.Fuzz(func(t *testing.T, s string, seed uint64) {
		v, err := exercise.ParseVary(s)
		if err != nil {
			return
		}
		if back, err := exercise.ParseVary(v.String()); err != nil || !reflect.DeepEqual(back, v) {
			t.Fatalf("%q is %v, and written %q %v, %v", s, v, v.String(), back, err)
		}
		q := exercise.Varied(p, p.Rigs[0].ID, v, rand.New(rand.NewPCG(seed, 0)))
		if err := plan.Validate(q); err != nil {
			t.Fatal(s, err)
		}
		for i := range q.Site.Vehicles {
			was, is := &p.Site.Vehicles[i], &q.Site.Vehicles[i]
			far := max(math.Abs(is.At.X-was.At.X), math.Abs(is.At.Y-was.At.Y))
			turned := math.Abs(math.Remainder(float64(is.Bearing-was.Bearing), 360))
			if far > v.PlaceM+0.05+1e-9 || turned > v.TurnDeg+0.25+1e-9 || math.Abs(float64(is.Mass-was.Mass)) > float64(was.Mass)*v.MassShare+5+1e-9 {
				t.Fatalf("%q: %s goes from %v %v %v to %v %v %v", s, is.ID, was.At, was.Bearing, was.Mass, is.At, is.Bearing, is.Mass)
			}
		}
	})
}
