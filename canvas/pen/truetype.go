package pen

import (
	"encoding/binary"
	"errors"
	"fmt"
	"slices"

	"golang.org/x/image/font/sfnt"
)

// This file cuts a TrueType font down to the glyphs wanted and adds others. Layout of the tables: OpenType specification 1.9, chapters "glyf",
// "loca", "cmap" (format 4), "hmtx". Hinting and layout tables are left out:
// text is placed by advances alone and drawn at any angle.

var errFont = errors.New("pen: font file is damaged")

var be = binary.BigEndian

// fontTables splits a TrueType file into its tables.
func fontTables(file []byte) (map[string][]byte, error) {
	if len(file) < 12 {
		return nil, errFont
	}
	n := int(be.Uint16(file[4:]))
	tables := make(map[string][]byte, n)
	for i := range n {
		at := 12 + 16*i
		if at+16 > len(file) {
			return nil, errFont
		}
		from, size := int(be.Uint32(file[at+8:])), int(be.Uint32(file[at+12:]))
		if from < 0 || size < 0 || from+size > len(file) {
			return nil, errFont
		}
		tables[string(file[at:at+4])] = file[from : from+size]
	}
	for _, tag := range []string{"head", "hhea", "hmtx", "maxp", "loca", "glyf", "OS/2", "name"} {
		if len(tables[tag]) == 0 {
			return nil, fmt.Errorf("%w: no table %s", errFont, tag)
		}
	}
	if len(tables["head"]) < 54 || len(tables["hhea"]) < 36 || len(tables["maxp"]) < 32 {
		return nil, errFont
	}
	return tables, nil
}

// rawGlyph is one glyph of the font being built.
type rawGlyph struct {
	data    []byte // of table glyf, without instructions
	advance uint16
	bearing int16
}

// fontCutter copies glyphs out of a font, numbering them anew.
type fontCutter struct {
	loca, glyf, hmtx []byte
	longLoca         bool
	hMetrics         int
	number           map[int]int // source glyph → new glyph
	source           []int       // new glyph → source glyph
}

func newFontCutter(t map[string][]byte) *fontCutter {
	return &fontCutter{
		loca: t["loca"], glyf: t["glyf"], hmtx: t["hmtx"],
		longLoca: be.Uint16(t["head"][50:]) != 0,
		hMetrics: int(be.Uint16(t["hhea"][34:])),
		number:   map[int]int{},
	}
}

func (c *fontCutter) take(gid int) int {
	if n, ok := c.number[gid]; ok {
		return n
	}
	n := len(c.source)
	c.number[gid] = n
	c.source = append(c.source, gid)
	return n
}

func (c *fontCutter) outline(gid int) ([]byte, error) {
	var from, to int
	if c.longLoca {
		if 4*gid+8 > len(c.loca) {
			return nil, errFont
		}
		from, to = int(be.Uint32(c.loca[4*gid:])), int(be.Uint32(c.loca[4*gid+4:]))
	} else {
		if 2*gid+4 > len(c.loca) {
			return nil, errFont
		}
		from, to = 2*int(be.Uint16(c.loca[2*gid:])), 2*int(be.Uint16(c.loca[2*gid+2:]))
	}
	if from > to || to > len(c.glyf) {
		return nil, errFont
	}
	return c.glyf[from:to], nil
}

func (c *fontCutter) metrics(gid int) (advance uint16, bearing int16, err error) {
	m := min(gid, c.hMetrics-1)
	if m < 0 || 4*m+4 > len(c.hmtx) {
		return 0, 0, errFont
	}
	advance, bearing = be.Uint16(c.hmtx[4*m:]), int16(be.Uint16(c.hmtx[4*m+2:]))
	if at := 4*c.hMetrics + 2*(gid-c.hMetrics); gid >= c.hMetrics && at+2 <= len(c.hmtx) {
		bearing = int16(be.Uint16(c.hmtx[at:]))
	}
	return advance, bearing, nil
}

// Flags of composite glyphs.
const (
	argsAreWords = 1 << 0
	hasScale     = 1 << 3
	moreParts    = 1 << 5
	hasXYScale   = 1 << 6
	has2x2       = 1 << 7
	hasHints     = 1 << 8
)

