package gear_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"kedge/solver/gear"
	"kedge/solver/part"
)

// A point whose direction nobody entered may be pulled to its side: over its
// limit it is over, under it nothing is known.
func TestPointWithoutDirectionIsWithinNothing(t *testing.T) {
	in := gear.PointIn{Vehicle: "V1", Part: "V1/front", Point: point()}
	assert.False(t, gear.RecoveryPoint(in, nil, nil).Limit.AtMost)
	in.Assumed = true
	c := gear.RecoveryPoint(in, nil, nil)
	assert.True(t, c.Limit.AtMost)
	over := part.Part{Move: part.Load{Known: true, Force: c.Limit.Force}, Limit: c.Limit}
	over.Judge()
	assert.Equal(t, part.Over, over.Status)
	under := part.Part{Move: part.Load{Known: true, Force: c.Limit.Force / 100}, Limit: c.Limit}
	under.Judge()
	assert.Equal(t, part.Undecided, under.Status)
	assert.Equal(t, part.NotDecidedID, under.Why)
}
