package main

import "fmt"

// fonts makes the faces that the programs embed of those that they are cut from.
// The maker is among the tests of the pen: nothing else needs it, and a test there
// holds that what is embedded is what it makes.
func fonts(m machine, args []string) error {
	if len(args) != 0 {
		return fmt.Errorf("%w: fonts takes nothing", errMisused)
	}
	return goTest(m, noCgo, "-count=1", "-run=^TestFontsAreMade$", "./canvas/pen", "-update")
}
