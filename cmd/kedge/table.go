package main

import (
	"strings"
	"unicode/utf8"
)

// gap is the space between two columns.
const gap = "  "

// table lays text out in columns. A column is aligned to the right if its head
// begins with a tab.
type table struct{ rows [][]string }

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// write puts the table out, each row behind the indent, without blanks at the
// ends of rows.
func (t *table) write(b *strings.Builder, indent string) {
	if len(t.rows) == 0 {
		return
	}
	head := t.rows[0]
	right := make([]bool, len(head))
	width := make([]int, len(head))
	for i := range head {
		if text, isRight := strings.CutPrefix(head[i], "\t"); isRight {
			head[i], right[i] = text, true
		}
	}
	for _, row := range t.rows {
		for i, cell := range row {
			width[i] = max(width[i], utf8.RuneCountInString(cell))
		}
	}
	for _, row := range t.rows {
		line := indent
		for i, cell := range row {
			if i > 0 {
				line += gap
			}
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell))
			if right[i] {
				line += pad + cell
			} else {
				line += cell + pad
			}
		}
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}
