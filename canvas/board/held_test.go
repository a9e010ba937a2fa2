package board_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// What ties back and holds back is picked where it lies: the line 3 m behind
// the truck's left rear point, the strap 3 m behind its right one, the line
// half way to the tree behind the casualty.
func TestWhatHoldsIsPickedWhereItLies(t *testing.T) {
	p := seeded.Read(t, os.DirFS("../../testdata"), "held.kedge")
	h := sit(t, p)
	for id, at := range map[plan.ID][2]float64{
		"L2": {34.55 + 3, 11.5 - 3*1.3/11.45}, // toward Tree 2 at 46;10.2
		"S2": {34.55 + 3, 12.5 + 3*4/8.45},    // toward Tree 3 at 43;16.5
		"L3": {5.5, 12.1},                     // between 9.4;12 and Tree 1 at 1.5;12.2
	} {
		h.click(at[0], at[1])
		assert.Equal(t, []plan.ID{id}, h.b.Selection())
	}
}
