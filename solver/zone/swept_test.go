package zone_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
	"kedge/solver/zone"
)

func squareAt(x, side float64) []plan.Point {
	return []plan.Point{{X: x}, {X: x + side}, {X: x + side, Y: side}, {X: x, Y: side}}
}

// A square of 2 m that goes 5 m to the east covers 2·(2 + 5) m². (closed form)
func TestASweptSquare(t *testing.T) {
	var atM []float64
	var moments [][]part.Zone
	for s := 0.0; s <= 5; s += 0.25 {
		atM = append(atM, s)
		moments = append(moments, []part.Zone{
			{Kind: part.ZoneTree, Thing: "T1", Outline: squareAt(40, 3)},
			{Kind: part.ZoneRecoil, Thing: "L1", Outline: squareAt(s, 2), Radius: 1, Fact: "recoil"},
		})
	}
	got := zone.Swept(atM, moments)
	require.Len(t, got, 2)
	assert.Equal(t, moments[0][0], got[0], "what stays is as it was")
	assert.Equal(t, part.ZoneRecoil, got[1].Kind)
	assert.Equal(t, "recoil", got[1].Fact)
	assert.InDelta(t, 14, terrain.Area(got[1].Outline), 1e-9)
}

// Of what is there for a while only, the while is covered; of what turns inwards the
// hull: an L of 2 m by 2 m with legs of 1 m that moves by 0.5 m lies in 2.5 m by 2 m
// without one corner of 1 m by 1 m, halved. (closed form)
func TestSweptPiecesThatComeAndGo(t *testing.T) {
	ell := func(x float64) []plan.Point {
		return []plan.Point{{X: x}, {X: x + 2}, {X: x + 2, Y: 1}, {X: x + 1, Y: 1}, {X: x + 1, Y: 2}, {X: x, Y: 2}}
	}
	moments := [][]part.Zone{
		{{Kind: part.ZoneBight, Thing: "L1", Outline: ell(0)}},
		{{Kind: part.ZoneBight, Thing: "L1", Outline: ell(0.5)}, {Kind: part.ZoneSlide, Thing: "V1", Outline: squareAt(9, 1)}},
		{{Kind: part.ZoneSlide, Thing: "V1", Outline: squareAt(9.5, 1)}},
	}
	area := map[part.ZoneKind]float64{}
	for _, z := range zone.Swept([]float64{0, 0.5, 1}, moments) {
		area[z.Kind] += terrain.Area(z.Outline)
	}
	assert.InDelta(t, 2.5*2-0.5, area[part.ZoneBight], 1e-9)
	assert.InDelta(t, 1.5, area[part.ZoneSlide], 1e-9)
}
