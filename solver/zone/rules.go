package zone

import "kedge/solver/part"

// Rules are the findings this room can raise, by id. Read-only.
var Rules = []part.Rule{
	{ID: "bystander-in-stand-off", Levels: []part.Level{part.Danger}, Fact: "standoff.rule-d", Values: []string{"from", "end", "way", "toward"}},
	{ID: "bystander-in-stand-off-no-way", Levels: []part.Level{part.Danger}, Fact: "standoff.rule-d", Values: []string{"from", "end"}},
	{ID: "cover-free-text", Levels: []part.Level{part.Caution}, Why: "a cover is checked against what stands on the site; a text counts for nothing", Values: []string{"text"}},
	{ID: "cover-not-there", Levels: []part.Level{part.Caution}, Fact: "cover.trunk", Values: []string{"why"}},
	{ID: "damper-at-join", Levels: []part.Level{part.Notice}, Fact: "damper.place", Values: []string{"join", "near"}},
	{ID: "damper-missing", Levels: []part.Level{part.Notice}, Fact: "damper.place", Values: []string{"missing", "of", "from"}},
	{ID: "driver-on-foot", Levels: []part.Level{part.Caution}, Why: "a driver outside a vehicle counts as a bystander, the strictest role", Values: nil},
	{ID: "no-sight", Levels: []part.Level{part.Warning}, Why: "operator and spotter need sight of each other", Values: nil},
	{ID: "operator-bound-to-zone", Levels: []part.Level{part.Warning}, Why: "the cable of the winch decides where it can be worked from", Values: []string{"reach", "place", "toward"}},
	{ID: "operator-bound-to-zone-no-place", Levels: []part.Level{part.Warning}, Why: "the cable of the winch decides where it can be worked from", Values: []string{"reach"}},
	{ID: "operator-not-in-cab", Levels: []part.Level{part.Warning}, Why: "a winch worked from the cab is worked from inside the recoil", Values: nil},
	{ID: "operator-out-of-reach", Levels: []part.Level{part.Warning}, Why: "the cable of the winch decides where it can be worked from", Values: []string{"from", "reach", "place", "toward"}},
	{ID: "operator-out-of-reach-no-place", Levels: []part.Level{part.Warning}, Why: "the cable of the winch decides where it can be worked from", Values: []string{"from", "reach"}},
	{ID: "person-in-pocket", Levels: []part.Level{part.Danger}, Why: "who can leave only through a zone is inside it", Values: []string{"zone"}},
	{ID: "person-in-stand-off", Levels: []part.Level{part.Warning}, Fact: "standoff.rule-a", Values: []string{"from", "end", "way", "toward"}},
	{ID: "person-in-stand-off-no-way", Levels: []part.Level{part.Warning}, Fact: "standoff.rule-a", Values: []string{"from", "end"}},
	{ID: "person-in-vehicle", Levels: []part.Level{part.Notice, part.Warning, part.Danger}, Why: "a cab is no cover: a bystander in a car is a bystander; only who steers may sit in the ring", Values: []string{"zone"}},
	{ID: "person-in-zone", Levels: []part.Level{part.Danger}, Why: "nobody stands in bight, recoil, release, tree fall, roll-away, slide path or the casualty's way", Values: []string{"zone", "zones", "way", "toward"}},
	{ID: "person-in-zone-no-way", Levels: []part.Level{part.Danger}, Why: "nobody stands in bight, recoil, release, tree fall, roll-away, slide path or the casualty's way", Values: []string{"zone", "zones"}},
	{ID: "person-not-placed", Levels: []part.Level{part.Danger}, Why: "a place that is no number is never outside", Values: nil},
	{ID: "recoil-energy", Levels: []part.Level{part.Notice}, Fact: "energy.hazardous", Values: []string{"energy", "stall", "speed"}},
	{ID: "recoil-energy-at", Levels: []part.Level{part.Notice}, Fact: "energy.hazardous", Values: []string{"pull", "energy"}},
	{ID: "recoil-energy-only", Levels: []part.Level{part.Notice}, Fact: "energy.hazardous", Values: []string{"energy", "stall"}},
	{ID: "recoil-not-computed", Levels: []part.Level{part.Notice}, Why: "tension, stiffness or length not known; the zones are drawn all the same", Values: nil},
	{ID: "role-not-known", Levels: []part.Level{part.Caution}, Why: "a role that is not known counts as a bystander, the strictest", Values: nil},
	{ID: "sight-blocked", Levels: []part.Level{part.Warning}, Why: "operator and spotter need sight of each other", Values: []string{"by"}},
	{ID: "stand-off-covered", Levels: []part.Level{part.Notice}, Fact: "standoff.rule-a", Values: []string{"from", "end"}},
	{ID: "stand-off-not-lowered", Levels: []part.Level{part.Caution}, Fact: "standoff.least", Values: []string{"wanted", "used"}},
	{ID: "tree-height-not-known", Levels: []part.Level{part.Caution}, Fact: "tree-fall.height-unknown", Values: []string{"height"}},
	{ID: "tree-may-fall", Levels: []part.Level{part.Warning}, Fact: "tree-fall.from-share", Values: []string{"reach"}},
	{ID: "vehicle-not-there", Levels: []part.Level{part.Caution}, Why: "the vehicle a person sits in is not on the site; the drawn place counts", Values: nil},
	{ID: "zone-not-drawn", Levels: []part.Level{part.Danger}, Why: "a zone that cannot be drawn never vanishes without a word", Values: []string{"zone"}},
}
