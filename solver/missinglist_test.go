package solver_test

import "strings"

// elsewise are the members whose absence says something else than that they are
// not known, and what. Keys are the list of the thing and the member below it.
var elsewise = map[string]string{
	// Switches: absent is no.
	"anchors.base_moved": "it has not moved", "anchors.pulled_before": "it was not",
	"anchors.set_known": "it was set for no direction", "anchors.set_bearing_deg": "it was set for no direction",
	"lines.paid_out": "it is not", "lines.wet": "it is dry", "lines.elastic": "its stretch is not asked for",
	"people.in_vehicle": "sits in none", "people.cover": "has none",
	"shackles.pin_on_running_line": "it is not", "shackles.round_pin": "it is not",
	"vehicles.casualty": "it is not to be moved", "vehicles.chocks": "none lie there", "vehicles.foot_brake": "nobody is on it", "vehicles.in_gear": "it is not",
	"vehicles.casualty.in_water": "it is dry", "vehicles.casualty.overturned": "it stands", "vehicles.casualty.own_drive": "it is not used",
	"vehicles.casualty.back_the_way_it_came": "it is another way", "vehicles.casualty.locked_wheels": "none", "vehicles.casualty.suction_n": "none",
	"vehicles.casualty.trapped_water_kg": "the handbook's", "vehicles.load_kg": "it is empty",
	"vehicles.winch.engine_off": "it runs", "vehicles.winch.no_fairlead": "there is one", "vehicles.winch.limiter_n": "there is none",
	"obstacles.may_serve_as_anchor": "it does not", "obstacles.see_over": "they do not",

	// Figures that overrule what else counts.
	"anchors.soil": "the ground's", "anchors.rise_m": "it stands on the ground", "vehicles.rise_m": "it stands on the ground", "vehicles.grip": "the ground's",
	"anchors.hold_low_n": "the tables'", "anchors.hold_likely_n": "the tables'", "anchors.hold_high_n": "the tables'", "anchors.hold_source": "a reason, no input",
	"anchors.trunk_m": "by the girth", "anchors.girth_m": "by the trunk", "anchors.species": "the lowest of all",
	"recovery_points.max_angle_deg": "by its kind, full to 15°", "blocks.efficiency": "by its kind, the low end", "blocks.ring_friction": "by its material, both ends",
	"lines.tension_n": "what the pull needs", "lines.winch_share": "by line pull", "lines.stiffness_ae_n": "by material, both ends", "lines.mass_kg_per_m": "by material",
	"vehicles.casualty.measured_resistance_n": "the rules'", "vehicles.casualty.breakaway_factor": "the handbook's", "vehicles.casualty.surface": "the ground's",
	"vehicles.casualty.plan_on": "high", "vehicles.casualty.rule": "the one that gives the end", "vehicles.casualty.way": "forward", "vehicles.brake_force_n": "by grip",
	"vehicles.winch.stall_factor": "the handbook's high end", "vehicles.winch.min_wraps": "the handbook's",
	"rigs.stand_off_factor": "1", "rigs.travel_shown_m": "as drawn", "rigs.basis": "pulling", "slings.standard": "EN, the lower",

	// What a rig is made of: without it, it is another rig.
	"blocks.fixed": "it hangs from its slings", "slings.on": "it is loose", "slings.holds": "it holds nothing", "slings.use": "it is in the pull", "lines.use": "it pulls",
	"lines.knots": "there is none",
}

// saysSomethingElse reports whether a member's absence is no lack.
func saysSomethingElse(path string) bool {
	list, rest := splitMember(path)
	switch {
	case rest == "presets" || strings.HasSuffix(rest, ".presets"):
		return true // a mark that nobody read the figure, no figure
	case strings.HasPrefix(rest[strings.LastIndexByte(rest, '.')+1:], "later_") || rest == "site.wind_m_per_s":
		return true // what this version does not know
	}
	return elsewise[list+"."+rest] != ""
}

