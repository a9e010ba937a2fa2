package quantity

import (
	"math"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Bounds of what is read, as multiples of the SI unit: far outside anything on
// a sheet, and such that every figure read can be printed in full in every unit
// shown (1e9 m are 1e12 mm, 1e-9 N are 1e-12 kN). What a vehicle or a line
// may measure is for the plan to say.
const (
	maxSI = 1e9
	minSI = 1e-9
)

// reading is one signed value with its unit as written; value is in the unit,
// or in SI where a compound was read.
type reading struct {
	value float64
	unit  *unit // nil: bare
	num   number
	start int
}

// inSI is the unit of a compound already added up; it goes for no other
// figure. It never changes.
var inSI = unit{si: 1}

// one reads a sign, a number and its unit, or feet and inches, or hours,
// minutes and seconds.
func (c *scan) one(m measure) (reading, *ParseError) {
	c.skipSpace()
	r := reading{start: c.at}
	neg := false
	if !c.done() && (isMinus(c.peek()) || c.peek() == '+') {
		neg = isMinus(c.peek())
		c.step()
		c.skipSpace()
	}
	if c.done() {
		return r, c.fail(r.start, NotNumber, noNumber)
	}
	n, err := c.number(m.apostrophes)
	if err != nil {
		return r, err
	}
	r.num, r.value = n, n.value
	at := c.at
	c.skipSpace()
	if r.unit = c.unit(m); r.unit == nil {
		if err := c.noUnit(m); err != nil {
			return r, err
		}
		c.at = at
	} else if err := c.several(r.unit, n); err != nil {
		return r, err
	}
	if r.unit != nil && m.compound != nil {
		if err := c.rest(m, &r); err != nil {
			return r, err
		}
	}
	if neg && r.value != 0 && !m.signed {
		return r, c.fail(r.start, NegativeValue, below, m.word())
	}
	if neg {
		r.value = -r.value
	}
	if r.value == 0 {
		r.value = 0 // no negative zero
	}
	return r, nil
}

// noUnit refuses what stands where a unit could, unless the value ends here.
func (c *scan) noUnit(m measure) *ParseError {
	if c.done() || c.rangeSign() != noSign || c.peek() == '%' {
		return nil
	}
	switch r := c.peek(); {
	case isDigit(r) || r == '.' || r == ',' || isApostrophe(r):
		return c.fail(c.at, BadGrouping, oneNumber)
	case m.name == "time" && unicode.ToLower(r) == 'm':
		return c.fail(c.at, UnitUnknown, metresNotMin)
	}
	return c.fail(c.at, UnitUnknown, unitUnknown, c.word(), m.word(), m.known)
}

// several refuses a unit that has several readings and offers each.
func (c *scan) several(u *unit, n number) *ParseError {
	if u.si != 0 {
		return nil
	}
	before, after := c.text[:n.start], c.text[c.at:]
	return c.fail(n.start, UnitTwice, whichTon).offer(before+n.plain+" t"+after, before+n.plain+" short ton"+after, before+n.plain+" long ton"+after)
}

// rest reads on after 5 ft or 1 h, and leaves r in SI if anything followed.
func (c *scan) rest(m measure, r *reading) *ParseError {
	k := place(m, r.unit)
	if k < 0 {
		return nil
	}
	last, total := r.num, r.value*r.unit.si
	above := r.unit.si
	for {
		at := c.at
		c.skipSpace()
		if c.done() || !isDigit(c.peek()) {
			c.at = at
			break
		}
		if k+1 >= len(m.compound) || !last.whole {
			return c.fail(c.at, BadCompound, onlyLast, m.word())
		}
		n, err := c.number(m.apostrophes)
		if err != nil {
			return err
		}
		at = c.at
		c.skipSpace()
		u := c.unit(m)
		next := k + 1
		if u == nil {
			if err := c.noUnit(m); err != nil {
				return err
			}
			c.at = at
			u = named(m, m.compound[next])
		} else if next = place(m, u); next <= k {
			return c.fail(n.start, BadCompound, largeToSmall, m.word())
		}
		if limit := named(m, m.compound[next-1]).si; n.value*u.si >= limit || n.value*u.si >= above {
			return c.fail(n.start, BadCompound, carryOver)
		}
		total += n.value * u.si
		k, last, above = next, n, u.si
		r.value, r.unit = total, &inSI
	}
	return nil
}

// place is where u stands in the compound of m, or -1.
func place(m measure, u *unit) int {
	for k, names := range m.compound {
		if u.names == names {
			return k
		}
	}
	return -1
}

// named is the unit of m with these names.
func named(m measure, names string) *unit {
	for i := range m.units {
		if m.units[i].names == names {
			return &m.units[i]
		}
	}
	return nil
}

// si is the value in SI; a bare number takes the unit fallback, or the bare
// unit of m.
func (c *scan) si(m measure, r reading, fallback *unit) (float64, *ParseError) {
	u := r.unit
	if u == nil {
		u = fallback
	}
	if u == nil {
		if m.bare == 0 {
			return 0, c.fail(r.start, UnitMissing, unitMissing, m.word(), m.known)
		}
		u = &unit{si: m.bare}
	}
	v := r.value * u.si
	if u.grade {
		v = float64(FromRadians(math.Atan(v)))
	}
	if math.IsNaN(v) || math.Abs(v) > maxSI || v != 0 && math.Abs(v) < minSI {
		return 0, c.fail(r.start, OutOfRange, outOfRange, m.word())
	}
	return v, nil
}

// single reads text as one value of m in SI.
func single(text string, m measure) (float64, reading, *ParseError) {
	c, err := open(text)
	if err != nil {
		return 0, reading{}, err
	}
	r, err := c.one(m)
	if err != nil {
		return 0, r, err
	}
	c.skipSpace()
	if !c.done() {
		if c.peek() == '%' {
			return 0, r, c.fail(c.at, UnitUnknown, unitUnknown, "%", m.word(), m.known)
		}
		if c.rangeSign() != noSign {
			return 0, r, c.fail(c.at, NotOneValue, oneValue, m.word())
		}
		return 0, r, c.fail(c.at, Trailing, trailing, m.word())
	}
	v, err := c.si(m, r, nil)
	return v, r, err
}

// maxText bounds the length of a text, in bytes: no quantity needs more, and a
// sentence about a longer one could not be read.
const maxText = 200

func open(text string) (*scan, *ParseError) {
	c := &scan{text: text}
	if !utf8.ValidString(text) {
		return nil, &ParseError{Input: clip(strings.ToValidUTF8(text, "?")), Fault: NotNumber, Kind: noText}
	}
	if len(text) > maxText {
		return nil, &ParseError{Input: clip(text), Fault: Trailing, Kind: tooLong}
	}
	c.skipSpace()
	if c.done() {
		return nil, c.fail(0, Empty, nothing)
	}
	return c, nil
}
