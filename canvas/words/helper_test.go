package words

import (
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// plain is s with ordinary spaces.
func plain(s string) string { return quantity.PlainSpaces(s) }

func ids(all ...plan.ID) []plan.ID { return all }

// called names things: id, name, id, name, …
func called(pairs ...string) Names {
	m := map[plan.ID]string{}
	for i := 0; i+1 < len(pairs); i += 2 {
		m[plan.ID(pairs[i])] = pairs[i+1]
	}
	return func(id plan.ID) string { return m[id] }
}

func force(name string, n float64) part.Value {
	return part.Value{Name: name, Unit: part.UnitForce, X: n}
}
func limit(name string, n float64) part.Value {
	return part.Value{Name: name, Unit: part.UnitLimit, X: n}
}
func metres(name string, m float64) part.Value {
	return part.Value{Name: name, Unit: part.UnitLength, X: m}
}
