package solver

import (
	"slices"
	"strings"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/terrain"
)

// groundKnown says that what a slope decides is not decided where the slope, or
// where it falls to, is not known: which way each vehicle rolls, slides or
// tips, and what the slope adds to the resistance.
func (a *resolving) groundKnown() {
	if l := a.g.ground.Lacks(); l != "" && len(a.g.p.Site.Vehicles) > 0 {
		for _, rule := range [...]string{"rolls-by-itself", "downhill-pull"} {
			part.NotDecided(a.found(), rule, "", part.Lack{Member: l})
		}
	}
}

// reaches says what is not decided where nobody entered where a line's end is: a
// trunk whose thickness takes up the sling of a block, the block's own head, how
// far off the middle line of a vehicle a point sits. The latter two are asked for
// only where the line passes so near something that it may matter.
func (a *laying) reaches() {
	for i := range a.g.slings {
		rs := &a.g.slings[i]
		on := a.g.things.Anchor(rs.sling.On.Thing)
		member := ""
		switch {
		case on == nil || a.g.restrains[rs.sling.ID]: // that of a restraint has a rule of its own: whether it is taut
		case plan.AnchorKindOf(on.Kind) == nil: // a tree, for all we know
			member = "kind"
		case rs.onTrunk && !(rs.radius > 0):
			member = "trunk_m"
		}
		if member != "" {
			part.NotDecided(a.found(), "sling-too-short", rs.sling.ID, part.Lack{Thing: on.ID, Member: member})
		}
	}
	for i := range a.out.Stretches {
		s := &a.out.Stretches[i]
		for _, port := range [...]plan.Port{s.PortA, s.PortB} {
			l, most, open := a.offBy(port)
			if !open || s.ClearOf == "" || float64(s.Clear) > terrain.KeepOff()+most {
				continue
			}
			part.NotDecided(a.found(), "line-near", port.Thing, l)
			if float64(s.Clear) < most {
				a.undecided = true
				part.NotDecided(a.found(), "line-bears", port.Thing, l)
			}
		}
	}
}

// offBy is what nobody entered of where a line's end is, and by how many metres
// it may be elsewhere: the head of a block, how far off the middle line of a
// vehicle a point sits, at most half its width; of one of unknown width as much
// as of any on the road.
func (a *laying) offBy(port plan.Port) (l part.Lack, most float64, open bool) {
	if b := a.g.things.Block(port.Thing); b != nil {
		return part.Lack{Thing: b.ID, Member: "head_m"}, mostHeadM, !(b.HeadLength > 0)
	}
	l, open = a.sideLack(port)
	if v := a.g.things.Vehicle(port.Thing); v != nil && v.Width > 0 {
		return l, float64(v.Width) / 2, open
	}
	return l, mostWidthM / 2, open
}

// The most that a block's eye is from the middle of its sheave, and the width of
// the widest vehicle on the road, metres (ours).
const (
	mostHeadM  = 0.5
	mostWidthM = 2.6
)

// shackleDirection reports whether a shackle stands on a point whose direction nobody
// entered: how far off its own line it is pulled is not decided.
func (a *resolving) shackleDirection(k *plan.Shackle) (open bool) {
	for _, j := range k.Joins {
		v := a.g.things.Vehicle(j.Thing)
		if v == nil {
			continue
		}
		if spot, ok := v.PortPlace(j.Point); ok && spot.AxisAssumed {
			rule := "shackle-side-pull"
			if k.RoundPin {
				rule = "shackle-round-pin"
			}
			part.NotDecided(a.found(), rule, v.ID, part.Lack{Thing: v.ID, Member: axisMember(j.Point)})
			return true
		}
	}
	return false
}

// axisMember is the member that says in which direction a point is pulled.
func axisMember(point plan.ID) string {
	if point == plan.PortWinch {
		return "winch.axis_deg"
	}
	return "recovery_points." + string(point) + ".axis_deg"
}

