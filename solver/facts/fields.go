package facts

import (
	"maps"
	"slices"
	"strings"
	"unicode"

	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// fields reads the keys of one gear item and remembers the first trouble and
// every key it was asked for, so that a key nothing reads is found.
type fields struct {
	keys map[string]any
	read []string
	err  error
}

func (f *fields) fail(why *refusal.Error) {
	if f.err == nil {
		f.err = why
	}
}

// done returns the first trouble, a key left over included.
func (f *fields) done(kind GearKind) error {
	if f.err != nil {
		return f.err
	}
	for _, key := range slices.Sorted(maps.Keys(f.keys)) {
		if !slices.Contains(f.read, key) {
			return noKey.At("", string(kind), key)
		}
	}
	return nil
}

// text reads a string; "" where the key is not there.
func (f *fields) text(key string) string {
	f.read = append(f.read, key)
	value, there := f.keys[key]
	if !there {
		return ""
	}
	text, ok := value.(string)
	if !ok {
		f.fail(notText.At("", key))
		return ""
	}
	return text
}

// word reads one of the given words; "" where the key is not there.
func (f *fields) word(key string, words ...string) string {
	text := f.text(key)
	if text != "" && !slices.Contains(words, text) {
		f.fail(noneOf.At("", key, shown(text), strings.Join(words, ", ")))
		return ""
	}
	return text
}

// row reads the id of a row of the handbook that begins with prefix.
func (f *fields) row(key, prefix string) string {
	text := f.text(key)
	if text == "" {
		return ""
	}
	if _, ok := Get(ID(text)); !ok || !strings.HasPrefix(text, prefix) {
		f.fail(noRow.At("", key, shown(text), prefix))
		return ""
	}
	return text
}

func (f *fields) yes(key string) bool {
	f.read = append(f.read, key)
	value, there := f.keys[key]
	if !there {
		return false
	}
	yes, ok := value.(bool)
	if !ok {
		f.fail(notBool.At("", key))
	}
	return yes
}

// number reads a positive number; 0 where the key is not there.
func (f *fields) number(key string) float64 {
	f.read = append(f.read, key)
	value, there := f.keys[key]
	if !there {
		return 0
	}
	var n float64
	switch v := value.(type) {
	case int64:
		n = float64(v)
	case float64:
		n = v
	default:
		f.fail(noNumber.At("", key))
		return 0
	}
	if !finite(n) || n <= 0 {
		f.fail(notPositiveNumber.At("", key))
		return 0
	}
	return n
}

// count reads a positive whole number below a thousand.
func (f *fields) count(key string) int {
	n := f.number(key)
	if n != float64(int(n)) || n >= 1000 {
		f.fail(notWhole.At("", key))
		return 0
	}
	return int(n)
}

// quantityOf reads a quantity written with its unit; 0 where the key is not
// there. A bare number is refused: a gear list is read years later.
func quantityOf[Q ~float64](f *fields, key string, parse func(text string) (Q, error)) Q {
	text := f.text(key)
	if text == "" {
		if _, there := f.keys[key]; there {
			f.fail(keyEmpty.At("", key))
		}
		return 0
	}
	if !strings.ContainsFunc(text, unicode.IsLetter) && !strings.ContainsAny(text, `'"`) {
		f.fail(noUnit.At("", key, shown(text)))
		return 0
	}
	value, err := parse(text)
	switch {
	case err != nil:
		f.fail(unreadable.At("", key, shown(text)).Because(err))
		return 0
	case !finite(float64(value)) || value <= 0:
		f.fail(notPositive.At("", key, shown(text)))
		return 0
	}
	return value
}

func (f *fields) length(key string) quantity.Length {
	return quantityOf(f, key, func(s string) (quantity.Length, error) { return quantity.ParseLength(s, quantity.Metric) })
}

func (f *fields) mass(key string) quantity.Mass {
	return quantityOf(f, key, func(s string) (quantity.Mass, error) { return quantity.ParseMass(s, quantity.Metric) })
}

// force reads a force; a mass on a tag ("3 t") is taken as its weight.
func (f *fields) force(key string) quantity.Force {
	return quantityOf(f, key, func(s string) (quantity.Force, error) {
		entered, err := quantity.ParseForce(s, quantity.Metric)
		return entered.Force, err
	})
}

func (f *fields) speed(key string) quantity.Speed {
	return quantityOf(f, key, func(s string) (quantity.Speed, error) {
		return quantity.ParseSpeed(s, quantity.SpeedUnit(0))
	})
}

func (f *fields) current(key string) quantity.Current {
	return quantityOf(f, key, quantity.ParseCurrent)
}

func (f *fields) linearDensity(key string) quantity.LinearDensity {
	return quantityOf(f, key, quantity.ParseLinearDensity)
}

// rating reads rating and basis. No rating is no limit, never a default one.
func (f *fields) rating() plan.Rating {
	r := plan.Rating{Force: f.force("rating")}
	r.Basis = plan.RatingBasis(f.word("basis", string(plan.BasisWorking), string(plan.BasisBreaking), "not said"))
	if r.Basis == "not said" {
		r.Basis = plan.BasisUnsaid
	}
	if r.Force == 0 && r.Basis != plan.BasisUnsaid {
		f.fail(basisAlone.At(""))
	}
	return r
}
