package seeded

import (
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Pickup is the casualty, its resistance measured.
func Pickup() plan.Vehicle {
	return plan.Vehicle{
		Head: plan.Head{ID: "V1", Name: "Survey pickup"}, At: plan.Point{}, Bearing: 90,
		Length: 5.2, Width: 1.9, Height: 1.9, Mass: 1600, Wheelbase: 2.85, FrontOverhang: 0.95, Track: 1.58,
		CGHeight: 0.75, CGBehindFront: 1.4, Brake: plan.BrakeNone,
		Recovery: []plan.RecoveryPoint{VehiclePoint("front", 2.6, 0, 0), VehiclePoint("rear", -2.6, 0, 180)},
		Stuck:    &plan.Stuck{Way: plan.WayForward, WayLength: 2, Depth: plan.DepthNone, Measured: 2000, Breakaway: 1},
	}
}

// Truck is the puller, braked and chocked on every wheel.
func Truck() plan.Vehicle {
	return plan.Vehicle{
		Head: plan.Head{ID: "V2", Name: "Wardens' truck"}, At: plan.Point{X: 20, Y: 18}, Bearing: 180,
		Length: 6, Width: 2.2, Height: 2.6, Mass: 7500, Wheelbase: 3.6, FrontOverhang: 1.1, Track: 1.8,
		CGHeight: 1, CGBehindFront: 1.8, Brake: plan.BrakeAll, Chocks: plan.ChocksAll,
		Recovery: []plan.RecoveryPoint{VehiclePoint("front", 3, 0.5, 0), VehiclePoint("rear", -3, 0, 180)},
		Winch: &plan.Winch{
			Ahead: 3, Left: plan.Known(quantity.Length(0)), Height: 0.6, Axis: plan.Known(quantity.Degrees(0)), LinePull: 42000, Limiter: 4000, DrumDiameter: 0.08, DrumWidth: 0.23, FlangeDiameter: 0.2,
			NoLoadSpeed: 0.15, LoadSpeed: 0.025, NoLoadCurrent: 70, LoadCurrent: 420, Drive: "electric", Control: plan.ControlWireless,
		},
	}
}

// VehiclePoint is a rated recovery point, 0.6 m up.
func VehiclePoint(id plan.ID, ahead, left quantity.Length, axis quantity.Degrees) plan.RecoveryPoint {
	return plan.RecoveryPoint{ID: id, Kind: plan.PointRated, Ahead: ahead, Left: plan.Known(left), Height: 0.6, Axis: plan.Known(axis), MaxAngle: 45, Rating: Working(40000)}
}

// WinchLine is a spliced line of 40 m, with a hook.
func WinchLine(id plan.ID, path ...plan.Port) plan.Line {
	return plan.Line{
		Head: plan.Head{ID: id}, Path: path, Material: plan.MaterialHMPE, Diameter: 0.01, Length: 40,
		Rating: plan.Rating{Force: 95000, Basis: plan.BasisBreaking}, End: "end.hmpe-splice", Condition: plan.ConditionUsed,
		Connector: plan.Connector{Kind: plan.ConnectorHook, Rating: Working(40000)},
	}
}

// Block is a roller block.
func Block(id plan.ID, x, y float64) plan.Block {
	return plan.Block{
		Head: plan.Head{ID: id}, Kind: plan.BlockRoller, At: plan.Point{X: x, Y: y}, Rating: Working(80000), RatingOn: plan.RatedHanger,
		Sheave: 0.12, LineMin: 0.008, LineMax: 0.012, Efficiency: 0.96, HeadLength: 0.1, Mass: 4,
	}
}

// Strap is a web sling of 2 m, straight.
func Strap(id plan.ID, on, holds plan.Port) plan.Sling {
	return plan.Sling{
		Head: plan.Head{ID: id}, On: on, Holds: holds, Hitch: plan.HitchStraight, Material: plan.MaterialWeb, Standard: "EN",
		Length: 2, Width: 0.06, Rating: Working(40000), Condition: plan.ConditionUsed,
	}
}

// Working is a working limit.
func Working(n quantity.Force) plan.Rating { return plan.Rating{Force: n, Basis: plan.BasisWorking} }

// Port is a place on a thing.
func Port(thing, point plan.ID) plan.Port { return plan.Port{Thing: thing, Point: point} }
