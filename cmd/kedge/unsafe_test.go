package main

import (
	"encoding/json"
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var casesFolder = flag.String("cases", "../../testdata/unsafe", "folder of misleading plans with their expect.json")

// misled is one plan made to mislead, and what the answer to it must show.
type misled struct {
	Plan     string
	What     string
	Exit     []int
	Parts    []boundPart
	People   []string // each stands in a zone
	MaxLevel string   `json:"max_level"` // no finding above it
	About    []string // a finding of CAUTION or more is about one of these
	Lacks    string   // member that was taken out, and is named
}

// boundPart asks for a part of a thing or kind that keeps every bound; each such
// part does, or with Any one of them.
type boundPart struct {
	Thing, Kind string
	Any         bool
	UsedMin     *float64 `json:"used_min"`
	LoadMin     *float64 `json:"load_min_n"`
	StallMin    *float64 `json:"at_stall_min_n"`
	LimitMax    *float64 `json:"limit_max_n"`
}

func (b *boundPart) of(p *partJSON) bool {
	return (b.Thing == "" || b.Thing == p.Thing) && (b.Kind == "" || b.Kind == p.Kind)
}

func (b *boundPart) kept(p *partJSON) bool {
	atLeast := func(x *number, bound *float64) bool { return bound == nil || x != nil && float64(*x) >= *bound }
	return atLeast(p.Used, b.UsedMin) && atLeast(p.Load, b.LoadMin) && atLeast(p.AtStall, b.StallMin) &&
		(b.LimitMax == nil || p.Limit == nil || float64(*p.Limit) <= *b.LimitMax)
}

// Plans that were made to mislead get the answer that tells: their exit status,
// the bounds of their parts, who stands in a zone. The controls among them stay
// as quiet as they are.
func TestUnsafe(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(*casesFolder, "expect.json"))
	require.NoError(t, err)
	var cases struct{ Cases []misled }
	require.NoError(t, json.Unmarshal(data, &cases))
	require.NotEmpty(t, cases.Cases)
	levels := []string{"NOTICE", "CAUTION", "WARNING", "DANGER"}
	for _, c := range cases.Cases {
		t.Run(strings.TrimSuffix(c.Plan, ".kedge"), func(t *testing.T) {
			out, _, status := call(t, "", "check", filepath.Join(*casesFolder, c.Plan), "--json")
			assert.Contains(t, c.Exit, status, c.What)
			var got checkDoc
			require.NoError(t, json.Unmarshal([]byte(out), &got))
			require.NotEmpty(t, got.Rigs)
			r := got.Rigs[0]
			for i := range c.Parts {
				b := &c.Parts[i]
				of := slices.DeleteFunc(slices.Clone(r.Parts), func(p partJSON) bool { return !b.of(&p) })
				if assert.NotEmpty(t, of, "%s: no part of %s %s", c.What, b.Thing, b.Kind) {
					kept := slices.DeleteFunc(slices.Clone(of), func(p partJSON) bool { return !b.kept(&p) })
					assert.True(t, len(kept) == len(of) || b.Any && len(kept) > 0, "%s: %s %s", c.What, b.Thing, b.Kind)
				}
			}
			for _, id := range c.People {
				in := slices.ContainsFunc(r.People, func(p personJSON) bool { return p.Person == id && len(p.Inside) > 0 })
				assert.True(t, in, "%s: %s stands in no zone", c.What, id)
			}
			about := len(c.About) == 0
			for _, f := range r.Findings {
				level := slices.Index(levels, f.Level)
				assert.True(t, c.MaxLevel == "" || level <= slices.Index(levels, c.MaxLevel), "%s: %s %s", c.What, f.Level, f.ID)
				about = about || level > 0 && slices.ContainsFunc(f.Things, func(id string) bool { return slices.Contains(c.About, id) })
			}
			assert.True(t, about, "%s: no finding about %v", c.What, c.About)
			if c.Lacks != "" {
				assert.Contains(t, out, c.Lacks, c.What)
			}
		})
	}
}
