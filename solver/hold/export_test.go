package hold

// Moments are the two moments of a tree, as [Tree] takes them, whatever its
// health. ok is false if its size is not known or its soil not in the table.
func Moments(in TreeIn) (m TreeMoments, ok bool) {
	t, ok := in.stem(nil, nil)
	if !ok {
		return m, false
	}
	return t.moments(nil, nil), true
}
