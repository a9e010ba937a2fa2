package seeded

import (
	"fmt"
	"io/fs"
	"math"
	"reflect"
	"testing"

	"kedge/assets"
	"kedge/solver/plan"
)

// fuzzedBytes bounds what is read as a plan under fuzzing: far more than any seed,
// small enough for a quick answer. (ours)
const fuzzedBytes = 1 << 16

// Bytes are those of one of the program's example plans, as a seed of a fuzz target.
func Bytes(t testing.TB, name string) []byte {
	t.Helper()
	data, err := fs.ReadFile(assets.Plans(), name+".kedge")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// Fuzzed is what a fuzz target's bytes say as a plan; nil: they are none.
func Fuzzed(t *testing.T, data []byte) *plan.Plan {
	t.Helper()
	if len(data) > fuzzedBytes {
		t.Skip("too long")
	}
	p, err := plan.ParsePlan(data)
	if err != nil {
		return nil
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
