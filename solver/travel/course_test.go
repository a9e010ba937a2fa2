package travel_test

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/gear"
	"kedge/solver/statics"
	"kedge/solver/travel"
)

func at(x, y float64) r3.Vector { return r3.Vector{X: x, Y: y} }

var drum = travel.Drum{Drum: gear.Drum{Diameter: 0.064, Width: 0.23, Line: 0.01}, Rated: 42000, OnDrum: 8}

// direct is a line from a winch 1 m to the side of the way, 30 m ahead.
func direct(endM, forceN float64) *travel.Course {
	return &travel.Course{
		Rig: statics.Rig{
			Points: []statics.Point{{Pos: at(30, 1)}, {Kind: statics.OnBody}},
			Bodies: make([]statics.Body, 1),
			Lines:  []statics.Line{{Path: []int{0, 1}, Drum: true}},
		},
		Motion:     travel.Motion{Dir: at(1, 0)},
		EndM:       endM,
		Resistance: []travel.Knot{{AtM: 0, ForceN: forceN}},
		Drum:       drum,
	}
}

// redirected is a line over a slung block, round a lossy sheave.
func redirected() *travel.Course {
	c := direct(7, 14000)
	c.Rig.Points = []statics.Point{{Pos: at(29.95, 7.6)}, {Kind: statics.OnBody, Pos: at(8.1, 8.5)},
		{Kind: statics.Free, Pos: at(23.75, 18.43)}, {Pos: at(24, 19.5)}}
	c.Rig.Lines = []statics.Line{{Path: []int{0, 2, 1}, Drum: true, Sheaves: []statics.Sheave{{Eta: 0.96}}}}
	c.Rig.Slings = []statics.Sling{{A: 3, B: 2, LengthM: 1.0972}}
	c.Resistance = []travel.Knot{{0, 14000}, {3.1, 14000}, {3.1, 20000}, {7, 18000}}
	return c
}

// sticking is a doubled line whose far block is on a long sling: its sheave comes to
// stand as the casualty goes by, and what lies behind it keeps its length.
func sticking() *travel.Course {
	c := direct(8, 12000)
	c.Rig.Points = []statics.Point{{Pos: at(40, -2)}, {Kind: statics.OnBody}, {Kind: statics.Free, Pos: at(7, -6)}, {Pos: at(7, -8.5)}, {Pos: at(4, -11)}}
	sheave := statics.Sheave{Eta: 0.8, Model: statics.Constant}
	c.Rig.Lines = []statics.Line{{Path: []int{0, 1, 2, 4}, Drum: true, Sheaves: []statics.Sheave{sheave, sheave}}}
	c.Rig.Slings = []statics.Sling{{A: 3, B: 2, LengthM: 2.5}}
	return c
}

func rowsAt(t *testing.T, c *travel.Course, at ...float64) []travel.Row {
	t.Helper()
	rows, err := travel.Rows(c, at)
	require.NoError(t, err)
	return rows
}

func eventsOf(t *testing.T, c *travel.Course, kind travel.EventKind) []travel.Event {
	t.Helper()
	all, err := travel.Events(c)
	require.NoError(t, err)
	var out []travel.Event
	for _, e := range all {
		if e.Kind == kind {
			out = append(out, e)
		}
	}
	return out
}

// The line from the way's side pulls with T (30 − s)/L along it, L² = (30 − s)² + 1;
// it is abeam at 30 m, and pushes beyond (closed form).
func TestAbeam(t *testing.T) {
	c := direct(32, 9000)
	rows := rowsAt(t, c, 0, 12, 29, 29.9, 30.5)
	for _, r := range rows[:4] {
		x := 30 - r.AtM
		assert.InEpsilon(t, 9000*math.Hypot(x, 1)/x, r.TensionN, 1e-9)
		assert.InDelta(t, math.Hypot(30, 1)-math.Hypot(x, 1), r.PaidInM, 1e-9)
	}
	require.Equal(t, travel.Pushes, rows[4].Status)
	require.True(t, math.IsNaN(rows[4].TensionN))
	require.InDelta(t, math.Hypot(0.5, 1), rows[4].Lines[0].Stretches[0].LengthM, 1e-9)
	abeam := eventsOf(t, c, travel.Abeam)
	require.Len(t, abeam, 1)
	require.InDelta(t, 30, abeam[0].AtM, 1e-8)
	c.Maxima = []travel.Part{{Kind: travel.LinePart}}
	require.Empty(t, eventsOf(t, c, travel.MaxLoad), "it grows without bound")
	// The winch gives up before: 42 kN · 0.074/0.134 on the fourth layer (closed form).
	c.Drum.OnDrum = 1
	over := eventsOf(t, c, travel.OverLimit)
	require.Len(t, over, 1)
	x := 1 / math.Sqrt(math.Pow(42000*0.074/0.134/9000, 2)-1)
	require.InDelta(t, 30-x, over[0].AtM, 1e-7)
}

