package sheet_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"kedge/canvas/sheet"
)

func benchmark(b *testing.B, o sheet.Options) {
	p := example(b, "redirect")
	o.Words = english(b, 0)
	b.ReportAllocs()
	for b.Loop() {
		book, err := sheet.Make(p, o)
		require.NoError(b, err)
		open, key := book.Split()
		for _, part := range []*sheet.Booklet{open, key} {
			if part == nil {
				continue
			}
			_, err = part.PDF()
			require.NoError(b, err)
		}
	}
}

// BenchmarkOneSheet is one A4 page with the drawing: 60 ms.
func BenchmarkOneSheet(b *testing.B) {
	benchmark(b, sheet.Options{Sheets: []sheet.Kind{sheet.Zones}, Landscape: true})
}

// BenchmarkBooklet is a booklet of some twelve pages: 500 ms.
func BenchmarkBooklet(b *testing.B) {
	benchmark(b, sheet.Options{Sheets: []sheet.Kind{sheet.Diagram, sheet.Zones, sheet.Loads, sheet.Range, sheet.Findings, sheet.Kit, sheet.Steps, sheet.Briefing, sheet.Order}})
}

// BenchmarkVariants is 30 variants with their keys: 5 s.
func BenchmarkVariants(b *testing.B) {
	benchmark(b, sheet.Options{Sheets: []sheet.Kind{sheet.Exercise, sheet.Key}, Variants: 30, Seed: 1})
}

func BenchmarkPNG(b *testing.B) {
	book := booklet(b, example(b, "redirect"), sheet.Options{Sheets: []sheet.Kind{sheet.Zones}})
	for b.Loop() {
		_, err := book.PNG(0, 150)
		require.NoError(b, err)
	}
}
