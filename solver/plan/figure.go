package plan

import (
	"reflect"
	"strings"
)

// Figure is a member of a thing that is a figure.
type Figure struct {
	At    float64
	Known bool
	Whole bool            // it counts
	Set   func(x float64) // nil: there is none
}

// InnerOf is the part of a thing by its name in the file, of its recovery points the one
// whose id begins rest, which is cut off; invalid: there is none.
func InnerOf(thing reflect.Value, name string, rest *string) reflect.Value {
	for i := range thing.NumField() {
		tag, _, _ := strings.Cut(thing.Type().Field(i).Tag.Get("json"), ",")
		if tag != name {
			continue
		}
		f := thing.Field(i)
		if points, ok := f.Interface().([]RecoveryPoint); ok {
			for k := range points {
				if left, own := strings.CutPrefix(*rest, string(points[k].ID)+"."); own {
					*rest = left
					return f.Index(k)
				}
			}
			return reflect.Value{}
		}
		if f.Kind() == reflect.Pointer {
			f = f.Elem() // invalid of nil
		}
		return f
	}
	return reflect.Value{}
}

// FigureOf finds a figure of a thing that can be set by its name in the file, as in
// "casualty.breakaway_factor".
func FigureOf(thing reflect.Value, name string) Figure {
	first, rest, deeper := strings.Cut(name, ".")
	f := InnerOf(thing, first, &rest)
	switch {
	case !f.IsValid():
		return Figure{}
	case deeper && f.Kind() == reflect.Struct:
		return FigureOf(f, rest)
	case deeper:
		return Figure{}
	case f.Kind() == reflect.Float64:
		return Figure{f.Float(), true, false, f.SetFloat}
	case f.Kind() == reflect.Int:
		return Figure{float64(f.Int()), true, true, func(x float64) { f.SetInt(int64(x)) }}
	}
	if m, ok := f.Addr().Interface().(interface {
		Figure() (float64, bool)
		SetFigure(float64)
	}); ok {
		x, known := m.Figure()
		return Figure{x, known, false, m.SetFigure}
	}
	return Figure{}
}
