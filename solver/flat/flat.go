package flat

import (
	"strconv"
	"strings"
)

// Line cuts the first line off a text: without the blanks around it, and empty if it
// is a comment. ok is false for a comment that TOML would refuse.
func Line(text string) (row, rest string, ok bool) {
	row, rest, ended := strings.Cut(text, "\n")
	if ended { // a carriage return ends a line only before its line feed
		row = strings.TrimSuffix(row, "\r")
	}
	row = strings.Trim(row, " \t")
	if row == "" || row[0] != '#' {
		return row, rest, true
	}
	return "", rest, !strings.ContainsFunc(row, func(r rune) bool { return r < ' ' && r != '\t' || r == 0x7f || r == 0xfffd })
}

// Pair reads name = value, the name bare or in double quotes; the value is whatever
// follows, and not empty.
func Pair(row string) (name, value string, ok bool) {
	if row[0] == '"' {
		if name, row, ok = Text(row); !ok {
			return "", "", false
		}
	} else {
		end := strings.IndexAny(row, " \t=")
		if end < 0 {
			return "", "", false
		}
		name, row = row[:end], row[end:]
		if !Bare(name) {
			return "", "", false
		}
	}
	row, ok = strings.CutPrefix(strings.TrimLeft(row, " \t"), "=")
	row = strings.TrimLeft(row, " \t")
	return name, row, ok && row != ""
}

// Text reads a text in double quotes whose only escapes are \" and \\, and gives what
// follows it, without the blanks before that.
func Text(s string) (text, rest string, ok bool) {
	if s == "" || s[0] != '"' {
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
			return text, strings.TrimLeft(s[i+1:], " \t"), !strings.ContainsRune(text, 0xfffd)
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

// Bare tells a TOML key that needs no quotes.
func Bare(s string) bool {
	for _, c := range s {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_') {
			return false
		}
	}
	return s != ""
}

// Number reads a decimal number; ok is false for any other that TOML has, for nought
// with a sign, and for one of more than 15 digits before its point.
func Number(s string) (x float64, ok bool) {
	most, power, raised := strings.Cut(strings.TrimPrefix(s, "-"), "e")
	whole, part, pointed := strings.Cut(most, ".")
	digits := func(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
	if !digits(whole) || len(whole) > 15 || len(whole) > 1 && whole[0] == '0' || pointed && !digits(part) || raised && !digits(strings.TrimPrefix(power, "-")) {
		return 0, false
	}
	x, err := strconv.ParseFloat(s, 64)
	return x, err == nil && (x != 0 || s[0] != '-')
}
