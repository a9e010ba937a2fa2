package plan

import (
	"reflect"
	"strings"
	"sync"

	"github.com/go-json-experiment/json/jsontext"
)

// node describes one type of the document: what JSON stands for it, which
// members an object must have, what its numbers may be. The tree is built once
// from the types and their tags and never changes.
type node struct {
	typ      reflect.Type
	members  map[string]*field
	fields   []*field // in file order; nil unless an object
	elem     *node    // of a list
	extra    []int    // index of the raw unknown members; nil: the object is closed
	open     bool     // the object keeps unknown members
	isThing  bool     // counts toward MaxThings
	required int      // how many members must be there
	watched  []watch  // members in which something unknown may stand
}

type field struct {
	name     string
	index    []int
	node     *node
	required bool
	bound    *bound // of a number; nil: none
	maybe    bool   // it is a [Maybe]
}

// things describes every type of the document.
var things = sync.OnceValue(func() map[reflect.Type]*node {
	seen := map[reflect.Type]*node{}
	describe(reflect.TypeFor[Plan](), seen)
	for _, n := range seen {
		n.watch()
	}
	return seen
})

func schema() *node { return things()[reflect.TypeFor[Plan]()] }

// optional are the types that a reader may find missing although they are
// always written: each of their members may be missing.
var optional = map[reflect.Type]bool{
	reflect.TypeFor[TitleInfo](): true,
	reflect.TypeFor[Rating]():    true,
	reflect.TypeFor[Ground]():    true,
	reflect.TypeFor[Site]():      true,
	reflect.TypeFor[[]Rig]():     true,
}

func describe(t reflect.Type, seen map[reflect.Type]*node) *node {
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if n := seen[t]; n != nil {
		return n
	}
	n := &node{typ: t}
	seen[t] = n
	switch _, leaf := maybeOf(t); {
	case leaf:
	case t.Kind() == reflect.Slice && t.Elem().Kind() != reflect.Uint8:
		n.elem = describe(t.Elem(), seen)
	case t.Kind() == reflect.Struct:
		n.members = map[string]*field{}
		_, hasHead := t.FieldByName("Head")
		n.isThing = hasHead || t == reflect.TypeFor[UnknownThing]()
		for _, f := range reflect.VisibleFields(t) {
			tag := f.Tag.Get("json")
			switch name, options, _ := strings.Cut(tag, ","); {
			case f.Type == reflect.TypeFor[jsontext.Value]():
				if len(f.Index) == 1 {
					n.extra, n.open = f.Index, true
				}
			case name != "":
				m := &field{name: name, index: f.Index, node: describe(f.Type, seen)}
				m.required = !strings.Contains(options, "omit") && !optional[f.Type]
				m.bound = boundOf(f.Type, name)
				_, m.maybe = maybeOf(f.Type)
				if m.required {
					n.required++
				}
				n.members[name] = m
				n.fields = append(n.fields, m)
			}
		}
	}
	return n
}

// missing is the first required member that is not in have.
func (n *node) missing(have map[*field]bool) string {
	for _, f := range n.fields {
		if f.required && !have[f] {
			return f.name
		}
	}
	return ""
}
