package main

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// printed is a figure as it stands in a sum: its value in SI and what one unit
// of its last printed digit comes to.
type printed struct {
	x, last float64
}

// unitSizes are the units a sum prints, in SI; a unit that is in none of them
// is an error, so that no figure is read a thousand times too small.
var unitSizes = map[string]float64{
	"": 1, "kN": 1000, "kN·m": 1000, "kN·m/kg": 1000, "kN/m²": 1000, "kN/kg": 1000, "N/m": 1, "J": 1, "kJ": 1000,
	"m": 1, "mm": 0.001, "kg": 1, "kg/m³": 1, "m/s²": 1, "m/s": 1, "°": math.Pi / 180, "%": 0.01,
}

var (
	figureText = regexp.MustCompile(`^(\d{1,3}(?: \d{3})+(?:\.\d+)?|\d+(?:\.\d+)?)(?: ?(°|%)| (kN·m/kg|kN·m|kN/m²|kN/kg|kN|kJ|J|N/m|mm|kg/m³|kg|m/s²|m/s|m)(?:[^\p{L}·/²³]|$))?`)
	wordText   = regexp.MustCompile(`^\p{L}[\p{L}'-]*`)
	markText   = regexp.MustCompile(` \((?:m|c|preset)\)`) // memory, common practice, preset
)

// readFigure reads a figure with its unit at the start of a text.
func readFigure(s string) (p printed, n int, ok bool) {
	m := figureText.FindStringSubmatchIndex(s)
	if m == nil {
		return printed{}, 0, false
	}
	digits, unit, end := strings.ReplaceAll(s[m[2]:m[3]], " ", ""), "", m[3]
	for g := 4; g <= 6; g += 2 {
		if m[g] >= 0 {
			unit, end = s[m[g]:m[g+1]], m[g+1]
		}
	}
	x, err := strconv.ParseFloat(digits, 64)
	if err != nil {
		return printed{}, 0, false
	}
	decimals := 0
	if i := strings.IndexByte(digits, '.'); i >= 0 {
		decimals = len(digits) - i - 1
	}
	size := unitSizes[unit]
	return printed{x * size, math.Pow(10, -float64(decimals)) * size}, end, true
}

// half is by how much a figure may be out that is rounded to seven digits: half
// a unit of the seventh. Zeros at its end are left out, so one of fewer digits
// may be such a figure too.
func (p printed) half() float64 {
	if p.x == 0 {
		return 0
	}
	return math.Pow(10, math.Floor(math.Log10(math.Abs(p.x)))-6) / 2
}

// sumReader evaluates the left side of a printed line with nothing but the
// figures that stand in it. Words between them are passed over; two figures
// without a sign between them are an error.
type sumReader struct {
	rest    string
	figures []printed // in the order read
	shift   int       // the figure that is read half a unit of its last digit larger; −1: none
}

// evaluate is the value of a printed expression, and by how much it may be out
// because long figures in it are rounded to their last digit.
func evaluate(expr string) (x, slack float64, err error) {
	r := sumReader{rest: expr, shift: -1}
	if x, err = r.all(); err != nil {
		return 0, 0, err
	}
	for i, p := range r.figures {
		if p.half() == 0 {
			continue
		}
		moved := sumReader{rest: expr, shift: i}
		y, err := moved.all()
		if err != nil {
			return 0, 0, err
		}
		slack += math.Abs(y - x)
	}
	return x, slack, nil
}

func (r *sumReader) all() (float64, error) {
	x, err := r.terms()
	if err == nil && r.peek() != "" {
		err = fmt.Errorf("%q is left over", r.rest)
	}
	if err == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
		err = fmt.Errorf("no value")
	}
	return x, err
}

// signs are what means something between figures; of two that begin alike the
// longer stands first.
var signs = []string{"the lower of", "the higher of", "and", "of", "sin", "cos", "√", "π", "½", "×", "÷", "+", "−", "-", "(", ")", "²", "³", "^"}

// peek is the next sign, or "#" before a figure, or empty at the end; words
// that are no sign are passed over.
func (r *sumReader) peek() string {
	for {
		r.rest = strings.TrimLeft(r.rest, " ")
		if r.rest == "" {
			return ""
		}
		if r.rest[0] >= '0' && r.rest[0] <= '9' {
			return "#"
		}
		word := wordText.FindString(r.rest)
		for _, s := range signs {
			if strings.HasPrefix(r.rest, s) && (word == "" || word == s || strings.Contains(s, " ") || s == "π") {
				return s
			}
		}
		if word == "" {
			return r.rest[:1]
		}
		r.rest = r.rest[len(word):]
	}
}

