package pen

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"flag"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

var update = flag.Bool("update", false, "rewrite golden files")

func newWhite(size int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, size, size))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	return img
}

func toRGBA(img image.Image) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, img.Bounds().Dx(), img.Bounds().Dy()))
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
	return out
}

func TestGalleryGolden(t *testing.T) {
	img := drawn(t, 420, 300, 1, func(r *Raster) { gallery(r) })
	file := filepath.Join("testdata", "gallery.png")
	if *update {
		var out bytes.Buffer
		require.NoError(t, WritePNG(&out, img, 96))
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(file, out.Bytes(), 0o644))
	}
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	want, err := png.Decode(f)
	require.NoError(t, err)
	require.Equal(t, img.Rect, want.Bounds())
	// Other processors round floating point a little differently: a few levels.
	require.LessOrEqual(t, mostDifferent(toRGBA(want), img), 4)
}

// galleryPDF has two pages of different size.
func galleryPDF(t testing.TB) []byte {
	p := NewPDF(About{Title: "Pull – Übung 1", Author: "Curlew Moss wardens", Language: "en-GB"})
	p.NewPage(210, 150)
	p.Bookmark("Gallery ▲", 0)
	gallery(At(p, 0.5, 0, 0))
	p.NewPage(297, 210)
	p.Bookmark("Scene", 3)
	trialScene(At(p, 0.2, 5, 5), 1400, 900)
	file, err := p.Bytes()
	require.NoError(t, err)
	return file
}

func TestPDFIsReproducibleAndComplete(t *testing.T) {
	a := galleryPDF(t)
	for range 3 { // maps would differ sooner or later
		require.True(t, bytes.Equal(a, galleryPDF(t)))
	}
	require.True(t, bytes.HasPrefix(a, []byte("%PDF-1.6\n")))
	require.Equal(t, 1, bytes.Count(a, []byte("/ViewerPreferences <</PrintScaling /None>>")))
	// startxref must lead to the cross-reference table, and each of its
	// entries to its object (ISO 32000-1, 7.5.4).
	m := regexp.MustCompile(`startxref\n(\d+)\n%%EOF`).FindSubmatch(a)
	require.NotNil(t, m)
	at, err := strconv.Atoi(string(m[1]))
	require.NoError(t, err)
	require.True(t, bytes.HasPrefix(a[at:], []byte("xref\n0 ")))
	for i, e := range regexp.MustCompile(`(\d{10}) 00000 n`).FindAllSubmatch(a[at:], -1) {
		to, err := strconv.Atoi(string(e[1]))
		require.NoError(t, err)
		require.True(t, bytes.HasPrefix(a[to:], []byte(strconv.Itoa(i+1)+" 0 obj")), "object %d", i+1)
	}
}

func TestPDFPicturesOfOneWidthStayReproducible(t *testing.T) {
	make1 := func() []byte {
		p := NewPDF(About{})
		p.NewPage(100, 100)
		for i := range 6 {
			img := image.NewNRGBA(image.Rect(0, 0, 8, 8))
			img.SetNRGBA(i, i, color.NRGBA{R: 255, A: 255})
			ImageBox(p, img, 0, float64(i)*10, 8, 8, 0, 1)
			ImageBox(p, img, 20, float64(i)*10, 8, 8, 0, 1) // stored once
		}
		file, err := p.Bytes()
		require.NoError(t, err)
		return file
	}
	a := make1()
	for range 8 {
		require.True(t, bytes.Equal(a, make1()))
	}
}

func TestPDFRefuses(t *testing.T) {
	_, err := NewPDF(About{}).Bytes()
	require.Error(t, err)
	p := NewPDF(About{})
	p.Text(1, 1, "x", &TextStyle{Size: 3, Colour: ink})
	require.ErrorIs(t, p.Err(), ErrNoPage)
	p = NewPDF(About{})
	p.NewPage(-1, 10)
	require.Error(t, p.Err())
	p = NewPDF(About{Language: "en) /Evil ("})
	p.NewPage(10, 10)
	file, err := p.Bytes()
	require.NoError(t, err)
	require.NotContains(t, string(file), "Evil")
	_, err = p.Bytes()
	require.Error(t, err, "written twice")
}

// tool is the path of a program that reads what the pens wrote, or skips.
func tool(t *testing.T, name string) string {
	path, err := exec.LookPath(name)
	if err != nil {
		t.Skipf("%s is not installed (Debian: poppler-utils, librsvg2-bin)", name)
	}
	return path
}