// withhold takes "within its limit" off the parts whose rules are not decided: a
// rule that may refuse them, or may lower their limit or raise their load, lacks
// what it would decide by. A part that is over its limit all the same is over.
func (a *concluding) withhold() {
	all := false
	var open []part.Lack // by the thing that is in question
	for i := range a.out.Findings {
		f := &a.out.Findings[i]
		for _, l := range f.Lacks {
			if !pushes(l) && (f.ID != part.NotDecidedID || !bears(l.Rule)) {
				continue
			}
			all = all || everyLoad(l)
			open = append(open, l)
			for _, id := range f.Things {
				if id != l.Thing {
					open = append(open, part.Lack{Thing: id})
				}
			}
		}
	}
	own, odd := a.oddFigures()
	all = all || odd || a.undecided
	if !all && open == nil && own == nil {
		return
	}
	a.open = make([]bool, len(a.out.Parts))
	for i := range a.out.Parts {
		p := &a.out.Parts[i]
		a.open[i] = all || ownStand(p, own) || slices.ContainsFunc(open, func(l part.Lack) bool { return hangsOn(p, l) })
		if a.open[i] && (p.Status == part.Within || p.Status == part.Near) {
			p.Undecide()
			a.out.Complete = false
		}
	}
}

// everyLoad reports whether every load hangs on what a rule lacks: the slope, how high
// the points of vehicles sit, how a bridle opens, and whether a line is bent by
// something on its way.
func everyLoad(l part.Lack) bool {
	switch l.Rule {
	case "line-bears", "line-on-trunk", "line-near", "line-over", "sling-too-short", "bridle-wide", "shackle-legs-wide":
		return true
	}
	at := strings.HasPrefix(l.Member, "winch.") || strings.HasPrefix(l.Member, "recovery_points.")
	return l.Thing == "" || at && strings.HasSuffix(l.Member, ".height_m") || pushes(l)
}

// pushes tells what says how hard running water pushes the casualty: until it is
// known the push counts nowhere.
func pushes(l part.Lack) bool { return l.Member == "casualty.water_speed_m_per_s" }

// hangsOn reports whether a part is judged by what is lacking: a vehicle's winch and
// its points, and what a line ends in, each by what is theirs, all else of a
// thing by any of it.
func hangsOn(p *part.Part, l part.Lack) bool {
	if p.Thing != l.Thing {
		return false
	}
	if p.Kind == part.KindEnd {
		return strings.HasPrefix(l.Member, "connector.")
	}
	if p.Kind == part.KindSlide || p.Kind == part.KindTip { // by what lever it is pulled aside
		return strings.HasSuffix(l.Member, ".left_m") || !strings.HasPrefix(l.Member, "winch.") && !strings.HasPrefix(l.Member, "recovery_points.")
	}
	if strings.HasPrefix(l.Member, "winch.") {
		return p.Kind == part.KindWinch || p.Kind == part.KindFairlead
	}
	if rest, ok := strings.CutPrefix(l.Member, "recovery_points."); ok {
		return strings.HasPrefix(rest, strings.TrimPrefix(p.ID, string(l.Thing)+"/")+".")
	}
	return true
}

// aside are rules that may raise more than a CAUTION and bear on no limit and no
// load of the drawn moment: what is on the drum, where people stand, what comes
// on the way, and which of two figures is wrong.
var aside = []string{"casualty-meets", "drum-overfull", "line-cannot-pass", "line-short", "operator-out-of-reach", "rating-beyond-size"}

// bears reports whether a part may be refused, or its limit or load be worse, by a
// rule: one that can raise more than a CAUTION. One that is not listed may.
func bears(rule string) bool {
	worst, ok := worstLevels[rule]
	return (!ok || worst > part.Caution) && !slices.Contains(aside, rule)
}

// worstLevels are the worst levels of all rules.
var worstLevels = func() map[string]part.Level {
	worst := map[string]part.Level{}
	for _, pkg := range Rulebook() {
		for _, r := range pkg.Rules {
			worst[r.ID] = max(worst[r.ID], slices.Max(r.Levels))
		}
	}
	return worst
}()
