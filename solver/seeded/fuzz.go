package seeded

import (
	"fmt"
	"io/fs"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"kedge/assets"
	"kedge/solver/plan"
)

// fuzzedBytes bounds what is read as a plan under fuzzing: far more than any seed,
// small enough for a quick answer. (ours)
const fuzzedBytes = 1 << 16

// mostTwists bounds what a fuzzed plan differs in from the one it is made of. (ours)
const mostTwists = 24

// twisted is how many inputs each fuzz target begins with that are no file but a
// list of twists. (ours)
const twisted = 8

// examples are the program's plans that fuzzed ones are made of.
var examples = []string{"straight", "redirect", "doubled"}

// Inputs are what a fuzz target over plans begins with: files, and lists of twists.
func Inputs(t testing.TB) (all [][]byte) {
	for _, name := range examples {
		data, err := fs.ReadFile(assets.Plans(), name+".kedge")
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, data)
	}
	r := rand.NewChaCha8([32]byte{1})
	for i := range twisted {
		data := make([]byte, 4+6*i)
		_, _ = r.Read(data) // of a ChaCha8 it never fails
		all = append(all, data)
	}
	return all
}

// Fuzz tries what holds of every plan: it begins with [Inputs], and whatever bytes come,
// check gets the plan that they stand for.
func Fuzz(f *testing.F, check func(t *testing.T, p *plan.Plan)) {
	f.Helper()
	for _, data := range Inputs(f) {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) { check(t, Fuzzed(t, data)) })
}

// Fuzzed is the plan that a fuzz target's bytes stand for, so that every input is one:
// the one they are the file of; of others, bytes choose an example or a plan as people
// rig them, and what of its figures, words and hook-on points to set to what.
func Fuzzed(t *testing.T, data []byte) *plan.Plan {
	t.Helper()
	if len(data) > fuzzedBytes {
		t.Skip("too long")
	}
	if p, err := plan.ParsePlan(data); err == nil {
		return p
	}
	pick := func(n int) (x int) {
		for most := 1; most < n && len(data) > 0; most <<= 8 {
			x, data = x<<8|int(data[0]), data[1:]
		}
		return x % n
	}
	var p *plan.Plan
	if i := pick(1 << 16); i < len(examples) {
		p = Example(t, examples[i])
	} else {
		p, _ = Plan(uint64(i), nil)
	}
	all := Leaves(p)
	for i := 0; i < mostTwists && len(data) > 0; i++ {
		Twist(p, all, pick)
	}
	file, err := plan.FormatPlan(p)
	if err != nil {
		t.Fatal(err)
	}
	if p, err = plan.ParsePlan(file); err != nil {
		t.Fatal(err)
	}
	return p
}

// NotANumber is the place of the first figure of an answer that is NaN or infinite;
// empty: none is.
func NotANumber(answer any) string { return notANumber(reflect.ValueOf(answer), "") }

func notANumber(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			return path
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if bad := notANumber(v.Field(i), path+"."+v.Type().Field(i).Name); bad != "" {
				return bad
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if bad := notANumber(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); bad != "" {
				return bad
			}
		}
	}
	return ""
}
