package store

import (
	"bytes"
	"encoding/base64"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/solver/plan"
)

func sealedCopy(t *testing.T, before *Sealed, why string) []byte {
	t.Helper()
	data, err := Seal(Sealed{App: "kedge 1", Handbook: "abc", Rig: "R1", Seed: 7, Plan: NewContent("moss", []byte("plan\n")), Figures: NewContent("figures", []byte("{}")),
		Pictures: []Content{NewContent("b.jpg", []byte{2}), NewContent("a.jpg", []byte{1})}}, before, why)
	require.NoError(t, err)
	return data
}

// What could not be read again is not sealed: a recording cut off at the most that is
// read would be sealed as if it were whole.
func TestWhatIsTooLargeIsNotSealed(t *testing.T) {
	s := Sealed{Pictures: []Content{NewContent("a", make([]byte, 3000))}} // 4000 in base64
	for most, want := range map[int64]error{4000: ErrTooLarge, 5000: nil} {
		_, err := seal(s, nil, "", most)
		assert.ErrorIs(t, err, want, "%d", most)
	}
}

// The pictures that show evidence are sealed as pictures that are added are: by name and hash,
// each once; those of another rig, and one whose bytes are lost, are not among them.
func TestPicturesOfEvidenceAreSealed(t *testing.T) {
	p := plan.New()
	p.Rigs = []plan.Rig{{Head: plan.Head{ID: "R1"}}, {Head: plan.Head{ID: "R2"}}}
	p.Photos = []plan.Photo{{Bytes: []byte("abc"), File: "tag.png", Original: "h1"}, {Bytes: []byte("x"), Original: "h2"}, {Original: "h3"}}
	for i, pin := range []plan.Pin{{ID: "A", Shows: "h1"}, {ID: "B", Shows: "h1"}, {ID: "C", Shows: "h3"}} {
		p = plan.WithPin(p, 0, pin)
		if i == 0 {
			p = plan.WithPin(p, 1, plan.Pin{ID: "A", Shows: "h2"})
		}
	}
	s, err := NewSealed(p, "R1", "kedge", 1, nil)
	require.NoError(t, err)
	require.Len(t, s.Pictures, 1)
	assert.Equal(t, "A tag.png", s.Pictures[0].Name)
	assert.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", s.Pictures[0].Hash, "of abc, FIPS 180-4")
	s.Add([]Content{NewContent("A tag.png", []byte("abc")), NewContent("mark.jpg", []byte("y"))})
	assert.Len(t, s.Pictures, 2, "what is there is not added again")
}

// SHA-256 of "abc" is that of FIPS 180-4's example.
func TestHash(t *testing.T) {
	assert.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", hashOf([]byte("abc")))
}

// A copy that nobody touched is unaltered; each single byte of it that is another makes
// it altered or no sealed copy.
func TestAnyByteThatIsAnotherIsFound(t *testing.T) {
	data := sealedCopy(t, nil, "")
	s, altered, err := Unseal(data)
	require.NoError(t, err)
	assert.Empty(t, altered)
	assert.Equal(t, "a.jpg", s.Pictures[0].Name)
	assert.Len(t, s.Hash, 64)
	for i := range data {
		for _, b := range []byte{data[i] ^ 1, data[i] ^ 0x20} {
			other := bytes.Clone(data)
			other[i] = b
			_, altered, err := Unseal(other)
			assert.True(t, err != nil || len(altered) > 0, "byte %d", i)
		}
	}
	_, altered, err = Unseal(append(bytes.Clone(data), ' '))
	require.NoError(t, err)
	assert.Equal(t, []string{"file"}, altered)
}

// What was altered is named.
func TestWhatWasAlteredIsNamed(t *testing.T) {
	data := sealedCopy(t, nil, "")
	for what, tt := range map[string]struct{ old, new string }{
		"plan":    {base64.StdEncoding.EncodeToString([]byte("plan\n")), base64.StdEncoding.EncodeToString([]byte("plan \n"))},
		"figures": {base64.StdEncoding.EncodeToString([]byte("{}")), base64.StdEncoding.EncodeToString([]byte("[]"))},
		"a.jpg":   {base64.StdEncoding.EncodeToString([]byte{1}), base64.StdEncoding.EncodeToString([]byte{3})},
		"log":     {`"seed": 7`, `"seed": 8`},
	} {
		_, altered, err := Unseal(bytes.Replace(data, []byte(tt.old), []byte(tt.new), 1))
		require.NoError(t, err)
		assert.Equal(t, []string{what}, altered)
	}
}

