package gear

import (
	"math"

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
// fifth layer counts.
func Winch(in WinchIn, sum *part.Sum, found *[]part.Finding) WinchState {
	w, l, b := in.Winch, in.Line, book()
	where := at{in.Vehicle, in.Part}
	var out WinchState
	d := DrumOf(w, l)
	out.countLine(in, d, found)
	rated, preset := float64(w.LinePull), isPreset(w.Presets, "line_pull_n")
	switch {
	case rated == 0:
		raise(found, "winch-no-rating", part.Warning, where, &part.Remedy{Do: "type-line-pull", Thing: in.Vehicle})
		return out
	case !positive(rated):
		raise(found, "rating-impossible", part.Danger, where, &part.Remedy{Do: "type-line-pull", Thing: in.Vehicle})
		return out
	}
	surety := part.SuretyTyped
	if preset {
		surety = part.SuretyMemory
	}
	pull, basis, s := rated*b.layerFloor.x, "winch, layer not known", b.layerFloor.surety
	if out.Layer > 0 {
		pull, basis, s = float64(LayerPull(w.LinePull, d, out.Layer)), "winch layer", part.SuretyCommon
	} else {
		raise(found, "winch-layer-unknown", part.Caution, where, &part.Remedy{Do: "type-drum", Thing: in.Vehicle},
			value("pull", part.UnitLimit, pull))
	}
	out.Limit = part.Limit{
		Known: true, Force: quantity.Force(pull), Basis: basis, Factor: pull / rated,
		Surety: surety.Weaker(s), Preset: preset || isPreset(w.Presets, "drum_diameter_m"),
	}
	if sum.On() {
		if out.Layer > 0 {
			sum.Add("winch-layer-pull", value("limit", part.UnitLimit, pull),
				typed("rated", part.UnitLimit, rated, preset), typed("drum", part.UnitLength, float64(d.Diameter), isPreset(w.Presets, "drum_diameter_m")),
				typed("line", part.UnitLength, float64(d.Line), isPreset(l.Presets, "diameter_m")), computed("layer", part.UnitCount, float64(out.Layer)))
		} else {
			sum.Add("winch-floor", value("limit", part.UnitLimit, pull),
				typed("rated", part.UnitLimit, rated, preset), cited("share", part.UnitFactor, b.layerFloor))
		}
	}
	return out
}

// countLine finds the line left on the drum, its layer and what it lacks.
func (out *WinchState) countLine(in WinchIn, d Drum, found *[]part.Finding) {
	w, l := in.Winch, in.Line
	where := at{in.Vehicle, in.Part}
	length, path := float64(l.Length), float64(in.Path)
	if !positive(float64(w.DrumDiameter)) || !positive(float64(w.DrumWidth)) {
		raise(found, "drum-unknown", part.Notice, where, &part.Remedy{Do: "type-drum", Thing: in.Vehicle})
	} else if positive(float64(l.Diameter)) && !d.Known() {
		raise(found, "drum-impossible", part.Danger, where, &part.Remedy{Do: "type-drum", Thing: in.Vehicle},
			value("width", part.UnitLength, float64(w.DrumWidth)), value("line", part.UnitLength, float64(l.Diameter)))
	}
	if f, dd := float64(w.FlangeDiameter), float64(w.DrumDiameter); positive(f) && f <= dd {
		raise(found, "drum-impossible", part.Danger, where, &part.Remedy{Do: "type-drum", Thing: in.Vehicle},
			value("width", part.UnitLength, f), value("line", part.UnitLength, dd))
	}
	if !positive(length) || !sane(path) {
		raise(found, "line-length-unknown", part.Caution, at{thing: l.ID}, &part.Remedy{Do: "type-length", Thing: l.ID})
		out.fullDrum(d)
		return
	}
	wraps := LeastWraps(w, l.Material)
	out.Missing = quantity.Length(math.Max(0, path+float64(d.WrapsLength(wraps))-length))
	out.OnDrum = quantity.Length(math.Max(0, length-path))
	if out.Missing > 0 {
		level := part.Danger
		raise(found, "line-short", level, at{thing: l.ID}, &part.Remedy{Do: "extend-line", Thing: l.ID, Value: value("length", part.UnitLength, float64(out.Missing))},
			value("lacks", part.UnitLength, float64(out.Missing)), value("has", part.UnitLength, length),
			value("out", part.UnitLength, path), value("wraps", part.UnitCount, float64(wraps)))
	}
	if holds := d.Holds(); holds > 0 && out.OnDrum > holds*(1+fitSlack) {
		raise(found, "drum-overfull", part.Warning, where, nil,
			value("on-drum", part.UnitLength, float64(out.OnDrum)), value("holds", part.UnitLength, float64(holds)))
	}
	used := d
	if !(math.Abs(float64(in.Side)) <= book().pileUp.x) && d.Known() {
		out.PilesUp = true
		used = d.narrowed(book().pileWidth.x)
	}
	out.Layer, out.Wraps = used.Layer(out.OnDrum)
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
		return int(book().wrapsWire.x)
	}
	return int(book().wrapsFibre.x)
}

// StallPull is the most a winch pulls: s · P_1 on the best layer, s the plan's
// stall factor or 1.0 to 1.3 without a maker's figure [ours]; a limiter stops
// it earlier. Not known without a rated pull.
func StallPull(w *plan.Winch) part.Range {
	b, rated := book(), float64(w.LinePull)
	limiter := float64(w.Limiter)
	if !positive(rated) {
		if positive(limiter) {
			f := quantity.Force(limiter)
			return part.Range{Known: true, Low: f, Likely: f, High: f}
		}
		return part.Range{}
	}
	low, likely, high := b.stallLow.x, b.stallLikely.x, b.stallHigh.x
	if s := w.StallFactor; positive(s) {
		low, likely, high = s, s, s
	}
	if !positive(limiter) {
		limiter = math.Inf(1)
	}
	pull := func(s float64) quantity.Force { return quantity.Force(math.Min(s*rated, limiter)) }
	return part.Range{Known: true, Low: pull(low), Likely: pull(likely), High: pull(high)}
}
