package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// WinchIn is a winch and the line that leaves it.
type WinchIn struct {
	Vehicle plan.ID
	Part    string
	Winch   *plan.Winch
	Line    *plan.Line
	Path    quantity.Length  // line out along the drawn path, from the fairlead
	Side    quantity.Degrees // line off the straight lead in plan, either way
}

// WinchState is what a winch gives on the layer its rope is on, and whether
// the line suffices. A winch has no ultimate: it stalls.
type WinchState struct {
	part.Capacity
	Layer   int             // 0: not known
	Wraps   float64         // left on the drum, meaningful if Layer is known
	OnDrum  quantity.Length // line left on the drum; 0 if there is none or it is not known
	Missing quantity.Length // line it lacks, least wraps included; 0: enough, or not known
	PilesUp bool            // it piles up on one side, so a narrower drum counts
}

// Winch is the pull a winch gives on its layer, [LayerPull] of the layer found
// from the line left on the drum for this path. A line over 5° off piles up on
// one side: the layer of a half-width drum counts [ours]. Without the drum's
// measures the lower of half of the rated pull (FM 21-305) and a small drum's
// fifth layer counts; piled up on one side it is the most the winch may give.
func Winch(in WinchIn, derivation *part.Derivation, found *[]part.Finding) WinchState {
	w, l, b := in.Winch, in.Line, book()
	where := at{thing: in.Vehicle, part: in.Part, below: "winch."}
	var out WinchState
	d := DrumOf(w, l)
	out.countLine(in, d, found)
	rated, preset := float64(w.LinePull), isPreset(w.Presets, "line_pull_n")
	switch {
	case rated == 0:
		raise(found, "winch-no-rating", part.Warning, where, &part.Remedy{Do: "type-line-pull", Thing: in.Vehicle})
		lacking(found, winchOver, where.lack("line_pull_n"))
		return out
	case !positive(rated):
		raise(found, "rating-impossible", part.Danger, where, &part.Remedy{Do: "type-line-pull", Thing: in.Vehicle})
		return out
	}
	plateOdd(in.Vehicle, w, where, found)
	confidence := part.ConfidenceTyped
	if preset {
		confidence = part.ConfidenceMemory
	}
	pull, basis, s := rated*b.layerFloor.X, "winch, layer not known", b.layerFloor.Confidence
	if out.Layer > 0 {
		pull, basis, s = float64(LayerPull(w.LinePull, d, out.Layer)), "winch layer", part.ConfidenceCommon
	} else {
		raise(found, "winch-layer-unknown", part.Caution, where, &part.Remedy{Do: "type-drum", Thing: in.Vehicle},
			part.Number("pull", part.UnitLimit, pull))
		lacking(found, winchOver, layerLacks(in.Vehicle, w, l)...)
	}
	out.Limit = part.Limit{
		Known: true, Force: quantity.Force(pull), Basis: basis,
		Confidence: confidence.Weaker(s), Preset: preset || isPreset(w.Presets, "drum_diameter_m"),
		AtMost: out.Layer == 0 && out.PilesUp, // on half of a drum the layers are more than the floor's
	}
	if derivation.On() {
		if out.Layer > 0 {
			derivation.Add("winch-layer-pull", part.Number("limit", part.UnitLimit, pull),
				typed("rated", part.UnitLimit, rated, preset), typed("drum", part.UnitLength, float64(d.Diameter), isPreset(w.Presets, "drum_diameter_m")),
				typed("line", part.UnitLength, float64(d.Line), isPreset(l.Presets, "diameter_m")), computed("layer", part.UnitCount, float64(out.Layer)))
		} else {
			derivation.Add("winch-floor", part.Number("limit", part.UnitLimit, pull),
				typed("rated", part.UnitLimit, rated, preset), cited("share", part.UnitFactor, b.layerFloor))
		}
	}
	return out
}

