package window

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// tiedFile is the file of a plan with tie-backs and a hold-back whose casualty takes
// 15.4 kN to break loose and 9.0 to move, changed.
func tiedFile(t *testing.T, change func(p *plan.Plan)) string {
	t.Helper()
	p := seeded.Read(t, os.DirFS("../../testdata"), "held.kedge")
	change(p)
	return planFile(t, p)
}

// planFile is a file of a plan.
func planFile(t *testing.T, p *plan.Plan) string {
	t.Helper()
	data, err := plan.FormatPlan(p)
	require.NoError(t, err)
	file := filepath.Join(t.TempDir(), "made"+extension)
	require.NoError(t, os.WriteFile(file, data, 0o600))
	return file
}

// The pull that breaks loose has a column where it asks more than that to move,
// sorted by like the others, and a row in the comparison.
func TestLoadsPanelHasThePullToBreakLoose(t *testing.T) {
	s := sitAt(t, 1440, 900, tiedFile(t, func(*plan.Plan) {}))
	assert.Contains(t, flat(s.loads.pane), "part move break loose stall limit of limit")
	assert.Contains(t, flat(s.loads.pane), "Line 2, tie-back to Tree 2")
	assert.Contains(t, flat(s.loads.pane), "15.4")
	s.click(s.loads.pane, "sort loosen")
	first := ""
	for _, h := range s.loads.pane.Hits {
		if first == "" && len(h.ID) > 5 && h.ID[:5] == "part " {
			first = h.ID[5:]
		}
	}
	p, ok := s.answer().Part(first)
	require.True(t, ok)
	for i := range s.answer().Parts {
		assert.LessOrEqual(t, s.answer().Parts[i].Loosen.Force, p.Loosen.Force)
	}
	s.compare.toggle()
	assert.Contains(t, flat(s.compare.pane), "at the winch, to break loose")

	s = sitAt(t, 1440, 900, tiedFile(t, func(p *plan.Plan) { p.Site.Vehicles[0].Stuck.Breakaway = 1 }))
	assert.Contains(t, flat(s.loads.pane), "part move stall limit of limit")
	assert.NotContains(t, flat(s.loads.pane), "break loose")
	s.compare.toggle()
	assert.NotContains(t, flat(s.compare.pane), "break loose")
}

// A part that only breaking loose brings over its limit says so in its row.
func TestRowSaysWhatIsOverToBreakLoose(t *testing.T) {
	s := sitAt(t, 1440, 900, tiedFile(t, func(p *plan.Plan) { p.Rigs[0].Lines[0].Rating.Force = 40e3 })) // 15.3 kN of it count
	assert.Contains(t, flat(s.loads.pane), "OVER LIMIT, to break loose · half of breaking strength")
	assert.Contains(t, flat(s.frame.tabs), "worst 101 %")
}

// The basis below the loads is the one that the shares count on.
func TestBasisBelowTheLoads(t *testing.T) {
	s := sitAt(t, 1440, 900, tiedFile(t, func(*plan.Plan) {}))
	assert.Contains(t, flat(s.loads.pane), "basis: pulling")
	s = sitAt(t, 1440, 900, tiedFile(t, func(p *plan.Plan) { p.Site.Vehicles[0].Stuck.Overturned = true }))
	assert.Contains(t, flat(s.loads.pane), "basis: lifting")
}

// A tie-back is met and taken hold of where it lies.
func TestTieBackIsSelectedWhereItLies(t *testing.T) {
	s := sitAt(t, 1440, 900, tiedFile(t, func(*plan.Plan) {}))
	for _, st := range s.answer().Stretches {
		s.board.Select(st.Line)
		ends := 0
		for _, h := range s.board.Overlay().Handles {
			if h.Kind == "end" {
				ends++
				atA := h.At.X == st.A.X && h.At.Y == st.A.Y
				atB := h.At.X == st.B.X && h.At.Y == st.B.Y
				assert.True(t, atA || atB, "%s: %v", st.Line, h.At)
			}
		}
		assert.Equal(t, 2, ends, st.Line)
	}
}

// Of a rig that is refused not all zones are drawn: nobody counts as outside of
// them.
func TestNobodyIsOutsideOfMissingZones(t *testing.T) {
	p := seeded.Example(t, "straight")
	p.Site.People[0].At = plan.Point{X: 20, Y: 80}
	s := sitAt(t, 1440, 900, planFile(t, p))
	assert.Contains(t, flat(s.loads.pane), "Operator 1 · not all zones computed")
	assert.NotContains(t, flat(s.loads.pane), "outside")
	s.compare.toggle()
	assert.Contains(t, flat(s.compare.pane), "0 of 1, not all zones computed")
}