// Content changed together with its own hash does not fit the hash over all.
func TestChangingAHashTooIsFound(t *testing.T) {
	data := sealedCopy(t, nil, "")
	old, now := []byte("plan\n"), []byte("plan \n")
	other := bytes.Replace(data, []byte(base64.StdEncoding.EncodeToString(old)), []byte(base64.StdEncoding.EncodeToString(now)), 1)
	other = bytes.Replace(other, []byte(hashOf(old)), []byte(hashOf(now)), 1)
	_, altered, err := Unseal(other)
	require.NoError(t, err)
	assert.Equal(t, []string{"log"}, altered)
}

// What is no text would be written as another, and be altered when it is read: it is not
// sealed. A later copy says why.
func TestWhatCannotBeReadAgainIsNotSealed(t *testing.T) {
	odd := "moss\xff.jpg"
	before := &Sealed{Hash: "00"}
	for what, s := range map[string]Sealed{"picture": {Pictures: []Content{NewContent(odd, nil)}}, "rig": {Rig: odd}, "plan": {Plan: NewContent(odd, nil)}, "app": {App: odd}} {
		_, err := Seal(s, nil, "")
		require.ErrorIs(t, err, ErrContent, what)
		assert.Contains(t, err.Error(), "seal-no-text")
	}
	for _, why := range []string{odd, "", " \t\n"} {
		_, err := Seal(Sealed{}, before, why)
		assert.ErrorIs(t, err, ErrContent, "%q", why)
	}
	whole := Sealed{Rig: "Moss \ufffd \u2028 <é> \x01", Plan: NewContent("plan", nil), Figures: NewContent("figures", nil), Pictures: []Content{NewContent("\u2029.jpg", nil)}}
	data, err := Seal(whole, before, "\U0001f9f2 & \"\"")
	require.NoError(t, err)
	_, altered, err := Unseal(data)
	require.NoError(t, err)
	assert.Empty(t, altered, "whatever letters it has")
}

// A later copy names those before it, the oldest first, and why.
func TestALaterCopyHasALog(t *testing.T) {
	one, _, err := Unseal(sealedCopy(t, nil, ""))
	require.NoError(t, err)
	two, _, err := Unseal(sealedCopy(t, one, "the mass was weighed"))
	require.NoError(t, err)
	three, altered, err := Unseal(sealedCopy(t, two, "a photograph came in"))
	require.NoError(t, err)
	assert.Empty(t, altered)
	assert.Equal(t, []Change{{one.Hash, "the mass was weighed"}, {two.Hash, "a photograph came in"}}, three.Log)
	assert.NotEqual(t, one.Hash, two.Hash)
}

func TestWhatIsNoSealedCopyIsRefused(t *testing.T) {
	for _, text := range []string{"", "{", "{}", `{"format":"kedge-plan","version":1}`, "[]", `{"format":"kedge-sealed","version":2}`} {
		_, _, err := Unseal([]byte(text))
		assert.ErrorIs(t, err, ErrContent, text)
	}
}

// A later copy follows one that nobody altered, and no other file.
func TestWhatALaterCopyFollows(t *testing.T) {
	data := sealedCopy(t, nil, "")
	s, err := Unaltered("moss.sealed", data)
	require.NoError(t, err)
	assert.Len(t, s.Pictures, 2)
	for _, bad := range [][]byte{bytes.Replace(data, []byte(`"seed": 7`), []byte(`"seed": 8`), 1), []byte("{}")} {
		_, err := Unaltered("moss.sealed", bad)
		require.ErrorIs(t, err, ErrContent)
		assert.Contains(t, err.Error(), "moss.sealed")
	}
}
