package plan

import (
	"errors"
	"strconv"
	"strings"

	"kedge/solver/refusal"
)

// What is wrong with a plan, for callers that branch on it with errors.Is.
var (
	ErrEmpty   = errors.New("plan: empty file")
	ErrFormat  = errors.New("plan: not a plan")
	ErrNewer   = errors.New("plan: made for a newer version")
	ErrSyntax  = errors.New("plan: not well-formed")
	ErrLimit   = errors.New("plan: too large")
	ErrMember  = errors.New("plan: member missing or misplaced")
	ErrValue   = errors.New("plan: value out of bounds")
	ErrID      = errors.New("plan: id missing, doubled or misspelt")
	ErrRef     = errors.New("plan: reference to nothing")
	ErrOutline = errors.New("plan: outline crosses itself")
	ErrPicture = errors.New("plan: measured points do not say how the picture lies")
)

// number is x as a sentence shows it: the shortest text that reads back as x.
func number(x float64) string {
	s := strconv.FormatFloat(x, 'g', -1, 64)
	s = strings.Replace(s, "e+0", "e", 1)
	s = strings.Replace(s, "e-0", "e-", 1)
	return strings.Replace(s, "e+", "e", 1)
}

// mostShown is how much of a text a refusal shows, in characters: longer than
// any id or word of a plan.
const mostShown = 40

// quoted is a text of a plan as it stands between quotes.
func quoted[S ~string](s S) string { return refusal.Clip(string(s), mostShown) }

// kindWord is the word of a kind of thing.
func kindWord(k ThingKind) refusal.Word {
	return refusal.Word("kind-of-" + strings.ReplaceAll(k.String(), " ", "-"))
}

func at(path string, i int) string { return path + "/" + strconv.Itoa(i) }

// escape is a member's name as a token of a JSON pointer.
func escape(name string) string {
	return strings.ReplaceAll(strings.ReplaceAll(name, "~", "~0"), "/", "~1")
}
