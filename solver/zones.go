package solver

// zones asks where a parting line or a thrown part can reach, and who stands
// there.
func (a *assessor) zones(empty bool) {
}