// plateOdd tells figures of a winch that no plate states.
func plateOdd(vehicle plan.ID, w *plan.Winch, where at, found *[]part.Finding) {
	if found == nil {
		return
	}
	if least := facts.WinchWrapsPlatform.Likely().X; w.MinWraps > 0 && float64(w.MinWraps) < least {
		raise(found, "wraps-few", part.Caution, where, nil,
			part.Count("wraps", w.MinWraps), part.Count("least", least))
	}
	if w.LoadSpeed > 0 && w.NoLoadSpeed > 0 && w.LoadSpeed > w.NoLoadSpeed {
		raise(found, "winch-speed-odd", part.Caution, where, nil,
			part.Number("loaded", part.UnitSpeed, w.LoadSpeed), part.Number("idle", part.UnitSpeed, w.NoLoadSpeed))
	}
	if stallFactorOdd(w) {
		raise(found, "stall-factor-odd", part.Warning, where, &part.Remedy{Do: "type-stall", Thing: vehicle},
			part.Number("factor", part.UnitNone, w.StallFactor), part.Number("least", part.UnitNone, facts.WinchStallFactor.Low().X),
			part.Number("most", part.UnitNone, facts.WinchStallFactor.High().X), part.Number("counted", part.UnitNone, math.Max(w.StallFactor, facts.WinchStall.High().X)))
	}
}

// TensionBeyond raises a typed tension over what the winch gives at most, where
// its limiter stops it or where it stalls: one of the two figures is wrong.
func TensionBeyond(vehicle plan.ID, w *plan.Winch, l *plan.Line, found *[]part.Finding) {
	if !(l.Fixed > 0) {
		return
	}
	if gives := StallPull(w); gives.Known && l.Fixed > gives.High {
		raise(found, "tension-beyond-winch", part.Warning, at{thing: l.ID}, nil,
			part.Force("tension", l.Fixed), part.Number("gives", part.UnitLimit, gives.High))
		with(found, vehicle)
	}
}

// countLine finds the line left on the drum, its layer and what it lacks.
func (out *WinchState) countLine(in WinchIn, d Drum, found *[]part.Finding) {
	w, l := in.Winch, in.Line
	where := at{thing: in.Vehicle, part: in.Part, below: "winch."}
	length, path := float64(l.Length), float64(in.Path)
	out.PilesUp = pilesUp(in.Side)
	if !positive(float64(w.DrumDiameter)) || !positive(float64(w.DrumWidth)) {
		raise(found, "drum-unknown", part.Notice, where, &part.Remedy{Do: "type-drum", Thing: in.Vehicle})
	} else if positive(float64(l.Diameter)) && !d.Known() {
		raise(found, "drum-impossible", part.Danger, where, &part.Remedy{Do: "type-drum", Thing: in.Vehicle},
			part.Length("width", w.DrumWidth), part.Length("line", l.Diameter))
	}
	if f, dd := float64(w.FlangeDiameter), float64(w.DrumDiameter); positive(f) && f <= dd {
		raise(found, "drum-impossible", part.Danger, where, &part.Remedy{Do: "type-drum", Thing: in.Vehicle},
			part.Length("width", f), part.Length("line", dd))
	}
	flange := positive(float64(w.FlangeDiameter))
	if !flange {
		part.NotDecided(found, "drum-impossible", in.Vehicle, where.lack("flange_diameter_m"))
	}
	if !positive(length) || !sane(path) {
		raise(found, "line-length-unknown", part.Caution, at{thing: l.ID}, &part.Remedy{Do: "type-length", Thing: l.ID})
		lacking(found, "line-short", member(l.ID, "length_m"))
		lacking(found, "drum-overfull", member(l.ID, "length_m"))
		out.fullDrum(d)
		return
	}
	out.lacks(in, d, found)
	out.OnDrum = quantity.Length(math.Max(0, length-path))
	if !flange {
		part.NotDecided(found, "drum-overfull", in.Vehicle, where.lack("flange_diameter_m"))
	}
	if !d.Known() && out.OnDrum > 0 {
		part.NotDecided(found, "drum-overfull", in.Vehicle, drumLacks(in.Vehicle, w, l)...)
	}
	if found != nil && flange && d.Known() && w.FlangeDiameter > w.DrumDiameter {
		if holds := d.Holds(); out.OnDrum > holds*(1+fitSlack) {
			raise(found, "drum-overfull", part.Warning, where, nil,
				part.Length("on-drum", out.OnDrum), part.Length("holds", holds))
		}
	}
	used := d
	if out.PilesUp && d.Known() {
		used = d.narrowed(facts.WinchPileUpWidth.Conservative().X)
	}
	out.Layer, out.Wraps = used.Layer(out.OnDrum)
}

