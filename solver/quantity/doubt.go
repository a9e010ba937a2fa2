package quantity

import (
	"cmp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Doubt is a value as entered with how far it may be off. Low ≤ Value ≤ High;
// a single figure has the three alike.
type Doubt[Q ~float64] struct {
	Value     Q    // as entered; of a range the middle, which nobody entered
	Low, High Q    // the ends
	PlusMinus bool // entered with ±, the only case to be shown with ±
	Likely    bool // entered as low / likely / high: Value is the likely one
	AsWeight  bool // a force of which some figure was entered as a mass
}

// ParseDoubtLength reads a length as [ParseLength] does, or with a doubt:
//
//	24 ± 0.5 m    24 m +/- 50 cm    24 m ± 5 %
//	2 to 4 m      2-4 m    2–4 m    2..4    2 m to 250 cm
//	2 / 2.5 / 4 m
//
// The last is low, likely and high. A unit written once goes for all figures. "about 24" is refused: it does
// not say how far. Every error is a [*ParseError].
func ParseDoubtLength(text string, s System) (Doubt[Length], error) {
	return parseDoubt[Length](text, lengthMeasure(s.Length()))
}

// ParseDoubtMass reads a mass as [ParseMass] does, with a doubt as
// [ParseDoubtLength] reads it: 2450 ± 200 kg.
func ParseDoubtMass(text string, s System) (Doubt[Mass], error) {
	return parseDoubt[Mass](text, massMeasure(s.Mass()))
}

// ParseDoubtForce reads a force as [ParseForce] does, with a doubt as
// [ParseDoubtLength] reads it.
func ParseDoubtForce(text string, s System) (Doubt[Force], error) {
	return parseDoubt[Force](text, forceMeasure(s.Force()))
}

// ParseDoubtDegrees reads an angle as [ParseDegrees] does, with a doubt as
// [ParseDoubtLength] reads it.
func ParseDoubtDegrees(text string) (Doubt[Degrees], error) {
	return parseDoubt[Degrees](text, degreesMeasure())
}

// ParseDoubtSlope reads a slope as its angle: 12, 12°, 12 deg, or 20 % of
// rise over run, arctan(0.20); a bare number is degrees. With a doubt as
// [ParseDoubtLength] reads it; 20 ± 5 % is 15 % to 25 % of rise over run.
func ParseDoubtSlope(text string) (Doubt[Degrees], error) {
	return parseDoubt[Degrees](text, slopeMeasure())
}

// ParseDoubtSpeed reads a speed as [ParseSpeed] does, with a doubt as
// [ParseDoubtLength] reads it.
func ParseDoubtSpeed(text string, bare SpeedUnit) (Doubt[Speed], error) {
	return parseDoubt[Speed](text, speedMeasure(bare))
}

// ParseDoubtShare reads a percentage as a share of one: 83 and 83 % are
// 0.83. With a doubt as [ParseDoubtLength] reads it; 83 ± 5 % is 78 % to 88 %.
func ParseDoubtShare(text string) (Doubt[Share], error) {
	return parseDoubt[Share](text, shareMeasure())
}

// sign is what stands between two figures.
type sign uint8

const (
	noSign sign = iota
	plusMinus
	through // a range
	likely  // low / likely / high
)

// plusMinusSigns are the ways to type ±.
var plusMinusSigns = [...]string{"±", "+/-", "+/−", "+-", "+−"}

// CutPlusMinus cuts a text at its ±, however that is typed; false, and the whole text: it
// has none.
func CutPlusMinus(text string) (before, after string, found bool) {
	for _, w := range plusMinusSigns {
		if before, after, found = strings.Cut(text, w); found {
			return before, after, true
		}
	}
	return text, "", false
}

// rangeSign tells what sign stands here without stepping over it.
func (c *scan) rangeSign() sign {
	d := *c
	return d.takeSign()
}

// takeSign steps over the sign between two figures.
func (c *scan) takeSign() sign {
	if c.done() {
		return noSign
	}
	from := c.at
	for _, w := range plusMinusSigns {
		if c.take(w) {
			return plusMinus
		}
	}
	for _, w := range []string{"to", "bis"} { // in English, in German
		if !c.take(w) {
			continue
		}
		if c.done() || !unicode.IsLetter(c.peek()) {
			return through
		}
		c.at = from
		return noSign
	}
	if r, _ := utf8.DecodeLastRuneInString(c.text[:c.at]); isSpace(r) && c.take("/") { // without a space it is that of a fraction
		return likely
	}
	for _, w := range []string{"...", "..", "…", "—"} {
		if c.take(w) {
			return through
		}
	}
	if isMinus(c.peek()) {
		c.step()
		return through
	}
	return noSign
}

// parseDoubt reads text as a value of m with or without a doubt.
func parseDoubt[Q ~float64](text string, m measure) (Doubt[Q], error) {
	d, err := doubt(text, m)
	if err != nil {
		return Doubt[Q]{}, err
	}
	return Doubt[Q]{
		Value: Q(d.Value), Low: Q(d.Low), High: Q(d.High),
		PlusMinus: d.PlusMinus, Likely: d.Likely, AsWeight: d.AsWeight,
	}, nil
}

func doubt(text string, m measure) (Doubt[float64], *ParseError) {
	var d Doubt[float64]
	c, err := open(text)
	if err != nil {
		return d, err
	}
	if about := c.at; c.take("~") || c.take("≈") || c.take("about ") || c.take("ca.") || c.take("approx.") {
		c.skipSpace()
		return d, c.fail(about, WidthMissing, howFar)
	}
	a, err := c.one(m)
	if err != nil {
		return d, err
	}
	c.skipSpace()
	between := c.at
	s := c.takeSign()
	if s == noSign {
		if !c.done() {
			return d, c.fail(c.at, Trailing, trailing, m.word())
		}
		d.Value, err = c.si(m, a, nil)
		d.Low, d.High, d.AsWeight = d.Value, d.Value, weight(a)
		return d, err
	}
	wide := m
	wide.signed = m.signed || s == plusMinus // a negative width gets its own sentence
	b, err := c.one(wide)
	if err != nil {
		return d, err
	}
	c.skipSpace()
	d.AsWeight = weight(a) || weight(b)
	if err := c.together(m, a, b); err != nil {
		return Doubt[float64]{}, err
	}
	switch s {
	case plusMinus:
		err = c.width(m, a, b, &d)
	case likely:
		err = c.three(m, a, b, between, &d)
	default:
		err = c.ends(m, a, b, between, &d)
	}
	if err == nil && !c.done() {
		err = c.fail(c.at, Trailing, trailing, m.word())
	}
	if err != nil {
		return Doubt[float64]{}, err
	}
	return d, nil
}

func weight(r reading) bool { return r.unit != nil && r.unit.weight }

// together refuses two figures of which neither unit goes for the other: 5' 6"
// and a bare number, or per cent and degrees.
func (c *scan) together(m measure, a, b reading) *ParseError {
	switch {
	case a.unit == &inSI && b.unit == nil && (c.done() || c.peek() != '%'):
		return c.fail(b.start, UnitMissing, unitTooMissing, m.word())
	case b.unit == &inSI && a.unit == nil:
		return c.fail(a.start, UnitMissing, unitTooMissing, m.word())
	case a.unit != nil && b.unit != nil && a.unit.grade != b.unit.grade:
		return c.fail(b.start, UnitUnknown, oneUnit, m.word())
	}
	return nil
}

// ends makes a range of the figures a and b.
func (c *scan) ends(m measure, a, b reading, between int, d *Doubt[float64]) (err *ParseError) {
	if d.Low, err = c.si(m, a, b.unit); err != nil {
		return err
	}
	if d.High, err = c.si(m, b, a.unit); err != nil {
		return err
	}
	if d.Low > d.High {
		return c.fail(between, BadRange, backwards)
	}
	d.Value = d.Low + (d.High-d.Low)/2
	return nil
}

// three makes low, likely and high of the figures a and b and of the one that is still to
// come.
func (c *scan) three(m measure, a, b reading, between int, d *Doubt[float64]) (err *ParseError) {
	if !c.take("/") {
		return c.fail(between, WidthMissing, highMissing)
	}
	e, err := c.one(m)
	if err != nil {
		return err
	}
	c.skipSpace()
	for _, pair := range [...][2]reading{{b, e}, {a, e}} {
		if err := c.together(m, pair[0], pair[1]); err != nil {
			return err
		}
	}
	d.Likely, d.AsWeight = true, d.AsWeight || weight(e)
	for _, x := range []struct {
		r  reading
		to *float64
	}{{a, &d.Low}, {b, &d.Value}, {e, &d.High}} {
		if *x.to, err = c.si(m, x.r, cmp.Or(e.unit, b.unit, a.unit)); err != nil {
			return err
		}
	}
	if d.Low > d.Value || d.Value > d.High {
		return c.fail(between, BadRange, backwards)
	}
	return nil
}

// width makes ± of the figures a and b. A percentage is of the value, unless
// the field itself is one.
func (c *scan) width(m measure, a, b reading, d *Doubt[float64]) (err *ParseError) {
	if b.value < 0 {
		return c.fail(b.start, BadRange, widthBelow)
	}
	d.PlusMinus = true
	if b.unit == nil && !c.done() && c.peek() == '%' {
		c.step()
		if d.Value, err = c.si(m, a, nil); err != nil {
			return err
		}
		by := b.value / 100
		off := by * d.Value
		if off < 0 {
			off = -off
		}
		d.Low, d.High = d.Value-off, d.Value+off
	} else {
		low, high, mid := a, a, a
		if a.unit == b.unit || a.unit == nil || b.unit == nil {
			low.value, high.value = a.value-b.value, a.value+b.value
		} else {
			// 2.45 t ± 200 kg: each figure in its own unit
			w := b.value * b.unit.si / a.unit.si
			low.value, high.value = a.value-w, a.value+w
		}
		for _, x := range []struct {
			r  reading
			to *float64
		}{{low, &d.Low}, {mid, &d.Value}, {high, &d.High}} {
			if *x.to, err = c.si(m, x.r, b.unit); err != nil {
				return err
			}
		}
	}
	if d.Low < 0 && !m.signed {
		return c.fail(b.start, BadRange, endBelow, m.word())
	}
	return nil
}
