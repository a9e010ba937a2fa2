package remedy

// All are the word ids of all remedies: true if there is a button, false
// for one that is only said.
func All() map[string]bool {
	all := make(map[string]bool, len(remedies)+len(noButton))
	for id := range remedies {
		all[id] = true
	}
	for id := range noButton {
		all[id] = false
	}
	return all
}
