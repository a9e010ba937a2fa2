package words

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"

	"kedge/solver/part"
)

// Entry is a word of the trade: what it is called here, what it is, and what else
// people call it.
type Entry struct {
	ID, Name, Is string
	Also         []string
}

// Glossary are the words of the trade, by name.
func (w *Words) Glossary() []Entry {
	var all []Entry
	for k := range w.base.texts {
		if k.section == termSection {
			all = append(all, w.Entry(k.id))
		}
	}
	slices.SortFunc(all, func(a, b Entry) int {
		return cmp.Or(cmp.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)), cmp.Compare(a.ID, b.ID))
	})
	return all
}

// Entry is one word of the trade; one without a name if there is no such word.
func (w *Words) Entry(id string) Entry {
	e := Entry{ID: id}
	term, _ := w.text(termSection, id, "")
	e.Name, e.Is, _ = strings.Cut(term, ": ")
	wide, _, _ := strings.Cut(w.base.texts[key{termSection, id, ""}], ": ")
	if w.swap != nil && wide != e.Name { // what the language calls it outside the region
		e.Also = append(e.Also, wide)
	}
	for _, section := range []string{calledSection, searchSection} {
		names, ok := w.text(section, id, "")
		for name := range strings.SplitSeq(names, ", ") {
			if ok && bare(name) != bare(e.Name) && !slices.Contains(e.Also, name) {
				e.Also = append(e.Also, name)
			}
		}
	}
	return e
}

// Hint is a name with what else people call the thing, for a tooltip: the name alone
// if it is no word of the trade.
func (w *Words) Hint(name, term string) string {
	if e := w.Entry(term); len(e.Also) > 0 {
		return w.Label("also-called", part.Text("name", name), part.Text("also", strings.Join(e.Also, ", ")))
	}
	return name
}

// Finder finds texts by what somebody types: by the words themselves and by any name
// in any language for what they are about.
type Finder struct {
	kin [][]string // bare names of one thing
}

// NewFinder reads every language's names once.
func NewFinder() (*Finder, error) {
	kin := map[string][]string{}
	for _, lang := range Languages() {
		w, err := New(lang, 0)
		if err != nil {
			return nil, err
		}
		for k, text := range w.own.texts {
			switch k.section {
			case termSection:
				name, _, _ := strings.Cut(text, ": ")
				kin[k.id] = append(kin[k.id], bare(name))
			case calledSection, searchSection:
				for name := range strings.SplitSeq(text, ",") {
					kin[k.id] = append(kin[k.id], bare(name))
				}
			}
		}
	}
	f := &Finder{}
	for _, id := range slices.Sorted(maps.Keys(kin)) {
		names := append(kin[id], bare(id))
		slices.Sort(names)
		f.kin = append(f.kin, slices.Compact(names))
	}
	return f, nil
}

// Sought is what somebody looks for: of each word or name typed, all that it may be
// called.
type Sought []wanted

type wanted struct {
	typed string   // bare
	also  []string // bare; what was typed is none of them
}

// leastTyped is how many letters of another name say which is meant.
const leastTyped = 3

// Seek reads what was typed: at each place the longest name that is known, or begun,
// else the word itself.
func (f *Finder) Seek(typed string) (s Sought) {
	for parts := strings.Fields(typed); len(parts) > 0; {
		n, w := 1, wanted{typed: bare(parts[0])}
		for long := min(len(parts), mostWords); long > 0; long-- {
			name := bare(strings.Join(parts[:long], ""))
			if also := f.kinOf(name, long == len(parts)); also != nil {
				n, w = long, wanted{name, also}
				break
			}
		}
		if w.typed != "" {
			s = append(s, w)
		}
		parts = parts[n:]
	}
	return s
}

// kinOf are all names of what a bare name, or the beginning of one, stands for.
func (f *Finder) kinOf(name string, begun bool) (all []string) {
	for _, names := range f.kin {
		if slices.ContainsFunc(names, func(n string) bool {
			stem, ok := strings.CutPrefix(name, n)
			return ok && slices.Contains(endings, stem) || begun && len(name) >= leastTyped && strings.HasPrefix(n, name)
		}) {
			all = append(all, names...)
		}
	}
	return all
}

// How near a text is to what was typed.
const (
	nearBegins     = iota // it begins so
	nearWord              // a word of it does
	nearHolds             // it holds it somewhere
	nearAlsoBegins        // it begins with another name
	nearAlso              // a word of it does
	notNear
)

// Farthest is above how far anything that is found is.
const Farthest = notNear

// In says how near a text is to what was sought, 0 the nearest, and whether all of it
// is there.
func (s Sought) In(text string) (far int, ok bool) {
	whole, tails := bare(text), bareTails(text)
	for _, w := range s {
		far = max(far, w.in(whole, tails))
	}
	return far, far < notNear
}

// in is how near a bare text is, with its tails.
func (w *wanted) in(whole string, tails []string) int {
	beginsWord := func(name string) bool {
		return slices.ContainsFunc(tails, func(tail string) bool { return strings.HasPrefix(tail, name) })
	}
	switch at := strings.Index(whole, w.typed); {
	case at == 0:
		return nearBegins
	case beginsWord(w.typed):
		return nearWord
	case at > 0 && len(w.typed) >= leastTyped:
		return nearHolds
	case slices.ContainsFunc(w.also, func(a string) bool { return strings.HasPrefix(whole, a) }):
		return nearAlsoBegins
	case slices.ContainsFunc(w.also, beginsWord):
		return nearAlso
	}
	return notNear
}

// bareTails are each word of a text but the first with what follows it, bare.
func bareTails(text string) (tails []string) {
	for {
		i := strings.IndexAny(text, " \u00a0\u202f-·(/<>")
		if i < 0 {
			return tails
		}
		_, n := utf8.DecodeRuneInString(text[i:])
		text = text[i+n:]
		tails = append(tails, bare(text))
	}
}
