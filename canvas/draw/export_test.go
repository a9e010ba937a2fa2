package draw

import "github.com/golang/geo/r2"

// Strip is something straight or round as it is drawn, in pen units: what is
// within Half of the straight line from A to B.
type Strip struct {
	What string
	A, B r2.Point
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

// BodiesOf are the outlines of a scene's vehicles, and PeopleOf the boxes of its
// people, as they are drawn.
func BodiesOf(s *Scene) map[string][]r2.Point {
	d := begin(mute{}, s)
	out := map[string][]r2.Point{}
	for i := range d.s.Plan.Site.Vehicles {
		v := &d.s.Plan.Site.Vehicles[i]
		b := d.bodyOf(v)
		out[string(v.ID)] = b.corners()
	}
	return out
}

// PeopleOf are the boxes of a scene's people: left, top, right, bottom.
func PeopleOf(s *Scene) map[string][4]float64 {
	d := begin(mute{}, s)
	out := map[string][4]float64{}
	for i := range d.s.Plan.Site.People {
		p := &d.s.Plan.Site.People[i]
		b := d.personBox(d.personPlace(p)).ExpandedByMargin(-d.px(2))
		out[string(p.ID)] = [4]float64{b.X.Lo, b.Y.Lo, b.X.Hi, b.Y.Hi}
	}
	return out
}
