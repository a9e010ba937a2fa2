package facts

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"iter"
	"slices"
	"strings"
	"sync"

	"kedge/assets"
)

// Book is a checked set of rows, read-only, safe for any number of
// goroutines. Its zero value is an empty book.
type Book struct {
	rows     []Row // sorted by id
	index    map[ID]int
	revision string
}

// revisionLength is the number of hex digits of the hash that are shown:
// 48 bits, enough to tell any two handbooks apart by eye and by machine.
const revisionLength = 12

// ReadBook decodes every *.toml of the folder, checks each row, that no id
// is used twice across files, and that each Choice has one Default among at
// least two rows.
func ReadBook(folder fs.FS) (*Book, error) {
	names, err := fs.Glob(folder, "*.toml")
	if err != nil {
		return nil, fmt.Errorf("facts: %w", err)
	}
	slices.Sort(names)
	sum := sha256.New()
	b := &Book{}
	for _, file := range parseAll(folder, names) {
		if file.err != nil {
			return nil, file.err
		}
		b.rows = append(b.rows, file.rows...)
		fmt.Fprintf(sum, "%s %d\n", file.name, len(file.data))
		sum.Write(file.data)
	}
	slices.SortStableFunc(b.rows, byID)
	b.index = make(map[ID]int, len(b.rows))
	for i, r := range b.rows {
		if i > 0 && b.rows[i-1].ID == r.ID {
			return nil, fmt.Errorf("facts: %s: row %q: id is used in %s too", r.File, r.ID, b.rows[i-1].File)
		}
		b.index[r.ID] = i
	}
	b.revision = hex.EncodeToString(sum.Sum(nil))[:revisionLength]
	if err := b.checkChoices(); err != nil {
		return nil, err
	}
	return b, nil
}

// parsed is one file of a book.
type parsed struct {
	name string
	data []byte
	rows []Row
	err  error
}

// parseAll decodes the files side by side, because a command answers in the
// time it takes, and returns them in the order of their names.
func parseAll(folder fs.FS, names []string) []parsed {
	files := make([]parsed, len(names))
	var all sync.WaitGroup
	for i, name := range names {
		all.Go(func() {
			f := parsed{name: name}
			if f.data, f.err = fs.ReadFile(folder, name); f.err != nil {
				f.err = fmt.Errorf("facts: %w", f.err)
			} else {
				f.rows, f.err = Parse(name, f.data)
			}
			files[i] = f
		})
	}
	all.Wait()
	return files
}

func (b *Book) checkChoices() error {
	defaults, members := map[string]int{}, map[string]int{}
	for _, r := range b.rows {
		if r.Choice == "" {
			continue
		}
		members[r.Choice]++
		if r.Default {
			defaults[r.Choice]++
		}
	}
	for _, r := range b.rows { // sorted, so the first error is always the same
		if r.Choice == "" {
			continue
		}
		if members[r.Choice] < 2 {
			return fmt.Errorf("facts: %s: row %q: choice %q has no other row", r.File, r.ID, r.Choice)
		}
		if n := defaults[r.Choice]; n != 1 {
			return fmt.Errorf("facts: %s: row %q: choice %q has %d defaults, needs 1", r.File, r.ID, r.Choice, n)
		}
	}
	return nil
}

// All gives every row, sorted by id.
func (b *Book) All() iter.Seq[Row] { return slices.Values(b.rows) }

// Get returns the row of that id; ok is false if there is none.
func (b *Book) Get(id ID) (row Row, ok bool) {
	i, ok := b.index[id]
	if !ok {
		return Row{}, false
	}
	return b.rows[i], true
}

// Revision is the hash of the bytes of the book, 12 hex digits.
func (b *Book) Revision() string { return b.revision }

// Alternatives returns the rows that share a choice, the default first, then
// by id; nil if there are none.
func (b *Book) Alternatives(choice string) []Row {
	if choice == "" {
		return nil
	}
	var out []Row
	for _, r := range b.rows {
		if r.Choice != choice {
			continue
		}
		if r.Default {
			out = slices.Insert(out, 0, r)
		} else {
			out = append(out, r)
		}
	}
	return out
}

// Under returns the figures of a family a plan may name by id, sorted: "grip"
// gives grip.asphalt-dry, grip.asphalt-wet … and neither tables nor the
// single-source rows below grip.book. Families: roll, grip, fraction, end,
// knot.
func (b *Book) Under(family string) []Row {
	var out []Row
	for _, r := range b.rows {
		rest, ok := strings.CutPrefix(string(r.ID), family+".")
		if ok && !r.IsTable() && !strings.Contains(rest, ".") {
			out = append(out, r)
		}
	}
	return out
}

// FindTerms returns the rows that hold every one of the terms in id, title,
// source, note, confidence or room, without regard to case, sorted by id. A term
// may be held in several wordings: by every word of one of them. No terms find
// every row.
func (b *Book) FindTerms(terms [][]string) []Row {
	var out []Row
	for _, r := range b.rows {
		text := strings.ToLower(strings.Join([]string{
			string(r.ID), r.Title, r.Source, r.Note, string(r.Confidence), string(r.Package), r.Choice}, "\n"))
		holds := func(wording string) bool {
			words := strings.Fields(strings.ToLower(wording))
			return !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(text, w) })
		}
		if !slices.ContainsFunc(terms, func(wordings []string) bool { return !slices.ContainsFunc(wordings, holds) }) {
			out = append(out, r)
		}
	}
	return out
}

// builtIn is the handbook in the program, decoded at first use: the one
// state of the package, never written again.
var builtIn = sync.OnceValues(func() (*Book, error) { return ReadBook(assets.Facts()) })

// BuiltIn is the handbook in the program. An error means the program was
// built from a faulty handbook; a test of this package refuses that.
func BuiltIn() (*Book, error) { return builtIn() }

func book() *Book {
	b, err := builtIn()
	if err != nil {
		return &Book{}
	}
	return b
}

// Get returns a row of the built-in handbook.
func Get(id ID) (row Row, ok bool) { return book().Get(id) }

// Must returns a row of the built-in handbook by one of this package's
// constants, each of which a test proves to exist. For ids from elsewhere
// use Get: an unknown id here is a programming error and panics, because a
// made-up figure would be worse. The row is everybody's: it is never written.
func Must(id ID) *Row { return &book().rows[mustIndex(id)] }

// mustIndex is where a row of the built-in handbook stands; it panics as Must does.
func mustIndex(id ID) int {
	i, ok := book().index[id]
	if !ok {
		panic(fmt.Sprintf("facts: no row %q", id))
	}
	return i
}

// All gives every row of the built-in handbook, sorted by id.
func All() iter.Seq[Row] { return book().All() }

// FindTerms searches the built-in handbook (see Book.FindTerms).
func FindTerms(terms [][]string) []Row { return book().FindTerms(terms) }

// Under returns the figures of a built-in family (see Book.Under).
func Under(family string) []Row { return book().Under(family) }

// Alternatives returns the built-in rows of a choice, the default first.
func Alternatives(choice string) []Row { return book().Alternatives(choice) }

// Revision is the hash of the built-in handbook's bytes.
func Revision() string { return book().Revision() }
