package words

import (
	"fmt"
	"slices"
	"strings"
)

// formats are what may follow a placeholder's name.
var formats = []string{"up", "down", "bare", "whole", "fine", "stem", "long", "thick", "stop"}

// slot is one placeholder of a text.
type slot struct {
	name    string
	formats []string
	forms   []string // a word for one and for any other number; nil: the value itself
}

func (s slot) has(format string) bool { return slices.Contains(s.formats, format) }

// eachPiece cuts a text at its placeholders and hands over the pieces in
// order: plain text, or (if s.name is not empty) a placeholder.
func eachPiece(text string, piece func(plain string, s slot)) error {
	for text != "" {
		i := strings.IndexAny(text, "{}")
		if i < 0 {
			piece(text, slot{})
			return nil
		}
		if i > 0 {
			piece(text[:i], slot{})
		}
		if text[i] == '}' {
			return fmt.Errorf("a } without its {")
		}
		end := strings.IndexAny(text[i+1:], "{}")
		if end < 0 || text[i+1+end] != '}' {
			return fmt.Errorf("a { without its }")
		}
		inside := text[i+1 : i+1+end]
		s, err := readSlot(inside)
		if err != nil {
			return err
		}
		piece("", s)
		text = text[i+1+end+1:]
	}
	return nil
}

func readSlot(inside string) (slot, error) {
	if name, forms, ok := strings.Cut(inside, "|"); ok {
		s := slot{name: name, forms: strings.Split(forms, "|")}
		if !goodName(name) {
			return slot{}, fmt.Errorf("{%s} is no name: letters, digits, - and _ make one", inside)
		}
		if len(s.forms) != 2 {
			return slot{}, fmt.Errorf("{%s} has %d forms, not one for one and one for more", inside, len(s.forms))
		}
		return s, nil
	}
	if !strings.Contains(inside, ":") {
		if !goodName(inside) {
			return slot{}, fmt.Errorf("{%s} is no name: letters, digits, - and _ make one", inside)
		}
		return slot{name: inside}, nil
	}
	parts := strings.Split(inside, ":")
	s := slot{name: parts[0], formats: parts[1:]}
	if !goodName(s.name) {
		return slot{}, fmt.Errorf("{%s} is no name: letters, digits, - and _ make one", inside)
	}
	for _, f := range s.formats {
		if !slices.Contains(formats, f) {
			return slot{}, fmt.Errorf("{%s}: there is no way to print called %q", inside, f)
		}
	}
	return s, nil
}

func goodName(s string) bool {
	for _, c := range s {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_') {
			return false
		}
	}
	return s != ""
}

// checkText tells what is wrong with a text's placeholders.
func checkText(text string) error { return eachPiece(text, func(string, slot) {}) }

// slotNames are the names of a text's placeholders, each once, in order.
func slotNames(text string) []string {
	var names []string
	_ = eachPiece(text, func(_ string, s slot) {
		if s.name != "" && !slices.Contains(names, s.name) {
			names = append(names, s.name)
		}
	})
	return names
}

// fill puts values into a text. A placeholder without a value shows its name
// in brackets.
func fill(text string, value func(slot) (string, bool)) string {
	if !strings.ContainsAny(text, "{}") {
		return text
	}
	var b strings.Builder
	err := eachPiece(text, func(plain string, s slot) {
		if s.name == "" {
			b.WriteString(plain)
			return
		}
		if v, ok := value(s); ok {
			if s.has("stop") {
				v = strings.TrimSuffix(v, ".")
			}
			if strings.HasSuffix(strings.TrimRight(b.String(), " "), "×") { // a factor brings its own
				v = strings.TrimPrefix(v, "×")
			}
			b.WriteString(v)
			return
		}
		b.WriteString("[" + s.name + "]")
	})
	if err != nil { // refused when the catalogue was read
		return text
	}
	return b.String()
}
