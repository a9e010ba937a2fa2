package plan

import (
	"bytes"
	"errors"
	"reflect"
	"strconv"
	"strings"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"kedge/solver/quantity"
)

// FormatName is the value of "format" in every plan file.
const FormatName = "kedge-plan"

// CurrentVersion is the version of the file format this program writes.
const CurrentVersion = 1

var surveyPointType = reflect.TypeFor[SurveyPoint]()

// New is an empty plan of the current version on level ground, without a rig.
func New() *Plan {
	p := &Plan{Format: FormatName, Version: CurrentVersion, MinReader: CurrentVersion}
	p.Site.Ground.Slope = Known(quantity.Degrees(0))
	return p
}

// ParsePlan reads a `.kedge` file. The plan it returns is valid (see
// [Validate]) and of the current version, or of a newer one that says this
// program may open it; members it does not know are kept, see
// [UnknownMembers]. Every error is an [*Error] whose sentence names the place.
func ParsePlan(data []byte) (*Plan, error) {
	data, err := opened(data)
	if err != nil {
		return nil, err
	}
	head, err := scan(data)
	if err := head.check(err); err != nil {
		return nil, err
	}
	if data, err = migrate(data, head.version, CurrentVersion, steps[:]); err != nil {
		return nil, err
	}
	p := new(Plan)
	if err := json.Unmarshal(data, p); err != nil {
		return nil, meaning(err)
	}
	if err := Validate(p); err != nil {
		return nil, err
	}
	return p, nil
}

// opened refuses what is no text of ours at first sight.
func opened(data []byte) ([]byte, error) {
	if len(data) > MaxBytes {
		return nil, refuse(ErrLimit, "", "the file is larger than 64 MiB", "Take out the underlay or thin the survey")
	}
	data = bytes.TrimPrefix(data, []byte("\xEF\xBB\xBF"))
	text := bytes.TrimLeft(data, " \t\r\n")
	switch {
	case len(text) == 0:
		return nil, refuse(ErrEmpty, "", "the file is empty", "Take an older copy, or start a new plan")
	case text[0] != '{':
		return nil, refuse(ErrFormat, "", "this is not a plan: it does not begin with a brace", "Choose a file that ends in .kedge")
	}
	return data, nil
}

// check tells whether the file is for this program, before err, what else is
// wrong with it, is worth telling.
func (h header) check(err error) error {
	reader, version := strconv.Itoa(CurrentVersion), strconv.Itoa(h.version)
	switch {
	case !h.hasFormat && err != nil:
		return err
	case !h.hasFormat:
		return refuse(ErrFormat, "/format", "this is not a plan: it does not say "+quote(FormatName), "Choose a file that ends in .kedge")
	case h.format != FormatName:
		return refuse(ErrFormat, "/format", "this is "+quote(h.format)+", not "+quote(FormatName), "Choose a file that ends in .kedge")
	case h.minReader > CurrentVersion:
		return refuse(ErrNewer, "/min_reader", "the plan needs version "+strconv.Itoa(h.minReader)+" of the file format, this program reads up to "+reader,
			"Open it with a newer Kedge; it was left untouched")
	case err != nil:
		return err
	case h.version < 1:
		return refuse(ErrFormat, "/version", "there is no version "+version+" of the file format", "Take an older copy")
	case h.minReader < 1 || h.minReader > h.version:
		return refuse(ErrFormat, "/min_reader", "version "+version+" cannot need version "+strconv.Itoa(h.minReader), "Take an older copy")
	}
	return nil
}

// meaning words an error of the JSON decoder.
func meaning(err error) error {
	var se *json.SemanticError
	if !errors.As(err, &se) {
		return refuse(ErrSyntax, "", "it cannot be read ("+err.Error()+")", "Take an older copy")
	}
	path := string(se.JSONPointer)
	want := "another value"
	if t := se.GoType; t != nil {
		if of, ok := maybeOf(t); ok {
			t = of
		}
		switch {
		case t.Kind() == reflect.String:
			want = "a text"
		case t.Kind() == reflect.Bool:
			want = "true or false"
		case t.Kind() == reflect.Struct:
			want = "an object"
		case t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Uint8:
			want = "base64 text"
		case t.Kind() == reflect.Slice:
			want = "a list"
		case t.Kind() == reflect.Int:
			want = "a whole number"
		case t.Kind() == reflect.Float64:
			want = "a number"
		}
	}
	found := map[jsontext.Kind]string{'"': "a text", '0': "a number", '{': "an object", '[': "a list", 't': "true", 'f': "false"}[se.JSONKind]
	if len(se.JSONValue) > 0 {
		found = string(se.JSONValue)
		if len(found) > 40 {
			found = strings.ToValidUTF8(found[:40], "") + "…"
		}
	}
	if se.JSONKind == '0' && want == "a number" {
		return refuse(ErrValue, path, found+" is larger than any number can be", "Check the number and its unit")
	}
	if found == "" {
		return refuse(ErrValue, path, want+" belongs here", "Correct it in a text editor, or take an older copy")
	}
	return refuse(ErrValue, path, found+" stands where "+want+" belongs", "Correct it in a text editor, or take an older copy")
}

// FormatPlan writes p as a `.kedge` file: UTF-8, two spaces, members in a fixed
// order, a line feed at the end. It refuses what [ParsePlan] would refuse. A
// plan without format and version gets the current ones; "min_reader" is
// raised to what the plan's contents need, never lowered.
func FormatPlan(p *Plan) ([]byte, error) {
	if p == nil {
		return nil, refuse(ErrEmpty, "", "there is no plan", "")
	}
	q := *p
	if q.Format == "" && q.Version == 0 && q.MinReader == 0 {
		q.Format, q.Version = FormatName, CurrentVersion
	}
	q.MinReader = max(q.MinReader, neededReader(&q))
	if err := Validate(&q); err != nil {
		return nil, err
	}
	data, err := json.Marshal(&q, json.Deterministic(true), jsontext.WithIndent("  "), jsontext.PreserveRawStrings(true))
	if err != nil {
		return nil, unwritable(err)
	}
	data = append(data, '\n')
	if len(data) > MaxBytes {
		return nil, refuse(ErrLimit, "", "the file would be larger than 64 MiB", "Take out the underlay or thin the survey")
	}
	if _, err := scan(data); err != nil {
		return nil, err
	}
	return data, nil
}

// unwritable words an error of the JSON encoder: a text that is not UTF-8, or
// unknown members that are damaged or have got a known name.
func unwritable(err error) error {
	path, cause := "", err
	if se := (*json.SemanticError)(nil); errors.As(err, &se) {
		path = string(se.JSONPointer)
		if se.Err != nil {
			cause = se.Err
		}
	}
	if se := (*jsontext.SyntacticError)(nil); errors.As(err, &se) {
		path, cause = string(se.JSONPointer), se.Err
	}
	return refuse(ErrSyntax, path, "it cannot be written ("+cause.Error()+")", "Change the text or take the member out")
}
