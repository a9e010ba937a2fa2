package solver

import "kedge/solver/part"

// Verdict is how an answer ends, the lightest first; of two rigs the greater
// counts.
type Verdict int

// The verdicts.
const (
	Settled   Verdict = iota // every part was computed and has a limit, and no finding is above NOTICE
	Unsettled                // a WARNING or CAUTION, or something not computed, without a limit or not understood
	Dangerous                // a DANGER
)

// Verdict tells how the answer ends.
func (a *Assessment) Verdict() Verdict {
	v := Settled
	if !a.settled() {
		v = Unsettled
	}
	for i := range a.Findings {
		switch l := a.Findings[i].Level; {
		case l == part.Notice:
		case l == part.Caution || l == part.Warning:
			v = Unsettled
		default: // a level nobody knows is a danger, as its signal word is
			return Dangerous
		}
	}
	return v
}

// settled reports whether every part was computed and is within its limit.
func (a *Assessment) settled() bool {
	if !a.Complete || a.Status != part.Within || !a.Move.Known || len(a.Parts) == 0 {
		return false
	}
	for i := range a.Parts {
		switch p := &a.Parts[i]; p.Status {
		case part.Within, part.Near:
			if !p.Known() {
				return false
			}
		case part.Slack:
		default:
			return false
		}
	}
	return true
}
