package solver_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// theConnector puts a connector at the end of the line.
func theConnector(kind string, r plan.Rating) change {
	return theLine(func(l *plan.Line) { l.Connector = plan.Connector{Kind: kind, Rating: r} })
}

func connectorOf(t *testing.T, change change) *solver.Assessment {
	t.Helper()
	p := basePlan()
	change(p)
	require.NoError(t, plan.Validate(p))
	return solver.Assess(p, "R1")
}

// It carries what the last stretch of its line does, at each pull.
func TestConnectorCarriesItsLine(t *testing.T) {
	a := connectorOf(t, theConnector(plan.ConnectorHook, working(40000)))
	c, last := partOf(t, a, "L1/end"), partOf(t, a, "L1/2")
	assert.Equal(t, part.KindEnd, c.Kind)
	assert.Equal(t, plan.ID("L1"), c.Thing)
	assert.Equal(t, plan.ID("V1"), c.To)
	assert.True(t, c.Move.Known && c.Loosen.Known && c.Stall.Known)
	assert.Equal(t, last.Move.Force, c.Move.Force)
	assert.Equal(t, last.Loosen.Force, c.Loosen.Force)
	assert.Equal(t, last.Stall.Force, c.Stall.Force)
	assert.Equal(t, 40*quantity.Kilonewton, c.Limit.Force)
	assert.Equal(t, part.Within, c.Status)
	_, ok := a.Part("L1/start")
	assert.False(t, ok, "that end is on the drum")

	// The line pulls 2000 N along itself all but straight ahead.
	weak := connectorOf(t, theConnector(plan.ConnectorHook, working(1990)))
	assert.Equal(t, part.Over, partOf(t, weak, "L1/end").Status)
	assert.Equal(t, part.Danger, levels(weak)["over-limit"])

	derivation, err := solver.Explain(basePlan(), "R1", "L1/end")
	require.NoError(t, err)
	used, ok := derivation.Last()
	require.True(t, ok)
	assert.Equal(t, float64(c.Move.Force/c.Limit.Force), used.X)
}

// A file without a connector has the assumed one: the lowest of the table for a
// line of 10 mm, a fifth of 1.7 × 0.85 × 9.5² kN. It says so and no more than a
// NOTICE, and the file stays as it is.
func TestConnectorOfAnOldFile(t *testing.T) {
	p := basePlan()
	theConnector("", plan.Rating{})(p)
	data, err := plan.FormatPlan(p)
	require.NoError(t, err)
	require.NotContains(t, string(data), "connector")
	p, err = plan.ParsePlan(data)
	require.NoError(t, err)
	a := solver.Assess(p, "R1")
	c := partOf(t, a, "L1/end")
	assert.Equal(t, 26*quantity.Kilonewton, c.Limit.Force)
	assert.True(t, c.Limit.Preset)
	assert.Equal(t, part.Within, c.Status)
	assert.True(t, a.Complete)
	level, _ := a.Level()
	assert.Equal(t, part.Notice, level)
	assert.Contains(t, levels(a), "connector-assumed")
	again, err := plan.FormatPlan(p)
	require.NoError(t, err)
	assert.Equal(t, string(data), string(again))
}

// What the table does not reach is not decided, and never within a limit.
func TestConnectorThatCannotBeDecided(t *testing.T) {
	for _, line := range []quantity.Length{0, 0.024} {
		a := connectorOf(t, do(theConnector(plan.ConnectorHook, plan.Rating{}), theLine(func(l *plan.Line) { l.Diameter = line })))
		assert.Equal(t, part.NoLimit, partOf(t, a, "L1/end").Status)
		assert.False(t, a.Complete)
		assert.GreaterOrEqual(t, levels(a)[part.NotDecidedID], part.Caution)
		assert.NotContains(t, levels(a), "connector-assumed")
	}
	a := connectorOf(t, theConnector("carabiner", working(40000)))
	assert.False(t, a.Complete, "a word of a later version")
	assert.Contains(t, levels(a), "unknown-words")
}

