package sheet_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/exercise"
	"kedge/canvas/sheet"
	"kedge/solver"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

var courses = []struct {
	name string
	ask  []exercise.Question
}{
	{"redirect", nil},
	{"doubled", nil},
	{"redirect", []exercise.Question{{Kind: exercise.AskAngle, Part: "B1"}, {Kind: exercise.AskLoad, Part: "B1"}, {Kind: exercise.AskLoad, Part: "V1/front"}}},
	{"redirect", []exercise.Question{{Kind: exercise.AskAngle, Part: "B1"}, {Kind: exercise.AskLoad, Part: "L1/1"}}},
	{"doubled", []exercise.Question{{Kind: exercise.AskFirst}, {Kind: exercise.AskWeakest}, {Kind: exercise.AskLoad, Part: "L1/2"}}},
}

func course(t testing.TB, i, variants int) *sheet.Booklet {
	return booklet(t, example(t, courses[i].name), sheet.Options{
		Sheets: []sheet.Kind{sheet.Exercise, sheet.Key, sheet.Errors}, Questions: courses[i].ask, Variants: variants, Seed: 11})
}

// An exercise holds no answer; its key has every one, to the digit the solver's.
func TestExerciseHoldsNoAnswerAndKeyHasTheSolvers(t *testing.T) {
	for i, c := range courses {
		t.Run(fmt.Sprint(i, c.name), func(t *testing.T) {
			b := course(t, i, 12)
			require.NotEmpty(t, b.Answers)
			require.Len(t, b.Variants, 12)
			w := english(t, quantity.Metric)
			for _, a := range b.Answers {
				p := b.Variants[a.Variant-1]
				answer := solver.Assess(p, p.Rigs[0].ID)
				part, ok := answer.Part(a.Part)
				require.True(t, ok)
				right := map[exercise.QuestionKind]string{exercise.AskAngle: w.Angle(part.Angle), exercise.AskLoad: w.Load(part.Move.Force)}[a.Kind]
				if right != "" {
					assert.Equal(t, right, a.Right)
				} else {
					assert.Contains(t, a.Right, w.PartName(part, w.Naming(answer, w.Names(p, p.Rigs[0].ID))))
				}
				inKey := false
				for _, g := range b.Pages {
					if g.Variant != a.Variant {
						continue
					}
					s := allText(g)
					if g.Key {
						inKey = inKey || strings.Contains(s, quantity.PlainSpaces(a.Right))
						continue
					}
					if a.Kind == exercise.AskAngle || a.Kind == exercise.AskLoad {
						lacks(t, s, quantity.PlainSpaces(a.Right), g.Name)
					}
					lacks(t, s, "% of", "a share gives a part away")
					for _, f := range g.Figures {
						if c.ask == nil || a.Kind == exercise.AskWeakest || a.Kind == exercise.AskFirst {
							assert.True(t, f.Blank, "the figure of %s is given", f.Part)
						}
					}
				}
				assert.True(t, inKey, "%s is not on the key", a.Right)
			}
		})
	}
}

// What is drawn on an exercise's PDF is no more than its texts: nothing is
// hidden under something.
func TestExercisePDFHoldsNoAnswer(t *testing.T) {
	b := course(t, 0, 0)
	open, key := b.Split()
	require.NotNil(t, open)
	require.NotNil(t, key)
	assert.Len(t, open.Pages, len(b.Pages)-len(key.Pages))
	file, err := open.PDF()
	require.NoError(t, err)
	var all []string
	for _, page := range wordsOf(t, file) {
		for _, w := range page {
			all = append(all, w.S)
		}
	}
	s := strings.Join(all, " ")
	assert.Contains(t, s, "Load of Block 1")
	for _, a := range b.Answers {
		assert.NotContains(t, s, strings.Join(strings.Fields(quantity.PlainSpaces(a.Right)), " "))
	}
}