// Without loss the block of a redirect takes 2T cos(θ/2) (closed form), θ between
// its legs.
func TestRedirectLoad(t *testing.T) {
	c := redirected()
	c.Rig.Lines[0].Sheaves[0].Eta = 1
	for _, r := range rowsAt(t, c, 0, 2.2, 6.9) {
		s := r.Lines[0].Stretches
		half := s[0].Dir.Mul(-1).Angle(s[1].Dir).Radians() / 2
		assert.InEpsilon(t, 2*r.TensionN*math.Cos(half), r.Slings[0].TensionN, 1e-9)
	}
}

// compound is a line that hauls a free block, from which a second line of fixed
// length runs over a block on the casualty to an anchor: on an arc, with a strap to a
// second point of the body that the free block pulls at.
func compound() *travel.Course {
	c := direct(5, 9000)
	c.Motion = travel.Motion{Kind: travel.Arc, RadiusM: 15}
	c.Rig.Points = []statics.Point{{Pos: at(40, 3)}, {Pos: at(36, -6)}, {Kind: statics.Free, Pos: at(20, 1)},
		{Kind: statics.OnBody, Pos: at(3, 0.6)}, {Pos: at(25, 12)}, {Kind: statics.OnBody, Pos: at(2.5, -0.8)}}
	c.Rig.Lines = []statics.Line{
		{Path: []int{0, 2, 1}, Drum: true, Sheaves: []statics.Sheave{{Eta: 0.9}}},
		{Path: []int{2, 3, 4}, LengthM: 42, Sheaves: []statics.Sheave{{Eta: 0.93}}},
	}
	c.Rig.Slings = []statics.Sling{{A: 2, B: 5, LengthM: 19}}
	return c
}

// lowered is redirected the other way round: the line lets the casualty down.
func lowered() *travel.Course {
	c := redirected()
	c.PayOut, c.Motion.Dir = true, at(-1, 0)
	return c
}

// dragged goes where a slung line drags it over four contacts, its hook to the side.
func dragged() *travel.Course {
	c := redirected()
	c.Motion = travel.Motion{Kind: travel.Free, Ref: at(5.5, 8.5), HeadingRad: 0.1}
	c.Rig.Points[1].Pos = at(8.1, 9)
	for _, x := range []float64{1.35, -1.4} {
		for _, y := range []float64{0.78, -0.78} {
			c.Motion.Contacts = append(c.Motion.Contacts, statics.Tyre{XM: x, YM: y, LoadN: 6000, Along: 0.25, Across: 0.6})
		}
	}
	return c
}

// What the winch does is what moving the casualty takes and what the sheaves lose:
// T dL = R ds + Σ (T before − T behind) × line over the sheave. Differences are
// central, over 2 mm.
func TestWorkBalances(t *testing.T) {
	const h = 1e-3
	for name, c := range map[string]*travel.Course{"direct": direct(20, 9000), "redirect": redirected(), "sticking": sticking(),
		"compound": compound(), "lowered": lowered(), "dragged": dragged()} {
		for sM := 0.5; sM < c.EndM-1; sM += 0.47 {
			w := rowsAt(t, c, sM-h, sM, sM+h)
			r := &w[1]
			if math.Abs(w[2].ResistanceN-w[0].ResistanceN) > 100 {
				continue // across a step
			}
			left := r.TensionN * (w[2].PaidInM - w[0].PaidInM)
			right := r.ResistanceN * 2 * h
			if c.PayOut {
				right = -right
			}
			behind := func(w *travel.Row, line, visit int) (sum float64) {
				for _, s := range w.Lines[line].Stretches[visit+1:] {
					sum += s.LengthM
				}
				return sum
			}
			for i := range r.Lines {
				for k := range r.Lines[i].Loads {
					s := r.Lines[i].Stretches
					right += (s[k].TensionN - s[k+1].TensionN) * (behind(&w[0], i, k) - behind(&w[2], i, k))
				}
			}
			assert.InEpsilon(t, left, right, 1e-5, "%s at %g m", name, sM)
		}
	}
}

