package words

import (
	"slices"
	"strings"
)

// Term is one thing that a search of the handbook asks for: a word as it was
// typed, or several that together are a thing's name.
type Term struct {
	Typed string
	Also  []string // the handbook's own words for it, sorted; nil: none are known
}

// endings are those of plurals and cases, which no other word has to list.
var endings = []string{"", "s", "es", "n", "en", "e", "er"}

// Search reads what somebody looks for, in the words of whatever language: at
// each place the longest name that is known, else the word itself.
func Search(query string) ([]Term, error) {
	own, err := otherNames()
	if err != nil {
		return nil, err
	}
	return readTerms(query, own), nil
}

// otherNames are the handbook's words for things, by their bare other names in
// all languages and by themselves.
func otherNames() (map[string][]string, error) {
	own := map[string][]string{}
	for _, lang := range Languages() {
		w, err := New(lang, 0)
		if err != nil {
			return nil, err
		}
		for k, names := range w.own.texts {
			if k.section != searchSection {
				continue
			}
			for name := range strings.SplitSeq(names, ",") {
				own[bare(name)] = append(own[bare(name)], k.id)
			}
			own[bare(k.id)] = append(own[bare(k.id)], k.id)
		}
	}
	return own, nil
}

func readTerms(query string, own map[string][]string) (terms []Term) {
	for typed := strings.Fields(query); len(typed) > 0; {
		t, n := Term{Typed: typed[0]}, 1
		for long := min(len(typed), mostWords); long > 0; long-- {
			if also := wordsFor(own, bare(strings.Join(typed[:long], ""))); also != nil {
				t, n = Term{strings.Join(typed[:long], " "), also}, long
				break
			}
		}
		terms, typed = append(terms, t), typed[n:]
	}
	return terms
}

// mostWords is how many words a name may have.
const mostWords = 4

// bare is a name without case, blanks and hyphens: "D-ring" is "dring".
func bare(name string) string {
	return blanks.Replace(strings.ToLower(name))
}

var blanks = strings.NewReplacer(" ", "", "\u00a0", "", "\u202f", "", "-", "")

// wordsFor are the handbook's words for a bare name, sorted.
func wordsFor(own map[string][]string, name string) (also []string) {
	for _, e := range endings {
		if stem, ok := strings.CutSuffix(name, e); ok {
			also = append(also, own[stem]...)
		}
	}
	slices.Sort(also)
	return slices.Compact(also)
}
