package plan

import (
	"bytes"
	"errors"
	"reflect"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"kedge/solver/quantity"

	"kedge/solver/refusal"
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
// [UnknownMembers]. Every error is a [*refusal.Error] that names the place.
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
	if err := likelyFault(p); err != nil {
		return nil, err
	}
	return p, nil
}

// opened refuses what is no text of ours at first sight.
func opened(data []byte) ([]byte, error) {
	if len(data) > MaxBytes {
		return nil, largeFile.At("")
	}
	data = bytes.TrimPrefix(data, []byte("\xEF\xBB\xBF"))
	text := bytes.TrimLeft(data, " \t\r\n")
	switch {
	case len(text) == 0:
		return nil, emptyFile.At("")
	case text[0] != '{':
		return nil, noBrace.At("")
	}
	return data, nil
}

// check tells whether the file is for this program, before err, what else is
// wrong with it, is worth telling.
func (h header) check(err error) error {
	switch {
	case !h.hasFormat && err != nil:
		return err
	case !h.hasFormat:
		return noFormat.At("/format", FormatName)
	case h.format != FormatName:
		return otherFormat.At("/format", quoted(h.format), FormatName)
	case h.minReader > CurrentVersion:
		return newer.At("/min_reader", h.minReader, CurrentVersion)
	case err != nil:
		return err
	case h.version < 1:
		return noVersion.At("/version", h.version)
	case h.minReader < 1 || h.minReader > h.version:
		return readerOdd.At("/min_reader", h.version, h.minReader)
	}
	return nil
}

// meaning is an error of the JSON decoder.
func meaning(err error) error {
	var se *json.SemanticError
	if !errors.As(err, &se) {
		return notRead.At("", err)
	}
	path := string(se.JSONPointer)
	want := jsonWord(se.GoType)
	var found any
	if word := map[jsontext.Kind]refusal.Word{'"': "json-text", '0': jsonNumber, '{': "json-object", '[': "json-list"}[se.JSONKind]; word != "" {
		found = word
	}
	if len(se.JSONValue) > 0 {
		found = refusal.Clip(string(se.JSONValue), mostShown)
	}
	switch {
	case se.JSONKind == '0' && want == jsonNumber:
		return numberLarge.At(path, found)
	case found == nil:
		return valueMissing.At(path, want)
	}
	return valueOther.At(path, found, want)
}

// jsonNumber is the word of a number.
const jsonNumber refusal.Word = "json-number"

// jsonWord is the word of what stands in a file for a value of a type.
func jsonWord(t reflect.Type) refusal.Word {
	if t == nil {
		return "json-other"
	}
	if of, ok := maybeOf(t); ok {
		t = of
	}
	switch t.Kind() {
	case reflect.String:
		return "json-text"
	case reflect.Bool:
		return "json-bool"
	case reflect.Struct:
		return "json-object"
	case reflect.Slice:
		if t.Elem().Kind() == reflect.Uint8 {
			return "json-base64"
		}
		return "json-list"
	case reflect.Int:
		return "json-whole"
	case reflect.Float64:
		return jsonNumber
	}
	return "json-other"
}

// FormatPlan writes p as a `.kedge` file: UTF-8, two spaces, members in a fixed
// order, a line feed at the end. It refuses what [ParsePlan] would refuse; a range that a
// likely value was edited out of is widened to hold it, as every rule takes it. A
// plan without format and version gets the current ones; "min_reader" is
// raised to what the plan's contents need, never lowered.
func FormatPlan(p *Plan) ([]byte, error) {
	if p == nil {
		return nil, noPlan.At("")
	}
	q := *p
	if q.Format == "" && q.Version == 0 && q.MinReader == 0 {
		q.Format, q.Version = FormatName, CurrentVersion
	}
	q.MinReader = max(q.MinReader, neededReader(&q))
	if err := Validate(&q); err != nil {
		return nil, err
	}
	widenLikely(&q)
	data, err := json.Marshal(&q, json.Deterministic(true), jsontext.WithIndent("  "), jsontext.PreserveRawStrings(true))
	if err != nil {
		return nil, unwritable(err)
	}
	data = append(data, '\n')
	if len(data) > MaxBytes {
		return nil, wouldBeLarge.At("")
	}
	if _, err := scan(data); err != nil {
		return nil, err
	}
	return data, nil
}

// unwritable is an error of the JSON encoder: a text that is not UTF-8, or
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
	return notWritten.At(path, cause)
}
