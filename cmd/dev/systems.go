package main

import "strings"

// system is one family of operating systems that dev can install on.
type system struct {
	name string // as the user knows it
	// manager is the program that must be on PATH.
	manager string
	// update and install come before the package names; update may be nil.
	update, install []string
	env             []string
	// asRoot: packages are installed by root. Otherwise the user installs
	// for himself, and is only asked.
	asRoot bool
	// note is said before installing, "" for none.
	note string
}

var (
	debian = system{
		name: "Debian or Ubuntu", manager: "apt-get", asRoot: true,
		update:  []string{"apt-get", "update"},
		install: []string{"apt-get", "install", "-y", "--no-install-recommends"},
		env:     []string{"DEBIAN_FRONTEND=noninteractive"},
	}
	fedora = system{
		name: "Fedora", manager: "dnf", asRoot: true,
		update:  []string{"dnf", "makecache"},
		install: []string{"dnf", "install", "-y"},
	}
	arch = system{
		name: "Arch", manager: "pacman", asRoot: true,
		install: []string{"pacman", "-Syu", "--needed", "--noconfirm"},
		note:    "pacman brings the whole system up to date at the same time: Arch does not support anything less.",
	}
	macOS = system{
		name: "macOS", manager: "brew",
		update:  []string{"brew", "update"},
		install: []string{"brew", "install"},
	}
	windows = system{
		name: "Windows", manager: "winget",
		update:  []string{"winget", "source", "update"},
		install: []string{"winget", "install", "--exact", "--accept-package-agreements", "--accept-source-agreements"},
		note:    "Open a new terminal afterwards: PATH changes only there.",
	}
	// unknown stands for every other system: the needs are named in words.
	unknown = system{name: "this system"}
)

// recognise finds the machine's system. On Linux the name in os-release
// counts, then the families it says it is like, in its order; a family without
// its package manager on PATH is not recognised.
func recognise(m machine) system {
	switch m.OS() {
	case "darwin":
		return macOS
	case "windows":
		return windows
	case "linux":
	default:
		return unknown
	}
	families := map[string]system{
		"debian": debian, "ubuntu": debian,
		"fedora": fedora, "rhel": fedora, "centos": fedora,
		"arch": arch,
	}
	for _, id := range osRelease(m) {
		if s, known := families[id]; known && m.Has(s.manager) {
			return s
		}
	}
	return unknown
}

// osRelease lists ID and then each word of ID_LIKE (os-release(5)).
func osRelease(m machine) []string {
	text, ok := m.ReadFile("/etc/os-release")
	if !ok {
		text, _ = m.ReadFile("/usr/lib/os-release")
	}
	values := map[string]string{}
	for line := range strings.Lines(text) {
		name, value, found := strings.Cut(strings.TrimSpace(line), "=")
		if found {
			values[name] = strings.Trim(value, `"'`)
		}
	}
	return strings.Fields(strings.ToLower(values["ID"] + " " + values["ID_LIKE"]))
}
