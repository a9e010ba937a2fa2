package part

import "cmp"

// WorstFirst orders parts for every list of them: those over their limit, then
// those of which nothing was computed, then those that may yet be over one that
// is not known or not decided, then the others by their share, and what is slack
// last. It is no order of what gives first.
func WorstFirst(p, q *Part) int {
	return cmp.Or(cmp.Compare(p.Status.concern(), q.Status.concern()), cmp.Compare(q.Most(), p.Most()))
}

// concern is a status by how much it asks to be looked at, the most first.
func (s Status) concern() int {
	switch s {
	case Over:
		return 0
	case NoLimit, Undecided:
		return 2
	case Near, Within:
		return 3
	case Slack:
		return 4
	}
	return 1
}
