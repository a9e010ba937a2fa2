package effort_test

import (
	"math"
	"testing"

	"github.com/golang/geo/r3"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/effort"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// finds is the first finding of an id, and whether there is one.
func finds(found []part.Finding, id string) (f part.Finding, ok bool) {
	for _, f := range found {
		if f.ID == id {
			return f, true
		}
	}
	return f, false
}

// figure is the value of a name that a finding has.
func figure(t *testing.T, f part.Finding, name string) float64 {
	t.Helper()
	for _, v := range f.Values {
		if v.Name == name {
			return v.X
		}
	}
	t.Fatalf("%s has no %s", f.ID, name)
	return 0
}

// What a vehicle carries weighs as it does: nothing that is reckoned of 2 000 kg with
// 600 kg on it differs from that of 2 600 kg.
func TestALoadWeighsAsTheVehicleDoes(t *testing.T) {
	laden := warden(func(v *plan.Vehicle) { v.Mass, v.Load = 2000, 600 })
	hold := func(v *plan.Vehicle) part.Range {
		return effort.PullerHold(effort.HoldIn{Vehicle: v, Ground: &moss, Ends: pullAhead(), FallAheadDeg: 2}, nil, nil).Hold
	}
	assert.Equal(t, hold(warden(nil)), hold(laden))
	free := func(v *plan.Vehicle) effort.FreeResult {
		return effort.Free(effort.FreeIn{Vehicle: v, Ground: &moss, FallAlongDeg: 12}, nil, nil)
	}
	assert.Equal(t, free(warden(nil)), free(laden))
	slips := func(v *plan.Vehicle) (d part.Derivation) {
		effort.SideSlip(effort.SideSlipIn{Vehicle: v, Ground: &moss, FallSideDeg: 12}, &d, nil)
		return d
	}
	assert.Equal(t, slips(warden(nil)), slips(laden))
	resists := func(v *plan.Vehicle) effort.ResistanceResult {
		v.Stuck = &plan.Stuck{Depth: plan.DepthHub, WayLength: 6}
		return effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss, GradeDeg: 3}, nil, nil)
	}
	assert.Equal(t, resists(warden(nil)), resists(warden(func(v *plan.Vehicle) { v.Mass, v.Load = 2000, 600 })))
	// A brake holds no more than all of it weighs.
	kg := float64(laden.Mass + laden.Load)
	for _, c := range []struct {
		brakeN float64
		odd    bool
	}{{kg * quantity.Gravity, false}, {kg*quantity.Gravity + 1, true}} {
		laden.BrakeForce = quantity.Force(c.brakeN)
		var found []part.Finding
		effort.Body(laden, &found)
		_, odd := finds(found, "figures-odd")
		assert.Equal(t, c.odd, odd, "%v N", c.brakeN)
	}
}

// What rolls by itself, in closed form: W·(sin a − c·cos a), a hold-back good for 1.5
// of it, with c of grass 0.0525 at its low end; water trapped in it weighs too.
func TestWhatRollsByItselfInNumbers(t *testing.T) {
	sin, cos := math.Sincos(12 * math.Pi / 180)
	for _, c := range []struct {
		stuck *plan.Stuck
		kg    float64
	}{
		{nil, 2600},
		{&plan.Stuck{TrappedWater: 400}, 3000},
		{&plan.Stuck{InWater: true}, 2600 + facts.WaterTrapped.High().X},
		{&plan.Stuck{InWater: true, TrappedWater: 400}, 3000},
	} {
		v := warden(func(v *plan.Vehicle) { v.Stuck = c.stuck })
		want := c.kg * quantity.Gravity * (sin - 0.0525*cos)
		res := effort.Free(effort.FreeIn{Vehicle: v, Ground: &moss, FallAlongDeg: 12}, nil, nil)
		near(t, want, float64(res.Roll), 1e-6*want, "rolls with")
		near(t, 1.5*want, float64(res.HoldBack), 1e-6*want, "hold-back")
		assert.True(t, res.Forward)
		assert.False(t, effort.Free(effort.FreeIn{Vehicle: v, Ground: &moss, FallAlongDeg: -12}, nil, nil).Forward)
		// A hold-back good for just that holds; the limit of a weaker one is told.
		in := effort.FreeIn{Vehicle: v, Ground: &moss, FallAlongDeg: 12, HoldBack: true, Holds: true, HoldBackN: float64(res.HoldBack)}
		var found []part.Finding
		effort.Free(in, nil, &found)
		assert.Empty(t, found)
		in.HoldBackN = 1000
		effort.Free(in, nil, &found)
		f, ok := finds(found, "hold-back-weak")
		require.True(t, ok)
		near(t, 1000, figure(t, f, "limit"), 0, "its limit")
		near(t, 1.5*want, figure(t, f, "needs"), 1e-6*want, "what it needs")
	}
	level := effort.Free(effort.FreeIn{Vehicle: warden(nil), Ground: &moss}, nil, nil)
	assert.False(t, level.Rolls || level.Forward, "on the level")
}