// reader is a student with a ruler: what is printed, and places to half a
// millimetre.
type reader struct {
	t    *testing.T
	text string
	at   map[string]sheet.Place
}

func (r *reader) figure(pattern string) float64 {
	r.t.Helper()
	m := regexp.MustCompile(pattern).FindStringSubmatch(r.text)
	require.NotNil(r.t, m, "%s is not on the page", pattern)
	x, err := strconv.ParseFloat(m[1], 64)
	require.NoError(r.t, err)
	return x
}

// bearing is the direction from one place to another, degrees.
func (r *reader) direction(a, b string) float64 {
	p, ok := r.at[a]
	q, has := r.at[b]
	require.True(r.t, ok && has, "%s or %s is not on the page", a, b)
	half := func(x float64) float64 { return math.Round(2*x) / 2 }
	return math.Atan2(half(p.Y)-half(q.Y), half(q.X)-half(p.X)) * 180 / math.Pi
}

func between(a, b float64) float64 {
	d := math.Abs(math.Mod(a-b+720, 360))
	return math.Min(d, 360-d)
}

// keeps reads the printed table of what a block keeps.
func (r *reader) keeps(angle float64) float64 {
	table := [][2]float64{{0, r.figure(`keeps (\d+(?:\.\d+)?) of the pull`)}}
	for _, d := range []float64{30, 60, 90, 120, 150} {
		table = append(table, [2]float64{d, r.figure(fmt.Sprintf(`%g° (\d+(?:\.\d+)?)`, d))})
	}
	table = append(table, [2]float64{180, 1})
	for i := 1; i < len(table); i++ {
		if a, b := table[i-1], table[i]; angle <= b[0] {
			return a[1] + (b[1]-a[1])*(angle-a[0])/(b[0]-a[0])
		}
	}
	return 1
}

// Solved from the printed page alone, with ruler and protractor, the exercise
// gives the key. One block; the redirect's far stretch is hooked to the
// casualty, of the doubled rig both.
func TestExerciseIsSolvedFromItsPage(t *testing.T) {
	for i, c := range courses[:2] {
		b := course(t, i, 20)
		for v := 1; v <= 20; v++ {
			t.Run(fmt.Sprint(c.name, v), func(t *testing.T) {
				r := &reader{t: t, at: map[string]sheet.Place{}}
				for _, g := range b.Pages {
					if g.Variant == v && !g.Key {
						r.text += " " + allText(g)
						for _, q := range g.Places {
							r.at[q.Name] = q
						}
					}
				}
				resistance := r.figure(`Resistance along the exit path, as planned: (\d+(?:\.\d+)?) kN`)
				way := r.direction("way out/a", "way out/b")
				toWinch, toEnd := r.direction("L1/1/b", "L1/1/a"), r.direction("L1/2/a", "L1/2/b")
				angle := between(toWinch, toEnd)
				keep := r.keeps(angle)
				along := keep * math.Cos(between(toEnd+180, way)*math.Pi/180)
				if c.name == "doubled" {
					along += math.Cos(between(toWinch+180, way) * math.Pi / 180)
				}
				pull := resistance / along
				far := pull * keep
				block := math.Sqrt(pull*pull + far*far + 2*pull*far*math.Cos(angle*math.Pi/180))
				asked := 0
				for _, a := range b.Answers {
					if a.Variant != v {
						continue
					}
					switch {
					case a.Kind == exercise.AskAngle:
						near(t, a.X, angle, a.Plus, "angle")
					case a.Kind == exercise.AskLoad && a.Part == "B1":
						near(t, a.X/1000, block, a.Plus/1000, "block, kN")
					case a.Kind == exercise.AskLoad && a.Part == "L1/1":
						near(t, a.X/1000, pull, a.Plus/1000, "winch line, kN")
					case a.Kind == exercise.AskWeakest:
						near(t, a.X, r.mostUsed(pull, far, block), 0.06*a.X, "highest share")
					default:
						continue
					}
					asked++
				}
				assert.GreaterOrEqual(t, asked, 3)
			})
		}
	}
}

