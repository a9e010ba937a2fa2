package remedy

import (
	"reflect"

	"kedge/canvas/form"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// Done is what a remedy's button does: an edit of the plan as one undo
// step, or a field to be typed into.
type Done struct {
	Plan  *plan.Plan  // nil: nothing is edited
	Name  string      // of the undo step
	Focus *form.Focus // nil: nothing to type
}

// NoButton is why a remedy is not a button: it is for a person to do on the
// board, or here it cannot be done.
type NoButton struct {
	Do  string // the remedy
	Why string // a sentence for the person, without a full stop
}

// Error is the line for a developer.
func (e *NoButton) Error() string { return "remedy: " + e.Do + ": " + e.Why }

// Sentence is what the person reads.
func (e *NoButton) Sentence() string { return e.Why }

// Given is what a remedy is done with.
type Given struct {
	Plan  *plan.Plan
	Rig   plan.ID
	Kit   []facts.GearItem // pieces that may take the place of others
	Words *words.Words
	// Answer is the assessment of Plan and Rig; nil: made when it is needed.
	Answer *solver.Assessment
}

// button is one way to clear a finding.
type button struct {
	// able tells at no cost whether there is something to do it to; a nil one
	// asks nothing more than that the thing is there.
	able func(c *request) error
	edit func(c *request) (*plan.Plan, error) // nil: none
	// focus is the member to be typed into; nil: none.
	focus func(c *request) string
}

// remedies are the edits and fields by the word id of a [part.Remedy].
var remedies = map[string]button{
	"add-damper":       {edit: addDamper},
	"block-for-ring":   {able: kitHas(facts.GearBlock), edit: blockForRing},
	"bow-shackle":      {able: kitHas(facts.GearShackle), edit: bowShackle},
	"chock":            {able: standsFree, edit: chockAll},
	"chock-all":        {able: standsFree, edit: chockAll},
	"choke":            {edit: hitched(plan.HitchChoked)},
	"damper-at-join":   {able: hasJoins, edit: damperAtJoin},
	"extend-line":      {able: kitHas(facts.GearSling), edit: extendLine},
	"longer-sling":     {edit: longerSling},
	"lower-strap":      {edit: lowerStrap},
	"mark-as-anchor":   {edit: markAsAnchor},
	"other-point":      {able: hasOtherPoint, edit: otherPoint},
	"release-brakes":   {able: braked, edit: releaseBrakes},
	"replace":          {able: hasPiece, edit: replacePiece},
	"run-engine":       {able: hasWinch, edit: runEngine},
	"static-line":      {able: kitHas(facts.GearLine), edit: staticLine},
	"static-sling":     {able: kitHas(facts.GearSling), edit: staticSling},
	"straight-sling":   {edit: hitched(plan.HitchStraight)},
	"stronger-part":    {able: isGear, edit: strongerPart},
	"tie-back":         {able: standsTied, edit: tieBack},
	"turn-anchor":      {able: turnsInGround, edit: turnAnchor},
	"turn-shackle":     {able: pinRuns, edit: turnShackle},
	"turn-vehicle":     {able: turnsWinch, edit: turnVehicle},
	"cover":            {focus: member("cover")},
	"say-rating-basis": {focus: focusRating},
	"say-rating-place": {focus: member("rating_on")},
	"splice":           {focus: member("knots")},
	"type-condition":   {focus: member("condition")},
	"type-connector":   {focus: firstEmpty("connector/kind", "connector/rating")},
	"type-diameter":    {focus: focusDiameter},
	"type-direction":   {focus: member("set_bearing_deg")},
	"type-drum":        {focus: firstEmpty("winch/drum_diameter_m", "winch/drum_width_m", "winch/flange_diameter_m")},
	"type-end":         {focus: member("end_fitting")},
	"type-girth":       {focus: member("girth_m")},
	"type-health":      {focus: member("health")},
	"type-hold":        {focus: member("hold_low_n")},
	"type-kind":        {focus: focusKind},
	"type-layout":      {focus: member("layout")},
	"type-length":      {focus: member("length_m")},
	"type-line-pull":   {focus: member("winch/line_pull_n")},
	"type-mass":        {focus: member("mass_kg")},
	"type-missing":     {focus: focusMissing},
	"type-material":    {focus: member("material")},
	"type-rating":      {focus: focusRating},
	"type-roots":       {focus: member("rooting")},
	"type-size":        {focus: focusSize},
	"type-slope":       {focus: member("line_run")},
	"type-soil":        {focus: member("soil")},
	"type-source":      {focus: member("hold_source")},
	"type-species":     {focus: member("species")},
	"type-stall":       {focus: member("winch/stall_factor")},
	"type-trunk":       {focus: member("trunk_m")},
}

// noButton are the remedies without a button; the words say why, "why-…". Each
// takes a choice that is seen on the board and nowhere else.
var noButton = map[string]string{
	"block-at-bend": "which anchor holds the block is the person's choice",
	"equalise":      "the legs become one sling through a shackle: another rig",
	"lower-line":    "what is lower, the winch or the way the line takes, is the person's choice",
	"other-anchor":  "which anchor is the person's choice",
	"pull-in-line":  "where the pull comes from is the person's choice",
	Ways:            "one of several rigs is the person's choice",
}

// Ways is the remedy that shows the ways round: what is done then is chosen on
// the board.
const Ways = "ways-round"

// Do does a finding's remedy to a plan: the plan as it is then with the name
// of that edit, or the field to be typed into. The plan handed in stays as it
// is. An edit that takes the place of a piece of gear puts in one of the kit and
// marks as presets what nobody has read from its tag. The error is a [*NoButton]
// or a refusal by package plan.
func Do(in Given, r part.Remedy) (Done, error) {
	c, how, err := in.request(r)
	if err != nil {
		return Done{}, err
	}
	if how.focus != nil {
		m := how.focus(c)
		if there, _ := c.thing.Entered(m, in.Words.System()); !there {
			return Done{}, c.no("nothing-to-type")
		}
		return Done{Focus: &form.Focus{Thing: c.Thing, Member: m}}, nil
	}
	next, err := how.edit(c)
	if err != nil {
		return Done{}, err
	}
	if err := plan.Validate(next); err != nil {
		return Done{}, form.Placeless(err)
	}
	if reflect.DeepEqual(next, in.Plan) {
		return Done{}, c.no("no-change")
	}
	return Done{Plan: next, Name: in.Words.Label("remedied-"+r.Do, part.Text("thing", c.name()))}, nil
}

// Can reports whether a remedy has a button now, and if not why. It costs no
// assessment: that a kit holds nothing long or strong enough is found only by
// [Do].
func Can(in Given, r part.Remedy) (can bool, why string) {
	if _, _, err := in.request(r); err != nil {
		return false, in.Words.Refusal(err)
	}
	return true, ""
}

// Typed reports whether a remedy is a field to be typed into.
func Typed(r part.Remedy) bool { return remedies[r.Do].focus != nil }

// request is a remedy being done.
type request struct {
	Given
	part.Remedy
	thing form.Thing
}

func (in Given) request(r part.Remedy) (*request, button, error) {
	c := &request{Given: in, Remedy: r}
	how, ok := remedies[r.Do]
	if !ok {
		return nil, how, c.no(r.Do)
	}
	if r.Thing == "" { // the ground's, which is no thing of the plan
		c.Thing = form.ThingGround
	}
	if c.thing, ok = form.Find(in.Plan, in.Rig, c.Thing); !ok {
		return nil, how, c.no("no-thing")
	}
	if how.able != nil {
		if err := how.able(c); err != nil {
			return nil, how, err
		}
	}
	return c, how, nil
}

// name is what the thing is called.
func (c *request) name() string {
	if n := c.Words.Names(c.Plan, c.Rig)(c.Thing); n != "" {
		return n
	}
	return string(c.Thing)
}

// no is why it is not done.
func (c *request) no(why string) error {
	id := "why-" + why
	if !c.Words.HasLabel(id) {
		id = "why-no-button"
	}
	return &NoButton{Do: c.Do, Why: c.Words.Label(id, part.Text("thing", c.name()))}
}

// answer is the assessment of the plan as it is.
func (c *request) answer() *solver.Assessment {
	if c.Answer == nil {
		c.Answer = travel.Whole(c.Plan, c.Rig)
	}
	return c.Answer
}

// clears reports whether the finding whose remedy this is is gone from another plan,
// and that what was computed still is.
func (c *request) clears(p *plan.Plan) bool {
	return plan.Validate(p) == nil && c.clearedIn(travel.Whole(p, c.Rig))
}

// clearedIn is [request.clears] by the answer for that plan.
func (c *request) clearedIn(a *solver.Assessment) bool {
	if c.answer().Status == part.Within && a.Status != part.Within {
		return false
	}
	for i := range a.Findings {
		for _, r := range a.Findings[i].Remedies {
			if r.Do == c.Do && r.Thing == c.Thing {
				return false
			}
		}
	}
	return true
}
