// Package sheet makes printed pages of a plan: a booklet of diagrams at a true
// scale, tables of loads, findings, kit lists, step frames, exercises with
// their keys.
//
// # Model
//
// [Make] draws every page once, as recorded marks; PDF, SVG and PNG are the
// same marks on other pens. A page is millimetres, x right, y down, origin at
// the top left corner of the paper. Diagrams are drawn by package draw; what
// stands round them, frame, title block, ruler, tables, here.
//
// Every figure on a page is one of the assessment, printed by package words:
// a sheet rounds as the window and the command line do. Every page says on
// what basis, what it was planned on, and what was not looked at.
//
// # Limits
//
// Letters are never smaller than [TextCap]: what does not fit goes on to
// another page, it does not shrink. Nothing here reads a clock or a file, so
// the same plan and options give the same bytes.
//
//	b, err := sheet.Make(p, sheet.Options{Words: w})
//	if err != nil {
//		return err
//	}
//	file, err := b.PDF()
package sheet
