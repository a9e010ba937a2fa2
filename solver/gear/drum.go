package gear

import (
	"math"

	"kedge/solver/facts"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Drum is the drum of a winch and the line on it. Layers stack at the full
// diameter of the line, no nesting. The zero value is not known.
type Drum struct {
	Diameter quantity.Length // of the barrel
	Width    quantity.Length // between the flanges
	Flange   quantity.Length // diameter of the flanges; 0: not known
	Line     quantity.Length // diameter of the line
}

// DrumOf is the drum of a winch with that line.
func DrumOf(w *plan.Winch, l *plan.Line) Drum {
	return Drum{w.DrumDiameter, w.DrumWidth, w.FlangeDiameter, l.Diameter}
}

// Known reports whether the layers can be counted: barrel, width and line are known
// and at least one wrap fits between the flanges.
func (d Drum) Known() bool {
	return positive(float64(d.Diameter)) && positive(float64(d.Line)) && positive(float64(d.Width)) && d.WrapsPerLayer() >= 1
}

// ends are the drum with what is not known of it at both ends of what vehicle
// winches have [ours]: least takes the least line for its wraps, most the most.
func (d Drum) ends() (least, most Drum) {
	least, most = d, d
	if d.Known() {
		return least, most
	}
	length := func(f facts.Figure) quantity.Length { return quantity.Length(f.X) }
	if !positive(float64(d.Line)) {
		least.Line, most.Line = length(facts.DrumLineDiameter.Low()), length(facts.DrumLineDiameter.High())
	}
	if !positive(float64(d.Diameter)) {
		least.Diameter, most.Diameter = least.Line*length(facts.DrumRatio.Low()), most.Line*length(facts.DrumRatio.High())
	}
	if least.WrapsPerLayer() < 1 || most.WrapsPerLayer() < 1 {
		least.Width, most.Width = least.Line*length(facts.DrumWrapsALayer.High()), most.Line*length(facts.DrumWrapsALayer.Low())
	}
	return least, most
}

// fitSlack, a share: a width measured to the last millimetre may miss a whole
// number of wraps by rounding.
const fitSlack = 1e-9

// WrapsPerLayer is how many whole wraps fit between the flanges.
func (d Drum) WrapsPerLayer() int {
	if !positive(float64(d.Line)) || !positive(float64(d.Width)) {
		return 0
	}
	return int(math.Min(math.Floor(float64(d.Width/d.Line)*(1+fitSlack)), maxWraps))
}

// maxWraps and maxLayers, counts: beyond any drum; they end loops over made-up
// figures.
const (
	maxWraps  = 1e6
	maxLayers = 1000
)

// LayerLength is the line on layer n, from 1:
//
//	(W/d) · π · (D + (2n−1)·d)
func (d Drum) LayerLength(n int) quantity.Length {
	return quantity.Length(float64(d.WrapsPerLayer())*math.Pi) * (d.Diameter + quantity.Length(2*n-1)*d.Line)
}

// Layer is the layer that the last wrap lies on with onDrum of line on the
// drum, and the wraps there are in all. It is 1 for an empty drum, 0 if the
// drum is not known.
func (d Drum) Layer(onDrum quantity.Length) (layer int, wraps float64) {
	if !d.Known() || !sane(float64(onDrum)) {
		return 0, 0
	}
	left := float64(onDrum)
	for n := 1; n <= maxLayers; n++ {
		l := float64(d.LayerLength(n))
		if left <= l*(1+fitSlack) {
			return n, wraps + left/l*float64(d.WrapsPerLayer())
		}
		left -= l
		wraps += float64(d.WrapsPerLayer())
	}
	return maxLayers, wraps
}

// WrapsLength is the line that n wraps take, from the barrel up.
func (d Drum) WrapsLength(n int) quantity.Length {
	if !d.Known() || n <= 0 {
		return 0
	}
	per := d.WrapsPerLayer()
	var sum quantity.Length
	for layer := 1; n > 0 && layer <= maxLayers; layer++ {
		take := min(n, per)
		sum += d.LayerLength(layer) * quantity.Length(float64(take)/float64(per))
		n -= take
	}
	return sum
}

// Layers is how many layers the flanges hold, two line diameters left free
// above the last (trade notes); 0 if the flanges are not known.
func (d Drum) Layers() int {
	if !d.Known() || !positive(float64(d.Flange)) {
		return 0
	}
	free := float64(d.Flange-d.Diameter)/2 - facts.DrumFreeboard.Conservative().X*float64(d.Line)
	return max(0, int(math.Min(math.Floor(free/float64(d.Line)+fitSlack), maxLayers)))
}

// Holds is the line the drum holds; 0 if the flanges are not known.
func (d Drum) Holds() quantity.Length {
	var sum quantity.Length
	for n := range d.Layers() {
		sum += d.LayerLength(n + 1)
	}
	return sum
}

// narrowed is the drum as far as a line that piles up on one side uses it.
func (d Drum) narrowed(share float64) Drum {
	d.Width = quantity.Length(math.Max(float64(d.Width)*share, float64(d.Line)))
	return d
}

// LayerPull is the pull of a winch on layer n at the torque of its rated pull
// on layer 1:
//
//	P_n = P_1 · (D + d) / (D + (2n−1)·d)
//
// 0 if an argument cannot be. The army's table of a truck winch follows it
// within 0.08 % (TM 9-2320-279-10-2, Table 2-7).
func LayerPull(rated quantity.Force, d Drum, n int) quantity.Force {
	if !positive(float64(rated)) || !positive(float64(d.Diameter)) || !positive(float64(d.Line)) || n < 1 {
		return 0
	}
	return rated * quantity.Force((d.Diameter+d.Line)/(d.Diameter+quantity.Length(2*n-1)*d.Line))
}