// copyGlyph returns the source glyph without its hinting, its parts renumbered
// (and thereby taken along).
func (c *fontCutter) copyGlyph(gid int) (rawGlyph, error) {
	src, err := c.outline(gid)
	if err != nil {
		return rawGlyph{}, err
	}
	adv, lsb, err := c.metrics(gid)
	if err != nil {
		return rawGlyph{}, err
	}
	g := rawGlyph{advance: adv, bearing: lsb}
	if len(src) == 0 {
		return g, nil
	}
	if len(src) < 12 {
		return g, errFont
	}
	contours := int(int16(be.Uint16(src)))
	if contours >= 0 {
		at := 10 + 2*contours
		if at+2 > len(src) {
			return g, errFont
		}
		skip := int(be.Uint16(src[at:]))
		if at+2+skip > len(src) {
			return g, errFont
		}
		g.data = append(slices.Clone(src[:at]), 0, 0)
		g.data = append(g.data, src[at+2+skip:]...)
		return g, nil
	}
	out := slices.Clone(src)
	for at := 10; ; {
		if at+4 > len(out) {
			return g, errFont
		}
		flags := be.Uint16(out[at:])
		be.PutUint16(out[at:], flags&^hasHints)
		be.PutUint16(out[at+2:], uint16(c.take(int(be.Uint16(out[at+2:])))))
		at += 6
		if flags&argsAreWords != 0 {
			at += 2
		}
		switch {
		case flags&hasScale != 0:
			at += 2
		case flags&hasXYScale != 0:
			at += 4
		case flags&has2x2 != 0:
			at += 8
		}
		if flags&moreParts == 0 {
			if at > len(out) {
				return g, errFont
			}
			g.data = out[:at]
			return g, nil
		}
	}
}

// addedGlyph is a glyph that the font being built has beyond those of its source.
type addedGlyph struct {
	char rune
	rawGlyph
}

// cutFont builds a font with glyph 0 and the glyphs of the given runes (those
// the source lacks are skipped), and others added. Runes beyond
// U+FFFF are skipped.
func cutFont(file []byte, runes []rune, added []addedGlyph) ([]byte, error) {
	src, err := fontTables(file)
	if err != nil {
		return nil, err
	}
	parsed, err := sfnt.Parse(file)
	if err != nil {
		return nil, fmt.Errorf("%w: %w", errFont, err)
	}
	cut := newFontCutter(src)
	cut.take(0)
	runes = slices.Clone(runes)
	slices.Sort(runes)
	var buf sfnt.Buffer
	var chars []charGlyph
	for _, r := range slices.Compact(runes) {
		gid, err := parsed.GlyphIndex(&buf, r)
		if err != nil || gid == 0 || r > 0xFFFF {
			continue
		}
		chars = append(chars, charGlyph{r, cut.take(int(gid))})
	}
	var glyphs []rawGlyph
	for i := 0; i < len(cut.source); i++ { // grows while parts are taken along
		g, err := cut.copyGlyph(cut.source[i])
		if err != nil {
			return nil, err
		}
		glyphs = append(glyphs, g)
	}
	for _, d := range added {
		chars = append(chars, charGlyph{d.char, len(glyphs)})
		glyphs = append(glyphs, d.rawGlyph)
	}
	slices.SortFunc(chars, func(a, b charGlyph) int { return int(a.char - b.char) })
	return assemble(src, glyphs, chars), nil
}

type charGlyph struct {
	char  rune
	glyph int
}

