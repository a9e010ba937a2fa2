package draw

import (
	"strings"

	"github.com/golang/geo/r2"

	"kedge/canvas/label"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// collect gathers every label of the picture.
func (d *drawing) collect() {
	d.portLabels()
	d.flagLabels()
	d.tags()
	d.peopleLabels()
	for _, w := range d.zoneTexts {
		if len(w.at) == 0 {
			continue
		}
		d.labels.add(caption{Wish: label.Wish{Key: w.key, Rank: label.Word, Spots: w.at, Must: true}, lines: []textLine{{w.text, d.text.mid, true, w.colour}}})
	}
	d.waysOut()
	if !d.s.Show.HideNames {
		d.vehicleNames()
		d.anchorNames()
		d.obstacleNames()
		d.rigNames()
		d.pinNames()
	}
	if !d.s.Show.HideTags && len(d.stretches) <= maxLengths {
		d.lengths()
	}
}

// maxLengths is how many stretches still have their lengths written.
const maxLengths = 8

// named adds a name beside a thing.
func (d *drawing) named(id plan.ID, at r2.Point, clear float64, line textLine) {
	if !d.inView(at, 0) {
		return
	}
	short := line // the name alone, where there is no room for more
	short.text = d.name(id)
	d.labels.add(caption{Wish: label.Wish{Key: "name " + string(id), Rank: label.Name, Thing: id, At: at, Clear: clear}, lines: []textLine{line}, short: []form{{lines: []textLine{short}}}})
}

func (d *brush) nameLine(words ...string) textLine {
	var said []string
	for _, w := range words {
		if w != "" {
			said = append(said, w)
		}
	}
	return textLine{strings.Join(said, " · "), d.text.mid, false, d.c.Ink}
}

func (d *drawing) vehicleNames() {
	for i := range d.s.Plan.Site.Vehicles {
		v := &d.s.Plan.Site.Vehicles[i]
		if !d.shown(&v.Head) {
			continue
		}
		mass, depth := "", ""
		if v.Mass > 0 {
			mass = d.w.Mass(v.Mass + v.Load)
		}
		if v.Stuck != nil {
			depth = d.w.Label("depth-" + v.Stuck.Depth)
		}
		d.named(v.ID, d.at(v.At), d.vehicleClear(v), d.nameLine(d.name(v.ID), mass, depth))
	}
}

func (d *drawing) anchorNames() {
	for i := range d.s.Plan.Site.Anchors {
		a := &d.s.Plan.Site.Anchors[i]
		if !d.shown(&a.Head) {
			continue
		}
		more := ""
		switch {
		case a.Kind != plan.AnchorTree:
		case a.Trunk > 0:
			more = "⌀ " + d.w.Stem(a.Trunk)
		case a.Girth > 0:
			more = d.w.Label("draw-girth", part.Length("girth", a.Girth))
		}
		d.named(a.ID, d.at(a.At), d.anchorRadius(a)+d.px(2), d.nameLine(d.name(a.ID), more))
	}
}

func (d *drawing) obstacleNames() {
	for i := range d.s.Plan.Site.Obstacles {
		o := &d.s.Plan.Site.Obstacles[i]
		if !d.shown(&o.Head) || len(o.Outline) < 3 {
			continue
		}
		c := d.at(plan.Centroid(o.Outline))
		if !d.inView(c, 0) {
			continue
		}
		b := r2.RectFromPoints(d.outline(o.Outline)...)
		d.labels.add(caption{Wish: label.Wish{Key: "name " + string(o.ID), Rank: label.Name, Thing: o.ID, At: c, Middle: true, Clear: (b.Y.Hi-b.Y.Lo)/2 + d.px(2)},
			lines: []textLine{d.nameLine(d.name(o.ID))}})
	}
}

// rigNames names blocks that have no tag, and says what is loose.
func (d *drawing) rigNames() {
	for i := range d.rig.Blocks {
		b := &d.rig.Blocks[i]
		if !d.shown(&b.Head) {
			continue
		}
		at, loose := d.blockPlace(b)
		if loose {
			d.named(b.ID, at, d.sheaveRadius(b)*1.4, textLine{d.name(b.ID) + " · " + d.w.Label("hangs-loose"), d.text.mid, false, d.c.Quiet})
			continue
		}
		if p := d.part(string(b.ID)); p == nil || d.labels.folds(p.ID) || p.Status == part.Refused || p.Status == part.NotComputed || d.s.Show.HideTags {
			d.named(b.ID, at, d.sheaveRadius(b)*1.4, d.nameLine(d.name(b.ID)))
		}
	}
	for i := range d.rig.Unknown {
		u := &d.rig.Unknown[i]
		d.named(u.ID, d.at(u.At), d.sy(14), d.nameLine(d.name(u.ID)))
	}
	for i := range d.s.Plan.Site.Unknown {
		u := &d.s.Plan.Site.Unknown[i]
		d.named(u.ID, d.at(u.At), d.sy(14), d.nameLine(d.name(u.ID)))
	}
}

// peopleLabels say who stands where. Where no zone was computed nothing is
// said of zones.
func (d *drawing) peopleLabels() {
	for i := range d.s.Plan.Site.People {
		p := &d.s.Plan.Site.People[i]
		c := d.personPlace(p)
		if !d.shown(&p.Head) || !d.inView(c, 0) {
			continue
		}
		lines := []textLine{{d.name(p.ID), d.text.mid, true, d.c.Ink}}
		at := d.personAt(p.ID)
		inside := at != nil && len(at.Inside) > 0
		if at != nil && (inside || len(d.a.Zones) > 0) {
			lines = append(lines, textLine{d.w.Where(*at), d.text.mid, false, d.c.Ink})
		}
		if d.s.Show.HideNames && !inside {
			continue
		}
		x := caption{Wish: label.Wish{Key: "person " + string(p.ID), Rank: label.OfPerson, Thing: p.ID, At: c, Clear: d.personRadius() * 1.3, Must: inside, Lead: true}, lines: lines}
		if inside && !d.hasFlag(p.ID) {
			// A zone without a finding of its own still marks who stands in it.
			level := part.Danger
			if in := at.Inside; len(in) == 1 && in[0] == part.ZoneStandOff {
				level = part.Warning
			}
			fill, on := d.c.Level(level)
			d.labels.add(caption{Wish: label.Wish{Key: "mark " + string(p.ID), Rank: label.Flag, Thing: p.ID, At: c, Clear: d.personRadius() * 1.25,
				Toward: r2.Point{Y: -1}, Must: true, Lead: true}, frame: flagBox, level: fill, on: on, lines: []textLine{{"!", d.text.mid, true, on}}})
		}
		if !inside {
			x.Rank = label.Name
		}
		if len(lines) > 1 {
			x.short = []form{{lines: lines[:1]}}
		}
		d.labels.add(x)
	}
}

// hasFlag reports whether a flag stands at a thing.
func (d *drawing) hasFlag(id plan.ID) bool {
	for i := range d.a.Findings {
		if f := &d.a.Findings[i]; f.Level >= part.Warning && len(f.Things) > 0 && f.Things[0] == id {
			return true
		}
	}
	return false
}

func (d *drawing) waysOut() {
	for i := range d.s.Plan.Site.Vehicles {
		v := &d.s.Plan.Site.Vehicles[i]
		legs := d.wayLegs(v)
		if len(legs) == 0 || !d.shown(&v.Head) || !(v.Stuck.WayLength > 0) {
			continue
		}
		a, b := legs[0], legs[1]
		for ; len(legs) > 1; legs = legs[1:] {
			if legs[0].Sub(legs[1]).Norm() > a.Sub(b).Norm() { // beside its longest leg
				a, b = legs[0], legs[1]
			}
		}
		x := caption{Wish: label.Wish{Key: "way " + string(v.ID), Rank: label.Length, Thing: v.ID, IsLine: true, A: a, B: b, Clear: d.px(4)},
			lines: []textLine{{d.w.Label("way-out", part.Length("length", v.Stuck.WayLength)), d.text.mid, false, d.c.Ink}}}
		if x, ok := d.visible(x); ok {
			d.labels.add(x)
		}
	}
}

// lengths writes the length of each stretch beside it.
func (d *drawing) lengths() {
	for i := range d.stretches {
		s := &d.stretches[i]
		if s.look == refusedPattern || s.a.Sub(s.b).Norm() < d.px(90) {
			continue
		}
		x := caption{Wish: label.Wish{Key: "length " + s.partID, Rank: label.Length, Thing: s.line.ID, IsLine: true, A: s.a, B: s.b, Clear: d.lw(lineWidth/2) + d.px(3)},
			lines: []textLine{{d.w.Length(quantity.Length(s.lengthM)), d.text.small, false, d.c.Ink}}}
		if x, ok := d.visible(x); ok {
			d.labels.add(x)
		}
	}
}
