package plan

import "strings"

// MemberPath is where a member of a thing stands in the file of p, without a
// leading slash: "site/vehicles/1/winch/flange_diameter_m". The thing is one of
// the site or of the rig, a rig, or (empty) the ground. The member is named as
// doubts name it, "winch.flange_diameter_m", a recovery point by its id,
// "recovery_points.front.axis_deg". Empty: there is no such thing.
func MemberPath(p *Plan, rig, thing ID, member string) string {
	path := ""
	if i := p.RigIndex(thing); i >= 0 {
		path = at("/rigs", i)
	} else if thing == "" {
		path = "/site/ground"
	}
	in := ""
	see := func(list string, i int, id ID, _ Slot) {
		if id == thing && path == "" {
			path = at(in+list, i)
		}
	}
	in = "/site/"
	eachSite(&p.Site, see)
	if i := p.RigIndex(rig); i >= 0 {
		in = at("/rigs", i) + "/"
		eachRig(&p.Rigs[i], see)
	}
	if path == "" {
		return ""
	}
	if rest, ok := strings.CutPrefix(member, pointsMember+"."); ok {
		if v, isVehicle := p.Vehicle(thing); isVehicle {
			for i := range v.Recovery {
				if name, own := strings.CutPrefix(rest, string(v.Recovery[i].ID)+"."); own {
					path, member = at(path+"/"+pointsMember, i), name
				}
			}
		}
	}
	return path[1:] + "/" + strings.ReplaceAll(member, ".", "/")
}

// pointsMember is the member that lists a vehicle's recovery points.
const pointsMember = "recovery_points"
