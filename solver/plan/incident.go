package plan

import (
	"cmp"
	"reflect"
	"slices"
	"strings"

	"github.com/go-json-experiment/json/jsontext"

	"kedge/solver/quantity"
)

// Incident is what is known of a pull that went wrong with a rig: what was seen and
// told of it, and how likely was held before that what may have happened. Nothing of
// it changes a load, a limit or a zone.
type Incident struct {
	Pins    []Pin          `json:"pins,omitempty"`
	Priors  []Prior        `json:"priors,omitempty"`    // those that differ from the proposed
	Jerk    Maybe[float64] `json:"jerk_prior,omitzero"` // that the line was jerked; not known: as proposed
	None    Maybe[float64] `json:"none_prior,omitzero"` // that it was none of what is drawn; not known: as proposed
	Account string         `json:"account,omitzero"`    // what people tell, as told
	Opinion string         `json:"opinion,omitzero"`    // the author's own, kept apart in a report
	Custody string         `json:"custody,omitzero"`    // who kept what, since when
	Truth   string         `json:"truth,omitzero"`      // of an invented incident: what happened, for the key of a class alone
	Extra   jsontext.Value `json:",embed"`
}

// Pin is one piece of evidence. Which of its figures count hangs on its kind, see the
// constants. The thing may have been taken out of the rig since: the pin is kept, and
// says nothing then.
type Pin struct {
	ID       ID                     `json:"id"` // a letter, see [Incident.NextPin]
	Kind     string                 `json:"kind"`
	Thing    ID                     `json:"about,omitzero"`          // what it is about
	At       *Point                 `json:"shown_at,omitzero"`       // where it is drawn; nil: at its thing
	Known    string                 `json:"known,omitzero"`          // KnownObserved, KnownTold, KnownAssumed; empty: counts as assumed
	Trust    Maybe[float64]         `json:"trust,omitzero"`          // chance that it is right, 0.5 to 1; not known: by Known
	Source   string                 `json:"source,omitzero"`         // who says or measured it: what one source says counts once
	Recorded bool                   `json:"on_recording,omitzero"`   // it can be seen on a recording
	Earlier  bool                   `json:"earlier_pull,omitzero"`   // it is of an earlier pull with the same gear
	Low      quantity.Force         `json:"low_n,omitzero"`          // least line tension at the winch
	High     quantity.Force         `json:"high_n,omitzero"`         // most; 0: not known
	Layer    int                    `json:"layer_seen,omitzero"`     // of the drum, 1 the innermost
	Length   Maybe[quantity.Length] `json:"trace_m,omitzero"`        // to the mark, or of the trace; 0: looked for and none
	Drop     quantity.Length        `json:"drop_m,omitzero"`         // by which the mark lies below where the thing started
	Mass     quantity.Mass          `json:"mass_kg,omitzero"`        // of what flew
	Look     string                 `json:"break_look,omitzero"`     // LookCut, …
	Rating   Rating                 `json:"rating,omitzero"`         // on the tag
	Picture  string                 `json:"picture_sha256,omitzero"` // of a file that is kept elsewhere, hexadecimal
	Shows    string                 `json:"picture,omitzero"`        // the picture of the plan that shows it, see [Photo.Original]; empty: none
	Note     string                 `json:"note,omitzero"`
	Doubts   []Doubt                `json:"doubts,omitempty"`
	Extra    jsontext.Value         `json:",embed"`
}

// Kinds of pin, each with what it is about and the figures it uses.
const (
	PinBroken     = "found broken"        // thing
	PinWhole      = "found whole"         // thing
	PinOff        = "found off, unbroken" // thing: came off its point, open, or out of its seat
	PinFirst      = "broke first"         // thing; observed only on a recording
	PinLanding    = "first landing mark"  // thing that flew; trace_m, its drop, mass_kg
	PinResting    = "resting place"       // thing; trace_m: weighs nothing, it may have bounced, slid or rolled
	PinStalled    = "stalled"             // low_n, high_n; of an earlier pull: and all held
	PinTension    = "tension"             // low_n, high_n: at failure, or at the end if nothing failed
	PinLayer      = "layer seen"          // layer_seen
	PinMoved      = "anchor moved"        // thing; trace_m
	PinSkid       = "skid mark"           // vehicle; trace_m
	PinRut        = "rut"                 // casualty; trace_m it moved before the failure
	PinLook       = "look of the break"   // thing; break_look
	PinTag        = "photograph of a tag" // thing; rating
	PinSeenBefore = "seen before"         // thing; break_look that was seen before the pull
)

// How a pin is known. A word alone is no trust: see [Pin.Trusted].
const (
	KnownObserved = "observed"
	KnownTold     = "told"
	KnownAssumed  = "assumed"
)

