package board

import (
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

// draft begins an edit of the plan. A plan without a rig gets one if rigged.
func (sc *scene) draft(rigged bool) plan.Draft {
	d := plan.Edit(sc.plan, sc.rig)
	if d.Laid == nil && rigged {
		d.LayNew()
	}
	return d
}
