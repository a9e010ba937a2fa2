//go:build !windows

package main

// Elsewhere the package tells the desktop of the file type.
var (
	associate  func(board string) error
	dissociate func() error
)
