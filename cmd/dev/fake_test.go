package main

import (
	"errors"
	"maps"
	"path"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// fake is a made-up machine. What it has is in plain maps; installing a
// package through a known package manager makes the things in brings appear.
type fake struct {
	t         *testing.T
	os        string
	root      bool
	env       map[string]string
	programs  map[string]bool
	files     map[string]string
	libraries map[string]bool // what pkg-config knows
	brings    map[string]func(*fake)
	fails     map[string]bool // commands, by their printed form's start
	outputs   map[string]string
	answer    bool

	asked []string
	said  []string
	ran   []string
}

var errStatus = errors.New("exit status 1")

func (f *fake) OS() string                { return f.os }
func (f *fake) Root() bool                { return f.root }
func (f *fake) Getenv(name string) string { return f.env[name] }
func (f *fake) Has(program string) bool   { return f.programs[program] }
func (f *fake) Say(line string)           { f.said = append(f.said, line) }

func (f *fake) Ask(question string) bool {
	f.asked = append(f.asked, question)
	return f.answer
}

func (f *fake) Matches(pattern string) bool {
	for name := range f.files {
		if ok, err := path.Match(pattern, name); err == nil && ok {
			return true
		}
	}
	return false
}

func (f *fake) ReadFile(name string) (string, bool) {
	text, ok := f.files[name]
	return text, ok
}

func (f *fake) Try(c command) bool {
	switch {
	case c.words[0] == "pkg-config":
		return f.programs["pkg-config"] && !slices.ContainsFunc(c.words[2:], func(l string) bool { return !f.libraries[l] })
	case slices.Equal(c.words, []string{"xcode-select", "-p"}):
		return f.programs["xcode tools"]
	case slices.Contains(c.words, "stdio.h"): // as installed there, or brought along by the compiler
		return f.Matches("/usr/include/stdio.h") || f.os != "linux"
	}
	f.t.Fatalf("unexpected probe: %s", c)
	return false
}

func (f *fake) Output(c command) (string, error) {
	for start, text := range f.outputs {
		if strings.Contains(c.String(), start) {
			return text, nil
		}
	}
	return "", nil
}

func (f *fake) Quietly(c command) (string, error) { return "", f.failing(c) }

func (f *fake) failing(c command) error {
	for start := range f.fails {
		if strings.Contains(c.String(), start) {
			return errStatus
		}
	}
	return nil
}

func (f *fake) Run(c command) error {
	f.ran = append(f.ran, c.String())
	if err := f.failing(c); err != nil {
		return err
	}
	for _, w := range c.words {
		if bring := f.brings[w]; bring != nil {
			bring(f)
		}
	}
	return nil
}

func (f *fake) Tee(c command) (string, error) {
	said, _ := f.Output(c)
	return said, f.Run(c)
}

func (f *fake) text() string { return strings.Join(f.said, "\n") }

// bare is a machine with Go and its package manager alone.
func bare(t *testing.T, os string, release string, programs ...string) *fake {
	f := &fake{t: t, os: os, env: map[string]string{}, programs: map[string]bool{},
		files: map[string]string{"go.mod": "module kedge"}, libraries: map[string]bool{},
		brings: map[string]func(*fake){}, fails: map[string]bool{}, outputs: map[string]string{}}
	if release != "" {
		f.files["/etc/os-release"] = release
	}
	for _, p := range programs {
		f.programs[p] = true
	}
	return f
}

// bringing makes the packages of every system bring what they are wanted for.
func (f *fake) bringing() *fake {
	programs := func(names ...string) func(*fake) {
		return func(f *fake) {
			for _, n := range names {
				f.programs[n] = true
			}
		}
	}
	file := func(name string) func(*fake) { return func(f *fake) { f.files[name] = "" } }
	libs := func(names ...string) func(*fake) {
		return func(f *fake) {
			for _, n := range names {
				f.libraries[n] = true
			}
		}
	}
	maps.Copy(f.brings, map[string]func(*fake){
		// Debian
		"gcc": programs("gcc"), "libc6-dev": file("/usr/include/stdio.h"), "pkg-config": programs("pkg-config"),
		"libgl1-mesa-dev": libs("gl"), "xorg-dev": libs("x11", "xcursor", "xrandr", "xinerama", "xi", "xxf86vm"),
		"libgl1-mesa-dri": file("/usr/lib/x86_64-linux-gnu/dri/swrast_dri.so"),
		"xvfb":            programs("Xvfb"), "xauth": programs("xauth"), "xdotool": programs("xdotool"),
		"imagemagick": programs("import"), "poppler-utils": programs("pdftoppm", "pdftotext"),
		// Fedora
		"glibc-devel": file("/usr/include/stdio.h"), "pkgconf-pkg-config": programs("pkg-config"),
		"mesa-libGL-devel": libs("gl"), "libX11-devel": libs("x11"), "libXcursor-devel": libs("xcursor"),
		"libXrandr-devel": libs("xrandr"), "libXinerama-devel": libs("xinerama"), "libXi-devel": libs("xi"),
		"libXxf86vm-devel": libs("xxf86vm"), "mesa-dri-drivers": file("/usr/lib64/dri/swrast_dri.so"),
		"xorg-x11-server-Xvfb": programs("Xvfb"), "xorg-x11-xauth": programs("xauth"), "ImageMagick": programs("import"),
		// Arch
		"pkgconf": programs("pkg-config"), "libglvnd": libs("gl"), "libx11": libs("x11"), "libxcursor": libs("xcursor"),
		"libxrandr": libs("xrandr"), "libxinerama": libs("xinerama"), "libxi": libs("xi"), "libxxf86vm": libs("xxf86vm"),
		"mesa": file("/usr/lib/libgallium-25.1.0.so"), "xorg-server-xvfb": programs("Xvfb"), "xorg-xauth": programs("xauth"),
		"poppler": programs("pdftoppm", "pdftotext"),
		// Windows
		"BrechtSanders.WinLibs.POSIX.UCRT": programs("gcc"), "oschwartz10612.Poppler": programs("pdftoppm", "pdftotext"),
	})
	return f
}

// The first lines of each system's own file; os-release(5) gives the form.
const (
	onDebian = "PRETTY_NAME=\"Debian GNU/Linux 12 (bookworm)\"\nID=debian\n"
	onUbuntu = "ID=ubuntu\nID_LIKE=debian\n"
	onMint   = "ID=linuxmint\nID_LIKE=\"ubuntu debian\"\n"
	onFedora = "NAME=\"Fedora Linux\"\nID=fedora\n"
	onRocky  = "ID=\"rocky\"\nID_LIKE=\"rhel centos fedora\"\n"
	onArch   = "ID=arch\n"
	onVoid   = "ID=\"void\"\n"
)

func TestFakeGlobMatchesLikeTheHost(t *testing.T) {
	f := bare(t, "linux", onDebian)
	f.files["cmd/kedge/main.go"] = ""
	require.True(t, f.Matches("cmd/kedge/*.go"))
	require.False(t, f.Matches("cmd/kedge-board/*.go"))
}
