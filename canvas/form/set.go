package form

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"kedge/canvas/words"
	"kedge/solver/effort"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// The texts of a yes-or-no field.
const (
	Yes = "yes"
	No  = "no"
)

// ErrNoMember tells that a thing, or a member of it, is not there to be edited.
var ErrNoMember = errors.New("form: no such member")

// Set is p with a member of a thing as typed in a field, and the name of
// that edit, "Mass of Casualty". The thing and member are those of a [Field];
// of a rating also the member "…/basis". Numbers are read as package quantity
// reads them, a bare one in the field's unit; ± and ranges go to the thing's
// doubts. An empty text takes the value away: not known, or computed. What is
// typed is no longer a preset, even if it is the same figure: it was read off.
// A text that says what is there already leaves it as it is, to the last digit.
//
// A text that cannot be taken gives p itself and an error whose sentence is for
// the person: a [*quantity.ParseError] or a refusal of package plan.
func Set(p *plan.Plan, rig, thing plan.ID, member, given string, w *words.Words) (*plan.Plan, string, error) {
	t, ok := Find(p, rig, thing)
	if !ok {
		return p, "", fmt.Errorf("%w: thing %q", ErrNoMember, thing)
	}
	m, basis, ok := memberOf(t, member)
	if !ok {
		return p, "", fmt.Errorf("%w: %q of %q", ErrNoMember, member, thing)
	}
	if !utf8.ValidString(given) || strings.ContainsFunc(given, func(r rune) bool { return r < ' ' && r != '\n' && r != '\t' && r != '\r' }) {
		return p, "", refusedText(strings.ToValidUTF8(given, "?"), quantity.NotNumber, noText)
	}
	name := memberName(p, rig, t, m, w)
	e := editor{p: p, rig: rig, t: t, w: w, sys: w.System()}
	q, err := editThing(p, t, func(v reflect.Value) error {
		if err := e.put(v, m, basis, given); err != nil {
			return err
		}
		if !e.asProposed {
			m.leavePresets(v)
		}
		return nil
	})
	if err != nil {
		return p, "", err
	}
	if reflect.DeepEqual(p, q) {
		return p, name, nil
	}
	if err := plan.Validate(q); err != nil {
		return p, "", Placeless(err)
	}
	return q, name, nil
}

// Placeless takes the JSON place out of a refusal: the person knows which field
// was typed in.
func Placeless(err error) error {
	r := (*refusal.Error)(nil)
	if !errors.As(err, &r) {
		return err
	}
	e := *r
	e.Where = ""
	return &e
}

// editor changes one member of one thing.
type editor struct {
	p   *plan.Plan
	rig plan.ID
	t   Thing
	w   *words.Words
	sys quantity.System

	asProposed bool // the figure was not touched: a preset stays one
}

func (e *editor) put(v reflect.Value, m member, basis bool, given string) error {
	if m.presence != "" {
		return e.presence(v, m, given)
	}
	to, ok := openPath(v, pathSteps(m.path))
	if !ok {
		return fmt.Errorf("%w: %q", ErrNoMember, m.path)
	}
	trimmed := strings.TrimSpace(given)
	switch m.unit {
	case unitText:
		to.SetString(trimmed)
	case unitLines:
		to.SetString(strings.ReplaceAll(given, "\r\n", "\n"))
	case unitBool:
		yes, err := yesOrNo(given)
		if err != nil {
			return err
		}
		to.SetBool(yes)
	case unitChoice, unitPort, unitID, unitIndex:
		return e.choose(to, m, trimmed)
	case unitOutline, unitPairs, unitJoins, unitStages, unitPorts, unitWords:
		return e.list(to, m, given)
	case unitRating:
		return e.rating(v, to, m, basis, trimmed)
	default:
		return e.number(v, to, m, trimmed)
	}
	return nil
}

