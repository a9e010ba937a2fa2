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

func TestStretchLimit(t *testing.T) {
	bends := func(d quantity.Length) [2]gear.Bend { return [2]gear.Bend{{Turn: 120, Diameter: d, Thing: "B1"}, {}} }
	for _, tt := range []struct {
		name   string
		line   func() *plan.Line
		in     gear.StretchIn
		wantKN float64
		basis  string
		source string
	}{
		{"half of breaking", hmpe, gear.StretchIn{OnWinch: true}, 45, "line 2:1", "Alberta OHS Code s.292: ÷ 2"},
		{"lifting a fifth", hmpe, gear.StretchIn{OnWinch: true, Lifting: true}, 18, "line 5:1", "same, hoist lines ÷ 5"},
		{"no winch a third", hmpe, gear.StretchIn{}, 30, "gear 3:1", "same, tuggers and guys ÷ 3"},
		{"HMPE at D/d 12 loses nothing", hmpe, gear.StretchIn{OnWinch: true, Bends: bends(0.12)}, 45, "line 2:1", "common practice, 8 and over"},
		{"HMPE at D/d 7.9 keeps 0.9", hmpe, gear.StretchIn{OnWinch: true, Bends: bends(0.079)}, 40.5, "line 2:1", "common practice, floor step"},
		{"HMPE round an unknown sheave keeps half", hmpe, gear.StretchIn{OnWinch: true, Bends: bends(0)}, 22.5, "line 2:1", "lowest of the table"},
		{"wire at D/d 12", wire, gear.StretchIn{OnWinch: true, Bends: bends(0.12)}, 69.8 / 2 * (1 - 0.5/math.Sqrt(12)), "line 2:1", "IMCA M 179"},
		{"wire, bend and sleeve: the worse", wire, gear.StretchIn{OnWinch: true, Bends: bends(0.12), End: true}, 69.8 / 2 * (1 - 0.5/math.Sqrt(12)), "line 2:1", "0027/ND 7.7.2: 0.856 under 0.95, not the product"},
		{"wire, sleeve only", wire, gear.StretchIn{OnWinch: true, End: true}, 69.8 / 2 * 0.95, "line 2:1", "TM 5-3810-305-10 Table 4: 0.95"},
		{"used and inspected", func() *plan.Line { l := hmpe(); l.Condition = plan.ConditionUsed; return l }, gear.StretchIn{OnWinch: true}, 45 * 0.85, "line 2:1", "condition [ours]"},
		{"wet nylon", func() *plan.Line { l := hmpe(); l.Material, l.Wet = plan.MaterialNylon, true; return l }, gear.StretchIn{OnWinch: true}, 45 * 0.85, "line 2:1", "UFC 4-159-03: 15 % when wet"},
		{"wet HMPE loses nothing", func() *plan.Line { l := hmpe(); l.Wet = true; return l }, gear.StretchIn{OnWinch: true}, 45, "line 2:1", "same note, nylon only"},
		{"knot in HMPE", func() *plan.Line { l := hmpe(); l.Knots = []string{"knot.bowline"}; return l }, gear.StretchIn{OnWinch: true}, 45 * 0.3, "line 2:1", "Oregon State University: 30 to 50 %"},
		{"worst of two knots", func() *plan.Line {
			l := hmpe()
			l.Material, l.Knots = plan.MaterialPolyester, []string{"knot.bowline", "knot.reef"}
			return l
		}, gear.StretchIn{OnWinch: true}, 45 * 0.45, "line 2:1", "1946 cordage tests: reef 45, bowline 60"},
		{"not said counts as breaking", func() *plan.Line { l := hmpe(); l.Rating.Basis = ""; return l }, gear.StretchIn{OnWinch: true}, 45, "line 2:1", "the lower reading"},
		{"working tag", func() *plan.Line { l := hmpe(); l.Rating = working(40); return l }, gear.StretchIn{OnWinch: true}, 40, "line tag", "the tag"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			tt.in.Line = tt.line()
			c := gear.Stretch(tt.in, nil, nil)
			require.True(t, c.Limit.Known)
			inDelta(t, tt.wantKN*1e3, float64(c.Limit.Force), 1e-6, tt.source)
			assert.Equal(t, tt.basis, c.Limit.Basis)
			assert.LessOrEqual(t, c.Limit.Force, c.Ultimate.Low, "a limit is never over what the part holds")
		})
	}
}

