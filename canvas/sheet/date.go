package sheet

import "time"

// when is the date of a document, from the date in its title block if that is
// one of ISO 8601; else the zero time, which pens take as a fixed one. No clock
// is read.
func when(date string) time.Time {
	for _, layout := range []string{time.DateOnly, time.RFC3339} {
		if t, err := time.Parse(layout, date); err == nil {
			return t
		}
	}
	return time.Time{}
}
