package quantity

import (
	"math"
	"strconv"
	"strings"
	"unicode"
)

// As says what a figure is printed as, and so which way it is rounded.
type As uint8

// The roundings. The zero value is Plain.
const (
	// Plain rounds to the nearest figure shown, halves away from zero.
	Plain As = iota
	// AsLoad rounds away from zero: loads, used shares, lengths needed, radii
	// to stay outside of.
	AsLoad
	// AsLimit rounds down: limits, holds, clearances, rope left.
	AsLimit
	// AsTyped gives back what was typed: up to 12 significant digits and no
	// zero more than needed. For the text of an entry field.
	AsTyped
)

// slack is what is taken off before rounding up, and what a limit may rise to
// the figure it means before rounding down: 1 part in 10⁹ of the figure shown,
// at least of 1, at most a quarter of the last digit. It keeps a limit of 40 kN at 40.0 and a load of 40 kN at 40.0
// after a trip through pounds, ten million times coarser than a float64 and a
// million times finer than any figure shown.
const slack = 1e-9

// NotComputed is printed in place of what is not finite.
const NotComputed = "not computed"

// The spaces printed: none of them lets a figure be parted at the end of a
// row. Both are in the fonts the program embeds.
const (
	groupSpace = "\u202f" // narrow no-break space between thousands
	unitSpace  = "\u00a0" // no-break space between figure and unit
)

// Text is a printed quantity, figure and unit apart so that a table may carry
// the unit in its head.
type Text struct {
	Number string // with a hyphen for minus; [NotComputed] if not finite
	Unit   string // symbol; empty if not finite
	close  bool   // no space between the two
}

// String is the figure and its unit.
func (t Text) String() string {
	switch {
	case t.Unit == "":
		return t.Number
	case t.close:
		return t.Number + t.Unit
	}
	return t.Number + unitSpace + t.Unit
}

// PlainSpaces is s with ordinary spaces in place of the no-break ones, for a
// terminal, a search or a test.
func PlainSpaces(s string) string {
	return strings.Map(func(r rune) rune {
		if isSpace(r) {
			return ' '
		}
		return r
	}, s)
}

// OneLine is s with a replacement character for each control character, end of
// line and mark that turns the direction of writing: what somebody typed can then
// neither hide what is printed beside it nor look like a line of its own.
func OneLine(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r), r == '\u2028', r == '\u2029', // ends of line
			r == '\u061c', r == '\u200e', r == '\u200f', '\u202a' <= r && r <= '\u202e', '\u2066' <= r && r <= '\u2069': // Unicode Bidi_Control
			return unicode.ReplacementChar
		}
		return r
	}, s)
}

// style is how figures of one kind are cut.
type style struct {
	decimals int     // below coarse
	coarse   float64 // from here on whole numbers; 0: everywhere the same
	digits   int     // significant digits kept of a whole number; 0: all
}

// format prints v, which is in SI, in the unit u.
func format(v float64, u shownUnit, st style, as As) Text {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Text{Number: NotComputed}
	}
	return Text{Number: figure(v/u.si, st, as), Unit: u.symbol}
}

// maxFigure is the largest count of last digits shown. A float64 holds 90 times
// as many exactly, so a change of unit and back, five roundings of 1.1e-16,
// shifts one by less than 0.06 of the last digit. Figures beyond it are written
// as powers of ten.
const maxFigure = 1e14

// figure prints the figure x, which is in the unit shown.
func figure(x float64, st style, as As) string {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return NotComputed
	}
	if math.Abs(x) >= maxFigure {
		return power(x, as)
	}
	if as == AsTyped {
		return typed(x)
	}
	places := st.decimals
	if st.coarse > 0 && math.Abs(x) >= st.coarse {
		places = 0
	}
	for math.Abs(x)*math.Pow10(places) >= maxFigure {
		places--
	}
	if places == 0 && st.digits > 0 {
		places = min(0, st.digits-wholeDigits(x))
	}
	n := count(x, places, as)
	if places > 0 && st.coarse > 0 && math.Abs(n) >= st.coarse*math.Pow10(places) {
		// rounded up onto the bound: 999.96 is 1 000, not 1 000.0
		n, places = math.Round(n/math.Pow10(places)), 0
	}
	if places < 0 {
		n, places = n*math.Pow10(-places), 0
	}
	return group(n, places)
}

// count is x rounded to a whole number of 10^-places.
func count(x float64, places int, as As) float64 {
	off := math.Min(slack*math.Max(math.Abs(x), 1), math.Pow10(-places)/4)
	scaled := func(x float64) float64 {
		if places < 0 {
			return x / math.Pow10(-places)
		}
		return x * math.Pow10(places)
	}
	switch as {
	case AsLoad:
		if up := math.Ceil(scaled(math.Abs(x) - off)); up > 0 {
			return math.Copysign(up, x)
		}
		return 0
	case AsLimit:
		return math.Floor(scaled(x + off))
	}
	return math.Round(scaled(x + math.Copysign(off/2, x)))
}

// wholeDigits is how many digits the whole part of x has.
func wholeDigits(x float64) int {
	return len(strconv.FormatFloat(math.Floor(math.Abs(x)*(1+slack)), 'f', 0, 64))
}

// group writes n·10^-places with its thousands parted.
func group(n float64, places int) string {
	if n == 0 {
		n = 0 // no negative zero
	}
	digits := strconv.FormatFloat(math.Abs(n), 'f', 0, 64)
	if short := places + 1 - len(digits); short > 0 {
		digits = strings.Repeat("0", short) + digits
	}
	whole, frac := digits[:len(digits)-places], digits[len(digits)-places:]
	var b strings.Builder
	if n < 0 {
		b.WriteByte('-')
	}
	for i, d := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteString(groupSpace)
		}
		b.WriteRune(d)
	}
	if places > 0 {
		b.WriteString("." + frac)
	}
	return b.String()
}

// typedDigits is how many significant digits an entry keeps: three fewer than
// a float64, which hides the last bits of a change of unit.
const typedDigits = 12

// typedLeast is the least figure an entry keeps: half the least a field reads
// (1e-9 N, 1e-12 kN). Below it is what a sum leaves of zero.
const typedLeast = 0.5e-12

// typed prints x as one would type it, without parting thousands, and so that
// it is read one way only.
func typed(x float64) string {
	if math.Abs(x) < typedLeast {
		return "0"
	}
	e := strconv.FormatFloat(math.Abs(x), 'e', typedDigits-1, 64)
	r, err := strconv.ParseFloat(e, 64)
	if err != nil { // cannot be: e is a number just written
		return NotComputed
	}
	s := strconv.FormatFloat(r, 'f', -1, 64)
	whole, frac, _ := strings.Cut(s, ".")
	s = decimal(whole, frac)
	if x < 0 {
		s = "-" + s
	}
	return s
}

// power prints a figure too large to be of this world, rounded as asked, as in
// 1.24e+20.
func power(x float64, as As) string {
	e := math.Floor(math.Log10(math.Abs(x)))
	m := count(x/math.Pow(10, e), 2, as) / 100
	return strconv.FormatFloat(m, 'f', 2, 64) + "e+" + strconv.Itoa(int(e))
}
