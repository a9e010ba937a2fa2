package plan

// FormatName is the value of "format" in every plan file.
const FormatName = "kedge-plan"

// CurrentVersion is the version of the file format this program writes.
const CurrentVersion = 1