func TestPublishedRope(t *testing.T) {
	// gear.43: 80 kN breaking allows 40 kN (Alberta). gear.45: 100 kN with bend
	// 0.75 and sleeve 0.95 keeps 75 kN (0027/ND 7.7.2); wire bends to 0.75 at
	// D/d 4.
	l := wire()
	l.Rating = breaking(80)
	inDelta(t, 40e3, float64(gear.Stretch(gear.StretchIn{Line: l, OnWinch: true}, nil, nil).Limit.Force), 1e-6)
	l.Rating = breaking(100)
	c := gear.Stretch(gear.StretchIn{Line: l, OnWinch: true, End: true, Bends: [2]gear.Bend{{Turn: 180, Diameter: 0.04}}}, nil, nil)
	inDelta(t, 75e3, float64(c.Ultimate.Low), 1e-6)
}

func TestSlingChecks(t *testing.T) {
	// Design: r 0.24 m, L 3.0 m, F 36.9 kN → worse leg 20.8 kN.
	s := web()
	st := gear.Sling(round(s, plan.HitchBasket, 0.24, 36.9*kN), nil, nil)
	inDelta(t, 20.8e3, float64(st.Leg), 50)
	// EN basket to 45° is 1.4 × straight (EN 1492), the leg check allows
	// cos 12.65°/0.55 = 1.774: the standard governs.
	inDelta(t, 1.4*30e3, float64(st.Limit.Force), 1e-6)
	assert.Equal(t, "sling basket, standard", st.Limit.Basis)
	assert.Equal(t, 30*kN, st.Straight)
	// 7 × tag (EN 1492), on the apex as rigged.
	inDelta(t, 7*1.4*30e3, float64(st.Ultimate.Low), 1e-6)

	// A very long sling: legs nearly parallel, the standard gives 2.0, the worse
	// leg of 45 : 55 only 1/0.55 = 1.818 (0027/ND 5.8).
	s.Length = 200
	st = gear.Sling(round(s, plan.HitchBasket, 0.24, 1000), nil, nil)
	inDelta(t, 30e3/0.55, float64(st.Limit.Force), 30)
	assert.Equal(t, "sling basket, worse leg", st.Limit.Basis)

	// 74° between the legs, h 37°: 1.4 against cos 37°/0.55 = 1.452.
	s.Length = gear.SlingLength(0.24, 74)
	st = gear.Sling(round(s, plan.HitchBasket, 0.24, 1000), nil, nil)
	inDelta(t, 1.4*30e3, float64(st.Limit.Force), 1e-6)
	// 86°, h 43°: cos 43°/0.55 = 1.330 governs.
	s.Length = gear.SlingLength(0.24, 86)
	st = gear.Sling(round(s, plan.HitchBasket, 0.24, 1000), nil, nil)
	inDelta(t, math.Cos(43*math.Pi/180)/0.55*30e3, float64(st.Limit.Force), 1)
}

