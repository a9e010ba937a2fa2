package quantity

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"kedge/solver/refusal"
)

// maxDigits is how many significant digits a float64 always keeps (DBL_DIG of
// C, 15): a longer number would come back different.
const maxDigits = 15

// number is one written number without sign or unit.
type number struct {
	value float64
	plain string // digits and one point, as it would be read again
	start int    // byte of the input
	whole bool   // no decimals, no fraction
}

// scan reads numbers, units and words from one text.
type scan struct {
	text string
	at   int
}

func (c *scan) peek() rune {
	r, _ := utf8.DecodeRuneInString(c.text[c.at:])
	return r
}

func (c *scan) done() bool { return c.at >= len(c.text) }

func (c *scan) step() {
	_, n := utf8.DecodeRuneInString(c.text[c.at:])
	c.at += n
}

func (c *scan) skipSpace() {
	for !c.done() && (isSpace(c.peek()) || c.peek() == '\n' || c.peek() == '\r') {
		c.step()
	}
}

func (c *scan) fail(at int, f Fault, kind refusal.Kind, said ...any) *ParseError {
	return &ParseError{Input: c.text, Offset: at, Fault: f, Kind: kind, Said: said}
}

// take steps over word, ignoring case, if the text goes on with it.
func (c *scan) take(word string) bool {
	end := c.at + len(word)
	if end > len(c.text) || !strings.EqualFold(c.text[c.at:end], word) {
		return false
	}
	c.at = end
	return true
}

// isSpace tells the spaces people and programs put between groups of digits:
// plain, tab, no-break (U+00A0), the typographic ones (U+2000 to U+200A) and
// narrow no-break (U+202F).
func isSpace(r rune) bool {
	return r == ' ' || r == '\t' || r == '\u00a0' || r >= '\u2000' && r <= '\u200a' || r == '\u202f'
}

func isDigit(r rune) bool { return r >= '0' && r <= '9' }

func isMinus(r rune) bool { return r == '-' || r == '−' || r == '–' || r == '‐' || r == '‑' }

func isApostrophe(r rune) bool { return r == '\'' || r == '’' }

// digits steps over a run of ASCII digits and gives it.
func (c *scan) digits() string {
	from := c.at
	for !c.done() && isDigit(c.peek()) {
		c.at++
	}
	return c.text[from:c.at]
}

// ahead gives the run of digits that starts at byte i.
func (c *scan) ahead(i int) string {
	d := scan{text: c.text, at: i}
	return d.digits()
}

// number reads one number. apostrophes says whether ' parts thousands here; in
// a length it means feet.
func (c *scan) number(apostrophes bool) (number, *ParseError) {
	start := c.at
	if !c.done() && unicode.IsDigit(c.peek()) && !isDigit(c.peek()) {
		return number{}, c.fail(start, NotNumber, otherDigits)
	}
	groups := []string{c.digits()}
	var seps []rune
	for !c.done() {
		r, size := utf8.DecodeRuneInString(c.text[c.at:])
		next := c.ahead(c.at + size)
		switch {
		case r == '.' || r == ',':
			if strings.HasPrefix(c.text[c.at:], "..") {
				return c.finish(start, groups, seps)
			}
			if next == "" {
				return number{}, c.fail(c.at, NotNumber, noDecimals)
			}
		case isApostrophe(r) && apostrophes && len(next) == 3:
			r = '\''
		case isSpace(r) && next != "" && groups[0] != "":
			if n, ok, err := c.mixed(start, groups, seps); ok || err != nil {
				return n, err
			}
			r = ' '
		case r == '/' && next != "" && len(seps) == 0:
			return c.fraction(start, "", groups[0])
		default:
			return c.finish(start, groups, seps)
		}
		c.step()
		seps = append(seps, r)
		groups = append(groups, c.digits())
	}
	return c.finish(start, groups, seps)
}

// mixed reads the fraction of 6 1/2, standing at the space.
func (c *scan) mixed(start int, groups []string, seps []rune) (number, bool, *ParseError) {
	d := *c
	d.step()
	top := d.digits()
	if d.done() || d.peek() != '/' || len(seps) > 0 {
		return number{}, false, nil
	}
	*c = d
	n, err := c.fraction(start, groups[0], top)
	return n, true, err
}

// maxDivisor is the finest division of an inch in use on rules and in gear
// tables.
const maxDivisor = 64

