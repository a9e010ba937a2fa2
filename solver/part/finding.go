package part

import (
	"cmp"
	"slices"

	"kedge/solver/plan"
)

// Level is the severity of a finding: the signal words of ISO 3864 and
// ANSI Z535.
type Level int

// The levels, least severe first.
const (
	Notice Level = iota
	Caution
	Warning
	Danger
)

var levelNames = [...]string{"NOTICE", "CAUTION", "WARNING", "DANGER"}

// String is the signal word.
func (l Level) String() string {
	if l < 0 || int(l) >= len(levelNames) {
		return levelNames[Danger]
	}
	return levelNames[l]
}

// Unit tells what a [Value] is, so that words can print it.
type Unit int

// The units of values, each SI.
const (
	UnitNone    Unit = iota // a plain number
	UnitForce               // N, printed rounded up: a load
	UnitLimit               // N, printed rounded down: a limit, a hold
	UnitLength              // m
	UnitMass                // kg
	UnitAngle               // degrees
	UnitShare               // 1 = 100 %, printed rounded up
	UnitEnergy              // J
	UnitSpeed               // m/s
	UnitTime                // s
	UnitCurrent             // A
	UnitMoment              // N·m
	UnitCount               // a whole number
	UnitText                // Value.Text is a word id
	UnitThing               // Value.Text is the id of a thing or part
	UnitBearing             // degrees clockwise from north
	UnitFactor              // a factor, printed ×0.85
)

// Value is a named number (or word) inside a finding, a sum or a part.
type Value struct {
	Name string
	Unit Unit
	X    float64
	Text string
}

// Finding is one piece of advice.
type Finding struct {
	ID       string // stable rule id, e.g. "line-bears"
	Level    Level
	Things   []plan.ID // what it is about; the flag stands at the first
	Parts    []string  // ids of the parts it is about
	Values   []Value   // the numbers of its sentences
	Lacks    []Lack    // what its rule would have to know to decide
	Remedies []Remedy  // what a button could do about it
	Travel   float64   // metres of travel at which it holds; 0: as drawn
}

// Lack is a member of the plan that a rule needs and does not have.
type Lack struct {
	Thing  plan.ID // whose member; empty: the ground's
	Member string  // its JSON name below the thing, "winch.flange_diameter_m"; parts of lists by id, "recovery_points.front.height_m"
	Rule   string  // id of the finding that could not be decided
}

// NotDecidedID is the finding of a rule that lacks one of its own inputs.
const NotDecidedID = "not-decided"

// NotDecided says that a rule could not decide for want of members of the plan:
// what it guards against may be there or not. Findings about one thing are
// joined by [SortFindings]. thing is what the rule is about; empty: the ground.
// On a nil found it does nothing.
func NotDecided(found *[]Finding, rule string, thing plan.ID, lacks ...Lack) {
	if found == nil || len(lacks) == 0 {
		return
	}
	f := Finding{ID: NotDecidedID, Level: Caution, Lacks: make([]Lack, 0, len(lacks))}
	if thing != "" {
		f.Things = []plan.ID{thing}
	}
	for _, l := range lacks {
		l.Rule = rule
		f.Lacks = append(f.Lacks, l)
	}
	f.Remedies = []Remedy{TypeMissing(lacks[0])}
	*found = append(*found, f)
}

// TypeMissing is the remedy that types a member which a rule lacks.
func TypeMissing(l Lack) Remedy {
	return Remedy{Do: "type-missing", Thing: l.Thing, Value: Value{Name: "member", Unit: UnitText, Text: l.Member}}
}

// join takes over what another finding of the same key lacks.
func (f *Finding) join(g *Finding) {
	for _, l := range g.Lacks {
		if !slices.Contains(f.Lacks, l) {
			f.Lacks = append(f.Lacks[:len(f.Lacks):len(f.Lacks)], l)
		}
	}
}

// Remedy is an edit that would clear a finding, for a button.
type Remedy struct {
	Do    string // word id of the edit: "turn-vehicle", "cover", "longer-sling", …
	Thing plan.ID
	Value Value
}

// Key tells findings apart: the rule and what it is about.
func (f Finding) Key() string {
	k := f.ID
	for _, t := range f.Things {
		k += " " + string(t)
	}
	for _, p := range f.Parts {
		k += " " + p
	}
	return k
}

// ranked is a finding with what it is sorted by, asked for once.
type ranked struct {
	*Finding
	rank float64
	mark uint64
	at   int // place in the list
}

// compare orders findings: the most severe first, then by what rank says is
// read first, then by rule and by what it is about; of those that are alike in all
// of it the first stays first.
func (f *ranked) compare(g *ranked) int {
	if c := cmp.Compare(g.Level, f.Level); c != 0 {
		return c
	}
	if c := cmp.Compare(f.rank, g.rank); c != 0 {
		return c
	}
	if c := cmp.Compare(f.ID, g.ID); c != 0 {
		return c
	}
	if c := slices.Compare(f.Things, g.Things); c != 0 {
		return c
	}
	return cmp.Or(slices.Compare(f.Parts, g.Parts), cmp.Compare(f.at, g.at))
}

