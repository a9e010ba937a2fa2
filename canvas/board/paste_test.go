package board_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// withDamper is the redirect with a damper on its first stretch.
func withDamper(t *testing.T) *hand {
	h := redirect(t)
	h.keys("d")
	h.click(27, 12.8)
	require.Len(t, h.b.Plan().Rigs[0].Dampers, 1)
	h.keys("<Escape>", "<Escape>")
	return h
}

// A pasted part never hangs where the original hangs: mounted if its mount was
// pasted too, else on a free mount, or loose where it is seen; what could not be
// seen is left out, and that is said.
func TestPastedParts(t *testing.T) {
	tests := []struct {
		ids  []plan.ID
		want string // after the second paste
		got  func(t *testing.T, p *plan.Plan, r *plan.Rig)
	}{
		{[]plan.ID{"B1"}, "Added: Block 3 (undo: Ctrl+Z)", func(t *testing.T, _ *plan.Plan, r *plan.Rig) {
			require.Len(t, r.Blocks, 3)
			assert.Equal(t, plan.Point{X: 24.75, Y: 17.43}, r.Blocks[1].At)
			assert.Equal(t, plan.Point{X: 25.75, Y: 16.43}, r.Blocks[2].At)
		}},
		{[]plan.ID{"S1"}, "Added: Sling 3 (undo: Ctrl+Z) · hung on Tree 3", func(t *testing.T, _ *plan.Plan, r *plan.Rig) {
			require.Len(t, r.Slings, 3)
			assert.Equal(t, []plan.Port{{Thing: "T2"}, {Thing: "T3"}}, []plan.Port{r.Slings[1].On, r.Slings[2].On}, "the nearest free tree, then the next")
			assert.True(t, r.Slings[1].Holds.IsZero() && r.Slings[2].Holds.IsZero(), "Block 1 keeps its one sling")
		}},
		{[]plan.ID{"K1"}, "not pasted, nothing holds it: Shackle 1. Copy what it hangs on too", func(t *testing.T, _ *plan.Plan, r *plan.Rig) {
			assert.Len(t, r.Shackles, 1)
		}},
		{[]plan.ID{"D1"}, "Added: Damper 3 (undo: Ctrl+Z)", func(t *testing.T, _ *plan.Plan, r *plan.Rig) {
			require.Len(t, r.Dampers, 3)
			for i, d := range r.Dampers { // a metre of 12.48 m apart (storyboard A)
				assert.InDelta(t, r.Dampers[0].Share+float64(i)/12.48, d.Share, 0.01)
				assert.Equal(t, plan.ID("L1"), d.Line)
			}
		}},
		{[]plan.ID{"B1", "S1", "K1"}, "Added: Block 3, Sling 3 and Shackle 3 (undo: Ctrl+Z) · hung on Tree 3", func(t *testing.T, _ *plan.Plan, r *plan.Rig) {
			require.Len(t, r.Slings, 3)
			for i, tree := range []plan.ID{"T1", "T2", "T3"} {
				assert.Equal(t, tree, r.Slings[i].On.Thing)
				assert.Equal(t, r.Blocks[i].ID, r.Slings[i].Holds.Thing)
				assert.ElementsMatch(t, []plan.Port{{Thing: r.Slings[i].ID}, {Thing: r.Blocks[i].ID}}, r.Shackles[i].Joins)
				assert.Zero(t, r.Shackles[i].At, "it lies where they meet")
			}
		}},
		{[]plan.ID{"T1", "S1"}, "Added: Tree 5 and Sling 3 (undo: Ctrl+Z)", func(t *testing.T, p *plan.Plan, r *plan.Rig) {
			assert.Equal(t, []plan.Port{{Thing: "T4"}, {Thing: "T5"}}, []plan.Port{r.Slings[1].On, r.Slings[2].On}, "with the tree")
			assert.Equal(t, []plan.Point{{X: 25, Y: 18.5}, {X: 26, Y: 17.5}}, []plan.Point{p.Site.Anchors[3].At, p.Site.Anchors[4].At})
		}},
		{[]plan.ID{"L1"}, "not pasted, nothing holds it: Line. Copy what it hangs on too", func(t *testing.T, _ *plan.Plan, r *plan.Rig) {
			require.Len(t, r.Lines, 2, "the second paste would lie upon the first")
			assert.Len(t, r.Lines[1].Path, 2, "it does not lead over the other's block")
		}},
		{[]plan.ID{"O1"}, "Added: Boulder 3 (undo: Ctrl+Z)", func(t *testing.T, p *plan.Plan, _ *plan.Rig) {
			require.Len(t, p.Site.Obstacles, 3)
			assert.Equal(t, plan.Point{X: 17.5, Y: 5.5}, p.Site.Obstacles[1].Outline[0])
			assert.Equal(t, plan.Point{X: 18.5, Y: 4.5}, p.Site.Obstacles[2].Outline[0])
		}},
	}
	for _, tt := range tests {
		t.Run(fmt.Sprint(tt.ids), func(t *testing.T) {
			var kept []string
			for _, by := range []func(h *hand, key, id string){
				func(h *hand, key, _ string) { h.ctrl(key) },
				func(h *hand, _, id string) { h.b.Handle(board.Command{ID: id}) },
			} {
				h := withDamper(t)
				before := h.b.Answer().Move
				h.b.Select(tt.ids...)
				by(h, "c", "copy")
				by(h, "v", "paste")
				by(h, "v", "paste")
				assert.Equal(t, tt.want, h.b.Prompt())
				tt.got(t, h.b.Plan(), &h.b.Plan().Rigs[0])
				if !slices.Contains(tt.ids, "L1") && !slices.Contains(tt.ids, "O1") {
					near(t, float64(before.Tension), float64(h.b.Answer().Move.Tension), 1, "what is computed stays")
				}
				kept = append(kept, h.bytes())
			}
			assert.Equal(t, kept[0], kept[1])
		})
	}
}

