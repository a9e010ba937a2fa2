package plan

import (
	"slices"
)

// Draft is a plan in the making with the rig that is laid. What lists of it are
// its own says who made it; everything below them is shared with the plan it was
// made from.
type Draft struct {
	*Plan
	Laid *Rig // nil: none
}

// Edit begins an edit of p, which stays as it is: the lists of the site, the list
// of rigs and the lists of the rig id, if there is one, may be changed.
func Edit(p *Plan, id ID) Draft {
	q := *p
	s := &q.Site
	s.Vehicles, s.Anchors, s.Obstacles = slices.Clone(s.Vehicles), slices.Clone(s.Anchors), slices.Clone(s.Obstacles)
	s.People, s.Notes, s.Measures = slices.Clone(s.People), slices.Clone(s.Notes), slices.Clone(s.Measures)
	q.Rigs = slices.Clone(p.Rigs)
	d := Draft{Plan: &q}
	if i := q.RigIndex(id); i >= 0 {
		d.Lay(i)
	}
	return d
}

// Lay makes the i-th rig the one that is laid, with lists of its own.
func (d *Draft) Lay(i int) {
	d.Laid = &d.Rigs[i]
	d.Laid.Unshare()
}

// LayNew adds an empty rig and makes it the one that is laid.
func (d *Draft) LayNew() {
	d.Rigs = append(d.Rigs, Rig{Head: Head{ID: NewID(d.Plan, PrefixRig)}})
	d.Lay(len(d.Rigs) - 1)
}

// Unshare gives a rig lists of its own; the things in them are still shared
// where they hold lists themselves.
func (r *Rig) Unshare() {
	r.Lines, r.Blocks, r.Slings = slices.Clone(r.Lines), slices.Clone(r.Blocks), slices.Clone(r.Slings)
	r.Shackles, r.Dampers = slices.Clone(r.Shackles), slices.Clone(r.Dampers)
	if r.Incident != nil {
		n := *r.Incident
		n.Pins, n.Priors = slices.Clone(n.Pins), slices.Clone(n.Priors)
		r.Incident = &n
	}
}

// Unshare gives a vehicle hook-on points, a winch and a state as casualty of its
// own.
func (v *Vehicle) Unshare() {
	v.Recovery = slices.Clone(v.Recovery)
	if v.Winch != nil {
		w := *v.Winch
		v.Winch = &w
	}
	if v.Stuck != nil {
		k := *v.Stuck
		k.Bends, k.Stages = slices.Clone(k.Bends), slices.Clone(k.Stages)
		v.Stuck = &k
	}
}

// Index finds the things of the draft.
func (d Draft) Index() *Index { return NewIndex(d.Plan, d.Laid) }

// Adding a thing gives it the next id of its kind.

// AddLine adds a line to the rig and returns its id.
func (d Draft) AddLine(l Line) ID {
	l.ID = NewID(d.Plan, PrefixLine)
	d.Laid.Lines = append(d.Laid.Lines, l)
	return l.ID
}

// AddBlock adds a block to the rig and returns its id.
func (d Draft) AddBlock(k Block) ID {
	k.ID = NewID(d.Plan, PrefixBlock)
	d.Laid.Blocks = append(d.Laid.Blocks, k)
	return k.ID
}

// AddSling adds a sling to the rig and returns its id.
func (d Draft) AddSling(s Sling) ID {
	s.ID = NewID(d.Plan, PrefixSling)
	d.Laid.Slings = append(d.Laid.Slings, s)
	return s.ID
}

// AddShackle adds a shackle to the rig and returns its id.
func (d Draft) AddShackle(k Shackle) ID {
	k.ID = NewID(d.Plan, PrefixShackle)
	d.Laid.Shackles = append(d.Laid.Shackles, k)
	return k.ID
}

// AddDamper adds a damper to the rig and returns its id.
func (d Draft) AddDamper(k Damper) ID {
	k.ID = NewID(d.Plan, PrefixDamper)
	d.Laid.Dampers = append(d.Laid.Dampers, k)
	return k.ID
}

// Thread leads a line over a port, between the ends of a stretch counted from 0
// at the winch. Dampers stay where they lay along the line. A line or stretch
// that there is not changes nothing.
func (d Draft) Thread(line ID, stretch int, port Port) {
	l, ok := d.Laid.Line(line)
	if !ok || stretch < 0 || stretch+1 >= len(l.Path) {
		return
	}
	l.Path = slices.Insert(slices.Clone(l.Path), stretch+1, port)
	for i := range d.Laid.Dampers {
		k := &d.Laid.Dampers[i]
		switch {
		case k.Line != line:
		case k.Stretch > stretch:
			k.Stretch++
		case k.Stretch == stretch && k.Share < 0.5:
			k.Share *= 2
		case k.Stretch == stretch:
			k.Stretch, k.Share = stretch+1, 2*k.Share-1
		}
	}
}

// Unthread takes the i-th point out of a line's path; one that there is not
// changes nothing.
func (d Draft) Unthread(line ID, i int) {
	l, ok := d.Laid.Line(line)
	if !ok || i < 0 || i >= len(l.Path) {
		return
	}
	last := len(l.Path) - 1
	l.Path = slices.Delete(slices.Clone(l.Path), i, i+1)
	d.Laid.Dampers = slices.DeleteFunc(d.Laid.Dampers, func(k Damper) bool {
		return k.Line == line && (i == 0 && k.Stretch == 0 || i == last && k.Stretch == last-1)
	})
	for j := range d.Laid.Dampers {
		k := &d.Laid.Dampers[j]
		switch {
		case k.Line != line:
		case i == 0 || k.Stretch > i:
			k.Stretch--
		case k.Stretch == i-1 && i != last:
			k.Share /= 2
		case k.Stretch == i && i != last:
			k.Stretch, k.Share = i-1, 0.5+k.Share/2
		}
	}
}
