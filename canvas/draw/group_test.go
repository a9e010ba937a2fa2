package draw_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/travel"
)

// pulled is an example's rig with the answer of its whole pull.
func pulled(t *testing.T, name string, rig plan.ID, w, h float64) *draw.Scene {
	s := sceneOf(t, example(t, name), rig, w, h)
	whole, err := travel.Assess(t.Context(), s.Plan, rig, nil)
	require.NoError(t, err)
	s.Answer = whole.Assessment
	s.Labels = &draw.Labels{}
	return s
}

// tagBoxes are the tags of the last picture.
func tagBoxes(s *draw.Scene) []draw.LabelBox {
	return slices.DeleteFunc(slices.Clone(s.Labels.Boxes), func(b draw.LabelBox) bool { return !strings.HasPrefix(b.Key, "tag ") })
}

// One load, one tag: no two tags of parts at the redirect, and few in all.
func TestTheRedirectHasSixTagsAtMost(t *testing.T) {
	s := pulled(t, "redirect.kedge", "R1", 940, 730)
	texts := textsOf(record(t, s, draw.Draw))
	assert.LessOrEqual(t, len(tagBoxes(s)), 6, "of 11 parts: %v", tagBoxes(s))
	at := func(id string) int {
		return slices.IndexFunc(tagBoxes(s), func(b draw.LabelBox) bool { return slices.Contains(b.Parts, id) })
	}
	for _, id := range []string{"S1", "K1", "T1"} {
		assert.Equal(t, at("B1"), at(id), "%s hangs with the block", id)
	}
	assert.Len(t, slices.DeleteFunc(texts, func(x string) bool { return !strings.Contains(x, "55.6 kN") }), 1, "the load stands once")
}

// Every part of the answer is in a tag or a row of the Loads table; one that is over
// its limit, has no rating or is not decided is named in a tag, however many share
// its load.
func TestNoPartIsLost(t *testing.T) {
	for _, name := range []string{"redirect.kedge", "straight.kedge", "doubled.kedge"} {
		for i := range example(t, name).Rigs {
			s := pulled(t, name, example(t, name).Rigs[i].ID, 1400, 900)
			texts := strings.Join(textsOf(record(t, s, draw.Draw)), "|")
			names := s.Words.Names(s.Plan, s.Rig)
			rows := map[string]bool{}
			table := s.Words.Loads(s.Answer, names, words.ColumnUsed)
			for k := range table.Rows {
				rows[table.Rows[k].Part.ID] = true
			}
			for k := range s.Answer.Parts {
				p := &s.Answer.Parts[k]
				tagged := slices.ContainsFunc(tagBoxes(s), func(b draw.LabelBox) bool { return slices.Contains(b.Parts, p.ID) })
				assert.True(t, tagged || rows[p.ID], "%s: %s", name, p.ID)
				box := slices.IndexFunc(tagBoxes(s), func(b draw.LabelBox) bool { return slices.Contains(b.Parts, p.ID) && len(b.Parts) > 1 })
				if loud := p.Status == part.Over || p.Status == part.NoLimit || p.Status == part.Undecided; loud && box >= 0 {
					assert.Contains(t, texts, strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(s.Words.PartName(p, names)), "%s: %s is named", name, p.ID)
				}
			}
		}
	}
}

// Pointing at a tag of several parts, or at one of them, lists them all.
func TestPointingAtATagUnfoldsIt(t *testing.T) {
	s := pulled(t, "redirect.kedge", "R1", 1400, 900)
	assert.NotContains(t, strings.Join(textsOf(record(t, s, draw.Draw)), "|"), "|Block 1 70 %")
	for _, id := range []string{"B1", "K1", "T1"} {
		s.Overlay = &draw.Overlay{HoverPart: id}
		assert.Contains(t, strings.Join(textsOf(record(t, s, draw.Draw)), "|"), "|Block 1 70 %", "pointing at %s", id)
	}
}

// Over a limit with no finding above WARNING has an edge and the words; dark goes
// with DANGER, and with no finding at all.
func TestDarkGoesWithDanger(t *testing.T) {
	for _, c := range []struct {
		level part.Level
		found bool
		dark  bool
	}{{part.Danger, true, true}, {part.Warning, true, false}, {part.Danger, false, true}} {
		s := straightScene(t, part.Over)
		if c.found {
			s.Answer.Findings = []part.Finding{{ID: "over-limit", Level: c.level, Parts: []string{"L/1"}}}
		}
		r := record(t, s, draw.Draw)
		assert.Contains(t, strings.Join(textsOf(r), "|"), "OVER LIMIT")
		colours, dark, edge := draw.Palette(s.Look), false, false
		for i := range r.Marks {
			if m := &r.Marks[i]; m.Path.Bounds().X.Length() > 100 {
				dark = dark || m.Style.Fill == colours.Ink
				edge = edge || m.Style.Fill == colours.Paper && m.Style.Stroke == colours.ZoneOrange
			}
		}
		assert.Equal(t, [2]bool{c.dark, !c.dark}, [2]bool{dark, edge}, fmt.Sprint(c))
	}
}

// On an exercise no tag is joined to another, whose figure it would give away.
func TestBlanksAreNotJoined(t *testing.T) {
	s := sceneOf(t, example(t, "redirect.kedge"), "R1", 1400, 900)
	s.Labels, s.Show.Blank = &draw.Labels{}, map[string]bool{"B1": true}
	record(t, s, draw.Draw)
	require.NotEmpty(t, tagBoxes(s))
	for _, b := range tagBoxes(s) {
		assert.Len(t, b.Parts, 1, b.Key)
	}
}

// Where the picture shows another moment than the worst, a tag says second and grey what is
// carried there: 10 kN now against 41.8 kN in its worst moment. Where it is the same, on an exercise and on paper
// nothing is added.
func TestTagsSayTheLoadOfTheMomentSecond(t *testing.T) {
	s := sceneOf(t, example(t, "redirect.kedge"), "R1", 1400, 900)
	said := func() string { return strings.Join(textsOf(record(t, s, draw.Draw)), "|") }
	require.NotContains(t, said(), "now ")
	now := *s.Answer
	s.Now = &now
	require.NotContains(t, said(), "now ", "the same load")
	now.Parts = slices.Clone(now.Parts)
	for i := range now.Parts {
		now.Parts[i].Move.Force = 10_000
	}
	assert.Contains(t, said(), "now 10.0")
	s.Show.Blank = map[string]bool{"B1": true}
	assert.NotContains(t, said(), "now ", "it would give the answer away")
}

// However little room there is, a tag that gives the load of parts over their limit
// says so in words, in its first line or the one below.
func TestAShrunkTagStillSaysOverLimit(t *testing.T) {
	for _, h := range []float64{730, 380, 360} {
		texts := textsOf(record(t, pulled(t, "redirect.kedge", "R1", 880, h), draw.Draw))
		found := false
		for i, x := range texts {
			if !strings.HasPrefix(x, "▲ 55.6 kN") {
				continue
			}
			found = true
			below := ""
			if i+1 < len(texts) {
				below = texts[i+1]
			}
			if strings.HasPrefix(below, "now") && i+2 < len(texts) {
				below = texts[i+2]
			}
			assert.Contains(t, x+"|"+below, "OVER LIMIT", "%g px high: %q", h, texts)
		}
		assert.True(t, found, "%g px high", h)
	}
}