// How a break looks, or what was seen of a part before the pull.
const (
	LookCut    = "cut"        // a clean edge, or cut part of the way
	LookWorn   = "worn"       // chafed, corroded, thinned
	LookHeat   = "heat"       // glazed, melted, blued
	LookKnot   = "at a knot"  // or at a bend as tight
	LookOpened = "opened"     // pin out, gate bent, not closed
	LookTorn   = "torn whole" // no sign but that of too much load
)

// Hypotheses of a part that a prior is of. What they leave is that it was sound.
const (
	WeakCut    = "cut"
	WeakWorn   = "worn"
	WeakHeat   = "heat"
	WeakKnot   = "knot"
	WeakClosed = "wrongly closed"
	WeakOff    = "came off unbroken"
)

// Weaknesses are the hypotheses in the order in which they are listed.
func Weaknesses() []string {
	return []string{WeakCut, WeakWorn, WeakHeat, WeakKnot, WeakClosed, WeakOff}
}

// PinKinds are the kinds of pin in the order in which they are offered.
func PinKinds() []string { return slices.Clone(pinKinds) }

// Looks are the looks of a break in the order in which they are offered; the first is
// that it is not said.
func Looks() []string { return slices.Clone(looks) }

// Prior is how likely something was held of a thing before any evidence.
type Prior struct {
	Thing  ID             `json:"about"`
	Weak   string         `json:"hypothesis"` // WeakCut, …
	Chance float64        `json:"prior"`      // 0 to less than 1; those of a thing together too
	Source string         `json:"source,omitzero"`
	Extra  jsontext.Value `json:",embed"`
}

// How much a pin is trusted that does not say, as is common practice of courts to
// order, not to number: the figures are ours.
const (
	TrustObserved = 1.0
	TrustTold     = 0.8
	TrustAssumed  = 0.5
)

// KnownAs is how the pin is known; one that does not say counts as assumed.
func (q *Pin) KnownAs() string { return cmp.Or(q.Known, KnownAssumed) }

// Trusted is the chance that the pin is right, 0.5 to 1. What broke first is observed
// only on a recording, how a break looks is read by somebody: both weigh no more than
// what is told.
func (q *Pin) Trusted() float64 {
	t := q.Trust.Or(map[string]float64{KnownObserved: TrustObserved, KnownTold: TrustTold}[q.Known])
	t = max(t, TrustAssumed)
	if q.Kind == PinFirst && !q.Recorded || q.Kind == PinLook {
		t = min(t, TrustTold)
	}
	return t
}

// Seen reports whether something was seen or told of the pull; of no incident nothing was.
func (n *Incident) Seen() bool { return n != nil && len(n.Pins) > 0 }

// Pin is the pin id, nil if there is none.
func (n *Incident) Pin(id ID) *Pin {
	if n != nil {
		for i := range n.Pins {
			if n.Pins[i].ID == id {
				return &n.Pins[i]
			}
		}
	}
	return nil
}

// pinRef stands before the id of a pin where it is looked up among the things of its
// rig: a thing may have the same letter. No id of a plan holds a slash.
const pinRef = "/pin/"

// Ref is the id under which an [Index] of the pin's rig has it.
func (q *Pin) Ref() ID { return PinRef(q.ID) }

// PinRef is the id under which an [Index] has the pin of a letter.
func PinRef(letter ID) ID { return pinRef + letter }

// RefPin is the letter of the pin that an [Index] has as ref; false: it is no pin's.
func RefPin(ref ID) (letter ID, ok bool) {
	s, ok := strings.CutPrefix(string(ref), pinRef)
	return ID(s), ok
}

// CarriesEvidence reports whether evidence may be about things of a kind: those of the
// site that an incident leaves something at, and the parts of a rig.
func (k ThingKind) CarriesEvidence() bool {
	switch k {
	case ThingVehicle, ThingAnchor, ThingObstacle, ThingLine, ThingBlock, ThingSling, ThingShackle, ThingDamper:
		return true
	}
	return false
}

// PinKindsFor are the kinds of pin that say something of a thing of that kind, those
// that are said most often first; of no thing those that are about the line as a whole.
// Any other may be chosen too.
func (x *Index) PinKindsFor(thing ID) []string {
	switch s := x.Find(thing); s.Kind {
	case ThingLine, ThingBlock, ThingSling, ThingShackle, ThingDamper:
		return []string{PinBroken, PinWhole, PinOff, PinFirst, PinLook, PinLanding, PinSeenBefore, PinTag, PinResting}
	case ThingAnchor, ThingObstacle:
		return []string{PinMoved, PinBroken, PinWhole, PinFirst, PinLook, PinSeenBefore, PinTag}
	case ThingVehicle:
		v := &x.Plan.Site.Vehicles[s.Pos]
		list := []string{PinBroken, PinWhole, PinSeenBefore, PinTag, PinLook}
		if v.Stuck != nil {
			return append([]string{PinRut}, list...)
		}
		return append([]string{PinStalled, PinSkid, PinLayer, PinTension}, list...)
	}
	return []string{PinTension, PinStalled, PinLayer}
}

