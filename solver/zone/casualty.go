package zone

import (
	"slices"

	"github.com/golang/geo/r3"

	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// Casualty is the vehicle that is pulled: its footprint, its way out, how far
// it has to go, and how far it may lurch as it breaks loose.
type Casualty struct {
	Thing     plan.ID
	Footprint []plan.Point
	Dir       r3.Vector // its way out
	TravelM   float64   // 0: not known, [numbers.casualtyRun] is drawn
	LurchM    float64
	LurchGone bool // nobody knows how far it lurches, [numbers.casualtyLurch] is drawn

	// Loose: across its way out it is pulled harder than it grips. Where it then
	// goes is not computed, so the zone reaches as far to every side.
	Loose   bool
	Sides   []r3.Vector // across, to where it is over half of tipping
	HeightM float64     // how far it reaches when it tips; 0: not known
}

// casualty is the ground its body covers on its way, and a margin round it; on
// the side to which it may tip, as much as it is high.
func (d *drawing) casualty(c *Casualty) {
	run, lurch, height := c.TravelM, c.LurchM, c.HeightM
	if !(run > 0) {
		run = facts.CasualtyTravelUnknown.Value()
	}
	if c.LurchGone {
		lurch = facts.CasualtyLurchUnknown.Value()
	}
	if !(height > 0) {
		height = facts.UprightHeightUnknown.Value()
	}
	run += max(0, lurch)
	foot := c.Footprint
	if slices.ContainsFunc(foot, func(p plan.Point) bool { return !finitePoint(p) }) || terrain.Hull(foot) == nil || !finite(run) || !finite(height) {
		d.missing(part.ZoneCasualty, c.Thing)
		return
	}
	u, ok := unit(plan.Point{X: c.Dir.X, Y: c.Dir.Y})
	if len(c.Sides) == 0 {
		height = 0
	}
	if !ok || c.Loose {
		d.put(part.ZoneCasualty, facts.CasualtyMargin, c.Thing, d.room.circle(middle(foot), run+spread(foot)+facts.CasualtyMargin.Value()+height))
		return
	}
	body := slices.Clone(foot)
	for _, p := range foot {
		body = append(body, add(p, u, run))
	}
	upright := body[:len(body):len(body)]
	for _, v := range c.Sides {
		side, _ := unit(plan.Point{X: v.X, Y: v.Y})
		for _, p := range upright {
			body = append(body, add(p, side, height))
		}
	}
	d.put(part.ZoneCasualty, facts.CasualtyMargin, c.Thing, grown(terrain.Hull(body), facts.CasualtyMargin.Value()))
}