// mostUsed is the highest share over the printed limits.
func (r *reader) mostUsed(pull, far, block float64) float64 {
	most := 0.0
	for _, x := range []struct {
		part string
		load float64
	}{{`Winch, layer \d`, pull}, {"Line, fairlead to Block 1", pull}, {"Line, Block 1 to Casualty", far}, {"; Block 1", block},
		{"Sling 1, heavier leg", block}, {"Shackle 1", block}, {"Tree 1", block}} {
		most = math.Max(most, x.load/r.figure(x.part+`: (\d+(?:\.\d+)?)[;.]`))
	}
	if strings.Contains(r.text, "Casualty, front recovery point") {
		most = math.Max(most, far/r.figure(`Casualty, front recovery point: (\d+(?:\.\d+)?)[;.]`))
	}
	if strings.Contains(r.text, "Casualty, front left recovery point") {
		most = math.Max(most, far/r.figure(`Casualty, front left recovery point: (\d+(?:\.\d+)?)[;.]`))
	}
	return most
}

func TestVariantsAreDrawnFromTheSeed(t *testing.T) {
	p := example(t, "redirect")
	make := func(seed uint64, n int) []byte {
		file, err := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Variants: n, Seed: seed, Class: []string{"Ada Moor", "Ben Sedge"}}).PDF()
		require.NoError(t, err)
		return file
	}
	assert.True(t, bytes.Equal(make(1, 4), make(1, 4)))
	assert.False(t, bytes.Equal(make(1, 4), make(2, 4)))
	few, more := course(t, 0, 3), course(t, 0, 5)
	for i := range few.Variants {
		a, err := plan.FormatPlan(few.Variants[i])
		require.NoError(t, err)
		b, err := plan.FormatPlan(more.Variants[i])
		require.NoError(t, err)
		assert.Equal(t, string(a), string(b), "a variant does not depend on how many there are")
	}
	b := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Class: []string{"Ada Moor", "Ben Sedge"}})
	require.Len(t, b.Variants, 2, "a class alone says how many")
	names := map[int]string{}
	for _, g := range b.Pages {
		s := allText(g)
		assert.Contains(t, s, fmt.Sprintf("Variant %d of 2", g.Variant))
		if m := regexp.MustCompile(`Name ([A-Z]\w+ [A-Z]\w+)`).FindStringSubmatch(s); m != nil {
			names[g.Variant] = m[1]
		}
	}
	assert.Equal(t, map[int]string{1: "Ada Moor", 2: "Ben Sedge"}, names)
	_, err := sheet.Make(p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Variants: 2, Questions: []exercise.Question{{Kind: exercise.AskLoad, Part: "B9"}}})
	assert.ErrorIs(t, err, sheet.ErrQuestion)
}

