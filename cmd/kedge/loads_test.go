package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// planFile is a plan of the tests, changed, in a file of its own.
func planFile(t *testing.T, path string, change func(p *plan.Plan)) string {
	t.Helper()
	p := seeded.Read(t, os.DirFS(filepath.Dir(path)), filepath.Base(path))
	change(p)
	data, err := plan.FormatPlan(p)
	require.NoError(t, err)
	name := filepath.Join(t.TempDir(), "plan.kedge")
	require.NoError(t, os.WriteFile(name, data, 0o600))
	return name
}

const heldPlan = "../../testdata/held.kedge"

// The pull that breaks loose has a column where it asks more of any part than
// the pull to move, and shares and states rest on the greater of the two.
func TestLoadsHaveTheColumnToBreakLoose(t *testing.T) {
	out, _, _ := call(t, "", "check", heldPlan)
	assert.Regexp(t, `(?m)^  part +to move  to break loose  at stall  limit`, out)
	assert.Regexp(t, `(?m)^  Line 1, fairlead to Survey pickup +9\.0 +15\.4 +20\.0 +36\.3 .* 43 %`, out, "half as much again of what rolls: 1.5 (9.0 + 3.76) − 3.76 kN, its own weight pulling 3.76 kN")
	assert.Contains(t, out, "line tension to move 9.0 kN, to break loose 15.4 kN, at stall 20.0 kN\n")

	flat := planFile(t, heldPlan, func(p *plan.Plan) { p.Site.Vehicles[0].Stuck.Breakaway = 1 })
	out, _, _ = call(t, "", "check", flat)
	assert.Regexp(t, `(?m)^  part +to move  at stall  limit`, out)
	assert.Contains(t, out, "line tension to move 9.0 kN, to break loose 9.0 kN, at stall 20.0 kN\n")

	weak := planFile(t, heldPlan, func(p *plan.Plan) { p.Rigs[0].Lines[0].Rating.Force = 40e3 }) // 15.3 kN of it count
	out, _, _ = call(t, "", "check", weak)
	assert.Regexp(t, `(?m)^  Line 1, fairlead to Survey pickup +9\.0 +15\.4 .* OVER LIMIT, to break loose$`, out)
	out, _, _ = call(t, "", "check", "--lang", "de", weak)
	assert.Regexp(t, `(?m)^  Teil +zum Bewegen  zum Losbrechen  blockiert`, out)
	assert.Regexp(t, `(?m)^  Seil 1, .* ÜBER GRENZE, zum Losbrechen$`, out)
}

// What lies in a tie-back or hold-back is called so, and its lines are listed.
func TestWhatHoldsIsNamed(t *testing.T) {
	out, _, _ := call(t, "", "check", heldPlan)
	for _, want := range []string{"  Line 2, tie-back to Tree 2 ", "  Sling 1, tie-back ", "  Sling 2, tie-back ", "  Sling 3, tie-back ", "  Line 3, hold-back to Tree 1 ",
		"  Line 2: 10.1 m of 10.1 m out\n", "  Line 3: 7.7 m of 7.7 m out\n"} {
		assert.Contains(t, out, want)
	}
	out, _, _ = call(t, "", "check", "--lang", "de", heldPlan)
	for _, want := range []string{"  Seil 2, Rückverankerung an Baum 2 ", "  Schlinge 2, Rückverankerung ", "  Seil 3, Rückhaltung an Baum 1 "} {
		assert.Contains(t, out, want)
	}
	_, order, _ := strings.Cut(out, "Was zuerst versagt oder sich bewegt\n")
	assert.NotContains(t, order, "Rückhalt", "it gives at no tension of the winch line")
}

// An overturned casualty is computed on the lifting basis whatever the rig says,
// and that is the basis that is told.
func TestBasisIsThatOfTheAnswer(t *testing.T) {
	told := func(file string) (text, basis string) {
		text, _, _ = call(t, "", "check", file)
		data, _, _ := call(t, "", "check", "--json", file)
		var got struct{ Rigs []struct{ Basis string } }
		require.NoError(t, json.Unmarshal([]byte(data), &got))
		return text, got.Rigs[0].Basis
	}
	text, basis := told(heldPlan)
	assert.True(t, strings.HasPrefix(text, "Held · pulling: "), text)
	assert.Equal(t, "pulling", basis)
	for name, change := range map[string]func(p *plan.Plan){
		"overturned":          func(p *plan.Plan) { p.Site.Vehicles[0].Stuck.Overturned = true },
		"the rig's own":       func(p *plan.Plan) { p.Rigs[0].Basis = plan.BasisLifting },
		"a word not known":    func(p *plan.Plan) { p.Rigs[0].Basis = "hoisting" },
		"overturned, pulling": func(p *plan.Plan) { p.Site.Vehicles[0].Stuck.Overturned, p.Rigs[0].Basis = true, plan.BasisPulling },
	} {
		text, basis := told(planFile(t, heldPlan, change))
		assert.True(t, strings.HasPrefix(text, "Held · lifting · "), name)
		assert.Equal(t, "lifting", basis, name)
	}
}

// Nobody is told to stand outside of zones that are missing: of a rig that is
// refused only some are drawn.
func TestNobodyIsOutsideOfMissingZones(t *testing.T) {
	refused := planFile(t, "../../assets/plans/straight.kedge", func(p *plan.Plan) { p.Site.People[0].At = plan.Point{X: 20, Y: 80} })
	out, _, _ := call(t, "", "check", refused)
	assert.Contains(t, out, "\nPeople\n  Operator 1 · not all zones computed\n")
	data, _, _ := call(t, "", "check", "--json", refused)
	assert.True(t, strings.Contains(data, `"zones_missing": true`))
	data, _, _ = call(t, "", "check", "--json", heldPlan)
	assert.False(t, strings.Contains(data, `"zones_missing": true`))
}
