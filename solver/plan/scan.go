package plan

import (
	"bytes"
	"errors"
	"io"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json/jsontext"
)

// Limits of a plan file. They keep a wrong or hostile file from taking the
// machine's memory, and are far above any plan a person draws.
const (
	MaxBytes         = 48 << 20 // of the whole file
	MaxUnderlayBytes = 12 << 20 // of the underlay's picture
	MaxThings        = 500      // of a few hundred slings on one anchor each is loaded by all
	MaxRigs          = 64       // each is solved whenever the plan is: more would not be answered in seconds
	MaxPeopleInRigs  = 600      // people times rigs: a way out is looked for, for each in each
	MaxSurveyPoints  = 100_000
	MaxDepth         = 64      // of JSON nesting
	maxObjects       = 200_000 // all JSON objects: 100 000 survey points, 500 things of two hundred parts each
)

// header is what tells whether the rest of a file is ours to read.
type header struct {
	format             string
	version, minReader int
	hasFormat          bool
}

// scanner reads a file once without keeping anything: syntax, nesting, counts,
// members that are missing or must not be there.
type scanner struct {
	dec     *jsontext.Decoder
	head    header
	things  int
	objects int
}

// scan checks data and returns its header, as far as it was read, even with an
// error.
func scan(data []byte) (header, error) {
	s := &scanner{dec: jsontext.NewDecoder(bytes.NewBuffer(data))}
	err := s.value(schema(), 1)
	if err == nil {
		if _, e := s.dec.ReadToken(); !errors.Is(e, io.EOF) {
			err = trailing.At("", int(s.dec.InputOffset()))
		}
	}
	return s.head, err
}

func (s *scanner) here() string { return string(s.dec.StackPointer()) }

// shorten is a path cut after its first four members, for one that is endless.
func shorten(path string) string {
	for i, n := 0, 0; i < len(path); i++ {
		if path[i] == '/' {
			if n++; n > 4 {
				return path[:i] + "/…"
			}
		}
	}
	return path
}

// value reads one value described by n; a nil n is an unknown member's.
func (s *scanner) value(n *node, depth int) error {
	if depth > MaxDepth {
		return deep.At(shorten(s.here()), MaxDepth)
	}
	switch s.dec.PeekKind() {
	case '{':
		return s.object(n, depth)
	case '[':
		return s.list(n, depth)
	}
	tok, err := s.dec.ReadToken()
	if err != nil {
		return s.syntax(err)
	}
	if n != nil && tok.Kind() == 'n' {
		return nullValue.At(s.here())
	}
	if depth == 2 {
		s.header(tok)
	}
	return nil
}

func (s *scanner) header(tok jsontext.Token) {
	switch s.here() {
	case "/format":
		if tok.Kind() == '"' {
			s.head.format, s.head.hasFormat = tok.String(), true
		}
	case "/version":
		s.head.version = whole(tok)
	case "/min_reader":
		s.head.minReader = whole(tok)
	}
}

func whole(tok jsontext.Token) int {
	if tok.Kind() != '0' {
		return 0
	}
	n, err := strconv.Atoi(tok.String())
	if err != nil {
		return 0
	}
	return n
}

func (s *scanner) object(n *node, depth int) error {
	if _, err := s.dec.ReadToken(); err != nil {
		return s.syntax(err)
	}
	where := ""
	if s.objects++; s.objects > maxObjects {
		return manyObjects.At(s.here())
	}
	var have map[*field]bool
	if n != nil && n.fields != nil {
		if n.required > 0 {
			have = make(map[*field]bool, n.required)
		}
		where = s.here()
		if n.isThing {
			if s.things++; s.things > MaxThings {
				return manyThings.At(where)
			}
		}
	}
	for s.dec.PeekKind() != '}' {
		tok, err := s.dec.ReadToken()
		if err != nil {
			return s.syntax(err)
		}
		var child *node
		if n != nil && n.fields != nil {
			name := tok.String()
			f := n.members[name]
			switch {
			case f != nil:
				child = f.node
				if f.required {
					have[f] = true
				}
			case !n.open:
				return memberUnknown.At(where, quoted(name))
			}
		}
		if err := s.value(child, depth+1); err != nil {
			return err
		}
	}
	if _, err := s.dec.ReadToken(); err != nil {
		return s.syntax(err)
	}
	if n != nil && len(have) < n.required {
		return memberMissing.At(where, n.missing(have))
	}
	return nil
}

func (s *scanner) list(n *node, depth int) error {
	if _, err := s.dec.ReadToken(); err != nil {
		return s.syntax(err)
	}
	var elem *node
	if n != nil {
		elem = n.elem
	}
	survey := elem != nil && elem.typ == surveyPointType
	for i := 0; s.dec.PeekKind() != ']'; i++ {
		if survey && i >= MaxSurveyPoints {
			return manyPoints.At(strings.TrimSuffix(s.here(), "/"+strconv.Itoa(i-1)))
		}
		if err := s.value(elem, depth+1); err != nil {
			return err
		}
	}
	if _, err := s.dec.ReadToken(); err != nil {
		return s.syntax(err)
	}
	return nil
}

// syntax is an error of the JSON reader.
func (s *scanner) syntax(err error) error {
	var se *jsontext.SyntacticError
	if !errors.As(err, &se) {
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			return cutShort.At(s.here())
		}
		return notRead.At(s.here(), err)
	}
	path := string(se.JSONPointer)
	switch {
	case errors.Is(err, jsontext.ErrDuplicateName):
		return memberTwice.At(path)
	case errors.Is(err, io.ErrUnexpectedEOF):
		return cutShortAt.At(path, int(se.ByteOffset))
	}
	return badJSON.At(path, int(se.ByteOffset), se.Err)
}
