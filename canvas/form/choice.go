package form

import (
	"reflect"
	"slices"
	"strconv"
	"strings"

	"kedge/canvas/words"
	"kedge/solver/effort"
	"kedge/solver/facts"
	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// choiceWords are the values of the sets of choices that the plan's own words
// make. The empty value is "not known", or what counts when nothing is said.
var choiceWords = map[string][]string{
	"anchor":    plan.AnchorWords(),
	"health":    {plan.HealthUnknown, plan.HealthAlive, plan.HealthDoubtful, plan.HealthDead, plan.HealthRotten},
	"rooting":   {"", "shallow", "deep"},
	"obstacle":  {"", plan.ObstacleBank, plan.ObstacleBoulder, "wall", "building", "water"},
	"role":      {plan.RoleOperator, plan.RoleSpotter, plan.RoleBystander, plan.RoleDriver},
	"brake":     {plan.BrakeUnknown, plan.BrakeNone, plan.BrakeRear, plan.BrakeFront, plan.BrakeAll},
	"chocks":    {plan.ChocksNone, plan.ChocksFront, plan.ChocksRear, plan.ChocksAll},
	"control":   {plan.ControlUnknown, plan.ControlWireless, plan.ControlCable, plan.ControlCab},
	"cover":     {plan.CoverNone, plan.CoverGround, plan.CoverTimber},
	"drive":     {"", "electric", "hydraulic", "mechanical"},
	"depth":     {plan.DepthUnknown, plan.DepthNone, plan.DepthHub, plan.DepthChassis, plan.DepthBody},
	"way":       {"", plan.WayForward, plan.WayReverse, plan.WayFree},
	"plan-on":   {"", plan.PlanHigh, plan.PlanLikely, plan.PlanLow},
	"rule":      {"", effort.RulePhysics, effort.RuleHandbook, effort.RuleCommon},
	"point":     {plan.PointUnknown, plan.PointRated, plan.PointBowEye, plan.PointHook, plan.PointPintle, plan.PointScrewEye, plan.PointTowBall, plan.PointTieDown, plan.PointBar, plan.PointAxle, plan.PointSteering},
	"material":  {"", plan.MaterialWire, plan.MaterialHMPE, plan.MaterialNylon, plan.MaterialPolyester, plan.MaterialChain, plan.MaterialFibre, plan.MaterialKinetic, plan.MaterialWeb, plan.MaterialRound},
	"condition": {plan.ConditionUnknown, plan.ConditionNew, plan.ConditionUsed, plan.ConditionDoubtful, plan.ConditionKinked},
	"use":       {plan.UsePull, plan.UseTieBack, plan.UseHoldBack},
	"paid-out":  {"", plan.PaidOutFriction},
	"block":     {plan.BlockUnknown, plan.BlockRoller, plan.BlockPlain, plan.BlockRing},
	"rating-on": {plan.RatedUnsaid, plan.RatedHanger, plan.RatedLine},
	"hitch":     {plan.HitchDefault, plan.HitchBasket, plan.HitchChoked, plan.HitchStraight},
	"standard":  {"", "EN", "ASME"},
	"connector": {plan.ConnectorUnknown, plan.ConnectorHook, plan.ConnectorThimble, plan.ConnectorSoft, plan.ConnectorShackle},
	"shackle":   {"", plan.ShackleBow, plan.ShackleDee, plan.ShackleSoft},
	"basis-rig": {"", plan.BasisPulling, plan.BasisLifting},
	"basis":     {string(plan.BasisUnsaid), string(plan.BasisWorking), string(plan.BasisBreaking)},
}

// choiceFamilies are the sets whose values are rows of the handbook.
var choiceFamilies = map[string]string{"surface": "roll", "grip": "grip", "end": "end", "knot": "knot"}

// choices are the values a member may be given.
func (c *teller) choices(m member) []Choice {
	switch {
	case m.unit == unitRating:
		return basisChoices(c.w)
	case m.choice == "":
		return nil
	}
	if list, ok := choiceWords[m.choice]; ok {
		return wordChoices(c.w, m.choice, list)
	}
	if family, ok := choiceFamilies[m.choice]; ok {
		return rowChoices(c.w, m.choice, facts.Under(family))
	}
	switch m.choice {
	case "soil":
		return wordChoices(c.w, m.choice, append([]string{""}, hold.Soils()...))
	case "layout":
		return c.layouts()
	case "species":
		return c.species()
	case "ports":
		return c.ports(m)
	case "vehicles":
		list := []Choice{{Text: c.w.Label("choice-vehicles-")}}
		for i := range c.p.Site.Vehicles {
			list = append(list, c.named(c.p.Site.Vehicles[i].ID))
		}
		return list
	case "about":
		return c.about()
	case "photos":
		return c.photos()
	case "pin":
		return c.evidence(m.choice, plan.PinKinds())
	case "known":
		return c.evidence(m.choice, []string{"", plan.KnownObserved, plan.KnownTold, plan.KnownAssumed})
	case "look":
		return c.evidence(m.choice, plan.Looks())
	case "lines":
		var list []Choice
		if r, ok := c.p.Rig(c.rig); ok {
			for i := range r.Lines {
				list = append(list, c.named(r.Lines[i].ID))
			}
		}
		return list
	case "stretches":
		return c.stretches()
	}
	return nil
}

func basisChoices(w *words.Words) []Choice { return wordChoices(w, "basis", choiceWords["basis"]) }

func wordChoices(w *words.Words, set string, values []string) []Choice {
	list := make([]Choice, len(values))
	for i, v := range values {
		list[i] = Choice{Value: v, Text: choiceText(w, set, v)}
	}
	return list
}

// choiceText is what a choice is called: its own text, else the plan's word.
func choiceText(w *words.Words, set, value string) string {
	if id := "choice-" + set + "-" + value; w.HasLabel(id) || value == "" {
		return w.Label(id)
	}
	return value
}

func rowChoices(w *words.Words, set string, rows []facts.Row) []Choice {
	var list []Choice
	if set != "knot" {
		list = append(list, Choice{Text: choiceText(w, set, "")})
	}
	for _, r := range rows {
		if facts.ID(r.ID) == facts.KnotUnknown || r.Unit != "1" && r.Unit != "%" {
			continue
		}
		list = append(list, rowChoice(w, string(r.ID), w.FactTitle(r), r))
	}
	return list
}

// rowChoice is a choice that rests on a handbook row. Titles that begin with
// what all of their family share, "rolling, hard road" or "knot keeps: bowline",
// lose it.
func rowChoice(w *words.Words, value, title string, r facts.Row) Choice {
	family, _, _ := strings.Cut(string(r.ID), ".")
	switch family {
	case "roll", "grip":
		if shared, rest, ok := strings.Cut(title, ", "); ok && !strings.Contains(shared, " ") {
			title = rest
		}
	case "end", "knot":
		if _, rest, ok := strings.Cut(title, ": "); ok {
			title = rest
		}
	}
	return Choice{Value: value, Text: title, Source: r.Source, Confidence: confidenceWord(w, string(r.Confidence))}
}

func (c *teller) layouts() []Choice {
	list := []Choice{{Text: choiceText(c.w, "layout", "")}}
	for _, l := range []struct {
		layout string
		row    facts.ID
	}{{"1", facts.PicketLayout1}, {"1-1", facts.PicketLayout11}, {"1-1-1", facts.PicketLayout111}, {"2-1", facts.PicketLayout21}, {"3-2-1", facts.PicketLayout321}} {
		if r, ok := facts.Get(l.row); ok {
			list = append(list, rowChoice(c.w, l.layout, l.layout, r))
		}
	}
	return list
}

func (c *teller) species() []Choice {
	list := []Choice{{Text: choiceText(c.w, "species", "")}}
	for _, s := range hold.Species() {
		if t, ok := facts.TreeOf(s); ok {
			name, _, _ := strings.Cut(c.w.FactTitle(t.Moment), ":")
			list = append(list, rowChoice(c.w, s, name, t.Moment))
		}
	}
	return list
}

// evidence are words of evidence, which are said in one way wherever they stand.
func (c *teller) evidence(set string, values []string) []Choice {
	list := make([]Choice, len(values))
	for i, v := range values {
		list[i] = Choice{Value: v, Text: c.w.EvidenceWord(set, v)}
		if v == "" {
			list[i].Text = c.w.Label("choice-" + set + "-")
		}
	}
	return list
}

// about are the things that evidence may be about, and the one it is about though that
// was taken out since.
func (c *teller) about() []Choice {
	list := []Choice{{Text: c.w.Label("choice-about-")}}
	r, _ := c.p.Rig(c.rig)
	q, _ := c.thing.At.(*plan.Pin)
	x, there := plan.NewIndex(c.p, r), q == nil || q.Thing == ""
	plan.EachHead(c.p, r, func(h *plan.Head) {
		if !x.Kind(h.ID).CarriesEvidence() {
			return
		}
		there = there || h.ID == q.Thing
		list = append(list, c.named(h.ID))
	})
	if !there {
		list = append(list, Choice{Value: string(q.Thing), Text: c.w.Label("pin-gone", part.Text("thing", string(q.Thing)))})
	}
	return list
}

func (c *teller) named(id plan.ID) Choice {
	n := c.names(id)
	if n == "" {
		n = string(id)
	}
	return Choice{Value: string(id), Text: n}
}

// ports are the hook-on points of the site and of the rig but the thing's own.
func (c *teller) ports(m member) []Choice {
	var list []Choice
	if m.unit == unitPort {
		list = append(list, Choice{Text: choiceText(c.w, "ports", "")})
	}
	add := func(thing, point plan.ID) {
		if thing != c.thing.id {
			list = append(list, c.named(plan.ID(plan.Port{Thing: thing, Point: point}.String())))
		}
	}
	s := &c.p.Site
	for i := range s.Vehicles {
		v := &s.Vehicles[i]
		for j := range v.Recovery {
			add(v.ID, v.Recovery[j].ID)
		}
		if v.Winch != nil {
			add(v.ID, plan.PortWinch)
		}
	}
	for i := range s.Anchors {
		add(s.Anchors[i].ID, "")
	}
	for i := range s.Obstacles {
		if s.Obstacles[i].Anchor {
			add(s.Obstacles[i].ID, "")
		}
	}
	r, ok := c.p.Rig(c.rig)
	if !ok {
		return list
	}
	for i := range r.Blocks {
		add(r.Blocks[i].ID, "")
		add(r.Blocks[i].ID, plan.PortBecket)
	}
	for i := range r.Slings {
		add(r.Slings[i].ID, "")
	}
	for i := range r.Shackles {
		add(r.Shackles[i].ID, "")
	}
	return list
}

// stretches are those of the line a damper lies on.
func (c *teller) stretches() []Choice {
	d, ok := c.thing.At.(*plan.Damper)
	r, found := c.p.Rig(c.rig)
	if !ok || !found {
		return nil
	}
	l, found := r.Line(d.Line)
	if !found {
		return nil
	}
	var list []Choice
	for i := 0; i+1 < len(l.Path); i++ {
		from, to := c.named(plan.ID(l.Path[i].String())), c.named(plan.ID(l.Path[i+1].String()))
		list = append(list, Choice{Value: strconv.Itoa(i), Text: c.w.Label("choice-stretch", part.Text("from", from.Text), part.Text("to", to.Text))})
	}
	return list
}

// choose puts one of the choices.
func (e *editor) choose(to reflect.Value, m member, given string) error {
	if given == m.show(to, e.t, e.sys) {
		return nil
	}
	c := teller{p: e.p, rig: e.rig, thing: e.t, w: e.w, names: e.w.Names(e.p, e.rig)}
	value, err := matchChoice(given, c.choices(m), m.free)
	if err != nil {
		return err
	}
	switch m.unit {
	case unitPort:
		to.Set(reflect.ValueOf(portOf(value)))
	case unitIndex:
		i, err := strconv.Atoi(value)
		if err != nil {
			return refusedText(given, quantity.NotNumber, noChoice)
		}
		to.SetInt(int64(i))
	default:
		to.SetString(value)
	}
	return nil
}

// portOf reads a port as [plan.Port.String] writes it.
func portOf(s string) plan.Port {
	thing, point, _ := strings.Cut(s, "/")
	return plan.Port{Thing: plan.ID(thing), Point: plan.ID(point)}
}

// matchChoice finds what was typed among the choices: a value or a text as it
// stands, else the beginning of just one of them, "h" for "hub". If free, any
// other word is taken as it is.
func matchChoice(given string, choices []Choice, free bool) (string, error) {
	for _, c := range choices {
		if c.Value == given {
			return c.Value, nil
		}
	}
	if given == "" {
		return "", refusedText(given, quantity.Empty, choiceMissing, choiceOffers(choices)...)
	}
	var begins []Choice
	for _, c := range choices {
		short := shortValue(c.Value)
		if strings.EqualFold(c.Text, given) || strings.EqualFold(c.Value, given) || strings.EqualFold(short, given) {
			return c.Value, nil
		}
		for _, s := range []string{c.Value, short, c.Text} {
			if c.Value != "" && len(s) >= len(given) && strings.EqualFold(s[:len(given)], given) {
				begins = append(begins, c)
				break
			}
		}
	}
	switch {
	case len(begins) == 1:
		return begins[0].Value, nil
	case len(begins) > 1:
		return "", refusedText(given, quantity.NotNumber, choicesBegin, choiceOffers(begins)...)
	case free:
		return given, nil
	}
	if len(choices) == 0 {
		return "", refusedText(given, quantity.NotNumber, noChoices)
	}
	return "", refusedText(given, quantity.NotNumber, noChoice, choiceOffers(choices)...)
}

// shortValue is the id of a handbook row without its family.
func shortValue(value string) string { return value[strings.LastIndexByte(value, '.')+1:] }

// choiceOffers are the first of the choices, as many as a sentence holds.
func choiceOffers(list []Choice) []string {
	const most = 8
	var out []string
	for _, c := range list {
		if short := shortValue(c.Value); short != "" && len(out) < most && !slices.Contains(out, short) {
			out = append(out, short)
		}
	}
	return out
}

// photos are the pictures of the plan that may show evidence.
func (c *teller) photos() []Choice {
	list := []Choice{{Text: c.w.Label("choice-photos-")}}
	if u := c.p.Site.Underlay; u != nil && u.Original != "" {
		list = append(list, Choice{Value: u.Original, Text: c.w.Label("thing-underlay")})
	}
	for i := range c.p.Photos {
		if q := &c.p.Photos[i]; !slices.ContainsFunc(list, func(had Choice) bool { return had.Value == q.Original }) {
			list = append(list, Choice{Value: q.Original, Text: fileName(c.w, q.File)})
		}
	}
	return list
}
