package hold

import (
	"kedge/solver/facts"
	"kedge/solver/part"
)

// Rules documents every finding this package can raise, sorted by id. It is
// read-only.
var Rules = []part.Rule{
	{ID: "anchor-aside", Levels: []part.Level{part.Warning, part.Danger}, Why: "off the direction it was set for: over 15° warning, over 45° refused [ours]", Values: []string{"off", "side", "most"}},
	{ID: "anchor-direction-unknown", Levels: []part.Level{part.Caution}, Why: "its side-load is not known before the direction it was set for is [ours]"},
	{ID: "anchor-impossible", Levels: []part.Level{part.Danger}, Why: "a negative size, weight or hold, or none that is a number"},
	{ID: "anchor-kind-unknown", Levels: []part.Level{part.Warning}, Why: "no hold before its kind is known [ours]"},
	{ID: "boulder-lifted", Levels: []part.Level{part.Caution, part.Danger}, Fact: string(facts.BoulderFriction), Why: "a line that lifts takes weight off the boulder", Values: []string{"rise"}},
	{ID: "boulder-mass-odd", Levels: []part.Level{part.Warning}, Fact: string(facts.BoulderDensity), Why: "more than twice what rock of its drawn size weighs: half of it may lie in the ground (ours)", Values: []string{"mass", "most"}},
	{ID: "boulder-mass-unknown", Levels: []part.Level{part.Warning}, Fact: string(facts.BoulderDensity), Why: "no weight, no hold"},
	{ID: "boulder-slides", Levels: []part.Level{part.Danger}, Fact: string(facts.BoulderFriction), Why: "the ground falls so steeply toward the pull that it may slide by itself", Values: []string{"slope"}},
	{ID: "deadman-line-flat", Levels: []part.Level{part.Notice}, Fact: string(facts.DeadmanUndercut), Why: "it bends over the trench's lip, where a log belongs under it", Values: []string{"rise", "trench", "run"}},
	{ID: "deadman-line-steep", Levels: []part.Level{part.Caution, part.Warning}, Fact: string(facts.DeadmanSlope), Why: "a line that rises out of its trench lifts the log: the steeper slope counts; warning where the table gives less for it", Values: []string{"rise", "trench", "run"}},
	{ID: "deadman-outside-table", Levels: []part.Level{part.Danger}, Fact: string(facts.DeadmanLoam), Why: "3 to 7 ft deep, slope 1:1 to 1:4; nothing outside", Values: []string{"depth", "run"}},
	{ID: "deadman-set-back", Levels: []part.Level{part.Notice}, Fact: string(facts.DeadmanSetBack), Why: "from the log to where its line leaves the ground", Values: []string{"back"}},
	{ID: "deadman-size-unknown", Levels: []part.Level{part.Warning}, Fact: string(facts.DeadmanLoam), Why: "depth, length and diameter are needed"},
	{ID: "deadman-slender", Levels: []part.Level{part.Warning}, Fact: string(facts.DeadmanSlenderLog), Why: "a slender log breaks before the ground gives", Values: []string{"ratio", "most", "length"}},
	{ID: "deadman-slope-unknown", Levels: []part.Level{part.Notice}, Fact: string(facts.DeadmanSlopeUnknown), Why: "counts as 1:1, the worst"},
	{ID: "deadman-too-short", Levels: []part.Level{part.Danger}, Fact: string(facts.DeadmanTrenchFM), Why: "the trench of its line leaves no face", Values: []string{"length", "trench"}},
	{ID: "hold-beyond-table", Levels: []part.Level{part.Caution, part.Warning}, Fact: string(facts.HoldBeyond), Why: "a typed hold over 1.5 times the high end of what is reckoned; caution with a source [ours]", Values: []string{"hold", "table"}},
	{ID: "hold-in-water", Levels: []part.Level{part.Warning}, Why: "soil full of water holds half and less; nobody vouches for the typed hold [ours]", Values: []string{"hold"}},
	{ID: "hold-low-unknown", Levels: []part.Level{part.Warning}, Why: "a measured hold without its low end has no limit [ours]"},
	{ID: "hold-thin-stem", Levels: []part.Level{part.Warning}, Fact: string(facts.TreeThin), Why: "nobody vouches for the typed hold of so thin a stem [ours]", Values: []string{"hold", "diameter", "least"}},
	{ID: "no-rating", Levels: []part.Level{part.Warning}, Why: "no rating, no limit: never within one [ours]"},
	{ID: "obstacle-no-anchor", Levels: []part.Level{part.Danger}, Why: "only what is marked as anchor may be one [ours]"},
	{ID: "pickets-in-sand", Levels: []part.Level{part.Danger}, Fact: string(facts.PicketSoilUnknown), Why: "the loam table is never used in loose dry sand"},
	{ID: "pickets-layout-unknown", Levels: []part.Level{part.Warning}, Fact: string(facts.PicketLayout1), Why: "rows do not add: no other layout is reckoned"},
	{ID: "pickets-lifted", Levels: []part.Level{part.Warning}, Fact: string(facts.PicketLean), Why: "a line that rises more than the pickets lean draws them out [ours]", Values: []string{"rise", "most"}},
	{ID: "rating-impossible", Levels: []part.Level{part.Danger}, Why: "a negative rating, or none that is a number"},
	{ID: "rating-odd", Levels: []part.Level{part.Warning}, Why: "a working load of a hundred tons, or five times that to break, is no point for vehicles [ours]", Values: []string{"rating", "most"}},
	{ID: "rating-unsaid", Levels: []part.Level{part.Notice}, Why: "a rating that is not said to be working counts as breaking, the lower allowance [ours]", Values: []string{"rating"}},
	{ID: "soil-unknown", Levels: []part.Level{part.Notice}, Fact: string(facts.TreeSoilUnknown), Why: "soil the anchor's table does not know counts as its lowest"},
	{ID: "tree-dead", Levels: []part.Level{part.Danger}, Fact: string(facts.TreeDead), Why: "dead or rotten trees snap without a sign", Values: []string{"health"}},
	{ID: "tree-doubtful", Levels: []part.Level{part.Danger}, Fact: string(facts.TreeRootRot), Why: "a doubtful tree has no hold"},
	{ID: "tree-extrapolated", Levels: []part.Level{part.Caution}, Why: "the stem is heavier than any pulled for the table (parameters of a published wind-risk model)", Values: []string{"stem", "tested"}},
	{ID: "tree-girth-assumed", Levels: []part.Level{part.Notice}, Fact: string(facts.TreeTaper), Why: "the low end of the taper from the strap to breast height", Values: []string{"diameter", "trunk", "taper"}},
	{ID: "tree-girth-doubtful", Levels: []part.Level{part.Caution}, Fact: string(facts.TreeTaperLeast), Why: "a stem is thinner at breast height than at a strap below it, and not under half as thick [ours]", Values: []string{"diameter", "trunk"}},
	{ID: "tree-health-unknown", Levels: []part.Level{part.Warning}, Fact: string(facts.TreeDead), Why: "what to look at before a tree is an anchor"},
	{ID: "tree-moved", Levels: []part.Level{part.Warning}, Fact: string(facts.TreeMovedShare), Why: "half of the hold is left", Values: []string{"share"}},
	{ID: "tree-roots-unknown", Levels: []part.Level{part.Notice}, Fact: string(facts.TreeDeepRoots), Why: "count as shallow"},
	{ID: "tree-size-unknown", Levels: []part.Level{part.Warning}, Why: "girth or trunk, and height, are needed [ours]"},
	{ID: "tree-soil-not-in-table", Levels: []part.Level{part.Warning}, Why: "the table has no figure for this species on this soil"},
	{ID: "tree-species-unknown", Levels: []part.Level{part.Notice}, Fact: string(facts.TreeUnknownConiferMoment), Why: "counts as the lowest of the table"},
	{ID: "tree-stop", Levels: []part.Level{part.Danger}, Fact: string(facts.TreeStopTilt), Why: "its base has moved one degree: stop"},
	{ID: "tree-strap-high", Levels: []part.Level{part.Caution}, Fact: string(facts.TreeStrapHeightFloor), Why: "twice as high holds half", Values: []string{"height", "least"}},
	{ID: "tree-trunk-assumed", Levels: []part.Level{part.Notice}, Fact: string(facts.TreeTaper), Why: "the thickest the trunk may be at the strap, by its girth", Values: []string{"trunk", "diameter", "taper"}},
	{ID: "tree-untested", Levels: []part.Level{part.Caution}, Why: "no stem of this species and soil is known to have been pulled for the table", Values: []string{"stem"}},
	{ID: "vehicle-hold-unknown", Levels: []part.Level{part.Warning}, Why: "what makes it slide is not known [ours]"},
	{ID: "vehicle-holds-nothing", Levels: []part.Level{part.Danger}, Why: "it moves at any pull"},
	{ID: "vehicle-not-braked", Levels: []part.Level{part.Danger}, Why: "a vehicle that rolls is no anchor [ours]"},
}
