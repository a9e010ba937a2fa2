package solver

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/part"
	"kedge/solver/plan"
)

// A line to a sling round a tree by a shackle, all loaded: whichever has no zone
// of its own or of what it hangs on is named, and people are told that zones
// are missing.
func TestALoadedPartWithoutAZoneIsNamed(t *testing.T) {
	p := plan.New()
	p.Site.Anchors = []plan.Anchor{{Head: plan.Head{ID: "T"}, Kind: plan.AnchorTree, At: plan.Point{X: 9}}}
	r := plan.Rig{
		Lines:    []plan.Line{{Head: plan.Head{ID: "L"}, Path: []plan.Port{{Thing: "B"}, {Thing: "K"}}}},
		Blocks:   []plan.Block{{Head: plan.Head{ID: "B"}}},
		Slings:   []plan.Sling{{Head: plan.Head{ID: "S"}, On: plan.Port{Thing: "T"}, Holds: plan.Port{Thing: "K"}}},
		Shackles: []plan.Shackle{{Head: plan.Head{ID: "K"}, Joins: []plan.Port{{Thing: "S"}, {Thing: "L"}}}},
	}
	loaded := part.Load{Known: true, Force: 1000}
	of := func(kind part.Kind, id plan.ID, l part.Load) part.Part {
		return part.Part{ID: string(id), Kind: kind, Thing: id, Move: l, Status: part.Within}
	}
	parts := func(l part.Load) []part.Part {
		return []part.Part{of(part.KindStretch, "L", l), of(part.KindBlock, "B", l), of(part.KindSling, "S", l), of(part.KindShackle, "K", l), of(part.KindAnchor, "T", l)}
	}
	for _, c := range []struct {
		name  string
		zones []plan.ID
		parts []part.Part
		want  []plan.ID
	}{
		{"all drawn", []plan.ID{"L", "S", "B"}, parts(loaded), nil},
		{"the block by nothing", []plan.ID{"L", "S"}, parts(loaded), nil}, // its line runs through it
		{"no sling", []plan.ID{"L", "B"}, parts(loaded), []plan.ID{"S", "T"}},
		{"no line", []plan.ID{"S", "B"}, parts(loaded), []plan.ID{"L"}},
		{"nothing", nil, parts(loaded), []plan.ID{"L", "B", "S", "K", "T"}},
		{"nothing, at a load nobody knows", nil, parts(part.Load{}), []plan.ID{"L", "B", "S", "K", "T"}},
		{"nothing, without a load", nil, parts(part.Load{Known: true}), nil},
		{"nothing, at stall alone", nil, []part.Part{{ID: "S", Kind: part.KindSling, Thing: "S", Move: part.Load{Known: true}, Stall: loaded}}, []plan.ID{"S"}},
		{"nothing, slack", nil, []part.Part{{ID: "S", Kind: part.KindSling, Thing: "S", Move: loaded, Status: part.Slack}}, nil},
		{"a point of a vehicle", nil, []part.Part{of(part.KindPoint, "V", loaded)}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			rig := r
			a := &zoning{}
			a.notes = &notes{out: &Assessment{Status: part.Within, Parts: c.parts}}
			a.g = &rigging{p: p, r: &rig, things: plan.NewIndex(p, &rig), nodeOf: map[plan.Port]int{}}
			a.g.nodeOf[plan.Port{Thing: "T"}] = a.g.addPoint(0, origin{block: &plan.Block{At: plan.Point{X: 9}}}, plan.Port{Thing: "T"})
			a.g.nodeOf[plan.Port{Thing: "K"}] = a.g.addPoint(0, origin{block: &plan.Block{At: plan.Point{X: 8}}}, plan.Port{})
			for _, id := range c.zones {
				a.out.Zones = append(a.out.Zones, part.Zone{Kind: part.ZoneRecoil, Thing: id})
			}
			a.undrawn()
			var got []plan.ID
			for _, f := range a.out.Findings {
				assert.Equal(t, "zone-not-drawn", f.ID)
				assert.Equal(t, part.Danger, f.Level)
				got = append(got, f.Things[0])
			}
			assert.Equal(t, c.want, got)
			assert.Equal(t, len(c.want) > 0, a.out.ZonesPartly())
		})
	}
}
