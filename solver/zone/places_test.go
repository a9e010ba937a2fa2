package zone_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/zone"
)

// A wall lies between winch and casualty: both are seen from beside its ends alone, and who
// stands beside the one may not see who stands beside the other. Each operator's place is in
// sight of each spotter's all the same: by points along the way between, not as the search asks.
// What shuts the sight of all places offers none.
func TestPlacesSeeEachOther(t *testing.T) {
	box := func(x0, y0, x1, y1 float64) []plan.Point {
		return []plan.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
	}
	wall := plan.Obstacle{Head: plan.Head{ID: "O1"}, Outline: box(-7, -1, 7, 1)}
	in := zone.PeopleIn{
		Zones:     []part.Zone{{Kind: part.ZoneBight, Outline: box(-8, -8, 8, 8)}},
		Obstacles: []plan.Obstacle{wall},
		Controls:  []zone.Control{{Vehicle: "V2", At: plan.Point{Y: -6}, Kind: plan.ControlWireless}},
	}
	casualty := []plan.Point{{Y: 6}}
	at := zone.FindPlaces(in, casualty)
	require.NotEmpty(t, at.Operators)
	require.NotEmpty(t, at.Spotters)
	for _, o := range at.Operators {
		for _, s := range at.Spotters {
			for k := range 401 {
				f := float64(k) / 400
				x, y := o.X+f*(s.X-o.X), o.Y+f*(s.Y-o.Y)
				require.False(t, x > -7 && x < 7 && y > -1 && y < 1, "%v and %v have the wall between them", o, s)
			}
		}
	}
	in.Obstacles[0].Outline = box(-90, -1, 90, 1)
	assert.Empty(t, zone.FindPlaces(in, casualty).Operators, "nobody sees both")
	in.Obstacles[0].SeeOver = true
	assert.NotEmpty(t, zone.FindPlaces(in, casualty).Operators)
	in.Controls[0].Kind, in.Controls[0].CableM = plan.ControlCable, 1
	assert.Empty(t, zone.FindPlaces(in, casualty).Operators, "the cable ends inside the zone")
}

// Water that hides nothing is no place to stand: where it lies over the places that were
// offered, others are, outside of it and 2 m away (ours: a step or two).
func TestNobodyIsPlacedInWater(t *testing.T) {
	square := func(x, y, half float64) []plan.Point {
		return []plan.Point{{X: x - half, Y: y - half}, {X: x + half, Y: y - half}, {X: x + half, Y: y + half}, {X: x - half, Y: y + half}}
	}
	in := zone.PeopleIn{
		Zones:    []part.Zone{{Kind: part.ZoneBight, Outline: square(0, 0, 8)}},
		Controls: []zone.Control{{Vehicle: "V2", At: plan.Point{Y: -6}, Kind: plan.ControlWireless}},
	}
	casualty := []plan.Point{{Y: 6}}
	before := zone.FindPlaces(in, casualty)
	require.NotEmpty(t, before.Operators)
	for _, p := range append(before.Operators, before.Spotters...) {
		in.Obstacles = append(in.Obstacles, plan.Obstacle{Head: plan.Head{ID: "O1"}, Outline: square(p.X, p.Y, 1), SeeOver: true})
	}
	after := zone.FindPlaces(in, casualty)
	require.NotEmpty(t, after.Operators)
	for _, p := range append(after.Operators, after.Spotters...) {
		for _, o := range in.Obstacles {
			middle := o.Outline[0].Plus(1, 1)
			assert.GreaterOrEqual(t, max(math.Abs(p.X-middle.X), math.Abs(p.Y-middle.Y)), 1+2.0, "%v", p)
		}
	}
}
