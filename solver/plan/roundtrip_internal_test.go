package plan

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/go-json-experiment/json/jsontext"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

type drawn struct{ t *rapid.T }

func (d drawn) count(most int) int { return rapid.IntRange(0, most).Draw(d.t, "count") }
func (d drawn) number(low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(d.t, "number")
}
func (d drawn) word() string { return rapid.StringN(0, 8, 32).Draw(d.t, "word") }
func (d drawn) yes() bool    { return rapid.Bool().Draw(d.t, "yes") }
func (d drawn) raw() jsontext.Value {
	return jsontext.Value(rapid.SampledFrom([]string{"", "", `{"later":1e400}`, `{"x~/y":"\u00e9","later":{"deep":[1.0,{"a":{}}]}}`, `{" ":[]}`}).Draw(d.t, "raw"))
}

func TestPlansRoundTripByteForByte(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := makePlan(drawn{t})
		data, err := FormatPlan(p)
		require.NoError(t, err)
		q, err := ParsePlan(data)
		require.NoError(t, err)
		again, err := FormatPlan(q)
		require.NoError(t, err)
		require.Equal(t, string(data), string(again))
		require.Equal(t, UnknownMembers(p), UnknownMembers(q))
		third, err := ParsePlan(again)
		require.NoError(t, err)
		require.Equal(t, q, third)
	})
}

// canonical files of version 1 as they were when the version went out. They are
// never rewritten: a change here breaks files that people have.
func TestFrozenSamplesRoundTrip(t *testing.T) {
	files, err := filepath.Glob("../../testdata/v1/*.kedge")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			data, err := os.ReadFile(file)
			require.NoError(t, err)
			p, err := ParsePlan(data)
			require.NoError(t, err)
			again, err := FormatPlan(p)
			require.NoError(t, err)
			require.Equal(t, string(data), string(again))
		})
	}
}

var writeSamples = flag.Bool("write-samples", false, "write everything.kedge and empty.kedge anew; only before their version has gone out")

func TestMain(m *testing.M) {
	flag.Parse()
	if *writeSamples {
		for name, p := range map[string]*Plan{"everything": makePlan(&counted{}), "empty": New()} {
			data, err := FormatPlan(p)
			if err == nil {
				err = os.WriteFile("../../testdata/v1/"+name+".kedge", data, 0o644)
			}
			if err != nil {
				fmt.Fprintln(os.Stderr, err)
				os.Exit(1)
			}
		}
	}
	os.Exit(m.Run())
}

// every member of every type stands in the frozen sample, and every type but
// the closed ones keeps an unknown member.
func TestFrozenSampleHasEveryMember(t *testing.T) {
	data, err := os.ReadFile("../../testdata/v1/everything.kedge")
	require.NoError(t, err)
	p, err := ParsePlan(data)
	require.NoError(t, err)
	for typ, n := range things() {
		for _, f := range n.fields {
			assert.Contains(t, string(data), `"`+f.name+`":`, typ.String())
		}
		if n.fields != nil && !n.open {
			assert.Contains(t, []string{"plan.Point", "plan.Port", "plan.Head"}, typ.String())
		}
	}
	unknown := UnknownMembers(p)
	open := 0
	for _, n := range things() {
		if n.open {
			open++
		}
	}
	assert.GreaterOrEqual(t, len(unknown), open)
	assert.True(t, slices.ContainsFunc(unknown, func(s string) bool { return len(s) > 30 }), "deep ones too")
	assert.Equal(t, len(unknown), bytes.Count(data, []byte(`"later_`)))
}

func TestUnknownMembersSurviveAnEdit(t *testing.T) {
	data, err := os.ReadFile("../../testdata/v1/everything.kedge")
	require.NoError(t, err)
	p, err := ParsePlan(data)
	require.NoError(t, err)
	v := p.Site.Vehicles[0]
	v.At.X++
	q := WithVehicle(p, 0, v)
	assert.NotEqual(t, p.Site.Vehicles[0].At, q.Site.Vehicles[0].At)
	assert.Equal(t, UnknownMembers(p), UnknownMembers(q))
	back, err := FormatPlan(p)
	require.NoError(t, err)
	assert.Equal(t, string(data), string(back), "the plan edited from is untouched")
}

func TestNewerFileThatMayBeOpened(t *testing.T) {
	data := []byte(`{"format":"kedge-plan","version":7,"min_reader":1,"later":{"limit_n":5}}`)
	p, err := ParsePlan(data)
	require.NoError(t, err)
	assert.Equal(t, []string{"/later"}, UnknownMembers(p))
	back, err := FormatPlan(p)
	require.NoError(t, err)
	assert.Contains(t, string(back), `"version": 7`, "nobody may migrate it again")
	assert.Contains(t, string(back), `"limit_n": 5`)
}

func TestMigrationRunsTheStepsBetween(t *testing.T) {
	add := func(s string) step {
		return func(v jsontext.Value) (jsontext.Value, error) { return append(slices.Clone(v), s...), nil }
	}
	steps := []step{add("a"), add("b"), add("c")}
	for _, tt := range []struct {
		from, to int
		want     string
	}{{1, 4, "abc"}, {2, 4, "bc"}, {2, 3, "b"}, {4, 4, ""}, {9, 4, ""}} {
		got, err := migrate(nil, tt.from, tt.to, steps)
		require.NoError(t, err)
		assert.Equal(t, tt.want, string(got))
	}
	_, err := migrate(nil, 1, 2, []step{func(jsontext.Value) (jsontext.Value, error) { return nil, os.ErrInvalid }})
	assert.ErrorIs(t, err, ErrFormat)
}

func FuzzParse(f *testing.F) {
	for _, pattern := range []string{"../../testdata/v1/*.kedge", "../../testdata/refused/*.kedge"} {
		files, _ := filepath.Glob(pattern)
		for _, file := range files {
			if data, err := os.ReadFile(file); err == nil && len(data) < 1<<16 {
				f.Add(data)
			}
		}
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := ParsePlan(data)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		out, err := FormatPlan(p)
		require.NoError(t, err)
		q, err := ParsePlan(out)
		require.NoError(t, err)
		again, err := FormatPlan(q)
		require.NoError(t, err)
		require.Equal(t, string(out), string(again))
		require.Equal(t, UnknownMembers(p), UnknownMembers(q))
	})
}

func BenchmarkParse(b *testing.B) {
	data, err := os.ReadFile("../../testdata/v1/redirect.kedge")
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ParsePlan(data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFormat(b *testing.B) {
	data, err := os.ReadFile("../../testdata/v1/redirect.kedge")
	require.NoError(b, err)
	p, err := ParsePlan(data)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := FormatPlan(p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkNewIndex(b *testing.B) {
	data, err := os.ReadFile("../../testdata/v1/redirect.kedge")
	require.NoError(b, err)
	p, err := ParsePlan(data)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		if NewIndex(p, &p.Rigs[1]).Block("B1") == nil {
			b.Fatal("no block")
		}
	}
}