func TestPDFTextIsFoundWhereMeasured(t *testing.T) {
	pdftotext := tool(t, "pdftotext")
	p := NewPDF(About{})
	p.NewPage(210, 297)
	style := TextStyle{Size: 5, Colour: ink, Halo: paper, HaloWidth: 0.5}
	words := []string{"41.8kN", "Größe", "▲127%", "≤½·µΩ", "Кран", "zzzz"}
	for i, w := range words {
		s := style
		s.Bold, s.Anchor = i%2 == 1, Anchor(i%3)
		p.Text(100, 20+float64(i)*20, w, &s)
	}
	file, err := p.Bytes()
	require.NoError(t, err)
	name := filepath.Join(t.TempDir(), "t.pdf")
	require.NoError(t, os.WriteFile(name, file, 0o600))
	out, err := exec.Command(pdftotext, "-bbox", name, "-").Output()
	require.NoError(t, err)
	found := regexp.MustCompile(`<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*)</word>`).FindAllStringSubmatch(string(out), -1)
	require.Len(t, found, len(words), "each once, though all have a halo")
	for i, w := range words {
		s := style
		s.Bold = i%2 == 1
		width, _, _ := Measure(w, &s)
		require.Equal(t, w, found[i][5])
		var box [4]float64
		for j := range box {
			box[j], err = strconv.ParseFloat(found[i][j+1], 64)
			require.NoError(t, err)
			box[j] /= pointsPerMM
		}
		near(t, width, box[2]-box[0], 0.01, w) // mm
		near(t, 100-[]float64{0, width / 2, width}[i%3], box[0], 0.01, w)
		require.Less(t, box[1], 20+float64(i)*20)
		require.Greater(t, box[3], 20+float64(i)*20)
	}
}

// Pages through other people's readers look like the raster: not more than one
// pixel in a hundred differs by more than what an edge's shading makes.
func TestPagesLookLikeTheRaster(t *testing.T) {
	const dpi = 100
	scene := func(p Pen) {
		p = At(p, 0.5, 0, 0)
		gallery(p)
		var q Path // the picture is enlarged with or without smoothing, as readers like
		q.Circle(360, 130, 37)
		p.Path(&q, &Style{Fill: paper})
	}
	r, img, err := NewSheetRaster(210, 150, dpi)
	require.NoError(t, err)
	r.Paper(paper)
	scene(r)
	require.NoError(t, r.Flush())
	compare := func(t *testing.T, file string) {
		f, err := os.Open(file)
		require.NoError(t, err)
		defer f.Close()
		got, err := png.Decode(f)
		require.NoError(t, err)
		page := toRGBA(got)
		n, off := 0, 0
		for y := range min(page.Rect.Dy(), img.Rect.Dy()) {
			for x := range min(page.Rect.Dx(), img.Rect.Dx()) {
				a, b := img.RGBAAt(x, y), page.RGBAAt(x, y)
				n++
				if d := int(a.G) - int(b.G); d > 100 || d < -100 {
					off++
				}
			}
		}
		require.Greater(t, n, 100*1000)
		require.Less(t, float64(off)/float64(n), 0.01)
	}
	t.Run("PDF", func(t *testing.T) {
		reader := tool(t, "pdftoppm")
		p := NewPDF(About{})
		p.NewPage(210, 150)
		scene(p)
		file, err := p.Bytes()
		require.NoError(t, err)
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, "p.pdf"), file, 0o600))
		require.NoError(t, exec.Command(reader, "-r", strconv.Itoa(dpi), "-png", "-singlefile", filepath.Join(dir, "p.pdf"), filepath.Join(dir, "p")).Run())
		compare(t, filepath.Join(dir, "p.png"))
	})
	t.Run("SVG outlines", func(t *testing.T) {
		reader := tool(t, "rsvg-convert")
		s := NewSVG(210, 150)
		s.TextAsOutlines = true
		scene(s)
		dir := t.TempDir()
		require.NoError(t, os.WriteFile(filepath.Join(dir, "p.svg"), svgBytes(t, s), 0o600))
		require.NoError(t, exec.Command(reader, "-d", strconv.Itoa(dpi), "-p", strconv.Itoa(dpi), "-b", "white", filepath.Join(dir, "p.svg"), "-o", filepath.Join(dir, "p.png")).Run())
		compare(t, filepath.Join(dir, "p.png"))
	})
}

