package solver_test

import (
	"io/fs"
	"sync"

	"github.com/BurntSushi/toml"

	"kedge/assets"
)

// texts is the English catalogue, as far as findings use it.
type texts struct {
	Finding map[string]struct{ What, Do string }
	Basis   map[string]string
	Note    map[string]string
	Word    map[string]string
	Label   map[string]string
}

// catalogue reads every English text once.
var catalogue = sync.OnceValue(func() *texts {
	names, err := fs.Glob(assets.Words(), "en-*.toml")
	if err != nil || len(names) == 0 {
		panic("no English texts")
	}
	all := &texts{Finding: map[string]struct{ What, Do string }{}, Basis: map[string]string{}, Note: map[string]string{}, Word: map[string]string{}, Label: map[string]string{}}
	for _, name := range names {
		var one texts
		if _, err := toml.DecodeFS(assets.Words(), name, &one); err != nil {
			panic(err)
		}
		for id, t := range one.Finding {
			all.Finding[id] = t
		}
		for to, from := range map[*map[string]string]map[string]string{&all.Basis: one.Basis, &all.Note: one.Note, &all.Word: one.Word, &all.Label: one.Label} {
			for id, t := range from {
				(*to)[id] = t
			}
		}
	}
	return all
})

// has reports whether a word has a text: among words, notes, bases, kinds of zone
// and labels. A place in a file is its own word; the empty word is silent, and
// [strange] is somebody's own.
func (c *texts) has(word string) bool {
	if word == "" || word[0] == '/' || word == strange {
		return true
	}
	for _, m := range []map[string]string{c.Word, c.Note, c.Basis, c.Label} {
		if m[word] != "" {
			return true
		}
	}
	return c.Label["zone-"+word] != ""
}
