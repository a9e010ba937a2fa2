package solver

import (
	"cmp"
	"math"
	"slices"

	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/zone"
)

// Moment is a rig at one place of the casualty's travel.
type Moment struct {
	AtM float64 // metres along the way out from where it is drawn
	*Assessment
}

// Meets is how far along the way out, metres from where the casualty is drawn, it first
// runs into something, as a moment sees it, and the finding of that as told from there;
// +Inf and nil: into nothing.
func (m *Moment) Meets() (atM float64, first *part.Finding) {
	atM = math.Inf(1)
	for i := range m.Findings {
		if f := &m.Findings[i]; f.ID == "casualty-meets" && m.AtM+f.Values[0].X < atM {
			atM, first = m.AtM+f.Values[0].X, f
		}
	}
	if first != nil {
		f := m.fromDrawn(*first)
		first = &f
	}
	return atM, first
}

// fromDrawn is the finding of a moment that the casualty runs into something, of which the
// one figure is how far on that is, told from where it is drawn.
func (m *Moment) fromDrawn(f part.Finding) part.Finding {
	f.Values = slices.Clone(f.Values)
	f.Values[0].X += m.AtM
	return f
}

// Worst joins the moments of one pull of one rig, in the order of the travel, into
// the answer for all of it: each part as it is at its own worst moment, each
// finding at its highest level, the zones of all the travel, who is in them at
// any time. Places of lines and blocks, the resistance and the motion ratio are
// those of the first moment, the pulls the greatest. A finding says in Travel
// where it was raised, a part in AtM where it is worst. The moments are not
// changed; one alone is its own answer.
func Worst(moments []Moment) *Assessment {
	o := *moments[0].Assessment
	if len(moments) == 1 {
		return &o
	}
	o.Parts = worstParts(moments)
	o.Findings = worstFindings(moments, &o)
	o.around.Zones = sweptZones(moments)
	o.Zones = o.around.Zones
	o.standing(moments)
	for _, m := range moments[1:] {
		o.Complete = o.Complete && m.Complete
		o.Moves = o.Moves && m.Moves
		o.ZonesMissing = o.ZonesMissing || m.ZonesMissing
		o.Move, o.Loosen, o.Stall = o.Move.greater(m.Move), o.Loosen.greater(m.Loosen), o.Stall.greater(m.Stall)
	}
	o.lines(moments)
	o.gives(moments)
	o.Worst = -1
	for i := range o.Parts {
		if p := &o.Parts[i]; shares(p) && (o.Worst < 0 || p.Most() > o.Parts[o.Worst].Most()) {
			o.Worst = i
		}
	}
	return &o
}

// standing says where people stand with respect to the zones of all the travel. Whom
// only what lies between two moments reaches has the findings of that.
func (o *Assessment) standing(moments []Moment) {
	var found []part.Finding
	o.People = nil
	for _, s := range zone.People(o.around, &found) {
		q := o.personAt(s)
		if q.Spans = spansIn(moments, q.Person); q.Spans == nil && len(q.Inside) > 0 {
			q.Spans = o.spansBetween(moments, q.Person)
		}
		if s.Vehicle != "" { // it may move, and the seat with it
			q.Inside = insideAtAny(moments, q)
		}
		o.People = append(o.People, q)
		if s.Vehicle != "" {
			continue
		}
		of := func(f part.Finding) bool { return len(f.Things) > 0 && f.Things[0] == q.Person }
		o.waysOut(found, of)
		most := part.Notice
		for i := range o.Findings {
			if f := &o.Findings[i]; of(*f) {
				most = max(most, f.Level)
			}
		}
		for _, f := range found {
			if of(f) && f.Level > most {
				f.Travel = reachedAt(moments, o.around, q.Person, f.ID)
				o.Findings = append(o.Findings, f)
			}
		}
	}
	o.Findings = o.Sorted(o.Findings)
}

