package words

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// What goes first and what breaks first are named whatever it is, and what is not known
// is never passed over: a part of unknown strength leaves nothing to be said of breaking
// below stall. The forces are typed, a limit rounds down.
func TestCellsNameWhatGoesFirst(t *testing.T) {
	w, names := english(t, quantity.Metric), called("V2", "Truck", "L1", "Line", "T1", "Tree 1", "K1", "Shackle 1")
	pull := func(slides, parts quantity.Force, may ...int) *solver.Assessment {
		return &solver.Assessment{Status: part.Within, Stall: solver.Pull{Known: true, Tension: 54_600},
			Parts: []part.Part{{ID: "V2/slide", Kind: part.KindSlide, Thing: "V2"}, {ID: "T1", Kind: part.KindAnchor, Thing: "T1"}, {ID: "K1", Kind: part.KindShackle, Thing: "K1"}},
			Order: []solver.Failing{{Part: 0, Tension: slides, Beyond: slides > 54_600}, {Part: 1, Tension: parts, Beyond: parts > 54_600}}, MayGive: may}
	}
	for _, c := range []struct {
		name          string
		a             *solver.Assessment
		first, breaks string
	}{
		{"slides, then nothing", pull(2_290, 60_000), "Truck sliding, 2.2 kN", "nothing below stall (54.6 kN)"},
		{"slides, then breaks", pull(2_290, 40_000), "Truck sliding, 2.2 kN", "Tree 1, 40.0 kN"},
		{"only beyond stall", pull(55_000, 60_000), "Truck sliding, 55.0 kN, above stall", "nothing below stall (54.6 kN)"},
		{"a strength not known", pull(2_290, 60_000, 2), "Truck sliding, 2.2 kN", "not known: Shackle 1"},
		{"two strengths not known", pull(2_290, 60_000, 1, 2), "Truck sliding, 2.2 kN", "not known of 2 parts"},
		{"breaks, or what is not known", pull(2_290, 40_000, 2), "Truck sliding, 2.2 kN", "Tree 1, 40.0 kN (or what is not known)"},
		{"not computed", &solver.Assessment{Status: part.Refused}, "not computed", "not computed"},
		{"no answer", nil, "not computed", "not computed"},
		{"by itself", &solver.Assessment{Findings: []part.Finding{{ID: "rolls-by-itself", Level: part.Danger, Things: []plan.ID{"V2"}}}}, "Truck, by itself", "not computed"},
	} {
		cells := w.Cells(c.a, names)
		assert.Equal(t, c.first, plain(cells.First), c.name)
		assert.Equal(t, c.breaks, plain(cells.Breaks), c.name)
	}
	open := pull(2_290, 60_000)
	open.Parts[2].Status = part.Undecided
	assert.Equal(t, "Truck sliding, 2.2 kN (or what is not known)", plain(w.Cells(open, names).First))
	assert.NotContains(t, w.Cells(open, names).Breaks, "nothing")
}

func TestCellsCountPeople(t *testing.T) {
	w := english(t, quantity.Metric)
	people := func(all ...solver.PersonAt) string {
		return plain(w.Cells(&solver.Assessment{People: all}, called()).People)
	}
	in := solver.PersonAt{Zoned: true, Inside: []part.ZoneKind{part.ZoneBight, part.ZoneStandOff}}
	ring := solver.PersonAt{Zoned: true, Inside: []part.ZoneKind{part.ZoneStandOff}}
	assert.Equal(t, "none drawn", people())
	assert.Equal(t, "1 in stand-off", people(ring))
	assert.Equal(t, "1 in keep-out, 2 in stand-off, 1 outside the drawn zones", people(ring, solver.PersonAt{Zoned: true}, in, ring))
	assert.Equal(t, "2 where not all zones are computed", people(solver.PersonAt{}, solver.PersonAt{Zoned: true, Partly: true}))
	assert.Equal(t, "1 in keep-out", people(solver.PersonAt{Partly: true, Inside: []part.ZoneKind{part.ZoneRecoil}}))
}
