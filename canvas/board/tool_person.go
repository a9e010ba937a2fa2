package board

import (
	"kedge/canvas/draw"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

var roles = [...]string{plan.RoleOperator, plan.RoleSpotter, plan.RoleBystander, plan.RoleDriver}

// personTool places a person.
type personTool struct {
	common
	role int // into roles
}

func (t *personTool) again(*scene) { t.role = (t.role + 1) % len(roles) }

func (t *personTool) prompt(sc *scene) string {
	return sc.label("prompt-person", part.Text("role", sc.label("role-"+roles[t.role])))
}

func (t *personTool) aim(sc *scene, p pointer) outcome {
	at, guides := snap(sc, p, nil, trail{})
	role := roles[t.role]
	q := plan.Person{Role: role, At: at}
	q.ID = plan.NewID(sc.plan, plan.PrefixPerson)
	if role == plan.RoleDriver {
		for _, h := range hitsAt(sc, p.at) {
			if h.kind == plan.ThingVehicle {
				q.Vehicle = h.id
				q.At = sc.at().Vehicle(h.id).At
				break
			}
		}
	}
	if q.Vehicle == "" {
		traced(sc, &q.Head, at)
	}
	d := sc.draft(false)
	d.Site.People = append(d.Site.People, q)
	o := outcome{
		plan: d.Plan, name: sc.label("edit-place", part.Text("what", sc.label("role-"+role))), selected: []plan.ID{q.ID},
		ghost: &draw.Ghost{Person: &q, Label: sc.label("role-" + role)}, guides: guides,
	}
	a, inside := sc.planWhole(), []part.ZoneKind(nil)
	if q.Vehicle == "" { // zones do not depend on people: those of the plan count
		inside = a.Stand(&q).Inside
	} else {
		a = sc.whole(d.Plan).Assessment
		inside = insideOf(a, q.ID)
	}
	o.ghost.Inside = len(inside) > 0
	o.texts = append(o.texts, draw.FreeText{At: q.At, Text: insideText(sc, a, inside)})
	return o
}

// standsText says in which zones a person of a plan stands, as the answer for
// that plan tells it. Without zones it says that there are none: nobody stands
// outside of what was not drawn.
func standsText(sc *scene, p *plan.Plan, person plan.ID) string {
	a := sc.whole(p).Assessment
	return insideText(sc, a, insideOf(a, person))
}

// insideOf are the kinds of zone that an answer says a person stands in.
func insideOf(a *solver.Assessment, person plan.ID) []part.ZoneKind {
	for i := range a.People {
		if q := &a.People[i]; q.Person == person {
			return q.Inside
		}
	}
	return nil
}

// insideText says in which zones of an answer something lies; without zones
// that there are none, of a rig that was not computed that some are missing.
func insideText(sc *scene, a *solver.Assessment, inside []part.ZoneKind) string {
	switch {
	case len(a.Zones) == 0:
		return sc.label("no-zones")
	case len(inside) == 0 && a.ZonesPartly():
		return sc.label("outside-partly")
	case len(inside) == 0:
		return sc.label("outside")
	}
	var words []string
	for _, k := range inside {
		words = append(words, sc.label("zone-"+string(k)))
	}
	return sc.label("inside", part.Text("zones", joined(sc, words)))
}
