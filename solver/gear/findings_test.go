package gear_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

type findings = *[]part.Finding

// stretchOf, slingOf … run one rule on a changed piece.
func stretchOf(change func(*plan.Line), in gear.StretchIn) func(findings) {
	return func(f findings) {
		in.Line = hmpe()
		change(in.Line)
		gear.Stretch(in, nil, f)
	}
}

func slingOf(hitch string, radius quantity.Length, change func(*plan.Sling)) func(findings) {
	return func(f findings) {
		s := web()
		change(s)
		gear.Sling(round(s, hitch, radius, 1000), nil, f)
	}
}

func connectorOf(r plan.Rating) func(findings) {
	return func(f findings) { gear.Connector(gear.ConnectorIn{Line: hooked("", r)}, nil, f) }
}

func shackleOf(change func(*plan.Shackle), in gear.ShackleIn) func(findings) {
	return func(f findings) {
		in.Shackle = bow()
		change(in.Shackle)
		gear.Shackle(in, nil, f)
	}
}

func blockOf(change func(*plan.Block, *plan.Line)) func(findings) {
	return func(f findings) {
		b, l := block(), hmpe()
		change(b, l)
		gear.Block(gear.BlockIn{Block: b, Line: l, Load: 10 * kN, Tension: 6 * kN}, nil, f)
	}
}

func pointOf(off quantity.Degrees, change func(*plan.RecoveryPoint)) func(findings) {
	return func(f findings) {
		p := point()
		change(p)
		gear.RecoveryPoint(gear.PointIn{Vehicle: "V1", Part: "V1/front", Point: p, Off: off}, nil, f)
	}
}

func winchOf(path quantity.Length, change func(*plan.Winch, *plan.Line)) func(findings) {
	return func(f findings) {
		w, l := winch(), hmpe()
		change(w, l)
		gear.Winch(gear.WinchIn{Vehicle: "V1", Winch: w, Line: l, Path: path}, nil, f)
	}
}

func leadOf(lead, side, guide float64, bare bool) func(findings) {
	return func(f findings) {
		w := winch()
		w.NoFairlead = bare
		gear.Fairlead(gear.FairleadIn{Vehicle: "V1", Winch: w, Tension: 20 * kN, Lead: quantity.Degrees(lead),
			Side: quantity.Degrees(side), Guide: quantity.Length(guide)}, nil, f)
	}
}

func stallOf(loadN, ultimateN quantity.Force) func(findings) {
	return func(f findings) {
		gear.StallCheck("V1", []part.Part{{ID: "L1/0", Thing: "L1", Kind: part.KindStretch,
			Stall:    part.Load{Known: true, Force: loadN},
			Ultimate: part.Range{Known: true, Low: ultimateN, Likely: ultimateN, High: ultimateN}}}, f)
	}
}

func runOf(haul quantity.Length, off bool, tension quantity.Force) func(findings) {
	return func(f findings) {
		w := winch()
		w.NoLoadSpeed, w.LoadSpeed, w.EngineOff = 0.15, 0.025, off
		gear.Running(gear.RunIn{Vehicle: "V1", Winch: w, Line: hmpe(), Layer: 1, Tension: tension, Haul: haul}, nil, f)
	}
}

func same[T any](*T) {} // leaves it as it is