func TestQuestionsThatCannotBeAnsweredAreRefused(t *testing.T) {
	p := example(t, "redirect")
	r := p.Rigs[0]
	r.Blocks = append([]plan.Block(nil), r.Blocks...)
	r.Blocks[0].Rating = plan.Rating{}
	unrated := plan.WithRig(p, 0, r)
	massless := p.Site.Vehicles[0]
	massless.Mass = 0
	for _, c := range []struct {
		name string
		p    *plan.Plan
		q    exercise.Question
		want string
	}{
		{"no limit shown", unrated, exercise.Question{Kind: exercise.AskWeakest}, "no limit of Block 1"},
		{"no ultimate", unrated, exercise.Question{Kind: exercise.AskFirst}, "Block 1"},
		{"no such part", p, exercise.Question{Kind: exercise.AskLoad, Part: "B9"}, "no part B9"},
		{"sloping ground", sloped(p, 8), exercise.Question{Kind: exercise.AskLoad, Part: "B1"}, "the ground slopes 8"},
		{"a line that climbs", raised(p, 3), exercise.Question{Kind: exercise.AskAngle, Part: "B1"}, "steep"},
		{"what tips, on sloping ground", sloped(p, 8), exercise.Question{Kind: exercise.AskLoad, Part: "V1/tip"}, "the ground slopes 8"},
		{"what moves first, on sloping ground", sloped(p, 8), exercise.Question{Kind: exercise.AskFirst}, "the ground slopes 8"},
		{"angle of what turns no line", p, exercise.Question{Kind: exercise.AskAngle, Part: "K1"}, "no line turns"},
		{"not computed", p, exercise.Question{Kind: exercise.AskWhatIf, Rig: "R2", Part: "L2/1"}, "not computed"},
		{"no such rig", p, exercise.Question{Kind: exercise.AskWhatIf, Rig: "R9", Part: "L2/1"}, "no other rig"},
		{"the same rig", p, exercise.Question{Kind: exercise.AskWhatIf, Rig: "R1", Part: "B1"}, "no other rig"},
		{"the resistance itself, which is printed", example(t, "doubled"), exercise.Question{Kind: exercise.AskLoad, Part: "B1"}, "is printed"},
		{"no such kind", p, exercise.Question{Kind: "riddle"}, "riddle"},
		{"resistance not known", plan.WithVehicle(p, 0, massless), exercise.Question{Kind: exercise.AskLoad, Part: "B1"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, err := sheet.Make(c.p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Questions: []exercise.Question{c.q}})
			require.ErrorIs(t, err, sheet.ErrQuestion)
			assert.Nil(t, b)
			var why *exercise.QuestionProblem
			require.True(t, errors.As(err, &why))
			assert.Equal(t, 1, why.N)
			assert.Contains(t, why.Why, c.want)
		})
	}
}

// A stretch of 12 m is 12 mm long at 1 : 1000: no protractor can be laid to it.
func TestAnglesTooSmallToMeasureAreRefused(t *testing.T) {
	_, err := sheet.Make(example(t, "redirect"), sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Scale: 1000,
		Questions: []exercise.Question{{Kind: exercise.AskAngle, Part: "B1"}}})
	require.ErrorIs(t, err, sheet.ErrQuestion)
	assert.Contains(t, err.Error(), "too short for a protractor")
}

// The tag of the tree, sling and shackle is the block's own figure.
func TestFiguresThatGiveABlankAwayAreFound(t *testing.T) {
	b := booklet(t, example(t, "redirect"), sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Blanks: []string{"B1"}})
	found := map[string]bool{}
	for _, g := range b.Giveaways {
		assert.Equal(t, "B1", g.Blank)
		assert.Zero(t, g.Question, "a blank of the drawing")
		found[g.Part] = true
	}
	for _, want := range []string{"T1", "S1", "K1"} {
		assert.True(t, found[want], want)
	}
	s := allText(b.Pages[0])
	assert.Contains(t, s, "28.5 kN", "other figures stay")
	assert.Contains(t, s, "kN on Block 1")
	for _, f := range b.Pages[0].Figures {
		assert.Equal(t, f.Part == "B1", f.Blank, f.Part)
	}
}

func TestWhatIfDrawsTheOtherRig(t *testing.T) {
	p := example(t, "redirect")
	other := p.Rigs[0]
	other.ID, other.Name = "R3", "Longer strap"
	other.Slings = append([]plan.Sling(nil), other.Slings...)
	other.Slings[0].Length = 6
	p = plan.WithRig(p, len(p.Rigs), other)
	b := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise, sheet.Key}, Questions: []exercise.Question{{Kind: exercise.AskWhatIf, Rig: "R3", Part: "B1"}}})
	require.Len(t, b.Answers, 1)
	w := english(t, quantity.Metric)
	want, ok := solver.Assess(p, "R3").Part("B1")
	require.True(t, ok)
	assert.Equal(t, w.Load(want.Move.Force), b.Answers[0].Right)
	drawn := 0
	for _, g := range b.Pages {
		if s := allText(g); strings.Contains(s, "The other rig: Longer strap") {
			drawn++
			assert.Equal(t, g.Key, strings.Contains(s, quantity.PlainSpaces(b.Answers[0].Right)))
		}
	}
	assert.Equal(t, 2, drawn, "on the exercise and on the key")
}

