package statics

// Has reports whether the result carries a flag of this kind about A.
func (r *Result) Has(kind FlagKind, a int) bool {
	for _, f := range r.Flags {
		if f.Kind == kind && f.A == a {
			return true
		}
	}
	return false
}
