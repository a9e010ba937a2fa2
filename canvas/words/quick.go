package words

import (
	"strings"

	"kedge/solver/flat"
)

// Files of texts are plain, one text a line, so quick reads them line by line (see
// package flat); a file with anything else in it is left to the decoder. A test and a
// fuzz target hold the two to the same result.

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
		var row string
		if row, data, ok = flat.Line(data); !ok {
			return nil, false
		}
		switch {
		case row == "":
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
			name, value, ok := flat.Pair(row)
			text, rest, whole := flat.Text(value)
			switch {
			case !ok || !whole || rest != "":
				return nil, false
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
		return section, id, dotted && flat.Bare(id)
	case basisSection, formulaSection, noteSection, remedySection, wordSection, labelSection, factSection, remarkSection, storySection, searchSection, refusalSection, swapSection, whySection, termSection, calledSection:
		return section, "", !dotted
	}
	return "", "", false
}
