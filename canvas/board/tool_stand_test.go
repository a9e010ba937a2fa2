package board_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// Where to stand shows places of both roles and dims the keep-out; a click puts somebody
// there in one undo step, who is then in no zone; the keys do the same.
func TestWhereToStand(t *testing.T) {
	h := sit(t, seeded.Example(t, "redirect"))
	h.do("stand")
	require.Equal(t, board.ToolStand, h.b.Tool())
	o := h.b.Overlay()
	assert.True(t, o.Dim)
	require.NotEmpty(t, o.Places)
	roles := map[string]plan.Point{}
	for _, m := range o.Places {
		x, y := h.b.View().ToPen(m.At)
		assert.True(t, x > 0 && y > 0 && x < h.b.View().W && y < h.b.View().H, "it is in sight")
		if _, seen := roles[m.Role]; !seen {
			roles[m.Role] = m.At
		}
	}
	require.Len(t, roles, 2)
	assert.Equal(t, []string{"stand-off"}, insideOf(h, plan.RoleOperator), "as the example has it")

	before, people := h.b.Plan(), len(h.b.Plan().Site.People)
	click := func(at plan.Point) { h.click(at.X, at.Y) }
	click(roles[plan.RoleOperator])
	assert.Len(t, h.b.Plan().Site.People, people, "who is there is put elsewhere")
	assert.Empty(t, insideOf(h, plan.RoleOperator))
	click(roles[plan.RoleSpotter])
	assert.Len(t, h.b.Plan().Site.People, people+1, "who is not there comes")
	assert.Empty(t, insideOf(h, plan.RoleSpotter))
	h.b.Undo()
	h.b.Undo()
	assert.Same(t, before, h.b.Plan(), "each is one step")
	h.keys("<Escape>")
	assert.Equal(t, board.ToolSelect, h.b.Tool())
	assert.False(t, h.b.Overlay().Dim)
}

func insideOf(h *hand, role string) []string {
	for _, q := range h.b.Answer().People {
		for _, x := range h.b.Plan().Site.People {
			if x.ID == q.Person && x.Role == role {
				var all []string
				for _, k := range q.Inside {
					all = append(all, string(k))
				}
				return all
			}
		}
	}
	return nil
}

// Without zones nobody is offered a place: the status line says why.
func TestWhereToStandWithoutZones(t *testing.T) {
	h := sit(t, seeded.Example(t, "redirect"))
	h.b.ShowRig("R2") // its line bears on the boulder
	h.do("stand")
	assert.Empty(t, h.b.Overlay().Places)
	assert.Contains(t, h.b.Prompt(), "Not all zones are computed")
}
