package solver_test

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"kedge/solver"
	"kedge/solver/plan"
)

// leaves are the numbers, words, switches and hook-on points of a plan.
func leaves(v reflect.Value) (all []reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			return leaves(v.Elem())
		}
	case reflect.Struct:
		if _, may := v.Addr().Interface().(figured); may || v.Type() == reflect.TypeFor[plan.Port]() {
			return []reflect.Value{v}
		}
		for i := range v.NumField() {
			switch v.Type().Field(i).Name {
			case "ID", "Name", "Extra", "Presets", "Title", "TitleInfo", "Format", "Version", "MinReader", "App", "Member":
			default:
				all = append(all, leaves(v.Field(i))...)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			all = append(all, leaves(v.Index(i))...)
		}
	case reflect.Float64, reflect.Int, reflect.String, reflect.Bool:
		return []reflect.Value{v}
	}
	return all
}

// strange is a word that no version knows. Where a sentence quotes it, it stands
// in brackets.
const strange = "another"

// extremes are what somebody may type: nothing, far too little, far too much.
var extremes = []float64{0, 1e-3, 0.01, 0.1, 0.5, 1, 2, 10, 45, 60, 89, 90, 91, 180, 359, 1000, 1e4, 1e5, 1e6, 1e8, -1, -45, -90}

// figured is a figure of which zero is a value, a [plan.Maybe].
type figured interface{ SetFigure(x float64) }

// twist sets one leaf to something else a plan may hold.
func twist(t *rapid.T, p *plan.Plan) {
	all := leaves(reflect.ValueOf(p).Elem())
	v := all[rapid.IntRange(0, len(all)-1).Draw(t, "leaf")]
	if m, ok := v.Addr().Interface().(figured); ok {
		if m.SetFigure(rapid.SampledFrom(extremes).Draw(t, "number")); rapid.Bool().Draw(t, "not known") {
			v.SetZero()
		}
		return
	}
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); rapid.Bool().Draw(t, "scaled") {
			v.SetFloat(x * rapid.Float64Range(0, 3).Draw(t, "times"))
		} else {
			v.SetFloat(rapid.SampledFrom(extremes).Draw(t, "number"))
		}
	case reflect.Int:
		v.SetInt(int64(rapid.IntRange(0, 5).Draw(t, "count")))
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.String:
		v.SetString(rapid.SampledFrom([]string{"", strange}).Draw(t, "word"))
	default: // a port: where another one is, or nowhere
		w := all[rapid.IntRange(0, len(all)-1).Draw(t, "port of")]
		if w.Type() == v.Type() {
			v.Set(w)
		} else {
			v.SetZero()
		}
	}
}

// Whatever figures, words and hook-on points a plan that can be read holds, its
// answer is sound and nothing without a rating is within one.
func TestAnyTwistIsSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyMixture(t)
		for range rapid.IntRange(1, 5).Draw(t, "twists") {
			twist(t, p)
		}
		data, err := plan.FormatPlan(p)
		if err != nil {
			t.Skip("refused")
		}
		if p, err = plan.ParsePlan(data); err != nil {
			t.Skip("refused")
		}
		a := solver.Assess(p, "R1")
		if fault := unsound(a); fault != "" {
			t.Fatal(fault)
		}
		checkFindings(t, p, a)
		for id, none := range withoutRating(p) {
			if q, ok := a.Part(id); ok && none && q.Limit.Known {
				t.Fatalf("%s has a limit of %v and no rating", id, q.Limit.Force)
			}
		}
	})
}
