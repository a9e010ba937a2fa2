package survey

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// MaxBytes bounds a file: 100 000 track points with everything a recorder adds
// take a third of it.
const MaxBytes = 64 << 20

// What is wrong with a file, for callers that branch on it with errors.Is.
var (
	ErrEmpty   = errors.New("survey: nothing in it")
	ErrFormat  = errors.New("survey: form not understood")
	ErrLimit   = errors.New("survey: too large")
	ErrSystem  = errors.New("survey: other reference system")
	ErrColumns = errors.New("survey: columns not understood")
	ErrPlace   = errors.New("survey: place out of bounds")
)

// Error is why a file is refused.
type Error struct {
	Name   string // of the file
	Reason string // what is wrong, without a full stop
	Do     string // what to do about it, without a full stop; may be empty
	Err    error  // the sentinel
}

// Error is the whole sentence, with the package in front.
func (e *Error) Error() string { return "survey: " + e.Sentence() }

// Sentence is what a person reads.
func (e *Error) Sentence() string {
	s := e.Reason + "."
	if e.Name != "" {
		s = e.Name + ": " + s
	}
	if e.Do != "" {
		s += " " + e.Do + "."
	}
	return s
}

// Unwrap is the sentinel.
func (e *Error) Unwrap() error { return e.Err }

// refuse is an Error without the file's name, which Read puts in.
func refuse(sentinel error, do, format string, args ...any) error {
	return &Error{Reason: fmt.Sprintf(format, args...), Do: do, Err: sentinel}
}

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
	Notes     []string // what was assumed or left out, as sentences
	Preview   *Preview // of a list: how its columns were understood; else nil
}

// Survey is the thing to put into a plan; nil if there are no points.
func (r Result) Survey() *plan.Survey {
	if len(r.Points) == 0 {
		return nil
	}
	source := string(r.Format)
	if r.Name != "" {
		source = r.Name + ", " + source
	}
	return &plan.Survey{Source: strings.Join(append([]string{source + "."}, r.Notes...), " "),
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
	if e := (*Error)(nil); errors.As(err, &e) {
		return Result{Name: name, Preview: r.Preview}, &Error{Name: name, Reason: e.Reason, Do: e.Do, Err: e.Err}
	}
	r.Name = name
	return r, err
}

func read(data []byte, o Options) (Result, error) {
	if len(data) > MaxBytes {
		return Result{}, refuse(ErrLimit, "Cut out the site", "it is larger than 64 MiB")
	}
	text, note := asUTF8(data)
	start := bytes.TrimLeftFunc(text, unicode.IsSpace)
	var r Result
	var err error
	switch {
	case len(start) == 0:
		return Result{}, refuse(ErrEmpty, "Take another file", "it is empty")
	case start[0] == '<':
		r, err = readGPX(start, o)
	case start[0] == '{':
		r, err = readGeoJSON(start, o)
	default:
		r, err = readCSV(text, o)
		if note != "" && err == nil {
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
	noteds []string
}

func (g *gathered) add(m mark) error {
	g.marks = append(g.marks, m)
	return g.one()
}

func (g *gathered) one() error {
	if g.count++; g.count > plan.MaxSurveyPoints {
		return refuse(ErrLimit, "Thin it, or cut out the site", "it holds more than 100 000 points")
	}
	return nil
}

// note keeps a sentence, once.
func (g *gathered) note(format string, args ...any) {
	s := fmt.Sprintf(format, args...)
	for _, had := range g.noteds {
		if had == s {
			return
		}
	}
	g.noteds = append(g.noteds, s)
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
