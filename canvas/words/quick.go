package words

import (
	"strconv"
	"strings"
)

// A command that answers in a blink has no time for a TOML decoder: it takes
// 3 ms for the screen's texts alone. Files of texts are plain, one text a line,
// so quick reads them line by line; a file with anything else in it is left to
// the decoder. A test and a fuzz target hold the two to the same result.

// line is one text of a file.
type line struct {
	key  key
	text string
}

// quick reads a file of texts if it is of the plain kind: sections, one text a
// line, comments on lines of their own or behind a text. ok is false for
// whatever is not, faulty or not.
func quick(data string) (lines []line, ok bool) {
	lines = make([]line, 0, strings.Count(data, "\n"))
	section, id := "", ""
	seen := map[string]bool{}
	owed := false // a finding's head without a text yet
	for data != "" {
		row, rest, ended := strings.Cut(data, "\n")
		data = rest
		if ended { // a carriage return ends a line only before its line feed
			row = strings.TrimSuffix(row, "\r")
		}
		row = strings.Trim(row, " \t")
		switch {
		case row == "" || row[0] == '#':
			if strings.ContainsFunc(row, func(r rune) bool { return r < ' ' && r != '\t' || r == 0x7f || r == 0xfffd }) {
				return nil, false
			}
		case row[0] == '[':
			if seen[row] || owed {
				return nil, false
			}
			seen[row] = true
			if section, id, ok = quickHead(row); !ok {
				return nil, false
			}
			owed = section == findingSection
		default:
			owed = false
			name, text, ok := quickPair(row)
			if !ok {
				return nil, false
			}
			switch {
			case section == findingSection && id != "" && (name == "what" || name == "do"):
				lines = append(lines, line{key{section, id, name}, text})
			case section != "" && section != findingSection && id == "":
				lines = append(lines, line{key{section, name, ""}, text})
			default:
				return nil, false
			}
		}
	}
	return lines, !owed && len(lines) > 0
}

// quickHead reads [section] or [finding.id].
func quickHead(row string) (section, id string, ok bool) {
	inside, ok := strings.CutSuffix(row[1:], "]")
	if !ok {
		return "", "", false
	}
	section, id, dotted := strings.Cut(inside, ".")
	switch section {
	case findingSection:
		return section, id, dotted && bareKey(id)
	case basisSection, formulaSection, noteSection, remedySection, wordSection, labelSection, factSection, remarkSection, storySection, searchSection, refusalSection, swapSection, whySection, termSection, calledSection:
		return section, "", !dotted
	}
	return "", "", false
}

// quickPair reads name = "text", the name bare or in double quotes.
func quickPair(row string) (name, text string, ok bool) {
	if row[0] == '"' {
		if name, row, ok = quickString(row); !ok {
			return "", "", false
		}
	} else {
		end := strings.IndexAny(row, " \t=")
		if end < 0 {
			return "", "", false
		}
		name, row = row[:end], row[end:]
		if !bareKey(name) {
			return "", "", false
		}
	}
	row, ok = strings.CutPrefix(strings.TrimLeft(row, " \t"), "=")
	row = strings.TrimLeft(row, " \t")
	if !ok || row == "" {
		return "", "", false
	}
	text, row, ok = quickString(row)
	if row = strings.TrimLeft(row, " \t"); !ok || row != "" {
		return "", "", false
	}
	return name, text, true
}

// quickString reads a text in double quotes whose only escapes are \" and \\,
// and gives what follows it.
func quickString(s string) (text, rest string, ok bool) {
	if s[0] != '"' {
		return "", "", false
	}
	for i := 1; i < len(s); i++ {
		switch c := s[i]; {
		case c == '"':
			if i == 1 && len(s) > 2 && s[2] == '"' { // """: more than a line
				return "", "", false
			}
			text = s[1:i]
			if strings.ContainsRune(text, '\\') {
				var err error
				if text, err = strconv.Unquote(s[:i+1]); err != nil {
					return "", "", false
				}
			}
			return text, s[i+1:], !strings.ContainsRune(text, 0xfffd)
		case c == '\\':
			if i++; i == len(s) || s[i] != '"' && s[i] != '\\' {
				return "", "", false
			}
		case c < ' ' || c == 0x7f:
			return "", "", false
		}
	}
	return "", "", false
}

// bareKey tells a TOML key that needs no quotes.
func bareKey(s string) bool {
	for _, c := range s {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_') {
			return false
		}
	}
	return s != ""
}
