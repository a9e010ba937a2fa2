// Package part is the vocabulary of answers: what the packages of the solver say
// about the parts of a rig, and what is drawn, listed and printed from it.
//
// A part is any single piece that carries load. Every answer carries a status
// and the zero value of a status is "not computed": nothing here looks within
// a limit by being left out.
//
// The package makes no sentences. A [Finding] is an id, a level, the things it
// concerns and named values; a [Derivation] is formula ids with their operands. Words
// are made from them elsewhere, in any language and any system of units.
//
// Vectors are [x east, y north, z up], in newtons for forces, metres for
// places.
package part
