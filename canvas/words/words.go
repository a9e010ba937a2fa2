package words

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"kedge/assets"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// Words is one language with one choice of units. It is read-only and may be
// shared by any number of goroutines. The zero value has no texts: it shows
// ids in brackets.
type Words struct {
	lang string
	sys  quantity.System
	own  *catalogue // of lang
	base *catalogue // English; the same as own if that is the language
	swap swaps      // of a region: what it says instead of the language's words

	comma bool // what parts the decimals
}

// Names is how things of a plan are called: the name of a thing's id, or empty
// if it has none. A nil Names calls things by their ids.
type Names func(plan.ID) string

func (n Names) of(id plan.ID) string {
	if n != nil {
		if s := n(id); s != "" {
			return s
		}
	}
	return string(id)
}

// Languages are the languages built in, sorted.
func Languages() []string { return languages(assets.Words()) }

// New is the words of a language ("en") in a choice of units. The error names
// the languages there are, or the file and text that is faulty.
func New(lang string, sys quantity.System) (*Words, error) {
	return Read(assets.Words(), lang, sys)
}

// Read is [New] from another folder of texts.
func Read(folder fs.FS, lang string, sys quantity.System) (*Words, error) {
	if have := languages(folder); !slices.Contains(have, lang) {
		return nil, fmt.Errorf("words: there is no language %q; there is: %s", lang, strings.Join(have, ", "))
	}
	english, err := readCatalogue(folder, base)
	if err != nil {
		return nil, err
	}
	w := &Words{lang: lang, sys: sys, own: english, base: english}
	wide, _, regional := strings.Cut(lang, "-")
	if wide != base {
		if w.own, err = readCatalogue(folder, wide); err != nil {
			return nil, err
		}
	}
	if regional {
		region, err := readCatalogue(folder, lang)
		if err != nil {
			return nil, err
		}
		w.own, w.swap = w.own.in(region)
	}
	w.comma = w.Label("decimal-sign") == ","
	return w, nil
}

// In is the same language in other units.
func (w *Words) In(sys quantity.System) *Words {
	other := *w
	other.sys = sys
	return &other
}

// System is the choice of units.
func (w *Words) System() quantity.System { return w.sys }

// Lang is the language.
func (w *Words) Lang() string { return w.lang }

// text is the text of a key: in the language, else in English.
func (w *Words) text(section, id, sentence string) (string, bool) {
	k := key{section, id, sentence}
	for _, c := range []*catalogue{w.own, w.base} {
		if c == nil {
			continue
		}
		if t, ok := c.texts[k]; ok {
			return t, true
		}
	}
	return "", false
}

// or is the text of a key, or its id in brackets.
func (w *Words) or(section, id string) string {
	if t, ok := w.text(section, id, ""); ok {
		return t
	}
	return missing(id)
}

// missing shows an id that has no text.
func missing(id string) string { return "[" + id + "]" }

// Label is a fixed word or sentence of the screen, with values filled in. A
// value of unit [part.UnitThing] or [part.UnitNone] that has a Text shows it
// as it is; one of [part.UnitText] shows the word of that id.
func (w *Words) Label(id string, values ...part.Value) string {
	t, ok := w.text(labelSection, id, "")
	if !ok {
		return missing(id)
	}
	return fill(t, w.valuesOf(values, nil))
}

// HasLabel reports whether a label has a text.
func (w *Words) HasLabel(id string) bool {
	_, ok := w.text(labelSection, id, "")
	return ok
}

// Basis is what a limit rests on, by its word id.
func (w *Words) Basis(id string) string { return w.or(basisSection, id) }

// Note is a remark by its word id; empty for the empty id.
func (w *Words) Note(id string) string {
	if id == "" {
		return ""
	}
	return w.or(noteSection, id)
}

// Remedy is what the button of an edit says.
func (w *Words) Remedy(id string) string { return w.or(remedySection, id) }

// Word is a word by its id, wherever a package has put it: among words, notes or
// bases; a kind of zone and a label are words too. A place in a plan's file (a
// JSON pointer, "/site/…") is its own word.
func (w *Words) Word(id string) string {
	if id == "" || id[0] == '/' {
		return id
	}
	for _, section := range []string{wordSection, noteSection, basisSection} {
		if t, ok := w.text(section, id, ""); ok {
			return t
		}
	}
	for _, label := range []string{"zone-" + id, id} {
		if t, ok := w.text(labelSection, label, ""); ok {
			return t
		}
	}
	return missing(id)
}