func TestSlingHitches(t *testing.T) {
	for _, tt := range []struct {
		name               string
		material, standard string
		hitch              string
		share              float64 // of straight
		source             string
	}{
		{"web straight", plan.MaterialWeb, "EN", plan.HitchStraight, 1, "EN 1492"},
		{"web choked EN", plan.MaterialWeb, "EN", plan.HitchChoked, 0.8, "EN 1492, gear.9"},
		{"web choked, no standard said", plan.MaterialWeb, "", plan.HitchChoked, 0.8, "counts as EN"},
		{"round sling choked EN", plan.MaterialRound, "EN", plan.HitchChoked, 0.8, "EN 1492-2"},
		{"web choked ASME", plan.MaterialWeb, "ASME", plan.HitchChoked, 0.75, "older US tables, the lower"},
		{"chain choked EN", plan.MaterialChain, "EN", plan.HitchChoked, 0.75, "crane-safety exercises, under 0.8 of EN 818-4"},
		{"chain choked ASME", plan.MaterialChain, "ASME", plan.HitchChoked, 0.75, "crane-safety exercises, the lower"},
		{"laid fibre choked", plan.MaterialFibre, "", plan.HitchChoked, 0.5, "29 CFR 1918 App. II Table 2"},
		{"HMPE choked", plan.MaterialHMPE, "", plan.HitchChoked, 0.5, "as laid fibre, the lowest"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := web()
			s.Material, s.Standard = tt.material, tt.standard
			in := round(s, tt.hitch, 0.24, 1000)
			in.OnTrunk = tt.hitch != plan.HitchStraight
			st := gear.Sling(in, nil, nil)
			require.True(t, st.Limit.Known)
			inDelta(t, tt.share*30e3, float64(st.Limit.Force), 1e-6, tt.source)
		})
	}
	t.Run("wire choked, thick trunk", func(t *testing.T) {
		// gear.6: 9,900 lb choked is 7,425 lb, × 0.75 (BC crane-safety body).
		s := web()
		s.Material, s.Width, s.Rating = plan.MaterialWire, 0.014, plan.Rating{Force: 9900 * quantity.PoundForce, Basis: plan.BasisWorking}
		s.Length = 6
		st := gear.Sling(round(s, plan.HitchChoked, 0.30, 1000), nil, nil)
		inDelta(t, 7425, float64(st.Limit.Force/quantity.PoundForce), 1e-6)
	})
	t.Run("used and inspected", func(t *testing.T) {
		s := web()
		s.Condition = plan.ConditionUsed
		st := gear.Sling(gear.SlingIn{Sling: s, Hitch: plan.HitchStraight}, nil, nil)
		inDelta(t, 0.85*30e3, float64(st.Limit.Force), 1e-6, "[ours]")
		inDelta(t, 0.85*7*30e3, float64(st.Ultimate.Low), 1e-6, "EN 1492 ÷ 7, lessened too")
	})
	t.Run("breaking strength only", func(t *testing.T) {
		s := web()
		s.Rating = breaking(150)
		in := round(s, plan.HitchStraight, 0, 1000)
		in.OnTrunk = false
		inDelta(t, 30e3, float64(gear.Sling(in, nil, nil).Limit.Force), 1e-6, "÷ 5, ASME B30.9")
		s.Condition = plan.ConditionUsed
		st := gear.Sling(in, nil, nil)
		inDelta(t, 0.85*30e3, float64(st.Limit.Force), 1e-6, "used and inspected [ours]")
		inDelta(t, 0.85*150e3, float64(st.Ultimate.Low), 1e-6, "what breaks it is lessened too")
		s.Condition = plan.ConditionNew
		in.Lifting = true
		inDelta(t, 150e3/7, float64(gear.Sling(in, nil, nil).Limit.Force), 1e-6, "lifting: EN 1492 ÷ 7")
	})
}

func TestShackleSteps(t *testing.T) {
	for _, tt := range []struct {
		off  quantity.Degrees
		want float64 // share of 47 kN; ASME B30.26, from memory
	}{{0, 1}, {5, 1}, {6, 0.7}, {45, 0.7}, {46, 0.5}, {90, 0.5}} {
		c := gear.Shackle(gear.ShackleIn{Shackle: bow(), Off: tt.off}, nil, nil)
		require.True(t, c.Limit.Known, "%v", tt.off)
		inDelta(t, tt.want*47e3, float64(c.Limit.Force), 1e-6)
		inDelta(t, 5*tt.want*47e3, float64(c.Ultimate.Low), 1e-6, "5 × tag, ASME B30.26")
	}
	for _, off := range []quantity.Degrees{90.5, 180, quantity.Degrees(nan), -1} {
		assert.False(t, gear.Shackle(gear.ShackleIn{Shackle: bow(), Off: off}, nil, nil).Limit.Known, "%v", off)
	}
	s := bow()
	s.Rating = breaking(235)
	inDelta(t, 47e3, float64(gear.Shackle(gear.ShackleIn{Shackle: s}, nil, nil).Limit.Force), 1e-6, "÷ 5")
	// gear.12, gear.13: 3·D² short tons, 0.417·D² t (US Navy NAVEDTRA 14251).
	inDelta(t, 1.05*1000*quantity.Gravity, gear.UnmarkedShackle(0.0159), 0.005*1.05*1000*quantity.Gravity)
	// The rule in inches, 1.1719 short tons, is 1.2 % above the metric one.
	inDelta(t, 1.1719, gear.UnmarkedShackle(0.625*quantity.Inch)/float64(2000*quantity.PoundForce), 0.014)
}

