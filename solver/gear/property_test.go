package gear_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

var (
	materials = []string{"", plan.MaterialWire, plan.MaterialHMPE, plan.MaterialNylon, plan.MaterialPolyester, plan.MaterialChain,
		plan.MaterialFibre, plan.MaterialKinetic, plan.MaterialWeb, plan.MaterialRound, "hemp"}
	conditions = []string{"", plan.ConditionNew, plan.ConditionUsed, plan.ConditionDoubtful, plan.ConditionKinked, "fine"}
	bases      = []plan.RatingBasis{"", plan.BasisWorking, plan.BasisBreaking}
	hitches    = []string{plan.HitchBasket, plan.HitchChoked, plan.HitchStraight}
	standards  = []string{"", "EN", "ASME", "XX"}
)

// capacityOf draws a piece and gives its capacity with a rating of that basis.
func capacityOf(t *rapid.T) func(r plan.Rating) part.Capacity {
	lifting := rapid.Bool().Draw(t, "lifting")
	material := rapid.SampledFrom(materials).Draw(t, "material")
	cond := rapid.SampledFrom(conditions).Draw(t, "condition")
	off := quantity.Degrees(rapid.Float64Range(0, 180).Draw(t, "off"))
	d := quantity.Length(rapid.Float64Range(0, 0.3).Draw(t, "diameter"))
	switch rapid.SampledFrom([]string{"line", "sling", "shackle", "block", "point"}).Draw(t, "piece") {
	case "line":
		end := rapid.SampledFrom([]string{"", "end.clips", "end.hmpe-splice", "knot.bowline"}).Draw(t, "end")
		return func(r plan.Rating) part.Capacity {
			l := &plan.Line{Material: material, Condition: cond, Diameter: 0.01, End: end, Rating: r}
			return gear.Stretch(gear.StretchIn{Line: l, End: true, OnWinch: true, Lifting: lifting, Bends: [2]gear.Bend{{Turn: off, Diameter: d}}}, nil, nil)
		}
	case "sling":
		hitch := rapid.SampledFrom(hitches).Draw(t, "hitch")
		standard := rapid.SampledFrom(standards).Draw(t, "standard")
		length := quantity.Length(rapid.Float64Range(0, 8).Draw(t, "length"))
		return func(r plan.Rating) part.Capacity {
			s := &plan.Sling{Material: material, Condition: cond, Standard: standard, Length: length, Rating: r}
			in := round(s, hitch, d, 1000)
			in.Lifting = lifting
			return gear.Sling(in, nil, nil).Capacity
		}
	case "shackle":
		kind := rapid.SampledFrom([]string{"", plan.ShackleBow, plan.ShackleDee, plan.ShackleSoft}).Draw(t, "kind")
		return func(r plan.Rating) part.Capacity {
			return gear.Shackle(gear.ShackleIn{Shackle: &plan.Shackle{Kind: kind, Rating: r, Body: 0.02}, Off: off, BearsOn: d}, nil, nil)
		}
	case "block":
		on := rapid.SampledFrom([]string{"", plan.RatedHanger, plan.RatedLine}).Draw(t, "on")
		return func(r plan.Rating) part.Capacity {
			return gear.Block(gear.BlockIn{Block: &plan.Block{Rating: r, RatingOn: on, Sheave: d}, Line: hmpe(), Load: 10 * kN, Tension: 20 * kN, Lifting: lifting}, nil, nil)
		}
	}
	kind := rapid.SampledFrom([]string{"", plan.PointRated, plan.PointTowBall, plan.PointScrewEye}).Draw(t, "kind")
	return func(r plan.Rating) part.Capacity {
		return gear.RecoveryPoint(gear.PointIn{Point: &plan.RecoveryPoint{Kind: kind, Rating: r}, Off: off, Lifting: lifting}, nil, nil)
	}
}

func TestATagReadAsBreakingNeverRaisesALimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := capacityOf(t)
		f := quantity.Force(rapid.Float64Range(1, 1e6).Draw(t, "force"))
		tag := of(plan.Rating{Force: f, Basis: plan.BasisWorking})
		for _, basis := range []plan.RatingBasis{plan.BasisBreaking, plan.BasisUnsaid, "nonsense"} {
			c := of(plan.Rating{Force: f, Basis: basis})
			if c.Limit.Known && (!tag.Limit.Known || c.Limit.Force > tag.Limit.Force) {
				t.Fatalf("%q: %v over the tag's %v", basis, c.Limit.Force, tag.Limit.Force)
			}
		}
	})
}

