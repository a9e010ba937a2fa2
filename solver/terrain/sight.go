package terrain

import (
	"kedge/solver/part"
	"kedge/solver/plan"
)

// Blocked is the place in shapes of the first obstacle that keeps two people
// from seeing each other, -1 if none does. Any obstacle between them does unless
// it is marked as one people see across; how high it is does not count, since
// nobody measures an eye. One that either stands in does too.
func Blocked(a, b plan.Point, shapes []Shape) int {
	for i := range shapes {
		if !shapes[i].SeeOver && shapes[i].Contact(a, b).Touches {
			return i
		}
	}
	return -1
}

// Walk is what a straight walk meets first in each list: the place of the first
// stretch it crosses and of the first obstacle it runs into, -1 for none. A
// stretch is crossed however high it hangs.
func Walk(from, to plan.Point, stretches []part.Stretch, shapes []Shape) (stretch, shape int) {
	stretch, shape = -1, -1
	for i := range stretches {
		s := &stretches[i]
		if plan.SegmentsMeet(from, to, plan.Point{X: s.A[0], Y: s.A[1]}, plan.Point{X: s.B[0], Y: s.B[1]}) {
			stretch = i
			break
		}
	}
	for i := range shapes {
		if shapes[i].Contact(from, to).Touches {
			shape = i
			break
		}
	}
	return stretch, shape
}