// TestFindings raises each finding and clears it again just beyond its border.
func TestFindings(t *testing.T) {
	onWinch := gear.StretchIn{OnWinch: true, End: true}
	bend := func(d quantity.Length) gear.StretchIn {
		return gear.StretchIn{OnWinch: true, Bends: [2]gear.Bend{{}, {Thing: "B1", Turn: 90, Diameter: d}}}
	}
	seen := map[string]bool{}
	for _, tt := range []struct {
		id     string
		level  part.Level
		raises func(findings)
		clears func(findings)
	}{
		{"bend-too-sharp", part.Danger, stretchOf(same, bend(0.0099)), stretchOf(same, bend(0.0100))},
		{"bend-unknown", part.Notice, stretchOf(same, bend(0)), stretchOf(same, bend(0.08))},
		{"connector-assumed", part.Notice, connectorOf(plan.Rating{}), connectorOf(working(30))},
		// 10 mm of HMPE breaks at 90 kN (0.9 d², from memory): 1.5 times that as a working load (ours).
		{"connector-beyond-line", part.Warning, connectorOf(working(136)), connectorOf(working(134))},
		{"connector-beyond-line", part.Warning, connectorOf(breaking(676)), connectorOf(breaking(674))},
		{"end-unknown", part.Caution, stretchOf(func(l *plan.Line) { l.End = "" }, onWinch), stretchOf(same, onWinch)},
		{"kinetic-on-winch", part.Danger, stretchOf(func(l *plan.Line) { l.Material = plan.MaterialKinetic }, onWinch),
			stretchOf(func(l *plan.Line) { l.Material = plan.MaterialKinetic }, gear.StretchIn{})},
		{"line-condition-unknown", part.Warning, stretchOf(func(l *plan.Line) { l.Condition = "" }, onWinch), stretchOf(same, onWinch)},
		{"line-doubtful", part.Danger, stretchOf(func(l *plan.Line) { l.Condition = plan.ConditionDoubtful }, onWinch),
			stretchOf(func(l *plan.Line) { l.Condition = plan.ConditionUsed }, onWinch)},
		{"line-kinked", part.Danger, stretchOf(func(l *plan.Line) { l.Condition = plan.ConditionKinked }, onWinch), stretchOf(same, onWinch)},
		{"line-knot", part.Caution, stretchOf(func(l *plan.Line) { l.Knots = []string{"knot.bowline"} }, onWinch), stretchOf(same, onWinch)},
		{"line-material-unknown", part.Warning, stretchOf(func(l *plan.Line) { l.Material = "" }, onWinch), stretchOf(same, onWinch)},
		{"no-rating", part.Warning, stretchOf(func(l *plan.Line) { l.Rating = plan.Rating{} }, onWinch), stretchOf(same, onWinch)},
		// 10 mm HMPE: 1.5 · 90 kN, see the ratings by size.
		{"rating-beyond-size", part.Warning, stretchOf(func(l *plan.Line) { l.Rating = breaking(135.1) }, onWinch),
			stretchOf(func(l *plan.Line) { l.Rating = breaking(134.9) }, onWinch)},
		{"rating-odd", part.Warning, pointOf(0, func(q *plan.RecoveryPoint) { q.Rating = working(1001) }), pointOf(0, func(q *plan.RecoveryPoint) { q.Rating = working(999) })},
		{"rating-impossible", part.Danger, stretchOf(func(l *plan.Line) { l.Rating.Force = -1 }, onWinch), stretchOf(same, onWinch)},
		{"rating-impossible", part.Danger, stretchOf(func(l *plan.Line) { l.Rating.Force = quantity.Force(nan) }, onWinch), stretchOf(same, onWinch)},
		{"rating-unsaid", part.Notice, stretchOf(func(l *plan.Line) { l.Rating.Basis = "" }, onWinch), stretchOf(same, onWinch)},

		// r 0.24 m: 120° takes 1.534 m, 90° 1.611 m, the girth is 1.508 m.
		{"sling-opens-wide", part.Danger, slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Length = 1.533 }),
			slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Length = 1.535 })},
		{"sling-opens", part.Caution, slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Length = 1.610 }),
			slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Length = 1.612 })},
		{"sling-too-short", part.Danger, slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Length = 1.507 }),
			slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Length = 1.509 })},
		// Choke over 120° is full; 120° takes the loop of 60° half opening,
		// 2·0.24·(cot 60° + π/2 + π/3) = 1.534 m.
		{"sling-choke-tight", part.Caution, slingOf(plan.HitchChoked, 0.24, func(s *plan.Sling) { s.Length = 1.533 }),
			slingOf(plan.HitchChoked, 0.24, func(s *plan.Sling) { s.Length = 1.535 })},
		{"sling-condition-unknown", part.Warning, slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Condition = "" }), slingOf(plan.HitchBasket, 0.24, same)},
		{"sling-doubtful", part.Danger, slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Condition = plan.ConditionDoubtful }), slingOf(plan.HitchBasket, 0.24, same)},
		{"sling-kinked", part.Danger, slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Condition = plan.ConditionKinked }), slingOf(plan.HitchBasket, 0.24, same)},
		{"sling-length-unknown", part.Warning, slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Length = 0 }), slingOf(plan.HitchBasket, 0.24, same)},
		{"sling-material-unknown", part.Warning, slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Material = "" }), slingOf(plan.HitchBasket, 0.24, same)},
		{"sling-straight-on-trunk", part.Danger, slingOf(plan.HitchStraight, 0.24, same), slingOf(plan.HitchChoked, 0.24, same)},
		{"sling-trunk-unknown", part.Warning, slingOf(plan.HitchBasket, 0, same), slingOf(plan.HitchBasket, 0.24, same)},
		// 25 diameters of a 20 mm wire are 0.5 m of trunk.
		{"sling-wire-bent", part.Caution, slingOf(plan.HitchBasket, 0.249, func(s *plan.Sling) { s.Material, s.Width = plan.MaterialWire, 0.02 }),
			slingOf(plan.HitchBasket, 0.251, func(s *plan.Sling) { s.Material, s.Width = plan.MaterialWire, 0.02 })},

		{"shackle-side-pull", part.Caution, shackleOf(same, gear.ShackleIn{Off: 5.1}), shackleOf(same, gear.ShackleIn{Off: 5})},
		{"shackle-side-pull", part.Warning, shackleOf(same, gear.ShackleIn{Off: 45.1}), shackleOf(same, gear.ShackleIn{Off: 5})},
		{"shackle-side-pull", part.Danger, shackleOf(same, gear.ShackleIn{Off: 90.1}), shackleOf(same, gear.ShackleIn{Off: 0})},
		{"shackle-round-pin", part.Danger, shackleOf(func(s *plan.Shackle) { s.RoundPin = true }, gear.ShackleIn{Off: 5.1}),
			shackleOf(func(s *plan.Shackle) { s.RoundPin = true }, gear.ShackleIn{Off: 5})},
		{"shackle-legs-wide", part.Danger, shackleOf(same, gear.ShackleIn{Between: 120.1}), shackleOf(same, gear.ShackleIn{Between: 120})},
		{"shackle-dee-legs", part.Warning, shackleOf(func(s *plan.Shackle) { s.Kind = plan.ShackleDee }, gear.ShackleIn{Between: 30}), shackleOf(same, gear.ShackleIn{Between: 30})},
		{"shackle-kind-unknown", part.Warning, shackleOf(func(s *plan.Shackle) { s.Kind = "" }, gear.ShackleIn{}), shackleOf(same, gear.ShackleIn{})},
		{"shackle-pin-running", part.Danger, shackleOf(func(s *plan.Shackle) { s.PinIsRunning = true }, gear.ShackleIn{}), shackleOf(same, gear.ShackleIn{})},
		{"shackle-small", part.Caution, shackleOf(same, gear.ShackleIn{Line: 0.019}), shackleOf(same, gear.ShackleIn{Line: 0.0189})},
		{"shackle-unmarked", part.Notice, shackleOf(func(s *plan.Shackle) { s.Rating = plan.Rating{} }, gear.ShackleIn{}), shackleOf(same, gear.ShackleIn{})},
		{"soft-shackle-edge", part.Danger, shackleOf(func(s *plan.Shackle) { s.Kind = plan.ShackleSoft }, gear.ShackleIn{BearsOn: 0.0189}),
			shackleOf(func(s *plan.Shackle) { s.Kind = plan.ShackleSoft }, gear.ShackleIn{BearsOn: 0.019})},
		{"soft-shackle-edge-unknown", part.Notice, shackleOf(func(s *plan.Shackle) { s.Kind = plan.ShackleSoft }, gear.ShackleIn{}),
			shackleOf(func(s *plan.Shackle) { s.Kind = plan.ShackleSoft }, gear.ShackleIn{BearsOn: 0.03})},

		{"block-kind-unknown", part.Notice, blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind = "" }), blockOf(func(*plan.Block, *plan.Line) {})},
		// 12 mm of HMPE: 1.5 · 2 · 0.9 · 144 / 4 kN.
		{"block-rating-beyond", part.Warning, blockOf(func(b *plan.Block, _ *plan.Line) { b.LineMax, b.Rating = 0.012, working(97.5) }),
			blockOf(func(b *plan.Block, _ *plan.Line) { b.LineMax, b.Rating = 0.012, working(97) })},
		// A sheave loses 2 % at least (rigger's textbook p. 35).
		{"sheave-beyond-head", part.Warning, blockOf(func(b *plan.Block, _ *plan.Line) { b.Sheave, b.HeadLength = 0.201, 0.1 }), blockOf(func(b *plan.Block, _ *plan.Line) { b.Sheave, b.HeadLength = 0.199, 0.1 })},
		{"friction-odd", part.Caution, blockOf(func(b *plan.Block, _ *plan.Line) { b.Efficiency = 0.981 }), blockOf(func(b *plan.Block, _ *plan.Line) { b.Efficiency = 0.979 })},
		// HMPE in a ring rubs by 0.05 at least (from memory); half of that is no ring's. What may be one is asked as one.
		{"friction-odd", part.Caution, blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind, b.Friction = plan.BlockRing, 0.0249 }), blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind, b.Friction = plan.BlockRing, 0.0251 })},
		{"friction-odd", part.Caution, blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind, b.Efficiency, b.Friction = plan.BlockUnknown, 0, 0.0249 }), blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind, b.Efficiency, b.Friction = plan.BlockUnknown, 0, 0.0251 })},
		{"friction-odd", part.Caution, blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind, b.Efficiency = plan.BlockUnknown, 1.1 }), blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind, b.Efficiency = plan.BlockUnknown, 0 })},
		{"block-rating-place", part.Notice, blockOf(func(b *plan.Block, _ *plan.Line) { b.RatingOn = "" }), blockOf(func(*plan.Block, *plan.Line) {})},
		{"ring-rubs", part.Caution, blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind = plan.BlockRing }), blockOf(func(*plan.Block, *plan.Line) {})},
		{"line-too-thick", part.Danger, blockOf(func(b *plan.Block, _ *plan.Line) { b.LineMax = 0.0099 }), blockOf(func(b *plan.Block, _ *plan.Line) { b.LineMax = 0.010 })},
		{"line-too-thin", part.Warning, blockOf(func(b *plan.Block, _ *plan.Line) { b.LineMin = 0.0101 }), blockOf(func(b *plan.Block, _ *plan.Line) { b.LineMin = 0.010 })},
		{"sheave-smaller-than-line", part.Danger, blockOf(func(b *plan.Block, _ *plan.Line) { b.Sheave = 0.0099 }), blockOf(func(b *plan.Block, _ *plan.Line) { b.Sheave = 0.010 })},
		{"sheave-small", part.Caution, blockOf(func(b *plan.Block, _ *plan.Line) { b.Sheave = 0.079 }), blockOf(func(b *plan.Block, _ *plan.Line) { b.Sheave = 0.081 })},

		{"not-a-pulling-point", part.Danger, pointOf(0, func(p *plan.RecoveryPoint) { p.Kind = plan.PointTowBall }), pointOf(0, same)},
		{"point-kind-unknown", part.Warning, pointOf(0, func(p *plan.RecoveryPoint) { p.Kind = "" }), pointOf(0, same)},
		{"point-angle-odd", part.Warning, pointOf(0, func(p *plan.RecoveryPoint) { p.MaxAngle = 91 }), pointOf(0, func(p *plan.RecoveryPoint) { p.MaxAngle = 90 })},
		{"point-side-pull", part.Danger, pointOf(91, func(p *plan.RecoveryPoint) { p.MaxAngle = 180 }), pointOf(90, func(p *plan.RecoveryPoint) { p.MaxAngle = 180 })},
		{"point-side-pull", part.Warning, pointOf(15.1, same), pointOf(15, same)},
		{"point-side-pull", part.Danger, pointOf(45.1, same), pointOf(15, same)},
		{"point-side-pull", part.Danger, pointOf(60.1, func(p *plan.RecoveryPoint) { p.MaxAngle = 60 }), pointOf(60, func(p *plan.RecoveryPoint) { p.MaxAngle = 60 })},
		{"point-side-pull", part.Danger, pointOf(5.1, func(p *plan.RecoveryPoint) { p.Kind = plan.PointScrewEye }), pointOf(5, func(p *plan.RecoveryPoint) { p.Kind = plan.PointScrewEye })},
		{"screw-eye-steady", part.Notice, pointOf(0, func(p *plan.RecoveryPoint) { p.Kind = plan.PointScrewEye }), pointOf(0, same)},

		// Ten wraps on the barrel take 10·π·0.074 = 2.325 m of the 40 m.
		{"line-short", part.Danger, winchOf(37.68, func(*plan.Winch, *plan.Line) {}), winchOf(37.67, func(*plan.Winch, *plan.Line) {})},
		// Three are the fewest of any rule (WAC 296-870-70085).
		{"winch-speed-odd", part.Caution, winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.LoadSpeed, w.NoLoadSpeed = 0.16, 0.15 }), winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.LoadSpeed, w.NoLoadSpeed = 0.14, 0.15 })},
		{"wraps-few", part.Caution, winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.MinWraps = 2 }), winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.MinWraps = 3 })},
		{"line-length-unknown", part.Caution, winchOf(20, func(_ *plan.Winch, l *plan.Line) { l.Length = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"winch-layer-unknown", part.Caution, winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.DrumDiameter = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"drum-unknown", part.Notice, winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.DrumWidth = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"drum-impossible", part.Danger, winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.DrumWidth = 0.009 }), winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.DrumWidth = 0.010 })},
		{"drum-impossible", part.Danger, winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.FlangeDiameter = 0.064 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		// Flange 144 mm leaves 40 mm, less two diameters: two layers of 5.347 and 6.792 m.
		{"drum-overfull", part.Warning, winchOf(27.85, func(w *plan.Winch, _ *plan.Line) { w.FlangeDiameter = 0.1441 }),
			winchOf(27.87, func(w *plan.Winch, _ *plan.Line) { w.FlangeDiameter = 0.1441 })},
		{"winch-no-rating", part.Warning, winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.LinePull = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"rating-impossible", part.Danger, winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.LinePull = -4 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},

		{"winch-lead", part.Caution, leadOf(15.1, 0, 0, false), leadOf(15, 0, 0, false)},
		{"winch-lead", part.Warning, leadOf(30.1, 0, 0, false), leadOf(15, 0, 0, false)},
		{"winch-lead", part.Danger, leadOf(45.1, 0, 0, false), leadOf(15, 0, 0, false)},
		{"winch-piles-up", part.Notice, leadOf(5.1, -5.1, 0, false), leadOf(5, -5, 0, false)},
		// Half of 0.230 m at 1.5° is 4.391 m off, at 3° 2.194 m.
		{"fleet-angle", part.Caution, leadOf(0, 0, 4.38, true), leadOf(0, 0, 4.40, true)},
		{"fleet-angle", part.Warning, leadOf(0, 0, 2.19, true), leadOf(0, 0, 4.40, true)},

		// A drum that is not known: ten wraps take 1.885 to 6.723 m, see the winch.
		{"line-may-be-short", part.Caution, winchOf(34, func(w *plan.Winch, l *plan.Line) { drumGone(w, l) }), winchOf(33, func(w *plan.Winch, l *plan.Line) { drumGone(w, l) })},
		{"stall-factor-odd", part.Warning, winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.StallFactor = 1.61 }), winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.StallFactor = 1.6 })},
		{"stall-near", part.Caution, stallOf(74.9*kN, 100*kN), stallOf(49.9*kN, 100*kN)},
		{"stall-near", part.Warning, stallOf(75*kN, 100*kN), stallOf(49.9*kN, 100*kN)},
		{"stall-breaks", part.Danger, stallOf(100*kN, 100*kN), stallOf(99.9*kN, 100*kN)},

		{"winch-duty", part.Caution, runOf(1.6, false, 42*kN), runOf(1.4, false, 42*kN)}, // 0.025 m/s for 60 s is 1.5 m
		{"engine-off", part.Notice, runOf(1, true, 20*kN), runOf(1, false, 20*kN)},

		{"kinetic-energy", part.Danger,
			func(f findings) {
				gear.Kinetic(gear.KineticIn{Thing: "S2", Material: plan.MaterialKinetic, Tension: 30 * kN, Length: 9, Rating: breaking(110), OnWinch: true}, f)
			},
			func(f findings) {
				gear.Kinetic(gear.KineticIn{Thing: "S2", Material: plan.MaterialPolyester, Tension: 30 * kN, Length: 9, Rating: breaking(110), OnWinch: true}, f)
			}},
		{"kinetic-on-winch", part.Danger,
			func(f findings) {
				gear.Kinetic(gear.KineticIn{Thing: "S2", Material: plan.MaterialKinetic, OnWinch: true}, f)
			},
			func(f findings) { gear.Kinetic(gear.KineticIn{Thing: "S2", Material: plan.MaterialKinetic}, f) }},
		{"extension-stretches", part.Danger,
			func(f findings) {
				gear.Extension(gear.ExtensionIn{Sling: &plan.Sling{Head: plan.Head{ID: "S2"}, Material: plan.MaterialNylon}}, f)
			},
			func(f findings) { gear.Extension(gear.ExtensionIn{Sling: web()}, f) }},
		{"extension-hitch", part.Warning,
			func(f findings) {
				gear.Extension(gear.ExtensionIn{Sling: &plan.Sling{Head: plan.Head{ID: "S2"}, Material: plan.MaterialWeb, Hitch: plan.HitchChoked}}, f)
			},
			func(f findings) { gear.Extension(gear.ExtensionIn{Sling: web()}, f) }},
		{"line-join", part.Caution,
			func(f findings) {
				gear.Joint(&plan.Line{Head: plan.Head{ID: "L1"}, Joins: []plan.Join{{At: 12, Kind: "shackle", Mass: 1}}}, f)
			},
			func(f findings) { gear.Joint(hmpe(), f) }},
		{"line-cannot-pass", part.Warning,
			func(f findings) {
				gear.Passing(gear.PassIn{Line: "L1", What: "join", Item: 12, Block: 9, Name: "B1", Haul: 3}, f)
			},
			func(f findings) {
				gear.Passing(gear.PassIn{Line: "L1", What: "join", Item: 12, Block: 9, Name: "B1", Haul: 2.99}, f)
			}},
		{"line-cannot-pass", part.Danger,
			func(f findings) {
				gear.Passing(gear.PassIn{Line: "L1", What: "join", Item: 9.19, Block: 9, Name: "B1", Haul: 3}, f)
			},
			func(f findings) {
				gear.Passing(gear.PassIn{Line: "L1", What: "join", Item: 8.9, Block: 9, Name: "B1", Haul: 3}, f)
			}},
		{"bridle-wide", part.Danger, func(f findings) {
			gear.BridleLeg(gear.BridleIn{Thing: "S1", Load: 1000, Between: 120.1, Equal: true}, f)
		},
			func(f findings) {
				gear.BridleLeg(gear.BridleIn{Thing: "S1", Load: 1000, Between: 120, Equal: true}, f)
			}},
		{"bridle-fixed", part.Notice, func(f findings) { gear.BridleLeg(gear.BridleIn{Thing: "S1", Load: 1000, Between: 60}, f) },
			func(f findings) {
				gear.BridleLeg(gear.BridleIn{Thing: "S1", Load: 1000, Between: 60, Equal: true}, f)
			}},
		{"two-winches", part.Notice, func(f findings) { gear.TwoWinches("L1", 10*kN, 25*kN, f) }, func(f findings) { gear.TwoWinches("L1", 25*kN, 25*kN, f) }},
		{"tension-beyond-winch", part.Warning, // 1.3 times the rated pull at most (ours)
			func(f findings) {
				gear.TensionBeyond("V2", &plan.Winch{LinePull: 10 * kN}, &plan.Line{Fixed: 13.1 * kN}, f)
			},
			func(f findings) {
				gear.TensionBeyond("V2", &plan.Winch{LinePull: 10 * kN}, &plan.Line{Fixed: 12.9 * kN}, f)
			}},
		{"line-chafes", part.Caution, func(f findings) { gear.Contact(gear.ContactIn{Line: "L1", Thing: "T1", Wrap: 20}, f) },
			func(f findings) { gear.Contact(gear.ContactIn{Line: "L1", Thing: "T1", Wrap: 0.4}, f) }},
	} {
		t.Run(tt.id+" "+tt.level.String(), func(t *testing.T) {
			var raised, cleared []part.Finding
			tt.raises(&raised)
			level, ok := levelOf(raised, tt.id)
			require.True(t, ok, "not raised")
			assert.Equal(t, tt.level, level)
			documented(t, raised)
			tt.clears(&cleared)
			_, ok = levelOf(cleared, tt.id)
			assert.False(t, ok, "still raised beyond its border")
			documented(t, cleared)
			tt.raises(nil) // raises nothing, breaks nothing
			seen[tt.id] = true
		})
	}
	for _, r := range gear.Rules {
		assert.True(t, seen[r.ID], "no test raises %q", r.ID)
	}
}
