package zone_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
	"kedge/solver/zone"
)

// Ground that is shut in by zones, or by walls and a zone, is a pocket up to the zones; a
// gap that nobody walks through (0.5 m to either side) shuts it in, a wider one does not,
// and walls alone make none. Areas by the corners, in the head.
func TestPockets(t *testing.T) {
	zones := func(of ...[]plan.Point) (all []part.Zone) {
		for _, r := range of {
			all = append(all, part.Zone{Kind: part.ZoneRecoil, Thing: "line", Outline: r})
		}
		return all
	}
	walls := func(of ...[]plan.Point) (all []plan.Obstacle) {
		for i, r := range of {
			all = append(all, plan.Obstacle{Head: plan.Head{ID: plan.ID(rune('a' + i))}, Outline: r})
		}
		return all
	}
	fence := func(gapM float64) []part.Zone {
		return zones(rect(-3, -3, -2, 3), rect(2, -3, 3, 3), rect(-3, -3, 3, -2), rect(-3, 2, -1, 3), rect(-1+gapM, 2, 3, 3))
	}
	west, east, south, north := rect(-3, -3, -2, 3), rect(2, -3, 3, 3), rect(-3, -3, 3, -2), rect(-3, 2, 3, 3)
	ring := fence(0)
	for i := range ring {
		ring[i].Kind = part.ZoneStandOff
	}
	for _, c := range []struct {
		what string
		in   zone.PeopleIn
		area float64 // 0: none
	}{
		{"zones all round", zone.PeopleIn{Zones: fence(0)}, 16},
		{"a gap too narrow", zone.PeopleIn{Zones: fence(0.99)}, 9 + 2*(0.5*0.495-math.Pi/16)}, // half a metre from each, round the two corners of the gap
		{"a gap to walk through", zone.PeopleIn{Zones: fence(1.01)}, 0},
		{"three walls and a zone", zone.PeopleIn{Obstacles: walls(west, east, south), Zones: zones(north)}, 16},
		{"two walls and a zone", zone.PeopleIn{Obstacles: walls(west, south), Zones: zones(north)}, 0},
		{"walls alone", zone.PeopleIn{Obstacles: walls(west, east, south, north), Zones: zones(rect(8, 8, 9, 9))}, 0},
		{"a zone in a yard", zone.PeopleIn{Obstacles: walls(west, east, south, north), Zones: zones(rect(0, -3, 1, 3))}, 0},
		// What has three corners shuts in as what has more.
		{"a wedge shuts the gap", zone.PeopleIn{Zones: zones(rect(-3, -3, -2, 3), rect(2, -3, 3, 3), rect(-3, -3, 3, -2), []plan.Point{at(-3, 2), at(3, 2), at(0, 9)})}, 16},
		{"a wedge of wall shuts the gap", zone.PeopleIn{Zones: zones(rect(-3, -3, -2, 3), rect(2, -3, 3, 3), rect(-3, -3, 3, -2)), Obstacles: walls([]plan.Point{at(-3, 2), at(3, 2), at(0, 9)})}, 16},
		{"the ring alone", zone.PeopleIn{Zones: ring}, 0},
		{"nothing", zone.PeopleIn{}, 0},
	} {
		got := zone.Pockets(c.in)
		if c.area == 0 {
			assert.Empty(t, got, c.what)
			continue
		}
		require.Len(t, got, 1, c.what)
		assert.InDelta(t, c.area, terrain.Area(got[0]), 0.003, c.what)
	}
}
