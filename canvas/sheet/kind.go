package sheet

import (
	"errors"
	"slices"
	"strings"

	"kedge/canvas/exercise"
	"kedge/solver/refusal"
)

// Kind is a kind of sheet. A booklet has any of them, in any order.
type Kind string

// The kinds of sheet.
const (
	Overview   Kind = "overview"    // one page: diagram, loads, findings
	Diagram    Kind = "diagram"     // the drawing alone, at the largest scale
	Zones      Kind = "zones"       // the drawing with its danger zones
	Loads      Kind = "loads"       // table of loads and limits
	Range      Kind = "range"       // every load at low, likely and high resistance
	Findings   Kind = "findings"    // every finding with what to do
	Kit        Kind = "kit"         // every piece, with the least rating it needs
	Steps      Kind = "steps"       // the rig built up step by step
	Pull       Kind = "pull"        // the whole pull: moments, curve, table
	Compare    Kind = "compare"     // the rigs of the plan side by side
	Sums       Kind = "sums"        // how each figure came about
	Report     Kind = "report"      // what may have happened in a pull that went wrong
	Inquiry    Kind = "inquiry"     // an incident as an exercise: what was found, questions
	InquiryKey Kind = "inquiry-key" // its answers
	Briefing   Kind = "briefing"    // roles, places, signals
	Order      Kind = "order"       // order of work, to be signed off
	StopLook   Kind = "stop"        // when to stop and look
	Measure    Kind = "measure"     // what to measure on the site, and how
	Legend     Kind = "legend"      // what the marks of the drawing mean
	Exercise   Kind = "exercise"    // the drawing with blanks, and questions
	Key        Kind = "key"         // the answers of the exercise, with their sums
	Errors     Kind = "errors"      // usual mistakes of the exercise's questions
)

// kinds are all kinds in the order in which a list of sheets shows them, and
// what adds the pages of each. Those of the exercise come all together, variant
// by variant.
var kinds = [...]struct {
	kind  Kind
	pages func(*maker) error
}{
	{Overview, (*maker).overview},
	{Diagram, func(m *maker) error { return m.diagram(Diagram) }},
	{Zones, func(m *maker) error { return m.diagram(Zones) }},
	{Loads, (*maker).loadsSheet},
	{Range, (*maker).rangeSheet},
	{Findings, (*maker).findingsSheet},
	{Kit, (*maker).kit},
	{Steps, (*maker).steps},
	{Pull, (*maker).pullSheet},
	{Compare, (*maker).compare},
	{Sums, (*maker).sumsSheet},
	{Report, (*maker).reportSheet},
	{Inquiry, (*maker).inquiry},
	{InquiryKey, (*maker).inquiryKey},
	{Briefing, (*maker).briefing},
	{Order, (*maker).order},
	{StopLook, (*maker).stopLook},
	{Measure, (*maker).measureSheet},
	{Legend, (*maker).legend},
	{Exercise, nil},
	{Key, nil},
	{Errors, nil},
}

// Kinds are all kinds in the order in which a list of sheets shows them. The
// name of each is the label "sheet-kind-" + kind of package words.
func Kinds() []Kind {
	all := make([]Kind, len(kinds))
	for i := range kinds {
		all[i] = kinds[i].kind
	}
	return all
}

// KindByName is the kind of that name; the error lists them.
func KindByName(name string) (Kind, error) {
	for _, k := range Kinds() {
		if strings.EqualFold(string(k), name) {
			return k, nil
		}
	}
	return "", noSheet.At("", refusal.Clip(name, mostShown), kindNames())
}

// kindNames are the names of all kinds, between commas.
func kindNames() string {
	names := make([]string, 0, len(Kinds()))
	for _, k := range Kinds() {
		names = append(names, string(k))
	}
	return strings.Join(names, ", ")
}

// forTeacher tells sheets that hold answers.
func (k Kind) forTeacher() bool { return k == Key || k == Errors || k == InquiryKey }

// ofExercise tells the sheets of an exercise, which its variants have each.
func (k Kind) ofExercise() bool { return k == Exercise || k == Key || k == Errors }

// figures tells sheets that show what a rig is computed to do. What an exercise is
// about stands among what is known.
func (k Kind) figures() bool {
	return !slices.Contains([]Kind{Order, Measure, Legend, Steps, Exercise, Key, Errors, Inquiry}, k)
}

// asDrawn tells sheets of the moment that is drawn: what is computed anew for other
// resistances.
func (k Kind) asDrawn() bool { return k == Range || k == Report || k == InquiryKey }

// What callers branch on.
var (
	// ErrOption says that an option asks for what there is not.
	ErrOption = exercise.ErrOption
	// ErrEmpty says that there is nothing to draw.
	ErrEmpty = errors.New("sheet: nothing to draw")
	// ErrTooLarge says that the plan fits on no page.
	ErrTooLarge = errors.New("sheet: larger than a page")
	// ErrLogo says that the logo cannot be used.
	ErrLogo = errors.New("sheet: logo")
	// ErrQuestion says that a question cannot be answered from its page.
	ErrQuestion = exercise.ErrQuestion
)

// trouble is an error with a sentence in the language of the sheets.
type trouble struct {
	kind     error
	sentence string
}

// Error is the sentence with the package before it.
func (t *trouble) Error() string { return "sheet: " + t.sentence }

// Sentence is what a person reads.
func (t *trouble) Sentence() string { return t.sentence }

// Unwrap is the kind of error.
func (t *trouble) Unwrap() error { return t.kind }
