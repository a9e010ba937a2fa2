package solver

import (
	"kedge/solver/effort"
	"kedge/solver/facts"
	"kedge/solver/gear"
	"kedge/solver/hold"
	"kedge/solver/part"
	"kedge/solver/zone"
)

// PackageRules are the findings that one package can raise. Read-only.
type PackageRules struct {
	Package string // name of its package
	Rules   []part.Rule
}

// Rulebook is every finding there is, by the package that raises it.
func Rulebook() []PackageRules {
	return []PackageRules{
		{"solver", Rules}, {"effort", effort.Rules}, {"gear", gear.Rules}, {"hold", hold.Rules}, {"zone", zone.Rules}, {"travel", PullRules},
	}
}

// RuleOf is the rule of a finding by its id; false if there is none.
func RuleOf(id string) (part.Rule, bool) {
	for _, pkg := range Rulebook() {
		for _, r := range pkg.Rules {
			if r.ID == id {
				return r, true
			}
		}
	}
	return part.Rule{}, false
}

// PullRules are the findings that package travel raises of a whole pull. Read-only.
var PullRules = []part.Rule{
	{ID: "drag-not-computed", Levels: []part.Level{part.Warning}, Why: "how it is dragged hangs on where its wheels stand, and on a slope on its weight"},
	{ID: "hold-back-pays-out", Levels: []part.Level{part.Caution}, Why: "who pays a line out lets go of it at its end", Values: []string{"needs", "has"}},
	{ID: "pull-stops", Levels: []part.Level{part.Warning}, Why: "beyond a place where the rig is refused, or the casualty meets something, nothing is computed", Values: []string{"end", "long"}},
	{ID: "way-bends-tight", Levels: []part.Level{part.Caution}, Why: "a bend tighter than the vehicle turns: its body goes elsewhere than drawn", Values: []string{"bend", "turns"}},
	{ID: "way-dragged", Levels: []part.Level{part.Warning}, Why: "what resists alike in every direction moves by the twist that takes the least pull (maximum dissipation)", Values: []string{"end", "off", "turn"}},
	{ID: "way-drawn-worse", Levels: []part.Level{part.Warning, part.Danger}, Why: "of the drawn way and the dragged one the worse counts (ours)", Values: []string{"used"}},
	{ID: "way-not-steered", Levels: []part.Level{part.Warning}, Why: "wheels that nobody steers go straight on, or where the line drags them (ours)"},
}

