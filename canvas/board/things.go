package board

import (
	"slices"

	"kedge/solver/layout"
	"kedge/solver/plan"
)

// headOf is what every thing has, of the thing id; nil if there is none or it
// is of a kind that is not known. It leads into the plan: read only.
func headOf(p *plan.Plan, x *plan.Index, id plan.ID) *plan.Head {
	s := x.Find(id)
	switch s.Kind {
	case plan.ThingVehicle:
		return &p.Site.Vehicles[s.Pos].Head
	case plan.ThingAnchor:
		return &p.Site.Anchors[s.Pos].Head
	case plan.ThingObstacle:
		return &p.Site.Obstacles[s.Pos].Head
	case plan.ThingPerson:
		return &p.Site.People[s.Pos].Head
	case plan.ThingNote:
		return &p.Site.Notes[s.Pos].Head
	case plan.ThingMeasure:
		return &p.Site.Measures[s.Pos].Head
	case plan.ThingLine:
		return &x.Rig.Lines[s.Pos].Head
	case plan.ThingBlock:
		return &x.Rig.Blocks[s.Pos].Head
	case plan.ThingSling:
		return &x.Rig.Slings[s.Pos].Head
	case plan.ThingShackle:
		return &x.Rig.Shackles[s.Pos].Head
	case plan.ThingDamper:
		return &x.Rig.Dampers[s.Pos].Head
	}
	return nil
}

// draft is a plan in the making: the lists of the site and of the rig shown are
// copies that may be changed; everything below them is still shared.
type draft struct {
	*plan.Plan
	rig *plan.Rig // nil: the plan has no rig
}

// draft begins an edit of the plan. A plan without a rig gets one if rigged.
func (sc *scene) draft(rigged bool) draft {
	p := *sc.plan
	s := &p.Site
	s.Vehicles, s.Anchors, s.Obstacles = slices.Clone(s.Vehicles), slices.Clone(s.Anchors), slices.Clone(s.Obstacles)
	s.People, s.Notes, s.Measures = slices.Clone(s.People), slices.Clone(s.Notes), slices.Clone(s.Measures)
	p.Rigs = slices.Clone(p.Rigs)
	d := draft{Plan: &p}
	i := p.RigIndex(sc.rig)
	if i < 0 && rigged {
		p.Rigs = append(p.Rigs, plan.Rig{Head: plan.Head{ID: plan.NewID(&p, plan.PrefixRig)}})
		i = len(p.Rigs) - 1
	}
	if i >= 0 {
		d.rig = &p.Rigs[i]
		layout.CloneRig(d.rig)
	}
	return d
}

// laid is the draft as rigs are laid in it: what is laid there is laid here.
func (d draft) laid() layout.Draft { return layout.Draft{Plan: d.Plan, Laid: d.rig} }

// Adding a thing gives it the next id of its kind.

func (d draft) addLine(l plan.Line) plan.ID       { return d.laid().AddLine(l) }
func (d draft) addBlock(k plan.Block) plan.ID     { return d.laid().AddBlock(k) }
func (d draft) addSling(s plan.Sling) plan.ID     { return d.laid().AddSling(s) }
func (d draft) addShackle(k plan.Shackle) plan.ID { return d.laid().AddShackle(k) }
func (d draft) addDamper(k plan.Damper) plan.ID   { return d.laid().AddDamper(k) }

// Finding a thing of the draft's rig to change it; nil if there is none.

func (d draft) line(id plan.ID) *plan.Line   { l, _ := d.rig.Line(id); return l }
func (d draft) block(id plan.ID) *plan.Block { k, _ := d.rig.Block(id); return k }
func (d draft) sling(id plan.ID) *plan.Sling { s, _ := d.rig.Sling(id); return s }

// index finds the things of the draft.
func (d draft) index() *plan.Index { return d.laid().Index() }
