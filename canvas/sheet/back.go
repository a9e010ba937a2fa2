package sheet

import "slices"

// several reports whether a handout has sheets of more than one kind: the cautions
// then stand on its first page, else behind its last. What holds answers is a
// handout of its own, and so is each variant of an exercise.
func (m *maker) several(key bool, variant int) bool {
	if key || variant > 0 {
		return false
	}
	n := 0
	for _, k := range slices.Compact(slices.Sorted(slices.Values(m.o.Sheets))) {
		if !k.forTeacher() && (k != Exercise || m.o.Variants <= 1) {
			n++
		}
	}
	return n > 1
}

// keyed tells a sheet with answers whose cautions stand behind the key that follows it.
func (m *maker) keyed(k Kind) bool {
	return k.forTeacher() && m.o.Variants <= 1 && (slices.Contains(m.o.Sheets, Key) || slices.Contains(m.o.Sheets, Errors))
}

// back sets the cautions and what is not checked behind a handout that has them not
// on its first page: on its last page if there is room, else on its back.
func (m *maker) back(k Kind) error {
	f, err := m.begin(m.columned(&flow{m: m, kind: k, name: m.w.Label("title-cautions"), bare: true}))
	if err != nil {
		return err
	}
	f.g.Level = 1
	if err := f.items("–", m.w.Cautions()); err != nil {
		return err
	}
	if f.col+1 < f.cols { // beside one another
		if err := f.next(); err != nil {
			return err
		}
	}
	if err := f.title(m.w.Label("title-not-checked")); err != nil {
		return err
	}
	return f.items("–", m.w.NotChecked())
}
