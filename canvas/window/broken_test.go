package window

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Long work that panics says so and lets the next begin; what was not saved is
// kept when anything panics.
func TestPanicIsSaidAndThePlanKept(t *testing.T) {
	s := sitAt(t, 1440, 900, example(t, "redirect"))
	work := &held{}
	s.slow, s.keeper = work, work
	s.long.do("x", "", func(context.Context, func(int, int)) (func(), error) { panic("broken on purpose") }, s.refused)
	work.goOn()
	assert.Nil(t, s.long.going)
	const said = "something in Kedge failed (broken on purpose)"
	assert.Contains(t, s.fault, said)

	s.board.Select(s.board.Plan().Casualty().ID)
	s.keys("<Delete>")
	require.True(t, s.board.Dirty())
	kept := func() string {
		found, err := filepath.Glob(filepath.Join(s.store.State, "recovery", "*", "plan.snapshot"))
		require.NoError(t, err)
		if len(found) == 0 {
			return ""
		}
		data, err := os.ReadFile(found[0])
		require.NoError(t, err)
		return string(data)
	}
	assert.Empty(t, kept())
	s.broke("broken on purpose")
	work.goOn()
	assert.Contains(t, s.fault, said)
	assert.Contains(t, kept(), `"kedge-snapshot"`)

	s.board.Select(s.board.Plan().Site.Vehicles[0].ID)
	s.keys("<Delete>")
	before := kept()
	assert.Panics(t, func() { s.guarded(func() { panic("the interface itself") }) })
	assert.NotEqual(t, before, kept(), "kept before the program ends")
}
