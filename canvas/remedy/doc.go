// Package remedy is the edits that answer a finding: each a pure function from
// a plan, its rig and the kit to the plan as it is then, or to the field that is
// to be typed into, or to a sentence why there is neither.
package remedy