// waysOut gives what says that somebody should go the way out of the zones of all the
// travel: that of one moment may lead into a zone of another.
func (o *Assessment) waysOut(found []part.Finding, of func(part.Finding) bool) {
	leavesInner := slices.ContainsFunc(found, func(f part.Finding) bool {
		_, inner := zone.Leaving(f.ID)
		return inner && of(f)
	})
	seen := map[string]bool{}
	o.Findings = slices.DeleteFunc(slices.Clone(o.Findings), func(f part.Finding) bool {
		rule, inner := zone.Leaving(f.ID)
		return leavesInner && rule != "" && !inner && of(f) // who is told to leave the inner zones is not told of the ring
	})
	for i := range o.Findings {
		f := &o.Findings[i]
		rule, inner := zone.Leaving(f.ID)
		if rule == "" || !of(*f) {
			continue
		}
		for k := range found {
			u := &found[k]
			if same, _ := zone.Leaving(u.ID); same != rule || !of(*u) {
				continue
			}
			f.ID = u.ID
			if inner {
				f.Values = u.Values
			} else { // how near an end comes is that of the moment: from and end stand first
				f.Values = slices.Concat(f.Values[:2], u.Values[2:])
			}
		}
	}
	o.Findings = slices.DeleteFunc(o.Findings, func(f part.Finding) bool {
		if rule, _ := zone.Leaving(f.ID); rule == "" || !of(f) {
			return false
		}
		k := f.Key()
		twice := seen[k]
		seen[k] = true
		return twice
	})
}

// insideAtAny are the kinds of zone that somebody is in at any moment, and those that
// are known of the whole already, in the order of the kinds.
func insideAtAny(moments []Moment, q PersonAt) []part.ZoneKind {
	var in []part.ZoneKind
	for _, kind := range part.ZoneKinds {
		at := func(m Moment) bool {
			return slices.ContainsFunc(m.People, func(p PersonAt) bool { return p.Person == q.Person && slices.Contains(p.Inside, kind) })
		}
		if slices.Contains(q.Inside, kind) || slices.ContainsFunc(moments, at) {
			in = append(in, kind)
		}
	}
	return in
}

// reachedAt is the travel, metres, at which a finding of a person is raised of what
// lies between two moments.
func reachedAt(moments []Moment, around zone.PeopleIn, person plan.ID, id string) float64 {
	for i := range moments[1:] {
		var found []part.Finding
		around.Zones = sweptZones(moments[i : i+2])
		zone.People(around, &found)
		if slices.ContainsFunc(found, func(f part.Finding) bool { return f.ID == id && f.Things[0] == person }) {
			return moments[i+1].AtM
		}
	}
	return moments[len(moments)-1].AtM
}

// Span is a stretch of the travel, metres.
type Span struct{ FromM, ToM float64 }

// spansIn are from which to which moment somebody is inside a zone.
func spansIn(moments []Moment, person plan.ID) (spans []Span) {
	inside := false
	for _, m := range moments {
		i := slices.IndexFunc(m.People, func(q PersonAt) bool { return q.Person == person })
		was := inside
		inside = i >= 0 && len(m.People[i].Inside) > 0
		switch {
		case inside && !was:
			spans = append(spans, Span{m.AtM, m.AtM})
		case inside:
			spans[len(spans)-1].ToM = m.AtM
		}
	}
	return spans
}

// spansBetween are those between two moments of somebody whom only what lies between
// them reaches.
func (o *Assessment) spansBetween(moments []Moment, person plan.ID) (spans []Span) {
	around := o.around
	for i := range moments[1:] {
		around.Zones = sweptZones(moments[i : i+2])
		if slices.ContainsFunc(zone.People(around, nil), func(s zone.Standing) bool { return s.Person == person && len(s.Inside) > 0 }) {
			spans = append(spans, Span{moments[i].AtM, moments[i+1].AtM})
		}
	}
	return spans
}

