package draw

import (
	"math"

	"github.com/golang/geo/r2"
	"github.com/golang/geo/r3"

	"kedge/canvas/pen"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Least sizes of the pieces of a rig, px: their true size is a few centimetres.
const (
	leastSheave  = 8.5
	leastShackle = 6
)

func (d *drawing) slings() {
	for i := range d.rig.Slings {
		s := &d.rig.Slings[i]
		if !d.shown(&s.Head) {
			continue
		}
		look := patternOf(d.part(string(s.ID)))
		if d.s.Show.Blank[string(s.ID)] || look == refusedPattern {
			look = plainPattern
		}
		shape := d.slingShape(s)
		if shape == nil {
			continue
		}
		width := slingWidth
		if d.emphasised(&s.Head) {
			width *= 1.35
		}
		if look == slackPattern {
			look = greyPattern
		}
		d.sling(shape, width, look)
	}
}

// slingShape is a sling as it lies; as far as the plan tells, if nothing was
// computed.
func (d *drawing) slingShape(s *plan.Sling) *part.SlingShape {
	if d.a != nil {
		for i := range d.a.Slings {
			if d.a.Slings[i].Sling == s.ID {
				return &d.a.Slings[i]
			}
		}
	}
	a, okA := d.portPlace(s.On, 0)
	b, okB := d.portPlace(s.Holds, 0)
	if !okA || !okB {
		return nil
	}
	return &part.SlingShape{Sling: s.ID, Centre: r3.Vector{X: a.X, Y: a.Y}, Apex: r3.Vector{X: b.X, Y: b.Y}}
}

// sling draws legs that leave the trunk as tangents and the arc round its back;
// choked, the whole way round and one leg.
func (d *brush) sling(s *part.SlingShape, width float64, look pattern) {
	c, apex := d.atVec(s.Centre), d.atVec(s.Apex)
	if !(s.Radius > 0) {
		if c.Sub(apex).Norm() > d.px(1) {
			d.cased(c, apex, width, look)
		}
		return
	}
	r := d.slingRadius(s)
	out := apex.Sub(c)
	if math.Hypot(out.X, out.Y) <= r {
		d.path.Reset()
		d.path.Circle(c.X, c.Y, r)
		p := d.path
		d.casing(&p, width, look)
		return
	}
	var p pen.Path
	if s.Hitch == plan.HitchChoked {
		dir := out.Normalize()
		eye := pen.Along(c, dir, r)
		p.Circle(c.X, c.Y, r)
		d.casing(&p, width, look)
		d.cased(eye, apex, width, look)
		d.path.Reset()
		d.path.Circle(eye.X, eye.Y, d.lw(width*0.75))
		d.fillStroke(d.c.Paper, d.c.Ink, 1.5)
		return
	}
	mid, half := slingAngles(c, apex, r)
	a, b := slingTangents(c, apex, r)
	p.MoveTo(apex.X, apex.Y)
	p.LineTo(a.X, a.Y)
	p.Arc(c.X, c.Y, r, mid+half, 360-2*half)
	p.LineTo(apex.X, apex.Y)
	d.casing(&p, width, look)
	if look == nearPattern || look == overPattern {
		d.cased(apex, a, width, look)
		d.cased(apex, b, width, look)
	}
}

// slingRadius is the circle that the middle of a strap lies on.
func (d *brush) slingRadius(s *part.SlingShape) float64 {
	return d.atLeast(float64(s.Radius), leastTrunk) + d.lw(slingWidth/2)
}

// slingAngles are the direction from a trunk to its sling's apex and how far
// from it, either way, the legs leave the circle the strap's middle lies on,
// degrees: the true angle, for a trunk drawn at least as large as its symbol.
func slingAngles(c, apex r2.Point, r float64) (midDeg, halfDeg float64) {
	return angleDeg(apex.Sub(c)), math.Acos(r/c.Sub(apex).Norm()) * 180 / math.Pi
}

// slingTangents are where the legs of a sling leave its trunk.
func slingTangents(c, apex r2.Point, r float64) (a, b r2.Point) {
	mid, half := slingAngles(c, apex, r)
	return polar(c, r, mid+half), polar(c, r, mid-half)
}

// blockPlace is where a block lies, and whether nothing holds it.
func (d *drawing) blockPlace(b *plan.Block) (at r2.Point, loose bool) {
	if n := d.node(b.ID); n != nil {
		return d.atVec(n.At), n.Loose
	}
	p, _ := d.portPlace(plan.Port{Thing: b.ID}, 0)
	return d.at(p), d.a == nil && b.Fixed.IsZero() && !d.held(b.ID)
}

// held reports whether a sling of the rig holds a thing.
func (d *drawing) held(id plan.ID) bool {
	for i := range d.rig.Slings {
		if s := &d.rig.Slings[i]; s.Holds.Thing == id || s.On.Thing == id {
			return true
		}
	}
	return false
}

// hanger is the direction from a block to what holds it.
func (d *drawing) hanger(b *plan.Block, at r2.Point) r2.Point {
	for i := range d.rig.Slings {
		s := &d.rig.Slings[i]
		if s.Holds.Thing == b.ID {
			if sh := d.slingShape(s); sh != nil {
				if dir := d.atVec(sh.Centre).Sub(at).Normalize(); dir != (r2.Point{}) {
					return dir
				}
			}
		}
	}
	if n := d.node(b.ID); n != nil && (n.Force.X != 0 || n.Force.Y != 0) {
		return r2.Point{X: -n.Force.X, Y: n.Force.Y}.Normalize()
	}
	return r2.Point{Y: -1}
}

func (d *brush) sheaveRadius(b *plan.Block) float64 {
	return d.atLeast(float64(b.Sheave)/2, leastSheave)
}

func (d *drawing) blocks() {
	for i := range d.rig.Blocks {
		b := &d.rig.Blocks[i]
		if !d.shown(&b.Head) {
			continue
		}
		at, loose := d.blockPlace(b)
		weight := 1.8
		if d.emphasised(&b.Head) {
			weight = 3
		}
		d.block(b, at, d.hanger(b, at), loose, weight)
	}
}

// block draws cheek plate, sheave and axle; a ring has no sheave.
func (d *brush) block(b *plan.Block, at, up r2.Point, loose bool, weight float64) {
	r := d.sheaveRadius(b)
	c := d.c.Ink
	if loose {
		c = d.c.Quiet
	}
	d.path.Reset()
	if b.Kind == plan.BlockRing {
		d.path.Circle(at.X, at.Y, r)
		d.fillStroke(d.c.Paper, c, weight)
		d.path.Reset()
		d.path.Circle(at.X, at.Y, r*0.55)
		d.fillStroke(d.c.Paper, c, weight)
		return
	}
	d.cheek(at, up, r)
	d.fillStroke(d.c.Core, c, weight)
	d.path.Reset()
	d.path.Circle(at.X, at.Y, r)
	d.fillStroke(d.c.Paper, c, weight)
	d.path.Reset()
	d.path.Circle(at.X, at.Y, r*0.27)
	d.fill(c)
}

// cheek adds a cheek plate: round about the sheave, narrowing to its eye.
func (d *brush) cheek(at, up r2.Point, r float64) {
	a, head, eye := r*1.18, r*1.85, r*0.45
	phi := math.Acos((a-eye)/head) * 180 / math.Pi
	mid := angleDeg(up)
	e := pen.Along(at, up, head)
	sn, cs := math.Sincos((mid + phi) * math.Pi / 180)
	d.path.MoveTo(at.X+a*cs, at.Y-a*sn)
	d.path.Arc(at.X, at.Y, a, mid+phi, 360-2*phi)
	d.path.Arc(e.X, e.Y, eye, mid-phi, 2*phi)
	d.path.Close()
}

func (d *drawing) shackles() {
	for i := range d.rig.Shackles {
		k := &d.rig.Shackles[i]
		if d.shown(&k.Head) {
			d.shackle(k)
		}
	}
}

// shackle draws a bow with its pin. Where it joins a block, it stands between
// the block's eye and the sling.
func (d *drawing) shackle(k *plan.Shackle) {
	c, up, ok := d.shacklePlace(k)
	if !ok {
		return
	}
	r := d.atLeast(float64(k.Body)*1.4, leastShackle)
	side := up.Ortho()
	d.path.Reset()
	if k.Kind == plan.ShackleSoft {
		d.path.Circle(c.X, c.Y, r)
		d.stroke(d.c.Ink, 2.2)
		d.path.Reset()
		q := pen.Along(c, up, -r)
		d.path.Circle(q.X, q.Y, r*0.4)
		d.fill(d.c.Ink)
		return
	}
	mid := angleDeg(up)
	foot := pen.Along(c, up, -r*1.1)
	sn, cs := math.Sincos((mid - 120) * math.Pi / 180)
	l, q := pen.Along(foot, side, r*0.75), pen.Along(foot, side, -r*0.75)
	d.path.MoveTo(q.X, q.Y)
	d.path.LineTo(c.X+r*cs, c.Y-r*sn)
	d.path.Arc(c.X, c.Y, r, mid-120, 240)
	d.path.LineTo(l.X, l.Y)
	d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Paper, Width: d.lw(5), Join: pen.RoundJoin})
	d.stroke(d.c.Ink, 2.6)
	d.path.Reset()
	a, b := pen.Along(foot, side, r*1.25), pen.Along(foot, side, -r*1.25)
	d.path.Line(a.X, a.Y, b.X, b.Y)
	d.pen.Path(&d.path, &pen.Style{Stroke: d.c.Ink, Width: d.lw(3.4), Cap: pen.RoundCap})
}

