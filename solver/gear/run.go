package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// RunIn is a winch hauling at a steady pull.
type RunIn struct {
	Vehicle plan.ID
	Winch   *plan.Winch
	Line    *plan.Line
	Layer   int // 0: not known, counted as the first: the dearest in current
	Tension quantity.Force
	Haul    quantity.Length
}

// HasMotor tells a winch with a motor of its own to heat; one of a drive nobody
// knows may have one.
func HasMotor(w *plan.Winch) bool { return w.Drive != driveHydraulic && w.Drive != driveMechanical }

// Run is what hauling takes. The zero value is not computed.
type Run struct {
	Known      bool
	Speed      quantity.Speed
	Time       quantity.Duration
	Electric   bool             // the rest is known
	Current    quantity.Current // while it pulls
	ChargeAh   float64          // out of the battery if the engine does not run
	Heat       quantity.Energy  // left in motor, gears and cables
	FromPreset bool             // speed or current rests on the handbook's typical winch
}

// The drives of a winch that have no motor of their own to heat.
const (
	driveHydraulic  = "hydraulic"
	driveMechanical = "mechanical"
)

// Running is speed, time, current, charge and heat of a haul on the layer the
// rope is on. Torque decides: with τ = T / P_n,
//
//	v = v_0 · f(τ) · r_n/r_1,  I = I_0 + (I_r − I_0)·τ
//
// f falls along the handbook's typical curve from 1 to the speed at rated pull.
// Beyond rated pull (τ > 1) and without a rated pull nothing is computed.
func Running(in RunIn, derivation *part.Derivation, found *[]part.Finding) Run {
	w := in.Winch
	d := DrumOf(w, in.Line)
	radius, pull := 1.0, float64(w.LinePull)
	if in.Layer > 1 {
		if p := float64(LayerPull(w.LinePull, d, in.Layer)); p > 0 {
			radius, pull = float64(w.LinePull)/p, p
		}
	}
	t, haul := float64(in.Tension), float64(in.Haul)
	if !positive(pull) || !sane(t) || !positive(haul) || !(t <= pull) {
		return Run{}
	}
	share := t / pull
	idle, preset := float64(w.NoLoadSpeed), false
	if !positive(idle) {
		idle, preset = facts.WinchSpeedNoload.Likely().X, true
	}
	typical := facts.Must(facts.WinchSpeedTypical)
	curve, ok := typical.Interp(share)
	end, endOK := typical.Interp(1)
	if !ok || !endOK {
		return Run{}
	}
	if loaded := float64(w.LoadSpeed); positive(loaded) && loaded < idle {
		curve = 1 - (1-curve)*(1-loaded/idle)/(1-end)
	} else {
		preset = true
	}
	out := Run{Known: true, Speed: quantity.Speed(idle * curve * radius), FromPreset: preset}
	out.Time = quantity.Duration(haul / float64(out.Speed))
	if !sane(float64(out.Time)) {
		return Run{} // as good as standing still
	}
	if derivation.On() {
		derivation.Add("winch-speed", part.Number("speed", part.UnitSpeed, out.Speed), computed("share", part.UnitShare, share),
			typed("idle", part.UnitSpeed, idle, preset), computed("radius", part.UnitFactor, radius))
	}
	if HasMotor(w) {
		out.draw(w, share, t*haul)
		out.warn(in, share, found)
	}
	return out
}

// lacks is what neither speed nor torque of a haul can be told without.
func (in RunIn) lacks() (lacks []part.Lack) {
	if !positive(float64(in.Winch.NoLoadSpeed)) {
		lacks = append(lacks, member(in.Vehicle, "winch.no_load_speed_m_per_s"))
	}
	if !positive(float64(in.Winch.LoadSpeed)) {
		lacks = append(lacks, member(in.Vehicle, "winch.load_speed_m_per_s"))
	}
	if in.Layer == 0 {
		lacks = append(lacks, layerLacks(in.Vehicle, in.Winch, in.Line)...)
	}
	return lacks
}

// draw fills in what an electric winch takes; work is what it gives, joules.
func (out *Run) draw(w *plan.Winch, share, work float64) {
	idle, rated := float64(w.NoLoadCurrent), float64(w.LoadCurrent)
	if !positive(idle) {
		idle, out.FromPreset = facts.WinchCurrentIdle.Likely().X, true
	}
	if !positive(rated) {
		rated, out.FromPreset = facts.WinchCurrentRated.Conservative().X, true
	}
	const secondsPerHour = 3600
	amperes := idle + (rated-idle)*share
	out.Electric, out.Current = true, quantity.Current(amperes)
	out.ChargeAh = amperes * float64(out.Time) / secondsPerHour
	out.Heat = quantity.Energy(math.Max(0, facts.WinchVoltage.Likely().X*amperes*float64(out.Time)-work))
}

// warn says when the motor must rest and where the charge comes from. Heat goes
// with the square of the current; a minute at rated pull is the handbook's.
func (out *Run) warn(in RunIn, share float64, found *[]part.Finding) {
	if found == nil {
		return
	}
	if most := facts.WinchDuty.Conservative().X; share > 0 && float64(out.Time)*share*share > most {
		raise(found, "winch-duty", part.Caution, at{thing: in.Vehicle}, nil,
			part.Number("time", part.UnitTime, out.Time), part.Number("most", part.UnitTime, most/(share*share)))
	} else if share > 0 {
		part.NotDecided(found, "winch-duty", in.Vehicle, in.lacks()...)
	}
	if in.Winch.EngineOff {
		raise(found, "engine-off", part.Notice, at{thing: in.Vehicle}, &part.Remedy{Do: "run-engine", Thing: in.Vehicle},
			part.Number("current", part.UnitCurrent, out.Current), part.Number("time", part.UnitTime, out.Time))
	}
}