func TestBlockLimit(t *testing.T) {
	for _, tt := range []struct {
		name    string
		change  func(*plan.Block)
		in      gear.BlockIn
		want    float64
		ult     float64
		lifting bool
		source  string
	}{
		{"tag on hanger", func(*plan.Block) {}, gear.BlockIn{Load: 50 * kN}, 80, 320, false, "tag; × 4 ASME B30.26"},
		{"place not said", func(b *plan.Block) { b.RatingOn = "" }, gear.BlockIn{Load: 50 * kN}, 80, 320, false, "counts on the hanger"},
		{"tag on each line", func(b *plan.Block) { b.RatingOn = plan.RatedLine }, gear.BlockIn{Load: 50 * kN, Tension: 25 * kN}, 160, 640, false, "hanger = 2 ×"},
		{"wide angle, the line governs", func(b *plan.Block) { b.RatingOn = plan.RatedLine }, gear.BlockIn{Load: 20 * kN, Tension: 40 * kN}, 40, 640, false, "40 of 80 kN on the line is 20 of 40 on the hanger"},
		{"breaking", func(b *plan.Block) { b.Rating = breaking(240) }, gear.BlockIn{}, 80, 240, false, "÷ 3, Alberta OHS Code s.292"},
		{"breaking, lifting", func(b *plan.Block) { b.Rating = breaking(240) }, gear.BlockIn{Lifting: true}, 48, 240, true, "÷ 5, same"},
		{"not said", func(b *plan.Block) { b.Rating.Basis = "" }, gear.BlockIn{}, 80.0 / 3, 80, false, "counts as breaking"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			b := block()
			tt.change(b)
			tt.in.Block, tt.in.Line = b, hmpe()
			c := gear.Block(tt.in, nil, nil)
			require.True(t, c.Limit.Known)
			inDelta(t, tt.want*1e3, float64(c.Limit.Force), 1e-6, tt.source)
			inDelta(t, tt.ult*1e3, float64(c.Ultimate.Low), 1e-6, tt.source)
		})
	}
}

func TestRecoveryPointLimit(t *testing.T) {
	in := func(p *plan.RecoveryPoint, off quantity.Degrees) gear.PointIn {
		return gear.PointIn{Vehicle: "V1", Part: "V1/front", Point: p, Off: off}
	}
	inDelta(t, 40e3, float64(gear.RecoveryPoint(in(point(), 15), nil, nil).Limit.Force), 1e-6, "full to 15° [ours]")
	inDelta(t, 28e3, float64(gear.RecoveryPoint(in(point(), 30), nil, nil).Limit.Force), 1e-6, "as a side-pulled shackle, 70 % [ours]")
	u := gear.RecoveryPoint(in(point(), 0), nil, nil).Ultimate
	assert.Equal(t, part.Range{Known: true, Low: 80 * kN, Likely: 120 * kN, High: 200 * kN}, u, "2:1, 3:1, 5:1 behind the tag [ours]")
	p := point()
	p.MaxAngle = 60
	inDelta(t, 40e3, float64(gear.RecoveryPoint(in(p, 60), nil, nil).Limit.Force), 1e-6, "its tag allows 60°")
	p.Rating = breaking(120)
	inDelta(t, 40e3, float64(gear.RecoveryPoint(in(p, 0), nil, nil).Limit.Force), 1e-6, "anchor gear ÷ 3, Alberta OHS Code s.292")
	p.MaxAngle = 0
	c := gear.RecoveryPoint(in(p, 30), nil, nil)
	inDelta(t, 28e3, float64(c.Limit.Force), 1e-6, "a third of it, 70 % [ours]")
	inDelta(t, 84e3, float64(c.Ultimate.Low), 1e-6, "what breaks it is lessened too")
	// A screw-in eye takes 5° whatever its tag allows, and no more than its tag does.
	eye := point()
	eye.Kind = plan.PointScrewEye
	for max, most := range map[quantity.Degrees]quantity.Degrees{0: 5, 45: 5, 3: 3} {
		eye.MaxAngle = max
		assert.True(t, gear.RecoveryPoint(in(eye, most-0.1), nil, nil).Limit.Known, "%v", max)
		assert.False(t, gear.RecoveryPoint(in(eye, most+0.1), nil, nil).Limit.Known, "%v", max)
	}
	for _, kind := range []string{plan.PointTowBall, plan.PointTieDown, plan.PointBar, plan.PointAxle, plan.PointSteering, "", "door handle"} {
		p := point()
		p.Kind = kind
		assert.False(t, gear.RecoveryPoint(in(p, 0), nil, nil).Limit.Known, kind)
	}
	for _, off := range []quantity.Degrees{46, 181, -1, quantity.Degrees(nan)} {
		assert.False(t, gear.RecoveryPoint(in(point(), off), nil, nil).Limit.Known, "%v", off)
	}
}

