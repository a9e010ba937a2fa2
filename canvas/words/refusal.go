package words

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"slices"

	"kedge/solver/part"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// Refusal is what a person reads of an error: what it is about, what is wrong,
// what to do. An error that brings a sentence made here (a remedy without a
// button, a sheet that cannot be printed) is said by it. What the system says is
// framed by a sentence of the language. Empty for nil.
func (w *Words) Refusal(err error) string {
	if err == nil {
		return ""
	}
	if s, ok := w.said(err); ok {
		return s
	}
	return w.Label("refusal-other", part.Text("cause", bareCause(err)))
}

// Cause is an error inside a sentence: as [Words.Refusal], but that of what the
// system says the bare cause stands.
func (w *Words) Cause(err error) string {
	if s, ok := w.said(err); ok {
		return s
	}
	return bareCause(err)
}

// said is the sentence of an error that has one.
func (w *Words) said(err error) (string, bool) {
	var r refusal.Refuser
	var s interface{ Sentence() string }
	switch {
	case errors.As(err, &r):
		return w.refusal(r.Refusal()), true
	case errors.As(err, &s):
		return s.Sentence(), true
	}
	return "", false
}

func (w *Words) refusal(e *refusal.Error) string {
	t, ok := w.text(refusalSection, e.ID, "")
	if !ok {
		return missing(e.ID) + " " + e.Error()
	}
	values := make([]part.Value, 0, len(e.Said))
	for i, v := range e.Said {
		if i < len(e.Values) {
			values = append(values, w.refused(e.Values[i], v))
		}
	}
	if e.Cause != nil {
		values = append(values, w.refused("cause", e.Cause))
	}
	t = fill(t, w.valuesOf(values, nil))
	if len(e.Offers) > 0 {
		t = w.Label("refusal-offers", part.Text("said", t), part.Text("offers", w.joined(e.Offers, "or")))
	}
	if e.Where != "" {
		return quantity.OneLine(e.Where) + ": " + t
	}
	return t
}

// refused is a value of a refusal as sentences take it.
func (w *Words) refused(name string, v any) part.Value {
	text := ""
	switch v := v.(type) {
	case int:
		return part.Count(name, v)
	case string:
		text = v
	case refusal.Word:
		text = w.Word(string(v))
	case refusal.Spot:
		if v != "" {
			text = w.Label("refusal-at", part.Text("spot", string(v)))
		}
	case refusal.Either:
		text = w.joined(v, "or")
	case error:
		text = w.Cause(v)
	}
	return part.Value{Name: name, Unit: part.UnitThing, Text: text} // as it is, be it empty
}

// bareCause is what the system said, without the names of files.
func bareCause(err error) string {
	if pe := (*fs.PathError)(nil); errors.As(err, &pe) {
		return pe.Err.Error()
	}
	if inner := errors.Unwrap(err); inner != nil {
		return inner.Error()
	}
	return err.Error()
}

// Unsaid lists what is lacking or wrong in the texts of kinds of refusal, one
// line each; nil for none.
func (w *Words) Unsaid(kinds []refusal.Kind) []string {
	var all []string
	for _, k := range kinds {
		t, ok := w.text(refusalSection, k.ID, "")
		if !ok {
			all = append(all, fmt.Sprintf("refusal %q has no text", k.ID))
			continue
		}
		for _, name := range slotNames(t) {
			if !slices.Contains(k.Values, name) {
				all = append(all, fmt.Sprintf("refusal %q uses {%s}, which it does not carry", k.ID, name))
			}
		}
	}
	return all
}

// RefusalIDs are the refusals that have a text in this language or in English,
// sorted.
func (w *Words) RefusalIDs() []string {
	seen := map[string]bool{}
	for _, c := range []*catalogue{w.own, w.base} {
		for k := range c.texts {
			if k.section == refusalSection {
				seen[k.id] = true
			}
		}
	}
	return slices.Sorted(maps.Keys(seen))
}
