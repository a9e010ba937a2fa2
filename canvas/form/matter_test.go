package form

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

// What matters of a thing are at most eight of its fields, and they are there; mass, how it
// stands, and what holds are among them. (six to eight: ours)
func TestWhatMattersIsThere(t *testing.T) {
	p, rig := sample(t), sample(t).Rigs[0].ID
	var things []plan.ID
	for _, v := range p.Site.Vehicles {
		things = append(things, v.ID)
	}
	kinds := slices.Clone(plan.AnchorKinds)
	for i := range kinds { // one of each
		a := p.Site.Anchors[0]
		a.ID, a.Kind = plan.ID("X"+string(rune('a'+i))), kinds[i].Word
		p.Site.Anchors = append(p.Site.Anchors[:len(p.Site.Anchors):len(p.Site.Anchors)], a)
		things = append(things, a.ID)
	}
	r := &p.Rigs[0]
	things = append(things, p.Site.Obstacles[0].ID, p.Site.People[0].ID, r.Lines[0].ID, r.Blocks[0].ID, r.Slings[0].ID, r.Shackles[0].ID, r.ID, ThingGround, ThingSheet)
	for _, id := range things {
		kind, members := Mattering(p, rig, id)
		assert.NotEmpty(t, kind, id)
		assert.NotEmpty(t, members, id)
		assert.LessOrEqual(t, len(members), 9, id)
		fields := Fields(p, rig, id, nil, inWords(t, 0))
		for i, m := range members {
			named(t, fields, m)
			assert.NotContains(t, members[:i], m, id)
		}
	}
}

// A member of several things is set for all of them or for none; the fields that they
// share have the value that is that of all, and no other.
func TestSeveralAreSetTogether(t *testing.T) {
	p := sample(t)
	rig, ids := p.Rigs[0].ID, []plan.ID{"T1", "T2"}
	w := inWords(t, 0)
	require.NotEqual(t, p.Site.Anchors[0].Girth, p.Site.Anchors[1].Girth)
	girth := named(t, Shared(p, rig, ids, nil, w), "girth_m")
	assert.True(t, girth.Differs)
	assert.Empty(t, girth.Value)
	q, name, err := SetAll(p, rig, ids, "girth_m", "1.6 m", w)
	require.NoError(t, err)
	assert.Equal(t, "Girth 1.3 m up of the 2 selected", name)
	for i := range 2 {
		closeTo(t, 1.6, float64(q.Site.Anchors[i].Girth))
	}
	assert.Equal(t, p.Site.Anchors[2], q.Site.Anchors[2])
	girth = named(t, Shared(q, rig, ids, nil, w), "girth_m")
	assert.False(t, girth.Differs)
	assert.Equal(t, "160", girth.Value)

	same, _, err := SetAll(p, rig, ids, "girth_m", "wide", w)
	require.Error(t, err)
	assert.Same(t, p, same)
	assert.Nil(t, Shared(p, rig, []plan.ID{"T1", "V1"}, nil, w), "of several kinds")
	for _, f := range Shared(p, rig, ids, nil, w) {
		assert.NotContains(t, []string{"name", "at/x_m", "at/y_m"}, f.Member)
	}
}
