package solver

import (
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/zone"
	"slices"
)

// Assessment is everything Kedge knows of one rig of a plan, as drawn. It is
// made anew for every plan and never changed afterwards; slices may be shared
// with nobody who writes.
type Assessment struct {
	Rig    plan.ID
	Status part.Status // of the equilibrium: Within stands for "computed"
	Why    string      // id of the finding that kept it from being computed

	// Complete is true only if every part was computed and has a limit, and
	// nothing in the plan was beyond this version.
	Complete bool

	Lifting    bool       // its shares count on the lifting basis: as the plan says, or because the load stands past balance
	Casualty   plan.ID    // the vehicle to be moved; empty: none on this rig
	Resistance Resistance // of the casualty along its way out
	Move       Pull       // what the planned resistance takes
	Loosen     Pull       // what breaking the casualty loose takes; Move where that asks no more
	Stall      Pull       // the most the winch gives
	Moves      bool       // the winch can give what the planned resistance takes

	Advantage     float64 // force along the way out over winch line tension; 0: not computed
	MotionRatio   float64 // line hauled per metre of motion; 0: not computed
	Efficiency    float64 // Advantage over MotionRatio; 0: not computed
	ResidualN     float64 // largest unbalanced force left by the solver, newtons
	ResidualOfMax float64 // the same as a share of the largest tension

	Parts    []part.Part    // in the order of the rig: lines from the winch, then what holds them
	Findings []part.Finding // most severe first, no doubles
	Order    []Failing      // parts in the order in which they give as the winch pulls to stall
	MayGive  []int          // parts under load whose ultimate is not known: any may give first
	Worst    int            // index of the part with the highest used share; -1: none known
	First    int            // index of the part that gives first; -1: none known

	Stretches []part.Stretch
	Nodes     []part.Node
	Slings    []part.SlingShape
	Zones     []part.Zone
	People    []PersonAt

	Leaves []plan.ID // what the casualty's body lies in and moves out of

	ZonesMissing bool // a loaded part has no zone

	around zone.PeopleIn // what people are judged by, without people
	Lines  []LineUse
}

// Pull is the winch line tension at one of the two pulls.
type Pull struct {
	Known   bool
	Tension quantity.Force // at the first winch, on the drum
	Along   quantity.Force // on the casualty along its way out
}

// Resistance is the force along the way out that just moves the casualty.
type Resistance struct {
	part.Range
	PlanOn            string         // plan.PlanHigh, …
	Planned           quantity.Force // the one the pull is planned on; 0: not known
	LowRule, HighRule string         // word ids of the rules behind the ends
	Depth             string         // plan.DepthHub, …
	Parts             []part.Value   // what it is made of
	Rules             []RuleRange    // the rule sets side by side
	Breakaway         part.Range     // the pull that frees it, above the running resistance
	Confidence        part.Confidence
}

// RuleRange is what one set of rules says the resistance is.
type RuleRange struct {
	Rule string // word id: "physics", "handbook", "common practice", "measured"
	part.Range
	Why string // word id of the reason if it was not computed
}

// Failing is one part that gives on the way to stall.
type Failing struct {
	Part    int            // index into Parts
	Tension quantity.Force // winch line tension at which it gives, by its low ultimate
	Beyond  bool           // only beyond what the winch gives
}

// ZonesPartly reports whether zones are missing: the rig was not computed, or a
// loaded part has none.
func (a *Assessment) ZonesPartly() bool {
	return a.Status == part.Refused || a.Status == part.NotUnderstood || a.ZonesMissing
}

// Looser reports whether breaking the casualty loose asks more of some part than
// moving it does.
func (a *Assessment) Looser() bool {
	for i := range a.Parts {
		if a.Parts[i].Looser() {
			return true
		}
	}
	return false
}

// Basis is the basis that the shares count on.
func (a *Assessment) Basis() string {
	if a.Lifting {
		return plan.BasisLifting
	}
	return plan.BasisPulling
}

// PersonAt is where a person stands with respect to the zones.
type PersonAt struct {
	Person   plan.ID
	At       plan.Point
	Zoned    bool            // zones were computed; if not, nothing is known of where the person stands
	Partly   bool            // zones are missing, and being inside none says little
	Inside   []part.ZoneKind // kinds of zone it stands in, in the order of the kinds
	Out      plan.Point      // nearest place outside the drawn zones, if OutKnown
	OutKnown bool
	Spans    []Span // of a whole pull: where along the travel it is inside one
}

// Stand is where somebody would stand with respect to the zones. Zones do not
// depend on people: nothing is computed anew.
func (a *Assessment) Stand(p *plan.Person) PersonAt {
	in := a.around
	in.People = []plan.Person{*p}
	return a.personAt(zone.People(in, nil)[0])
}

func (a *Assessment) personAt(s zone.Standing) PersonAt {
	return PersonAt{Person: s.Person, At: s.At, Zoned: len(a.Zones) > 0, Partly: a.ZonesPartly(), Inside: s.Inside, Out: s.Out, OutKnown: s.OutKnown}
}

// LineUse is how much of a line the drawn path takes.
type LineUse struct {
	Line    plan.ID
	Out     quantity.Length // along its stretches
	Has     quantity.Length // its length; 0: not known
	Layer   int             // layer the drum pulls on; 0: not known
	Wraps   float64         // wraps left on the drum, if Layer is known
	Missing quantity.Length // line it lacks, wraps included; 0: enough or not known
	Held    bool            // a winch pays it out as a hold-back: it hauls nothing
}

// Part finds a part by its id.
func (a *Assessment) Part(id string) (*part.Part, bool) {
	for i := range a.Parts {
		if a.Parts[i].ID == id {
			return &a.Parts[i], true
		}
	}
	return nil, false
}

// PartsBy are the parts in an order, [part.WorstFirst] for one; parts that are
// equal in it stay as in the rig.
func (a *Assessment) PartsBy(order func(p, q *part.Part) int) []*part.Part {
	parts := make([]*part.Part, len(a.Parts))
	for i := range parts {
		parts[i] = &a.Parts[i]
	}
	slices.SortStableFunc(parts, order)
	return parts
}

// Level is the highest level among the findings, and false if there are none.
func (a *Assessment) Level() (part.Level, bool) {
	if len(a.Findings) == 0 {
		return part.Notice, false
	}
	return a.Findings[0].Level, true
}
