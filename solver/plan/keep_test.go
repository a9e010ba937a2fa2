package plan_test

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/plan"
)

// A thing that stays is called what it was, whatever happens to the others.
func TestKeepNames(t *testing.T) {
	trees := func() *plan.Plan {
		p := plan.New()
		for i := range 3 {
			p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: plan.ID(fmt.Sprint("T", i+1))}, Kind: plan.AnchorTree})
		}
		p.Rigs = []plan.Rig{{Head: plan.Head{ID: "R1"}, Blocks: []plan.Block{{Head: plan.Head{ID: "B1"}}, {Head: plan.Head{ID: "B2"}}}}, {Head: plan.Head{ID: "R2"}}, {Head: plan.Head{ID: "R3"}}}
		return p
	}
	tests := []struct {
		name   string
		change func(p *plan.Plan)
		want   map[plan.ID]string
	}{
		{"the first is taken out", func(p *plan.Plan) { p.Site.Anchors = p.Site.Anchors[1:] }, map[plan.ID]string{"T2": "Tree 2", "T3": "Tree 3"}},
		{"the first gets a name", func(p *plan.Plan) { p.Site.Anchors[0].Name = "Old oak" }, map[plan.ID]string{"T1": "Old oak", "T2": "Tree 2", "T3": "Tree 3"}},
		{"the first becomes a boulder", func(p *plan.Plan) { p.Site.Anchors[0].Kind = plan.AnchorBoulder }, map[plan.ID]string{"T1": "Boulder 1", "T2": "Tree 2", "T3": "Tree 3"}},
		{"they change places", func(p *plan.Plan) { slices.Reverse(p.Site.Anchors) }, map[plan.ID]string{"T1": "Tree 1", "T2": "Tree 2", "T3": "Tree 3"}},
		{"one goes, one comes", func(p *plan.Plan) {
			p.Site.Anchors = append(p.Site.Anchors[1:], plan.Anchor{Head: plan.Head{ID: "T4"}, Kind: plan.AnchorTree})
		}, map[plan.ID]string{"T2": "Tree 2", "T3": "Tree 3", "T4": "Tree 4"}},
		{"a part goes", func(p *plan.Plan) { p.Rigs[0].Blocks = p.Rigs[0].Blocks[1:] }, map[plan.ID]string{"B2": "Block 2"}},
		{"a rig goes", func(p *plan.Plan) { p.Rigs = p.Rigs[1:] }, map[plan.ID]string{"R2": "Rig 2", "R3": "Rig 3"}},
		{"a rig is put first", func(p *plan.Plan) { p.Rigs[0], p.Rigs[2] = p.Rigs[2], p.Rigs[0] }, map[plan.ID]string{"R1": "Rig 1", "R2": "Rig 2", "R3": "Rig 3"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			before, next := trees(), trees()
			tt.change(next)
			was, err := plan.FormatPlan(next)
			require.NoError(t, err)
			got := plan.KeepNames(before, next)
			require.NoError(t, plan.Validate(got))
			for id, want := range tt.want {
				if i := got.RigIndex(id); i >= 0 {
					assert.Equal(t, want, plan.RigName(got, i))
					continue
				}
				assert.Equal(t, want, plan.Names(got, &got.Rigs[0])[id])
			}
			still, err := plan.FormatPlan(next)
			require.NoError(t, err)
			assert.Equal(t, string(was), string(still), "the edit handed in is not changed")
			data, err := plan.FormatPlan(got)
			require.NoError(t, err)
			again, err := plan.ParsePlan(data)
			require.NoError(t, err)
			assert.Equal(t, plan.Names(got, &got.Rigs[0]), plan.Names(again, &again.Rigs[0]), "names are stored")
		})
	}
}

// What changes no name comes back as it was handed in: a file is not filled with
// numbers that say nothing.
func TestKeepNamesLeavesTheRest(t *testing.T) {
	p := redirect(t)
	q := *p
	q.Site.Anchors = append(slices.Clone(p.Site.Anchors), plan.Anchor{Head: plan.Head{ID: "T9"}, Kind: plan.AnchorTree})
	assert.True(t, &q == plan.KeepNames(p, &q), "a tree more")
	assert.True(t, p == plan.KeepNames(p, p))
	assert.True(t, &q == plan.KeepNames(nil, &q))
	assert.Nil(t, plan.KeepNames(p, nil))
}

// Whatever goes, comes and changes its kind in a row of edits: who stays under
// its word stays under its name, and no two are called the same.
func TestNamesStay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := plan.New()
		kinds := []string{plan.AnchorTree, plan.AnchorBoulder, plan.AnchorPickets}
		fresh := 0
		for range rapid.IntRange(1, 12).Draw(t, "edits") {
			q := *p
			list := slices.Clone(p.Site.Anchors)
			n := len(list)
			switch k := rapid.IntRange(0, 4).Draw(t, "edit"); {
			case k <= 1 || n == 0:
				fresh++
				list = append(list, plan.Anchor{Head: plan.Head{ID: plan.ID(fmt.Sprint("x", fresh))}, Kind: rapid.SampledFrom(kinds).Draw(t, "kind")})
			case k == 2:
				i := rapid.IntRange(0, n-1).Draw(t, "gone")
				list = slices.Delete(list, i, i+1)
			case k == 3:
				list[rapid.IntRange(0, n-1).Draw(t, "changed")].Kind = rapid.SampledFrom(kinds).Draw(t, "kind")
			case k == 4:
				list[rapid.IntRange(0, n-1).Draw(t, "named")].Name = fmt.Sprint("Old ", fresh)
				fresh++
			}
			q.Site.Anchors = list
			next := plan.KeepNames(p, &q)
			was, is := plan.Names(p, nil), plan.Names(next, nil)
			seen := map[string]bool{}
			for _, a := range next.Site.Anchors {
				require.False(t, seen[is[a.ID]], "two are called %s", is[a.ID])
				seen[is[a.ID]] = true
				if old, ok := p.Anchor(a.ID); ok && old.Name == a.Name && old.Kind == a.Kind {
					require.Equal(t, was[a.ID], is[a.ID])
				}
			}
			p = next
		}
	})
}

// A drag asks on every frame: of a plan of 2000 trees that move it costs no
// names. (go test -bench KeepNames)
func BenchmarkKeepNames(b *testing.B) {
	p := plan.New()
	for i := range 2000 {
		p.Site.Anchors = append(p.Site.Anchors, plan.Anchor{Head: plan.Head{ID: plan.ID(fmt.Sprint("T", i+1))}, Kind: plan.AnchorTree})
	}
	q := *p
	q.Site.Anchors = slices.Clone(p.Site.Anchors)
	q.Site.Anchors[0].At.X++
	b.ReportAllocs()
	for b.Loop() {
		if plan.KeepNames(p, &q) != &q {
			b.Fatal("nothing changed its name")
		}
	}
}
