package window

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver"
	"kedge/solver/part"
)

// By its share the table of loads has first what is not computed, then what is
// over its limit, then what is not known to be within it, then the rest (ours).
func TestNotDecidedComesBeforeWhatIsWithin(t *testing.T) {
	of := func(id string, s part.Status, used float64) part.Part {
		return part.Part{ID: id, Status: s, Used: used, Move: part.Load{Known: true, Force: 100}, Limit: part.Limit{Known: true, Force: 100}}
	}
	a := &solver.Assessment{Parts: []part.Part{of("within", part.Within, 0.5), of("open", part.Undecided, 0.2), of("open too", part.Undecided, 0.3),
		of("over", part.Over, 1.1), of("near", part.Near, 0.9), of("refused", part.Refused, 0)}}
	var got []string
	for _, i := range sortedParts(a, "used", func(p *part.Part) string { return p.ID }) {
		got = append(got, a.Parts[i].ID)
	}
	assert.Equal(t, []string{"refused", "over", "open too", "open", "near", "within"}, got)
}