// People are no part of an exercise: wherever they stand, it is drawn as without.
func TestPeopleChangeNoExercise(t *testing.T) {
	o := sheet.Options{Sheets: []sheet.Kind{sheet.Exercise, sheet.Key}, Questions: []exercise.Question{{Kind: exercise.AskWhatIf, Rig: "R3", Part: "B1"}}}
	p := *example(t, "redirect")
	other := p.Rigs[0]
	other.ID, other.Slings = "R3", append([]plan.Sling(nil), other.Slings...)
	other.Slings[0].Length = 6
	p.Rigs = append(p.Rigs[:len(p.Rigs):len(p.Rigs)], other)
	p.Site.People = nil
	without := booklet(t, &p, o)
	p.Site.People = []plan.Person{{Head: plan.Head{ID: "P9"}, Role: plan.RoleBystander, At: plan.Point{X: 300, Y: -250}}}
	with := booklet(t, &p, o)
	require.Len(t, with.Pages, len(without.Pages))
	for i := range with.Pages {
		a, err := without.PNG(i, 60)
		require.NoError(t, err)
		b, err := with.PNG(i, 60)
		require.NoError(t, err)
		assert.Less(t, difference(t, a, b), 0.003, "page %d", i) // the plan's number on the page differs
	}
}

// A class measures drawings of one scale: that of the plan itself.
func TestVariantsKeepTheScaleOfThePlan(t *testing.T) {
	p := example(t, "redirect")
	base := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Landscape: true})
	b := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Landscape: true, Variants: 15, Vary: exercise.Vary{PlaceM: 5, TurnDeg: 20}})
	assert.Positive(t, b.Redrawn, "some were drawn anew, and counted")
	for _, g := range b.Pages {
		if g.Scale > 0 {
			assert.LessOrEqual(t, g.Scale, base.Pages[0].Scale, "variant %d", g.Variant)
		}
	}
}

// sloped is the plan on a slope; raised has its tree's strap so much higher.
func sloped(p *plan.Plan, deg quantity.Degrees) *plan.Plan {
	q := *p
	q.Site.Ground.Slope, q.Site.Ground.Downhill = plan.Known(deg), plan.Known(quantity.Degrees(180))
	return &q
}

func raised(p *plan.Plan, by quantity.Length) *plan.Plan {
	a := p.Site.Anchors[0]
	a.Rise += by
	return plan.WithAnchor(p, 0, a)
}

