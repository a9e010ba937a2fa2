package gear_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/gear"
	"kedge/solver/plan"
)

// Where two sources disagree, or a figure is a range, the end that errs on the
// conservative side counts.

// What may be a ring counts as one; a ring has no efficiency, so what has one is none.
func TestWhatCountsAsARing(t *testing.T) {
	for _, tt := range []struct {
		kind       string
		efficiency float64
		want       bool
	}{
		{plan.BlockRing, 0, true}, {plan.BlockRoller, 0, false}, {plan.BlockPlain, 0, false},
		{plan.BlockUnknown, 0, true}, {"another", 0, true}, {plan.BlockUnknown, 0.9, false}, {plan.BlockUnknown, 1.2, true},
	} {
		assert.Equal(t, tt.want, gear.CountsAsRing(&plan.Block{Kind: tt.kind, Efficiency: tt.efficiency}), "%+v", tt)
	}
}

// The end of friction that loads a part most is not the same for each: both are
// given, and a figure that somebody typed is both.
func TestFrictionHasTwoEnds(t *testing.T) {
	for _, tt := range []struct {
		kind      string
		low, high float64
		source    string
	}{
		{plan.BlockPlain, 0.917, 0.98, "1/1.09 (pipeline handbook p. 6); a loss of 2 % (rigger's textbook p. 35)"},
		{plan.BlockRoller, 0.962, 0.98, "1/1.04 (same); the same loss"},
	} {
		b := &plan.Block{Kind: tt.kind}
		inDelta(t, tt.low, gear.SheaveEfficiency(b), 1e-12, tt.source)
		inDelta(t, tt.high, gear.SheaveEfficiencyHigh(b), 1e-12, tt.source)
		b.Efficiency = 0.95
		assert.Equal(t, 0.95, gear.SheaveEfficiency(b))
		assert.Equal(t, 0.95, gear.SheaveEfficiencyHigh(b), "typed")
		b.Efficiency = 1.2 // cannot be: the handbook's
		inDelta(t, tt.high, gear.SheaveEfficiencyHigh(b), 1e-12, tt.source)
	}
	for _, tt := range []struct {
		material  string
		low, high float64
		source    string
	}{
		{plan.MaterialHMPE, 0.05, 0.12, "HMPE on polished metal, from memory"},
		{plan.MaterialNylon, 0.10, 0.25, "polyester or nylon in a ring, from memory"},
		{plan.MaterialKinetic, 0.10, 0.25, "as nylon"},
		{plan.MaterialFibre, 0.10, 0.25, "as nylon"},
		{plan.MaterialWire, 0.05, 0.50, "no row of its own: the lowest and the highest there is"},
		{"", 0.05, 0.50, "not known: the same"},
	} {
		ring, l := &plan.Block{Kind: plan.BlockRing}, &plan.Line{Material: tt.material}
		inDelta(t, tt.low, gear.RingFrictionLow(ring, l), 1e-12, "%s: %s", tt.material, tt.source)
		inDelta(t, tt.high, gear.RingFriction(ring, l), 1e-12, "%s: %s", tt.material, tt.source)
		ring.Friction = 0.3
		assert.Equal(t, 0.3, gear.RingFriction(ring, l))
		assert.Equal(t, 0.3, gear.RingFrictionLow(ring, l), "typed")
	}
	inDelta(t, 0.5, gear.BareFriction(), 1e-12, "trunk and rock 0.2 to 0.5 [ours]")
	inDelta(t, 0.05, gear.BareFrictionLow(), 1e-12, "an eye or shackle is as slippery as a ring")
}

// An HMPE splice keeps 90 % (OCIMF, Table 6.5 note) unless the tag is of the
// spliced line (0027/ND 7.7: 1.0 when tested with the splice).
func TestSpliceInHMPE(t *testing.T) {
	l := hmpe()
	in := gear.StretchIn{Line: l, OnWinch: true, End: true}
	inDelta(t, 0.90*45e3, float64(gear.Stretch(in, nil, nil).Limit.Force), 1e-6)
	l.End = "end.hmpe-splice-tested"
	inDelta(t, 45e3, float64(gear.Stretch(in, nil, nil).Limit.Force), 1e-6)
}

// A knot that two sources give keeps the lower: clove hitch 60 to 65 % and 75 %,
// bowline 70 to 75 % and 60 %.
func TestKnotsOfTwoSources(t *testing.T) {
	for knot, share := range map[string]float64{
		"knot.clove-hitch": 0.60, "knot.clove-2": 0.60, "clove-hitch": 0.60, "knot.bowline": 0.60, "knot.bowline-2": 0.60,
	} {
		l := hmpe()
		l.Material, l.Knots = plan.MaterialPolyester, []string{knot}
		c := gear.Stretch(gear.StretchIn{Line: l, OnWinch: true}, nil, nil)
		require.True(t, c.Limit.Known, knot)
		inDelta(t, share*45e3, float64(c.Limit.Force), 1e-6, knot)
		l.Knots, l.End = nil, knot
		c = gear.Stretch(gear.StretchIn{Line: l, OnWinch: true, End: true}, nil, nil)
		inDelta(t, share*45e3, float64(c.Limit.Force), 1e-6, knot)
	}
}
