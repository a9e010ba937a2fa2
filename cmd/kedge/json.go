package main

import (
	"kedge/canvas/report"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// The names that a JSON answer says it is of.
const (
	answerFormat  = "kedge-check"
	answerVersion = 1
)

// The members below are documented in json.md; a test compares the two.

type checkDoc struct {
	docHead
	Title    string    `json:"title"`
	Exit     int       `json:"exit"`
	Complete bool      `json:"complete"`
	Level    *string   `json:"level"`
	Rigs     []rigJSON `json:"rigs"`
}

type rigJSON struct {
	ID          string         `json:"id"`
	Name        string         `json:"name"`
	Basis       string         `json:"basis"`
	Status      string         `json:"status"`
	Why         string         `json:"why"`
	Complete    bool           `json:"complete"`
	Level       *string        `json:"level"`
	Casualty    string         `json:"casualty"`
	Resistance  resistanceJSON `json:"resistance"`
	Move        *pullJSON      `json:"to_move"`
	Loosen      *pullJSON      `json:"to_break_loose"`
	Stall       *pullJSON      `json:"at_stall"`
	Moves       bool           `json:"moves"`
	Advantage   *number        `json:"advantage"`
	MotionRatio *number        `json:"motion_ratio"`
	Efficiency  *number        `json:"efficiency"`
	Residual    *number        `json:"residual_n"`
	ResidualOf  *number        `json:"residual_share"`
	Parts       []partJSON     `json:"parts"`
	Worst       *string        `json:"worst"`
	First       *string        `json:"first_to_fail"`
	Order       []failingJSON  `json:"order"`
	MayGive     []string       `json:"may_give_first"`
	Findings    []findingJSON  `json:"findings"`
	Lines       []lineJSON     `json:"lines"`
	People      []personJSON   `json:"people"`
	Stretches   []stretchJSON  `json:"stretches"`
	Nodes       []nodeJSON     `json:"nodes"`
	Slings      []slingJSON    `json:"slings"`
	Zones       []zoneJSON     `json:"zones"`
	Pull        *wholeJSON     `json:"pull"`
	Sum         *sumJSON       `json:"sum,omitempty"`
}

// wholeJSON is the pull that an answer is for.
type wholeJSON struct {
	Long    *number      `json:"way_m"`
	End     number       `json:"followed_m"`
	Stop    string       `json:"stopped_by"`
	Moments []momentJSON `json:"moments"`
	Events  []eventJSON  `json:"events"`
	Rerigs  []rerigJSON  `json:"rerigs"`
	Hauls   []haulJSON   `json:"hauls"`
}

// rerigJSON is a place to stop and rig anew.
type rerigJSON struct {
	Kind     string  `json:"kind"`
	At       number  `json:"at_m"`
	Part     string  `json:"part"`
	Thing    string  `json:"thing"`
	Other    string  `json:"reaches"`
	LimitDeg *number `json:"limit_deg"`
	Drawn    *number `json:"drawn"`
	Worst    *number `json:"worst"`
	WorstAt  *number `json:"worst_at_m"`
}

// eventJSON is something that happens on the way.
type eventJSON struct {
	Kind     string  `json:"kind"`
	At       number  `json:"at_m"`
	AsDrawn  bool    `json:"as_drawn"`
	Part     string  `json:"part"`
	Thing    string  `json:"thing"`
	Other    string  `json:"reaches"`
	LimitDeg *number `json:"limit_deg"`
	From     *int    `json:"from_layer"`
	To       *int    `json:"to_layer"`
}

type haulJSON struct {
	Vehicle string  `json:"vehicle"`
	Line    *number `json:"line_m"`
	Time    *number `json:"time_s"`
	Rests   *int    `json:"rests"`
}

type momentJSON struct {
	At    number       `json:"at_m"`
	Move  *pullJSON    `json:"to_move"`
	Stall *pullJSON    `json:"at_stall"`
	Parts []loadAtJSON `json:"parts"`
}

type loadAtJSON struct {
	ID     string  `json:"id"`
	Status string  `json:"status"`
	Load   *number `json:"load_n"`
	Used   *number `json:"used"`
}

type pullJSON struct {
	Tension *number `json:"tension_n"`
	Along   *number `json:"along_n"`
}

type rangeJSON struct {
	Low    *number `json:"low_n"`
	Likely *number `json:"likely_n"`
	High   *number `json:"high_n"`
}

type resistanceJSON struct {
	rangeJSON
	Planned    *number     `json:"planned_n"`
	PlanOn     string      `json:"plan_on"`
	LowRule    string      `json:"low_rule"`
	HighRule   string      `json:"high_rule"`
	Depth      string      `json:"depth"`
	Confidence string      `json:"surety"`
	Parts      []valueJSON `json:"parts"`
	Rules      []ruleJSON  `json:"rules"`
	Breakaway  rangeJSON   `json:"breakaway"`
}

type ruleJSON struct {
	Rule string `json:"rule"`
	rangeJSON
	Why string `json:"why"`
}

type partJSON struct {
	ID         string      `json:"id"`
	Kind       string      `json:"kind"`
	Thing      string      `json:"thing"`
	Status     string      `json:"status"`
	Why        string      `json:"why"`
	Load       *number     `json:"load_n"`
	Loosen     *number     `json:"to_break_loose_n"`
	AtStall    *number     `json:"at_stall_n"`
	Side       *number     `json:"side_n"`
	Off        *number     `json:"off_axis_deg"`
	Limit      *number     `json:"limit_n"`
	Basis      string      `json:"basis"`
	Preset     bool        `json:"preset"`
	Confidence string      `json:"surety"`
	Used       *number     `json:"used"`
	LoosenUse  *number     `json:"used_to_break_loose"`
	Ultimate   *number     `json:"ultimate_n"`
	UltLikely  *number     `json:"ultimate_likely_n"`
	UltHigh    *number     `json:"ultimate_high_n"`
	ToFailure  *number     `json:"to_failure"`
	LoosenTF   *number     `json:"to_failure_to_break_loose"`
	AtStallTF  *number     `json:"to_failure_at_stall"`
	Angle      *number     `json:"angle_deg"`
	Layer      *int        `json:"layer"`
	Values     []valueJSON `json:"values"`
	AtM        number      `json:"at_m"`
}

type valueJSON struct {
	Name  string  `json:"name"`
	Unit  string  `json:"unit"`
	Value *number `json:"value"`
	Text  string  `json:"text,omitempty"`
}

type failingJSON struct {
	Part    string  `json:"part"`
	Tension *number `json:"tension_n"`
	Beyond  bool    `json:"beyond_stall"`
}

type findingJSON struct {
	ID     string      `json:"id"`
	Level  string      `json:"level"`
	Things []string    `json:"things"`
	Parts  []string    `json:"parts"`
	Values []valueJSON `json:"values"`
	Lacks  []string    `json:"lacks"`
	Travel number      `json:"travel_m"`
}

type lineJSON struct {
	Line    string  `json:"line"`
	Out     *number `json:"out_m"`
	Has     *number `json:"has_m"`
	Layer   *int    `json:"layer"`
	Wraps   *number `json:"wraps_left"`
	Missing *number `json:"missing_m"`
}

type personJSON struct {
	Person string     `json:"person"`
	At     pointJSON  `json:"at"`
	Zoned  bool       `json:"zones_computed"`
	Partly bool       `json:"zones_missing"`
	Inside []string   `json:"inside"`
	Spans  []spanJSON `json:"inside_along"`
	Out    *pointJSON `json:"way_out"`
}

type spanJSON struct {
	From number `json:"from_m"`
	To   number `json:"to_m"`
}

type pointJSON struct {
	X number `json:"x_m"`
	Y number `json:"y_m"`
}

type stretchJSON struct {
	Part     string        `json:"part"`
	Line     string        `json:"line"`
	Length   *number       `json:"length_m"`
	Refused  bool          `json:"refused"`
	Contacts []contactJSON `json:"contacts"`
	Clear    *number       `json:"clearance_m"`
	ClearOf  string        `json:"clearance_to"`
}

type contactJSON struct {
	Obstacle string  `json:"obstacle"`
	From     *number `json:"from_m"`
	To       *number `json:"to_m"`
	Length   *number `json:"length_m"`
}

type nodeJSON struct {
	Thing string    `json:"thing"`
	At    pointJSON `json:"at"`
	Z     number    `json:"z_m"`
	Loose bool      `json:"loose"`
	Angle *number   `json:"angle_deg"`
}

type slingJSON struct {
	Sling string  `json:"sling"`
	Hitch string  `json:"hitch"`
	Opens *number `json:"opens_deg"`
	Reach *number `json:"reach_m"`
	Short *number `json:"short_by_m"`
}

type zoneJSON struct {
	Kind    string      `json:"kind"`
	Thing   string      `json:"thing"`
	Fact    string      `json:"fact"`
	Radius  *number     `json:"radius_m"`
	Outline []pointJSON `json:"outline"`
}

type sumJSON struct {
	Part  string     `json:"part"`
	Steps []stepJSON `json:"steps"`
}

type stepJSON struct {
	Formula  string        `json:"formula"`
	Result   valueJSON     `json:"result"`
	Operands []operandJSON `json:"operands"`
}

type operandJSON struct {
	valueJSON
	From string `json:"from"`
	Fact string `json:"fact"`
}

// checkJSON is the answer as JSON: indented, members in a fixed order, a line
// feed at the end.
func checkJSON(p *plan.Plan, answers []answer, status int) (string, error) {
	top := checkDoc{
		docHead: report.HeadOf(answerFormat, answerVersion),
		Title:   p.Title, Exit: status, Complete: true, Rigs: make([]rigJSON, len(answers)),
	}
	highest, has := part.Notice, false
	for i := range answers {
		top.Rigs[i] = rigOf(&answers[i])
		top.Complete = top.Complete && answers[i].a.Complete
		if l, ok := answers[i].a.Level(); ok {
			highest, has = max(highest, l), true
		}
	}
	top.Level = levelOf(highest, has)
	return encoded(top)
}

func levelOf(l part.Level, has bool) *string {
	if !has {
		return nil
	}
	s := l.String()
	return &s
}

func rigOf(ans *answer) rigJSON {
	a := ans.a
	level, has := a.Level()
	r := rigJSON{
		ID: string(ans.rig), Name: ans.name, Basis: a.Basis(),
		Status: statusOf(a), Why: a.Why, Complete: a.Complete, Level: levelOf(level, has),
		Casualty: string(a.Casualty), Resistance: resistanceOf(&a.Resistance),
		Move: pullOf(a.Move), Loosen: pullOf(a.Loosen), Stall: pullOf(a.Stall), Moves: a.Moves,
		Advantage: positive(a.Advantage), MotionRatio: positive(a.MotionRatio), Efficiency: positive(a.Efficiency),
		Residual: known(a.ResidualN, a.Status == part.Within), ResidualOf: known(a.ResidualOfMax, a.Status == part.Within),
		Parts: report.Each(a.Parts, partOf), Worst: partAt(a, a.Worst), First: partAt(a, a.First),
		Order:    report.Each(a.Order, func(f *solver.Failing) failingJSON { return failingOf(a, f) }),
		MayGive:  report.Each(a.MayGive, func(i *int) string { return a.Parts[*i].ID }),
		Findings: report.Each(a.Findings, ans.findingOf), Lines: report.Each(a.Lines, lineOf), People: report.Each(a.People, personOf),
		Stretches: report.Each(a.Stretches, stretchOf), Nodes: report.Each(a.Nodes, nodeOf), Slings: report.Each(a.Slings, slingOf), Zones: report.Each(a.Zones, zoneOf),
	}
	if ans.pull != nil {
		r.Pull = ans.wholeOf()
	}
	if ans.derivation != nil {
		r.Sum = &sumJSON{Part: ans.why, Steps: report.Each(ans.derivation.Steps, stepOf)}
	}
	return r
}

func (ans *answer) wholeOf() *wholeJSON {
	w := ans.pull
	return &wholeJSON{Long: positive(w.LongM), End: number(w.EndM), Stop: w.Stop, Moments: report.Each(w.Moments, func(m *solver.Moment) momentJSON {
		return momentJSON{At: number(m.AtM), Move: pullOf(m.Move), Stall: pullOf(m.Stall), Parts: report.Each(m.Parts, func(p *part.Part) loadAtJSON {
			q := partOf(p)
			return loadAtJSON{ID: q.ID, Status: q.Status, Load: q.Load, Used: q.Used}
		})}
	}), Events: report.Each(w.Events, eventOf), Rerigs: report.Each(w.Rerigs, rerigOf), Hauls: report.Each(w.Hauls(ans.plan, ans.rig), haulOf)}
}

func haulOf(h *travel.Haul) haulJSON {
	out := haulJSON{Vehicle: string(h.Vehicle), Line: known(h.Line, h.Known), Time: known(h.Time, h.Known)}
	if h.Known {
		out.Rests = &h.Rests
	}
	return out
}

func rerigOf(r *travel.Rerig) rerigJSON {
	told := r.Kind == travel.OverLimit || r.Kind == travel.OffWayBeyond
	return rerigJSON{Kind: string(r.Kind), At: number(r.AtM), Part: r.Part, Thing: string(r.Thing), Other: string(r.Other), LimitDeg: positive(r.LimitDeg),
		Drawn: known(r.Drawn, told), Worst: known(r.Worst, told && !r.WorstIsOpen), WorstAt: known(r.WorstM, told)}
}

func eventOf(e *travel.Happening) eventJSON {
	j := eventJSON{Kind: string(e.Kind), At: number(e.AtM), AsDrawn: e.Start, Part: e.Part, Thing: string(e.Thing), Other: string(e.Other), LimitDeg: positive(e.LimitDeg)}
	if e.Kind == travel.LayerChange {
		j.From, j.To = &e.From, &e.To
	}
	return j
}

// statusOf is the state of an equilibrium: "computed" where a part would be
// within its limit, which an equilibrium has none of.
func statusOf(a *solver.Assessment) string {
	if a.Status == part.Within {
		return "computed"
	}
	return a.Status.String()
}

func partAt(a *solver.Assessment, i int) *string {
	if i < 0 || i >= len(a.Parts) {
		return nil
	}
	return &a.Parts[i].ID
}
