package board

import (
	"math"

	"kedge/solver"
	"kedge/solver/layout"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Rigs to start from.
const (
	StartStraight        = "straight"
	StartDoubled         = "doubled"
	StartRedirect        = "redirect"
	StartDoubledRedirect = "doubled-redirect"
	StartBridle          = "bridle"
)

// StartRigs lists the rigs to start from.
func StartRigs() []string {
	return []string{StartStraight, StartDoubled, StartRedirect, StartDoubledRedirect, StartBridle}
}

// canStart reports whether there are a casualty and another vehicle with a winch.
func canStart(sc *scene) bool {
	_, _, ok := startPair(sc)
	return ok
}

// startPair are the vehicles a starting rig is fitted to: the casualty, and the
// nearest other vehicle with a winch.
func startPair(sc *scene) (casualty, puller *plan.Vehicle, ok bool) {
	casualty = sc.plan.Casualty()
	if casualty == nil || len(casualty.Recovery) == 0 {
		return nil, nil, false
	}
	puller, ok = layout.Puller(sc.plan, casualty)
	return casualty, puller, ok
}

// startRig is the edit that adds a rig of a kind between the two vehicles, in
// the rig shown if that is empty, else in a new tab. A redirect goes over the
// tree whose way round is shortest; there must be one.
func startRig(sc *scene, kind string) outcome {
	casualty, puller, ok := startPair(sc)
	if !ok {
		return outcome{report: sc.label("start-needs")}
	}
	r, _ := sc.plan.Rig(sc.rig)
	fresh := r == nil || partsOf(r) > 0
	d := sc.draft(false)
	if fresh {
		d.LayNew()
	}
	winch := plan.Port{Thing: puller.ID, Point: plan.PortWinch}
	fair, _ := puller.PortPlace(plan.PortWinch)
	point := layout.PointToward(casualty, fair.At)
	at, _ := casualty.PortPlace(point.Point)
	path := []plan.Port{winch}
	if kind == StartRedirect || kind == StartDoubledRedirect {
		tree, ok := turnAt(sc, lineEnd{fair.At, float64(fair.Height), puller.ID}, lineEnd{at.At, float64(at.Height), casualty.ID})
		if !ok {
			return outcome{report: sc.label("start-needs-tree")}
		}
		port, _ := blockFor(sc, d, tree, fair.At.Mid(at.At), 0)
		path = append(path, port)
	}
	switch kind {
	case StartStraight, StartRedirect:
		path = append(path, point)
	case StartDoubled, StartDoubledRedirect:
		block, _ := blockFor(sc, d, point, fair.At, 0)
		end, ok := layout.BackPoint(puller, at.At)
		if !ok {
			return outcome{report: sc.label("start-needs-point", part.Text("thing", sc.name(puller.ID)))}
		}
		path = append(path, block, end)
	case StartBridle:
		join, ok := bridle(sc, d, casualty, fair.At)
		if !ok {
			return outcome{report: sc.label("start-needs-two", part.Text("thing", sc.name(casualty.ID)))}
		}
		path = append(path, join)
	}
	l := sc.gear().Line()
	l.Path = path
	id := d.AddLine(l)
	settleNew(sc, d)
	rig := d.Laid.ID
	return outcome{plan: d.Plan, name: sc.label("edit-start", part.Text("what", sc.label("rig-"+kind))), selected: []plan.ID{id},
		then: func(b *Board) { b.ShowRig(rig); b.Select(id) }}
}

// turnAt is the trunk over which the way between two ends is shortest, among
// those over which both stretches bear on nothing; of all trunks if none does.
func turnAt(sc *scene, a, c lineEnd) (plan.Port, bool) {
	best, least, has, free := plan.Port{}, math.Inf(1), false, false
	for i := range sc.plan.Site.Anchors {
		t := &sc.plan.Site.Anchors[i]
		if t.Kind != plan.AnchorTree {
			continue
		}
		way := outcome{rubber: []plan.Point{a.at, t.At, c.at}}
		refuseContacts(sc, &way, []lineEnd{a, {t.At, float64(t.Rise + solver.PresetStrapHeight), t.ID}, c})
		passes, l := way.refused == "", a.at.Dist(t.At)+t.At.Dist(c.at)
		if !has || passes && !free || passes == free && l < least {
			best, least, has, free = plan.Port{Thing: t.ID}, l, true, passes
		}
	}
	return best, has
}

// bridleOpens, in degrees, is the most the legs of a starting bridle open; a
// wider one loads each leg more than the pull. (common practice: 60° at most)
const bridleOpens = 60

// bridle slings two legs from the casualty's two points on the side of the pull
// to a shackle, at which the line ends. Points on one line are taken at the
// place of the wider pair.
func bridle(sc *scene, d plan.Draft, v *plan.Vehicle, to plan.Point) (plan.Port, bool) {
	type leg struct {
		port plan.Port
		at   plan.Point
	}
	var legs []leg
	for i := range v.Recovery {
		s, _ := v.PortPlace(v.Recovery[i].ID)
		if off := s.Axis.Turn(bearing(s.At, to)); math.Abs(float64(off)) <= 90 {
			legs = append(legs, leg{plan.Port{Thing: v.ID, Point: v.Recovery[i].ID}, s.At})
		}
	}
	if len(legs) < 2 || legs[0].at.Dist(legs[1].at) < fineM {
		return plan.Port{}, false
	}
	apart := legs[0].at.Dist(legs[1].at)
	need := apart / 2 / math.Sin(bridleOpens/2*math.Pi/180)
	length := lengthBetween(math.Max(need, 1))
	middle := legs[0].at.Mid(legs[1].at)
	high := math.Sqrt(math.Max(0, float64(length*length)-apart*apart/4))
	sh := sc.gear().Shackle()
	e, n := plan.Heading(bearing(middle, to))
	sh.At = rounded(middle.Plus(e*high, n*high), fineM)
	join := plan.Port{Thing: d.AddShackle(sh)}
	for _, g := range legs[:2] {
		s := sc.gear().Sling(length)
		s.On, s.Holds, s.Hitch = g.port, join, plan.HitchStraight
		d.AddSling(s)
	}
	return join, true
}
