package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
	"kedge/solver/seeded"
)

// statements are the lines of sums that are no formula, each with the reason
// why nothing is recomputed in it.
var statements = map[string]string{
	"not-computed":       "says why there is no figure",
	"resistance-planned": "the choice of one of three figures of the lines before",
	"no-limit":           "says that there is no limit to set the load of the line before against",
}

// formulaText is the text of a formula, to know its printed lines by.
type formulaText struct {
	id   string
	line *regexp.Regexp
	long bool // its result is printed long
}

// longResult tells a formula whose result is printed long, a unit behind it or
// not.
var longResult = regexp.MustCompile(`:long\}[^{}=]*$`)

// formulaTexts are the formulas of the English catalogue, the longest first.
func formulaTexts(t *testing.T) []formulaText {
	t.Helper()
	files, err := filepath.Glob("../../assets/words/en-*.toml")
	require.NoError(t, err)
	slot := regexp.MustCompile(`\\\{[^}]*\\\}`)
	var all []formulaText
	texts := map[string]string{}
	for _, name := range files {
		data, err := os.ReadFile(name)
		require.NoError(t, err)
		var in struct {
			Formula map[string]string `toml:"formula"`
		}
		_, err = toml.Decode(string(data), &in)
		require.NoError(t, err, name)
		for id, text := range in.Formula {
			line := slot.ReplaceAllString(regexp.QuoteMeta(text), `(?:.*?)`)
			all = append(all, formulaText{id, regexp.MustCompile("^" + line + `(?: \[.*\])?$`), longResult.MatchString(text)})
			texts[id] = text
		}
	}
	require.NotEmpty(t, all)
	slices.SortFunc(all, func(a, b formulaText) int {
		if n := len(texts[b.id]) - len(texts[a.id]); n != 0 {
			return n
		}
		return strings.Compare(a.id, b.id)
	})
	return all
}

// printedSum are the lines below "Why" in the answer for one part.
func printedSum(out string) (lines []string) {
	in := false
	for l := range strings.Lines(out) {
		l = strings.TrimRight(l, "\n")
		switch {
		case strings.HasPrefix(l, "Why "):
			in = true
		case l == "":
			in = false
		case in:
			lines = append(lines, strings.TrimPrefix(l, indent))
		}
	}
	return lines
}

// sums counts the sums that were followed.
type sums struct {
	formulas            []formulaText
	sums, lines, redone int
	seen                map[string]int // lines by formula
}

// partsOf are the ids of what can be explained of a plan.
func partsOf(t *testing.T, file string) []string {
	t.Helper()
	out, errs, _ := call(t, "", "check", file, "--json")
	require.Empty(t, errs)
	var answer struct {
		Rigs []struct {
			Parts []struct {
				ID string `json:"id"`
			} `json:"parts"`
		} `json:"rigs"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &answer))
	parts := []string{"resistance"}
	for _, r := range answer.Rigs {
		for _, p := range r.Parts {
			if !slices.Contains(parts, p.ID) {
				parts = append(parts, p.ID)
			}
		}
	}
	return parts
}

// follow recomputes each line of each sum of a plan.
func (s *sums) follow(t *testing.T, file string) {
	t.Helper()
	for _, part := range partsOf(t, file) {
		out, errs, _ := call(t, "", "check", file, "--why", part)
		require.Empty(t, errs)
		lines := printedSum(out)
		require.NotEmpty(t, lines, "the sum of %s of %s", part, file)
		s.sums++
		lines = slices.DeleteFunc(lines, func(l string) bool { return strings.HasPrefix(l, "breaks or gives way at ") }) // what the failure load rests on: no step
		for _, l := range lines {
			s.lines++
			i := slices.IndexFunc(s.formulas, func(f formulaText) bool { return f.line.MatchString(l) })
			if !assert.GreaterOrEqual(t, i, 0, "%s, %s: a line of no formula: %s", file, part, l) {
				continue
			}
			f := s.formulas[i]
			s.seen[f.id]++
			if statements[f.id] != "" {
				continue
			}
			s.redone++
			if err := recompute(l, f.long); err != nil {
				t.Errorf("%s, %s, %s: %s: %v", file, part, f.id, l, err)
			}
		}
	}
}

// foundSums is how many plans as people rig them are followed.
const foundSums = 40

// Whoever reads a sum with a calculator finds each of its figures again, from
// nothing but what is printed: the reader of sums is the oracle, school
// arithmetic on the text. The three examples, and plans as people rig them:
// bridles, chains of straps, tie-backs and hold-backs, two winches, anchors of
// every kind. No line is skipped.
func TestEverySumIsFollowedByHand(t *testing.T) {
	s := sums{formulas: formulaTexts(t), seen: map[string]int{}}
	for _, name := range []string{"straight", "doubled", "redirect"} {
		s.follow(t, "../../assets/plans/"+name+".kedge")
	}
	dir := t.TempDir()
	for seed := range uint64(foundSums) {
		p, _ := seeded.Plan(seed+1, nil)
		data, err := plan.FormatPlan(p)
		require.NoError(t, err)
		file := filepath.Join(dir, "found-"+strconv.FormatUint(seed+1, 10)+".kedge")
		require.NoError(t, os.WriteFile(file, data, 0o600))
		s.follow(t, file)
	}
	stated := 0
	for id := range statements {
		assert.Positive(t, s.seen[id], "%s is printed nowhere: strike it off the list", id)
		stated += s.seen[id]
	}
	assert.Equal(t, s.lines, s.redone+stated, "lines printed, and those recomputed or listed as statements")
	assert.Zero(t, s.seen["load-of-balance"], "forces that nothing is followed back from")
	t.Logf("%d sums of %d lines: %d recomputed, %d stated", s.sums, s.lines, s.redone, stated)
}

// The reader of sums itself: expected values are school arithmetic.
func TestPrintedLinesAreRead(t *testing.T) {
	for _, c := range []struct {
		line string
		long bool
		good bool
	}{
		{"used = 12.3 kN ÷ 42.0 kN = 30 %", false, true},
		{"used = 12.3 kN ÷ 42.0 kN = 31 %", false, false},
		{"used = 1 200 kN ÷ 1 000 kN = 120 %", false, true},
		{"leg = ×0.55 (m) of 24.1 kN ÷ cos(14.2°) = 13.7 kN [a row: a book, published]", false, true},
		{"leg = ×0.55 of 24.1 kN ÷ cos(24.2°) = 13.7 kN", false, false},
		{"anchor = 10 kN × √(1 + (0.5)² + 2 × 0.5 × cos 60°) = 13.22876 kN", true, true},
		{"anchor = 10 kN × √(1 + (0.5)² + 2 × 0.5 × cos 60°) = 13.22879 kN", true, false},
		{"low hold = 0.65 × (the lower of 3 kN·m and 2 kN·m) ÷ 1 m = 1.3 kN", false, true},
		{"push = ½ × 1000 kg/m³ × 2 m × (3 m/s)² = 9 kN", true, true},
		{"stem = 2 × 3^2 × 0.5 = 9 kg", true, true},
		{"pull = 42.0 kN × (0.08 m + 10 mm) ÷ (0.08 m + 3 × 10 mm) = 34.3 kN", false, true},
		{"share = −0 − 0.5 = -0.5", true, true},
		{"it slides at 3 kN 4 kN = 12 kN", false, false},
		{"force on the sling = 24.1 kN", false, false},
		{"no equals sign", false, false},
	} {
		err := recompute(c.line, c.long)
		assert.Equal(t, c.good, err == nil, "%s: %v", c.line, err)
	}
}
