package survey

import (
	"bytes"
	"math"
	"slices"
	"strconv"
	"strings"
)

// sampleRows is how many rows are looked at to understand a list.
const sampleRows = 50

// understand finds out how a list is written. What it had to assume is noted.
func (g *gathered) understand(text []byte) (Columns, error) {
	for _, separator := range []rune{'\t', ';', '|', ',', ' '} {
		sample := take(text, separator)
		c := Columns{Separator: separator, Decimal: '.'}
		if !even(sample) {
			continue
		}
		commas, points := signs(sample)
		if separator == ',' {
			commas = 0
		}
		switch {
		case commas > 0 && points > 0:
			return c, bothSigns.At("")
		case commas > 0:
			c.Decimal = ','
		}
		if !slices.ContainsFunc(sample, func(r []string) bool { return numeric(r, c.Decimal) >= 2 }) {
			continue
		}
		return g.assign(c, sample)
	}
	return Columns{}, noColumns.At("")
}

// sampleBytes holds sampleRows of maxColumns.
const sampleBytes = 1 << 20

// beginning is as much of a list as is looked at to understand it, in whole lines.
func beginning(text []byte) []byte {
	if len(text) <= sampleBytes {
		return text
	}
	return text[:bytes.LastIndexByte(text[:sampleBytes], '\n')+1]
}

func take(text []byte, separator rune) [][]string {
	in := newRows(beginning(text), separator)
	var sample [][]string
	for len(sample) < sampleRows {
		cells, _, err := in.next()
		if err != nil {
			break
		}
		sample = append(sample, append([]string{}, cells...))
	}
	return sample
}

// even reports whether at least four rows of five have the same number of cells,
// two or more. The first may be another: it may be the heads.
func even(sample [][]string) bool {
	if len(sample) > 1 {
		sample = sample[1:]
	}
	count := map[int]int{}
	most := 0
	for _, r := range sample {
		count[len(r)]++
		if len(r) >= 2 {
			most = max(most, count[len(r)])
		}
	}
	return most > 0 && most*5 >= len(sample)*4
}

// signs counts the numbers with a decimal comma and those with a point.
func signs(sample [][]string) (commas, points int) {
	for _, r := range sample {
		for _, cell := range r {
			_, asComma := anyNumber(cell, ',')
			_, asPoint := anyNumber(cell, '.')
			switch {
			case asComma && !asPoint:
				commas++
			case asPoint && !asComma:
				points++
			}
		}
	}
	return commas, points
}

func anyNumber(cell string, decimal byte) (float64, bool) {
	if x, ok := plainNumber(cell, decimal); ok {
		return x, true
	}
	if x, ok := degrees(cell, decimal, "NS"); ok {
		return x, true
	}
	return degrees(cell, decimal, "EW")
}

func numeric(row []string, decimal byte) int {
	n := 0
	for _, cell := range row {
		if _, ok := anyNumber(cell, decimal); ok {
			n++
		}
	}
	return n
}

// assign gives the columns their roles, by their heads or, without heads, by
// their contents.
func (g *gathered) assign(c Columns, sample [][]string) (Columns, error) {
	c.Header = numeric(sample[0], c.Decimal) < 2
	if !c.Header {
		return g.assignPlain(c, sample)
	}
	c.Roles = make([]Role, len(sample[0]))
	for i, head := range sample[0] {
		if role, _ := roleOf(head); role != RoleNone && !c.has(role) {
			c.Roles[i] = role
		}
	}
	if c.Separator == ',' && len(sample) > 1 && len(sample[1]) > len(sample[0]) {
		return c, commaForBoth.At("", len(sample[1]), len(sample[0]))
	}
	if c.complete() && !c.globe() {
		g.warnAxes(sample[0][c.at(RoleX)], sample[0][c.at(RoleY)])
	}
	g.warnThousands(c, sample[1:])
	return c, nil
}

// warnAxes: land surveyors of some countries call north x.
func (g *gathered) warnAxes(x, y string) {
	one, _ := roleOf(x)
	if len(strings.TrimSpace(x)) == 1 && strings.EqualFold(strings.TrimSpace(x), "x") && one == RoleX {
		g.note(axes.At("", strings.TrimSpace(x), strings.TrimSpace(y)))
	}
}

// assignPlain: a name, if the first column is no number or counts 1, 2, 3 …
// before three others; then east, north, height.
func (g *gathered) assignPlain(c Columns, sample [][]string) (Columns, error) {
	first := sample[0]
	at := 0
	if _, ok := plainNumber(first[0], c.Decimal); !ok || len(first) >= 4 && counts(sample) {
		c.Roles, at = append(c.Roles, RoleName), 1
	}
	for _, role := range []Role{RoleX, RoleY, RoleZ} {
		if at >= len(first) {
			break
		}
		if _, ok := plainNumber(first[at], c.Decimal); !ok {
			break
		}
		c.Roles, at = append(c.Roles, role), at+1
	}
	if !c.complete() {
		return c, nil
	}
	if c.Separator == ',' && len(first) >= 4 && allWhole(sample) {
		return c, commaMayBoth.At("", len(first))
	}
	if c.has(RoleZ) {
		g.note(takenWithHeight.At(""))
	} else {
		g.note(takenFlat.At(""))
	}
	if looksLikeDegrees(c, sample) {
		g.note(likeDegrees.At(""))
	}
	g.warnThousands(c, sample)
	return c, nil
}

func counts(sample [][]string) bool {
	if len(sample) < 2 {
		return false
	}
	start, err := strconv.Atoi(sample[0][0])
	for i, r := range sample {
		n, e := strconv.Atoi(r[0])
		if err != nil || e != nil || n != start+i {
			return false
		}
	}
	return true
}

func allWhole(sample [][]string) bool {
	for _, r := range sample {
		for _, cell := range r {
			if _, err := strconv.Atoi(cell); err != nil {
				return false
			}
		}
	}
	return true
}

// looksLikeDegrees: within the range of latitude and longitude, with the four
// decimals or more that ten metres take.
func looksLikeDegrees(c Columns, sample [][]string) bool {
	const decimals = 4
	for _, r := range sample {
		for _, i := range []int{c.at(RoleX), c.at(RoleY)} {
			if i >= len(r) {
				return false
			}
			x, ok := plainNumber(r[i], c.Decimal)
			dot := strings.IndexByte(r[i], c.Decimal)
			if !ok || math.Abs(x) > 180 || dot < 0 || len(r[i])-dot-1 < decimals {
				return false
			}
		}
	}
	return true
}

// warnThousands: a single sign before exactly three digits, in every number, may
// be one of thousands. Lists in millimetres look the same, so it is said, not
// refused.
func (g *gathered) warnThousands(c Columns, sample [][]string) {
	if c.Separator == ',' {
		return
	}
	example := ""
	for _, r := range sample {
		for i, role := range c.Roles {
			if role != RoleX && role != RoleY || i >= len(r) {
				continue
			}
			cell := strings.TrimLeft(r[i], "+-")
			dot := strings.IndexByte(cell, c.Decimal)
			if dot < 1 || dot > 3 || cell[0] == '0' || len(cell)-dot-1 != 3 {
				return
			}
			example = cell
		}
	}
	if example != "" {
		whole, part, _ := strings.Cut(example, string(c.Decimal))
		g.note(readAs.At("", example, whole+"."+part, whole+part))
	}
}
