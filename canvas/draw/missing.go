package draw

import (
	"math"

	"github.com/golang/geo/r2"

	"kedge/solver/part"
)

// missing says how many numbers and warnings found no room, in a corner or as
// near to one as there is room: a picture that leaves something out says so.
func (l *labeller) missing() {
	n := 0
	for i := range l.all {
		if x := &l.all[i]; x.must && x.rank != rankWord && !x.placed {
			n++
		}
	}
	if n == 0 {
		return
	}
	d := l.d
	count := part.Value{Name: "count", Unit: part.UnitCount, X: float64(n)}
	x := label{key: "left", frame: dashBox, lines: []textLine{{d.w.Label("draw-left", count), d.text.mid, true, d.c.Ink}},
		short: []form{{[]textLine{{d.w.Label("draw-left-short", count), d.text.mid, true, d.c.Ink}}, dashBox, false}}}
	l.done = false
	l.add(x)
	p := &l.all[len(l.all)-1]
	for f := 0; f < len(p.forms) && !p.placed; f++ {
		p.as(f)
		w, h := l.size(p, p.lines)
		corner := r2.Point{X: l.area.X.Hi, Y: l.area.Y.Hi}
		least := math.Inf(1)
		for _, step := range [...]float64{sweepPx, sweepPx / 4} {
			step = d.px(step)
			for y := l.area.Y.Hi - h; y >= l.area.Y.Lo; y -= step {
				for at := l.area.X.Hi - w; at >= l.area.X.Lo; at -= step {
					b := rect(at, y, at+w, y+h)
					if away := b.Center().Sub(corner).Norm(); away < least && l.grid.taken(b)&(bitLabel|bitPerson|bitVehicle) == 0 {
						p.box, p.placed, least = b, true, away
					}
				}
			}
			if p.placed {
				break
			}
		}
	}
	if p.placed {
		l.take(p)
	}
}
