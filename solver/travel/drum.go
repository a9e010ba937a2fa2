package travel

import (
	"kedge/solver/gear"
	"kedge/solver/quantity"
)

// Drum is the drum that the first line is hauled with.
type Drum struct {
	gear.Drum
	Rated     quantity.Force  // pull on the first layer
	OnDrum    quantity.Length // at the start
	MinWraps  int             // that must stay on it; 0: none given
	MaxLayers int             // it holds; 0: not given
}

// holds is the line on the first n layers, metres.
func (d *Drum) holds(n int) float64 {
	sum := 0.0
	for k := 1; k <= n; k++ {
		sum += float64(d.LayerLength(k))
	}
	return sum
}

// layer is the layer of the last wrap, the first that holds the line, 1 for an empty
// drum, and what the winch pulls on it, newtons.
func (d *Drum) layer(onDrumM float64) (n int, pullN float64) {
	sum := 0.0
	for n = 1; n < mostLayers; n++ {
		if sum += float64(d.LayerLength(n)); sum >= onDrumM {
			break
		}
	}
	return n, float64(gear.LayerPull(d.Rated, d.Drum, n))
}

// mostLayers ends the count over made-up figures.
const mostLayers = 1000
