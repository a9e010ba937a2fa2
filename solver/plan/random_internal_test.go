package plan

import (
	"fmt"
	"math"
	"reflect"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"kedge/solver/quantity"
)

// source gives the values of a made-up plan: rapid's draws, or for the frozen
// sample a plain count.
type source interface {
	count(most int) int // 0 to most
	number(low, high float64) float64
	word() string
	yes() bool
	raw() jsontext.Value // unknown members, may be empty
}

// makePlan is a valid plan with every member drawn from s.
func makePlan(s source) *Plan {
	p := New()
	fillStruct(schema(), reflect.ValueOf(p).Elem(), s)
	p.Format, p.Version, p.MinReader = FormatName, CurrentVersion, CurrentVersion
	tidy(p, s)
	return p
}

func fillStruct(n *node, v reflect.Value, s source) {
	for _, f := range n.fields {
		x := v.FieldByIndex(f.index)
		switch {
		case x.Kind() == reflect.Pointer:
			if s.yes() {
				x.Set(reflect.New(x.Type().Elem()))
				fillStruct(f.node, x.Elem(), s)
			}
		case f.node.elem != nil:
			k := s.count(2)
			if k == 0 {
				continue
			}
			x.Set(reflect.MakeSlice(x.Type(), k, k))
			for i := range k {
				if f.node.elem.fields != nil {
					fillStruct(f.node.elem, x.Index(i), s)
				} else {
					x.Index(i).SetString(s.word())
				}
			}
		case f.node.fields != nil:
			fillStruct(f.node, x, s)
		case x.Kind() == reflect.String:
			x.SetString(s.word())
		case x.Kind() == reflect.Bool:
			x.SetBool(s.yes())
		case f.maybe:
			if s.yes() {
				x.Addr().Interface().(interface{ SetFigure(float64) }).SetFigure(s.number(f.bound.low, f.bound.high))
			}
		case x.CanInt():
			x.SetInt(int64(s.count(int(min(f.bound.high, 4)))))
		case x.CanFloat():
			if low := max(f.bound.low, f.bound.least); s.yes() || f.bound.low > 0 {
				x.SetFloat(s.number(low, f.bound.high))
			}
		case x.Kind() == reflect.Slice:
			x.SetBytes([]byte(s.word()))
		default:
			panic("plan: cannot fill " + f.name)
		}
	}
	if n.open {
		if raw := s.raw(); len(raw) > 0 {
			v.FieldByIndex(n.extra).SetBytes(raw)
		}
	}
}