// Without a weight nothing is asked where neither slope nor line pulls across.
func TestNothingPullsAcross(t *testing.T) {
	v := warden(func(v *plan.Vehicle) { v.Mass = 0 })
	for _, c := range []struct {
		sideN, upN float64
		asked      bool
	}{{0, 0, false}, {1, 0, true}, {0, 1, true}, {-1, 0, false}} {
		var found []part.Finding
		effort.SideSlip(effort.SideSlipIn{Vehicle: v, Ground: &moss, SideN: c.sideN, UpN: c.upN}, nil, &found)
		_, asked := finds(found, part.NotDecidedID)
		assert.Equal(t, c.asked, asked, "%v N across, %v N up", c.sideN, c.upN)
	}
}

// Left in gear, the rear axle counts as locked at the likely end, both at the high
// one, and neither at the low one, where the parking brake alone holds.
func TestLeftInGear(t *testing.T) {
	hold := func(change func(*plan.Vehicle)) part.Range {
		v := warden(func(v *plan.Vehicle) { v.BrakeForce = 500; change(v) })
		return effort.PullerHold(effort.HoldIn{Vehicle: v, Ground: &moss, Ends: pullAhead()}, nil, nil).Hold
	}
	in := hold(func(v *plan.Vehicle) { v.InGear = true })
	near(t, 500, float64(in.Low), 1e-6, "the brake")
	near(t, float64(hold(func(v *plan.Vehicle) { v.Chocks = plan.ChocksRear }).Likely), float64(in.Likely), 1e-6, "the rear axle")
	near(t, float64(hold(func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll }).High), float64(in.High), 1e-6, "both")
}

// An axle's brake and its grip are two limits, of which the smaller counts at every
// tension. Pulled away from the braked axle, b behind or before which the weight lies,
// that axle unloads as the pull grows: T = min(C, μ·W·b/(wb + μ·h)). All wheels
// braked, the share of one may be the brake's and that of the other the grip's: of the
// axle that unloads μ·(N − T·h/wb), of the other its share of C. (closed forms)
func TestBrakeAndGripOfEitherAxle(t *testing.T) {
	const mu, wb, h = 0.35, 2.8, 0.85
	w := 2600 * quantity.Gravity
	hold := func(ahead float64, change func(*plan.Vehicle)) float64 {
		v := warden(change)
		end := effort.LineEnd{PerTension: r3.Vector{X: ahead}, AheadM: 2.55 * ahead, HeightM: h}
		return float64(effort.PullerHold(effort.HoldIn{Vehicle: v, Ground: &moss, Ends: []effort.LineEnd{end}}, nil, nil).Hold.Likely)
	}
	for _, c := range []struct {
		ahead, cg, b float64
		brake        string
	}{{1, 1.3, 1.3, plan.BrakeRear}, {-1, 1.3, 1.5, plan.BrakeFront}, {1, 1.9, 1.9, plan.BrakeRear}, {-1, 1.9, 0.9, plan.BrakeFront}} {
		grips := mu * w * c.b / (wb + mu*h)
		for _, share := range []float64{0.5, 0.97, 1.01, 1.04, 2} {
			got := hold(c.ahead, func(v *plan.Vehicle) {
				v.Brake, v.CGBehindFront, v.BrakeForce = c.brake, quantity.Length(c.cg), quantity.Force(share*grips)
			})
			near(t, min(1, share)*grips, got, 1e-6*grips, c.brake)
		}
		// Both axles: the brake a hair weaker than all grip at rest, so that the axle that
		// unloads slips first while the brake of the other gives.
		brake := 0.99 * mu * w
		got := hold(c.ahead, func(v *plan.Vehicle) {
			v.Brake, v.CGBehindFront, v.BrakeForce = plan.BrakeAll, quantity.Length(c.cg), quantity.Force(brake)
		})
		near(t, (mu*w*c.b/wb+brake*(1-c.b/wb))/(1+mu*h/wb), got, 1e-6*w, "all braked")
	}
}

