package solver

import (
	"cmp"
	"slices"
	"strings"

	"kedge/solver/gear"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// stallPulls is the most each line's winch gives, newtons, 0 where it is not
// known or the line has no winch: the high end of the stall range, since what
// the winch can break is what it asks.
func (a *resolving) stallPulls() []float64 {
	out := append(a.stallN[:0], make([]float64, len(a.g.lines))...)
	for i := range a.g.lines {
		if w := a.g.lines[i].winch; w != nil {
			if s := gear.StallPull(strongest(w)); s.Known { // a tension somebody measured was there, whatever the winch is said to give
				_, typed := plan.Range(&a.g.lines[i].line.Head, "tension_n", float64(a.g.lines[i].line.Fixed))
				out[i] = max(float64(s.High), typed)
			}
		}
	}
	return out
}

// finish draws the conclusions over all parts: over and near limits, no
// ratings, presets, what the winch can break, the order of failing.
func (a *concluding) finish() {
	o := a.out
	o.Complete = !a.empty && o.Status == part.Within && o.Move.Known
	winch := plan.ID("")
	for i := range a.g.lines {
		if w := a.g.lines[i].winch; w != nil {
			winch = w.ID
			break
		}
	}
	a.values = more(a.values, 4*a.spoken())
	for i := range o.Parts {
		p := &o.Parts[i]
		a.judged(p)
		if shares(p) && (o.Worst < 0 || p.Most() > o.Parts[o.Worst].Most()) {
			o.Worst = i
		}
		switch p.Status {
		case part.Within, part.Near, part.Over, part.Undecided:
			o.Complete = o.Complete && p.Status != part.Undecided
		case part.Slack:
			o.Complete = o.Complete && p.Limit.Known // slack as drawn, loaded a metre on
		default:
			if p.Kind != part.KindFairlead {
				o.Complete = false
			}
		}
	}
	a.withhold()
	a.presetCount()
	if winch != "" && !a.refused {
		gear.StallCheck(winch, o.Parts, a.found())
	}
	a.order()
	for i := range o.Parts {
		if p := &o.Parts[i]; p.Status == part.Refused && p.Why == "" {
			p.Why = o.Why
		}
	}
	a.speakAsDrawn()
	o.Findings = o.Sorted(o.Findings)
}

// Sorted are findings of the rig, doubles joined, in the order in which they are
// read.
func (o *Assessment) Sorted(fs []part.Finding) []part.Finding { return part.SortFindings(fs, o.rank) }

// shares reports whether a part's share counts among those of the rig.
func shares(p *part.Part) bool {
	switch p.Status {
	case part.Within, part.Near, part.Over, part.Undecided:
		return p.Kind != part.KindFairlead
	}
	return false
}

// rank is what is read first among findings of one level: why nothing is
// computed, who stands where nobody may, what moves before the casualty does and how
// soon, what is over its limit and how far, and then the rest.
func (o *Assessment) rank(f *part.Finding) float64 {
	switch f.ID {
	case o.Why, "no-casualty", "no-winch", "not-hooked", "nothing-pulls", "resistance-not-computed":
		return 0
	case "still-fastened", "vehicle-moves-by-itself", "rolls-by-itself", "rolls-by-itself-unknown", "downhill-pull", "downhill-pull-unknown", "tips-by-itself", "axle-lifts", "no-brake":
		return 2
	case "vehicle-slides", "vehicle-turns":
		return 2 + 1/(2+o.most(part.KindSlide, f.Things))
	case "tips-sideways":
		return 2 + 1/(2+o.most(part.KindTip, f.Things))
	case "over-limit", "over-to-break-loose", "winch-over":
		for _, v := range f.Values {
			if v.Name == "used" && v.X > 1 {
				return 3 + 1/v.X
			}
		}
		return 3
	}
	if strings.HasPrefix(f.ID, "person-") || strings.HasPrefix(f.ID, "bystander-") {
		return 1
	}
	return 5
}

// most is the highest share of the parts of a kind that are of one of the things, 0 if
// none is known.
func (o *Assessment) most(k part.Kind, of []plan.ID) (share float64) {
	for i := range o.Parts {
		if p := &o.Parts[i]; p.Kind == k && p.Known() && slices.Contains(of, p.Thing) {
			share = max(share, p.Most())
		}
	}
	return share
}

// spoken is how many parts are about to be judged with a finding, at most.
func (a *concluding) spoken() (n int) {
	for i := range a.out.Parts {
		switch a.out.Parts[i].Status {
		case part.Over, part.Near, part.NoLimit:
			n++
		}
	}
	return n
}

// judged raises what a part's status means.
func (a *concluding) judged(p *part.Part) {
	at := func(id string, l part.Level, values []part.Value) {
		a.find(part.Finding{ID: id, Level: l, Things: a.things(p.Thing), Parts: a.named(p.ID), Values: values})
	}
	name := part.Value{Name: "part", Unit: part.UnitThing, Text: p.ID}
	load := part.Force("load", p.Told().Force)
	limit := part.Number("limit", part.UnitLimit, p.Limit.Force)
	used := part.Number("used", part.UnitShare, p.Used)
	over, near := "over-limit", "near-limit"
	if p.ByLoosening() {
		over, near, used.X = "over-to-break-loose", "near-to-break-loose", p.UsedToLoosen()
	}
	switch {
	case p.Kind == part.KindTip || p.Kind == part.KindSlide && (p.Status == part.NoLimit || a.winches(p.Thing) || a.slides(p.Thing)):
		// effort raises its own findings with what would hold. An anchor vehicle
		// may be over its limit, a third of its hold, long before it slides.
	case p.Status == part.Over && p.Kind == part.KindWinch && over == "over-limit":
		at("winch-over", part.Warning, a.given(name, load, limit, used))
	case p.Status == part.Over && p.Kind == part.KindWinch:
		// effort says what the winch does not break loose.
	case p.Status == part.Over && p.Limit.Force == 0:
		at("holds-nothing", part.Danger, a.given(name, load))
	case p.Status == part.Over:
		at(over, part.Danger, a.given(name, load, limit, used))
	case p.Status == part.Near:
		at(near, part.Caution, a.given(name, load, limit, used))
	case p.Status == part.NoLimit && p.Kind != part.KindFairlead:
		at("no-limit", part.Warning, a.given(name, load))
	}
}

// slides reports whether a vehicle is said to be pulled off its place.
func (a *concluding) slides(id plan.ID) bool {
	return slices.ContainsFunc(a.out.Findings, func(f part.Finding) bool {
		return (f.ID == "vehicle-slides" || f.ID == "vehicle-turns") && f.Things[0] == id
	})
}

// presetCount says how many ratings nobody has read from a tag: those in use,
// or all of the vehicles while nothing is rigged.
func (a *concluding) presetCount() {
	all := a.empty
	n := 0
	var first plan.ID
	count := func(id plan.ID, presets []string, members ...string) {
		for _, m := range members {
			if slices.Contains(presets, m) {
				n++
				if first == "" {
					first = id
				}
			}
		}
	}
	for i := range a.g.p.Site.Vehicles {
		v := &a.g.p.Site.Vehicles[i]
		if !all && !a.g.touches(v.ID) {
			continue
		}
		for k := range v.Recovery {
			if all || a.g.used(plan.Port{Thing: v.ID, Point: v.Recovery[k].ID}) {
				count(v.ID, v.Recovery[k].Presets, "rating")
			}
		}
		if v.Winch != nil && (all || a.winches(v.ID)) {
			count(v.ID, v.Winch.Presets, "line_pull_n")
		}
	}
	r := a.g.r
	for i := range r.Lines {
		count(r.Lines[i].ID, r.Lines[i].Presets, "rating", "connector.rating")
	}
	for i := range r.Blocks {
		count(r.Blocks[i].ID, r.Blocks[i].Presets, "rating")
	}
	for i := range r.Slings {
		count(r.Slings[i].ID, r.Slings[i].Presets, "rating")
	}
	for i := range r.Shackles {
		count(r.Shackles[i].ID, r.Shackles[i].Presets, "rating")
	}
	if n > 0 {
		a.find(part.Finding{ID: "presets", Level: part.Caution, Things: a.things(first), Values: []part.Value{part.Count("count", n)}})
	}
}

// order is the order in which parts give as the winch pulls to stall, by the
// low end of their ultimates; loads grow with the winch line tension. What is
// slack, or loaded by a hold-back alone, is in no order with the others.
func (a *concluding) order() {
	o := a.out
	ref, tension := func(p *part.Part) part.Load { return p.Stall }, o.Stall.Tension
	if !o.Stall.Known {
		ref, tension = func(p *part.Part) part.Load { return p.Move }, o.Move.Tension
	}
	if !(tension > 0) {
		return
	}
	o.Order = make([]Failing, 0, len(o.Parts))
	for i := range o.Parts {
		p := &o.Parts[i]
		l := ref(p)
		if !l.Known || l.Force <= slackShare*tension {
			continue
		}
		share, ok := p.ToFailure(l)
		if !ok {
			// A winch stalls, a fairlead turns the line: neither gives. Anything
			// else whose ultimate nobody knows may be the first.
			if p.Kind != part.KindWinch && p.Kind != part.KindFairlead {
				o.MayGive = append(o.MayGive, i)
			}
			continue
		}
		if !(share > 0) || a.heldAlone(p) {
			continue
		}
		at := tension / quantity.Force(share)
		o.Order = append(o.Order, Failing{Part: i, Tension: at, Beyond: o.Stall.Known && at > o.Stall.Tension})
	}
	slices.SortStableFunc(o.Order, func(x, y Failing) int { return cmp.Compare(x.Tension, y.Tension) })
	if len(o.Order) > 0 {
		o.First = o.Order[0].Part
	}
}