// A sheave that sticks keeps what lies behind it, takes up its tension where it left
// off, and never needs more friction than it has.
func TestSheaveSticks(t *testing.T) {
	c := sticking()
	stick := eventsOf(t, c, travel.SheaveSticks)
	require.Len(t, stick, 1)
	e := &stick[0]
	require.InDelta(t, 1/0.8, e.RatioBefore, 1e-6)
	require.InDelta(t, 1/0.8, e.RatioAfter, 1e-6)
	until := c.EndM
	for _, r := range eventsOf(t, c, travel.SheaveReverses) {
		if r.Visit == e.Visit && r.AtM > e.AtM {
			until = math.Min(until, r.AtM)
		}
	}
	tail := func(r *travel.Row) float64 { return r.Lines[0].Stretches[2].LengthM }
	first := rowsAt(t, c, e.AtM-1e-6, e.AtM+1e-6)
	require.InEpsilon(t, first[0].TensionN, first[1].TensionN, 1e-5)
	for _, r := range rowsAt(t, c, e.AtM+0.1*(until-e.AtM), e.AtM+0.5*(until-e.AtM), until-1e-3) {
		require.InDelta(t, tail(&first[0]), tail(&r), 1e-6)
		ratio := r.Lines[0].Ratios[1]
		require.True(t, ratio > 0.8 && ratio < 1/0.8, "%g at %g m", ratio, r.AtM)
	}
}

// Places are the same in whatever order they are asked for, and events come in the
// order of the way.
func TestOrderOfPlaces(t *testing.T) {
	for name, c := range map[string]*travel.Course{"redirect": redirected(), "sticking": sticking(), "compound": compound(), "dragged": dragged()} {
		there, back := rowsAt(t, c, 0.3, 1.7, 2.9, 4.4), rowsAt(t, c, 4.4, 2.9, 1.7, 0.3)
		for i := range there {
			r := &back[len(back)-1-i]
			assert.InEpsilon(t, there[i].TensionN, r.TensionN, 1e-8, "%s at %g m", name, r.AtM)
			assert.InDelta(t, there[i].PaidInM, r.PaidInM, 1e-8, "%s at %g m", name, r.AtM)
		}
		events, err := travel.Events(c)
		require.NoError(t, err)
		assert.True(t, slices.IsSortedFunc(events, func(a, b travel.Event) int { return cmp.Compare(a.AtM, b.AtM) }), name)
	}
}

// Whatever a casualty with two blocks goes past, a course is followed, and what is
// computed balances.
func TestAnyCourse(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 20261130))
	u := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	computed := 0
	for range 300 {
		c := sticking()
		p := c.Rig.Points
		p[3].Pos = at(u(2, 14), u(-10, -3))
		c.Rig.Slings[0].LengthM = u(0.5, 4)
		p[2].Pos = p[3].Pos.Add(at(0, c.Rig.Slings[0].LengthM))
		p[4].Pos = at(u(-5, 20), u(-14, 14))
		eta := u(0.7, 0.97)
		for i := range c.Rig.Lines[0].Sheaves {
			c.Rig.Lines[0].Sheaves[i].Eta = eta
		}
		if _, err := travel.Events(c); err != nil {
			require.ErrorIs(t, err, travel.ErrCourse) // it does not stand at the start
			continue
		}
		for _, r := range rowsAt(t, c, 0, u(0, 8), 8) {
			if r.Status != travel.Computed {
				require.True(t, math.IsNaN(r.TensionN))
				continue
			}
			computed++
			require.InEpsilon(t, 12000, r.CasualtyN.X, 1e-6)
			for _, ratio := range r.Lines[0].Ratios {
				require.True(t, ratio > eta*(1-1e-6) && ratio < (1+1e-6)/eta, "%g of %g at %g m", ratio, eta, r.AtM)
			}
		}
	}
	require.Greater(t, computed, 500)
}

