package draw_test

import (
	"image"
	"image/color"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/draw"
	"kedge/canvas/pen"
	"kedge/solver"
	"kedge/solver/part"
	"kedge/solver/plan"
)

// eye turns linear sRGB into what is seen of it.
type eye [3][3]float64

// Eyes: ordinary; without the long-wave cones; without the middle-wave cones,
// both at severity 1.0 (Machado, Oliveira, Fernandes, A Physiologically-based
// Model for Simulation of Color Vision Deficiency, IEEE TVCG 15(6), 2009, table
// of matrices, on linear RGB).
var eyes = map[string]eye{
	"ordinary": {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protanopia": {
		{0.152286, 1.052583, -0.204868},
		{0.114503, 0.786281, 0.099216},
		{-0.003882, -0.048116, 1.051998}},
	"deuteranopia": {
		{0.367322, 0.860646, -0.227968},
		{0.280085, 0.672501, 0.047413},
		{-0.011820, 0.042940, 0.968881}},
}

// linear and its inverse are the transfer of IEC 61966-2-1.
func linear(v uint8) float64 {
	x := float64(v) / 255
	if x <= 0.04045 {
		return x / 12.92
	}
	return math.Pow((x+0.055)/1.055, 2.4)
}

func coded(x float64) uint8 {
	x = min(max(x, 0), 1)
	if x <= 0.0031308 {
		return uint8(math.Round(255 * 12.92 * x))
	}
	return uint8(math.Round(255 * (1.055*math.Pow(x, 1/2.4) - 0.055)))
}

func (e eye) sees(c color.NRGBA) color.NRGBA {
	in := [3]float64{linear(c.R), linear(c.G), linear(c.B)}
	var out [3]uint8
	for i := range out {
		out[i] = coded(e[i][0]*in[0] + e[i][1]*in[1] + e[i][2]*in[2])
	}
	return color.NRGBA{R: out[0], G: out[1], B: out[2], A: c.A}
}

// luminance of what an eye sees, 0 to 1 (Rec. 709).
func (e eye) luminance(c color.NRGBA) float64 {
	s := e.sees(c)
	return 0.2126*linear(s.R) + 0.7152*linear(s.G) + 0.0722*linear(s.B)
}

// Whites and greys stay what they are for every eye: the rows add up to one.
func TestEyesSeeGreyAsGrey(t *testing.T) {
	for name, e := range eyes {
		for _, v := range []uint8{0, 40, 128, 255} {
			s := e.sees(color.NRGBA{R: v, G: v, B: v, A: 255})
			for _, got := range []uint8{s.R, s.G, s.B} {
				assert.InDelta(t, v, got, 1, name)
			}
		}
	}
	// Pure red is nearly black without the long-wave cones, not without the others.
	red := color.NRGBA{R: 255, A: 255}
	assert.Less(t, eyes["protanopia"].luminance(red), 0.5*eyes["ordinary"].luminance(red)+0.02)
}

// blindText is the least contrast of text for an eye without red or green: WCAG
// asks its 4.5 of the ordinary luminance alone. The black number on the orange of
// ISO 3864 has 4.2 without long-wave cones; white would have 4.0 for the others.
// (ours)
const blindText = 4.0

// Every pair of colours that a picture relies on keeps its contrast for the
// colour-blind.
func TestPairsKeepTheirContrastForEveryEye(t *testing.T) {
	for look, l := range looks {
		c := draw.Palette(l)
		for name, e := range eyes {
			for _, p := range c.Pairs() {
				least := p.Least
				if name != "ordinary" {
					least = min(least, blindText)
				}
				assert.GreaterOrEqual(t, draw.Contrast(e.sees(p.A), e.sees(p.B)), least, "%s, %s: %s", look, name, p.What)
			}
		}
	}
}

// picture is a scene as pixels.
func picture(t *testing.T, s *draw.Scene) *image.RGBA {
	t.Helper()
	img := image.NewRGBA(image.Rect(0, 0, int(s.View.W), int(s.View.H)))
	r := pen.NewRaster(img, 1)
	r.Paper(draw.Palette(s.Look).Paper)
	draw.Draw(r, s)
	require.NoError(t, r.Flush())
	return img
}

// light is the luminance of a window of a picture, pixel by pixel.
func (e eye) light(img *image.RGBA, w image.Rectangle) []float64 {
	out := make([]float64, 0, w.Dx()*w.Dy())
	seen := map[color.RGBA]float64{}
	for y := w.Min.Y; y < w.Max.Y; y++ {
		for x := w.Min.X; x < w.Max.X; x++ {
			c := img.RGBAAt(x, y)
			l, ok := seen[c]
			if !ok {
				l = e.luminance(color.NRGBA(c))
				seen[c] = l
			}
			out = append(out, l)
		}
	}
	return out
}

// apart is how far two windows differ in luminance on the average, 0 to 1.
func apart(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += math.Abs(a[i] - b[i])
	}
	return sum / float64(len(a))
}

// leastApart is how far lines of two states have to differ over a strip as wide
// as the widest line; two of a kind differ by zero. (ours: one pixel in
// twenty from black to white)
const leastApart = 0.05