// number puts a figure and its doubt.
func (e *editor) number(v, to reflect.Value, m member, given string) error {
	if a, ok := v.Addr().Interface().(*plan.Anchor); ok && m.path == "set_bearing_deg" {
		defer func() { a.SetKnown = given != "" }()
	}
	if given == "" {
		to.SetZero()
		m.setDoubt(v, nil)
		return nil
	}
	x, err := m.unit.read(given, e.sys, m.signed, m.doubts(e.t))
	if err != nil {
		return err
	}
	if x.value == 0 && !m.zero {
		return refusedText(given, quantity.OutOfRange, notZero)
	}
	if e.same(m, x, to) {
		return nil // the same as it was shown
	}
	if err := e.massOf(m, given, x); err != nil {
		return err
	}
	if to.CanInt() {
		to.SetInt(int64(x.value))
		return nil
	}
	if math.IsNaN(x.value) || math.IsInf(x.value, 0) {
		return refusedText(given, quantity.OutOfRange, noFigure)
	}
	if high, ok := openPath(v, pathSteps(m.until)); m.until != "" && ok && !x.single() {
		setFigure(to, x.low)
		setFigure(high, x.high)
		return nil
	}
	setFigure(to, x.value)
	m.setDoubt(v, doubtOf(x))
	return nil
}

// massOf asks for the unit of a mass typed without one that no vehicle, or its load,
// has in the unit of the field.
func (e *editor) massOf(m member, given string, x entry) error {
	least, heavy := map[string]quantity.Mass{"mass_kg": effort.LeastMass, "load_kg": effort.LeastLoad}[m.path], " t"
	if _, ok := e.t.At.(*plan.Vehicle); !ok || m.unit != unitMass || x.value == 0 || x.value >= float64(least) || hasUnit(given) {
		return nil
	}
	if e.sys.Mass() == quantity.InPounds {
		heavy = " short ton"
	}
	return refusedText(given, quantity.UnitMissing, whichMass, given+heavy, withUnit(given, unitMass.symbol(e.sys)))
}

// figureOf is the figure of a member, false if the plan says that it is not known.
func figureOf(v reflect.Value) (x float64, known bool) {
	if m, ok := v.Interface().(interface{ Figure() (float64, bool) }); ok {
		return m.Figure()
	}
	return v.Float(), true
}

func setFigure(to reflect.Value, x float64) {
	if m, ok := to.Addr().Interface().(interface{ SetFigure(float64) }); ok {
		m.SetFigure(x)
		return
	}
	to.SetFloat(x)
}

// doubtOf is what a plan keeps of ± or a range; nil for a single figure.
func doubtOf(x entry) *plan.Doubt {
	if x.single() {
		return nil
	}
	return &plan.Doubt{Low: x.low, High: x.high, PlusMinus: x.plusMinus, Likely: x.likely}
}

// ratingWords are the ways of saying what a rating means, longest first where
// one ends in another.
var ratingWords = []struct {
	word  string
	basis plan.RatingBasis
}{
	{"working load limit", plan.BasisWorking}, {"working load", plan.BasisWorking}, {"working", plan.BasisWorking}, {"wll", plan.BasisWorking},
	{"swl", plan.BasisWorking}, {"breaking strength", plan.BasisBreaking}, {"breaking load", plan.BasisBreaking}, {"breaking", plan.BasisBreaking},
	{"mbs", plan.BasisBreaking}, {"mbl", plan.BasisBreaking}, {"not said", plan.BasisUnsaid},
}