// A centre of gravity that nobody measured counts with the worse of its range at the
// low end, with the better at the high one; where all wheels are locked and the line
// lies on the ground it counts for nothing, and is not said to be assumed.
func TestBothEndsOfAnAssumedCentreOfGravity(t *testing.T) {
	hold := func(cg, h float64, change func(*plan.Vehicle)) effort.HoldResult {
		v := warden(func(v *plan.Vehicle) { v.CGBehindFront = quantity.Length(cg); v.BrakeForce = 50_000; change(v) })
		return effort.PullerHold(effort.HoldIn{Vehicle: v, Ground: &moss, Ends: []effort.LineEnd{{PerTension: r3.Vector{X: 1}, AheadM: 2.55, HeightM: h}}}, nil, nil)
	}
	none := func(*plan.Vehicle) {}
	near(t, float64(hold(0.42*2.8, 0.85, none).Hold.Low), float64(hold(0, 0.85, none).Hold.Low), 1e-6, "0.42 of the wheelbase (ours)")
	near(t, float64(hold(0.60*2.8, 0.85, none).Hold.High), float64(hold(0, 0.85, none).Hold.High), 1e-6, "0.60 of it")
	front := func(v *plan.Vehicle) { v.Brake = plan.BrakeFront }
	near(t, float64(hold(0.60*2.8, 0.85, front).Hold.Low), float64(hold(0, 0.85, front).Hold.Low), 1e-6, "a front brake holds least there")
	near(t, float64(hold(0.42*2.8, 0.85, front).Hold.High), float64(hold(0, 0.85, front).Hold.High), 1e-6, "and most here")
	assert.True(t, hold(0, 0.85, none).Preset)
	assert.False(t, hold(0, 0, func(v *plan.Vehicle) { v.Chocks = plan.ChocksAll }).Preset, "all locked, μ·W wherever it lies")
}

