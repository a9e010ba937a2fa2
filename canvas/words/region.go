package words

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A region of a language has one small file, en-US.toml, of what differs: texts of
// its own, and under [swap] words or phrases and what the region says instead. They
// are swapped in every text of the language that the file does not give itself, so
// that a text written later speaks the region's words too.

// swaps are the phrases to swap, in lower case, by their first word; the longest
// come first.
type swaps map[string][][2]string

// in is the catalogue as a region says it, and what the region swaps.
func (c *catalogue) in(region *catalogue) (*catalogue, swaps) {
	s := swaps{}
	for k, to := range region.texts {
		if k.section == swapSection {
			first := k.id
			if n := strings.IndexFunc(first, notLetter); n > 0 {
				first = first[:n]
			}
			s[first] = append(s[first], [2]string{k.id, to})
		}
	}
	for _, all := range s {
		slices.SortFunc(all, func(a, b [2]string) int { return len(b[0]) - len(a[0]) })
	}
	said := &catalogue{texts: make(map[key]string, len(c.texts))}
	for k, text := range c.texts {
		if k.section != searchSection && k.section != calledSection { // what people call things elsewhere is found too
			text = s.in(text)
		}
		said.texts[k] = text
	}
	for k, text := range region.texts {
		if k.section != swapSection {
			said.texts[k] = text
		}
	}
	return said, s
}

// in is a text with its words swapped, whole words alone; the name and format of a
// placeholder stay.
func (s swaps) in(text string) string {
	var b strings.Builder
	for text != "" {
		n := strings.IndexFunc(text, unicode.IsLetter)
		brace := strings.IndexByte(text, '{')
		switch {
		case brace >= 0 && (n < 0 || brace < n):
			n = brace + strings.IndexAny(text[brace:]+"}", "|}")
		case n < 0:
			n = len(text)
		case n == 0:
			if n = strings.IndexFunc(text, notLetter); n < 0 {
				n = len(text)
			}
			if phrase, to, ok := s.at(text, strings.ToLower(text[:n])); ok {
				b.WriteString(likeCase(to, text))
				text = text[len(phrase):]
				continue
			}
		}
		b.WriteString(text[:n])
		text = text[n:]
	}
	return b.String()
}

func notLetter(r rune) bool { return !unicode.IsLetter(r) }

// at is the longest phrase that the text begins with, and what is said instead.
func (s swaps) at(text, first string) (phrase, to string, ok bool) {
	for _, swap := range s[first] {
		phrase, to = swap[0], swap[1]
		if len(text) < len(phrase) || !strings.EqualFold(text[:len(phrase)], phrase) {
			continue
		}
		if next, _ := utf8.DecodeRuneInString(text[len(phrase):]); !unicode.IsLetter(next) {
			return phrase, to, true
		}
	}
	return "", "", false
}

// likeCase is a phrase with a capital if the text begins with one.
func likeCase(phrase, text string) string {
	if r, _ := utf8.DecodeRuneInString(text); !unicode.IsUpper(r) {
		return phrase
	}
	r, n := utf8.DecodeRuneInString(phrase)
	return string(unicode.ToUpper(r)) + phrase[n:]
}

// Regional is a text of the language in the words of the region chosen.
func (w *Words) Regional(text string) string { return w.swap.in(text) }
