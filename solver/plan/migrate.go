package plan

import "github.com/go-json-experiment/json/jsontext"

// step makes the file of one version into the file of the next. It is a pure
// function of the raw document: it keeps members it does not know.
type step func(jsontext.Value) (jsontext.Value, error)

// steps[i] leads from version i+1 to i+2. A step is never changed once a
// version has gone out; testdata/v1, v2, … hold frozen samples of each.
var steps = [CurrentVersion - 1]step{}

// migrate leads data from one version to another by the steps between. A file
// of a newer version that may be opened stays what it is.
func migrate(data []byte, from, to int, steps []step) ([]byte, error) {
	for v := from; v < to; v++ {
		next, err := steps[v-1](jsontext.Value(data))
		if err != nil {
			return nil, stepFailed.At("", v, v+1, err)
		}
		data = next
	}
	return data, nil
}

// need is a member that an older reader must not overlook: it can lower a
// limit, raise a load or widen a zone.
type need struct {
	reader int
	when   func(*Plan) bool
}

// needs lists them by the version that brought them; version 1 has none.
var needs = []need{}

// neededReader is the oldest version that may open p.
func neededReader(p *Plan) int {
	r := 1
	for _, n := range needs {
		if n.reader > r && n.when(p) {
			r = n.reader
		}
	}
	return r
}