// In luminance alone, on paper and on the screen, a line of any state differs
// from that of any other, to every eye: grey copies keep the states apart.
func TestStatesAreApartInLuminance(t *testing.T) {
	states := []part.Status{part.Within, part.Near, part.Over, part.NoLimit, part.Slack, part.Refused}
	for look, l := range looks {
		t.Run(look, func(t *testing.T) {
			var seen []*image.RGBA
			for _, st := range states {
				s := straightScene(t, st)
				s.Look, s.Show.HideTags, s.Show.HideNames, s.Show.HideGrid = l, true, true, true
				seen = append(seen, picture(t, s))
			}
			strip := image.Rect(260, 294, 540, 306) // along the line, clear of vehicles
			for name, e := range eyes {
				var lit [][]float64
				for _, img := range seen {
					lit = append(lit, e.light(img, strip))
				}
				assert.Zero(t, apart(lit[0], lit[0]))
				for i := range states {
					for j := range i {
						assert.GreaterOrEqual(t, apart(lit[i], lit[j]), leastApart, "%s: %v and %v", name, states[i], states[j])
					}
				}
			}
		})
	}
}

// zonesApart is the least share of the ink of two zones that does not lie on
// one another: zero for two that look alike, one for two that share no mark.
// (ours)
const zonesApart = 0.4

// zoneScene is one zone from one place to another, higher and lower than the
// picture.
func zoneScene(t *testing.T, l draw.Look, k part.ZoneKind, x0, x1 float64) *draw.Scene {
	return &draw.Scene{Plan: plan.New(), Words: english(t), View: view(20), Look: l, Show: draw.Show{HideGrid: true, HideNames: true},
		Answer: &solver.Assessment{Zones: []part.Zone{{Kind: k, Radius: 5, Outline: []plan.Point{{X: x0, Y: -80}, {X: x1, Y: -80}, {X: x1, Y: 80}, {X: x0, Y: 80}}}}}}
}

// Where kinds of zone are drawn apart each has its own hatch in luminance alone;
// tree, roll-away and slide path share one look and are told by their word. (ours)
func TestZonesAreApartInLuminance(t *testing.T) {
	kinds := []part.ZoneKind{part.ZoneBight, part.ZoneRecoil, part.ZoneRelease, part.ZoneTree, part.ZoneCasualty}
	for look, l := range looks {
		t.Run(look, func(t *testing.T) {
			var seen, calm []*image.RGBA
			for _, k := range kinds {
				s := zoneScene(t, l, k, -8, 8)
				s.Plan.Site.Anchors = []plan.Anchor{{Head: plan.Head{ID: "A1"}, Kind: plan.AnchorTree, Trunk: 0.3, At: plan.Point{X: -7}}}
				s.Answer.Zones[0].Thing = "A1" // a release flies from it
				calm = append(calm, picture(t, s))
				s.Show.ZonesApart = true
				seen = append(seen, picture(t, s))
			}
			whole := image.Rect(245, 145, 555, 455) // inside the edge, which all share
			for name, e := range eyes {
				var lit, none [][]float64
				for i := range seen {
					lit, none = append(lit, e.light(seen[i], whole)), append(none, e.light(calm[i], whole))
				}
				for i := range kinds {
					require.Positive(t, apart(lit[i], none[i]), "%s: %v is not seen", name, kinds[i])
					for j := range i {
						assert.GreaterOrEqual(t, apart(lit[i], lit[j])/(apart(lit[i], none[i])+apart(lit[j], none[j])), zonesApart, "%s: %v and %v", name, kinds[i], kinds[j])
					}
				}
			}
		})
	}
}

// leastInk is how much more ink the inner half of a cut of the edge has than the
// outer, as a share of paper against ink: of ticks one pixel in a hundred, of dots
// one of the cut's 1 680 pixels, where the outer half has none at all. (ours)
var leastInk = map[part.ZoneKind]float64{part.ZoneRecoil: 0.01, part.ZoneStandOff: 1.0 / 1680}

// In any cut of 60 by 60 px with the edge through its middle, the side with more
// ink is inside, to every eye and in grey: by ticks for the keep-out, by dots for
// the stand-off.
func TestACutOfTheEdgeTellsInsideFromOutside(t *testing.T) {
	for look, l := range looks {
		for _, k := range []part.ZoneKind{part.ZoneRecoil, part.ZoneStandOff} {
			for _, side := range []struct {
				name   string
				x0, x1 float64
				inside int
			}{{"west", -80, 0, 0}, {"east", 0, 80, 1}} {
				img := picture(t, zoneScene(t, l, k, side.x0, side.x1))
				for name, e := range eyes {
					paper := e.luminance(draw.Palette(l).Paper)
					most := math.Abs(paper - e.luminance(draw.Palette(l).Ink))
					for y := 60; y < 480; y += 17 { // clear of the word, which lies where nothing else is told
						var ink [2]float64
						for i, x := range []int{400 - 30, 400 + 2} {
							for _, v := range e.light(img, image.Rect(x, y, x+28, y+60)) {
								ink[i] += math.Abs(v-paper) / most / (28 * 60)
							}
						}
						if !assert.GreaterOrEqual(t, ink[side.inside]-ink[1-side.inside], leastInk[k], "%s, %s, %s: %s at %d", look, name, k, side.name, y) {
							break
						}
					}
				}
			}
		}
	}
}
