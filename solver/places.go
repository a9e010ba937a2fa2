package solver

import (
	"kedge/solver/plan"
	"kedge/solver/zone"
)

// Places are up to three places each for an operator and a spotter, outside all zones and
// in sight of each other, of the winches and of the places of the casualty that are handed in;
// none where a zone is missing.
func (a *Assessment) Places(casualty []plan.Point) zone.Places {
	if len(a.Zones) == 0 || a.ZonesPartly() {
		return zone.Places{}
	}
	return zone.FindPlaces(a.around, casualty)
}

// Pockets are the outlines of the ground outside all zones but the stand-off that nobody can
// leave but through one.
func (a *Assessment) Pockets() [][]plan.Point {
	if len(a.Zones) == 0 {
		return nil
	}
	return zone.Pockets(a.around)
}
