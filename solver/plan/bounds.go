package plan

import (
	"math"
	"reflect"

	"kedge/solver/quantity"
)

// bound is what a number may be. The bounds are wide: they catch a slipped
// decimal point or a wrong unit, not an unwise pull.
type bound struct {
	low, high         float64 // inclusive
	least             float64 // smallest size above zero; zero itself means "not known"
	unit              string
	lowText, highText string
	leastText         string
}

// Bounds by quantity and, where a member differs from the rest of its
// quantity, by member. All are our own judgement: the heaviest road-going
// recovery is some 100 t, the longest line some 100 m, and each bound leaves at
// least a factor of ten.
var (
	boundLength = bound{high: 1e5, least: 1e-3, unit: "m", lowText: "0 m", highText: "100 km", leastText: "1 mm"}
	boundOffset = bound{low: -1e5, high: 1e5, unit: "m", lowText: "-100 km", highText: "100 km"}
	boundWay    = bound{high: 1e5, unit: "m", lowText: "0 m", highText: "100 km"}
	boundPlace  = bound{low: -1e7, high: 1e7, unit: "m", lowText: "-10 000 km", highText: "10 000 km"} // grid northings reach 10 000 km
	boundMass   = bound{high: 1e6, unit: "kg", lowText: "0 kg", highText: "1 000 t"}
	boundForce  = bound{high: 1e8, unit: "N", lowText: "0 N", highText: "100 MN"}
	boundAngle  = bound{low: -360, high: 360, unit: "°", lowText: "-360°", highText: "360°"}
	boundSpeed  = bound{high: 100, unit: "m/s", lowText: "0 m/s", highText: "100 m/s"}
	boundAmps   = bound{high: 1e5, unit: "A", lowText: "0 A", highText: "100 kA"}
	boundPerM   = bound{high: 1e3, unit: "kg/m", lowText: "0 kg/m", highText: "1 t/m"}
	boundPart   = bound{high: 1, lowText: "0", highText: "1"}
	boundFactor = bound{high: 100, lowText: "0", highText: "100"}
	boundPixel  = bound{high: 1e5, unit: "px", lowText: "0 px", highText: "100 000 px"}
	boundCount  = bound{high: 9999, lowText: "0", highText: "9999"}
	boundAny    = bound{low: -math.MaxFloat64, high: math.MaxFloat64}
)

var boundsByType = map[reflect.Type]bound{
	reflect.TypeFor[quantity.Length]():        boundLength,
	reflect.TypeFor[quantity.Mass]():          boundMass,
	reflect.TypeFor[quantity.Force]():         boundForce,
	reflect.TypeFor[quantity.Degrees]():       boundAngle,
	reflect.TypeFor[quantity.Speed]():         boundSpeed,
	reflect.TypeFor[quantity.Current]():       boundAmps,
	reflect.TypeFor[quantity.LinearDensity](): boundPerM,
	reflect.TypeFor[float64]():                boundAny,
	reflect.TypeFor[int]():                    boundCount,
}

var boundsByMember = map[string]bound{
	"ahead_m": boundOffset, "left_m": boundOffset, "rise_m": boundOffset, "z_m": boundOffset,
	"travel_shown_m": boundWay, "from_winch_m": boundWay, "doubt_m": boundWay, "sinkage_m": boundWay, "way_length_m": boundWay, "after_m": boundWay,
	"trust": boundPart, "prior": boundPart, "jerk_prior": boundPart, "none_prior": boundPart, "drop_m": boundOffset,
	"trace_m": boundWay, "x_m": boundPlace, "y_m": boundPlace,
	"slope_deg":         {high: 60, unit: "°", lowText: "0°", highText: "60°"},
	"max_angle_deg":     {high: 180, unit: "°", lowText: "0°", highText: "180°"},
	"origin_lat_deg":    {low: -90, high: 90, unit: "°", lowText: "-90°", highText: "90°"},
	"origin_lon_deg":    {low: -180, high: 180, unit: "°", lowText: "-180°", highText: "180°"},
	"stand_off_factor":  boundFactor,
	"breakaway_factor":  boundFactor,
	"stall_factor":      {high: 10, lowText: "0", highText: "10"},
	"ring_friction":     {high: 5, lowText: "0", highText: "5"},
	"efficiency":        boundPart,
	"winch_share":       boundPart,
	"share":             boundPart,
	"fade":              boundPart,
	"locked_wheels":     {high: 4, lowText: "0", highText: "4"},
	"min_wraps":         {high: 100, lowText: "0", highText: "100"},
	"metres_per_pixel":  {low: 1e-6, high: 1e3, unit: "m", lowText: "1 µm", highText: "1 km"},
	"right_px":          boundPixel,
	"down_px":           boundPixel,
	"stiffness_n_per_m": {high: 1e12, unit: "N/m", lowText: "0 N/m", highText: "1e12 N/m"},
	"stiffness_ae_n":    {high: 1e12, unit: "N", lowText: "0 N", highText: "1e12 N"},
	"version":           boundAny, "min_reader": boundAny,
}

func boundOf(t reflect.Type, member string) *bound {
	if of, ok := maybeOf(t); ok {
		t = of
	}
	b, ok := boundsByType[t]
	if !ok {
		return nil
	}
	if m, ok := boundsByMember[member]; ok {
		b = m
	}
	return &b
}

// check refuses x at path. Zero passes unless the bound is above it.
func (b *bound) check(path string, x float64) error {
	shown := func() string {
		if b.unit == "°" {
			return number(x) + b.unit
		}
		if b.unit == "" {
			return number(x)
		}
		return number(x) + " " + b.unit
	}
	switch {
	case math.IsNaN(x) || math.IsInf(x, 0):
		return notFinite.At(path, number(x))
	case x > b.high:
		return moreThan.At(path, shown(), b.highText)
	case x < b.low:
		return lessThan.At(path, shown(), b.lowText)
	case b.least > 0 && x != 0 && x < b.least:
		return lessThan.At(path, shown(), b.leastText)
	}
	return nil
}

// checkNumbers walks v, described by n, and refuses the first number out of
// its bounds.
func (n *node) checkNumbers(path string, v reflect.Value) error {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return nil
		}
		v = v.Elem()
	}
	if n.elem != nil {
		if n.elem.fields == nil && n.elem.elem == nil {
			return nil // a list of words
		}
		for i := range v.Len() {
			if err := n.elem.checkNumbers(at(path, i), v.Index(i)); err != nil {
				return err
			}
		}
		return nil
	}
	for _, f := range n.fields {
		x := v.FieldByIndex(f.index)
		var err error
		switch {
		case f.bound != nil && x.CanFloat():
			if y := x.Float(); y != 0 || f.bound.low > 0 {
				err = f.bound.check(path+"/"+f.name, y)
			}
		case f.bound != nil && f.maybe:
			m, _ := reflect.TypeAssert[maybe](x)
			if y, known := m.Figure(); known {
				err = f.bound.check(path+"/"+f.name, y)
			}
		case f.bound != nil && x.CanInt():
			err = f.bound.check(path+"/"+f.name, float64(x.Int()))
		case f.node.fields != nil || f.node.elem != nil:
			err = f.node.checkNumbers(path+"/"+f.name, x)
		}
		if err != nil {
			return err
		}
	}
	return nil
}