// take eats a sign if it is the next.
func (r *sumReader) take(s string) bool {
	if r.peek() != s {
		return false
	}
	r.rest = r.rest[len(s):]
	return true
}

func (r *sumReader) terms() (float64, error) {
	x, err := r.factors()
	for err == nil {
		var y float64
		switch {
		case r.take("+"):
			y, err = r.factors()
			x += y
		case r.take("−"):
			y, err = r.factors()
			x -= y
		default:
			return x, nil
		}
	}
	return 0, err
}

func (r *sumReader) factors() (float64, error) {
	r.take("×") // a share is printed with its sign in front: ×0.85
	x, err := r.power()
	for err == nil {
		var y float64
		switch {
		case r.take("×"), r.take("of"):
			r.take("×")
			y, err = r.power()
			x *= y
		case r.take("÷"):
			y, err = r.power()
			x /= y
		default:
			return x, nil
		}
	}
	return 0, err
}

func (r *sumReader) power() (float64, error) {
	x, err := r.value()
	for err == nil {
		switch {
		case r.take("²"):
			x *= x
		case r.take("³"):
			x *= x * x
		case r.take("^"):
			var y float64
			y, err = r.value()
			x = math.Pow(x, y)
		default:
			return x, nil
		}
	}
	return 0, err
}

func (r *sumReader) value() (float64, error) {
	switch s := r.peek(); s {
	case "of", "and": // a word of the line, with no figure before it
		r.take(s)
		return r.value()
	case "#":
		p, n, ok := readFigure(r.rest)
		if !ok {
			return 0, fmt.Errorf("no figure at %q", r.rest)
		}
		r.rest = r.rest[n:]
		r.figures = append(r.figures, p)
		if len(r.figures)-1 == r.shift {
			return p.x + p.half(), nil
		}
		return p.x, nil
	case "−", "-":
		r.take(s)
		x, err := r.value()
		return -x, err
	case "√", "sin", "cos":
		r.take(s)
		x, err := r.value()
		return map[string]func(float64) float64{"√": math.Sqrt, "sin": math.Sin, "cos": math.Cos}[s](x), err
	case "π":
		r.take(s)
		return math.Pi, nil
	case "½":
		r.take(s)
		return 0.5, nil
	case "(":
		r.take(s)
		x, err := r.terms()
		if err == nil && !r.take(")") {
			err = fmt.Errorf("a bracket is not closed at %q", r.rest)
		}
		return x, err
	case "the lower of", "the higher of":
		r.take(s)
		x, err := r.terms()
		if err != nil {
			return 0, err
		}
		if !r.take("and") {
			return 0, fmt.Errorf("%s what, at %q", s, r.rest)
		}
		y, err := r.terms()
		if s == "the higher of" {
			return math.Max(x, y), err
		}
		return math.Min(x, y), err
	}
	return 0, fmt.Errorf("no figure at %q", r.rest)
}

// sumLine is a printed line of a sum, taken apart at its equals signs: name =
// expression = result, or words with the expression and = result.
func sumLine(line string) (expr, result string, ok bool) {
	if i := strings.Index(line, " ["); i >= 0 { // the sources
		line = line[:i]
	}
	line = markText.ReplaceAllString(line, "")
	i := strings.LastIndex(line, " = ")
	if i < 0 {
		return "", "", false
	}
	expr, result = line[:i], line[i+len(" = "):]
	if j := strings.Index(expr, " = "); j >= 0 {
		expr = expr[j+len(" = "):]
	}
	return expr, strings.TrimPrefix(result, "×"), true
}

// recompute checks a printed line by its own figures: what its expression
// gives is its result, to one unit of the last digit printed. A long result
// leaves out zeros at its end and counts as printed with all seven digits.
func recompute(line string, long bool) error {
	expr, result, ok := sumLine(line)
	if !ok {
		return fmt.Errorf("no formula")
	}
	got, slack, err := evaluate(expr)
	if err != nil {
		return err
	}
	sign, text := 1.0, result
	for _, minus := range []string{"-", "−"} {
		if strings.HasPrefix(text, minus) {
			sign, text = -1, strings.TrimPrefix(text, minus)
		}
	}
	want, n, ok := readFigure(text)
	if !ok || n != len(text) {
		return fmt.Errorf("the result %q is no figure", result)
	}
	within := want.last
	if long {
		within = min(within, math.Abs(want.x)*1e-6) + slack
	}
	if d := math.Abs(got - sign*want.x); d > within*(1+1e-9) {
		return fmt.Errorf("its figures give %.9g, it says %.9g (SI)", got, sign*want.x)
	}
	return nil
}
