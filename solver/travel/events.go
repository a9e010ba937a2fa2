package travel

import (
	"cmp"
	"math"
	"slices"

	"github.com/golang/geo/r3"
)

// Events finds what happens on the way, in its order: what was asked for, layers,
// things that run on to blocks and fairlead, obstacles, the winch over the pull of
// its layer, lines that come abeam, sheaves that turn round and slings that go slack.
// It goes to the end whatever would have stopped the pull.
func Events(c *Course) ([]Event, error) {
	_, t, err := follow(c, nil)
	if err != nil {
		return nil, err
	}
	t.drumEvents()
	t.onLineEvents()
	t.touchEvents()
	t.askedEvents()
	t.limitEvents()
	t.maxima()
	slices.SortStableFunc(t.events, func(a, b Event) int { return cmp.Compare(a.AtM, b.AtM) })
	return t.events, nil
}

// drumEvents finds the changes of layer, and cuts the way there; a full drum, and one
// whose line is out.
func (t *tour) drumEvents() {
	low, high := math.Inf(1), math.Inf(-1)
	for i := range t.nodes {
		if x := t.nodes[i].v[valueOnDrum]; x == x {
			low, high = math.Min(low, x), math.Max(high, x)
		}
	}
	if low > high {
		return
	}
	d := &t.c.Drum
	first, _ := d.layer(low)
	last, _ := d.layer(high)
	for n := first; n < last; n++ {
		for _, x := range t.crossings(valueOnDrum, d.holds(n), 0) {
			if x.start {
				continue
			}
			e := Event{Kind: LayerChange, AtM: x.sM, From: n, To: n + 1}
			if !x.rises {
				e.From, e.To = n+1, n
			}
			t.events = append(t.events, e)
			t.cut(x.sM, besideM)
		}
	}
	if d.MaxLayers > 0 {
		t.passes(valueOnDrum, d.holds(d.MaxLayers), true, Event{Kind: DrumFull})
	}
	if d.MinWraps > 0 {
		t.passes(valueOnDrum, float64(d.WrapsLength(d.MinWraps)), false, Event{Kind: LineOut})
	}
}

// passes enters an event for every place where a value passes a level one way.
func (t *tour) passes(value int, level float64, rising bool, e Event) {
	for _, x := range t.crossings(value, level, 0) {
		if x.rises == rising {
			e.AtM, e.Start, e.ByJump, e.Before, e.After = x.sM, x.start, x.jump, x.before, x.after
			t.events = append(t.events, e)
		}
	}
}

// onLineEvents finds where things on the line run on to a block or the fairlead.
func (t *tour) onLineEvents() {
	for i, thing := range t.c.OnLine {
		for k, v := range t.beyond {
			e := Event{Kind: ReachesBlock, OnLine: i, Visit: k - 1, Point: t.c.Rig.Lines[0].Path[k]}
			if k == 0 {
				e.Kind = ReachesFairlead
			}
			for _, x := range t.crossings(v, thing.FromEndM, 0) {
				if !x.rises {
					e.AtM = x.sM
					t.events = append(t.events, e)
					break
				}
			}
		}
	}
}

// nearM, metres: within this of an obstacle, a line is looked at between the places
// of the grid.
const nearM = 0.5

// touchEvents finds the first stretch that comes to bear on each obstacle.
func (t *tour) touchEvents() {
	for i := range t.c.Obstacles {
		first := Event{AtM: math.Inf(1)}
		for _, w := range t.touches {
			if w.obstacle != i {
				continue
			}
			for _, x := range t.crossings(w.value, 0, nearM) {
				if x.rises && x.sM < first.AtM {
					first = Event{Kind: StretchTouches, AtM: x.sM, Start: x.start, Obstacle: i, Line: w.line, Stretch: w.stretch}
				}
			}
		}
		if first.Kind != "" {
			t.at(first.AtM)
			_, first.Place = t.c.Obstacles[i].clear(t.ends(first.Line, first.Stretch))
			t.events = append(t.events, first)
		}
	}
}

// ends are where a stretch begins and ends.
func (t *tour) ends(line, k int) (a, b r3.Vector) {
	s := t.stretch(line, k)
	return t.out.Points[s.A].Pos, t.out.Points[s.B].Pos
}

// askedEvents finds angles, gaps and stretches that pull backward.
func (t *tour) askedEvents() {
	for _, deg := range t.c.OffWayDeg {
		t.passes(valueOffWay, deg, true, Event{Kind: OffWayBeyond, Level: deg})
		t.passes(valueOffWay, deg, false, Event{Kind: OffWayWithin, Level: deg})
	}
	for i, g := range t.c.Gaps {
		t.passes(t.gaps[i], g.DistanceM, false, Event{Kind: GapReached, Gap: i, Level: g.DistanceM})
	}
	for i, b := range t.c.Backward {
		t.passes(t.backward[i], 0, true, Event{Kind: PullsBackward, Stretch: b.Stretch, Point: b.Point})
	}
}

// limitEvents finds where loads pass their limits, and the winch the pull of its
// layer.
func (t *tour) limitEvents() {
	for i, l := range t.c.Limits {
		from := len(t.events)
		t.passes(t.limits[i], l.Load, true, Event{Kind: OverLimit, Part: l.Part, Level: l.Load})
		for k := from; k < len(t.events); k++ {
			e := &t.events[k]
			sM := e.AtM
			if e.ByJump {
				sM += besideM
			}
			t.at(sM)
			e.TensionN = t.tensionN
		}
	}
	winch := Part{Kind: WinchPart}
	t.passes(valueShare, 1, true, Event{Kind: OverLimit, Part: winch, Level: 1})
	t.passes(valueShare, 1, false, Event{Kind: WithinLimitAgain, Part: winch, Level: 1})
}

// maxima finds the largest load of every part asked for. Where the line comes abeam
// there is none: it grows without bound.
func (t *tour) maxima() {
	for i := range t.events {
		if t.events[i].Kind == Abeam {
			return
		}
	}
	for i, part := range t.c.Maxima {
		p := t.peak(t.peaks[i])
		if !p.known {
			continue
		}
		e := Event{Kind: MaxLoad, AtM: p.sM, Part: part, Value: p.value, Smooth: p.smooth, Left: p.left, Where: Midway}
		switch {
		case p.sM <= 0:
			e.Where = AtStart
		case p.sM >= t.c.EndM:
			e.Where = AtEnd
		}
		t.events = append(t.events, e)
	}
}
