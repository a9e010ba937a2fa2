// Package solver answers one question: what does each part of this rig carry,
// what may it carry, and who stands where a part could reach?
//
//	a := solver.Assess(p, p.Rigs[0].ID)
//	for _, f := range a.Findings { … }
//
// [Assess] is a pure function of the plan and of the handbook rows built into
// the program. It solves cold from the drawn places every time, so the figure
// under the pointer is the figure of the command line, whatever was dragged
// before. It asks the packages in order — terrain, effort, statics, gear, hold,
// zone — and gathers parts and findings; the packages never ask each other.
//
// # Model and its limits
//
// Lines run straight between points, without weight or sag. Sheaves have no
// radius. A strap round a trunk lies in one plane and slides round it freely,
// so its apex lies where the forces put it, at its true length. Vehicles stand
// still at the drawn pose. What is not covered is not computed, and says so.
//
// [Explain] is Assess for one part with a recorder: the last step of its sum
// is the figure of the assessment, bit for bit.
package solver
