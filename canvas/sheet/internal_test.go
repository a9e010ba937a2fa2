package sheet

import (
	"bytes"
	"context"
	"io/fs"
	"math"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/assets"
	"kedge/canvas/pen"
	"kedge/canvas/words"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
	"kedge/solver/seeded"
	"kedge/solver/travel"
)

func openPlan(t testing.TB, name string) *plan.Plan { return seeded.Example(t, name) }

// Scales of ISO 5455: 35 m in 176 mm is 1 : 200, a millimetre less room 1 : 500.
func TestLargestScale(t *testing.T) {
	for _, c := range []struct {
		wM, hM, w, h, want float64
	}{{35, 20, 176, 120, 200}, {35, 20, 174, 120, 500}, {35, 20, 350, 60, 500}, {0, 0, 100, 100, 1}, {0.05, 0.01, 100, 100, 1}, {100, 1, 100, 100, 1000}} {
		n, ok := largestScale(c.wM, c.hM, c.w, c.h)
		assert.True(t, ok)
		assert.Equal(t, c.want, n, "%+v", c)
	}
	_, ok := largestScale(101, 1, 100, 100)
	assert.False(t, ok)
	_, ok = largestScale(math.NaN(), 1, 100, 100)
	assert.False(t, ok)
}

func TestWrapKeepsEveryLetter(t *testing.T) {
	st := letters(textEm, false)
	for _, s := range []string{"", "short", "Line, fairlead to Block 1 carries 29.4 kN of its limit", strings.Repeat("x", 400), "a  b", "a\u00a0b c"} {
		for _, w := range []float64{5, 20, 80} {
			lines := wrap(s, st, w)
			got := strings.ReplaceAll(strings.Join(lines, ""), " ", "")
			assert.Equal(t, strings.ReplaceAll(s, " ", ""), got)
			for _, l := range lines {
				assert.LessOrEqual(t, width(l, st), max(w, 5), l)
			}
		}
	}
	assert.Equal(t, "short", fitted("short", st, 100))
	assert.Equal(t, "…", fitted("short", st, 0.1))
	assert.LessOrEqual(t, width(fitted("a rather long name of a sheet", st, 30), st), 30.0)
}

// The states of a row are told apart without colour, each from every other.
func TestRowsOfEveryStateDiffer(t *testing.T) {
	seen := map[string]part.Status{}
	for _, s := range []part.Status{part.Within, part.Near, part.Over, part.NoLimit, part.Refused} {
		f := &flow{g: &Page{W: 210, H: 297, body: body{20, 10, 170, 200}}}
		tab := &table{cols: []column{{head: "part"}}, rows: []row{{cells: []string{"Block 1"}, dress: true, state: s}}}
		tab.measure(f.g.body.w)
		f.row(tab, tab.rows[0], tab.rows[0].style(), 6)
		var marks strings.Builder
		for _, m := range f.g.marks.Marks {
			box := m.Path.Bounds()
			marks.WriteString(m.Text)
			for _, x := range []float64{float64(m.Kind), box.X.Lo, box.X.Hi, float64(m.Style.Fill.R), float64(m.Style.Fill.A), float64(len(m.Style.Dash)), float64(m.Type.Colour.R)} {
				marks.WriteString(" " + itoa(int(x*10)))
			}
		}
		other, taken := seen[marks.String()]
		assert.False(t, taken, "%v looks like %v", s, other)
		seen[marks.String()] = s
	}
}