// mark is the same for findings of one key, and mostly another for others.
func (f *Finding) mark() uint64 {
	m := uint64(0)
	add := func(s string) {
		if n := len(s); n > 0 {
			m = m*1000003 + uint64(n)<<16 + uint64(s[n/2])<<8 + uint64(s[n-1])
		}
	}
	add(f.ID)
	for _, t := range f.Things {
		add(string(t))
	}
	for _, p := range f.Parts {
		add(p)
	}
	return m
}

// same reports whether two findings have one key.
func (f *Finding) same(g *Finding) bool {
	return f.ID == g.ID && slices.Equal(f.Things, g.Things) && slices.Equal(f.Parts, g.Parts)
}

// spread makes the upper bits of a mark times it hang on all of them: 2^64 over the
// golden ratio.
const spread = 0x9E3779B97F4A7C15

// SortFindings puts the most severe first, then those of the lowest rank, then
// in the order of id and things, and drops doubles (the more severe of two with
// one key stays, and takes over what the other lacks). The list itself is sorted.
func SortFindings(fs []Finding, rank func(*Finding) float64) []Finding {
	order := make([]ranked, len(fs))
	for i := range fs {
		order[i] = ranked{&fs[i], rank(&fs[i]), fs[i].mark(), i}
	}
	slices.SortFunc(order, func(a, b ranked) int { return a.compare(&b) })
	kept := 0           // those before it stay, doubles come behind them
	var seen [64]uint64 // a bit for each mark among them, mostly its own
next:
	for i := range order {
		f := order[i]
		word, bit := &seen[f.mark*spread>>58], uint64(1)<<(f.mark*spread>>52&63)
		for k := 0; *word&bit != 0 && k < kept; k++ {
			if order[k].mark == f.mark && order[k].same(f.Finding) {
				order[k].join(f.Finding)
				continue next
			}
		}
		*word |= bit
		order[kept], order[i] = f, order[kept]
		kept++
	}
	for i := range kept { // what lay where it goes lies now where that one came from
		from := order[i].at
		for from < i {
			from = order[from].at
		}
		fs[i], fs[from] = fs[from], fs[i]
	}
	return fs[:kept:kept]
}

// Concerns reports whether a finding is about a part: one that it names or, where it names
// none, one of the first of its things.
func (f *Finding) Concerns(p *Part) bool {
	return slices.Contains(f.Parts, p.ID) || len(f.Parts) == 0 && len(f.Things) > 0 && f.Things[0] == p.Thing
}

// About fills in what a finding is about and copies of its values: mostly in one
// piece of memory, for many are raised. An empty thing or part is none.
func (f *Finding) About(thing plan.ID, partID string, values []Value) {
	var m *about
	n := len(values)
	switch {
	case n == 0:
		m = new(about)
	case n <= 2:
		w := new(struct {
			about
			values [2]Value
		})
		m, f.Values = &w.about, w.values[:n:n]
	case n <= 5:
		w := new(struct {
			about
			values [5]Value
		})
		m, f.Values = &w.about, w.values[:n:n]
	default:
		m, f.Values = new(about), make([]Value, n)
	}
	copy(f.Values, values)
	if thing != "" {
		m.thing[0], f.Things = thing, m.thing[:]
	}
	if partID != "" {
		m.part[0], f.Parts = partID, m.part[:]
	}
}

// about is room for what most findings are about.
type about struct {
	thing [1]plan.ID
	part  [1]string
}

// Room is memory for what the findings of one rule are about, for as many as it is
// made for: a rule that speaks of one part after another takes it once.
type Room []struct {
	about
	values [5]Value
	remedy [1]Remedy
}

// About is [Finding.About] in this room, with what would mend it, if anything does. Of
// more than five values, or past the room's end, the finding has memory of its own.
func (r *Room) About(f *Finding, thing plan.ID, partID string, remedy *Remedy, values ...Value) {
	n := len(*r)
	if n == cap(*r) || len(values) > 5 || thing == "" {
		f.About(thing, partID, values)
		if remedy != nil {
			f.Remedies = []Remedy{*remedy}
		}
		return
	}
	*r = (*r)[:n+1]
	m := &(*r)[n]
	m.thing[0], f.Things = thing, m.thing[:]
	if partID != "" {
		m.part[0], f.Parts = partID, m.part[:]
	}
	if len(values) > 0 {
		f.Values = append(m.values[:0:len(values)], values...)
	}
	if remedy != nil {
		m.remedy[0], f.Remedies = *remedy, m.remedy[:]
	}
}

// Rule documents a finding: every finding that a package can raise has one.
type Rule struct {
	ID     string
	Levels []Level  // the levels it can have
	Fact   string   // id of the handbook row it rests on; empty: a rule of the program, see Why
	Why    string   // source or reason, one line
	Values []string // names of the values it carries
}