// lacks finds what the line lacks for its path and the least wraps. On a drum
// that is not known it lacks what it lacks on the smallest; on a larger one it
// may.
func (out *WinchState) lacks(in WinchIn, d Drum, found *[]part.Finding) {
	l, wraps := in.Line, LeastWraps(in.Winch, in.Line.Material)
	least, most := d.ends()
	sure := float64(in.Path + least.WrapsLength(wraps) - l.Length)
	maybe := float64(in.Path + most.WrapsLength(wraps) - l.Length)
	out.Missing = quantity.Length(math.Max(0, sure))
	id, level, lacks := "line-short", part.Danger, sure
	switch {
	case sure > 0:
	case maybe > 0:
		id, level, lacks = "line-may-be-short", part.Caution, maybe
	default:
		return
	}
	raise(found, id, level, at{thing: l.ID}, &part.Remedy{Do: "extend-line", Thing: l.ID, Value: part.Length("length", lacks)},
		part.Length("lacks", lacks), part.Length("has", l.Length),
		part.Length("out", in.Path), part.Count("wraps", wraps))
	if level == part.Caution {
		lacking(found, "line-short", drumLacks(in.Vehicle, in.Winch, in.Line)...)
	}
}

// winchOver is the rule that a winch whose pull is not known leaves open;
// package solver has it.
const winchOver = "winch-over"

// drumLacks is what the layers of a drum cannot be counted without.
func drumLacks(vehicle plan.ID, w *plan.Winch, l *plan.Line) []part.Lack {
	return unknown(
		measure{w.DrumDiameter, member(vehicle, "winch.drum_diameter_m")},
		measure{w.DrumWidth, member(vehicle, "winch.drum_width_m")},
		measure{l.Diameter, member(l.ID, "diameter_m")})
}

// layerLacks is what the layer of a line cannot be told without.
func layerLacks(vehicle plan.ID, w *plan.Winch, l *plan.Line) []part.Lack {
	return append(drumLacks(vehicle, w, l), unknown(measure{l.Length, member(l.ID, "length_m")})...)
}

// measure is a length of the plan and where it stands.
type measure struct {
	length quantity.Length
	lack   part.Lack
}

// unknown are those of the measures that nobody has entered.
func unknown(all ...measure) (lacks []part.Lack) {
	for _, m := range all {
		if !positive(float64(m.length)) {
			lacks = append(lacks, m.lack)
		}
	}
	return lacks
}

// fullDrum counts the last layer the flanges hold: the least pull there is.
func (out *WinchState) fullDrum(d Drum) { out.Layer = d.Layers() }

// LeastWraps is the wraps that must stay on the drum: by the winch's maker, or
// 5 for wire (Alberta OHS Code s.299) and 10 for rope (the high end of common
// practice). An unknown material counts as rope.
func LeastWraps(w *plan.Winch, material string) int {
	switch {
	case w.MinWraps > 0:
		return w.MinWraps
	case material == plan.MaterialWire:
		return int(facts.WinchWrapsSteel.Conservative().X)
	}
	return int(facts.WinchWrapsSynthetic.Conservative().X)
}

// stallFactorOdd tells a stall factor that no maker states: 0.9 to 1.6 [ours].
func stallFactorOdd(w *plan.Winch) bool {
	s := w.StallFactor
	if s == 0 {
		return false
	}
	least, _, most := facts.WinchStallFactor.Ends()
	return !(s >= least.X && s <= most.X)
}

// StallPull is the most a winch pulls: s · P_1 on the best layer, s the plan's
// stall factor or 1.0 to 1.3 without a maker's figure [ours]; a limiter stops
// it earlier. A factor that cannot be widens that range and never lowers its
// high end. Not known without a rated pull.
func StallPull(w *plan.Winch) part.Range {
	rated := float64(w.LinePull)
	limiter := float64(w.Limiter)
	if !positive(rated) {
		if positive(limiter) {
			f := quantity.Force(limiter)
			return part.Range{Known: true, Low: f, Likely: f, High: f}
		}
		return part.Range{}
	}
	s := rangeOf(facts.WinchStall)
	low, likely, high := s.low.X, s.likely.X, s.high.X
	switch s := w.StallFactor; {
	case !positive(s):
	case stallFactorOdd(w):
		low, likely, high = math.Min(low, s), math.Max(likely, s), math.Max(high, s)
	default:
		low, likely, high = s, s, s
	}
	if !positive(limiter) {
		limiter = math.Inf(1)
	}
	pull := func(s float64) quantity.Force { return quantity.Force(math.Min(s*rated, limiter)) }
	return part.Range{Known: true, Low: pull(low), Likely: pull(likely), High: pull(high)}
}