// At the very figure a rule turns: what is needed is what it holds, or 0.75 of it.
func TestAHoldAtItsVeryEdge(t *testing.T) {
	in := effort.HoldIn{Vehicle: warden(nil), Ground: &moss, Ends: pullAhead(), TensionKnown: true}
	hold := float64(effort.PullerHold(in, nil, nil).Hold.Low)
	for _, c := range []struct {
		what                string
		move, loosen, stall float64
		id, pull            string
		needs, tie          float64
	}{
		{"to move, what it holds", hold, 0, 0, "vehicle-slides", "pull-move", hold, hold},
		{"to move and to loosen", hold, 2 * hold, 0, "vehicle-slides", "pull-move", hold, 2 * hold},
		{"to loosen, what it holds", hold / 2, hold, 0, "vehicle-slides", "pull-loosen", hold, hold},
		{"near", part.NearShare * hold, 0, 0, "vehicle-near-sliding", "pull-move", part.NearShare * hold, part.NearShare * hold},
		{"at stall, what it holds", hold / 2, 0, hold, "vehicle-slides-at-stall", "", hold, hold},
		{"at stall, less", hold / 2, 0, hold * 0.999, "", "", 0, 0},
		{"less than near", part.NearShare * hold * 0.999, 0, 0, "", "", 0, 0},
		{"nothing", 0, 0, 0, "", "", 0, 0},
	} {
		in.TensionN, in.LoosenN, in.StallN = c.move, c.loosen, c.stall
		var found []part.Finding
		effort.PullerHold(in, nil, &found)
		if c.id == "" {
			assert.Empty(t, found, c.what)
			continue
		}
		f, ok := finds(found, c.id)
		require.True(t, ok, "%s: %v", c.what, found)
		near(t, c.needs, figure(t, f, "needs"), 1e-9, c.what)
		near(t, facts.TiebackFactor.Value()*c.tie, figure(t, f, "tie"), 1e-9, c.what)
		if c.pull != "" {
			assert.Equal(t, c.pull, f.Values[0].Text, c.what)
		}
	}
	// Chocks that hold just what is needed are not offered.
	chocked := *in.Vehicle
	chocked.Chocks = plan.ChocksAll
	in.LoosenN, in.StallN = 0, 0
	in.TensionN = float64(effort.PullerHold(effort.HoldIn{Vehicle: &chocked, Ground: &moss, Ends: pullAhead()}, nil, nil).Hold.Low)
	for _, offered := range []bool{false, true} {
		var found []part.Finding
		effort.PullerHold(in, nil, &found)
		f, _ := finds(found, "vehicle-slides")
		assert.Len(t, f.Remedies, map[bool]int{false: 1, true: 2}[offered])
		in.TensionN *= 0.999
	}
}

