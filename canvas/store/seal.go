package store

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"kedge/canvas/words"
	"kedge/solver/facts"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/refusal"
)

// Sealed is a copy of what was answered of a plan, with what tells of a change: the
// plan as it was, the figures, the pictures, and the copies it follows. A hash tells that
// something was changed, not who sealed it: whoever can write the file can seal it anew.
// The hash is to be kept elsewhere too.
type Sealed struct {
	Format   string    `json:"format"` // always [SealFormat]
	Version  int       `json:"version"`
	App      string    `json:"app"`
	Handbook string    `json:"handbook"` // its revision
	Rig      string    `json:"rig"`
	Seed     uint64    `json:"seed"`
	Plan     Content   `json:"plan"`
	Figures  Content   `json:"figures"`
	Pictures []Content `json:"pictures"` // by name
	Log      []Change  `json:"log"`      // the sealed copies this one follows, the oldest first
	Hash     string    `json:"sha256"`   // of all the above
}

// Content is something sealed, with its own hash.
type Content struct {
	Name string `json:"name"`
	Hash string `json:"sha256"` // hexadecimal
	Data []byte `json:"bytes"`  // base64
}

// Change is a sealed copy that a later one follows.
type Change struct {
	Hash string `json:"sha256"` // of the earlier copy
	Why  string `json:"changed_why"`
}

// What a sealed copy says it is.
const (
	SealFormat  = "kedge-sealed"
	SealVersion = 1
	sealIndent  = "  "
)

// MaxSealedBytes is the largest sealed copy that is read: a plan, its figures and some
// photographs.
const MaxSealedBytes = 256 << 20

// NewContent is content with its hash.
func NewContent(name string, data []byte) Content {
	return Content{Name: name, Hash: hashOf(data), Data: data}
}

// NewSealed is what is sealed of figures that the program app found of a rig, with trials
// of that seed: without pictures. The error wraps what [plan.FormatPlan] says.
func NewSealed(p *plan.Plan, rig plan.ID, app string, seed uint64, figures []byte) (Sealed, error) {
	data, err := plan.FormatPlan(p)
	if err != nil {
		return Sealed{}, err
	}
	return Sealed{App: app, Handbook: facts.Revision(), Rig: string(rig), Seed: seed, Plan: NewContent("plan", data), Figures: NewContent("figures", figures), Pictures: Shown(p, rig)}, nil
}

// Shown are the pictures of a plan that show evidence of a rig, each once, named after the
// first piece.
func Shown(p *plan.Plan, rig plan.ID) (all []Content) {
	r, ok := p.Rig(rig)
	if !ok || r.Incident == nil {
		return nil
	}
	seen := map[string]bool{}
	for i := range r.Incident.Pins {
		q := &r.Incident.Pins[i]
		if ph := p.Photo(q.Shows); ph != nil && len(ph.Bytes) > 0 && !seen[q.Shows] {
			seen[q.Shows] = true
			all = append(all, NewContent(strings.TrimSuffix(string(q.ID)+" "+ph.File, " "), ph.Bytes))
		}
	}
	return all
}

// Add adds what is not yet among the pictures.
func (s *Sealed) Add(pictures []Content) {
	for _, c := range pictures {
		if !slices.ContainsFunc(s.Pictures, func(had Content) bool { return had.Name == c.Name && had.Hash == c.Hash }) {
			s.Pictures = append(s.Pictures, c)
		}
	}
}

// Said tells whether a copy was altered, by what [Unseal] tells, and line by line what it
// is of and which it follows.
func (s *Sealed) Said(w *words.Words, altered []string) (whether string, of []string) {
	whether = w.Label("seal-unaltered")
	if len(altered) > 0 {
		whether = w.Label("seal-altered", part.Text("list", strings.Join(altered, ", ")))
	}
	of = []string{w.Label("seal-of", part.Text("hash", s.Hash), part.Text("plan", s.Plan.Hash), part.Text("seed", strconv.FormatUint(s.Seed, 10)), part.Text("app", s.App), part.Text("revision", s.Handbook))}
	of = append(of, w.Label("seal-figures", part.Text("hash", s.Figures.Hash)))
	for _, c := range s.Pictures {
		of = append(of, w.Label("seal-picture", part.Text("name", c.Name), part.Text("hash", c.Hash)))
	}
	for _, l := range s.Log {
		of = append(of, w.Label("seal-follows", part.Text("hash", l.Hash), part.Text("why", l.Why)))
	}
	return whether, of
}