// instead are the findings that say in the place of another that it cannot be
// told, or more than it does.
var instead = map[string][]string{
	"current-pushes":         {"current-not-computed"},
	"line-over":              {"line-bears"}, // a point of unknown height counts as on the ground
	"line-over-low":          {"line-bears", "line-over"},
	"near-limit":             {"over-limit", "over-to-break-loose"}, // a rating of unknown basis counts as breaking
	"slack-sling":            {"leg-takes-up"},
	"bystander-in-stand-off": {"person-in-zone"}, // a zone that grows takes in who stood beside it
	"person-in-stand-off":    {"person-in-zone"},
	"cover-not-there":        {"person-in-zone"}, // no cover counts there
	"near-to-break-loose":    {"over-limit", "over-to-break-loose"},
	"over-to-break-loose":    {"over-limit"},
	"stall-near":             {"stall-breaks"},
	"person-in-zone":         {"person-in-zone-no-way"}, // the ring of what nobody named is the widest
	"operator-bound-to-zone": {"operator-bound-to-zone-no-place", "operator-out-of-reach-no-place"},
	"operator-out-of-reach":  {"operator-out-of-reach-no-place"},
	"person-in-vehicle":      {"person-in-zone"}, // who sits in nothing known stands there
	"screw-untested":         {"screw-off-axis"}, // a point of unknown height counts as on the ground: the pull lies off the axis
	"unknown-words":          {"line-material-unknown"},
}

// with are the rules that another decides for: what holds a casualty back is
// judged where it rolls.
var with = map[string]string{
	"downhill-pull-unknown": "downhill-pull", "rolls-by-itself-unknown": "rolls-by-itself",
	"hold-back-askew": "rolls-by-itself", "hold-back-fixed": "rolls-by-itself",
}

// against are the rules that set one typed figure against another, and the
// figures without which there is nothing to contradict: as for every thing of
// which nobody typed them.
var against = map[string]map[string]bool{
	"boulder-mass-odd":      set("height_m"),
	"connector-beyond-line": set("connector", "connector.rating", "diameter_m"),
	"sheave-beyond-head":    set("sheave_diameter_m", "head_m"),
	"figures-odd":           set("length_m", "width_m", "height_m", "wheelbase_m", "front_overhang_m", "track_m", "cg_height_m", "cg_behind_front_axle_m"),
	"mass-against-size":     set("length_m", "width_m"),
	"slope-against-heights": set("slope_deg", "z_m", "site.survey"),
	"vehicles-overlap":      set("length_m", "width_m"),
	"tree-in-vehicle":       set("length_m", "width_m"),
	"winch-speed-odd":       set("winch.load_speed_m_per_s", "winch.no_load_speed_m_per_s", "winch"),
}

// byLoads are the rules that need the loads.
var byLoads = set("over-limit", "near-limit", "no-limit", "over-to-break-loose", "near-to-break-loose", "stall-breaks", "stall-near",
	"winch-over", "winch-duty", "does-not-move", "does-not-break-loose", "tie-back-weak", "tie-back-no-limit", "hold-back-weak", "hold-back-no-limit",
	"vehicle-slides", "vehicle-slides-at-stall", "vehicle-near-sliding", "vehicle-turns", "axle-lifts", "tips-sideways", "tips-at-stall", "tree-may-fall", "zone-not-drawn")

// byPlace are the rules that need where a block hangs, or where legs meet: what
// [shifts] decides that. Without it they speak of the place that is drawn, or of
// where the block then hangs.
var byPlace = set("bridle-wide", "shackle-legs-wide", "shackle-side-pull", "shackle-round-pin", "point-side-pull", "line-bears", "line-near", "line-on-trunk", "strap-bears",
	"line-cannot-pass", "winch-lead", "anchor-aside", "drum-overfull", "off-way-out-refused", "too-short", "slack-sling", "shared-slings", "leg-takes-up")

// shifts are the members by which what is held hangs elsewhere, and stands to its lines
// otherwise. A head is a hand long: what hangs on it alone is barely raised.
var shifts = set("length_m of slings", "hitch of slings", "height_m of slings", "kind of blocks", "head_m of blocks")

func set(ids ...string) map[string]bool {
	m := map[string]bool{}
	for _, id := range ids {
		m[id] = true
	}
	return m
}
