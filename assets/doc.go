// Package assets holds the files that are built into the program: handbook
// facts, the starter gear list, fonts, icons, example plans.
//
// It decodes nothing and decides nothing; each kind of file has one reader:
//
//	facts/*.toml, gear.toml   solver/facts
//
// Every fact carries its public source and how sure it is, so that the
// screen, the sheet and the command line can show both beside the figure.
package assets
