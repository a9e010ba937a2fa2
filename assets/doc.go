// Package assets holds the files that are built into the program: handbook
// facts, the starter gear list, texts, fonts, example plans; and the README's
// picture of the board.
//
// It decodes nothing and decides nothing; each kind of file has one reader:
//
//	facts/*.toml, gear.toml   solver/facts
//	words/*.toml              canvas/words
//	sheet/*.toml              canvas/sheet
//	help/json.md              cmd/kedge
//
// Every fact carries its public source and how sure it is, so that the
// screen, the sheet and the command line can show both beside the figure.
package assets
