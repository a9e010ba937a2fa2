package travel_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/travel"
)

// tolerance is what the case file asks for: forces as a share of the largest tension
// or block load of the row, lengths and places in metres, angles in degrees, events in
// metres.
type tolerance struct{ force, length, angle, event float64 }

var (
	guided = tolerance{1e-7, 1e-7, 1e-6, 1e-6}
	// free: fourth order at 0.25 m; angles as the places, over a metre.
	free = tolerance{1e-6, 1e-6, 1e-4, 1e-6}
)

// The references were made without code of this project (head of the file).
func TestCases(t *testing.T) {
	for _, c := range loadCases(t) {
		t.Run(c.ID, func(t *testing.T) {
			course, n := c.course(t)
			tol := guided
			if course.Motion.Kind == travel.Free {
				tol = free
			}
			var at []float64
			for _, r := range c.Expected.Rows {
				at = append(at, r.S)
			}
			rows, err := travel.Rows(course, at)
			require.NoError(t, err)
			for i := range c.Expected.Rows {
				checkRow(t, &c, n, &c.Expected.Rows[i], &rows[i], tol)
			}
			events, err := travel.Events(course)
			require.NoError(t, err)
			checkEvents(t, &c, n, events, tol)
		})
	}
}

// rowCheck compares one row.
type rowCheck struct {
	t    *testing.T
	sM   float64
	most float64 // largest force of the row
	tol  tolerance
}

func (k *rowCheck) near(want *float64, got, tol float64, what string) {
	if want != nil {
		assert.InDelta(k.t, *want, got, tol, "%s at %g m", what, k.sM)
	}
}

func (k *rowCheck) vector(want []float64, got r3.Vector, tol float64, what string) {
	if want != nil {
		assert.InDelta(k.t, 0, got.Sub(vec(want)).Norm(), tol, "%s at %g m: %v, not %v", what, k.sM, got, want)
	}
}

func checkRow(t *testing.T, c *refCase, n ids, want *refRow, got *travel.Row, tol tolerance) {
	k := &rowCheck{t: t, sM: want.S, tol: tol}
	for _, s := range want.Stretches {
		if s.Tension != nil {
			k.most = math.Max(k.most, *s.Tension)
		}
	}
	for _, b := range want.Blocks {
		if b.Magnitude != nil {
			k.most = math.Max(k.most, *b.Magnitude)
		}
	}
	status, known := map[string]travel.RowStatus{"ok": travel.Computed, "line_pushes": travel.Pushes}[want.Status]
	require.True(t, known, want.Status)
	require.Equal(t, status, got.Status, "at %g m", want.S)
	force, length, angle := tol.force*k.most, tol.length, tol.angle
	k.near(want.Resistance, got.ResistanceN, force, "resistance")
	k.near(want.PerUnit, got.PullPerUnit, tol.force, "pull")
	k.near(want.Tension, got.TensionN, force, "tension")
	k.near(want.PaidIn, got.PaidInM, length, "paid in")
	k.near(want.OnDrum, got.OnDrumM, length, "on drum")
	if want.Layer != nil {
		assert.Equal(t, *want.Layer, got.Layer, "layer at %g m", want.S)
	}
	k.near(want.PullLimit, got.LayerPullN, 1e-6, "layer pull")
	k.near(want.WinchUsed, got.WinchShare, tol.force*math.Max(1, got.WinchShare), "winch share")
	k.near(want.OffWay, got.OffWayDeg, angle, "off way")
	k.near(want.OffHook, got.OffHookDeg, angle, "off hook")
	for _, h := range [...]*float64{want.Heading, want.Yaw} {
		if h != nil {
			assert.InDelta(t, 0, math.Remainder(*h-got.HeadingDeg, 360), angle, "heading at %g m", want.S)
		}
	}
	k.vector(want.Force, got.CasualtyN, force, "casualty force")
	k.vector(want.Pose, got.Ref, length, "pose")
	if want.Twist != nil {
		k.vector(want.Twist, r3.Vector{X: got.Twist[0], Y: got.Twist[1], Z: got.Twist[2]}, 10*tol.force, "twist")
		k.vector(want.Wrench, r3.Vector{X: got.Wrench[0], Y: got.Wrench[1], Z: got.Wrench[2]}, 10*tol.force, "wrench")
	}
	for id, p := range want.Free {
		k.vector(p, got.Points[n.at(t, n.point, id)], length, id)
	}
	for id, p := range want.Casualty {
		k.vector(p, got.Points[n.at(t, n.point, id)], length, id)
	}
	checkRig(k, c, n, want, got)
}

