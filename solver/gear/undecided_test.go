package gear_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// A rule that lacks one of its own inputs says so, names the member, and passes
// nothing; with all of them it says nothing of the kind.
func TestRulesThatLackTheirInputs(t *testing.T) {
	bent := func(change func(*plan.Line, *gear.Bend)) func(findings) {
		return func(f findings) {
			l, b := hmpe(), gear.Bend{Thing: "B1", Turn: 90, Diameter: 0.12, Member: "sheave_diameter_m"}
			change(l, &b)
			gear.Stretch(gear.StretchIn{Line: l, OnWinch: true, Bends: [2]gear.Bend{{}, b}}, nil, f)
		}
	}
	ran := func(change func(*plan.Winch, *gear.RunIn)) func(findings) {
		return func(f findings) {
			w := winch()
			w.NoLoadSpeed, w.LoadSpeed = 0.15, 0.025
			in := gear.RunIn{Vehicle: "V1", Winch: w, Line: hmpe(), Layer: 1, Tension: 5 * kN, Haul: 1}
			change(w, &in)
			gear.Running(in, nil, f)
		}
	}
	led := func(change func(*gear.FairleadIn)) func(findings) {
		return func(f findings) {
			in := gear.FairleadIn{Vehicle: "V1", Winch: winch(), Tension: 20 * kN, Lead: 3, Side: 3, Guide: 9}
			change(&in)
			gear.Fairlead(in, nil, f)
		}
	}
	front := func(change func(*plan.RecoveryPoint, *gear.PointIn)) func(findings) {
		return func(f findings) {
			p := point()
			in := gear.PointIn{Vehicle: "V1", Part: "V1/front", Point: p, Off: 10}
			change(p, &in)
			gear.RecoveryPoint(in, nil, f)
		}
	}
	for _, tt := range []struct {
		rule, member string
		thing        plan.ID
		lacks, knows func(findings)
	}{
		{"line-too-thick", "line_max_m", "B1", blockOf(func(b *plan.Block, _ *plan.Line) { b.LineMax = 0 }), blockOf(func(*plan.Block, *plan.Line) {})},
		{"line-too-thick", "diameter_m", "L1", blockOf(func(_ *plan.Block, l *plan.Line) { l.Diameter = 0 }), blockOf(func(*plan.Block, *plan.Line) {})},
		{"line-too-thin", "line_min_m", "B1", blockOf(func(b *plan.Block, _ *plan.Line) { b.LineMin = 0 }), blockOf(func(*plan.Block, *plan.Line) {})},
		{"line-too-thin", "diameter_m", "L1", blockOf(func(_ *plan.Block, l *plan.Line) { l.Diameter = 0 }), blockOf(func(*plan.Block, *plan.Line) {})},
		{"sheave-smaller-than-line", "sheave_diameter_m", "B1", blockOf(func(b *plan.Block, _ *plan.Line) { b.Sheave = 0 }), blockOf(func(*plan.Block, *plan.Line) {})},
		{"sheave-smaller-than-line", "diameter_m", "L1", blockOf(func(_ *plan.Block, l *plan.Line) { l.Diameter = 0 }), blockOf(func(*plan.Block, *plan.Line) {})},
		{"sheave-small", "sheave_diameter_m", "B1", blockOf(func(b *plan.Block, _ *plan.Line) { b.Sheave = 0 }),
			blockOf(func(b *plan.Block, l *plan.Line) { b.Sheave, l.Material = 0, plan.MaterialWire })}, // no such rule for wire
		{"ring-rubs", "kind", "B1", blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind = "" }), blockOf(func(*plan.Block, *plan.Line) {})},
		{"ring-rubs", "kind", "B1", blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind = "capstan" }), blockOf(func(*plan.Block, *plan.Line) {})},
		{"line-too-thick", "line_max_m", "B1", blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind, b.LineMax = "", 0 }),
			blockOf(func(b *plan.Block, _ *plan.Line) { b.Kind, b.LineMax = plan.BlockRing, 0 })}, // a ring has no cheeks

		{"bend-too-sharp", "sheave_diameter_m", "B1", bent(func(_ *plan.Line, b *gear.Bend) { b.Diameter = 0 }), bent(func(*plan.Line, *gear.Bend) {})},
		{"bend-too-sharp", "diameter_m", "L1", bent(func(l *plan.Line, _ *gear.Bend) { l.Diameter = 0 }), bent(func(*plan.Line, *gear.Bend) {})},
		{"bend-too-sharp", "diameter_m", "L1", bent(func(l *plan.Line, _ *gear.Bend) { l.Diameter = 0 }), bent(func(l *plan.Line, b *gear.Bend) { l.Diameter, b.Turn = 0, 0 })},

		{"drum-overfull", "winch.flange_diameter_m", "V1", winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.FlangeDiameter = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"drum-impossible", "winch.flange_diameter_m", "V1", winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.FlangeDiameter = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"drum-overfull", "winch.drum_width_m", "V1", winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.DrumWidth = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"winch-over", "winch.drum_diameter_m", "V1", winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.DrumDiameter = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"winch-over", "diameter_m", "L1", winchOf(20, func(_ *plan.Winch, l *plan.Line) { l.Diameter = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"winch-over", "winch.line_pull_n", "V1", winchOf(20, func(w *plan.Winch, _ *plan.Line) { w.LinePull = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"line-short", "length_m", "L1", winchOf(20, func(_ *plan.Winch, l *plan.Line) { l.Length = 0 }), winchOf(20, func(*plan.Winch, *plan.Line) {})},
		{"line-short", "winch.drum_diameter_m", "V1", winchOf(35, drumGone), winchOf(30, drumGone)}, // long enough for any drum

		{"winch-duty", "winch.no_load_speed_m_per_s", "V1", ran(func(w *plan.Winch, _ *gear.RunIn) { w.NoLoadSpeed = 0 }), ran(func(*plan.Winch, *gear.RunIn) {})},
		{"winch-duty", "winch.load_speed_m_per_s", "V1", ran(func(w *plan.Winch, _ *gear.RunIn) { w.LoadSpeed = 0 }), ran(func(*plan.Winch, *gear.RunIn) {})},
		{"winch-duty", "winch.drum_diameter_m", "V1", ran(func(w *plan.Winch, in *gear.RunIn) { w.DrumDiameter, in.Layer = 0, 0 }), ran(func(*plan.Winch, *gear.RunIn) {})},
		{"winch-duty", "length_m", "L1", ran(func(_ *plan.Winch, in *gear.RunIn) { in.Line.Length, in.Layer = 0, 0 }), ran(func(*plan.Winch, *gear.RunIn) {})},
		{"winch-duty", "winch.no_load_speed_m_per_s", "V1", ran(func(w *plan.Winch, _ *gear.RunIn) { w.NoLoadSpeed = 0 }),
			ran(func(w *plan.Winch, _ *gear.RunIn) { w.NoLoadSpeed, w.Drive = 0, "hydraulic" })}, // no motor to heat

		{"fleet-angle", "winch.drum_width_m", "V1", led(func(in *gear.FairleadIn) { in.Winch.NoFairlead, in.Winch.DrumWidth = true, 0 }), led(func(in *gear.FairleadIn) { in.Winch.NoFairlead = true })},
		{"winch-lead", "winch.axis_deg", "V1", led(func(in *gear.FairleadIn) { in.Assumed = true }), led(func(*gear.FairleadIn) {})},
		{"fleet-angle", "winch.axis_deg", "V1", led(func(in *gear.FairleadIn) { in.Winch.NoFairlead, in.Assumed = true, true }), led(func(in *gear.FairleadIn) { in.Winch.NoFairlead = true })},

		{"point-side-pull", "recovery_points.front.axis_deg", "V1", front(func(_ *plan.RecoveryPoint, in *gear.PointIn) { in.Assumed = true }), front(func(*plan.RecoveryPoint, *gear.PointIn) {})},
		{"over-limit", "recovery_points.front.rating.force_n", "V1", front(func(p *plan.RecoveryPoint, _ *gear.PointIn) { p.Rating = plan.Rating{} }), front(func(*plan.RecoveryPoint, *gear.PointIn) {})},
		{"not-a-pulling-point", "recovery_points.front.kind", "V1", front(func(p *plan.RecoveryPoint, _ *gear.PointIn) { p.Kind = "" }), front(func(*plan.RecoveryPoint, *gear.PointIn) {})},

		{"over-limit", "rating.force_n", "L1", stretchOf(func(l *plan.Line) { l.Rating = plan.Rating{} }, gear.StretchIn{}), stretchOf(same, gear.StretchIn{})},
		{"over-limit", "material", "L1", stretchOf(func(l *plan.Line) { l.Material = "" }, gear.StretchIn{}), stretchOf(same, gear.StretchIn{})},
		{"over-limit", "condition", "L1", stretchOf(func(l *plan.Line) { l.Condition = "" }, gear.StretchIn{}), stretchOf(same, gear.StretchIn{})},
		{"over-limit", "end_fitting", "L1", stretchOf(func(l *plan.Line) { l.End = "" }, gear.StretchIn{End: true}), stretchOf(same, gear.StretchIn{End: true})},
		{"over-limit", "material", "S1", slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Material = "" }), slingOf(plan.HitchBasket, 0.24, same)},
		{"over-limit", "condition", "S1", slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Condition = "" }), slingOf(plan.HitchBasket, 0.24, same)},
		{"over-limit", "length_m", "S1", slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Length = 0 }), slingOf(plan.HitchBasket, 0.24, same)},
		{"over-limit", "trunk_m", "T1", slingOf(plan.HitchBasket, 0, func(s *plan.Sling) { s.On = plan.Port{Thing: "T1"} }), slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.On = plan.Port{Thing: "T1"} })},
		{"sling-wire-bent", "width_m", "S1", slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Material, s.Width = plan.MaterialWire, 0 }), slingOf(plan.HitchBasket, 0.24, func(s *plan.Sling) { s.Material, s.Width = plan.MaterialWire, 0.02 })},
		{"sling-straight-on-trunk", "hitch", "S1", slingIs(plan.HitchDefault, true), slingIs(plan.HitchBasket, true)},
		{"sling-trunk-unknown", "hitch", "S1", slingIs(plan.HitchDefault, false), slingIs(plan.HitchStraight, false)},
		{"extension-hitch", "hitch", "S1", extends(plan.HitchDefault), extends(plan.HitchStraight)},
		{"over-limit", "kind", "K1", shackleOf(func(s *plan.Shackle) { s.Kind = "" }, gear.ShackleIn{}), shackleOf(same, gear.ShackleIn{})},
	} {
		t.Run(tt.rule+" "+tt.member, func(t *testing.T) {
			names := func(run func(findings)) (level part.Level, named bool) {
				var found []part.Finding
				run(&found)
				documented(t, found)
				for _, f := range found {
					for _, l := range f.Lacks {
						if l == (part.Lack{Thing: tt.thing, Member: tt.member, Rule: tt.rule}) {
							require.NotEmpty(t, f.Things)
							return f.Level, true
						}
					}
				}
				return 0, false
			}
			level, named := names(tt.lacks)
			require.True(t, named, "not said")
			assert.GreaterOrEqual(t, level, part.Caution)
			_, named = names(tt.knows)
			assert.False(t, named, "said of what is known")
		})
	}
}

