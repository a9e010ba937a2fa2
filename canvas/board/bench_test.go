package board_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/board"
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
