package solver_test

import (
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/solver"
	"kedge/solver/facts/factstest"
	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Published figures end to end: a plan that draws the case, and what Assess
// says of it. Sources and tolerances are those of testdata/published, unless
// one stands beside a row.

const (
	newtonsPerPoundForce = 4.4482216152605
	tonneForce           = 1000 * quantity.Gravity
)

func published(t *testing.T, file, id string) factstest.Case {
	t.Helper()
	return factstest.ByID(t, factstest.Published(t, os.DirFS("../testdata/published"), file+".toml"), id)
}

func assessed(t *testing.T, c change) *solver.Assessment {
	t.Helper()
	p := basePlan()
	c(p)
	require.NoError(t, plan.Validate(p))
	return solver.Assess(p, "R1")
}

func partOf(t *testing.T, a *solver.Assessment, id string) *part.Part {
	t.Helper()
	p, ok := a.Part(id)
	require.True(t, ok, "no part %s", id)
	return p
}

// A redirect at every angle of the riggers' table, without friction: the load
// on the block over the line tension, as printed (gear.redirect) and in closed
// form, 2·cos(θ/2).
func TestPublishedRedirectTable(t *testing.T) {
	c := published(t, "gear", "gear.redirect")
	printed := c.Wants(t, "factor")
	for i, between := range c.Ins(t, "between_deg") {
		t.Run(strconv.FormatFloat(between, 'g', -1, 64), func(t *testing.T) {
			a := assessed(t, redirect(between))
			require.Equal(t, part.Within, a.Status)
			// One millionth of the tension: the equilibrium's own tolerance.
			require.InDelta(t, between, float64(a.Nodes[0].Angle), 1e-6)
			factor := float64(partOf(t, a, "B1").Move.Force / a.Move.Tension)
			require.InDelta(t, 2*math.Cos(between*math.Pi/360), factor, 1e-6)
			require.True(t, c.Within(printed[i], factor), "%v, printed %v", factor, printed[i])
			// The anchor carries what the block does.
			require.InDelta(t, factor, float64(partOf(t, a, "A1").Move.Force/a.Move.Tension), 1e-6)
		})
	}
}

// redirect shackles the block to its point, without friction, and sets the truck
// so that the angle between the lines is that.
func redirect(betweenDeg float64) change {
	return func(p *plan.Plan) {
		v, w, r := &p.Site.Vehicles[0], &p.Site.Vehicles[1], &p.Rigs[0]
		p.Site.Anchors[0].At, r.Blocks[0].At = plan.Point{X: 20}, plan.Point{X: 20}
		r.Blocks[0].Fixed, r.Blocks[0].Efficiency = port("A1", ""), 1
		r.Slings, r.Shackles = nil, nil
		v.At, v.Height = plan.Point{}, 0.3 // at 0° the line runs over it
		const far = 25
		turn := (180 - betweenDeg) * math.Pi / 180
		w.Bearing = quantity.Degrees(90 - (180 - betweenDeg) + 180).Normal()
		w.At = plan.Point{X: 20 + (far+3)*math.Cos(turn), Y: (far + 3) * math.Sin(turn)}
	}
}

// A winch's pull by layer as the army prints it (gear.26), and a small drum's
// shares by the formula (gear.26b): the limit of the winch with half of each
// layer left on its drum.
func TestPublishedWinchLayers(t *testing.T) {
	army, small := published(t, "gear", "gear.26"), published(t, "gear", "gear.26b")
	pull := func(drum, line quantity.Length, rated quantity.Force, layer float64) float64 {
		a := assessed(t, onLayer(drum, line, rated, int(layer)))
		w := partOf(t, a, "V2/winch")
		require.Equal(t, int(layer), w.Layer)
		require.Equal(t, "winch layer", w.Limit.Basis)
		return float64(w.Limit.Force)
	}
	var pounds, shares []float64
	for _, n := range army.Ins(t, "layers") {
		const line = 0.02
		rated := army.In(t, "first_lb") * newtonsPerPoundForce
		pounds = append(pounds, pull(quantity.Length(army.In(t, "drum_over_line")*line), line, quantity.Force(rated), n)/newtonsPerPoundForce)
	}
	army.Check(t, "pull_lb", pounds...)
	for _, n := range small.Ins(t, "layers") {
		const rated = 42000
		drum, line := small.In(t, "drum_mm")/1000, small.In(t, "line_mm")/1000
		shares = append(shares, pull(quantity.Length(drum), quantity.Length(line), rated, n)/rated)
	}
	small.Check(t, "share", shares...)
}

func onLayer(drum, line quantity.Length, rated quantity.Force, layer int) change {
	return func(p *plan.Plan) {
		w, l := p.Site.Vehicles[1].Winch, &p.Rigs[0].Lines[0]
		w.DrumDiameter, w.DrumWidth, w.FlangeDiameter, w.LinePull = drum, 10.5*line, 0, rated
		l.Diameter = line
		d := gear.DrumOf(w, l)
		l.Length = outOfBase()
		for n := 1; n < layer; n++ {
			l.Length += d.LayerLength(n)
		}
		l.Length += d.LayerLength(layer) / 2
	}
}

// Tackle of one lead sheave and as many parts at the load: the lead-line factor,
// line tension over load (loads.lead-plain, loads.lead-roller), the mechanical
// advantage of four parts as printed (loads.t4), and two without friction
// (loads.t3b, loads.t5). The parts lie a hundredth of a metre apart over 60 m:
// the angle between them costs less than 1 part in 10⁶.
func TestPublishedTackle(t *testing.T) {
	tension := func(parts int, eta float64) float64 {
		a := assessed(t, tackle(parts, eta))
		require.Equal(t, part.Within, a.Status)
		require.InDelta(t, float64(parts), a.MotionRatio, 1e-3)
		return float64(a.Move.Tension / a.Move.Along)
	}
	for _, id := range []string{"loads.lead-plain", "loads.lead-roller"} {
		c := published(t, "loads", id)
		for i, parts := range c.Ins(t, "parts")[:5] {
			got, want := tension(int(parts), 1/c.In(t, "k")), c.Wants(t, "factor")[i]
			require.True(t, c.Within(want, got), "%s, %v parts: %v, want %v", id, parts, got, want)
		}
	}
	four := published(t, "loads", "loads.t4")
	four.Check(t, "advantage", 1/tension(4, four.In(t, "efficiency")))
	for _, id := range []string{"loads.t3b", "loads.t5"} {
		c := published(t, "loads", id)
		parts := map[string]int{"loads.t3b": 2, "loads.t5": 4}[id]
		want, got := c.Want(t, "pull_lb"), tension(parts, 1)*c.In(t, "load_lb")
		require.InEpsilon(t, want, got, 1e-6, id) // the parts are not quite parallel
	}
}

// tackle leads the line over a lead block and then between blocks on the pickup
// and on points ahead of it.
func tackle(parts int, eta float64) change {
	return func(p *plan.Plan) {
		const ahead, apart = 60, 0.01
		v, w, r := &p.Site.Vehicles[0], &p.Site.Vehicles[1], &p.Rigs[0]
		v.Recovery, p.Site.Anchors, r.Blocks, r.Slings, r.Shackles, r.Dampers = nil, nil, nil, nil, nil, nil
		w.At, w.Bearing = plan.Point{X: -0.4}, 90 // its fairlead beside the pickup's front
		v.Length, w.Length = 4.2, 5               // the line is clear of both bodies
		path := []plan.Port{port("V2", "winch")}
		for i := range parts + 1 {
			y := apart * float64(i)
			n := plan.ID(rune('1' + i))
			id, last := "B"+n, i == parts
			on := port("A"+n, "")
			if i%2 == 0 {
				p.Site.Anchors = append(p.Site.Anchors, ratedPoint("A"+n, ahead, y))
			} else {
				v.Recovery = append(v.Recovery, vehiclePoint("P"+n, 2.6, quantity.Length(y), 0))
				on = port("V1", "P"+n)
			}
			if last {
				path = append(path, on)
				continue
			}
			b := block(id, 0, 0)
			b.Fixed, b.Efficiency = on, eta
			r.Blocks = append(r.Blocks, b)
			path = append(path, port(id, ""))
		}
		r.Lines[0].Path, r.Lines[0].Length = path, 600
	}
}

// The EN web sling of 3 t (gear.9) as it hangs on tree and point, and the
// openings of the project's own checks (trade.sling-opening, trade.sling-3m).
func TestPublishedSlings(t *testing.T) {
	c := published(t, "gear", "gear.9")
	tag := quantity.Force(c.In(t, "straight_t") * tonneForce)
	limit := func(hitch string, opens quantity.Degrees) float64 {
		a := assessed(t, pineSling(hitch, gear.SlingLength(0.24, opens), tag))
		s := partOf(t, a, "S1")
		require.True(t, s.Limit.Known)
		return float64(s.Limit.Force) / tonneForce
	}
	c.Check(t, "basket_45_t", limit(plan.HitchBasket, 60))  // 30° off the pull: the band to 45°, below the worse leg's 4.7 t
	c.Check(t, "basket_60_t", limit(plan.HitchBasket, 100)) // 50°: the band to 60°
	c.Check(t, "choked_t", limit(plan.HitchChoked, 50))     // long enough to choke at 120° and more
	straight := assessed(t, theSling(func(s *plan.Sling) { s.Rating, s.Condition = working(tag), plan.ConditionNew }))
	c.Check(t, "straight_out_t", float64(partOf(t, straight, "S1").Limit.Force)/tonneForce)

	o := published(t, "trade", "trade.sling-opening")
	var lengths []float64
	for _, opens := range o.Ins(t, "opens_deg") {
		length := gear.SlingLength(quantity.Length(o.In(t, "radius_m")), quantity.Degrees(opens))
		lengths = append(lengths, float64(length))
		require.InDelta(t, opens, float64(partOf(t, assessed(t, pineSling(plan.HitchBasket, length, tag)), "S1").Angle), 1e-6)
	}
	o.Check(t, "length_m", lengths...)
	three := published(t, "trade", "trade.sling-3m")
	s := partOf(t, assessed(t, pineSling(plan.HitchBasket, quantity.Length(three.In(t, "length_m")), tag)), "S1")
	three.Check(t, "opens_deg", float64(s.Angle))
	require.Equal(t, "leg", s.Values[0].Name)
	three.Check(t, "worse_leg_kn", s.Values[0].X/float64(s.Move.Force)*three.In(t, "load_kn"))
}

// pineSling hangs the block on a Scots pine of 48 cm, 20 m high, gleyed soil,
// shallow roots, by a new sling a metre above ground.
func pineSling(hitch string, length quantity.Length, tag quantity.Force) change {
	return do(onTree, theAnchor(func(a *plan.Anchor) { a.Species, a.Girth, a.Trunk, a.Height = "scots-pine", 0.48*math.Pi, 0.48, 20 }), theSling(func(s *plan.Sling) {
		s.Hitch, s.Length, s.Rating, s.Height, s.Condition = hitch, length, working(tag), 1, plan.ConditionNew
	}))
}

// The pine holds a third of the low end of what uproots it: 27.9 kN at 1 m
// (trade.scots-pine).
// Twice as high it holds half, and is not within more.
func TestPublishedTree(t *testing.T) {
	c := published(t, "trade", "trade.scots-pine")
	a := assessed(t, pineSling(plan.HitchBasket, 3, 40000))
	tree := partOf(t, a, "A1")
	c.Check(t, "limit_kn", float64(tree.Limit.Force)/1000)
	c.Check(t, "moment_knm", float64(tree.Ultimate.Likely)*c.In(t, "strap_m")/1000)
}

// A rear parking brake under a front winch, 2 600 kg (trade.rear-brake): the
// line tension at which the truck slides at each grip.
func TestPublishedRearBrake(t *testing.T) {
	c := published(t, "trade", "trade.rear-brake")
	at := func(grip string) part.Range {
		a := assessed(t, puller(func(v *plan.Vehicle) {
			v.Mass, v.Wheelbase, v.CGBehindFront = quantity.Mass(c.In(t, "mass_kg")), quantity.Length(c.In(t, "wheelbase_m")), quantity.Length(c.In(t, "b_m"))
			v.Winch.Height = quantity.Length(c.In(t, "height_m"))
			v.Brake, v.Chocks, v.Grip = plan.BrakeRear, plan.ChocksNone, grip
			v.BrakeForce = 1e5 // the wheels slide before the brake slips
		}))
		slide := partOf(t, a, "V2/slide")
		require.Equal(t, slide.Limit.Force, slide.Ultimate.Low)
		return slide.Ultimate
	}
	gravel, earth := at("grip.gravel"), at("grip.earth-firm") // grip 0.35 likely, 0.8 of it at the low end; 0.5 low, 0.65 high
	c.Check(t, "slide_kn", float64(gravel.Likely)/1000, float64(earth.Low)/1000, float64(earth.High)/1000)
}

// Pickets by the navy's table (anchors.a3), a log by the army's (anchors.d8)
// less the longer trench of the field manual, the stand-off rings (anchors.z1)
// and the push of a current (trade.water).
func TestPublishedGroundAndZones(t *testing.T) {
	pickets := published(t, "anchors", "anchors.a3")
	hold := partOf(t, assessed(t, onPickets), "A1").Ultimate
	pickets.Check(t, "hold_kn", float64(hold.Low)/1000)

	log := published(t, "anchors", "anchors.d8")
	a := assessed(t, do(inGround, theAnchor(func(a *plan.Anchor) {
		a.Depth = quantity.Length(log.In(t, "depth_ft") * 0.3048)
		a.LineRun, a.LogDiameter, a.LogLength = log.In(t, "run_per_rise"), quantity.Length(log.In(t, "log_m")), quantity.Length(log.In(t, "length_m"))
	})))
	log.Check(t, "hold_kn", float64(partOf(t, a, "A1").Ultimate.High)/1000) // the high end takes the army table's 1 ft off

	ring := published(t, "anchors", "anchors.z1")
	for i, material := range []string{plan.MaterialHMPE, plan.MaterialNylon, plan.MaterialWire} {
		a := assessed(t, func(p *plan.Plan) { // one straight line of 30 m
			w, r := &p.Site.Vehicles[1], &p.Rigs[0]
			w.At, w.Bearing = plan.Point{X: 2.6 + ring.In(t, "length_m") + 3}, 270
			r.Blocks, r.Slings, r.Shackles, r.Dampers = nil, nil, nil, nil
			r.Lines[0].Path, r.Lines[0].Material = []plan.Port{port("V2", "winch"), port("V1", "front")}, material
		})
		for _, z := range a.Zones {
			if z.Kind == part.ZoneStandOff {
				require.InDelta(t, ring.Wants(t, "radius_m")[i], float64(z.Radius), 1e-9, material)
			}
		}
	}

	water := published(t, "trade", "trade.water")
	var pushes []float64
	for _, speed := range water.Ins(t, "speed_m_per_s") {
		a := assessed(t, do(inWater(quantity.Speed(speed), quantity.Length(water.In(t, "depth_m"))), casualty(func(v *plan.Vehicle) { v.Length = quantity.Length(water.In(t, "length_m")) })))
		for i := range a.Findings {
			if f := &a.Findings[i]; f.ID == "current-pushes" {
				pushes = append(pushes, f.Values[0].X/1000)
			}
		}
	}
	water.Check(t, "push_kn", pushes...)
}
