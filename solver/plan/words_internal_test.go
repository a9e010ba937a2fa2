package plan

import (
	"os"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestUnknownWords(t *testing.T) {
	read := func(name string) *Plan {
		data, err := os.ReadFile("../../testdata/v1/" + name + ".kedge")
		require.NoError(t, err)
		p, err := ParsePlan(data)
		require.NoError(t, err)
		return p
	}
	p := read("redirect")
	assert.Empty(t, UnknownWords(p))
	a := p.Site.Anchors[1]
	a.Kind = "sea anchor"
	r := p.Rigs[1]
	r.Basis = "hoisting"
	q := WithRig(WithAnchor(p, 1, a), 1, r)
	assert.Equal(t, []string{"/site/anchors/1/kind", "/rigs/1/basis"}, UnknownWords(q))
	assert.NoError(t, Validate(q), "a word that is not known is kept")
	assert.Nil(t, UnknownWords(nil))
}

func TestVocabularyIsOfRealMembers(t *testing.T) {
	for typ, members := range vocabulary {
		for name, words := range members {
			f := things()[typ].members[name]
			require.NotNil(t, f, "%s has no member %s", typ, name)
			assert.Equal(t, reflect.String, f.node.typ.Kind())
			assert.NotEmpty(t, words)
		}
	}
}