func TestUsedAndToFailureDisagree(t *testing.T) {
	// Design: a sling at 150 % of its tag outlasts a line at 85 % of half its
	// breaking strength. Weakest by used = sling, first to fail = line.
	judge := func(c part.Capacity, load quantity.Force) part.Part {
		p := part.Part{Move: part.Load{Known: true, Force: load}, Limit: c.Limit, Ultimate: c.Ultimate}
		p.Judge()
		return p
	}
	in := gear.SlingIn{Sling: web(), Hitch: plan.HitchStraight}
	sling := judge(gear.Sling(in, nil, nil).Capacity, 1.5*30*kN)
	line := judge(gear.Stretch(gear.StretchIn{Line: hmpe(), OnWinch: true}, nil, nil), 0.85*45*kN)
	inDelta(t, 1.5, sling.Used, 1e-9)
	inDelta(t, 0.85, line.Used, 1e-9)
	assert.Greater(t, sling.Used, line.Used)
	slingFails, ok := sling.ToFailure(sling.Move)
	require.True(t, ok)
	lineFails, ok := line.ToFailure(line.Move)
	require.True(t, ok)
	inDelta(t, 1.5/7, slingFails, 1e-9)
	inDelta(t, 0.425, lineFails, 1e-9)
	assert.Greater(t, lineFails, slingFails)
}

func TestUnknownNeverHasALimit(t *testing.T) {
	for name, c := range map[string]part.Capacity{
		"line, no rating": func() part.Capacity {
			l := hmpe()
			l.Rating = plan.Rating{}
			return gear.Stretch(gear.StretchIn{Line: l}, nil, nil)
		}(),
		"line, no state": func() part.Capacity {
			l := hmpe()
			l.Condition = ""
			return gear.Stretch(gear.StretchIn{Line: l}, nil, nil)
		}(),
		"line, no material": func() part.Capacity {
			l := hmpe()
			l.Material = ""
			return gear.Stretch(gear.StretchIn{Line: l}, nil, nil)
		}(),
		"chain over a sheave": func() part.Capacity {
			l := hmpe()
			l.Material = plan.MaterialChain
			return gear.Stretch(gear.StretchIn{Line: l, Bends: [2]gear.Bend{{Turn: 90, Diameter: 0.2}}}, nil, nil)
		}(),
		"sling, no rating": func() part.Capacity {
			s := web()
			s.Rating = plan.Rating{}
			return gear.Sling(round(s, plan.HitchBasket, 0.24, 1), nil, nil).Capacity
		}(),
		"block, no rating": func() part.Capacity {
			b := block()
			b.Rating = plan.Rating{}
			return gear.Block(gear.BlockIn{Block: b}, nil, nil)
		}(),
		"shackle, no kind": func() part.Capacity {
			s := bow()
			s.Kind = ""
			return gear.Shackle(gear.ShackleIn{Shackle: s}, nil, nil)
		}(),
		"point, no rating": func() part.Capacity {
			p := point()
			p.Rating = plan.Rating{}
			return gear.RecoveryPoint(gear.PointIn{Point: p}, nil, nil)
		}(),
		"winch, no rating": gear.Winch(gear.WinchIn{Winch: &plan.Winch{}, Line: hmpe()}, nil, nil).Capacity,
		"rating not a number": func() part.Capacity {
			l := hmpe()
			l.Rating.Force = quantity.Force(nan)
			return gear.Stretch(gear.StretchIn{Line: l}, nil, nil)
		}(),
		"bend not a number": gear.Stretch(gear.StretchIn{Line: hmpe(), Bends: [2]gear.Bend{{Turn: quantity.Degrees(nan), Diameter: 0.005}}}, nil, nil),
	} {
		assert.Equal(t, part.Capacity{}, c, name)
	}
}
