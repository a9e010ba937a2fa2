package plan

import (
	"strconv"
	"strings"
)

// Prefixes of the ids that [NewID] gives.
const (
	PrefixVehicle  = "V"
	PrefixTree     = "T"
	PrefixAnchor   = "A" // of any other kind
	PrefixObstacle = "O"
	PrefixPerson   = "P"
	PrefixNote     = "N"
	PrefixMeasure  = "M"
	PrefixLine     = "L"
	PrefixBlock    = "B"
	PrefixSling    = "S"
	PrefixShackle  = "K"
	PrefixDamper   = "D"
	PrefixRig      = "R"
)

// NewID is the next id with the prefix: one above the highest number in use
// anywhere in p, so that it differs from every id of the site and of all rigs.
// The same plan gives the same id. Evidence that is about a thing taken out since keeps
// its id from being given to another.
func NewID(p *Plan, prefix string) ID {
	const most = 1 << 30 // a number beyond any that was given out; a foreign id may hold one
	highest := 0
	see := func(_ string, _ int, id ID, _ Slot) {
		digits, ok := strings.CutPrefix(string(id), prefix)
		if n, err := strconv.Atoi(digits); ok && err == nil && n > highest && n < most && digits[0] != '+' {
			highest = n
		}
	}
	eachSite(&p.Site, see)
	for i := range p.Rigs {
		see("", 0, p.Rigs[i].ID, Slot{})
		eachRig(&p.Rigs[i], see)
		if n := p.Rigs[i].Incident; n != nil {
			for k := range n.Pins {
				see("", 0, n.Pins[k].Thing, Slot{})
			}
			for k := range n.Priors {
				see("", 0, n.Priors[k].Thing, Slot{})
			}
		}
	}
	return ID(prefix + strconv.Itoa(highest+1))
}
