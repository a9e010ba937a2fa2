package board

import (
	"strings"

	"kedge/solver/quantity"
)

// cutPolar cuts what was typed into the texts of a length and a bearing: "8 m
// 30°", "8 m 30", "30° 8 m", "8 m", "30°". What is not there is empty. A sign
// of degrees says which is the bearing. Without one, what reads as a length is
// a length ("1 200", "5 ft 6"), and else the last figure behind a length is
// the bearing; behind feet it never is, for inches stand there.
func cutPolar(typed string, sys quantity.System) (length, bearing string) {
	for _, sign := range []string{"°", "deg"} {
		before, after, ok := strings.Cut(typed, sign)
		if !ok {
			continue
		}
		length, bearing = cutLast(before)
		if length == "" || strings.TrimSpace(after) == "" {
			return length + strings.TrimSpace(after), bearing
		}
		return typed, "" // one length too many: refused as a whole
	}
	if _, err := quantity.ParseLength(typed, sys); err != nil {
		if l, d := cutLast(typed); l != "" && !strings.ContainsAny(l, "f'′") {
			if _, err := quantity.ParseLength(l, sys); err == nil {
				return l, d
			}
		}
	}
	return strings.TrimSpace(typed), ""
}

// cutLast cuts the last word off.
func cutLast(s string) (before, last string) {
	s = strings.TrimSpace(s)
	i := strings.LastIndexAny(s, " \u00a0\u202f")
	return strings.TrimSpace(s[:max(i, 0)]), strings.TrimSpace(s[max(i, 0):])
}
