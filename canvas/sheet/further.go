package sheet

import "fmt"

// further adds the pages of the kinds that are tables and texts.
func (m *maker) further(k Kind) error {
	switch k {
	case Range:
		return m.rangeSheet()
	case Kit:
		return m.kit()
	case Steps:
		return m.steps()
	case Compare:
		return m.compare()
	case Sums:
		return m.sumsSheet()
	case Briefing:
		return m.briefing()
	case Order:
		return m.order()
	case StopLook:
		return m.stopLook()
	case Measure:
		return m.measureSheet()
	case Legend:
		return m.legend()
	}
	return fmt.Errorf("%w: there is no sheet %q", ErrOption, k)
}
