package seeded

import (
	"reflect"

	"kedge/solver/plan"
)

// Strange is a word that no version knows. Where a sentence quotes it, it stands
// in brackets.
const Strange = "another"

// Leaves are the numbers, words, switches and hook-on points of a plan, all that may
// be set to something else. They stay the same ones whatever is set.
func Leaves(p *plan.Plan) []reflect.Value { return leaves(reflect.ValueOf(p).Elem()) }

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

// extremes are what somebody may type: nothing, far too little, far too much.
var extremes = []float64{0, 1e-3, 0.01, 0.1, 0.5, 1, 2, 10, 45, 60, 89, 90, 91, 180, 359, 1000, 1e4, 1e5, 1e6, 1e8, -1, -45, -90}

// figured is a figure of which zero is a value, a [plan.Maybe].
type figured interface{ SetFigure(x float64) }

// thousandths are the steps in which a figure is scaled, up to the threefold.
const thousandths = 1000

// Twist sets one of all leaves of a plan to something else that somebody may type:
// another figure, no figure, a word that nobody knows, the point where another thing is
// hooked on. It is drawn by pick, below n. Where the plan could not be kept then it
// stays as it is.
func Twist(p *plan.Plan, all []reflect.Value, pick func(n int) int) {
	v := all[pick(len(all))]
	was := reflect.New(v.Type()).Elem()
	was.Set(v)
	twist(v, all, pick)
	if plan.Validate(p) != nil {
		v.Set(was)
	}
}

func twist(v reflect.Value, all []reflect.Value, pick func(n int) int) {
	if m, ok := v.Addr().Interface().(figured); ok {
		if m.SetFigure(extremes[pick(len(extremes))]); pick(2) == 0 {
			v.SetZero()
		}
		return
	}
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); pick(2) == 0 {
			v.SetFloat(x * float64(pick(3*thousandths+1)) / thousandths)
		} else {
			v.SetFloat(extremes[pick(len(extremes))])
		}
	case reflect.Int:
		v.SetInt(int64(pick(6)))
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.String:
		v.SetString([]string{"", Strange}[pick(2)])
	default: // a port: where another one is, or nowhere
		if w := all[pick(len(all))]; w.Type() == v.Type() {
			v.Set(w)
		} else {
			v.SetZero()
		}
	}
}
