package words

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

func wayNames(id plan.ID) string {
	return map[plan.ID]string{"T1": "Tree 1", "T2": "Tree 2", "T3": "Tree 3", "O1": "Boulder 1", "V2": "Winch vehicle", "L1": "Line"}[id]
}

func TestWayNames(t *testing.T) {
	w := english(t, quantity.Metric)
	for _, tt := range []struct {
		kind string
		over []plan.ID
		end  plan.ID
		want string
	}{
		{layout.Straight, nil, "", "Straight"},
		{layout.Redirect, []plan.ID{"T1"}, "", "Over Tree 1"},
		{layout.Redirect, []plan.ID{"T1", "T2"}, "", "Over Tree 1, then Tree 2"},
		{layout.Doubled, nil, "V2", "Doubled, end at Winch vehicle"},
		{layout.Doubled, []plan.ID{"T1"}, "T2", "Doubled over Tree 1, end at Tree 2"},
	} {
		assert.Equal(t, tt.want, w.Way(tt.kind, tt.over, tt.end, wayNames))
	}
}

// The storyboard's sentence, and no sentence that contradicts itself: just under
// the clearance wanted, both lengths have two decimals.
func TestWhyNoWay(t *testing.T) {
	w := english(t, quantity.Metric)
	near := func(clearM float64) layout.Reason {
		return layout.Reason{ID: layout.ReasonNear, Thing: "O1", Values: []part.Value{
			{Name: "clear", Unit: part.UnitLength, X: clearM}, {Name: "want", Unit: part.UnitLength, X: float64(layout.WantClear)}}}
	}
	for _, tt := range []struct {
		reason layout.Reason
		want   string
	}{
		{near(0.389), "passes 0.4 m from Boulder 1, needs 1.0 m"},
		{near(0.96), "passes 0.96 m from Boulder 1, needs 1.00 m"},
		{near(0.9999), "passes 0.99 m from Boulder 1, needs 1.00 m"},
		{layout.Reason{ID: layout.ReasonShort, Thing: "L1", Values: []part.Value{{Name: "missing", Unit: part.UnitLength, X: 3.14}}}, "Line too short by 3.2 m"},
		{layout.Reason{ID: layout.ReasonWeak, Values: []part.Value{{Name: "need", Unit: part.UnitForce, X: 60010}, {Name: "stall", Unit: part.UnitLimit, X: 54690}}},
			"needs 60.1 kN at the winch, which stalls at 54.6 kN"},
		{layout.Reason{ID: layout.ReasonIsEnd, Thing: "T1"}, "the line ends there already"},
		{layout.Reason{ID: layout.ReasonNotReached}, "not tried: 200 rigs were"},
		{layout.Reason{ID: layout.ReasonRefused, Finding: &part.Finding{ID: "line-bears", Things: []plan.ID{"L1", "O1"}, Values: []part.Value{
			{Name: "from", Unit: part.UnitLength, X: 9.1}, {Name: "to", Unit: part.UnitLength, X: 13.8}}}},
			"Line bears on Boulder 1 from 9.1 to 13.8 m from the winch. Not computed"},
	} {
		assert.Equal(t, tt.want, quantity.PlainSpaces(w.WhyNoWay(&layout.Left{Reasons: []layout.Reason{tt.reason}}, wayNames)))
	}
	assert.NotContains(t, w.WhyNoWay(&layout.Left{Reasons: []layout.Reason{{ID: layout.ReasonUnsolved}}}, nil), "[")
}

func TestWayLists(t *testing.T) {
	w := english(t, quantity.Metric)
	assert.Equal(t, "1 DANGER, 3 NOTICE", plain(w.WayFindings([4]int{part.Danger: 1, part.Notice: 3})))
	assert.Equal(t, "no finding", w.WayFindings([4]int{}))
	for _, why := range []string{layout.WhyEntangled, layout.WhyNoCasualty, layout.WhyNoFarEnd, layout.WhyNoWinch} {
		assert.NotContains(t, w.NoWay(&layout.Proposal{Why: why}), "[")
	}
	assert.Contains(t, w.NoWay(&layout.Proposal{Left: []layout.Left{{Kind: layout.Straight}}}), "Place a tree")
	assert.Contains(t, quantity.PlainSpaces(w.NoWay(&layout.Proposal{Left: []layout.Left{{Over: []plan.ID{"T1"}}}})), "keep 1.0 m from every obstacle")
	assert.Empty(t, w.NoWay(&layout.Proposal{Ways: make([]layout.Way, 1)}))
	assert.Len(t, w.WaysRest(&layout.Proposal{More: 2, Untried: 5, Tried: 300}), 3)
	assert.Empty(t, w.WaysRest(&layout.Proposal{Why: layout.WhyNoWinch}))
	assert.Contains(t, w.WaysRest(&layout.Proposal{WayOut: 6})[0], "followed over")
	assert.Empty(t, w.WayLasts(&layout.Way{Lasts: 6}, 6, wayNames))
	assert.Equal(t, "lasts 2.9 m of 6.0 m of exit path, then: the line ends there already",
		plain(w.WayLasts(&layout.Way{Lasts: 2.99, Then: []layout.Reason{{ID: layout.ReasonIsEnd}}}, 6, wayNames)))
}
