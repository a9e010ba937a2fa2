package draw

import (
	"image/color"

	"github.com/golang/geo/r2"
)

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

// Pair is two colours that are told apart somewhere in a picture.
type Pair struct {
	What  string
	A, B  color.NRGBA
	Least float64 // contrast they need: TextContrast or LineContrast
}

// The least contrasts of WCAG 2.1: text (1.4.3), graphics that mean something
// (1.4.11).
const (
	TextContrast = 4.5
	LineContrast = 3.0
)

// Pairs are all pairs of colours a picture under this palette relies on.
func (c *Colors) Pairs() []Pair {
	t := func(what string, a, b color.NRGBA) Pair { return Pair{what, a, b, TextContrast} }
	l := func(what string, a, b color.NRGBA) Pair { return Pair{what, a, b, LineContrast} }
	return []Pair{
		t("text on paper", c.Ink, c.Paper), t("secondary text on paper", c.Quiet, c.Paper),
		t("text of an over tag", c.Paper, c.Ink), t("letter on a person", c.Ink, c.Body), t("letter on a person in a zone", c.Paper, c.Ink),
		t("text on a boulder", c.Ink, c.Stone), t("text on water", c.Ink, c.Water), t("selected text on paper", c.Pick, c.Paper),
		t("number on a DANGER flag", c.OnDanger, c.Danger), t("number on a WARNING flag", c.OnWarning, c.Warning),
		t("text on CAUTION", c.OnCaution, c.Caution), t("text on NOTICE", c.OnNotice, c.Notice),
		t("word of a red zone", c.ZoneRedText, c.Paper), t("word of the stand-off", c.ZoneOrangeText, c.Paper),
		l("outline on paper", c.Ink, c.Paper), l("outline of a vehicle", c.Ink, c.Body), l("ring of a trunk", c.Ink, c.Wood),
		l("outline of a boulder", c.Ink, c.Stone), l("dots of a boulder", c.Quiet, c.Stone), l("edge of a line against its core", c.Ink, c.Core),
		l("ticks of a near line", c.inkOn(c.NearCore), c.NearCore), l("chevrons of an over line", c.OverMark, c.OverCore),
		l("edge of a red zone", c.ZoneRed, c.Paper), l("edge of the stand-off", c.ZoneOrange, c.Paper),
		l("slack line", c.Quiet, c.Paper), l("selection", c.Pick, c.Paper), l("selection on a vehicle", c.Pick, c.Body),
	}
}