// What a casualty's point carries, what goes across it, what its winch vehicle
// and the fairlead take, are solved from the page as well: the load of the
// stretch that is hooked on, by the direction of the vehicle. Across: T·sin φ;
// fairlead: 2·T·sin(φ/2). (closed form)
func TestLoadsOfVehiclesAreSolvedFromTheirPage(t *testing.T) {
	p := example(t, "redirect")
	puller := p.Site.Vehicles[1]
	puller.Bearing = (puller.Bearing - 30).Normal() // the line leads off its fairlead
	p = plan.WithVehicle(p, 1, puller)
	asks := []exercise.Question{{Kind: exercise.AskLoad, Part: "V1/front"}, {Kind: exercise.AskLoad, Part: "V1/tip"}, {Kind: exercise.AskLoad, Part: "V2/slide"},
		{Kind: exercise.AskLoad, Part: "V2/fairlead"}}
	b := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise, sheet.Key, sheet.Errors}, Questions: asks, Variants: 8, Seed: 3})
	w := english(t, quantity.Metric)
	for v := 1; v <= 8; v++ {
		r := &reader{t: t, at: map[string]sheet.Place{}}
		for _, g := range b.Pages {
			if g.Variant == v && !g.Key {
				r.text += " " + allText(g)
				for _, q := range g.Places {
					r.at[q.Name] = q
				}
			}
		}
		resistance := r.figure(`Resistance along the exit path, as planned: (\d+(?:\.\d+)?) kN`)
		toWinch, toEnd := r.direction("L1/1/b", "L1/1/a"), r.direction("L1/2/a", "L1/2/b")
		keep := r.keeps(between(toWinch, toEnd))
		pull := resistance / (keep * math.Cos(between(toEnd+180, r.direction("way out/a", "way out/b"))*math.Pi/180))
		far := pull * keep
		across := math.Abs(far * math.Sin(between(toEnd+180, r.direction("V1/tail", "V1/nose"))*math.Pi/180))
		lead := between(toWinch+180, r.direction("V2/tail", "V2/nose"))
		want := map[string]float64{"V1/front": far, "V1/tip": across, "V2/slide": pull, "V2/fairlead": 2 * pull * math.Sin(lead/2*math.Pi/180)}
		n := 0
		for _, a := range b.Answers {
			if a.Variant == v {
				n++
				near(t, a.X/1000, want[a.Part], a.Plus/1000, fmt.Sprintf("variant %d: %s, kN", v, a.Part))
				q, ok := solver.Assess(b.Variants[v-1], "R1").Part(a.Part)
				require.True(t, ok)
				assert.Equal(t, w.Load(q.Move.Force), a.Right)
				lacks(t, r.text, quantity.PlainSpaces(a.Right), a.Part)
			}
		}
		assert.Equal(t, len(asks), n)
	}
}

// Any figure may be a blank, 25 by 8 mm, on the drawing (ours); on
// the key its answer stands in its place.
func TestAnyFigureIsABlankWithRoomToWrite(t *testing.T) {
	for _, id := range []string{"V1/front", "V1/tip", "V2/slide", "V2/winch", "B1", "L1/1", "L1/2", "T1", "K1", "S1"} {
		t.Run(id, func(t *testing.T) {
			b := booklet(t, example(t, "redirect"), sheet.Options{Sheets: []sheet.Kind{sheet.Exercise, sheet.Key}, Blanks: []string{id}})
			at := map[bool]int{}
			for _, g := range b.Pages {
				for _, f := range g.Figures {
					if f.Part != id {
						continue
					}
					at[g.Key]++
					assert.Equal(t, !g.Key, f.Blank)
					if f.Blank {
						assert.GreaterOrEqual(t, f.X1-f.X0, 25.0, "mm wide")
						assert.GreaterOrEqual(t, f.Y1-f.Y0, 8.0, "mm high")
					}
				}
			}
			assert.Positive(t, at[false], "on the exercise")
			assert.Positive(t, at[true], "on the key")
			lacks(t, allText(b.Pages[0]), quantity.PlainSpaces(b.Answers[0].Right), id)
		})
	}
}