// Rules are the findings that Assess itself raises, besides those of the
// packages, by id. Read-only.
var Rules = []part.Rule{
	{ID: "bare-trunk", Levels: []part.Level{part.Warning}, Why: "a running line cuts bark and wears through; common practice"},
	{ID: "blocks-touch", Levels: []part.Level{part.Danger}, Why: "statics: a stretch without length has no direction"},
	{ID: "casualty-meets", Levels: []part.Level{part.Danger}, Fact: "person.radius", Why: "its body, as drawn and moved straight along its exit path, covers the place (ours)", Values: []string{"after"}},
	{ID: "casualty-in-water", Levels: []part.Level{part.Warning}, Fact: string(facts.WaterAsLand), Why: "drawn in water and computed as on land: what the water traps and pushes is left out"},
	{ID: "dead-line-length-unknown", Levels: []part.Level{part.Warning}, Why: "statics: a dead line without a length has whatever tension one likes"},
	{ID: "does-not-balance", Levels: []part.Level{part.Danger}, Why: "the loads on all that stands on the ground must cancel, to 1e-6 of the largest"},
	{ID: "does-not-move", Levels: []part.Level{part.Warning}, Why: "resistance beyond what the winch gives at stall", Values: []string{"stall", "need"}},
	{ID: "doubt-at-middle", Levels: []part.Level{part.Notice, part.Caution}, Why: "places and lengths are drawn at one value; a range over a fifth of it may be another rig (ours)", Values: []string{"member"}},
	{ID: "ends-on-nothing", Levels: []part.Level{part.Danger}, Why: "what carries load ends on an item of the site that is a part with its load"},
	{ID: "hold-back-askew", Levels: []part.Level{part.Warning}, Why: "within 30° of what it must hold (ours)", Values: []string{"off", "limit"}},
	{ID: "hold-back-fixed", Levels: []part.Level{part.Warning}, Why: "a fixed line holds only where it is taut: the casualty moves"},
	{ID: "hold-back-loose", Levels: []part.Level{part.Warning}, Why: "a hold-back holds only the casualty"},
	{ID: "hold-back-slack", Levels: []part.Level{part.Warning}, Why: "what hangs slack holds nothing until it is taut (ours: 0.5 m)", Values: []string{"slack", "most"}},
	{ID: "holds-nothing", Levels: []part.Level{part.Danger}, Why: "any load is over a limit of zero", Values: []string{"part", "load"}},
	{ID: "hooked-to-fairlead", Levels: []part.Level{part.Danger}, Why: "a fairlead or winch is no attachment point, whoever's it is"},
	{ID: "leg-takes-up", Levels: []part.Level{part.Caution}, Why: "what is longer by 2 % or 5 cm carries as soon as the others stretch: it is counted with the whole (ours)", Values: []string{"longer", "most"}},
	{ID: "line-backwards", Levels: []part.Level{part.Warning}, Why: "a line is listed from its hauling end"},
	{ID: "line-bears", Levels: []part.Level{part.Danger}, Why: "past a contact the tension is not that of the drawing, and the line is being cut", Values: []string{"from", "to", "length"}},
	{ID: "line-near", Levels: []part.Level{part.Caution}, Fact: string(facts.InWayKeepOff), Why: "lines move as the casualty does (ours)", Values: []string{"clear", "want"}},
	{ID: "line-on-trunk", Levels: []part.Level{part.Danger}, Why: "past a contact the tension is not that of the drawing, and the line is being cut", Values: []string{"from", "to", "length"}},
	{ID: "line-over", Levels: []part.Level{part.Caution}, Fact: string(facts.InWayKeepOff), Why: "a line sags when it slackens, and drops as the casualty moves (ours)", Values: []string{"clear", "want"}},
	{ID: "line-over-low", Levels: []part.Level{part.Caution}, Fact: string(facts.InWayLowObstacle), Why: "nobody draws what is lower as an obstacle: its height may be mistyped (ours)", Values: []string{"clear", "height"}},
	{ID: "line-through-vehicle", Levels: []part.Level{part.Danger}, Why: "a vehicle of the pull stands in its line: the loads are those without it (ours)", Values: []string{"from", "to", "length"}},
	{ID: "loose-end", Levels: []part.Level{part.Caution, part.Warning, part.Danger}, Why: "statics: a point tied to nothing that holds has no place"},
	{ID: "near-limit", Levels: []part.Level{part.Caution}, Why: "from three quarters of a limit (ours)", Values: []string{"part", "load", "limit", "used"}},
	{ID: "near-to-break-loose", Levels: []part.Level{part.Caution}, Why: "from three quarters of a limit (ours)", Values: []string{"part", "load", "limit", "used"}},
	{ID: "no-casualty", Levels: []part.Level{part.Warning}, Why: "without a casualty there is no exit path to pull along"},
	{ID: "no-limit", Levels: []part.Level{part.Warning}, Why: "a limit that is not known is never within it", Values: []string{"part", "load"}},
	{ID: "no-pull-along-way-out", Levels: []part.Level{part.Danger}, Why: "statics: no tension gives the resistance"},
	{ID: "no-winch", Levels: []part.Level{part.Warning}, Why: "a line without a drum has no given tension"},
	{ID: part.NotDecidedID, Levels: []part.Level{part.Caution}, Why: "a rule that lacks one of its own inputs passes nothing (ours)"},
	{ID: "not-hooked", Levels: []part.Level{part.Warning}, Why: "nothing of the rig reaches the casualty"},
	{ID: "not-solved", Levels: []part.Level{part.Danger}, Why: "statics: no equilibrium to tolerance"},
	{ID: "nothing-pulls", Levels: []part.Level{part.Caution}, Why: "no line in the rig"},
	{ID: "over-limit", Levels: []part.Level{part.Danger}, Why: "load over its limit on the stated basis", Values: []string{"part", "load", "limit", "used"}},
	{ID: "over-to-break-loose", Levels: []part.Level{part.Danger}, Why: "load over its limit while the casualty breaks loose", Values: []string{"part", "load", "limit", "used"}},
	{ID: "person-in-water", Levels: []part.Level{part.Warning}, Why: "who stands in water cannot get away from a line (ours)"},
	{ID: "presets", Levels: []part.Level{part.Caution}, Why: "a rating nobody read from a tag", Values: []string{"count"}},
	{ID: "pulls-backwards", Levels: []part.Level{part.Warning}, Why: "statics: an end of the line pulls against the intended motion"},
	{ID: "resistance-not-computed", Levels: []part.Level{part.Warning}, Why: "a figure the rules of resistance need is missing"},
	{ID: "restraint-not-computed", Levels: []part.Level{part.Warning}, Why: "what branches or runs round a corner carries nobody knows what"},
	{ID: "reversed-sheave", Levels: []part.Level{part.Caution}, Why: "statics: the line pays out over the sheave while the winch hauls"},
	{ID: "runs-away", Levels: []part.Level{part.Danger}, Why: "statics: a load outpulls what holds it"},
	{ID: "several-casualties", Levels: []part.Level{part.Caution}, Why: "one casualty is computed at a time"},
	{ID: "shackle-missing", Levels: []part.Level{part.Caution}, Why: "what carries load is a part: the eye of a sling does not go through that of a block (common practice)"},
	{ID: "shared-slings", Levels: []part.Level{part.Caution}, Why: "statics: only the sum of their tensions is determined"},
	{ID: "sheave-either-way", Levels: []part.Level{part.Caution}, Why: "statics: both ways of turning agree with the motion", Values: []string{"times"}},
	{ID: "sheave-undetermined", Levels: []part.Level{part.Caution}, Why: "statics: the direction of slip is not determined"},
	{ID: "slack-line", Levels: []part.Level{part.Caution}, Why: "statics: it carries nothing"},
	{ID: "slack-sling", Levels: []part.Level{part.Caution}, Why: "statics: it carries nothing"},
	{ID: "stands-in-water", Levels: []part.Level{part.Warning}, Why: "grip and holds are those of land: what water does to them is not computed"},
	{ID: "slope-against-heights", Levels: []part.Level{part.Warning}, Why: "the plane through the measured heights is over 5° off the slope that was entered (ours)", Values: []string{"slope", "measured", "toward"}},
	{ID: "slope-against-rise", Levels: []part.Level{part.Caution}, Why: "the ground between two vehicles is over 5° off the slope that was entered (ours)", Values: []string{"slope", "stands"}},
	{ID: "still-fastened", Levels: []part.Level{part.Warning, part.Danger}, Why: "the pull goes into what the casualty is made fast to"},
	{ID: "strap-bears", Levels: []part.Level{part.Danger}, Why: "past a contact a sling does not pull the way it is drawn, and is being cut"},
	{ID: "tension-too-small", Levels: []part.Level{part.Warning}, Why: "a typed tension that does not give the planned resistance", Values: []string{"stall", "need"}},
	{ID: "tie-back-bears", Levels: []part.Level{part.Warning}, Why: "what a sling or line round a corner holds is not computed"},
	{ID: "tie-back-loose", Levels: []part.Level{part.Warning}, Why: "a tie-back holds only from a pulled vehicle to something that holds"},
	{ID: "tie-back-slack", Levels: []part.Level{part.Warning}, Why: "the vehicle slides until it is taut (ours: 0.5 m)", Values: []string{"slack", "most"}},
	{ID: "too-short", Levels: []part.Level{part.Danger}, Why: "statics: it does not reach", Values: []string{"missing"}},
	{ID: "travel-not-computed", Levels: []part.Level{part.Caution}, Why: "everything is computed where it is drawn", Values: []string{"travel"}},
	{ID: "unknown-members", Levels: []part.Level{part.Caution}, Why: "what is not understood may lower a limit", Values: []string{"count", "path"}},
	{ID: "unknown-thing", Levels: []part.Level{part.Caution}, Why: "what is not understood may carry load"},
	{ID: "unknown-words", Levels: []part.Level{part.Caution}, Why: "a word that is not known may stand for something weaker", Values: []string{"count", "path"}},
	{ID: "tree-in-vehicle", Levels: []part.Level{part.Warning}, Why: "a tree and a vehicle do not stand in one place (ours)"},
	{ID: "vehicles-overlap", Levels: []part.Level{part.Warning}, Why: "two vehicles do not stand in one place; 0.2 m is a touch (ours)", Values: []string{"in"}},
	{ID: "winch-over", Levels: []part.Level{part.Warning}, Why: "asked for more than it gives on its layer", Values: []string{"part", "load", "limit", "used"}},
	{ID: "winch-taken", Levels: []part.Level{part.Danger}, Why: "a drum hauls one line"},
}
