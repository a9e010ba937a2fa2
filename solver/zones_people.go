package solver

import (
	"kedge/solver/plan"
	"kedge/solver/terrain"
	"kedge/solver/zone"
)

// covers lists what a place on the site may be covered by: banks and boulders,
// and trees.
func (a *zoning) covers() (out []zone.Cover) {
	marked := false
	for i := range a.g.p.Site.People {
		marked = marked || a.g.p.Site.People[i].Cover != plan.CoverNone
	}
	if !marked {
		return nil
	}
	for i := range a.g.p.Site.Obstacles {
		o := &a.g.p.Site.Obstacles[i]
		if o.Kind != plan.ObstacleBank && o.Kind != plan.ObstacleBoulder {
			continue
		}
		low, _ := plan.Range(&o.Head, "height_m", float64(o.Height))
		out = append(out, zone.Cover{Thing: o.ID, Kind: plan.CoverGround, Outline: o.Outline, HeightM: low, Anchor: a.g.fastTo(o.ID)})
	}
	for i := range a.g.p.Site.Anchors {
		t := &a.g.p.Site.Anchors[i]
		if t.Kind != plan.AnchorTree {
			continue
		}
		out = append(out, zone.Cover{Thing: t.ID, Kind: plan.CoverTimber, At: t.At, TrunkM: float64(terrain.AtStrapThin(a.conservative.anchor(t))), Health: t.Health, Anchor: a.g.fastTo(t.ID)})
	}
	return out
}

// fastTo reports whether anything of the rig hangs on a thing, whatever its use.
func (g *rigging) fastTo(id plan.ID) bool {
	if g.inPath(id) {
		return true
	}
	for i := range g.r.Slings {
		if s := &g.r.Slings[i]; s.On.Thing == id || s.Holds.Thing == id {
			return true
		}
	}
	for i := range g.r.Blocks {
		if g.r.Blocks[i].Fixed.Thing == id {
			return true
		}
	}
	for i := range g.r.Shackles {
		for _, j := range g.r.Shackles[i].Joins {
			if j.Thing == id {
				return true
			}
		}
	}
	return false
}

// controls lists how the winches of the pull are worked.
func (a *zoning) controls() (out []zone.Control) {
	for i := range a.g.lines {
		v := a.g.lines[i].winch
		if v == nil {
			continue
		}
		cable, _ := plan.Range(&v.Head, "winch.control_cable_m", float64(v.Winch.ControlCable))
		out = append(out, zone.Control{Vehicle: v.ID, At: v.Place(v.Winch.Ahead, v.Winch.Left.Or(0)), Kind: v.Winch.Control, CableM: cable})
	}
	return out
}
