package report_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/canvas/report"
	"kedge/solver/doubt"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// rut is one that the casualty of Curlew Moss left, or another vehicle.
func rut(id, of plan.ID, known string, m quantity.Length) plan.Pin {
	return plan.Pin{ID: id, Kind: plan.PinRut, Thing: of, Known: known, Length: plan.Known(m)}
}

// atFord is what may have happened at the ford with ruts, in their order, and with a way
// out of that length.
func atFord(t *testing.T, way quantity.Length, ruts ...plan.Pin) *report.Report {
	t.Helper()
	return found(t, "ford", 64, func(p *plan.Plan) *plan.Plan {
		p.Casualty().Stuck.WayLength = way
		for _, q := range ruts {
			p = plan.WithPin(p, 0, q)
		}
		return p
	})
}

// whyOf is why a pin weighs nothing.
func whyOf(a *report.Report, id plan.ID) string {
	for i := range a.Found.Pins {
		if u := &a.Found.Pins[i]; u.Pin.ID == id {
			return u.Why
		}
	}
	return "no such pin"
}

// Two observed ruts that cannot both be right have no answer, whichever is entered first,
// and both are named; with a way out and without.
func TestTwoRutsThatDifferHaveNoAnswer(t *testing.T) {
	x, y := rut("X", "V1", plan.KnownObserved, 1), rut("Y", "V1", plan.KnownObserved, 5)
	for _, a := range []*report.Report{atFord(t, 6, y, x), atFord(t, 0, x, y), atFord(t, 0, y, x)} {
		assert.False(t, a.Answered())
		assert.False(t, a.Settled())
		assert.Zero(t, a.AtM)
		said := strings.Join(a.Cautions(), "\n")
		assert.Regexp(t, `contradict one another: [XY]\b.* and [XY]\b`, said)
	}
}

// Of two that differ by less than either is out, neither is exact: both weigh where the
// pull is followed.
func TestTwoRutsThatHardlyDifferBothWeigh(t *testing.T) {
	a := atFord(t, 6, rut("X", "V1", plan.KnownObserved, 1), rut("Y", "V1", plan.KnownObserved, 1.5))
	assert.Equal(t, []string{"", ""}, []string{whyOf(a, "X"), whyOf(a, "Y")})
	same := atFord(t, 0, rut("X", "V1", plan.KnownObserved, 1.5), rut("Y", "V1", plan.KnownObserved, 1.5))
	assert.Equal(t, 1.5, same.AtM, "both say the same")
}

// Where the casualty was is said by its own ruts alone.
func TestARutOfAnotherVehicleSaysNothingOfThePlace(t *testing.T) {
	x, y, z := rut("X", "V2", plan.KnownObserved, 3), rut("Y", "", plan.KnownObserved, 5), rut("Z", "V1", plan.KnownObserved, 3)
	a := atFord(t, 0, x, y)
	assert.Zero(t, a.AtM)
	assert.Equal(t, []string{doubt.NotCasualty, doubt.NotCasualty}, []string{whyOf(a, "X"), whyOf(a, "Y")})
	a = atFord(t, 0, x, y, z)
	assert.Equal(t, 3.0, a.AtM)
	assert.Contains(t, strings.Join(a.Cautions(), "\n"), "at 3.0\u00a0m, as if it began there")
	assert.NotContains(t, strings.Join(a.Cautions(), "\n"), "contradict")
}

// What is only told of the place, or known to a range, sets none where the pull is not
// followed: told, it is said not to be used; observed, there is no answer.
func TestARutThatIsNotExactSetsNoPlace(t *testing.T) {
	ranged := rut("X", "V1", plan.KnownObserved, 3)
	ranged.Doubts = []plan.Doubt{{Member: "trace_m", Low: 2.5, High: 3.5}}
	for _, q := range []plan.Pin{rut("X", "V1", plan.KnownTold, 3), ranged} {
		a := atFord(t, 0, q)
		assert.Zero(t, a.AtM)
		assert.Equal(t, doubt.Unplaced, whyOf(a, "X"))
		assert.Contains(t, strings.Join(a.Cautions(), "\n"), "Enter how far the casualty has to go")
		assert.Equal(t, q.Known == plan.KnownTold, a.Answered())
	}
	assert.Empty(t, whyOf(atFord(t, 6, rut("X", "V1", plan.KnownTold, 3)), "X"), "it weighs where the pull is followed")
	beside := atFord(t, 0, rut("Z", "V1", plan.KnownAssumed, 3), rut("X", "V1", plan.KnownTold, 5), rut("Y", "V1", plan.KnownObserved, 1))
	assert.Equal(t, 1.0, beside.AtM)
	assert.Equal(t, []string{doubt.PlaceKnown, doubt.SetsPlace}, []string{whyOf(beside, "X"), whyOf(beside, "Y")})
	assert.Contains(t, strings.Join(beside.Cautions(), "\n"), "contradict one another")
	assert.NotContains(t, strings.Join(beside.Cautions(), "\n"), "how far the casualty")
}

// A rut of an earlier pull says nothing of this one, and no more does gear that was found
// whole after it.
func TestWhatIsOfAnEarlierPullSaysNothingOfThisOne(t *testing.T) {
	x := rut("X", "V1", plan.KnownObserved, 3)
	y := plan.Pin{ID: "Y", Kind: plan.PinBroken, Thing: "L1", Known: plan.KnownObserved, Earlier: true}
	x.Earlier = true
	a := atFord(t, 0, x, y)
	assert.Zero(t, a.AtM)
	assert.Equal(t, []string{doubt.OfEarlier, doubt.OfEarlier}, []string{whyOf(a, "X"), whyOf(a, "Y")})
	assert.NotContains(t, strings.Join(a.Cautions(), "\n"), "contradict")
}

// A trace that is longer than the way out contradicts the plan: that is said, also of one
// that was only told.
func TestARutBeyondTheWayOutIsSaid(t *testing.T) {
	skid := rut("S", "V2", plan.KnownTold, 4)
	skid.Kind = plan.PinSkid
	a := atFord(t, 2, rut("X", "V1", plan.KnownTold, 4), rut("Y", "V2", plan.KnownObserved, 4), rut("Z", "V1", plan.KnownTold, 2.4), skid)
	said := strings.Join(a.Cautions(), "\n")
	assert.Contains(t, said, "farther than the casualty has to go by the plan")
	assert.Equal(t, 1, strings.Count(said, "farther than the casualty has to go"), "of X alone")
}
