package draw

import (
	"slices"

	"github.com/golang/geo/r2"

	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/plan"
)

// Shoulders of a person seen from above, half their width, metres and least px.
const (
	personM     = 0.28
	leastPerson = 12
)

// personAt is where a person stands to the zones, nil if that is not known.
func (d *drawing) personAt(id plan.ID) *solver.PersonAt {
	if d.a == nil {
		return nil
	}
	i := slices.IndexFunc(d.a.People, func(p solver.PersonAt) bool { return p.Person == id })
	if i < 0 {
		return nil
	}
	return &d.a.People[i]
}

// personPlace is where a person is drawn: one in a vehicle on its seat.
func (d *drawing) personPlace(p *plan.Person) r2.Point {
	if v := d.ix.Vehicle(p.Vehicle); v != nil {
		return d.at(v.Place(v.Length*0.02, v.Width*0.2))
	}
	return d.at(p.At)
}

func (d *brush) personRadius() float64 { return d.atLeast(personM, leastPerson) }

func (d *drawing) people() {
	for i := range d.s.Plan.Site.People {
		p := &d.s.Plan.Site.People[i]
		if !d.shown(&p.Head) {
			continue
		}
		at := d.personAt(p.ID)
		inside := at != nil && len(at.Inside) > 0
		if p.Vehicle == "" {
			d.disc(&p.Head, p.At)
		}
		d.wayToLeave(p, at)
		d.person(d.personPlace(p), p.Role, inside, d.emphasised(&p.Head))
	}
}

// person draws head and shoulders with the letter of the role: filled where it
// stands in a zone.
func (d *drawing) person(c r2.Point, role string, inside, emphasised bool) {
	r := d.personRadius()
	if !d.inView(c, 3*r) {
		return
	}
	fill, letter, weight := d.c.Body, d.c.Ink, 1.7
	if inside {
		fill, letter = d.c.Ink, d.c.Paper
	}
	if emphasised {
		weight = 2.8
	}
	d.path.Reset()
	d.path.Circle(c.X, c.Y-r*0.75, r*0.52)
	d.fillStroke(fill, d.c.Ink, weight)
	d.path.Reset() // shoulders: a half disc on a short body
	d.path.MoveTo(c.X+r, c.Y+r*0.95)
	d.path.LineTo(c.X+r, c.Y+r*0.65)
	d.path.CubeTo(c.X+r, c.Y-r*0.5, c.X-r, c.Y-r*0.5, c.X-r, c.Y+r*0.65)
	d.path.LineTo(c.X-r, c.Y+r*0.95)
	d.path.Close()
	d.fillStroke(fill, d.c.Ink, weight)
	t := pen.TextStyle{Size: r * 0.98, Bold: true, Colour: letter, Anchor: pen.Middle}
	d.pen.Text(c.X, c.Y+r*0.42+pen.CapHeight(&t)/2, d.roleLetter(role), &t)
}

func (d *drawing) roleLetter(role string) string {
	if id := "role-letter-" + role; d.w.HasLabel(id) {
		return d.w.Label(id)
	}
	return "?"
}

// personBox is what a person takes in the picture.
func (d *brush) personBox(c r2.Point) r2.Rect {
	r := d.personRadius()
	return pen.Box(c.X-r, c.Y-1.3*r, c.X+r, c.Y+r).ExpandedByMargin(d.px(2))
}

// wayToLeave draws footsteps to the nearest place outside the drawn zones.
func (d *drawing) wayToLeave(p *plan.Person, at *solver.PersonAt) {
	if at == nil || len(at.Inside) == 0 || !at.OutKnown || p.Vehicle != "" {
		return
	}
	a, b := d.personPlace(p), d.at(at.Out)
	r := d.personRadius() * 1.4
	l := a.Sub(b).Norm()
	if l < r+d.sy(14) {
		return
	}
	dir := b.Sub(a).Normalize()
	side := dir.Ortho()
	d.path.Reset()
	step := d.sy(9)
	for i, s := 0, r; s < l-d.sy(10) && i < 400; i, s = i+1, s+step {
		k := 2.6
		if i%2 == 1 {
			k = -k
		}
		q := pen.Along(pen.Along(a, dir, s), side, d.sy(k))
		f := d.sy(1.7)
		d.path.Circle(q.X, q.Y, f)
	}
	d.fill(d.c.Ink)
	head := d.sy(10)
	d.path.Reset()
	base := pen.Along(b, dir, -head)
	d.path.Polygon(b, pen.Along(base, side, head*0.5), pen.Along(base, side, -head*0.5))
	d.fill(d.c.Ink)
}