// Turned, shifted and mirrored, a course is the same; so it is with its points and
// slings listed the other way round.
func TestCourseSymmetry(t *testing.T) {
	const tol = 1e-8
	want := rowsAt(t, redirected(), 0, 2, 5)
	events, err := travel.Events(redirected())
	require.NoError(t, err)
	moves := map[string]func(r3.Vector) r3.Vector{
		"shifted":  func(v r3.Vector) r3.Vector { return v.Add(r3.Vector{X: 412, Y: -87, Z: 230}) },
		"turned":   func(v r3.Vector) r3.Vector { return at(0.6*v.X-0.8*v.Y, 0.8*v.X+0.6*v.Y) },
		"mirrored": func(v r3.Vector) r3.Vector { return at(v.X, -v.Y) },
	}
	for name, move := range moves {
		c := redirected()
		for i := range c.Rig.Points {
			c.Rig.Points[i].Pos = move(c.Rig.Points[i].Pos)
		}
		c.Motion.Dir = move(c.Motion.Dir).Sub(move(r3.Vector{}))
		sameCourse(t, name, c, want, events, tol)
	}
	c := redirected()
	p := c.Rig.Points
	p[0], p[1], p[2], p[3] = p[3], p[2], p[1], p[0]
	c.Rig.Lines[0].Path = []int{3, 1, 2}
	c.Rig.Slings[0] = statics.Sling{A: 1, B: 0, LengthM: 1.0972}
	sameCourse(t, "listed the other way", c, want, events, tol)
}

func sameCourse(t *testing.T, name string, c *travel.Course, want []travel.Row, events []travel.Event, tol float64) {
	for i, r := range rowsAt(t, c, 0, 2, 5) {
		assert.InEpsilon(t, want[i].TensionN, r.TensionN, tol, name)
		assert.InEpsilon(t, want[i].Slings[0].TensionN, r.Slings[0].TensionN, tol, name)
		assert.InDelta(t, want[i].PaidInM, r.PaidInM, tol, name)
	}
	got, err := travel.Events(c)
	require.NoError(t, err)
	require.Len(t, got, len(events), name)
	for i := range got {
		assert.Equal(t, events[i].Kind, got[i].Kind, name)
		assert.InDelta(t, events[i].AtM, got[i].AtM, 1e-7, name)
	}
}

// A free body drags to the same place with the grid's steps cut in two by asking for
// places between.
func TestFreeStep(t *testing.T) {
	for _, c := range loadCases(t) {
		if c.Motion.Kind != "free" {
			continue
		}
		course, _ := c.course(t)
		moved := *course
		half := rowsAt(t, course, course.EndM/2)[0]
		moved.Motion.Ref, moved.Motion.HeadingRad = half.Ref, half.HeadingDeg*math.Pi/180
		moved.Rig.Points = append(moved.Rig.Points[:0:0], moved.Rig.Points...)
		for i := range moved.Rig.Points {
			if moved.Rig.Points[i].Kind == statics.OnBody {
				moved.Rig.Points[i].Pos = half.Points[i]
			}
		}
		whole, rest := rowsAt(t, course, course.EndM)[0], rowsAt(t, &moved, course.EndM/2)[0]
		assert.InDelta(t, 0, whole.Ref.Sub(rest.Ref).Norm(), 1e-6, c.ID)
		assert.InEpsilon(t, whole.TensionN, rest.TensionN, 1e-6, c.ID)
	}
}

func TestNotACourse(t *testing.T) {
	for name, spoil := range map[string]func(*travel.Course){
		"no way":        func(c *travel.Course) { c.EndM = 0 },
		"no direction":  func(c *travel.Course) { c.Motion.Dir = r3.Vector{} },
		"no resistance": func(c *travel.Course) { c.Resistance = nil },
		"no number":     func(c *travel.Course) { c.Resistance[0].ForceN = math.NaN() },
		"no drum":       func(c *travel.Course) { c.Drum.Width = 0 },
		"no line":       func(c *travel.Course) { c.Rig.Lines = nil },
		"loose block":   func(c *travel.Course) { c.Rig.Points = append(c.Rig.Points, statics.Point{Kind: statics.Free}) },
		"no contacts":   func(c *travel.Course) { c.Motion.Kind = travel.Free },
	} {
		c := direct(10, 9000)
		spoil(c)
		_, err := travel.Events(c)
		assert.ErrorIs(t, err, travel.ErrCourse, name)
	}
}