// A secondary line is hooked on at both ends, and what it says of that it says
// once.
func TestConnectorsOfASecondaryLine(t *testing.T) {
	a := connectorOf(t, on(func(r *plan.Rig) {
		l := winchLine("L2", port("A1", ""), port("B1", "becket"))
		l.Length, l.Connector = 2, plan.Connector{}
		r.Lines = append(r.Lines, l)
		r.Slings[0].Length = 2.5
	}))
	s := partOf(t, a, "L2/1")
	for _, id := range []string{"L2/start", "L2/end"} {
		c := partOf(t, a, id)
		assert.Equal(t, s.Move.Force, c.Move.Force)
		assert.Equal(t, s.Stall.Force, c.Stall.Force)
	}
	assert.Greater(t, s.Move.Force, quantity.Force(2000), "it holds the block")
	said := 0
	for i := range a.Findings {
		if a.Findings[i].ID == "connector-assumed" {
			said++
		}
	}
	assert.Equal(t, 1, said)
}

// A shackle of the rig that holds the end is the connector: no double.
func TestShackleIsTheConnector(t *testing.T) {
	a := connectorOf(t, do(bridled(2), theConnector("", plan.Rating{})))
	_, ok := a.Part("L1/end")
	assert.False(t, ok)
	assert.NotContains(t, levels(a), "connector-assumed")
	k := partOf(t, a, "K8")
	assert.GreaterOrEqual(t, float64(k.Move.Force), 0.99*float64(partOf(t, a, "L1/2").Move.Force), "it carries the line")
}

// With several winches a connector is computed with the whole pull, as its line.
func TestConnectorWithTwoWinches(t *testing.T) {
	a := connectorOf(t, twoWinches)
	for _, id := range []string{"L1", "L2"} {
		c := partOf(t, a, id+"/end")
		last := partOf(t, a, map[string]string{"L1": "L1/2", "L2": "L2/1"}[id])
		assert.Equal(t, last.Move.Force, c.Move.Force, id)
		assert.Equal(t, last.Stall.Force, c.Stall.Force, id)
	}
}

// The conservative end of a doubt counts.
func TestDoubtOfAConnector(t *testing.T) {
	a := connectorOf(t, theLine(func(l *plan.Line) {
		l.Doubts = []plan.Doubt{{Member: "connector.rating.force_n", Low: 30000, High: 50000}}
	}))
	assert.Equal(t, 30*quantity.Kilonewton, partOf(t, a, "L1/end").Limit.Force)
	assert.NotContains(t, levels(a), "doubt-at-middle")
	a = connectorOf(t, theLine(func(l *plan.Line) { l.Presets = []string{"connector.rating"} }))
	assert.Equal(t, part.Caution, levels(a)["presets"], "nobody read that tag")
}

// A line that ties back is hooked on at both ends, and holds no more than its
// connectors: with a weak one it is no tie-back that was checked.
func TestConnectorsOfATieBackLine(t *testing.T) {
	tied := func(r plan.Rating) *solver.Assessment {
		return connectorOf(t, do(tiedBack(40000, 0), on(func(r2 *plan.Rig) {
			l := winchLine("L9", port("V2", "rear"), port("A2", ""))
			l.Use, l.Length, l.Connector.Rating = plan.UseTieBack, 4, r
			r2.Slings, r2.Lines = r2.Slings[:1], append(r2.Lines, l)
		}), puller(func(v *plan.Vehicle) { v.Mass = 150 })))
	}
	good := tied(working(40000))
	tie := partOf(t, good, "L9/1")
	for _, id := range []string{"L9/start", "L9/end"} {
		c := partOf(t, good, id)
		assert.Equal(t, tie.Move.Force, c.Move.Force)
		assert.Equal(t, tie.Stall.Force, c.Stall.Force)
		assert.Equal(t, part.Within, c.Status)
	}
	assert.NotContains(t, levels(good), "vehicle-slides")

	weak := tied(working(1000))
	assert.Equal(t, part.Over, partOf(t, weak, "L9/end").Status)
	assert.Equal(t, part.Danger, levels(weak)["over-limit"])
	assert.Equal(t, part.Danger, levels(weak)["vehicle-slides"], "a tie-back over its limit silences nothing")
}