// NextPin is the first letter that no pin has: A to Z, then AA, AB and so on.
func (n *Incident) NextPin() ID {
	for k := 0; ; k++ {
		id := ""
		for j := k; j >= 0; j = j/26 - 1 {
			id = string(rune('A'+j%26)) + id
		}
		if n.Pin(ID(id)) == nil {
			return ID(id)
		}
	}
}

// WithIncident is p with n as the incident of the rig at i; nil takes it away.
func WithIncident(p *Plan, i int, n *Incident) *Plan {
	if i < 0 || i >= len(p.Rigs) {
		return p
	}
	r := p.Rigs[i]
	r.Incident = n
	return WithRig(p, i, r)
}

// WithPin is p with a pin of the rig at i put in place of the one of its id, or added.
func WithPin(p *Plan, i int, pin Pin) *Plan {
	return editIncident(p, i, func(n *Incident) {
		for k := range n.Pins {
			if n.Pins[k].ID == pin.ID {
				n.Pins = with(n.Pins, k, pin)
				return
			}
		}
		n.Pins = append(slices.Clone(n.Pins), pin)
	})
}

// WithoutPin is p without the pin id of the rig at i.
func WithoutPin(p *Plan, i int, id ID) *Plan {
	return editIncident(p, i, func(n *Incident) {
		n.Pins = slices.DeleteFunc(slices.Clone(n.Pins), func(q Pin) bool { return q.ID == id })
	})
}

// WithPrior is p with the prior of a thing's hypothesis, of the rig at i, put in place
// of the one there is, or added.
func WithPrior(p *Plan, i int, prior Prior) *Plan {
	return editIncident(p, i, func(n *Incident) {
		for k, q := range n.Priors {
			if q.Thing == prior.Thing && q.Weak == prior.Weak {
				n.Priors = with(n.Priors, k, prior)
				return
			}
		}
		n.Priors = append(slices.Clone(n.Priors), prior)
	})
}

// WithoutPrior is p without the prior of a thing's hypothesis, of the rig at i: what is
// proposed counts again.
func WithoutPrior(p *Plan, i int, thing ID, weak string) *Plan {
	return editIncident(p, i, func(n *Incident) {
		n.Priors = slices.DeleteFunc(slices.Clone(n.Priors), func(q Prior) bool { return q.Thing == thing && q.Weak == weak })
	})
}

// editIncident changes a copy of the incident of the rig at i. The lists of the copy
// are those of p: they are not written to. One of which nothing is left is none.
func editIncident(p *Plan, i int, change func(n *Incident)) *Plan {
	if i < 0 || i >= len(p.Rigs) {
		return p
	}
	n := Incident{}
	if p.Rigs[i].Incident != nil {
		n = *p.Rigs[i].Incident
	}
	change(&n)
	if len(n.Pins) == 0 && len(n.Priors) == 0 {
		n.Pins, n.Priors = nil, nil
		if reflect.ValueOf(n).IsZero() {
			return WithIncident(p, i, nil)
		}
	}
	return WithIncident(p, i, &n)
}

// MaxPins is the most pins, and priors, that an incident may hold: more facts cannot
// be weighed together.
const MaxPins = 64

// validIncident refuses pins without an id of their own, trust that would turn a
// statement round, and priors that leave nothing.
func validIncident(path string, n *Incident) error {
	if n == nil {
		return nil
	}
	if len(n.Pins) > MaxPins || len(n.Priors) > MaxPins {
		return manyPins.At(path)
	}
	seen := map[ID]bool{}
	for i := range n.Pins {
		q, path := &n.Pins[i], at(path+"/pins", i)
		if err := validID(path, q.ID); err != nil {
			return err
		}
		if seen[q.ID] {
			return doubled(path, q.ID)
		}
		seen[q.ID] = true
		if t, known := q.Trust.Get(); known && t < TrustAssumed {
			return trustLow.At(path+"/trust", number(t))
		}
		if q.High > 0 && q.Low > q.High {
			return rangeBackwards.At(path, number(float64(q.Low)), number(float64(q.High)))
		}
		if err := validDoubts(path, schemaOf[Pin](), q.Doubts); err != nil {
			return err
		}
	}
	sums := map[ID]float64{}
	for i, q := range n.Priors {
		if slices.ContainsFunc(n.Priors[:i], func(o Prior) bool { return o.Thing == q.Thing && o.Weak == q.Weak }) {
			return priorTwice.At(at(path+"/priors", i), quoted(q.Weak), quoted(q.Thing))
		}
		if sums[q.Thing] += q.Chance; !(sums[q.Thing] < 1) {
			return priorsWhole.At(at(path+"/priors", i), quoted(q.Thing))
		}
	}
	if !(n.None.Or(0) < 1) {
		return priorSure.At(path + "/none_prior")
	}
	if !(n.Jerk.Or(0) < 1) {
		return priorSure.At(path + "/jerk_prior")
	}
	return nil
}