// At the least rating nothing is about the piece; a kilonewton less, something
// is.
func TestLeastRatingClearsTheFindings(t *testing.T) {
	p := openPlan(t, "redirect")
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	m := &maker{w: w}
	m.take(p, "R1", solver.Assess(p, "R1"))
	rated := 0
	for _, x := range m.pieces() {
		need, ok := m.least(x)
		if !ok {
			continue
		}
		rated++
		count := func(n quantity.Force) int {
			r := p.Rigs[0]
			x.with(&r, plan.Rating{Force: n, Basis: need.Basis})
			a := solver.Assess(plan.WithRig(p, 0, r), "R1")
			over := 0
			for i := range a.Parts {
				if q := &a.Parts[i]; x.has(q) && (q.Status == part.Over || q.Status == part.NoLimit) {
					over++
				}
			}
			return over + len(about(a, &x))
		}
		assert.Greater(t, count(need.Force-ratingStepN), count(need.Force), "%s at %v", x.id, need.Force)
		assert.Equal(t, count(need.Force+2*ratingStepN), count(need.Force), "%s: more clears no more", x.id) // far more is doubted
	}
	assert.Equal(t, 5, rated, "line, its connector, block, sling and shackle")
}

// The answer for the whole pull finds more amiss with a piece of the rating that would
// do where the rig is drawn than with one of its least rating, wherever the two differ.
// The angle at the redirect closes as the casualty comes, so some do. (a property)
func TestLeastRatingsAreOfTheWholePull(t *testing.T) {
	p := openPlan(t, "redirect")
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	drawn, whole := &maker{w: w}, &maker{w: w, ctx: t.Context()}
	drawn.take(p, "R1", solver.Assess(p, "R1"))
	require.NoError(t, whole.use(p, "R1"))
	greater := 0
	for _, x := range whole.pieces() {
		need, ok := whole.least(x)
		was, _ := drawn.least(x)
		if !ok {
			continue
		}
		assert.GreaterOrEqual(t, need.Force, was.Force, x.id)
		amiss := func(n quantity.Force) int {
			r := p.Rigs[0]
			x.with(&r, plan.Rating{Force: n, Basis: need.Basis})
			a := travel.Whole(plan.WithRig(p, 0, r), "R1")
			found := len(about(a, &x))
			if falls(a, &x, about(a, &x)) {
				found++
			}
			return found
		}
		assert.Equal(t, amiss(need.Force+2*ratingStepN), amiss(need.Force), "%s: more clears no more", x.id)
		if need.Force > was.Force {
			greater++
			assert.Greater(t, amiss(was.Force), amiss(need.Force), "%s at %v", x.id, was.Force)
		}
	}
	assert.Positive(t, greater)
}

// The least ratings of the redirect by hand, from what it carries: 41.8 kN at
// the block, 54.6 kN on the line at stall.
//
//	line: used and inspected it keeps 0.85, its splice 0.9, and a winch shall stall below half of what breaks it: at its far end 53.1/(0.5 × 0.85 × 0.9) = 138.7 kN breaking, at the block 54.6/(0.5 × 0.85) = 128.5
//	block, shackle: 41.8 kN, on a working tag
//	connector: to move 28.5 kN, on a working tag; a winch shall stall below half of the 4 times its tag that break it: 53.1/(0.5 × 4) = 26.6 kN
//	sling: 0.85 for used, × 1.4 for a basket by EN 1492: 41.8/(0.85 × 1.4) = 35.1 kN
//
// each up to whole kilonewtons. (closed form)
func TestKitListByHand(t *testing.T) {
	p := openPlan(t, "redirect")
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	m := &maker{w: w}
	m.take(p, "R1", solver.Assess(p, "R1"))
	want := map[string]quantity.Force{"line L1": 139e3, "connector L1": 29e3, "block B1": 42e3, "shackle K1": 42e3, "sling S1": 36e3}
	seen := 0
	for _, x := range m.pieces() {
		if need, ok := m.least(x); ok {
			seen++
			assert.Equal(t, want[x.kind+" "+string(x.id)], need.Force, "%s of %s", x.kind, x.id)
		}
	}
	assert.Equal(t, len(want), seen)
	total := 0.0
	for _, l := range m.a.Lines {
		total += float64(l.Out)
	}
	assert.InDelta(t, 18.54+12.48, total, 0.3, "two stretches, measured on the plan (ours)")
	var lines []string
	for _, l := range m.counted(map[string]plan.Rating{"sling": {Force: 36e3, Basis: plan.BasisWorking}}) {
		lines = append(lines, quantity.PlainSpaces(l.Text))
	}
	assert.Equal(t, []string{
		"A spare sling, 36.0 kN working at least.",
		"Gloves: 2 pairs at least, one for everybody who touches a line. No loose clothing, rings off.",
		"Dampers: 3, one for each of 2 stretches and one spare. The plan has 2.",
		"Chocks: 4 at least, two for each of 2 vehicles.",
	}, lines)
}