// A figure at the very bound of what may be is none to wonder at, nor is one that
// nobody entered.
func TestFiguresAtTheirBounds(t *testing.T) {
	for what, c := range map[string]struct {
		change func(*plan.Vehicle)
		id     string
	}{
		"as long as its wheelbase":  {func(v *plan.Vehicle) { v.Length, v.FrontOverhang, v.Wheelbase = 2.8, 0, 2.8 }, ""},
		"longer":                    {func(v *plan.Vehicle) { v.Length, v.FrontOverhang, v.Wheelbase = 2.799, 0, 2.8 }, "figures-odd"},
		"nose and wheelbase":        {func(v *plan.Vehicle) { v.Length, v.FrontOverhang, v.Wheelbase = 3.5, 0.5, 3 }, ""},
		"cg at a fifth":             {func(v *plan.Vehicle) { v.CGHeight, v.Height = 0.5, 2.5 }, ""},
		"cg lower":                  {func(v *plan.Vehicle) { v.CGHeight, v.Height = 0.499, 2.5 }, "figures-odd"},
		"nobody entered the cg":     {func(v *plan.Vehicle) { v.CGHeight = 0 }, ""},
		"drum as wide":              {func(v *plan.Vehicle) { v.Winch = &plan.Winch{DrumWidth: v.Width} }, ""},
		"drum wider":                {func(v *plan.Vehicle) { v.Winch = &plan.Winch{DrumWidth: v.Width + 0.001} }, "figures-odd"},
		"drum, width not entered":   {func(v *plan.Vehicle) { v.Winch, v.Width = &plan.Winch{DrumWidth: 0.2}, 0 }, ""},
		"flange as high":            {func(v *plan.Vehicle) { v.Winch = &plan.Winch{FlangeDiameter: v.Height} }, ""},
		"flange higher":             {func(v *plan.Vehicle) { v.Winch = &plan.Winch{FlangeDiameter: v.Height + 0.001} }, "figures-odd"},
		"flange, height not known":  {func(v *plan.Vehicle) { v.Winch, v.Height = &plan.Winch{FlangeDiameter: 0.2}, 0 }, ""},
		"100 kg":                    {func(v *plan.Vehicle) { v.Mass, v.Length = 100, 0 }, ""},
		"under 100 kg":              {func(v *plan.Vehicle) { v.Mass, v.Length = 99.9, 0 }, "mass-odd"},
		"100 t":                     {func(v *plan.Vehicle) { v.Mass, v.Length = 100e3, 0 }, ""},
		"over 100 t":                {func(v *plan.Vehicle) { v.Mass, v.Length = 100.1e3, 0 }, "mass-odd"},
		"40 kg a square metre":      {func(v *plan.Vehicle) { v.Mass, v.Length, v.Width = 400, 5, 2 }, ""},
		"less":                      {func(v *plan.Vehicle) { v.Mass, v.Length, v.Width = 399, 5, 2 }, "mass-against-size"},
		"3 t a square metre":        {func(v *plan.Vehicle) { v.Mass, v.Length, v.Width = 30e3, 5, 2 }, ""},
		"more":                      {func(v *plan.Vehicle) { v.Mass, v.Length, v.Width = 30.1e3, 5, 2 }, "mass-against-size"},
		"nobody entered its length": {func(v *plan.Vehicle) { v.Length = 0 }, ""},
		"20 kg on it":               {func(v *plan.Vehicle) { v.Load = 20 }, ""},
		"less on it":                {func(v *plan.Vehicle) { v.Load = 19.9 }, "load-odd"},
		"twice its mass on it":      {func(v *plan.Vehicle) { v.Mass, v.Load = 1000, 2000 }, ""},
		"more on it":                {func(v *plan.Vehicle) { v.Mass, v.Load = 1000, 2001 }, "load-heavy"},
		"a load, mass not known":    {func(v *plan.Vehicle) { v.Mass, v.Load = 0, 2000 }, ""},
	} {
		v := warden(c.change)
		var found []part.Finding
		effort.Body(v, &found)
		effort.Drum(v, "winch", &found)
		effort.PullerHold(effort.HoldIn{Vehicle: v, Ground: &moss, Ends: pullAhead()}, nil, &found)
		for _, f := range found {
			switch f.ID {
			case "figures-odd", "mass-odd", "mass-against-size", "load-odd", "load-heavy":
				assert.Equal(t, c.id, f.ID, what)
			}
		}
		if c.id != "" {
			_, ok := finds(found, c.id)
			assert.True(t, ok, "%s: %v", what, found)
		}
	}
}

// A point half a metre off the body sits on it, one farther off does not; of a body
// that nobody measured nothing is said.
func TestAPointAtTheBodysBounds(t *testing.T) {
	at := func(v *plan.Vehicle, ahead, left, height quantity.Length) (odd bool) {
		var found []part.Finding
		effort.Place(v, "hook", ahead, left, height, &found)
		return len(found) > 0
	}
	v := warden(func(v *plan.Vehicle) { v.Length, v.Width, v.Height = 5, 2, 2 })
	assert.False(t, at(v, 3, 1.5, 2.5) || at(v, -3, -1.5, 0))
	assert.True(t, at(v, 3.001, 0, 0) && at(v, -3.001, 0, 0) && at(v, 0, 1.501, 0) && at(v, 0, -1.501, 0) && at(v, 0, 0, 2.501))
	assert.False(t, at(&plan.Vehicle{}, 3.001, 1.501, 2.501))
}

// A measured resistance breaks loose with what holds the belly on top: on the level
// k·R + suction with k 1.3, 1.6 and 2 (ours).
func TestSuctionOnTopOfAMeasuredPull(t *testing.T) {
	v := casualty(func(v *plan.Vehicle) { v.Stuck = &plan.Stuck{Measured: 6000, Suction: 4000} })
	r := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil).Breakaway
	near(t, 1.3*6000+4000, float64(r.Low), 1e-6, "low")
	near(t, 1.6*6000+4000, float64(r.Likely), 1e-6, "likely")
	near(t, 2*6000+4000, float64(r.High), 1e-6, "high")
}

