package survey

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/golang/geo/r2"

	"kedge/solver/quantity"
)

// rows reads a list row by row; the slice it gives is reused.
type rows struct {
	csv    *csv.Reader
	blanks []byte // of a list parted by blanks: the lines to come
	line   int
}

func newRows(text []byte, separator rune) *rows {
	if separator == ' ' {
		return &rows{blanks: text}
	}
	r := csv.NewReader(bytes.NewReader(text))
	r.Comma, r.Comment, r.FieldsPerRecord, r.LazyQuotes, r.TrimLeadingSpace, r.ReuseRecord = separator, '#', -1, true, separator != '\t', true
	return &rows{csv: r}
}

// next is the next row that is not blank, with its line in the file; io.EOF at
// the end.
func (r *rows) next() ([]string, int, error) {
	for {
		var cells []string
		if r.csv == nil {
			if len(r.blanks) == 0 {
				return nil, 0, io.EOF
			}
			var line []byte
			line, r.blanks, _ = bytes.Cut(r.blanks, []byte{'\n'})
			r.line++
			if bytes.HasPrefix(line, []byte{'#'}) || len(line) == 0 {
				continue
			}
			cells = strings.Fields(string(line))
		} else {
			var err error
			if cells, err = r.csv.Read(); err != nil {
				return nil, 0, err
			}
			r.line, _ = r.csv.FieldPos(0)
		}
		blank := true
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
			blank = blank && cells[i] == ""
		}
		if !blank {
			return cells, r.line, nil
		}
	}
}

func readCSV(text []byte, o Options) (Result, error) {
	if bytes.IndexByte(text, 0) >= 0 {
		return Result{}, noText.At("")
	}
	if bytes.IndexByte(text, '\r') >= 0 {
		text = bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
		text = bytes.ReplaceAll(text, []byte("\r"), []byte("\n"))
	}
	for line := range bytes.Lines(text) {
		if len(line) > maxColumns && separators(line) > maxColumns { // before any of it is read
			return Result{}, manyColumns.At("", maxColumns)
		}
	}
	var g gathered
	var c Columns
	var err error
	if o.Columns != nil {
		c = *o.Columns
		if !strings.ContainsRune(",;|\t ", c.Separator) || c.Decimal != '.' && c.Decimal != ',' || c.Separator == rune(c.Decimal) {
			return Result{}, badSigns.At("")
		}
	} else if c, err = g.understand(text); err != nil {
		return Result{Preview: preview(text, c)}, err
	}
	p := preview(text, c)
	if !c.complete() {
		if len(p.Heads) == 0 {
			return Result{Preview: p}, columnsOdd.At("")
		}
		return Result{Preview: p}, headsOdd.At("", cleanName(strings.Join(p.Heads, ", ")))
	}
	if err := g.fill(text, c, p); err != nil {
		return Result{Preview: p}, err
	}
	var r Result
	if c.globe() {
		r, err = g.onGlobe(FormatCSV, o)
	} else {
		r, err = g.onGrid()
	}
	r.Preview = p
	return r, err
}

// maxColumns is how many columns, and blanks between them, a line may have: ten
// times what any recorder writes. (ours)
const maxColumns = 1000

// separators counts what may part columns in a line; of blanks in a row, one.
func separators(line []byte) (n int) {
	blank := false
	for _, c := range line {
		switch c {
		case ',', ';', '|', '\t':
			n++
		case ' ':
			if !blank {
				n++
			}
		}
		blank = c == ' '
	}
	return n
}

func preview(text []byte, c Columns) *Preview {
	p := &Preview{Columns: c}
	if c.Separator == 0 {
		c.Separator = ','
	}
	in := newRows(beginning(text), c.Separator)
	for len(p.Rows) < previewRows {
		cells, _, err := in.next()
		if err != nil {
			break
		}
		if c.Header && p.Heads == nil {
			p.Heads = append([]string{}, cells...)
			continue
		}
		p.Rows = append(p.Rows, append([]string{}, cells...))
	}
	return p
}

