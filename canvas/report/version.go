package report

// Version of the program, printed and written into answers and sealed copies; packaging
// sets it.
var Version = "0.1.0"

// Program names the program, with its version, in answers and sealed copies.
func Program() string { return "kedge " + Version }
