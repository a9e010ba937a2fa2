// Package plan is the document: one site, and one or more rigs that pull on
// it. It holds what a person fixed; nothing computed is ever stored.
//
// # Model
//
// A [Plan] is a value. Once handed on it is immutable: an edit copies the
// slices it changes and shares the rest, so that undo is a list of plans and a
// plan can be read by several goroutines at once.
//
// A positive quantity (mass, length, rating) of zero means "not known", and so
// does an empty word: whoever computes from it must say that it does not know,
// never assume. Members listed in [Head.Presets] still have the value the
// program proposed; members listed in [Head.Doubts] carry a range.
//
// # Axes and units
//
// x east, y north, z up, metres; the ground is a plane through the origin,
// [Ground]; a thing's Rise is how far its base stands above (below, negative)
// that plane. Angles are degrees, bearings clockwise from north. Points on a
// vehicle are measured from the middle of its footprint, ahead and to the left.
//
// # References
//
// A [Port] names a hook-on point: a thing of the site or of the same rig, and
// a point on it where the thing has several. Ids are unique in the whole site
// and within each rig; a rig's ids differ from the site's.
//
// # The file
//
// JSON, UTF-8, two spaces, members in the order of the types, SI units in the
// members' names. A file that [FormatPlan] wrote comes back byte for byte.
// Members this version does not know are kept raw, except in a [Point] and a
// [Port], whose objects are closed and refuse them. [ParsePlan] takes files
// from unknown senders: it bounds their size, nesting and counts before it builds
// anything (see [MaxBytes] and its like), and refuses doubled members, what
// follows the end, broken UTF-8, null, numbers that are absurd ([Validate]) and
// references to nothing. A file whose "min_reader" is above [CurrentVersion] is
// refused; one whose "version" alone is above is read, and keeps its version
// when it is written again.
//
// What the file says and this program does not understand is listed by
// [UnknownMembers] and [UnknownWords]; an answer from such a plan is incomplete.
//
// # Evidence
//
// What was seen and told of a pull that went wrong stands with its rig, "incident"
// ([Incident]): lettered pins, each of a kind and with how it is known, and what was
// held likely before. It changes no load, limit or zone, so that a reader that does not
// know it answers all else alike.
//
//	"incident": {
//	  "pins": [
//	    {"id": "A", "kind": "found broken", "about": "S1", "known": "observed", "source": "instructor"},
//	    {"id": "B", "kind": "first landing mark", "about": "B1", "known": "observed", "trace_m": 14, "mass_kg": 4.2},
//	    {"id": "C", "kind": "tension", "known": "told", "low_n": 38000, "high_n": 52000, "source": "driver"}
//	  ],
//	  "priors": [{"about": "S1", "hypothesis": "cut", "prior": 0.1}],
//	  "none_prior": 0.1
//	}
//
// # Pictures
//
// A picture to trace lies by its middle, scale and turn; or by "measured_points", four or
// more, each where it is in the picture and where it was measured on the ground
// ([FitPicture]). "original_name" and "original_sha256" tell the file it was taken from.
//
//	"measured_points": [
//	  {"name": "peg 1", "right_px": 219.9, "down_px": 700.1, "at": {"x_m": 10, "y_m": 6}, "doubt_m": 0.1},
//	  …
//	]
//
// # The smallest example
//
//	p, err := plan.ParsePlan(data)
//	data, err = plan.FormatPlan(p) // the same bytes, if data was canonical
package plan