func svgBytes(t testing.TB, s *SVG) []byte {
	var out bytes.Buffer
	n, err := s.WriteTo(&out)
	require.NoError(t, err)
	require.EqualValues(t, out.Len(), n)
	return out.Bytes()
}

func TestSVG(t *testing.T) {
	for _, outlines := range []bool{false, true} {
		t.Run("outlines "+strconv.FormatBool(outlines), func(t *testing.T) {
			page := func() []byte {
				s := NewSVG(210, 150)
				s.Title, s.TextAsOutlines = `Pull <1> & "more"`, outlines
				gallery(At(s, 0.5, 0, 0))
				s.Text(10, 10, "a < b & \"c\" \x01", &TextStyle{Size: 4, Colour: ink})
				return svgBytes(t, s)
			}
			a := page()
			require.True(t, bytes.Equal(a, page()))
			counts := map[string]int{}
			var text strings.Builder
			d := xml.NewDecoder(bytes.NewReader(a))
			for {
				tok, err := d.Token()
				if errors.Is(err, io.EOF) {
					break
				}
				require.NoError(t, err)
				switch tok := tok.(type) {
				case xml.StartElement:
					counts[tok.Name.Local]++
				case xml.CharData:
					text.Write(tok)
				}
			}
			require.Equal(t, 1, counts["clipPath"])
			require.Equal(t, 1, counts["image"])
			require.Equal(t, outlines, counts["text"] == 0)
			require.Equal(t, !outlines, bytes.Contains(a, []byte("@font-face")))
			require.Contains(t, string(a), `width="210mm" height="150mm" viewBox="0 0 210 150"`)
			if !outlines {
				require.Contains(t, text.String(), "a < b & \"c\"  ")
				require.Contains(t, text.String(), "▲ 41.8 kN")
			}
		})
	}
}

func TestSVGLettersHaveTheMeasuredWidth(t *testing.T) {
	const text = "▲ 41.8 kN ½ Größe"
	s := NewSVG(100, 100)
	s.Text(5, 5, text, &TextStyle{Size: 4, Colour: ink, Bold: true})
	m := regexp.MustCompile(`font-weight:700;src:url\(data:font/ttf;base64,([^)]*)\)`).FindSubmatch(svgBytes(t, s))
	require.NotNil(t, m)
	file, err := base64.StdEncoding.DecodeString(string(m[1]))
	require.NoError(t, err)
	require.Less(t, len(file), 12*1024) // the letters used, not the font
	font, err := sfnt.Parse(file)
	require.NoError(t, err)
	var buf sfnt.Buffer
	var sum float64
	for _, c := range text {
		id, err := font.GlyphIndex(&buf, c)
		require.NoError(t, err)
		require.NotZero(t, id, "%q", c)
		adv, err := font.GlyphAdvance(&buf, id, fixed.I(1000), 0)
		require.NoError(t, err)
		sum += float64(adv) / 64 / 1000 * 4
	}
	want, _, _ := Measure(text, &TextStyle{Size: 4, Bold: true})
	near(t, want, sum, 1e-9)
}

func TestPNGHasItsResolution(t *testing.T) {
	_, img, err := NewSheetRaster(210, 297, 150)
	require.NoError(t, err)
	require.Equal(t, image.Pt(1241, 1754), img.Rect.Size()) // 210/25.4·150 = 1240.2, 297/25.4·150 = 1753.9
	var out bytes.Buffer
	require.NoError(t, WritePNG(&out, img, 150))
	at := bytes.Index(out.Bytes(), []byte("pHYs"))
	require.Positive(t, at)
	require.EqualValues(t, 5906, be.Uint32(out.Bytes()[at+4:])) // 150/0.0254 = 5905.5
	_, err = png.Decode(&out)
	require.NoError(t, err)
	_, _, err = NewSheetRaster(1e6, 1e6, 300)
	require.Error(t, err)
	require.Error(t, WritePNG(&out, img, 0))
}

func BenchmarkPDF(b *testing.B) {
	b.Run("page", func(b *testing.B) {
		for b.Loop() {
			p := NewPDF(About{})
			p.NewPage(297, 210)
			trialScene(At(p, 0.2, 5, 5), 1400, 900)
			if _, err := p.Bytes(); err != nil {
				b.Fatal(err)
			}
		}
	})
}