func TestNoRatingNoLimit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := capacityOf(t)
		for _, f := range []quantity.Force{0, -1, quantity.Force(nan)} {
			c := of(plan.Rating{Force: f, Basis: rapid.SampledFrom(bases).Draw(t, "basis")})
			if c.Limit.Known || c.Ultimate.Known {
				t.Fatalf("a limit out of a rating of %v", f)
			}
		}
	})
}

func TestLimitsAreForces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := capacityOf(t)(plan.Rating{Force: quantity.Force(rapid.Float64Range(1, 1e6).Draw(t, "force")), Basis: rapid.SampledFrom(bases).Draw(t, "basis")})
		if !c.Limit.Known {
			if c.Ultimate.Known {
				t.Fatalf("an ultimate without a limit: %+v", c)
			}
			return
		}
		if !(c.Limit.Force > 0) || c.Limit.Basis == "" || c.Note == "" || c.Limit.Confidence == part.ConfidenceNone {
			t.Fatalf("%+v", c)
		}
		u := c.Ultimate
		if !u.Known || !(u.Low >= c.Limit.Force*(1-1e-12)) || !(u.Likely >= u.Low) || !(u.High >= u.Likely) {
			t.Fatalf("limit %v, ultimate %+v", c.Limit.Force, u)
		}
	})
}

func TestMoreLayersNeverPullMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := gear.Drum{Diameter: quantity.Length(rapid.Float64Range(0.03, 0.5).Draw(t, "drum")), Line: quantity.Length(rapid.Float64Range(0.004, 0.03).Draw(t, "line")),
			Width: quantity.Length(rapid.Float64Range(0.05, 0.6).Draw(t, "width"))}
		a := quantity.Length(rapid.Float64Range(0, 200).Draw(t, "less"))
		b := a + quantity.Length(rapid.Float64Range(0, 200).Draw(t, "more"))
		la, wa := d.Layer(a)
		lb, wb := d.Layer(b)
		if lb < la || wb < wa-1e-9 {
			t.Fatalf("%v m: layer %v, %v wraps; %v m: layer %v, %v wraps", a, la, wa, b, lb, wb)
		}
		if gear.LayerPull(1000, d, lb) > gear.LayerPull(1000, d, la) {
			t.Fatalf("more line pulls more")
		}
		n := int(wa)
		if back := d.WrapsLength(n); n > 0 && !(float64(back) <= float64(a)*(1+1e-9)) {
			t.Fatalf("%d whole wraps take %v m of %v m", n, back, a)
		}
	})
}

