package plan

import (
	"bytes"
	"reflect"
	"slices"

	"github.com/go-json-experiment/json/jsontext"
)

// place is a place inside a plan as it is walked: a member or an element of
// what is above it. It is spelled out only where something is found, because a
// plan is walked on every frame of a drag.
type place struct {
	up    *place
	name  string // of a member; empty: element i
	index int
}

// String is the place as a JSON pointer; of the nil place, the plan itself, it
// is empty.
func (p *place) String() string {
	if p == nil {
		return ""
	}
	if p.name == "" {
		return at(p.up.String(), p.index)
	}
	return p.up.String() + "/" + p.name
}

// UnknownMembers are the places, as JSON pointers in file order, of all members
// that this version does not know. What they say is kept but not computed: an
// answer from such a plan is incomplete.
func UnknownMembers(p *Plan) []string {
	if Understood(p) {
		return nil
	}
	var found []string
	schema().eachUnknown(nil, reflect.ValueOf(p).Elem(), func(_ *node, path, name string) {
		found = append(found, path+"/"+escape(name))
	})
	return found
}

// hiddenMember refuses unknown members that bear a known name: written, they
// would be read as the member itself.
func hiddenMember(p *Plan) (err error) {
	schema().eachUnknown(nil, reflect.ValueOf(p).Elem(), func(n *node, path, name string) {
		if err == nil && n.members[name] != nil {
			err = memberHidden.At(path + "/" + escape(name))
		}
	})
	return err
}

// eachUnknown visits the unknown members of v, described by n, with the type
// they stand in.
func (n *node) eachUnknown(path *place, v reflect.Value, visit func(n *node, path, name string)) {
	n.walk(path, v, func(n *node, f *field, path *place, v reflect.Value) {
		if f == nil && n.open && v.FieldByIndex(n.extra).Len() > 0 {
			raw, _ := reflect.TypeAssert[jsontext.Value](v.FieldByIndex(n.extra))
			for _, name := range memberNames(raw) {
				visit(n, path.String(), name)
			}
		}
	})
}

// walk visits every object in v, described by n: its members that are neither
// object nor list, and after all its members the object itself, with no field. path
// is the object's.
func (n *node) walk(path *place, v reflect.Value, visit func(n *node, f *field, path *place, v reflect.Value)) {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return
		}
		v = v.Elem()
	}
	if n.elem != nil {
		if n.elem.fields != nil {
			for i := range v.Len() {
				n.elem.walk(&place{up: path, index: i}, v.Index(i), visit)
			}
		}
		return
	}
	for _, f := range n.fields {
		x := v.FieldByIndex(f.index)
		if f.node.fields != nil || f.node.elem != nil {
			f.node.walk(&place{up: path, name: f.name}, x, visit)
		} else {
			visit(n, f, path, x)
		}
	}
	visit(n, nil, path, v)
}

// Understood reports whether a plan has no unknown member and no unknown word:
// [UnknownMembers] and [UnknownWords] would list nothing. It names no places
// and takes no memory, because it is asked on every frame of a drag.
func Understood(p *Plan) bool {
	return p == nil || !schema().strange(reflect.ValueOf(p).Elem())
}

func (n *node) strange(v reflect.Value) bool {
	if v.Kind() == reflect.Pointer {
		if v.IsNil() {
			return false
		}
		v = v.Elem()
	}
	if n.elem != nil {
		if n.elem.fields != nil {
			for i := range v.Len() {
				if n.elem.strange(v.Index(i)) {
					return true
				}
			}
		}
		return false
	}
	if n.open && v.FieldByIndex(n.extra).Len() > 0 {
		return true
	}
	for i := range n.watched {
		w := &n.watched[i]
		x := v.FieldByIndex(w.index)
		if w.node != nil {
			if w.node.strange(x) {
				return true
			}
		} else if !slices.Contains(w.words, x.String()) {
			return true
		}
	}
	return false
}

// watch is a member in which something may stand that this version does not
// know: a word of a list, or what has such members itself.
type watch struct {
	index []int
	node  *node    // nil: a word
	words []string // those that are known
}

// watch lists the members to look at, for [Understood]. It is called once for
// each type, the inner ones first.
func (n *node) watch() {
	if n.watched != nil {
		return
	}
	n.watched = []watch{}
	for _, f := range n.fields {
		if f.node.fields != nil || f.node.elem != nil {
			if f.node.watch(); f.node.mayBeStrange() {
				n.watched = append(n.watched, watch{index: f.index, node: f.node})
			}
		} else if known := vocabulary[n.typ][f.name]; known != nil {
			n.watched = append(n.watched, watch{index: f.index, words: known})
		}
	}
	if n.elem != nil {
		n.elem.watch()
	}
}

// mayBeStrange reports whether something unknown may stand in a member.
func (n *node) mayBeStrange() bool {
	if n.elem != nil {
		return n.elem.fields != nil && n.elem.mayBeStrange()
	}
	return n.open || len(n.watched) > 0
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
