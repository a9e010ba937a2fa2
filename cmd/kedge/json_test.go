package main

import (
	"context"
	"encoding/json"
	"io/fs"
	"path/filepath"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/canvas/report"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
	"kedge/solver/travel"
)

// Every member that is written is in what help prints.
func TestEveryMemberIsDocumented(t *testing.T) {
	text, errs, status := call(t, "", "help", "json")
	require.Empty(t, errs)
	require.Equal(t, statusDone, status)
	written, err := fs.ReadFile(assets.Help(), "json.md")
	require.NoError(t, err)
	require.Contains(t, text, strings.TrimSpace(string(written)))
	seen := map[reflect.Type]bool{}
	var walk func(typ reflect.Type)
	walk = func(typ reflect.Type) {
		for typ.Kind() == reflect.Pointer || typ.Kind() == reflect.Slice {
			typ = typ.Elem()
		}
		if typ.Kind() != reflect.Struct || seen[typ] {
			return
		}
		seen[typ] = true
		for f := range typ.Fields() {
			walk(f.Type)
			if name, _, _ := strings.Cut(f.Tag.Get("json"), ","); name != "" {
				assert.Contains(t, text, "`"+name+"`", "%s.%s", typ, f.Name)
			}
		}
	}
	walk(reflect.TypeFor[checkDoc]())
	walk(reflect.TypeFor[waysDoc]())
	walk(reflect.TypeFor[doubtDoc]())
	walk(reflect.TypeFor[report.Answer]())
}

// What is not known is null, never 0: an assessment of a part of which nothing
// is known.
func TestWhatIsNotKnownIsNull(t *testing.T) {
	ans := answer{rig: "R1", name: "Rig 1", a: &solver.Assessment{
		Parts: []part.Part{{ID: "B1", Kind: part.KindBlock, Thing: "B1"}}, Worst: -1, First: -1,
		Lines: []solver.LineUse{{Line: "L1", Out: 12}}, People: []solver.PersonAt{{Person: "P1"}},
	}}
	text, err := checkJSON(&plan.Plan{}, []answer{ans}, statusUnsettled)
	require.NoError(t, err)
	var got struct {
		Complete bool
		Rigs     []struct {
			Status                    string
			Complete                  bool
			Worst                     any
			To_move                   any
			Resistance, Lines, People any
			Parts                     []map[string]any
		}
	}
	require.NoError(t, json.Unmarshal([]byte(text), &got))
	require.Len(t, got.Rigs, 1)
	r := got.Rigs[0]
	assert.False(t, got.Complete)
	assert.Equal(t, "not computed", r.Status)
	assert.Nil(t, r.Worst)
	assert.Nil(t, r.To_move)
	require.Len(t, r.Parts, 1)
	for _, m := range []string{"load_n", "at_stall_n", "limit_n", "used", "ultimate_n", "to_failure", "to_failure_at_stall", "side_n", "layer"} {
		v, has := r.Parts[0][m]
		assert.True(t, has, m)
		assert.Nil(t, v, m)
	}
	assert.Equal(t, "not computed", r.Parts[0]["status"])
	assert.NotContains(t, text, "NaN")
	line := r.Lines.([]any)[0].(map[string]any)
	assert.Nil(t, line["has_m"])
	assert.Nil(t, line["wraps_left"])
	assert.Nil(t, r.People.([]any)[0].(map[string]any)["way_out"])
	assert.Nil(t, r.Resistance.(map[string]any)["high_n"])
}

// bracketed is a text that was missing: its id in brackets. Sums put sources
// in brackets, so only what has no colon counts.
var bracketed = regexp.MustCompile(`\[[a-z][^\]:]*\]`)

// No answer on an example shows an id for want of a text, and none says safe.
func TestExamplesHaveAllTheirTexts(t *testing.T) {
	names, err := filepath.Glob("../../assets/plans/*.kedge")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, n := range append(names, "../../testdata/v1/everything.kedge") {
		t.Run(filepath.Base(n), func(t *testing.T) {
			out, errs, _ := call(t, "", "check", n)
			assert.Empty(t, errs)
			assert.NotRegexp(t, bracketed, out)
			assert.NotRegexp(t, `(?i)\b(safe|ok|okay)\b|✓`, out)
			assert.NotRegexp(t, `(?m)[ \t]$`, out, "blanks at the end of a row")
			assert.NotContains(t, out, "\u00a0", "no-break spaces")
		})
	}
}

// The figures of text and JSON are those of the assessment.
func TestTextAndJSONAreTheAssessment(t *testing.T) {
	p := seeded.Example(t, "redirect")
	a, err := travel.Assess(context.Background(), p, p.Rigs[0].ID, nil)
	require.NoError(t, err)
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	names := w.Names(p, p.Rigs[0].ID)

	out, _, _ := call(t, "", "check", "--json", "../../assets/plans/redirect.kedge")
	var got struct {
		Rigs []struct {
			Parts []struct {
				ID, Status            string
				Load_n, Limit_n, Used *float64
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &got))
	text, _, _ := call(t, "", "check", "--rig", plan.RigName(p, 0), "../../assets/plans/redirect.kedge")
	require.NotEmpty(t, a.Parts)
	require.Len(t, got.Rigs[0].Parts, len(a.Parts))
	for i := range a.Parts {
		want, have := &a.Parts[i], got.Rigs[0].Parts[i]
		assert.Equal(t, want.ID, have.ID)
		assert.Equal(t, want.Status.String(), have.Status)
		require.Equal(t, want.Move.Known, have.Load_n != nil, want.ID)
		require.Equal(t, want.Limit.Known, have.Limit_n != nil, want.ID)
		if want.Known() {
			assert.InEpsilon(t, float64(want.Move.Force), *have.Load_n, 1e-5, want.ID) // six digits
			assert.InEpsilon(t, float64(want.Limit.Force), *have.Limit_n, 1e-5, want.ID)
			assert.InEpsilon(t, want.Used, *have.Used, 1e-5, want.ID)
			assert.Regexp(t, regexp.QuoteMeta(w.PartName(want, names))+` .*`+regexp.QuoteMeta(quantity.PlainSpaces(w.Share(want.Used))), text)
		}
	}
	assert.Contains(t, text, quantity.PlainSpaces(w.VerdictLine(a.Assessment, names)))
}
