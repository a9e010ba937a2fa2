package part

// Derivation records how a number came about, for "why?". A nil *Derivation records nothing
// and costs nothing: rules are written once and take one that may be nil.
type Derivation struct {
	Steps []Step
}

// Step is one formula with its operands and what it gave. The last step of a
// sum has the number that the assessment shows, bit for bit.
type Step struct {
	Formula  string // word id of the formula, e.g. "sling-basket-leg"
	Result   Value
	Operands []Operand
}

// Operand is one number that went into a step.
type Operand struct {
	Value
	Fact string // id of the handbook row it is, or empty
	From Origin
}

// Origin says where an operand's value comes from.
type Origin int

// The origins.
const (
	FromComputed Origin = iota
	FromTyped           // in the plan, typed or measured
	FromPreset          // in the plan, still the program's preset
	FromFact            // a handbook row
)

// Add records a step. On a nil Derivation it does nothing.
func (s *Derivation) Add(formula string, result Value, operands ...Operand) {
	if s != nil {
		s.Steps = append(s.Steps, Step{formula, result, operands})
	}
}

// On reports whether anything is recorded, for rules that would have to build
// operands at some cost.
func (s *Derivation) On() bool { return s != nil }

// Last is the last result, false if there is none.
func (s *Derivation) Last() (Value, bool) {
	if s == nil || len(s.Steps) == 0 {
		return Value{}, false
	}
	return s.Steps[len(s.Steps)-1].Result, true
}
