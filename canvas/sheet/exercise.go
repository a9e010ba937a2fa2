package sheet

type exercise struct{}
