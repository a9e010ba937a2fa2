package gear

// BendShare is the share of the strength that a line keeps at a bend of ratio D/d.
func BendShare(material string, ratio float64) (share float64, ok bool) {
	f, ok := bendKeeps(material, ratio)
	return f.X, ok
}