// greater is the pull that takes more; one that is not known counts as nothing,
// and makes both not known.
func (p Pull) greater(q Pull) Pull {
	if !p.Known || !q.Known {
		return Pull{}
	}
	if q.Tension > p.Tension {
		return q
	}
	return p
}

// noise is the share by which a figure must be greater at one moment than at another
// to be so. (ours: far above rounding, far below any figure shown)
const noise = 1e-9

// worstParts are the parts of all moments, in the order in which they first come.
func worstParts(moments []Moment) []part.Part {
	var out []part.Part
	at := map[string]int{}
	for _, m := range moments {
		for i := range m.Parts {
			p := m.Parts[i]
			p.AtM = m.AtM
			k, seen := at[p.ID]
			if !seen {
				at[p.ID] = len(out)
				out = append(out, p)
				continue
			}
			q := &out[k]
			switch c := part.WorstFirst(&p, q); {
			case c < 0 && (p.Status != q.Status || p.Most() > q.Most()*(1+noise)),
				c == 0 && p.Status == q.Status && !q.Known() && planned(&p) > planned(q)*(1+noise): // what has no limit, by its load
				*q = p
			}
		}
	}
	return out
}

// planned is what a part carries of the pull as planned; 0: not known.
func planned(p *part.Part) quantity.Force {
	if l := p.Planned(); l.Known {
		return l.Force
	}
	return 0
}

// milder are findings that say less of a part than another does: over the whole
// pull the other alone is said.
var milder = map[string][]string{
	"near-limit":          {"no-limit", "over-limit", "over-to-break-loose", "winch-over"},
	"near-to-break-loose": {"over-limit", "over-to-break-loose", "winch-over"},
	"over-to-break-loose": {"over-limit"},
	"stall-near":          {"stall-breaks"},
}

// lookAhead are findings about what is still to come at a moment: they say most where
// they are first said, as from the start of the pull.
var lookAhead = []string{"casualty-meets", "line-cannot-pass", "still-fastened", "winch-duty"}

// lead is the value of a finding that says how bad it is where that is not its
// first number, or is so the less it is.
type lead struct {
	value string
	less  bool
}

// leads are those of the findings that have one, by id.
var leads = map[string]lead{
	"bend-too-sharp":         {"ratio", true},
	"bystander-in-stand-off": {"from", true},
	"deadman-line-flat":      {"rise", true},
	"does-not-break-loose":   {"gives", true},
	"does-not-move":          {"need", false},
	"line-bears":             {"length", false},
	"line-near":              {"clear", true},
	"line-on-trunk":          {"length", false},
	"line-over":              {"clear", true},
	"line-over-low":          {"clear", true},
	"line-through-vehicle":   {"length", false},
	"person-in-stand-off":    {"from", true},
	"point-side-pull":        {"off", false},
	"shackle-side-pull":      {"off", false},
	"sling-choke-tight":      {"share", true},
	"sling-wire-bent":        {"share", true},
	"tension-too-small":      {"need", false},
	"wraps-few":              {"wraps", true},
}

// compareLeads is which of two findings of one id and level says the worse: by its
// lead; without one by the greatest share that it says, then by the first number
// in which they differ, the greater the worse.
func compareLeads(f, g *part.Finding) int {
	l, has := leads[f.ID]
	if !has {
		if c := compareShares(saidShare(f), saidShare(g)); c != 0 {
			return c
		}
	}
	for i := 0; i < min(len(f.Values), len(g.Values)); i++ {
		v, w := &f.Values[i], &g.Values[i]
		switch c := compareShares(v.X, w.X); {
		case v.Name != w.Name || has && v.Name != l.value:
		case has && l.less:
			return -c
		case c != 0:
			return c
		}
	}
	return 0
}

