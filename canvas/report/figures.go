package report

import (
	"bytes"
	"encoding/json"
	"math"
	"strconv"

	"kedge/solver/doubt"
	"kedge/solver/facts"
)

// digits are the significant digits of a computed figure in an answer.
const digits = 6

// Number is a figure of an answer in JSON: at most six significant digits, never a power
// of ten; null where it is not finite.
type Number float64

// MarshalJSON implements json.Marshaler.
func (n Number) MarshalJSON() ([]byte, error) {
	x := float64(n)
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return []byte("null"), nil
	}
	x, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
	if err != nil {
		return []byte("null"), nil
	}
	if x == 0 {
		x = 0 // no negative zero
	}
	return strconv.AppendFloat(nil, x, 'f', -1, 64), nil
}

// Known is a figure, or null if it is not known.
func Known[Q ~float64](x Q, ok bool) *Number {
	if !ok || math.IsNaN(float64(x)) || math.IsInf(float64(x), 0) {
		return nil
	}
	n := Number(x)
	return &n
}

// Each is a list in the form of an answer, empty and not null if there is none.
func Each[T, J any](list []T, of func(*T) J) []J {
	out := make([]J, len(list))
	for i := range list {
		out[i] = of(&list[i])
	}
	return out
}

// Head says of what form an answer is, and what gave it.
type Head struct {
	Format   string `json:"format"`
	Version  int    `json:"version"`
	App      string `json:"app"`
	Handbook string `json:"handbook"`
}

// HeadOf is the head of an answer of the program.
func HeadOf(format string, version int) Head {
	return Head{Format: format, Version: version, App: Program(), Handbook: facts.Revision()}
}

// Encoded is an answer as JSON: indented, members in a fixed order, a line feed at the
// end.
func Encoded(doc any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	err := enc.Encode(doc)
	return b.Bytes(), err
}

// Band is the 5, 50 and 95 % points of a figure.
type Band struct {
	Low  Number `json:"low"`
	Mid  Number `json:"mid"`
	High Number `json:"high"`
}

// BandOf is null if a trial lacks the figure.
func BandOf(b [3]float64) *Band {
	if math.IsNaN(b[0]) {
		return nil
	}
	return &Band{Number(b[0]), Number(b[1]), Number(b[2])}
}

// Doubtful names a figure.
type Doubtful struct {
	What   string `json:"what"`
	Thing  string `json:"thing"`
	Member string `json:"member"`
}

// DoubtfulOf names a figure that is in doubt.
func DoubtfulOf(d *doubt.Doubtful) Doubtful { return Doubtful{d.What, string(d.Thing), d.Member} }