// toMetres is by what each column is multiplied: the unit its head names.
func (g *gathered) toMetres(c Columns, heads []string) []float64 {
	toM := make([]float64, len(c.Roles))
	for i := range toM {
		toM[i] = 1
		if i >= len(heads) {
			continue
		}
		if _, unit := roleOf(heads[i]); unit != "" && (c.Roles[i] == RoleX || c.Roles[i] == RoleY || c.Roles[i] == RoleZ || c.Roles[i] == RoleDoubt) {
			if f, known := unitM(unit); known {
				toM[i] = f
			} else {
				g.note(unitOdd.At("", cleanName(unit)))
			}
		}
	}
	return toM
}

// fill reads all rows.
func (g *gathered) fill(text []byte, c Columns, p *Preview) error {
	in := newRows(text, c.Separator)
	toM := g.toMetres(c, p.Heads)
	ix, iy, iz, idoubt, iname := c.at(RoleX), c.at(RoleY), c.at(RoleZ), c.at(RoleDoubt), c.at(RoleName)
	if c.globe() {
		ix, iy = c.at(RoleLon), c.at(RoleLat)
	}
	var bad []string
	for first := true; ; first = false {
		cells, line, err := in.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return badLine.At("", in.line+1)
		}
		if first && c.Header {
			continue
		}
		p.Total++
		m, ok := mark{}, ix < len(cells) && iy < len(cells)
		if ok {
			m, ok = c.row(cells, ix, iy, toM)
		}
		length := func(i int, to *quantity.Length) {
			if ok && i >= 0 && i < len(cells) && cells[i] != "" {
				var x float64
				x, ok = plainNumber(cells[i], c.Decimal)
				*to = quantity.Length(x * toM[i])
			}
		}
		length(iz, &m.height)
		length(idoubt, &m.doubt)
		if !ok {
			if p.Left++; len(bad) < 3 {
				bad = append(bad, strconv.Itoa(line))
			}
			continue
		}
		if iname >= 0 && iname < len(cells) {
			m.name = cleanName(strings.Clone(cells[iname])) // the row is cut from one long text
		}
		if err := g.add(m); err != nil {
			return err
		}
	}
	switch {
	case p.Total == 0:
		return noPoint.At("")
	case p.Left*2 > p.Total:
		return badRows.At("", p.Left, p.Total, bad[0])
	case p.Left > 0:
		kind := rowsLeft
		if p.Left > len(bad) {
			kind = manyRowsLeft
		}
		g.note(kind.At("", p.Left, p.Total, strings.Join(bad, ", ")))
	}
	return nil
}

func (c Columns) row(cells []string, ix, iy int, toM []float64) (mark, bool) {
	if c.globe() {
		lat, ok1 := degrees(cells[iy], c.Decimal, "NS")
		lon, ok2 := degrees(cells[ix], c.Decimal, "EW")
		return mark{lat: lat, lon: lon}, ok1 && ok2
	}
	x, ok1 := plainNumber(cells[ix], c.Decimal)
	y, ok2 := plainNumber(cells[iy], c.Decimal)
	return mark{lon: x * toM[ix], lat: y * toM[iy]}, ok1 && ok2
}

const (
	// largeM is the coordinate from which on a list counts as a national grid
	// and is moved: no site is that large.
	largeM = 10_000.0
	// farthestM is above every grid's largest coordinate: northings reach
	// 10 000 km, with the zone in front of the easting 61 000 km.
	farthestM = 1e8
)

// wholeM is a length in whole metres.
func wholeM(lengthM float64) string { return strconv.FormatFloat(lengthM, 'f', 0, 64) }

// onGrid lays plain coordinates: as they are, or moved to their middle, which is
// rounded to a metre so that it can be written down.
func (g *gathered) onGrid() (Result, error) {
	box, origin := r2.EmptyRect(), r2.RectFromPoints(r2.Point{})
	g.each(func(m *mark) bool {
		box = box.AddPoint(r2.Point{X: m.lon, Y: m.lat})
		return true
	})
	if !origin.ExpandedByMargin(farthestM).Contains(box) {
		return Result{}, offGrid.At("")
	}
	east, north := 0.0, 0.0
	if !origin.ExpandedByMargin(largeM).Contains(box) {
		east, north = math.Round(box.Center().X), math.Round(box.Center().Y)
		g.note(takenOff.At("", wholeM(east), wholeM(north)))
	}
	return g.lay(FormatCSV, func(m mark) (float64, float64) { return m.lon - east, m.lat - north })
}