func checkRig(k *rowCheck, c *refCase, n ids, want *refRow, got *travel.Row) {
	force, length := k.tol.force*k.most, k.tol.length
	for _, s := range want.Stretches {
		g := got.Lines[n.at(k.t, n.line, s.Line)].Stretches[s.Index]
		name := fmt.Sprintf("stretch %s:%d", s.Line, s.Index)
		k.near(s.Tension, g.TensionN, force, name)
		k.near(&s.Length, g.LengthM, length, name)
		k.vector(s.Dir, g.Dir, k.tol.force, name)
	}
	rope := func(name, point string, visit int) int {
		if name != "" {
			return n.at(k.t, n.line, name)
		}
		return slices.IndexFunc(c.Ropes, func(r refRope) bool { return visit < len(r.Path) && r.Path[visit] == point })
	}
	for _, s := range want.Sheaves {
		k.near(s.Ratio, got.Lines[rope(s.Rope, s.Point, s.Visit)].Ratios[s.Visit-1], k.tol.force, "ratio at "+s.Point)
	}
	for _, b := range want.Blocks {
		k.vector(b.Load, got.Lines[rope(b.Rope, b.Point, b.Visit)].Loads[b.Visit-1], force, "block "+b.Point)
	}
	for _, s := range want.Slings {
		g := got.Slings[n.at(k.t, n.sling, s.ID)]
		k.near(s.Tension, g.TensionN, force, s.ID)
		assert.Equal(k.t, s.Slack, g.Slack, "%s slack at %g m", s.ID, k.sM)
		k.near(s.Length, g.LengthM, length, s.ID)
		if !s.Slack {
			k.vector(s.Dir, g.Dir, k.tol.force, s.ID)
		}
	}
}

// checkEvents compares the events of a case: each reference with one of ours, and
// none of ours left over. Of a free body the references leave out the winch and what
// is beyond its angle at the start (fields of the file).
func checkEvents(t *testing.T, c *refCase, n ids, events []travel.Event, tol tolerance) {
	names := func(p travel.Part) []string {
		var out []string
		for _, l := range c.Limits {
			if n.part(t, l.Part) == p {
				out = append(out, l.Part)
			}
		}
		for _, m := range c.Asked.Maxima {
			if n.part(t, m) == p {
				out = append(out, m)
			}
		}
		return append(out, "winch:pull of the layer")
	}
	var ours []map[string]any
	for i := range events {
		e := &events[i]
		if c.Motion.Kind == "free" && (e.Start && e.Kind == travel.OffWayBeyond || e.Part.Kind == travel.WinchPart && e.Kind != travel.MaxLoad) {
			continue
		}
		ours = append(ours, told(c, e, names))
	}
	for _, want := range c.Expected.Events {
		i := slices.IndexFunc(ours, func(got map[string]any) bool { return agrees(want, got, tol) })
		if !assert.GreaterOrEqual(t, i, 0, "no event like %s", describe(want)) {
			continue
		}
		ours = slices.Delete(ours, i, i+1)
	}
	for _, m := range ours {
		assert.Fail(t, "not in the references", describe(m))
	}
}

// agrees reports whether an event has every member of the reference.
func agrees(want, got map[string]any, tol tolerance) bool {
	for key, w := range want {
		g, ok := got[key]
		if !ok {
			return false
		}
		switch key {
		case "s":
			if !within(w, g, tol.event) {
				return false
			}
		case "at":
			p, q := w.([]any), g.([]any)
			if !within(p[0], q[0], tol.event) || !within(p[1], q[1], tol.event) {
				return false
			}
		case "part":
			if !slices.Contains(g.([]string), w.(string)) {
				return false
			}
		case "tension", "before", "after", "value", "ratio_before", "ratio_after":
			if !within(w, g, 1e-6*math.Abs(w.(float64))) {
				return false
			}
		default:
			if fmt.Sprint(w) != fmt.Sprint(g) {
				return false
			}
		}
	}
	return true
}

func within(a, b any, tol float64) bool { return math.Abs(a.(float64)-b.(float64)) <= tol }