// A casualty that resists alike everywhere and is pulled through its centre of gravity,
// wherever that lies, goes where slope and pull drag it together and does not turn: by
// W·s + T·p, with the T at which that is as much as what resists. (closed form)
func TestADragThroughItsWeight(t *testing.T) {
	const resistN = 9000.0
	w := 2000 * quantity.Gravity
	for _, cg := range []float64{0.9, 1.3, 1.8} {
		for _, toward := range []float64{0.3, -1.1, 2.4} {
			py, px := math.Sincos(toward)
			sx, sy := w*math.Sin(6*math.Pi/180), w*math.Sin(-9*math.Pi/180)
			// |s + T·p| = R
			b := sx*px + sy*py
			tension := -b + math.Sqrt(b*b+resistN*resistN-sx*sx-sy*sy)
			at := 1.3 - cg // ahead of the middle
			ahead, aside, turn, ok := effort.Drag(effort.DragIn{Vehicle: skid(quantity.Length(cg)), Pull: [3]float64{px, py, py * at}, ResistN: resistN, FallAheadDeg: 6, FallLeftDeg: -9})
			require.True(t, ok)
			assert.InDelta(t, (sx+tension*px)/resistN, ahead, 1e-6, "%v %v", cg, toward)
			assert.InDelta(t, (sy+tension*py)/resistN, aside, 1e-6, "%v %v", cg, toward)
			assert.InDelta(t, 0, turn, 1e-6)
		}
	}
}

// Blocks that only lead count a sheave each: 40 kN by a winch of 10 kN with two of
// them take 8 parts, for (40 + 0.1·40·(n − 1 + 2))/n ≤ 10 as soon as n ≥ 7.3. Without
// them 6, for (40 + 4·(n − 1))/n ≤ 10 from n = 6 on, exactly: 60/6. (by hand)
func TestLeadBlocksTakeTheirShare(t *testing.T) {
	in := effort.ArmyIn{WeightN: 40e3, MireFactor: 1, WinchN: 10e3}
	res := effort.ArmyChain(in, nil)
	assert.Equal(t, []int{6, 5, 2}, []int{res.Advantage, res.Sheaves, res.Added})
	near(t, 10e3, float64(res.FallLine), 1e-6, "fall line")
	in.LeadBlocks = 2
	res = effort.ArmyChain(in, nil)
	assert.Equal(t, []int{8, 9, 4}, []int{res.Advantage, res.Sheaves, res.Added})
	near(t, 9500, float64(res.FallLine), 1e-6, "fall line")
	for _, none := range []effort.ArmyIn{{MireFactor: 1, WinchN: 1}, {WeightN: 1, WinchN: 1}, {WeightN: 1, MireFactor: 1}, {WeightN: 1, MireFactor: 1, WinchN: 1, Reduction: 1}} {
		assert.False(t, effort.ArmyChain(none, nil).Known)
	}
}

// Nothing pulled is nothing asked, and known: of an anchor, a tie-back, a jump; a piece
// without length stretches nothing.
func TestNothingIsKnown(t *testing.T) {
	v := warden(nil)
	var d part.Derivation
	assert.Zero(t, effort.SelfRecovery(effort.SelfIn{Vehicle: v, Ratio: 1}, &d, nil).Anchor)
	assert.Len(t, d.Steps, 1)
	assert.Zero(t, effort.SelfRecovery(effort.SelfIn{Vehicle: v, TensionN: 1000}, nil, nil).Straight, "a ratio of 0 is none")
	assert.True(t, effort.TieBack(effort.TieBackIn{}, nil, nil).Known)
	assert.Equal(t, quantity.Force(7000), effort.TieBack(effort.TieBackIn{TensionN: 5000, PullN: 7000}, nil, nil).Load)
	assert.True(t, effort.Jump(effort.JumpIn{BreakawayN: 5, RunN: 5, MassKg: 1, LineNPerM: 1}, nil, nil).Known)
	assert.False(t, effort.Jump(effort.JumpIn{BreakawayN: 5, RunN: 1, LineNPerM: 1}, nil, nil).Known)
	k, ok := effort.LineStiffness(effort.Piece{LengthM: 10, StiffnessN: 1e6}, effort.Piece{StiffnessN: 1e6})
	assert.True(t, ok)
	near(t, 1e5, k, 1e-6, "EA/L")
	_, ok = effort.LineStiffness(effort.Piece{StiffnessN: 1e6})
	assert.False(t, ok, "no length at all")
}

