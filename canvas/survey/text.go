package survey

import (
	"bytes"
	"encoding/binary"
	"io"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"kedge/solver/refusal"
)

// asUTF8 is data as whole UTF-8 without a byte order mark, and a note if that was
// a guess.
func asUTF8(data []byte) (text []byte, note *refusal.Error) {
	var order binary.ByteOrder
	switch {
	case bytes.HasPrefix(data, []byte("\xEF\xBB\xBF")):
		data = data[3:]
	case bytes.HasPrefix(data, []byte("\xFF\xFE")):
		order = binary.LittleEndian
	case bytes.HasPrefix(data, []byte("\xFE\xFF")):
		order = binary.BigEndian
	}
	if order != nil {
		return fromUTF16(data[2:], order), nil
	}
	if utf8.Valid(data) {
		return data, nil
	}
	size := len(data)
	for _, b := range data {
		if b >= utf8.RuneSelf {
			size += utf8.UTFMax - 2 // three bytes at most: all of windows1252 is below U+FFFF
		}
	}
	text = make([]byte, 0, size)
	for _, b := range data {
		r := rune(b)
		if b >= 0x80 && b < 0xA0 {
			r = windows1252[b-0x80]
		}
		text = utf8.AppendRune(text, r)
	}
	return text, oldLetters.At("")
}

// fromUTF16 is data, in UTF-16, as UTF-8; half a pair becomes U+FFFD.
func fromUTF16(data []byte, order binary.ByteOrder) []byte {
	text := make([]byte, 0, len(data))
	for ; len(data) >= 2; data = data[2:] {
		r := rune(order.Uint16(data))
		if utf16.IsSurrogate(r) {
			low := rune(0)
			if len(data) >= 4 {
				low = rune(order.Uint16(data[2:]))
			}
			if r = utf16.DecodeRune(r, low); r != utf8.RuneError {
				data = data[2:]
			}
		}
		text = utf8.AppendRune(text, r)
	}
	return text
}

// windows1252 is what the bytes 0x80 to 0x9F mean there; the rest is as in
// Latin-1. Source: the WHATWG Encoding Standard, index windows-1252.
var windows1252 = [32]rune{
	'€', 0x81, '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', 0x8D, 'Ž', 0x8F,
	0x90, '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', 0x9D, 'ž', 'Ÿ',
}

// charset hands on what asUTF8 has made of a file, whatever its head calls it.
func charset(_ string, in io.Reader) (io.Reader, error) { return in, nil }

// plainNumber is a decimal number with the given decimal sign, as a table has
// it: no NaN, no Inf, no hexadecimal. The other of . and , may group thousands
// before the decimal sign, in a number that has one.
func plainNumber(s string, decimal byte) (float64, bool) {
	if len(s) == 0 || len(s) > 60 {
		return 0, false
	}
	easy := true
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c >= '0' && c <= '9', c == '.' && decimal == '.', (c == '-' || c == '+') && i == 0:
		default:
			easy = false
		}
	}
	if !easy {
		var ok bool
		if s, ok = withPoint(s, decimal); !ok {
			return 0, false
		}
	}
	x, err := strconv.ParseFloat(s, 64)
	return x, err == nil // an Inf is an error of range
}

// withPoint is s in the form of Go, false if it is no number.
func withPoint(s string, decimal byte) (string, bool) {
	s = strings.Replace(s, "−", "-", 1) // the minus sign of typeset tables
	group := byte(',')
	if decimal == ',' {
		group = '.'
	}
	whole, part, has := strings.Cut(s, string(decimal))
	if has {
		groups := strings.Split(strings.TrimLeft(whole, "+-"), string(group))
		for i, g := range groups {
			if i > 0 && len(g) != 3 || i == 0 && len(groups) > 1 && (len(g) == 0 || len(g) > 3) {
				return "", false
			}
		}
		s = strings.ReplaceAll(whole, string(group), "") + "." + part
	} else if strings.IndexByte(s, group) >= 0 {
		return "", false // of thousands or decimals: nobody can tell
	}
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c >= '0' && c <= '9', c == '.', c == 'e', c == 'E', c == '-', c == '+':
		default:
			return "", false
		}
	}
	return s, true
}

// degrees is a latitude or longitude as people write it: 51.2345, 51°14'04.2"N,
// N 51 14.07, -3.25. Its letter, if it has one, must be of the given axis:
// "NS" or "EW". O is refused: east in German, west in French.
func degrees(s string, decimal byte, axis string) (float64, bool) {
	s = strings.TrimSpace(s)
	if x, ok := plainNumber(s, decimal); ok {
		return x, true
	}
	if len(s) > 60 {
		return 0, false
	}
	sign, letters := 1.0, 0
	clean := strings.Map(func(r rune) rune {
		switch r {
		case '°', 'º', '\'', '′', '’', '"', '″', '”', ':', '\u00a0', '\t':
			return ' '
		}
		return r
	}, strings.ToUpper(s))
	for i, letter := range axis {
		if n := strings.Count(clean, string(letter)); n > 0 {
			letters += n
			clean = strings.ReplaceAll(clean, string(letter), " ")
			if i == 1 {
				sign = -1
			}
		}
	}
	fields := strings.Fields(clean)
	if len(fields) == 0 || len(fields) > 3 || letters > 1 {
		return 0, false
	}
	sum, unit := 0.0, 1.0
	for i, f := range fields {
		x, ok := plainNumber(f, decimal)
		switch {
		case !ok, i > 0 && (x < 0 || x >= 60 || strings.HasPrefix(f, "+")), i < len(fields)-1 && x != float64(int(x)):
			return 0, false
		}
		if i == 0 && strings.HasPrefix(f, "-") {
			if letters > 0 {
				return 0, false
			}
			sign, x = -1, -x
		}
		sum += x / unit
		unit *= 60
	}
	return sign * sum, true
}
