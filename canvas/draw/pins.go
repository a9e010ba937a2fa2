package draw

import (
	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// PinMark is a piece of evidence where it is drawn.
type PinMark struct {
	Pin    *plan.Pin
	Tip    plan.Point  // the place it points to
	Of     *plan.Point // its thing, of a pin that lies elsewhere; nil: it lies there, or has none
	Over   plan.Point  // above which its head stands: its tip, or that of the first of those that stand in a row with it
	Beside float64     // of its head, logical pixels right of there
	Gone   bool        // what it is about was taken out of the rig
}

// The head of a pin, logical pixels. (ours)
const (
	PinHeadPx = 11 // half of its width and height
	PinStemPx = 26 // from a tip up to the middle of a head
	pinRowPx  = 2*PinHeadPx + 3
)

// Pins are the pieces of evidence of the rig of x, in file order, as seen at so many
// logical pixels a metre. Where parts of the rig lie is taken from a, which may be nil.
// What is about no thing and no place is about the first line.
func Pins(x *plan.Index, a *solver.Assessment, perM float64) []PinMark {
	if x.Rig == nil || x.Rig.Incident == nil {
		return nil
	}
	list := x.Rig.Incident.Pins
	all := make([]PinMark, len(list))
	for i := range list {
		q := &list[i]
		m := PinMark{Pin: q, Gone: q.Thing != "" && x.Kind(q.Thing) == plan.NoThing}
		at, placed := placeIn(x, a, q.Thing, 0)
		switch {
		case q.At != nil:
			m.Tip = *q.At
			if placed {
				m.Of = &at
			}
		case placed:
			m.Tip = at
		default:
			m.Tip = anyPlace(x, a)
		}
		all[i] = m
	}
	inRows(all, perM)
	return all
}

// inRows puts the heads of pins whose tips are too near to one another side by side, the
// middle of the row over the first of them.
func inRows(all []PinMark, perM float64) {
	first, row := make([]int, len(all)), make([]int, len(all)) // of each; and how many are in the row of a first
	for i := range all {
		first[i] = i
		for k := range i {
			if first[k] == k && all[k].Tip.Dist(all[i].Tip)*perM < pinRowPx {
				first[i] = k
				break
			}
		}
		all[i].Beside = float64(row[first[i]])
		row[first[i]]++
	}
	for i := range all {
		all[i].Over = all[first[i]].Tip
		all[i].Beside = (all[i].Beside - float64(row[first[i]]-1)/2) * pinRowPx
	}
}

// anyPlace is where evidence is shown that has no place of its own: at the first line,
// else at the first vehicle.
func anyPlace(x *plan.Index, a *solver.Assessment) plan.Point {
	if len(x.Rig.Lines) > 0 {
		if at, ok := placeIn(x, a, x.Rig.Lines[0].ID, 0); ok {
			return at
		}
	}
	if len(x.Plan.Site.Vehicles) > 0 {
		return x.Plan.Site.Vehicles[0].At
	}
	return plan.Point{}
}

// placeIn is where a thing lies; false: that is not known. Parts that have no place of
// their own lie where what they hang on does, deep times on.
func placeIn(x *plan.Index, a *solver.Assessment, id plan.ID, deep int) (plan.Point, bool) {
	const deepest = 4
	line, stretch, share := id, 0, 0.5
	if k := x.Damper(id); k != nil {
		line, stretch, share = k.Line, k.Stretch, k.Share
	}
	if a != nil {
		for i := range a.Stretches {
			if s := &a.Stretches[i]; s.Line == line && s.Index == stretch {
				return part.Flat(s.A.Add(s.B.Sub(s.A).Mul(share))), true
			}
		}
		for i := range a.Slings {
			if s := &a.Slings[i]; s.Sling == id {
				return part.Flat(s.Centre.Add(s.Apex).Mul(0.5)), true
			}
		}
		for i := range a.Nodes {
			if a.Nodes[i].Thing == id {
				return part.Flat(a.Nodes[i].At), true
			}
		}
	}
	var hangs []plan.Port
	switch s := x.Find(id); s.Kind {
	case plan.ThingVehicle:
		return x.Vehicle(id).At, true
	case plan.ThingAnchor:
		return x.Anchor(id).At, true
	case plan.ThingObstacle:
		return plan.Centroid(x.Obstacle(id).Outline), true
	case plan.ThingPerson:
		return x.Person(id).At, true
	case plan.ThingLine:
		hangs = x.Line(id).Path
	case plan.ThingBlock:
		return x.Block(id).At, true
	case plan.ThingSling:
		hangs = []plan.Port{x.Sling(id).On, x.Sling(id).Holds}
	case plan.ThingShackle:
		hangs = x.Shackle(id).Joins
	case plan.ThingDamper:
		hangs = []plan.Port{{Thing: x.Damper(id).Line}}
	}
	for _, port := range hangs {
		if deep >= deepest {
			break
		}
		if p, ok := placeIn(x, a, port.Thing, deep+1); ok {
			return p, true
		}
	}
	return plan.Point{}, false
}

// pinMarks are the pieces of evidence that are drawn.
func (d *drawing) pinMarks() []PinMark {
	if d.s.Show.UpToStep > 0 {
		return nil
	}
	return Pins(d.ix, d.a, d.view.PerM/d.u)
}

// pinHead is the middle of a pin's head.
func (d *brush) pinHead(m *PinMark) r2.Point {
	return d.at(m.Over).Add(r2.Point{X: d.sy(m.Beside), Y: -d.sy(PinStemPx)})
}

func (d *drawing) pins() {
	for i := range d.marks {
		d.pin(&d.marks[i])
	}
}

// pin draws a piece of evidence: a stem from its place to a head with its letter, whose
// edge tells how it is known: whole, in dashes, in dots. It is struck out if what it is
// about is gone; a thread leads to its thing if that lies elsewhere.
func (d *drawing) pin(m *PinMark) {
	head, tip, r := d.pinHead(m), d.at(m.Tip), d.sy(PinHeadPx)
	if !d.inView(tip, 4*r) && !d.inView(head, 4*r) {
		return
	}
	if m.Of != nil {
		d.path.Reset()
		of := d.at(*m.Of)
		d.path.Line(tip.X, tip.Y, of.X, of.Y)
		d.stroke(d.c.Ink, 1, 1.5, 4)
	}
	d.path.Reset()
	d.path.Line(tip.X, tip.Y, head.X, head.Y)
	d.stroke(d.c.Ink, 1.2)
	d.path.Reset()
	d.dot(tip, d.sy(2.6))
	d.fill(d.c.Ink)
	d.path.Reset()
	d.path.Polygon(pinOutline(head, r)...)
	d.fill(d.c.Paper)
	s := d.strokeStyle(d.c.Ink, 2, knownDash(m.Pin.Known)...)
	s.Cap = pen.ButtCap
	d.pen.Path(&d.path, s)
	t := pen.TextStyle{Size: d.sy(13), Bold: true, Colour: d.c.Ink, Anchor: pen.Middle}
	if len(m.Pin.ID) > 1 {
		t.Size = d.sy(10)
	}
	d.pen.Text(head.X, head.Y+pen.CapHeight(&t)/2, string(m.Pin.ID), &t)
	if m.Gone {
		d.path.Reset()
		d.path.Line(head.X-r, head.Y+r, head.X+r, head.Y-r)
		d.stroke(d.c.Ink, 1.6)
	}
}

// pinOutline is the head of a pin: a label with two corners cut off.
func pinOutline(c r2.Point, r float64) []r2.Point {
	cut := 0.45 * r
	return []r2.Point{{X: c.X - r + cut, Y: c.Y - r}, {X: c.X + r - cut, Y: c.Y - r}, {X: c.X + r, Y: c.Y - r + cut}, {X: c.X + r, Y: c.Y + r}, {X: c.X - r, Y: c.Y + r}, {X: c.X - r, Y: c.Y - r + cut}}
}

// knownDash is how the edge of a pin tells how it is known.
func knownDash(known string) []float64 {
	switch known {
	case plan.KnownObserved:
		return nil
	case plan.KnownTold:
		return []float64{6, 3}
	}
	return []float64{1.8, 2.2}
}

// pinBox is what the head of a pin takes in the picture.
func (d *brush) pinBox(m *PinMark) r2.Rect {
	return pen.Around(d.pinHead(m), d.sy(2*PinHeadPx+4), d.sy(2*PinHeadPx+4))
}

// pinNames say beside each pin what kind of evidence it is.
func (d *drawing) pinNames() {
	for i := range d.marks {
		m := &d.marks[i]
		at := d.pinHead(m)
		if !d.inView(at, 0) {
			continue
		}
		line := textLine{string(m.Pin.ID) + "  " + d.w.EvidenceWord("pin", m.Pin.Kind), d.text.small, false, d.c.Ink}
		d.labels.add(caption{Wish: label.Wish{Key: "name " + string(m.Pin.Ref()), Rank: label.Name, Thing: m.Pin.Ref(), At: at, Clear: d.sy(PinHeadPx + 2)}, lines: []textLine{line}})
	}
}
