package refusal_test

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/refusal"
)

var errID = errors.New("plan: id")

var taken = refusal.Of(errID, "plan-id-taken", "id", "n")

func TestErrorNamesPackageThingAndCause(t *testing.T) {
	e := taken.At("/site/anchors/1/id", "T1", 3)
	assert.EqualError(t, e, `plan: /site/anchors/1/id: id-taken id="T1" n=3`)
	assert.EqualError(t, e.Because(io.ErrUnexpectedEOF), `plan: /site/anchors/1/id: id-taken id="T1" n=3: unexpected EOF`)
	assert.Nil(t, e.Cause, "the first is as it was")
	assert.EqualError(t, taken.At(""), "plan: id-taken")
	assert.EqualError(t, refusal.Of(nil, "store-damaged", "why", "kind").At("", taken.At("", "T1"), refusal.Word("tree")),
		`store: damaged why=(plan: id-taken id="T1") kind=tree`)
}

func TestCallersBranch(t *testing.T) {
	err := fmt.Errorf("opening: %w", taken.At("", "T1").Because(fs.ErrPermission))
	assert.ErrorIs(t, err, errID)
	assert.ErrorIs(t, err, fs.ErrPermission)
	var r refusal.Refuser
	require.ErrorAs(t, err, &r)
	assert.Equal(t, "plan-id-taken", r.Refusal().ID)
	assert.NotErrorIs(t, refusal.Of(nil, "plan-x").At(""), errID)
}

func TestClip(t *testing.T) {
	assert.Equal(t, "abc", refusal.Clip("abc", 3))
	assert.Equal(t, "ab…", refusal.Clip("abc", 2))
	assert.Equal(t, "ä…", refusal.Clip("äöü", 1))
	assert.Equal(t, `a\n\"`, refusal.Clip("a\n\"", 9))
}