// A line and its connector are two pieces: one that is too weak changes nothing
// of what the other needs.
func TestKitListPartsLineAndConnector(t *testing.T) {
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	needs := func(change func(l *plan.Line)) map[string]quantity.Force {
		p := openPlan(t, "redirect")
		change(&p.Rigs[0].Lines[0])
		m := &maker{w: w}
		m.take(p, "R1", solver.Assess(p, "R1"))
		all := map[string]quantity.Force{}
		for _, x := range m.pieces() {
			if need, ok := m.least(x); ok {
				all[x.kind+" "+string(x.id)] = need.Force
			}
		}
		return all
	}
	sound := needs(func(*plan.Line) {})
	assert.Equal(t, sound, needs(func(l *plan.Line) { l.Connector.Rating.Force = 10e3 }))
	assert.Equal(t, sound, needs(func(l *plan.Line) { l.Rating.Force = 10e3 }))
}

func TestListsAreReadable(t *testing.T) {
	files, err := fs.Glob(assets.SheetLists(), "*.toml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, name := range files {
		data, err := fs.ReadFile(assets.SheetLists(), name)
		require.NoError(t, err)
		lines, err := readList(name, data)
		require.NoError(t, err)
		assert.NotEmpty(t, lines)
		for _, l := range lines {
			for _, word := range []string{" safe", " OK", " clear "} {
				assert.NotContains(t, l.Text, word)
			}
		}
	}
	for _, bad := range []string{"[[line]]\ntext = \"\"", "[[line]]\nwords = \"x\"", "[[line", "line = 3"} {
		_, err := readList("x", []byte(bad))
		assert.Error(t, err, bad)
	}
}

func FuzzReadList(f *testing.F) {
	f.Add([]byte("[[line]]\ntext = \"Stop\"\nsign = false"))
	f.Fuzz(func(t *testing.T, data []byte) {
		lines, err := readList("fuzz", data)
		if err != nil {
			return
		}
		for _, l := range lines {
			if strings.TrimSpace(l.Text) == "" {
				t.Fatal("an empty line passed")
			}
		}
	})
}

func FuzzLogo(f *testing.F) {
	f.Add([]byte("\x89PNG\r\n\x1a\n"))
	f.Add([]byte("\xff\xd8\xff"))
	w, err := words.New("en", quantity.Metric)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		img, err := readLogo(data, w)
		if err == nil && img != nil {
			if b := img.Bounds(); b.Dx()*b.Dy() > maxLogoPixels {
				t.Fatalf("a logo of %v passed", b)
			}
		}
	})
}

// Frames show parts up to their step; a plan without steps is taken in the
// order of rigging.
func TestFrames(t *testing.T) {
	p := openPlan(t, "redirect")
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	m := &maker{w: w}
	m.take(p, "R1", solver.Assess(p, "R1"))
	own, captions := m.frames()
	require.Len(t, captions, 5)
	assert.Contains(t, captions[1], "Sling 1")
	assert.Contains(t, captions[3], "Line")
	assert.Zero(t, p.Rigs[0].Slings[0].Step, "the plan itself keeps its steps")
	assert.Equal(t, 1, own.Rigs[0].Slings[0].Step)
	r := p.Rigs[0]
	r.Lines = append([]plan.Line(nil), r.Lines...)
	r.Lines[0].Step, r.Lines[0].Caption = 2, "The line goes last."
	m.take(plan.WithRig(p, 0, r), "R1", solver.Assess(p, "R1"))
	_, captions = m.frames()
	require.Len(t, captions, 3)
	assert.Equal(t, "The line goes last.", captions[2])
}