// fraction reads on from the stroke of 1/2; whole is the number before it.
func (c *scan) fraction(start int, whole, top string) (number, *ParseError) {
	c.step()
	bottom := c.digits()
	n, _ := strconv.Atoi(top)
	d, _ := strconv.Atoi(bottom)
	if len(top) > 2 || len(bottom) > 2 || d < 2 || d > maxDivisor || n < 1 || n >= d {
		return number{}, c.fail(start, NotNumber, badFraction)
	}
	w := 0
	if whole != "" {
		if len(whole) > 4 {
			return number{}, c.fail(start, NotNumber, longFraction)
		}
		w, _ = strconv.Atoi(whole)
	}
	v := float64(w) + float64(n)/float64(d)
	plain := strings.TrimSpace(whole + " " + top + "/" + bottom)
	return number{value: v, plain: plain, start: start}, nil
}

// finish makes a number of groups of digits and the separators between them.
func (c *scan) finish(start int, groups []string, seps []rune) (number, *ParseError) {
	whole, frac, err := c.split(start, groups, seps)
	if err != nil {
		return number{}, err
	}
	if whole == "" && frac == "" {
		return number{}, c.fail(start, NotNumber, noNumber)
	}
	if len(strings.TrimLeft(whole+frac, "0")) > maxDigits {
		return number{}, c.fail(start, TooManyDigits, manyDigits)
	}
	n := number{start: start, whole: frac == "", plain: decimal(whole, frac)}
	v, perr := strconv.ParseFloat(n.plain, 64)
	if perr != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return number{}, c.fail(start, OutOfRange, notFinite)
	}
	if v == 0 && strings.Trim(whole+frac, "0") != "" {
		return number{}, c.fail(start, OutOfRange, vanishing)
	}
	n.value = v
	return n, nil
}

// decimal writes whole and frac so that they are read one way only: three
// decimals get a zero, since a separator before three digits is doubtful.
func decimal(whole, frac string) string {
	if whole = strings.TrimLeft(whole, "0"); whole == "" {
		whole = "0"
	}
	if frac == "" {
		return whole
	}
	if len(frac) == 3 && doubtful(whole) {
		frac += "0"
	}
	return whole + "." + frac
}

// doubtful reports whether a separator after the digits of whole and before
// three digits may part thousands: nobody writes 0,450 or 2450,125 for that.
func doubtful(whole string) bool {
	return len(whole) >= 1 && len(whole) <= 3 && strings.Trim(whole, "0") != ""
}

// split tells the whole digits from the decimals.
func (c *scan) split(start int, groups []string, seps []rune) (whole, frac string, err *ParseError) {
	n := len(seps)
	if n == 0 {
		return groups[0], "", nil
	}
	last := seps[n-1]
	once := true
	same := true // all but the last are alike
	for _, s := range seps[:n-1] {
		once = once && s != last
		same = same && s == seps[0]
	}
	point := (last == '.' || last == ',') && once
	switch {
	case point && n == 1:
		if w, f := groups[0], groups[1]; len(f) == 3 && doubtful(w) {
			return "", "", c.twoReadings(start, w, f)
		}
		return groups[0], groups[1], nil
	case point && same && thousands(groups[:n]):
		return strings.Join(groups[:n], ""), groups[n], nil
	case !point && same && last == seps[0] && thousands(groups):
		return strings.Join(groups, ""), "", nil
	}
	return "", "", c.fail(start, BadGrouping, badGrouping)
}

// twoReadings refuses 2,450 and offers 2.45 and 2450 with whatever follows.
func (c *scan) twoReadings(start int, whole, frac string) *ParseError {
	before, after := c.text[:start], c.text[c.at:]
	short := strings.TrimRight(frac, "0")
	small := whole
	if short != "" {
		small = decimal(whole, short)
	}
	small = strings.TrimLeft(small, "0")
	large := strings.TrimLeft(whole+frac, "0")
	return c.fail(start, TwoReadings, twoReadings).offer(before+small+after, before+large+after)
}

// thousands reports whether the groups are thousands: one to three digits, then
// threes, no zero in front.
func thousands(groups []string) bool {
	for i, g := range groups {
		if i == 0 && (len(g) < 1 || len(g) > 3 || g[0] == '0') || i > 0 && len(g) != 3 {
			return false
		}
	}
	return true
}
