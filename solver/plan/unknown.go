package plan

import (
	"bytes"
	"reflect"

	"github.com/go-json-experiment/json/jsontext"
)

// UnknownMembers are the places, as JSON pointers in file order, of all members
// that this version does not know. What they say is kept but not computed: an
// answer from such a plan is incomplete.
func UnknownMembers(p *Plan) []string {
	if p == nil {
		return nil
	}
	return schema().unknown(nil, "", reflect.ValueOf(p).Elem())
}

func (n *node) unknown(found []string, path string, v reflect.Value) []string {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return found
		}
		v = v.Elem()
	}
	if n.elem != nil {
		if n.elem.fields != nil {
			for i := range v.Len() {
				found = n.elem.unknown(found, at(path, i), v.Index(i))
			}
		}
		return found
	}
	for _, f := range n.fields {
		if f.node.fields != nil || f.node.elem != nil {
			found = f.node.unknown(found, path+"/"+f.name, v.FieldByIndex(f.index))
		}
	}
	if n.open {
		raw, _ := reflect.TypeAssert[jsontext.Value](v.FieldByIndex(n.extra))
		for _, name := range memberNames(raw) {
			found = append(found, path+"/"+escape(name))
		}
	}
	return found
}

// memberNames are the names in the raw object; what is damaged ends the list.
func memberNames(raw jsontext.Value) []string {
	if len(raw) == 0 {
		return nil
	}
	var names []string
	dec := jsontext.NewDecoder(bytes.NewReader(raw))
	if tok, err := dec.ReadToken(); err != nil || tok.Kind() != '{' {
		return []string{""}
	}
	for dec.PeekKind() == '"' {
		tok, err := dec.ReadToken()
		if err != nil {
			break
		}
		names = append(names, tok.String())
		if dec.SkipValue() != nil {
			break
		}
	}
	return names
}