func TestWhenReadsDatesAlone(t *testing.T) {
	assert.Equal(t, 2026, when("2026-11-25").Year())
	for _, s := range []string{"", "yesterday", "25.11.2026", "2026-13-40"} {
		assert.True(t, when(s).IsZero(), s)
	}
}

// A PDF's letters are in the subset of the font they are written in, after a
// clip too.
func TestFontsAfterAClip(t *testing.T) {
	g := &Page{W: 100, H: 100}
	write(&g.marks, 10, 10, "A", letters(5, true))
	pen.ClipRect(&g.marks, 0, 0, 100, 100)
	write(&g.marks, 10, 20, "B", letters(5, false))
	g.marks.PopClip()
	write(&g.marks, 10, 30, "1\u202f291\u00a0% W", letters(5, true))
	doc := pen.NewPDF(pen.About{})
	doc.NewPage(g.W, g.H)
	g.Draw(doc)
	with, err := doc.Bytes()
	require.NoError(t, err)
	doc = pen.NewPDF(pen.About{})
	doc.NewPage(g.W, g.H)
	for _, m := range g.marks.Marks {
		if m.Kind == pen.TextMark {
			doc.Text(m.X, m.Y, m.Text, &m.Type)
		}
	}
	without, err := doc.Bytes()
	require.NoError(t, err)
	assert.Equal(t, rendered(t, without), rendered(t, with), "the same letters on paper")
}

// rendered is the first page of a PDF as a picture.
func rendered(t *testing.T, file []byte) []byte {
	t.Helper()
	tool, err := exec.LookPath("pdftoppm")
	if err != nil {
		t.Skip("pdftoppm is not installed (poppler-utils)")
	}
	c := exec.Command(tool, "-r", "72", "-png", "-")
	c.Stdin = bytes.NewReader(file)
	out, err := c.Output()
	require.NoError(t, err)
	require.NotEmpty(t, out)
	return out
}

// In every language the tables of the example fit their page without a word
// being cut.
func TestTablesCutNoWordInAnyLanguage(t *testing.T) {
	p := openPlan(t, "redirect")
	for _, lang := range words.Languages() {
		t.Run(lang, func(t *testing.T) {
			w, err := words.New(lang, quantity.Metric)
			require.NoError(t, err)
			m := &maker{ctx: context.Background(), w: w, o: Options{Words: w, Paper: A4}}
			require.NoError(t, m.use(p, p.Rigs[0].ID))
			for name, table := range map[string]*table{"loads": m.loadTable(), "short": m.shortTable(), "findings": m.findingList(), "findings with what to do": m.findingTable()} {
				table.measure(A4.W - bindingMargin - otherMargin - 2*inset)
				for _, r := range append(table.rows, table.headRow()) {
					for i, cell := range r.cells {
						assert.LessOrEqual(t, widestWord(cell, r.style()), table.wide[i]-2*cellPad+0.02, "%s, column %d: %q", name, i+1, cell)
					}
				}
			}
		})
	}
}

// Of two casualties the card tells how far the one goes that the rig is hooked on to.
func TestCardsTellOfTheHookedCasualty(t *testing.T) {
	p := *openPlan(t, "redirect")
	other := *p.Casualty()
	long := other.Stuck.WayLength
	other.Unshare()
	other.ID, other.At, other.Stuck.WayLength = "V77", plan.Point{X: -60, Y: -60}, 21
	p.Site.Vehicles = append([]plan.Vehicle{other}, p.Site.Vehicles...)
	w, err := words.New("en", quantity.Metric)
	require.NoError(t, err)
	m := &maker{w: w}
	m.take(&p, "R1", solver.Assess(&p, "R1"))
	said := m.threeNumbers()
	assert.Contains(t, said[len(said)-1], m.label("watch-way", part.Text("thing", m.thing(p.Site.Vehicles[1].ID)), part.Length("length", long)))
}