// rating puts a force, or what it means, or both: "40 kN working".
//
// Whoever says what a preset means has not read its figure: it stays a preset.
func (e *editor) rating(v, to reflect.Value, m member, basis bool, given string) error {
	r, ok := to.Addr().Interface().(*plan.Rating)
	if !ok {
		return fmt.Errorf("%w: %q", ErrNoMember, m.path)
	}
	e.asProposed = basis
	if basis {
		s, err := matchChoice(given, basisChoices(e.w), false)
		if err == nil {
			r.Basis = plan.RatingBasis(s)
		}
		return err
	}
	if given == "" {
		if r.Known() { // what a figure means goes with it; a meaning chosen first stays
			r.Force, r.Basis = 0, plan.BasisUnsaid
		}
		m.setDoubt(v, nil)
		return nil
	}
	figure, meaning, said := ratingFigure(given)
	e.asProposed = figure == ""
	if figure != "" {
		x, err := m.unit.read(figure, e.sys, false, m.doubts(e.t))
		switch {
		case err != nil:
			return err
		case x.value == 0:
			return refusedText(given, quantity.OutOfRange, noRating)
		case !e.same(m, x, to):
			// Whoever types another figure over a preset has not said what the
			// new one means. "Working" would be the program's word, so it goes;
			// unsaid counts as breaking, the lower allowance.
			if m.preset(e.t) && r.Basis == plan.BasisWorking {
				r.Basis = plan.BasisUnsaid
			}
			r.Force = quantity.Force(x.value)
			m.setDoubt(v, doubtOf(x))
		}
	}
	if said {
		r.Basis = meaning
	}
	return nil
}

// ratingFigure parts what was typed of a rating into its figure and what it
// means; said tells that it says so.
func ratingFigure(given string) (figure string, meaning plan.RatingBasis, said bool) {
	for _, k := range ratingWords {
		if n := len(given) - len(k.word); n >= 0 && strings.EqualFold(given[n:], k.word) {
			return strings.TrimSpace(given[:n]), k.basis, true
		}
	}
	return given, plan.BasisUnsaid, false
}

// same reports whether a figure says what a member is: to the last digit, or as it is
// shown. One typed to more digits than are shown is another.
func (e *editor) same(m member, x entry, to reflect.Value) bool {
	typed, shown := m.unit.exact(x, e.sys), m.show(to, e.t, e.sys)
	if y, err := m.unit.read(shown, e.sys, true, true); err == nil {
		shown = m.unit.exact(y, e.sys) // without a zero that is there for reading alone
	}
	return typed == shown || typed == m.full(to, e.t, e.sys)
}

// presence makes or takes away a part of a vehicle.
func (e *editor) presence(v reflect.Value, m member, given string) error {
	if m.presence == presencePlace {
		return e.knowPlace(v, m, given)
	}
	x, ok := v.Addr().Interface().(*plan.Vehicle)
	if !ok {
		return fmt.Errorf("%w: %q", ErrNoMember, m.path)
	}
	if m.presence == "add-point" {
		if given = strings.TrimSpace(given); given != "" {
			addPoint(x, given)
		}
		return nil
	}
	yes, err := yesOrNo(given)
	if err != nil {
		return err
	}
	switch m.presence {
	case "casualty":
		if !yes {
			x.Stuck = nil
			x.Presets, x.Doubts = without(x.Presets, "casualty"), withoutDoubts(x.Doubts, "casualty")
		} else if x.Stuck == nil {
			x.Stuck = &plan.Stuck{}
		}
	case "winch":
		if !yes {
			x.Winch = nil
			x.Doubts = withoutDoubts(x.Doubts, "winch")
		} else if x.Winch == nil {
			x.Winch = &plan.Winch{Ahead: x.Length / 2, Left: plan.Known(quantity.Length(0)), Axis: plan.Known(quantity.Degrees(0))}
		}
	case "point":
		if !yes {
			id := plan.ID(m.name())
			x.Recovery = slices.DeleteFunc(slices.Clone(x.Recovery), func(q plan.RecoveryPoint) bool { return q.ID == id })
			if len(x.Recovery) == 0 {
				x.Recovery = nil
			}
			x.Doubts = withoutDoubts(x.Doubts, "recovery_points."+m.name())
		}
	}
	return nil
}

// without takes the members of a part out of a list of presets.
func without(presets []string, part string) []string {
	left := slices.DeleteFunc(slices.Clone(presets), func(n string) bool {
		return strings.HasPrefix(n, part+".") || strings.HasPrefix(n, part+"/")
	})
	if len(left) == 0 {
		return nil
	}
	return left
}

