package part

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// What is over its limit leads, and what is not known never stands after what is
// within. (ours)
func TestWorstFirst(t *testing.T) {
	of := func(id string, s Status, used float64) *Part {
		return &Part{ID: id, Status: s, Used: used, Move: Load{Known: true, Force: 100}, Limit: Limit{Known: true, Force: 100}}
	}
	parts := []*Part{of("slack", Slack, 0), of("within", Within, 0.5), of("unrated", NoLimit, 0), of("open", Undecided, 0.2), of("open too", Undecided, 0.3),
		of("over", Over, 1.1), of("near", Near, 0.9), of("refused", Refused, 0), of("well over", Over, 2), of("not understood", NotUnderstood, 0), of("not computed", NotComputed, 0)}
	slices.SortStableFunc(parts, WorstFirst)
	var got []string
	for _, p := range parts {
		got = append(got, p.ID)
	}
	assert.Equal(t, []string{"well over", "over", "refused", "not understood", "not computed", "open too", "open", "unrated", "near", "within", "slack"}, got)
}
