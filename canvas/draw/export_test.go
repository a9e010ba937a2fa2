package draw

import "kedge/canvas/pen"

// Strip is something straight or round as it is drawn, in pen units: what is
// within Half of the straight line from A to B.
type Strip struct {
	What string
	A, B pen.Point
	Half float64
}

// Drawn are the lines of a scene, its slings' legs, trunks and the edges of its
// vehicles, as they are drawn.
func Drawn(s *Scene) []Strip {
	d := begin(mute{}, s)
	var out []Strip
	for _, t := range d.stretchesOf() {
		half := d.lw(lineWidth) / 2
		if t.look == overPattern {
			half = d.lw(lineWidth)
		}
		out = append(out, Strip{"line " + t.partID, t.a, t.b, half})
	}
	for i := range d.rig.Slings {
		sl := &d.rig.Slings[i]
		if sh := d.slingShape(sl); sh != nil {
			out = append(out, Strip{"sling " + string(sl.ID), d.atVec(sh.Centre), d.atVec(sh.Apex), d.lw(slingWidth) / 2})
		}
	}
	for i := range d.s.Plan.Site.Anchors {
		a := &d.s.Plan.Site.Anchors[i]
		out = append(out, Strip{"anchor " + string(a.ID), d.at(a.At), d.at(a.At), d.anchorRadius(a)})
	}
	for i := range d.s.Plan.Site.Vehicles {
		v := &d.s.Plan.Site.Vehicles[i]
		b := d.bodyOf(v)
		c := b.corners()
		for k := range c {
			out = append(out, Strip{"vehicle " + string(v.ID), c[k], c[(k+1)%len(c)], 0})
		}
	}
	return out
}
