package gear_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/quantity"
)

// at half of what a part gives at CAUTION (MGN 592), at three quarters WARNING,
// at all of its low end DANGER [ours].
func TestStallLevels(t *testing.T) {
	for _, tt := range []struct {
		load  quantity.Force
		level part.Level
		id    string
	}{
		{49.9, part.Notice, ""}, {50, part.Caution, "stall-near"}, {74.9, part.Caution, "stall-near"},
		{75, part.Warning, "stall-near"}, {99.9, part.Warning, "stall-near"},
		{100, part.Danger, "stall-breaks"}, {300, part.Danger, "stall-breaks"}, {quantity.Force(nan), part.Danger, "stall-breaks"},
	} {
		var found []part.Finding
		stallOf(tt.load*kN, 100*kN)(&found)
		if tt.id == "" {
			assert.Empty(t, found, "%v", tt.load)
			continue
		}
		require.Len(t, found, 1, "%v", tt.load)
		assert.Equal(t, tt.id, found[0].ID, "%v", tt.load)
		assert.Equal(t, tt.level, found[0].Level, "%v", tt.load)
	}
	// The low end counts, not the likely one.
	var found []part.Finding
	gear.StallCheck("V1", []part.Part{{Kind: part.KindAnchor, Stall: part.Load{Known: true, Force: 60},
		Ultimate: part.Range{Known: true, Low: 60, Likely: 200, High: 400}}}, &found)
	require.Len(t, found, 1)
	assert.Equal(t, part.Danger, found[0].Level)
}

// An ordinary winch and its ordinary line are no WARNING: 4.3 t rated, stalling
// at 1.3 of that [ours], with a new 10 mm HMPE line of 95 kN that keeps 0.9 at
// its splice: 54.6 of 85.5 kN.
func TestOrdinaryWinchAndLine(t *testing.T) {
	stall := gear.StallPull(winch())
	l := hmpe()
	l.Rating = breaking(95)
	c := gear.Stretch(gear.StretchIn{Line: l, OnWinch: true, End: true}, nil, nil)
	var found []part.Finding
	stallOf(stall.High, c.Ultimate.Low)(&found)
	level, raised := levelOf(found, "stall-near")
	assert.True(t, raised)
	assert.Equal(t, part.Caution, level)
}

// What a finding asks for clears it: a part that gives at more than what it says.
func TestStallIsClearedByWhatItAsksFor(t *testing.T) {
	for _, load := range []quantity.Force{50, 60, 75, 100, 250} {
		var found, after []part.Finding
		stallOf(load*kN, 100*kN)(&found)
		require.Len(t, found, 1, "%v", load)
		var wants float64
		for _, v := range found[0].Values {
			if v.Name == "wants" {
				wants = v.X
			}
		}
		require.Positive(t, wants)
		stallOf(load*kN, quantity.Force(wants*1.001))(&after)
		assert.Empty(t, after, "%v", load)
		stallOf(load*kN, quantity.Force(wants*0.999))(&after)
		assert.NotEmpty(t, after, "%v: it asks for no more than it needs", load)
	}
}
