package survey

import (
	"bytes"
	"errors"
	"strings"
	"unicode"
	"unicode/utf8"

	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/refusal"
)

// MaxBytes bounds a file: 100 000 track points with height, time and what a
// recorder adds, 250 bytes each. (ours)
const MaxBytes = 24 << 20

// What is wrong with a file, for callers that branch on it with errors.Is.
var (
	ErrEmpty   = errors.New("survey: nothing in it")
	ErrFormat  = errors.New("survey: form not understood")
	ErrLimit   = errors.New("survey: too large")
	ErrSystem  = errors.New("survey: other reference system")
	ErrColumns = errors.New("survey: columns not understood")
	ErrPlace   = errors.New("survey: place out of bounds")
)

// Format is the form of a file.
type Format string

// The forms that are read.
const (
	FormatGPX     Format = "GPX"
	FormatGeoJSON Format = "GeoJSON"
	FormatCSV     Format = "CSV"
)

// Outline is a line or an area of the file.
type Outline struct {
	Name    string
	Corners []plan.Point // in order; of a closed one the first is not repeated
	Closed  bool
	Doubt   quantity.Length // of its corner that is known least; 0: not said
}

// Result is what was read.
type Result struct {
	Name      string // of the file
	Format    Format
	Points    []plan.SurveyPoint // marks, and the corners of open lines
	Outlines  []Outline
	OnGlobe   bool // the file gave latitude and longitude
	OriginLat float64
	OriginLon float64  // degrees, of the plane's origin, if OnGlobe
	Notes     []error  // what was assumed or left out, each to be said
	Preview   *Preview // of a list: how its columns were understood; else nil
}

// Survey is the thing to put into a plan, its notes as say says them; nil if
// there are no points.
func (r Result) Survey(say func(error) string) *plan.Survey {
	if len(r.Points) == 0 {
		return nil
	}
	source := string(r.Format)
	if r.Name != "" {
		source = r.Name + ", " + source
	}
	source += "."
	for _, n := range r.Notes {
		source += " " + say(n)
	}
	return &plan.Survey{Source: source,
		LatDeg: r.OriginLat, LonDeg: r.OriginLon, Points: r.Points}
}

// Options are what a person may say about a file. The zero value leaves all to
// the file.
type Options struct {
	// Origin is where the plane touches, to add a file to a survey that has one;
	// nil: the middle of the points. Plain coordinates ignore it.
	Origin *LatLon
	// Columns overrules how a list is read; nil: by its heads and contents.
	Columns *Columns
}

// Read reads a file of any of the forms, told by its contents. With ErrColumns
// the result has no points, but a Preview to choose the columns by.
func Read(name string, data []byte, o Options) (Result, error) {
	r, err := read(data, o)
	if e := (*refusal.Error)(nil); errors.As(err, &e) {
		of := *e
		of.Where = name
		return Result{Name: name, Preview: r.Preview}, &of
	}
	r.Name = name
	return r, err
}

func read(data []byte, o Options) (Result, error) {
	if len(data) > MaxBytes {
		return Result{}, large.At("")
	}
	text, note := asUTF8(data)
	start := bytes.TrimLeftFunc(text, unicode.IsSpace)
	var r Result
	var err error
	switch {
	case len(start) == 0:
		return Result{}, empty.At("")
	case start[0] == '<':
		r, err = readGPX(start, o)
	case start[0] == '{':
		r, err = readGeoJSON(start, o)
	default:
		r, err = readCSV(text, o)
		if note != nil && err == nil {
			r.Notes = append(r.Notes, note)
		}
	}
	return r, err
}

// mark is a point as the file gives it.
type mark struct {
	name     string
	lat, lon float64 // degrees; or y and x in metres
	height   quantity.Length
	doubt    quantity.Length // of its place; 0: not said
}

// trail is a line or area of a file.
type trail struct {
	name   string
	marks  []mark
	closed bool
}

// gathered is a whole file before it is laid on the plane.
type gathered struct {
	marks  []mark
	trails []trail
	count  int
	noteds []error
}

func (g *gathered) add(m mark) error {
	g.marks = append(g.marks, m)
	return g.one()
}

func (g *gathered) one() error {
	if g.count++; g.count > plan.MaxSurveyPoints {
		return manyPoints.At("")
	}
	return nil
}

// note keeps what is to be said, once.
func (g *gathered) note(n *refusal.Error) {
	for _, had := range g.noteds {
		if had.Error() == n.Error() {
			return
		}
	}
	g.noteds = append(g.noteds, n)
}

// maxNameRunes is more than a label on a sheet can show.
const maxNameRunes = 120

// cleanName is a name from a file as a plan may hold it: one line, whole UTF-8.
func cleanName(s string) string {
	plainName := true
	for i := 0; i < len(s); i++ {
		if s[i] < ' ' || s[i] >= 0x7f {
			plainName = false
			break
		}
	}
	if !plainName {
		s = strings.Map(func(r rune) rune {
			switch {
			case unicode.IsSpace(r):
				return ' '
			case unicode.IsControl(r), r == utf8.RuneError:
				return -1
			}
			return r
		}, strings.ToValidUTF8(s, ""))
	}
	s = strings.TrimSpace(s)
	if len(s) > maxNameRunes && utf8.RuneCountInString(s) > maxNameRunes {
		s = string([]rune(s)[:maxNameRunes])
	}
	return s
}
