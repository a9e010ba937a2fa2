// Package exercise asks questions about a rig that a student answers from the
// page, with protractor, ruler and the sums that are taught: which can be asked,
// what is right, by how much a reading on paper may be out, what usual mistakes
// give, and what has to be left off the page because it gives an answer away.
//
// It draws nothing. The answers are the solver's; a question whose answer does
// not follow from the page is refused, with the reason.
//
//	m := exercise.Of(p, "R1", w)
//	x, err := m.Work([]exercise.Question{{Kind: exercise.AskAngle, Part: "B1"}}, nil, 200)
//	_, _, _ = x.Known, x.Asked, x.Blank
package exercise