// A point of an unknown direction takes no more than one pulled off it as far as
// it may be: 70 % where its tag is silent [ours].
func TestPointOfUnknownDirection(t *testing.T) {
	p := point()
	in := gear.PointIn{Vehicle: "V1", Part: "V1/front", Point: p, Off: 2, Assumed: true}
	inDelta(t, 28e3, float64(gear.RecoveryPoint(in, nil, nil).Limit.Force), 1e-6)
	p.MaxAngle = 45
	inDelta(t, 40e3, float64(gear.RecoveryPoint(in, nil, nil).Limit.Force), 1e-6, "its tag allows 45°")
}

// A word that is not known never raises a limit over what any known word gives.
func TestUnknownWordsNeverRaise(t *testing.T) {
	const strange = "another"
	s := web()
	for _, onTrunk := range []bool{true, false} {
		in := round(s, strange, 0.24, 1000)
		in.OnTrunk = onTrunk
		assert.False(t, gear.Sling(in, nil, nil).Limit.Known, "a hitch nobody knows")
	}
	// 140° between the lines: the line of a block rated on each line reaches its 80
	// kN at a load of 80·(2·cos 70°) on the hanger, under 80 kN.
	load := 2 * 40 * kN * quantity.Force(math.Cos(70*math.Pi/180))
	for _, on := range []string{"", strange} {
		b := block()
		b.RatingOn = on
		c := gear.Block(gear.BlockIn{Block: b, Line: hmpe(), Load: load, Tension: 40 * kN, Between: 140}, nil, nil)
		inDelta(t, 2*float64(load), float64(c.Limit.Force), 1e-6, "the lower of both readings")
	}
	w := winch()
	w.NoLoadSpeed, w.LoadSpeed, w.Drive = 0.15, 0.025, strange
	var found []part.Finding
	gear.Running(gear.RunIn{Vehicle: "V1", Winch: w, Line: hmpe(), Layer: 1, Tension: 40 * kN, Haul: 10}, nil, &found)
	_, raised := levelOf(found, "winch-duty")
	assert.True(t, raised, "a drive nobody knows counts as electric")
	assert.Equal(t, 10, gear.LeastWraps(&plan.Winch{}, strange))
	assert.LessOrEqual(t, gear.SheaveEfficiency(&plan.Block{Kind: strange}), gear.SheaveEfficiency(&plan.Block{Kind: plan.BlockRoller}))
	assert.GreaterOrEqual(t, gear.RingFriction(&plan.Block{}, &plan.Line{Material: strange}), gear.RingFriction(&plan.Block{}, &plan.Line{Material: plan.MaterialHMPE}))
	assert.False(t, gear.Static(strange))
}

// slingIs is a sling whose plan says so of its hitch, laid as a plan counts it.
func slingIs(said string, trunk bool) func(findings) {
	return func(f findings) {
		hitch := plan.HitchStraight
		if trunk {
			hitch = plan.HitchBasket
		}
		in := round(web(), hitch, 0.24, 1000)
		in.Sling.Hitch, in.OnTrunk = said, trunk
		gear.Sling(in, nil, f)
	}
}

func extends(said string) func(findings) {
	return func(f findings) {
		s := web()
		s.Hitch = said
		gear.Extension(gear.ExtensionIn{Sling: s, Part: "S1"}, f)
	}
}
