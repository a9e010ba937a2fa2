package doubt

import (
	"math"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A quadratic is its own surface (closed form), and what is none is not taken for one.
func TestSurfaceOfAQuadratic(t *testing.T) {
	dists := []Dist{{normal, 5, 0.5, 0}, {uniform, -1, 0, 3}}
	f := func(x, y []float64) bool { y[0] = 3 + x[0] - 2*x[1] + x[0]*x[1] + x[1]*x[1]/7; return true }
	most := func(_ int, is float64) float64 { return 0.005 * math.Abs(is) }
	s, refused, _, ok := fit(dists, 1, f, most)
	require.True(t, ok)
	assert.Zero(t, refused)
	var got, want [1]float64
	for _, x := range [][]float64{{5, 0}, {6.2, 2.5}, {3.9, -0.7}} {
		s.at(x, got[:])
		f(x, want[:])
		assert.InDelta(t, want[0], got[0], 1e-9)
	}
	_, _, _, ok = fit(dists, 1, func(x, y []float64) bool { y[0] = math.Floor(x[1]); return true }, most)
	assert.False(t, ok, "steps")
	_, refused, _, ok = fit(dists, 1, func(x, y []float64) bool { return x[1] < 2 }, most)
	assert.False(t, ok)
	assert.InDelta(t, 0.25, refused, 0.1)
}

// The surface of the example says what the rig says, elsewhere than where it was fitted.
func TestSurfaceIsTheRig(t *testing.T) {
	m := example(t)
	require.NotNil(t, m.surface)
	xs, ys, refused := samplePoints(m.dists, 32, 7, len(m.sure), m.ask)
	assert.Zero(t, refused)
	got := make([]float64, len(m.sure))
	for k, x := range xs {
		m.surface.at(x, got)
		for a := range got {
			assert.InDelta(t, ys[k][a], got[a], 0.005*math.Abs(ys[k][a])+1e-9)
		}
	}
}

// example is the example plan as a model.
func example(t *testing.T) *rigModel {
	t.Helper()
	raw, err := os.ReadFile("../../assets/plans/redirect.kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(raw)
	require.NoError(t, err)
	m, err := newModel(p, "R1", Request{}, nil)
	require.NoError(t, err)
	return m
}

// What a pin weighs, or why it weighs nothing.
func TestWhatBecomesOfAPin(t *testing.T) {
	m, metres := example(t), func(x float64) plan.Maybe[quantity.Length] { return plan.Known(quantity.Length(x)) }
	for what, tt := range map[string]struct {
		pin plan.Pin
		why string
	}{
		"broken":             {plan.Pin{Kind: plan.PinBroken, Thing: "S1"}, ""},
		"of no part":         {plan.Pin{Kind: plan.PinBroken, Thing: "gone"}, NotOfRig},
		"a line comes off":   {plan.Pin{Kind: plan.PinOff, Thing: "L1"}, NotOfRig},
		"its hook comes off": {plan.Pin{Kind: plan.PinOff, Thing: "L1/end"}, ""},
		"landing":            {plan.Pin{Kind: plan.PinLanding, Thing: "B1", Length: metres(12), Mass: 4}, ""},
		"no mark of landing": {plan.Pin{Kind: plan.PinLanding, Thing: "B1", Length: metres(0), Mass: 4}, NoMark},
		"weightless landing": {plan.Pin{Kind: plan.PinLanding, Thing: "S1", Length: metres(12)}, NoFigure},
		"hook landing":       {plan.Pin{Kind: plan.PinLanding, Thing: "L1/end", Length: metres(12), Mass: 1}, ""},
		"damper landing":     {plan.Pin{Kind: plan.PinLanding, Thing: "D1", Length: metres(12), Mass: 3}, ""},
		"a tree lands":       {plan.Pin{Kind: plan.PinLanding, Thing: "T1", Length: metres(12), Mass: 4}, NoFlight},
		"a vehicle lands":    {plan.Pin{Kind: plan.PinLanding, Thing: "V1", Length: metres(12), Mass: 4}, NoFlight},
		"nobody knows what":  {plan.Pin{Kind: plan.PinLanding, Length: metres(12), Mass: 4}, NoFlight},
		"what is gone":       {plan.Pin{Kind: plan.PinLanding, Thing: "gone", Length: metres(12), Mass: 4}, NoFlight},
		"rest":               {plan.Pin{Kind: plan.PinResting, Thing: "B1", Length: metres(12)}, AtRest},
		"rut":                {plan.Pin{Kind: plan.PinRut, Thing: "V1", Length: metres(1), Known: plan.KnownObserved}, SetsPlace},
		"rut that is told":   {plan.Pin{Kind: plan.PinRut, Thing: "V1", Length: metres(1), Known: plan.KnownTold}, Unplaced},
		"rut of the other":   {plan.Pin{Kind: plan.PinRut, Thing: "V2", Length: metres(1), Known: plan.KnownObserved}, NotCasualty},
		"rut of what length": {plan.Pin{Kind: plan.PinRut, Thing: "V1", Known: plan.KnownObserved}, NoFigure},
		"tag":                {plan.Pin{Kind: plan.PinTag, Thing: "S1", Known: plan.KnownObserved, Rating: plan.Rating{Force: 5e4, Basis: plan.BasisBreaking}}, SetsTag},
		"tag that is told":   {plan.Pin{Kind: plan.PinTag, Thing: "S1", Known: plan.KnownTold, Rating: plan.Rating{Force: 5e4, Basis: plan.BasisBreaking}}, TagTold},
		"tag of nothing":     {plan.Pin{Kind: plan.PinTag, Thing: "S1", Known: plan.KnownObserved}, NoFigure},
		"tag of a tree":      {plan.Pin{Kind: plan.PinTag, Thing: "T1", Known: plan.KnownObserved, Rating: plan.Rating{Force: 5e4, Basis: plan.BasisBreaking}}, NotOfRig},
		"seen before":        {plan.Pin{Kind: plan.PinSeenBefore, Thing: "S1", Known: plan.KnownTold, Look: plan.LookCut}, SetsPrior},
		"assumed before":     {plan.Pin{Kind: plan.PinSeenBefore, Thing: "S1", Known: plan.KnownAssumed, Look: plan.LookCut}, SeenIdle},
		"a shackle seen cut": {plan.Pin{Kind: plan.PinSeenBefore, Thing: "K1", Known: plan.KnownObserved, Look: plan.LookCut}, SeenIdle},
		"whole, once":        {plan.Pin{Kind: plan.PinWhole, Thing: "S1", Earlier: true}, OfEarlier},
		"held once":          {plan.Pin{Kind: plan.PinTension, Low: 1000, Earlier: true}, ""},
		"tension of nothing": {plan.Pin{Kind: plan.PinTension}, NoFigure},
		"tension":            {plan.Pin{Kind: plan.PinTension, Low: 1000}, ""},
		"no layer":           {plan.Pin{Kind: plan.PinLayer}, NoFigure},
		"skid":               {plan.Pin{Kind: plan.PinSkid, Thing: "V2", Length: metres(0)}, ""},
		"skid of the tree":   {plan.Pin{Kind: plan.PinSkid, Thing: "T1", Length: metres(1)}, NotOfRig},
		"tree stirred":       {plan.Pin{Kind: plan.PinMoved, Thing: "T1", Length: metres(0.02)}, ""},
		"stirred how far":    {plan.Pin{Kind: plan.PinMoved, Thing: "T1"}, NoFigure},
		"look":               {plan.Pin{Kind: plan.PinLook, Thing: "S1", Look: plan.LookCut}, ""},
		"look of nothing":    {plan.Pin{Kind: plan.PinLook, Thing: "S1"}, NoFigure},
	} {
		tt.pin.ID = "B"
		m.plan = plan.WithIncident(m.plan, 0, &plan.Incident{Pins: []plan.Pin{tt.pin}})
		facts, used := m.evidence(true, 2)
		require.Len(t, used, 1, what)
		assert.Equal(t, tt.why, used[0].Why, what)
		assert.Len(t, facts, map[bool]int{true: 1}[tt.why == ""], what)
	}
}

// What flew says that something failed which frees it: of a line nothing that hangs on a
// block, of a damper anything, for it lies on a line.
func TestWhatFreesWhatFlew(t *testing.T) {
	m := example(t)
	of := func(thing plan.ID) []string {
		m.plan = plan.WithIncident(m.plan, 0, &plan.Incident{Pins: []plan.Pin{{ID: "B", Kind: plan.PinLanding, Thing: thing, Length: plan.Known(quantity.Length(9)), Mass: 3}}})
		facts, _ := m.evidence(true, 2)
		require.Len(t, facts, 1, thing)
		return facts[0].Thrown
	}
	line, block, damper := of("L1"), of("B1"), of("D1")
	assert.Equal(t, line, of("L1/end"))
	assert.Contains(t, line, "L1/end")
	assert.Contains(t, block, "S1")
	assert.NotContains(t, block, "L1/end")
	assert.ElementsMatch(t, append(line, block...), damper)
}

// What is shipped lies on a surface: it is asked a million times, not solved as often.
func TestShippedRigsLieOnASurface(t *testing.T) {
	files, err := filepath.Glob("../../assets/plans/*.kedge")
	require.NoError(t, err)
	more, err := filepath.Glob("../../assets/plans/incidents/*.kedge")
	require.NoError(t, err)
	for _, file := range append(files, more...) {
		raw, err := os.ReadFile(file)
		require.NoError(t, err)
		p, err := plan.ParsePlan(raw)
		require.NoError(t, err)
		for i := range p.Rigs {
			m, err := newModel(p, p.Rigs[i].ID, Request{}, nil)
			if err == nil {
				assert.NotNil(t, m.surface, "%s %s: %v", file, p.Rigs[i].ID, m.ids())
			}
		}
	}
}

// straight is the example of a straight pull with nothing in its way, and what was seen of
// it.
func straight(t *testing.T, what ...plan.Pin) *rigModel {
	t.Helper()
	raw, err := os.ReadFile("../../assets/plans/straight.kedge")
	require.NoError(t, err)
	p, err := plan.ParsePlan(raw)
	require.NoError(t, err)
	d := plan.Edit(p, "R1")
	d.Site.Obstacles = nil
	m, err := newModel(plan.WithIncident(d.Plan, 0, &plan.Incident{Pins: what, Jerk: plan.Known(0.0)}), "R1", Request{}, nil)
	require.NoError(t, err)
	return m
}

// A straight pull lies on a surface, though the logarithm of its tension over the
// resistance is nought: what follows is what follows where the rig itself is asked in
// each trial.
func TestStraightPullLiesOnASurface(t *testing.T) {
	var got [2]Answer
	for i := range got {
		m := straight(t, plan.Pin{ID: "A", Kind: plan.PinBroken, Thing: "L1", Known: plan.KnownTold})
		require.NotNil(t, m.surface)
		if i == 1 {
			m.surface = nil
		}
		in := m.incident(&Reconstruction{})
		in.Slow = false // the same trials
		s, err := Take(in, 256, 3, 2)
		require.NoError(t, err)
		got[i] = s.Answer()
	}
	require.Len(t, got[0].Candidates, len(got[1].Candidates))
	for i, c := range got[0].Candidates {
		want := got[1].Candidates[i]
		if want.Posterior.Value < 0.001 {
			break
		}
		assert.Equal(t, want.Part+want.Way, c.Part+c.Way)
		assert.InEpsilon(t, want.Posterior.Value, c.Posterior.Value, 0.02)
	}
	assert.InEpsilon(t, got[1].TensionN.Value, got[0].TensionN.Value, 0.002)
}

// What slides fails nothing: it keeps no rig from its surface, but where it left a trace.
func TestWhatSlidesNeedsNoSurface(t *testing.T) {
	slide := slices.IndexFunc(straight(t).groups, func(g group) bool { return g.yields })
	require.GreaterOrEqual(t, slide, 0)
	for kind, want := range map[string]float64{plan.PinBroken: math.Inf(1), plan.PinSkid: 0.005 * 0.1} {
		m := straight(t, plan.Pin{ID: "A", Kind: kind, Thing: "V2", Length: plan.Known(quantity.Length(0.1))})
		assert.Equal(t, want, m.mayBeOut(rigAnswers+slide, 0.1), kind)
		assert.Equal(t, 0.005*0.1, m.mayBeOut(rigAnswers, 0.1), kind)
	}
}