// What is not to vary stays as it is; what is, does.
func TestOnlyWhatVariesDiffers(t *testing.T) {
	p := example(t, "redirect")
	for _, c := range []struct {
		vary                             exercise.Vary
		mass, place, trunk, slings, turn bool
	}{
		{exercise.Vary{MassShare: 0.3}, true, false, false, false, false},
		{exercise.Vary{PlaceM: 2}, false, true, false, false, false},
		{exercise.Vary{Trunks: 0.3}, false, false, true, false, false},
		{exercise.Vary{Lengths: []quantity.Length{4, 5}}, false, false, false, true, false},
		{exercise.Vary{TurnDeg: 8}, false, false, false, false, true},
	} {
		b := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise}, Variants: 4, Vary: c.vary})
		var mass, place, trunk, slings, turn bool
		for _, q := range b.Variants {
			mass = mass || q.Site.Vehicles[0].Mass != p.Site.Vehicles[0].Mass
			place = place || q.Site.Vehicles[1].At != p.Site.Vehicles[1].At || q.Site.Anchors[0].At != p.Site.Anchors[0].At
			trunk = trunk || q.Site.Anchors[0].Trunk != p.Site.Anchors[0].Trunk
			turn = turn || q.Site.Vehicles[0].Bearing != p.Site.Vehicles[0].Bearing
			slings = slings || q.Rigs[0].Slings[0].Length != p.Rigs[0].Slings[0].Length
		}
		assert.Equal(t, []bool{c.mass, c.place, c.trunk, c.slings, c.turn}, []bool{mass, place, trunk, slings, turn}, "%+v", c.vary)
	}
}

// A wrong answer of every kind of question tells what was not understood.
func TestEveryKindOfQuestionHasItsMistakes(t *testing.T) {
	p := example(t, "redirect")
	other := p.Rigs[0]
	other.ID, other.Name = "R3", "Longer strap"
	other.Slings = append([]plan.Sling(nil), other.Slings...)
	other.Slings[0].Length = 6
	p = plan.WithRig(p, len(p.Rigs), other)
	for _, c := range []struct {
		q    exercise.Question
		want string
	}{
		{exercise.Question{Kind: exercise.AskAngle, Part: "B1"}, "92.6°: read the wrong scale"}, // 180° − 87.4°, to a tenth
		{exercise.Question{Kind: exercise.AskLoad, Part: "B1"}, "took twice the pull"},
		{exercise.Question{Kind: exercise.AskLoad, Part: "V1/tip"}, "28.5 kN: took the whole pull"},
		{exercise.Question{Kind: exercise.AskWeakest}, "Winch, layer 2: looked for the lowest limit"},
		{exercise.Question{Kind: exercise.AskFirst}, "looked for the highest load"},
		{exercise.Question{Kind: exercise.AskWhatIf, Rig: "R3", Part: "B1"}, "41.8 kN: took the load of the rig that is drawn"},
	} {
		t.Run(string(c.q.Kind)+c.q.Part, func(t *testing.T) {
			for _, k := range []sheet.Kind{sheet.Errors, sheet.Key} { // by itself, and beside the answer
				var all []string
				for _, g := range booklet(t, p, sheet.Options{Sheets: []sheet.Kind{k}, Questions: []exercise.Question{c.q}}).Pages {
					all = append(all, allText(g))
				}
				s := strings.Join(all, " ")
				if strings.Contains(s, c.want) {
					continue
				}
				for _, w := range strings.Fields(c.want) { // broken over two lines
					assert.Contains(t, s, w, k)
				}
				if k == sheet.Key {
					assert.Contains(t, s, "An answer like this means:")
				}
			}
		})
	}
}

// What another rig would load is not printed on this one, even where both load
// the part alike.
func TestWhatIfIsNotGivenAway(t *testing.T) {
	p := example(t, "redirect")
	same := p.Rigs[0]
	same.ID, same.Name = "R9", "The same again"
	p.Rigs = append(p.Rigs, same)
	b := booklet(t, p, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise, sheet.Key}, Questions: []exercise.Question{{Kind: exercise.AskWhatIf, Rig: "R9", Part: "B1"}}})
	w := english(t, quantity.Metric)
	q, ok := solver.Assess(p, "R9").Part("B1")
	require.True(t, ok)
	answer := quantity.PlainSpaces(w.Load(q.Move.Force))
	key := ""
	for _, g := range b.Pages {
		if g.Key {
			key += allText(g)
			continue
		}
		lacks(t, allText(g), answer, g.Name)
	}
	assert.Contains(t, key, answer)
}