// tidy gives things their own ids, and makes what names them, outlines, ranges
// and counts fit.
func tidy(p *Plan, s source) {
	for i := range p.Photos {
		p.Photos[i].Original = fmt.Sprint("hash ", i)
	}
	next := 0
	id := func(prefix string) ID { next++; return ID(fmt.Sprint(prefix, next)) }
	doubts := func(h *Head) {
		h.Doubts = h.Doubts[:min(len(h.Doubts), 1)]
		for i := range h.Doubts {
			h.Doubts[i] = Doubt{Member: "mass_kg", Low: 100, High: 100 + float64(s.count(9)), PlusMinus: s.yes(), Extra: h.Doubts[i].Extra}
		}
	}
	site := &p.Site
	var ports []Port
	for i := range site.Vehicles {
		v := &site.Vehicles[i]
		v.ID = id("V")
		doubts(&v.Head)
		if v.Winch != nil {
			ports = append(ports, Port{v.ID, PortWinch})
		}
		for j := range v.Recovery {
			v.Recovery[j].ID = id("pt")
			ports = append(ports, Port{v.ID, v.Recovery[j].ID})
		}
	}
	for i := range site.Anchors {
		a := &site.Anchors[i]
		a.ID = id("T")
		doubts(&a.Head)
		ports = append(ports, Port{Thing: a.ID})
		if a.HoldLow.Or(0)+a.HoldLikely+a.HoldHigh > 0 {
			a.HoldLow, a.HoldLikely, a.HoldHigh = Known(quantity.Force(1000)), 2000, 3000
		}
	}
	for i := range site.Obstacles {
		o := &site.Obstacles[i]
		o.ID = id("O")
		doubts(&o.Head)
		ports = append(ports, Port{Thing: o.ID})
		o.Outline = nil
		n := 3 + s.count(5)
		for k := range n {
			a := 2 * math.Pi * float64(k) / float64(n)
			r := s.number(1, 5)
			o.Outline = append(o.Outline, Point{10 + r*math.Cos(a), r * math.Sin(a)})
		}
		if OutlineFault(o.Outline) != nil {
			o.Outline = []Point{{0, 0}, {1, 0}, {0.5, 1}} // a triangle whose middle lies outside
		}
	}
	for i := range site.People {
		q := &site.People[i]
		q.ID = id("P")
		doubts(&q.Head)
		q.Vehicle = ""
		if len(site.Vehicles) > 0 && s.yes() {
			q.Vehicle = site.Vehicles[0].ID
		}
	}
	for i := range site.Notes {
		site.Notes[i].ID = id("N")
		doubts(&site.Notes[i].Head)
	}
	for i := range site.Measures {
		m := &site.Measures[i]
		m.ID = id("M")
		doubts(&m.Head)
		m.Points = append(m.Points, Point{1, 2}, Point{3, 4})[:2]
	}
	for i := range site.Unknown {
		site.Unknown[i].ID = id("U")
		ports = append(ports, Port{site.Unknown[i].ID, "hook"})
	}
	if u := site.Underlay; u != nil && len(u.Points) > 0 { // a picture of a board on the ground, straight from above
		q := u.Points[0]
		u.Points = nil
		for k, c := range []Point{{0, 0}, {10, 0}, {10, 5}, {0, 5}, {5, 3}} {
			q.Right, q.Down, q.At = 100+10*c.X, 90-10*c.Y, c
			if u.Points = append(u.Points, q); k >= LeastPicturePoints-1 && s.yes() {
				break
			}
		}
	}
	sitePorts := len(ports)
	for i := range p.Rigs {
		r := &p.Rigs[i]
		r.ID = id("R")
		doubts(&r.Head)
		tidyIncident(r.Incident, id, p.Photos, s)
		ports := ports[:sitePorts:sitePorts]
		for j := range r.Blocks {
			r.Blocks[j].ID = id("B")
			ports = append(ports, Port{Thing: r.Blocks[j].ID}, Port{r.Blocks[j].ID, PortBecket})
		}
		for j := range r.Slings {
			r.Slings[j].ID = id("S")
			ports = append(ports, Port{Thing: r.Slings[j].ID})
		}
		for j := range r.Shackles {
			r.Shackles[j].ID = id("K")
			ports = append(ports, Port{Thing: r.Shackles[j].ID})
		}
		for j := range r.Unknown {
			r.Unknown[j].ID = id("U")
		}
		port := func(own ID) Port {
			for range 3 {
				if len(ports) > 0 {
					if q := ports[s.count(len(ports)-1)]; q.Thing != own {
						return q
					}
				}
			}
			return Port{}
		}
		for j := range r.Lines {
			l := &r.Lines[j]
			l.ID = id("L")
			doubts(&l.Head)
			want := len(l.Path)
			l.Path = nil
			for range want {
				if q := port(l.ID); !q.IsZero() {
					l.Path = append(l.Path, q)
				}
			}
		}
		for j := range r.Blocks {
			doubts(&r.Blocks[j].Head)
			r.Blocks[j].Fixed = port(r.Blocks[j].ID)
		}
		for j := range r.Slings {
			doubts(&r.Slings[j].Head)
			r.Slings[j].On, r.Slings[j].Holds = port(r.Slings[j].ID), port(r.Slings[j].ID)
		}
		for j := range r.Shackles {
			k := &r.Shackles[j]
			doubts(&k.Head)
			k.Joins = nil
			if a, b := port(k.ID), port(k.ID); !a.IsZero() && !b.IsZero() {
				k.Joins = []Port{a, b}
			}
		}
		if len(r.Lines) == 0 {
			r.Dampers = nil
		}
		for j := range r.Dampers {
			r.Dampers[j].ID = id("D")
			doubts(&r.Dampers[j].Head)
			r.Dampers[j].Line = r.Lines[0].ID
		}
	}
}

// tidyIncident gives pins ids, ranges and trust, and makes priors fit.
func tidyIncident(n *Incident, id func(string) ID, photos []Photo, s source) {
	if n == nil {
		return
	}
	for i := range n.Pins {
		q := &n.Pins[i]
		q.ID = id("E")
		q.Low, q.High = min(q.Low, q.High), max(q.Low, q.High)
		if q.Trust.Known() {
			q.Trust = Known(max(TrustAssumed, s.number(0, 1)))
		}
		q.Doubts = q.Doubts[:min(len(q.Doubts), 1)]
		if q.Shows = ""; len(photos) > 0 {
			q.Shows = photos[s.count(len(photos)-1)].Original
		}
		for k := range q.Doubts {
			q.Doubts[k].Likely = false
			q.Doubts[k].Member, q.Doubts[k].Low, q.Doubts[k].High = "trace_m", 1, 2
		}
	}
	for i := range n.Priors {
		n.Priors[i].Chance /= float64(2 * len(n.Priors))
	}
	if n.None.Known() {
		n.None = Known(0.1)
	}
	if n.Jerk.Known() {
		n.Jerk = Known(0.2)
	}
}

// counted is the source of the frozen sample: everything is there, and no two
// numbers are the same.
type counted struct{ n int }

func (c *counted) count(most int) int { return min(most, 1) }
func (c *counted) number(low, high float64) float64 {
	c.n++
	if low < 1 && high >= 1 && high < 100 { // shares, factors, small angles
		return min(high, 1) * float64(c.n%997) / 1000
	}
	if x := float64(c.n) + 0.5; x >= low && x <= high {
		return x
	}
	return high
}
func (c *counted) word() string { c.n++; return fmt.Sprint("word ", c.n) }
func (c *counted) yes() bool    { return true }
func (c *counted) raw() jsontext.Value {
	c.n++
	return jsontext.Value(strings.Replace(`{"later_n":{"x":1.50e1,"list":[1,null,"é\u00e9"]}}`, "n", fmt.Sprint(c.n), 1))
}