// sums are rules with a recorder; the last step must have the limit.
func TestLastStepOfASumIsTheLimit(t *testing.T) {
	s := web()
	choked, straight := web(), web()
	straight.Rating = breaking(150)
	tagged, byLine, side := hmpe(), block(), bow()
	tagged.Rating = working(40)
	byLine.RatingOn = plan.RatedLine
	side.Rating = breaking(235)
	texts := texts(t)
	for name, rule := range map[string]func(*part.Derivation) part.Limit{
		"stretch": func(derivation *part.Derivation) part.Limit {
			return gear.Stretch(gear.StretchIn{Line: wire(), OnWinch: true, End: true, Bends: [2]gear.Bend{{Turn: 90, Diameter: 0.12}}}, derivation, nil).Limit
		},
		"stretch by tag": func(derivation *part.Derivation) part.Limit {
			return gear.Stretch(gear.StretchIn{Line: tagged}, derivation, nil).Limit
		},
		"basket": func(derivation *part.Derivation) part.Limit {
			return gear.Sling(round(s, plan.HitchBasket, 0.24, 36.9*kN), derivation, nil).Limit
		},
		"choked": func(derivation *part.Derivation) part.Limit {
			return gear.Sling(round(choked, plan.HitchChoked, 0.24, 1000), derivation, nil).Limit
		},
		"straight": func(derivation *part.Derivation) part.Limit {
			return gear.Sling(gear.SlingIn{Sling: straight, Hitch: plan.HitchStraight}, derivation, nil).Limit
		},
		"shackle": func(derivation *part.Derivation) part.Limit {
			return gear.Shackle(gear.ShackleIn{Shackle: bow(), Off: 20}, derivation, nil).Limit
		},
		"shackle by breaking": func(derivation *part.Derivation) part.Limit {
			return gear.Shackle(gear.ShackleIn{Shackle: side, Off: 20}, derivation, nil).Limit
		},
		"block": func(derivation *part.Derivation) part.Limit {
			return gear.Block(gear.BlockIn{Block: block(), Load: 1000}, derivation, nil).Limit
		},
		"block by its line": func(derivation *part.Derivation) part.Limit {
			return gear.Block(gear.BlockIn{Block: byLine, Load: 1000, Tension: 2000}, derivation, nil).Limit
		},
		"point": func(derivation *part.Derivation) part.Limit {
			return gear.RecoveryPoint(gear.PointIn{Point: point(), Off: 30}, derivation, nil).Limit
		},
		"winch": func(derivation *part.Derivation) part.Limit {
			return gear.Winch(gear.WinchIn{Winch: winch(), Line: hmpe(), Path: 20}, derivation, nil).Limit
		},
		"winch, no drum": func(derivation *part.Derivation) part.Limit {
			return gear.Winch(gear.WinchIn{Winch: &plan.Winch{LinePull: 42 * kN}, Line: hmpe(), Path: 20}, derivation, nil).Limit
		},
	} {
		t.Run(name, func(t *testing.T) {
			var derivation part.Derivation
			limit := rule(&derivation)
			require.True(t, limit.Known)
			assert.Equal(t, rule(nil), limit, "recording changes nothing")
			last, ok := derivation.Last()
			require.True(t, ok)
			assert.Equal(t, float64(limit.Force), last.X) // bit for bit
			assert.Contains(t, texts["basis"], limit.Basis)
			for _, step := range derivation.Steps {
				assert.Contains(t, texts["formula"], step.Formula)
				names := []string{step.Result.Name}
				for _, o := range step.Operands {
					names = append(names, o.Name)
				}
				for _, name := range slots(texts["formula"][step.Formula]) {
					assert.Contains(t, names, name, step.Formula)
				}
			}
		})
	}
}

func TestThePlainPathAllocatesNothing(t *testing.T) {
	line, sling, shackle, blk, win := wire(), web(), bow(), block(), winch()
	slingIn := round(sling, plan.HitchBasket, 0.24, 1000)
	var found []part.Finding
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		gear.Stretch(gear.StretchIn{Line: line, OnWinch: true, End: true, Bends: [2]gear.Bend{{Turn: 90, Diameter: 0.12}}}, nil, &found)
		gear.Sling(slingIn, nil, &found)
		gear.Shackle(gear.ShackleIn{Shackle: shackle, Off: 2}, nil, &found)
		gear.Block(gear.BlockIn{Block: blk, Line: line, Load: 1000, Tension: 600}, nil, &found)
		gear.Winch(gear.WinchIn{Winch: win, Line: line, Path: 20}, nil, &found)
		gear.Fairlead(gear.FairleadIn{Winch: win, Tension: 1000, Lead: 3, Side: 3}, nil, &found)
		gear.SlingRound(0.24, 3, plan.HitchBasket)
	}))
	assert.Empty(t, found)
}

// A rig of about 60 parts.
func BenchmarkSixtyParts(b *testing.B) {
	line, sling, shackle, blk, win, pt := hmpe(), web(), bow(), block(), winch(), point()
	pt.MaxAngle = 60
	in := round(sling, plan.HitchBasket, 0.24, 1000)
	b.ReportAllocs()
	for b.Loop() {
		for range 12 {
			gear.Stretch(gear.StretchIn{Line: line, OnWinch: true, Bends: [2]gear.Bend{{Turn: 90, Diameter: 0.12}}}, nil, nil)
			in.Round = gear.SlingRound(0.24, 3, plan.HitchBasket)
			gear.Sling(in, nil, nil)
			gear.Shackle(gear.ShackleIn{Shackle: shackle, Off: 2}, nil, nil)
			gear.Block(gear.BlockIn{Block: blk, Line: line, Load: 1000, Tension: 600}, nil, nil)
			gear.RecoveryPoint(gear.PointIn{Point: pt, Off: 10}, nil, nil)
		}
		gear.Winch(gear.WinchIn{Winch: win, Line: line, Path: 20}, nil, nil)
		gear.Fairlead(gear.FairleadIn{Winch: win, Tension: 1000, Lead: 3, Side: 3}, nil, nil)
	}
}

func BenchmarkSlingRound(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		gear.SlingRound(0.24, 3, plan.HitchBasket)
	}
}
