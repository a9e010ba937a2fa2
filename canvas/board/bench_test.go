package board_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
	"kedge/solver/plan"
)

// One frame of a drag is a move of the pointer, the answer for what is then
// shown, and the overlay. The house's budget for the whole frame is 8 ms.
func benchmarkDrag(b *testing.B, from [2]float64, to func(i int) (float64, float64), prepare func(h *hand)) {
	h := sit(b, nil)
	site(h)
	h.keys("<Escape>")
	straight(h)
	bendOnTree(h)
	h.keys("<Escape>", "<Escape>")
	prepare(h)
	h.move(from[0], from[1])
	h.down(from[0], from[1])
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		x, y := to(i)
		h.move(x, y)
		if h.b.Answer() == nil || h.b.Overlay() == nil {
			b.Fatal("nothing to draw")
		}
	}
	b.StopTimer()
	h.keys("<Escape>")
	require.Equal(b, board.ToolSelect, h.b.Tool())
}

func BenchmarkDragTree(b *testing.B) {
	benchmarkDrag(b, [2]float64{24, 19.5}, func(i int) (float64, float64) { return 24 + float64(i%20)*0.5, 20 + float64(i%7)*0.5 }, func(*hand) {})
}

func BenchmarkDragBlock(b *testing.B) {
	at := [2]float64{23.75, 18.43}
	benchmarkDrag(b, at, func(i int) (float64, float64) { return 23.6 - float64(i%10)*0.05, 18.1 - float64(i%10)*0.1 }, func(*hand) {})
}

func BenchmarkDragPerson(b *testing.B) {
	benchmarkDrag(b, [2]float64{22, 13}, func(i int) (float64, float64) { return 22 + float64(i%30)*0.5, 13 }, func(h *hand) {
		h.keys("p")
		h.click(22, 13)
		h.keys("<Escape>", "<Escape>")
	})
}

func BenchmarkHover(b *testing.B) {
	benchmarkDrag(b, [2]float64{2, 2}, func(i int) (float64, float64) { return 5 + float64(i%60)*0.5, 10 }, func(h *hand) { h.keys("<Escape>") })
}

// crowded is a plan of 300 things, 64 of them in the rig shown: sixteen copies
// of the redirect, and what else stands about.
func crowded(b testing.TB) *plan.Plan {
	h := sit(b, nil)
	site(h)
	h.keys("<Escape>")
	straight(h)
	bendOnTree(h)
	h.keys("<Escape>", "<Escape>")
	for range 4 {
		h.ctrl("a")
		h.ctrl("d")
	}
	p := *h.b.Plan()
	r := p.Rigs[0]
	require.Equal(b, 64, len(r.Lines)+len(r.Blocks)+len(r.Slings)+len(r.Shackles))
	for i := 0; len(p.Site.Vehicles)+len(p.Site.Anchors)+len(p.Site.Obstacles)+len(p.Site.Notes)+len(p.Site.People) < 236; i++ {
		at := plan.Point{X: 50 + float64(i%12)*3, Y: float64(i/12) * 3}
		if i%5 == 0 {
			q := plan.Person{Role: plan.RoleSpotter, At: at}
			q.ID = plan.NewID(&p, plan.PrefixPerson)
			p.Site.People = append(p.Site.People, q)
			continue
		}
		a := plan.Anchor{Kind: plan.AnchorTree, At: at, Trunk: 0.3}
		a.ID = plan.NewID(&p, plan.PrefixTree)
		p.Site.Anchors = append(p.Site.Anchors, a)
	}
	require.NoError(b, plan.Validate(&p))
	return &p
}

// One frame of a drag on a crowded plan: move, answer, overlay.
func BenchmarkDrag(b *testing.B) {
	p := crowded(b)
	spots := map[string][2]float64{}
	h := sit(b, p)
	h.b.Handle(board.Command{ID: "fit"})
	last := len(p.Site.Anchors) - 1
	spots["tree of no rig"] = [2]float64{p.Site.Anchors[last].At.X, p.Site.Anchors[last].At.Y}
	spots["tree of the rig"] = [2]float64{24, 19.5}
	spots["person"] = [2]float64{p.Site.People[0].At.X, p.Site.People[0].At.Y}
	for _, name := range []string{"tree of no rig", "tree of the rig", "person"} {
		b.Run(name, func(b *testing.B) {
			h := sit(b, p)
			h.b.Handle(board.Command{ID: "fit"})
			at := spots[name]
			h.move(at[0], at[1])
			h.down(at[0], at[1])
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				h.move(at[0]+1+float64(i%20)*0.5, at[1]+float64(i%7)*0.5)
				if h.b.Answer() == nil || h.b.Overlay() == nil {
					b.Fatal("nothing to draw")
				}
			}
			b.StopTimer()
			require.NotEqual(b, p, h.b.Shown(), "it is dragged")
		})
	}
}

// One frame of pointing about with each tool.
func BenchmarkHoverCrowded(b *testing.B) {
	p := crowded(b)
	for _, tool := range []board.Tool{board.ToolSelect, board.ToolLine, board.ToolMeasure, board.ToolPerson, board.ToolAnchor} {
		b.Run("tool "+string(tool), func(b *testing.B) {
			h := sit(b, p)
			h.b.Handle(board.Command{ID: "fit"})
			h.b.Arm(tool)
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				h.move(5+float64(i%60)*0.5, 10+float64(i%7))
				if h.b.Answer() == nil || h.b.Overlay() == nil {
					b.Fatal("nothing to draw")
				}
			}
		})
	}
}