func withoutDoubts(doubts []plan.Doubt, part string) []plan.Doubt {
	left := slices.DeleteFunc(slices.Clone(doubts), func(d plan.Doubt) bool { return strings.HasPrefix(d.Member, part+".") })
	if len(left) == 0 {
		return nil
	}
	return left
}

// addPoint adds a recovery point. Where it sits is read from its name as far as
// that says front or rear, left or right; nothing else of it is known.
func addPoint(v *plan.Vehicle, name string) {
	q := plan.RecoveryPoint{Name: name}
	for n := len(v.Recovery) + 1; ; n++ {
		if q.ID = plan.ID("P" + strconv.Itoa(n)); v.RecoveryPoint(q.ID) == nil {
			break
		}
	}
	lower := strings.ToLower(name)
	switch {
	case strings.Contains(lower, "rear"):
		q.Ahead, q.Axis = -v.Length/2, plan.Known(quantity.Degrees(180))
	case strings.Contains(lower, "front"):
		q.Ahead, q.Axis = v.Length/2, plan.Known(quantity.Degrees(0))
	default:
		q.Ahead = v.Length / 2
	}
	switch {
	case strings.Contains(lower, "left"):
		q.Left = plan.Known(v.Width / 4)
	case strings.Contains(lower, "right"):
		q.Left = plan.Known(-v.Width / 4)
	}
	v.Recovery = append(slices.Clone(v.Recovery), q)
}

// yesOrNo reads the text of a yes-or-no field; empty is no.
func yesOrNo(given string) (bool, error) {
	switch strings.ToLower(strings.TrimSpace(given)) {
	case Yes, "y", "true":
		return true, nil
	case No, "n", "false", "":
		return false, nil
	}
	return false, refusedText(given, quantity.NotNumber, yesNo, Yes, No)
}

// show is a member's value as it would be typed; empty if it is not entered.
func (m member) show(v reflect.Value, t Thing, sys quantity.System) string {
	return m.printed(v, t, sys, m.unit.show)
}

// full is the value of a member to the last digit.
func (m member) full(v reflect.Value, t Thing, sys quantity.System) string {
	return m.printed(v, t, sys, m.unit.exact)
}

func (m member) printed(v reflect.Value, t Thing, sys quantity.System, figure func(entry, quantity.System) string) string {
	switch m.unit {
	case unitText, unitLines, unitChoice, unitID:
		return v.String()
	case unitBool:
		yes := v.Kind() == reflect.Bool && v.Bool() || v.Kind() == reflect.Pointer && !v.IsNil() || v.Kind() == reflect.Struct
		if yes {
			return Yes
		}
		return No
	case unitIndex:
		return strconv.FormatInt(v.Int(), 10)
	case unitOutline, unitPairs, unitJoins, unitStages, unitPorts, unitWords:
		return showList(v, sys)
	case unitPort:
		port, _ := v.Interface().(plan.Port)
		return port.String()
	case unitRating:
		v = v.FieldByName("Force")
	case unitCount:
		if v.Int() == 0 && !m.zero {
			return ""
		}
		return strconv.FormatInt(v.Int(), 10)
	}
	x, known := figureOf(v)
	if !known {
		return ""
	}
	if a, ok := t.At.(*plan.Anchor); ok && m.path == "set_bearing_deg" && !a.SetKnown {
		return ""
	}
	e := entry{value: x, low: x, high: x}
	if list := t.doubts(); list != nil && m.unit.doubtful() {
		if d, ok := plan.DoubtOf(*list, m.doubtMember()); ok {
			e.low, e.high = d.Around(x)
			e.plusMinus, e.likely = d.PlusMinus, d.Likely
		}
	}
	if x == 0 && !m.zero && e.single() {
		return ""
	}
	return figure(e, sys)
}

func basisOf(v reflect.Value) string {
	r, _ := v.Interface().(plan.Rating)
	return string(r.Basis)
}

func valueOf(p any) reflect.Value { return reflect.ValueOf(p).Elem() }

// confidenceWord is a confidence in the words of the screen.
func confidenceWord(w *words.Words, s string) string { return w.Label("surety-" + s) }