// hashOf is SHA-256 (FIPS 180-4), hexadecimal.
func hashOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// Seal writes a sealed copy: pictures in order of their names, the hash over all. It
// follows before, unless that is nil, whose log goes on with why. The error wraps
// [ErrTooLarge]: a larger one than [MaxSealedBytes] could not be read again; or [ErrContent]:
// a text of it is none, or it does not say why it follows.
func Seal(s Sealed, before *Sealed, why string) ([]byte, error) {
	return seal(s, before, why, MaxSealedBytes)
}

func seal(s Sealed, before *Sealed, why string, most int64) ([]byte, error) {
	s.Format, s.Version = SealFormat, SealVersion
	s.Pictures = append([]Content{}, s.Pictures...)
	slices.SortStableFunc(s.Pictures, func(a, b Content) int { return cmp.Compare(a.Name, b.Name) })
	s.Log = []Change{}
	if before != nil {
		s.Log = append(append(s.Log, before.Log...), Change{before.Hash, why})
	}
	if err := s.unsealable(why, before != nil); err != nil {
		return nil, err
	}
	s.Hash = s.sum()
	data, err := s.bytes()
	if err == nil && int64(len(data)) > most {
		return nil, tooLarge("", most)
	}
	return data, err
}

// unsealable is why it cannot be sealed: a text that would be read as another, or a later
// copy that does not say why there is one.
func (s *Sealed) unsealable(why string, later bool) error {
	texts := []string{s.App, s.Handbook, s.Rig, s.Plan.Name, s.Figures.Name, why}
	for i := range s.Pictures {
		texts = append(texts, s.Pictures[i].Name)
	}
	for _, text := range texts {
		if !utf8.ValidString(text) {
			return sealNoText.At("", refusal.Clip(text, mostSealShown))
		}
	}
	if later && strings.TrimSpace(why) == "" {
		return sealNoWhy.At("")
	}
	return nil
}

// mostSealShown is how much of a text a refusal shows, letters.
const mostSealShown = 60

// sum is the hash over what a sealed copy says: every text with its length in front, so
// that none can be moved into another.
func (s *Sealed) sum() string {
	h := sha256.New()
	put := func(text string) {
		io.WriteString(h, strconv.Itoa(len(text))+":"+text+",")
	}
	content := func(c *Content) {
		put(c.Name)
		put(hashOf(c.Data))
	}
	for _, text := range []string{s.Format, strconv.Itoa(s.Version), s.App, s.Handbook, s.Rig, strconv.FormatUint(s.Seed, 10)} {
		put(text)
	}
	content(&s.Plan)
	content(&s.Figures)
	put(strconv.Itoa(len(s.Pictures)))
	for i := range s.Pictures {
		content(&s.Pictures[i])
	}
	for _, c := range s.Log {
		put(c.Hash)
		put(c.Why)
	}
	return hex.EncodeToString(h.Sum(nil))
}

// bytes is the copy as it is written: JSON, indented, a line feed at the end.
func (s *Sealed) bytes() ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", sealIndent)
	err := enc.Encode(s)
	return b.Bytes(), err
}

// errNotOne is why what reads as JSON is no sealed copy.
var errNotOne = errors.New("store: no sealed copy")

// Unseal reads a sealed copy and tells what of it was altered since it was sealed, by
// the name of what it is: "plan", "figures", the name of a picture, "log"; "file" if all
// hashes fit and the bytes are others than those that were written. The error wraps
// [ErrContent]: it is no sealed copy, or damaged.
func Unseal(data []byte) (s *Sealed, altered []string, err error) {
	s = &Sealed{}
	if err := json.Unmarshal(data, s); err != nil {
		return nil, nil, notSealed.At("").Because(err)
	}
	if s.Format != SealFormat || s.Version != SealVersion {
		return nil, nil, notSealed.At("").Because(errNotOne)
	}
	check := func(as string, c *Content) {
		if hashOf(c.Data) != c.Hash {
			altered = append(altered, as)
		}
	}
	check("plan", &s.Plan)
	check("figures", &s.Figures)
	for i := range s.Pictures {
		check(s.Pictures[i].Name, &s.Pictures[i])
	}
	if len(altered) == 0 && s.sum() != s.Hash {
		altered = append(altered, "log")
	}
	if again, err := s.bytes(); len(altered) == 0 && (err != nil || !bytes.Equal(again, data)) {
		altered = append(altered, "file")
	}
	return s, altered, nil
}

// Unaltered reads a sealed copy that a later one is to follow. The error wraps [ErrContent],
// also if anything of it was altered since it was sealed.
func Unaltered(path string, data []byte) (*Sealed, error) {
	s, altered, err := Unseal(data)
	switch {
	case err != nil:
		return nil, notSealed.At(path).Because(err)
	case len(altered) > 0:
		return nil, sealAltered.At(path, strings.Join(altered, ", "))
	}
	return s, nil
}
