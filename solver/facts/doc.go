// Package facts is the handbook: every number the program takes from a
// book, a standard, a rule of the trade or its own judgement is a row here,
// with its public source and how sure it is.
//
// The rows are TOML files built into the program (package assets). They are
// decoded and checked once, are read-only afterwards and sorted by id.
// Revision is a hash of their bytes, printed with every answer, so that two
// answers from different handbooks can be told apart.
//
// A row is one figure, a range low ≤ likely ≤ high, or a table. A table
// answers only the way its source allows: Step for bands and printed steps,
// Interp where the source is a curve, and neither outside the printed range:
// they then report false, and what asked must say "not computed".
//
// Where sources disagree every one of them is a row; they share a Choice and
// the one that errs on the conservative side is marked Default. Nothing is
// averaged.
//
// Units: a row says its own (Unit); ToSI is the factor to metres, kilograms,
// newtons, joules, radians excepted: angles stay degrees. The key columns of
// a table carry their unit in the column's name and are not scaled.
//
// The smallest use:
//
//	row := facts.Must(facts.GripGravel)
//	grip := row.Low // 0.35, Source and Confidence beside it
//
// The same package decodes a gear list (ParseGear): the starter list built
// in, and the user's own, which may add but never silently replace.
package facts