// Of a casualty whose centre of gravity nobody entered an axle carries 0.40 to 0.60 of
// the weight (the book's range): counted wheels are those of the heaviest axle at the
// high end, of the lightest at the low one, one after another. Gravel grips 0.35 to
// 0.55, grass takes 0.0525 to 0.143 of what rolls. (closed form)
func TestLockedWheelsOfAnUnknownBalance(t *testing.T) {
	w := 2450 * quantity.Gravity
	for wheels, c := range map[int]struct{ light, heavy float64 }{1: {0.20, 0.30}, 2: {0.40, 0.60}, 3: {0.70, 0.80}, 4: {1, 1}, 9: {1, 1}} {
		v := casualty(func(v *plan.Vehicle) {
			v.CGBehindFront, v.Stuck = 0, &plan.Stuck{Depth: plan.DepthNone, LockedWheels: wheels}
		})
		r := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil).Physics
		near(t, w*(0.35*c.light+0.0525*(1-c.light)), float64(r.Low), 1e-6*w, "low")
		near(t, w*(0.55*c.heavy+0.143*(1-c.heavy)), float64(r.High), 1e-6*w, "high")
	}
}

// What wheels dragged aside take hangs on the way out against the way they roll,
// whichever way that is.
func TestDraggedAsideWhicheverWay(t *testing.T) {
	of := func(bearing, way quantity.Degrees) effort.ResistanceResult {
		v := casualty(toward(way))
		v.Bearing = bearing
		return effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, nil, nil)
	}
	for _, off := range []quantity.Degrees{0, 29, 31, 60, 90, -45, 150, 180} {
		want := of(0, off.Normal())
		for _, bearing := range []quantity.Degrees{50, 133, 301} {
			got := of(bearing, (bearing + off).Normal())
			near(t, float64(want.High), float64(got.High), 1e-6, "high")
			near(t, float64(want.Terms.Dragged.High), float64(got.Terms.Dragged.High), 1e-6, "dragged")
		}
	}
}

// Of a measured figure below what two locked wheels take at least, on ground that
// climbs 5°, that least is told: W·sin 5° and μ·W·cos 5° of the lighter axle, of
// which the front carries 1.6/3. (closed form) A figure just above it is believed.
func TestMeasuredBelowWhatIsLocked(t *testing.T) {
	sin, cos := math.Sincos(5 * math.Pi / 180)
	least := 2450 * quantity.Gravity * (sin + 0.35*cos*1.4/3)
	for f, believed := range map[float64]bool{0.999: false, 1.001: true} {
		v := casualty(func(v *plan.Vehicle) {
			v.Stuck = &plan.Stuck{Depth: plan.DepthNone, LockedWheels: 2, Measured: quantity.Force(f * least)}
		})
		var found []part.Finding
		res := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss, GradeDeg: 5}, nil, &found)
		assert.Equal(t, believed, res.Measured)
		if x, said := finds(found, "measured-below-locked"); assert.Equal(t, !believed, said) && said {
			near(t, least, figure(t, x, "locked"), 1e-6, "the least")
		}
	}
}