// Duplicating the same thing again and again lays none upon another.
func TestDuplicatesStepOn(t *testing.T) {
	h := sit(t, nil)
	site(h)
	h.keys("<Escape>", "<Escape>")
	seen := map[plan.Point]bool{}
	for range 5 {
		h.b.Select("T1")
		h.ctrl("d")
	}
	for _, a := range h.b.Plan().Site.Anchors {
		assert.False(t, seen[a.At], "two at %v", a.At)
		seen[a.At] = true
	}
	assert.Len(t, h.b.Plan().Site.Anchors, 8)
}

// Whatever is copied, however often: no copy stands upon another thing of its
// kind, hangs on what something else hangs on, or is called as something else.
func TestPasteLaysNothingUponAnother(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		h := withDamper(t)
		all := []plan.ID{"V1", "V2", "T1", "T2", "T3", "O1", "L1", "B1", "S1", "K1", "D1"}
		ids := rapid.SliceOfNDistinct(rapid.SampledFrom(all), 1, len(all), rapid.ID).Draw(rt, "copied")
		h.b.Select(ids...)
		h.ctrl("c")
		for range rapid.IntRange(1, 3).Draw(rt, "pastes") {
			h.ctrl("v")
		}
		p := h.b.Plan()
		require.NoError(rt, plan.Validate(p))
		r := &p.Rigs[0]
		seen := map[string]string{}
		put := func(id plan.ID, where string, args ...any) {
			where = fmt.Sprintf(where, args...)
			require.Empty(rt, seen[where], "%s lies upon %s: %s", id, seen[where], where)
			seen[where] = string(id)
		}
		for _, a := range p.Site.Anchors {
			put(a.ID, "anchor at %v", a.At)
		}
		for _, v := range p.Site.Vehicles {
			put(v.ID, "vehicle at %v", v.At)
		}
		for _, k := range r.Blocks {
			put(k.ID, "block at %v", k.At)
		}
		for _, s := range r.Slings {
			put(s.ID, "sling on %v", s.On)
			if !s.Holds.IsZero() {
				put(s.ID, "sling holds %v", s.Holds)
			}
		}
		for _, l := range r.Lines {
			put(l.ID, "line over %v", l.Path)
		}
		for _, d := range r.Dampers {
			put(d.ID, "damper %s %d %.3f", d.Line, d.Stretch, d.Share)
		}
		for id, name := range plan.Names(p, r) {
			put(id, "name %s", name)
		}
	})
}
