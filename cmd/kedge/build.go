package main

import (
	"runtime/debug"
	"time"
)

// commit and committed are the commit that packages are made of and when it was made,
// in UTC; packaging sets them. Any other build is asked what the compiler noted.
var commit, committed string

// built is the commit that the program was built from, its first twelve digits, and
// when that was made, in UTC; "+" behind the commit if the tree had changes besides.
// Empty where the build did not say, as under go run.
func built() (of, date string) {
	if commit != "" {
		return commit, committed
	}
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
				date = t.UTC().Format("2006-01-02T15:04:05")
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