// A figure of more than half of what the rules find at most is none to wonder at,
// whatever of the surface nobody entered; below half that is asked for. (ours)
func TestMeasuredAgainstHalfOfTheRules(t *testing.T) {
	v := casualty(func(v *plan.Vehicle) { v.Stuck = &plan.Stuck{Depth: plan.DepthNone} })
	ground := plan.Ground{Grip: "grip.gravel"}
	most := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &ground}, nil, nil).High
	for f, asked := range map[quantity.Force]bool{0.49: true, 0.51: false, 0.9: false} {
		v.Stuck.Measured = f * most
		var found []part.Finding
		effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &ground}, nil, &found)
		x, said := finds(found, part.NotDecidedID)
		assert.Equal(t, asked, said && x.Lacks[0].Rule == "measured-below-rules", "%v: %v", float64(f), found)
	}
}

// A current pushes along the way out at the likely and the high end of physics, on top
// of what rolls, and what breaks the casualty loose as much: ½·ρ·1.1·4.5·1·1.5² N, by
// grass of 0.0525, 0.08 and 0.143 and k of 1.3, 1.6 and 2 (ours). The sum says the same.
func TestACurrentPushesAlongByPhysics(t *testing.T) {
	v := casualty(func(v *plan.Vehicle) {
		v.Length = 4.5
		v.Stuck = &plan.Stuck{Depth: plan.DepthNone, InWater: true, WaterSpeed: plan.Known(quantity.Speed(1.5)), WaterDepth: 1, TrappedWater: 500}
	})
	var d part.Derivation
	r := effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss}, &d, nil).Physics
	w, push := (2450+500)*quantity.Gravity, 0.5*1000*1.1*4.5*1.5*1.5
	near(t, 0.0525*w, float64(r.Low), 1e-6*w, "low: across")
	near(t, 0.08*w+push, float64(r.Likely), 1e-6*w, "likely")
	near(t, 0.143*w+push, float64(r.High), 1e-6*w, "high")
	near(t, 1.6*0.08*w+push, float64(r.Break.Likely), 1e-6*w, "loose, likely")
	near(t, 2*0.143*w+push, float64(r.Break.High), 1e-6*w, "loose, high")
	said := ""
	for _, s := range d.Steps {
		if s.Result.Name == "physics" {
			said = s.Formula
		}
	}
	assert.Equal(t, "resistance-physics", said)
	// Down a slope that does it all that is said instead, be there a current or none.
	for _, c := range []struct {
		grade float64
		want  string
	}{{-12, "resistance-physics-none"}, {-5, "resistance-physics"}} {
		d = part.Derivation{}
		v.Stuck.InWater, v.Stuck.WaterSpeed, v.Stuck.Sinkage = false, plan.Maybe[quantity.Speed]{}, 0.05
		effort.Resistance(effort.ResistanceIn{Vehicle: v, Ground: &moss, GradeDeg: c.grade}, &d, nil)
		for _, s := range d.Steps {
			if s.Result.Name == "physics" {
				said = s.Formula
			}
		}
		assert.Equal(t, c.want, said)
	}
}

// Where the place of its weight is assumed, what is asked for is what nobody entered of it.
func TestAnAssumedCentreOfGravityAsksForWhatIsNotKnown(t *testing.T) {
	for _, c := range []struct {
		behind, height quantity.Length
		want           []string
	}{{0, 0.75, []string{"cg_behind_front_axle_m"}}, {1.3, 0, []string{"cg_height_m"}}, {0, 0, []string{"cg_behind_front_axle_m", "cg_height_m"}}, {1.3, 0.75, nil}} {
		var found []part.Finding
		v := warden(func(v *plan.Vehicle) { v.CGBehindFront, v.CGHeight, v.BrakeForce = c.behind, c.height, 50_000 })
		effort.PullerHold(effort.HoldIn{Vehicle: v, Ground: &moss, Ends: pullAhead(), FallAheadDeg: 6, TensionN: 100, TensionKnown: true}, nil, &found)
		f, said := finds(found, "centre-of-gravity-assumed")
		assert.Equal(t, c.want != nil, said)
		var lacks []string
		for _, l := range f.Lacks {
			lacks = append(lacks, l.Member)
		}
		assert.Equal(t, c.want, lacks)
	}
}