// shacklePlace is the middle of a shackle's bow and the way it points: to what
// holds it.
func (d *drawing) shacklePlace(k *plan.Shackle) (c, up r2.Point, ok bool) {
	up = r2.Point{Y: -1}
	for _, j := range k.Joins {
		if b := d.ix.Block(j.Thing); b != nil {
			at, _ := d.blockPlace(b)
			up = d.hanger(b, at)
			return pen.Along(at, up, d.sheaveRadius(b)*1.85+d.sy(leastShackle)), up, true
		}
	}
	if n := d.node(k.ID); n != nil {
		c = d.atVec(n.At)
	} else if len(k.Joins) == 2 {
		a, okA := d.portPlace(k.Joins[0], 0)
		if !okA {
			return c, up, false
		}
		c = d.at(a)
	} else {
		c = d.at(k.At)
	}
	for i := range d.rig.Slings {
		if s := &d.rig.Slings[i]; s.Holds.Thing == k.ID {
			if sh := d.slingShape(s); sh != nil {
				if dir := d.atVec(sh.Centre).Sub(c).Normalize(); dir != (r2.Point{}) {
					up = dir
				}
			}
		}
	}
	return c, up, true
}

// linePorts draws the hook-on points that lines end on over their lines.
func (d *drawing) linePorts() {
	for i := range d.rig.Lines {
		l := &d.rig.Lines[i]
		if !d.shown(&l.Head) {
			continue
		}
		d.connectors(l)
		for _, port := range l.Path {
			v := d.ix.Vehicle(port.Thing)
			if v == nil || v.Hidden {
				continue
			}
			spot, ok := v.PortPlace(port.Point)
			if !ok {
				continue
			}
			c := d.at(spot.At)
			if port.Point == plan.PortWinch {
				b := d.bodyOf(v)
				d.fairlead(c, b.ahead, d.sy(14))
				continue
			}
			d.hookedOn(c)
		}
	}
}

// hookedOn marks where a line is hooked on.
func (d *brush) hookedOn(c r2.Point) {
	d.path.Reset()
	d.path.Circle(c.X, c.Y, d.sy(5))
	d.fillStroke(d.c.Paper, d.c.Ink, 1.8)
}

// connectors marks the ends of a line that its own connector hooks on to a
// sling. What else it ends on has a mark there, or is one.
func (d *drawing) connectors(l *plan.Line) {
	mark := func(port plan.Port, far bool) {
		if c, ok := d.lineEnd(l.ID, far); ok && d.ix.Sling(port.Thing) != nil {
			d.hookedOn(c)
		}
	}
	start, end := d.rig.Connected(l)
	if start {
		mark(l.Path[0], false)
	}
	if end {
		mark(l.Path[len(l.Path)-1], true)
	}
}

// lineEnd is where a line ends, at its far end or at its hauling end.
func (d *drawing) lineEnd(line plan.ID, far bool) (at r2.Point, ok bool) {
	for i := range d.stretches {
		s := &d.stretches[i]
		if s.line.ID != line {
			continue
		}
		if !far {
			return s.a, true
		}
		at, ok = s.b, true
	}
	return at, ok
}
