package travel

import (
	"fmt"
	"math"
)

// Values of a place that every course has, by index.
const (
	valueGain = iota
	valueOnDrum
	valueShare
	valueOffWay
	firstValue
)

// stepM, metres, is the grid that events are bracketed on.
const stepM = 0.25

// tour is a course being followed: what is watched at every place.
type tour struct {
	*ride
	*scan
	values []func() float64
	events []Event

	// Indices of values: of each sling, each visit of the line on the drum and
	// before them its fairlead, and what the course asks for.
	touches                                       []touchWatch
	slings, beyond, gaps, backward, limits, peaks []int
}

// touchWatch is a stretch near an obstacle.
type touchWatch struct{ obstacle, line, stretch, value int }

// follow computes the course on its grid and finds where its state changes: layers,
// slings, the way sheaves turn, the place where the line comes abeam.
func follow(c *Course, stop func() bool) (*ride, *tour, error) {
	if err := c.check(); err != nil {
		return nil, nil, err
	}
	t := &tour{ride: newRide(c)}
	if !t.start() {
		return nil, nil, fmt.Errorf("%w: the rig does not stand at the start (%v)", ErrCourse, t.out.Status)
	}
	t.watch()
	t.scan = newScan(t, even(c.EndM, stepM), stop)
	for _, k := range c.Resistance {
		t.cut(k.AtM, 0)
	}
	t.stateEvents()
	return t.ride, t, nil
}

// all is every watched value of a place.
func (t *tour) all(sM float64) []float64 {
	v := make([]float64, len(t.values))
	t.at(sM)
	for i, f := range t.values {
		if v[i] = math.NaN(); t.ok {
			v[i] = f()
		}
	}
	return v
}

// one is one of them.
func (t *tour) one(i int, sM float64) float64 {
	if t.at(sM); !t.ok {
		return math.NaN()
	}
	return t.values[i]()
}

// add watches one more value and gives its index.
func (t *tour) add(f func() float64) int {
	t.values = append(t.values, f)
	return len(t.values) - 1
}

// watch lists what is watched.
func (t *tour) watch() {
	c := t.c
	t.values = make([]func() float64, firstValue)
	t.values[valueGain] = func() float64 { return t.gain }
	t.values[valueOnDrum] = func() float64 { return t.onDrumM }
	t.values[valueShare] = func() float64 { return t.tensionN / t.layerPull }
	t.values[valueOffWay] = t.offWayDeg
	for i := range c.Rig.Slings {
		t.slings = append(t.slings, t.add(func() float64 { return t.tight(i) }))
	}
	for at := -1; at < len(c.Rig.Lines[0].Sheaves); at++ {
		t.beyond = append(t.beyond, t.add(func() float64 { return t.tail(0, at) }))
	}
	for i := range c.Obstacles {
		for line := range c.Rig.Lines {
			for k := range len(c.Rig.Lines[line].Path) - 1 {
				t.touches = append(t.touches, touchWatch{i, line, k, t.add(func() float64 {
					d, _ := c.Obstacles[i].clear(t.ends(line, k))
					return -d
				})})
			}
		}
	}
	for _, g := range c.Gaps {
		t.gaps = append(t.gaps, t.add(func() float64 { return t.out.Points[g.A].Pos.Sub(t.out.Points[g.B].Pos).Norm() }))
	}
	for _, b := range c.Backward {
		t.backward = append(t.backward, t.add(func() float64 { return -t.workOf(b) }))
	}
	for _, l := range c.Limits {
		t.limits = append(t.limits, t.add(func() float64 { return t.part(l.Part) }))
	}
	for _, p := range c.Maxima {
		t.peaks = append(t.peaks, t.add(func() float64 { return t.part(p) }))
	}
}

// tight is the tension of a sling for a tension of one; of a slack one, below
// zero, the share of its length that it hangs by.
func (t *tour) tight(i int) float64 {
	s := &t.out.Slings[i]
	if s.TensionN > 0 {
		return s.TensionN
	}
	length := t.c.Rig.Slings[i].LengthM
	return (s.LengthM - length) / length
}

// stateEvents finds the changes of state and cuts the way there, those of the
// sheaves first: a sheave that sticks changes what lies behind.
func (t *tour) stateEvents() {
	t.turning()
	for i, v := range t.slings {
		for _, x := range t.crossings(v, 0, 0) {
			if x.start {
				continue
			}
			kind := SlingSlack
			if x.rises {
				kind = SlingTaut
			}
			t.events = append(t.events, Event{Kind: kind, AtM: x.sM, Sling: i})
			t.cut(x.sM, besideM)
		}
	}
	for _, x := range t.crossings(valueGain, 0, 0) {
		if !x.rises {
			t.events = append(t.events, Event{Kind: Abeam, AtM: x.sM})
		}
		if !x.start {
			t.cut(x.sM, besideM)
		}
	}
}
