package facts

import (
	"slices"
	"strings"

	"kedge/solver/flat"
)

// quick reads a file of the handbook if it is of the plain kind (see package flat):
// rows, one figure or text a line, a table with one line of numbers a line. ok is
// false for whatever is not, faulty or not. A test and a fuzz target hold it to the
// result of the decoder.
func quick(data string) (rows []rowTOML, ok bool) {
	rows = make([]rowTOML, 0, strings.Count(data, "[[row]]"))
	var names []string // of this row
	for data != "" {
		var line string
		if line, data, ok = flat.Line(data); !ok {
			return nil, false
		}
		switch {
		case line == "":
		case line == "[[row]]":
			rows, names = append(rows, rowTOML{}), names[:0]
		case len(rows) == 0:
			return nil, false
		default:
			name, value, ok := flat.Pair(line)
			row := &rows[len(rows)-1]
			switch {
			case !ok || slices.Contains(names, name):
				return nil, false
			case name == "table" && value == "[":
				row.Table, data, ok = quickTable(data)
			default:
				ok = row.set(name, value)
			}
			if !ok {
				return nil, false
			}
			names = append(names, name)
		}
	}
	return rows, len(rows) > 0
}

// set sets a member but a table over several lines; ok is false if there is none of
// that name, or the value is none of its kind.
func (raw *rowTOML) set(name, value string) (ok bool) {
	switch name {
	case "value":
		raw.Value, ok = quickNumber(value)
	case "low":
		raw.Low, ok = quickNumber(value)
	case "likely":
		raw.Likely, ok = quickNumber(value)
	case "high":
		raw.High, ok = quickNumber(value)
	case "columns":
		raw.Columns, ok = quickTexts(value)
	case "default":
		raw.Default, ok = true, value == "true"
	default:
		var rest string
		if into := raw.text(name); into != nil {
			*into, rest, ok = flat.Text(value)
		}
		ok = ok && rest == ""
	}
	return ok
}

// text is the member of that name that is a text, nil for none.
func (raw *rowTOML) text(name string) *string {
	switch name {
	case "id":
		return &raw.ID
	case "room":
		return &raw.Package
	case "title":
		return &raw.Title
	case "lookup":
		return &raw.Lookup
	case "unit":
		return &raw.Unit
	case "source":
		return &raw.Source
	case "surety":
		return &raw.Confidence
	case "note":
		return &raw.Note
	case "choice":
		return &raw.Choice
	case "careful":
		return &raw.Conservative
	}
	return nil
}

func quickNumber(value string) (*float64, bool) {
	x, ok := flat.Number(value)
	return &x, ok
}

// quickTexts reads texts in brackets, one at least.
func quickTexts(value string) (texts []string, ok bool) {
	for ok = value[0] == '['; ok && value != "]"; {
		var text string
		text, value, ok = flat.Text(strings.TrimLeft(value[1:], " \t")) // behind the bracket or a comma
		texts, ok = append(texts, text), ok && (value == "]" || strings.HasPrefix(value, ","))
	}
	return texts, ok
}

// quickTable reads a line of numbers in brackets, one at least, a line each, as far as
// the bracket that ends the table.
func quickTable(data string) (cells [][]float64, rest string, ok bool) {
	more := true // after a comma
	for data != "" {
		var line string
		if line, data, ok = flat.Line(data); !ok {
			break
		}
		switch {
		case line == "":
			continue
		case line == "]":
			return cells, data, len(cells) > 0
		case !more:
			return nil, "", false
		}
		line, more = strings.CutSuffix(line, ",")
		line, opens := strings.CutPrefix(line, "[")
		line, closes := strings.CutSuffix(line, "]")
		ok = opens && closes
		numbers := make([]float64, 0, 1+strings.Count(line, ","))
		for text := range strings.SplitSeq(line, ",") {
			x, is := flat.Number(strings.Trim(text, " \t"))
			numbers, ok = append(numbers, x), ok && is
		}
		if !ok {
			break
		}
		cells = append(cells, numbers)
	}
	return nil, "", false
}