func assemble(src map[string][]byte, glyphs []rawGlyph, chars []charGlyph) []byte {
	var glyf, loca, hmtx []byte
	for _, g := range glyphs {
		loca = be.AppendUint32(loca, uint32(len(glyf)))
		glyf = append(glyf, g.data...)
		for len(glyf)%4 != 0 {
			glyf = append(glyf, 0)
		}
		hmtx = be.AppendUint16(hmtx, g.advance)
		hmtx = be.AppendUint16(hmtx, uint16(g.bearing))
	}
	loca = be.AppendUint32(loca, uint32(len(glyf)))

	head := slices.Clone(src["head"])
	be.PutUint32(head[8:], 0)  // checksum adjustment, set below
	be.PutUint16(head[50:], 1) // long loca
	hhea := slices.Clone(src["hhea"])
	be.PutUint16(hhea[34:], uint16(len(glyphs)))
	maxp := slices.Clone(src["maxp"])
	be.PutUint16(maxp[4:], uint16(len(glyphs)))
	post := make([]byte, 32)
	be.PutUint32(post, 0x00030000) // no glyph names
	copy(post[4:], src["post"][4:min(16, len(src["post"]))])

	return joinTables(map[string][]byte{
		"OS/2": src["OS/2"], "cmap": charMap(chars), "glyf": glyf, "head": head,
		"hhea": hhea, "hmtx": hmtx, "loca": loca, "maxp": maxp, "name": src["name"], "post": post,
	})
}

// charMap is a cmap table of one format 4 subtable (Windows, Unicode BMP).
func charMap(chars []charGlyph) []byte {
	type segment struct{ from, to, delta int }
	var segs []segment
	for _, c := range chars {
		r, delta := int(c.char), c.glyph-int(c.char)
		if n := len(segs); n > 0 && segs[n-1].to == r-1 && segs[n-1].delta == delta {
			segs[n-1].to = r
			continue
		}
		segs = append(segs, segment{r, r, delta})
	}
	segs = append(segs, segment{0xFFFF, 0xFFFF, 1})
	n := len(segs)
	pow, log := 1, 0
	for pow*2 <= n {
		pow, log = pow*2, log+1
	}
	t := be.AppendUint16(nil, 0)           // version
	t = be.AppendUint16(t, 1)              // one subtable
	t = be.AppendUint16(t, 3)              // Windows
	t = be.AppendUint16(t, 1)              // Unicode BMP
	t = be.AppendUint32(t, 12)             // where it starts
	t = be.AppendUint16(t, 4)              // format
	t = be.AppendUint16(t, uint16(16+8*n)) // length
	t = be.AppendUint16(t, 0)              // language
	for _, v := range []int{2 * n, 2 * pow, log, 2*n - 2*pow} {
		t = be.AppendUint16(t, uint16(v))
	}
	for _, s := range segs {
		t = be.AppendUint16(t, uint16(s.to))
	}
	t = be.AppendUint16(t, 0)
	for _, s := range segs {
		t = be.AppendUint16(t, uint16(s.from))
	}
	for _, s := range segs {
		t = be.AppendUint16(t, uint16(s.delta))
	}
	for range segs {
		t = be.AppendUint16(t, 0)
	}
	return t
}

func joinTables(tables map[string][]byte) []byte {
	tags := make([]string, 0, len(tables))
	for tag := range tables {
		tags = append(tags, tag)
	}
	slices.Sort(tags)
	n := len(tags)
	pow, log := 1, 0
	for pow*2 <= n {
		pow, log = pow*2, log+1
	}
	file := be.AppendUint32(nil, 0x00010000)
	for _, v := range []int{n, 16 * pow, log, 16*n - 16*pow} {
		file = be.AppendUint16(file, uint16(v))
	}
	at, headAt := 12+16*n, 0
	for _, tag := range tags {
		if tag == "head" {
			headAt = at
		}
		file = append(file, tag...)
		file = be.AppendUint32(file, tableSum(tables[tag]))
		file = be.AppendUint32(file, uint32(at))
		file = be.AppendUint32(file, uint32(len(tables[tag])))
		at += (len(tables[tag]) + 3) &^ 3
	}
	for _, tag := range tags {
		file = append(file, tables[tag]...)
		for len(file)%4 != 0 {
			file = append(file, 0)
		}
	}
	be.PutUint32(file[headAt+8:], 0xB1B0AFBA-tableSum(file))
	return file
}

// tableSum is the sum of the big-endian words, the last padded with zeros.
func tableSum(t []byte) (sum uint32) {
	for ; len(t) >= 4; t = t[4:] {
		sum += be.Uint32(t)
	}
	var last [4]byte
	copy(last[:], t)
	return sum + be.Uint32(last[:])
}
