// Package form is what can be entered of a thing: its fields as the Details
// panel shows them, and the plan as it is when a text was typed into one.
// Everything is a pure function of plan, rig, words and assessment.
package form
