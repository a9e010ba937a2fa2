package layout

import (
	"slices"

	"kedge/solver/plan"
)

// Draft is a plan in the making with the rig that is laid. Its plan's list of
// rigs and the lists of its rig are its own and may be changed; everything else
// is shared.
type Draft struct {
	*plan.Plan
	Laid *plan.Rig
}

// CloneRig gives a rig lists of its own; the things in them are still shared
// where they hold lists themselves.
func CloneRig(r *plan.Rig) {
	r.Lines, r.Blocks, r.Slings = slices.Clone(r.Lines), slices.Clone(r.Blocks), slices.Clone(r.Slings)
	r.Shackles, r.Dampers = slices.Clone(r.Shackles), slices.Clone(r.Dampers)
}

// Index finds the things of the draft.
func (d Draft) Index() *plan.Index { return plan.NewIndex(d.Plan, d.Laid) }

// Adding a thing gives it the next id of its kind.

// AddLine adds a line to the rig and returns its id.
func (d Draft) AddLine(l plan.Line) plan.ID {
	l.ID = plan.NewID(d.Plan, plan.PrefixLine)
	d.Laid.Lines = append(d.Laid.Lines, l)
	return l.ID
}

// AddBlock adds a block to the rig and returns its id.
func (d Draft) AddBlock(k plan.Block) plan.ID {
	k.ID = plan.NewID(d.Plan, plan.PrefixBlock)
	d.Laid.Blocks = append(d.Laid.Blocks, k)
	return k.ID
}

// AddSling adds a sling to the rig and returns its id.
func (d Draft) AddSling(s plan.Sling) plan.ID {
	s.ID = plan.NewID(d.Plan, plan.PrefixSling)
	d.Laid.Slings = append(d.Laid.Slings, s)
	return s.ID
}

// AddShackle adds a shackle to the rig and returns its id.
func (d Draft) AddShackle(k plan.Shackle) plan.ID {
	k.ID = plan.NewID(d.Plan, plan.PrefixShackle)
	d.Laid.Shackles = append(d.Laid.Shackles, k)
	return k.ID
}

// AddDamper adds a damper to the rig and returns its id.
func (d Draft) AddDamper(k plan.Damper) plan.ID {
	k.ID = plan.NewID(d.Plan, plan.PrefixDamper)
	d.Laid.Dampers = append(d.Laid.Dampers, k)
	return k.ID
}

// Thread leads a line over a port, between the ends of a stretch counted from 0
// at the winch. Dampers stay where they lay along the line. A line or stretch
// that there is not changes nothing.
func (d Draft) Thread(line plan.ID, stretch int, port plan.Port) {
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
