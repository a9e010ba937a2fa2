package main

import (
	"runtime/debug"
	"time"
)

// version of the program, printed and written into answers; packaging sets it.
var version = "0.1.0"

// built is the commit that the program was built from, its first twelve digits, and
// when that was made, in UTC; "+" behind the commit if the tree had changes besides.
// Empty where the build did not say, as under go run.
func built() (commit, date string) {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "", ""
	}
	return buildOf(info.Settings)
}

func buildOf(settings []debug.BuildSetting) (commit, date string) {
	changed := ""
	for _, s := range settings {
		switch s.Key {
		case "vcs.revision":
			commit = s.Value[:min(12, len(s.Value))]
		case "vcs.time":
			if t, err := time.Parse(time.RFC3339, s.Value); err == nil {
				date = t.UTC().Format(time.DateTime)
			}
		case "vcs.modified":
			if s.Value == "true" {
				changed = "+"
			}
		}
	}
	if commit == "" {
		return "", ""
	}
	return commit + changed, date
}