// worstFindings are the findings of all moments, each once: where its level is
// highest; of these where it says the worst; of these where a part that it is
// about, or one of its thing, is worst, else where it comes first. What rules
// lack at any moment they lack.
func worstFindings(moments []Moment, o *Assessment) []part.Finding {
	var all []part.Finding
	at := map[string]int{}
	worse := func(f, g *part.Finding) bool {
		if f.Level == g.Level && (slices.Equal(f.Values, g.Values) || slices.Contains(lookAhead, f.ID)) {
			return false
		}
		here := func(f *part.Finding) int {
			for i := range o.Parts {
				if p := &o.Parts[i]; f.Concerns(p) && p.AtM == f.Travel {
					return 1
				}
			}
			return 0
		}
		return cmp.Or(cmp.Compare(f.Level, g.Level), compareLeads(f, g), cmp.Compare(here(f), here(g))) > 0
	}
	for _, m := range moments {
		for _, f := range m.Findings {
			f.Travel = m.AtM
			if f.ID == "casualty-meets" && m.AtM > 0 {
				f = m.fromDrawn(f)
				f.Travel = f.Values[0].X
			}
			k, seen := at[f.Key()]
			switch {
			case f.ID == part.NotDecidedID:
				all = append(all, f)
			case !seen:
				at[f.Key()] = len(all)
				all = append(all, f)
			case worse(&f, &all[k]):
				all[k] = f
			}
		}
	}
	all = slices.DeleteFunc(slices.Clone(all), func(f part.Finding) bool {
		return slices.ContainsFunc(milder[f.ID], func(id string) bool {
			g := f
			g.ID = id
			_, said := at[g.Key()]
			return said
		})
	})
	return o.Sorted(all)
}

// compareShares takes figures that differ by rounding alone as equal.
func compareShares(a, b float64) int {
	if math.Abs(a-b) <= noise*max(math.Abs(a), math.Abs(b)) {
		return 0
	}
	return cmp.Compare(a, b)
}

// saidShare is the greatest share that a finding says; 0: none.
func saidShare(f *part.Finding) float64 {
	most := 0.0
	for i := range f.Values {
		if v := &f.Values[i]; v.Unit == part.UnitShare {
			most = max(most, v.X)
		}
	}
	return most
}

// sweptZones are the zones of all the travel.
func sweptZones(moments []Moment) []part.Zone {
	atM, zones := make([]float64, len(moments)), make([][]part.Zone, len(moments))
	for i, m := range moments {
		atM[i], zones[i] = m.AtM, m.Zones
	}
	return zone.Swept(atM, zones)
}

// lines have the most line that each lacks, and the least that is left on the
// drum.
func (o *Assessment) lines(moments []Moment) {
	o.Lines = slices.Clone(o.Lines)
	for i := range o.Lines {
		l := &o.Lines[i]
		for _, m := range moments[1:] {
			for _, n := range m.Lines {
				if n.Line == l.Line && (n.Missing > l.Missing || n.Layer > 0 && n.Wraps < l.Wraps) {
					*l = n
				}
			}
		}
	}
}

// gives is the order in which parts give, each at the moment at which the least
// tension takes it there.
func (o *Assessment) gives(moments []Moment) {
	place := map[string]int{}
	for i := range o.Parts {
		place[o.Parts[i].ID] = i
	}
	least := map[int]Failing{}
	may := map[int]bool{}
	for _, m := range moments {
		for _, f := range m.Order {
			f.Part = place[m.Parts[f.Part].ID]
			if l, seen := least[f.Part]; !seen || f.Tension < l.Tension {
				least[f.Part] = f
			}
		}
		for _, i := range m.MayGive {
			may[place[m.Parts[i].ID]] = true
		}
	}
	o.Order, o.MayGive, o.First = nil, nil, -1
	for i := range o.Parts {
		if f, gives := least[i]; gives {
			o.Order = append(o.Order, f)
		}
		if may[i] {
			o.MayGive = append(o.MayGive, i)
		}
	}
	slices.SortStableFunc(o.Order, func(x, y Failing) int { return cmp.Compare(x.Tension, y.Tension) })
	if len(o.Order) > 0 {
		o.First = o.Order[0].Part
	}
}
