package main

import "strings"

// need is one thing outside the project that some verb depends on.
type need struct {
	words string // what it is, for a system whose packages have no known names
	why   string
	// here reports whether the machine has it.
	here func(machine) bool
	// packages by system name. A system that is absent has no use for the
	// thing, or brings it along.
	packages map[string][]string
}

// The X11 and OpenGL libraries that the window toolkit links, as pkg-config
// names them (its cgo lines on Linux: -lGL -lX11 -lXrandr -lXxf86vm -lXi
// -lXcursor -lXinerama).
var windowLibraries = []string{"gl", "x11", "xcursor", "xrandr", "xinerama", "xi", "xxf86vm"}

// buildNeeds are what building and opening the board takes.
var buildNeeds = []need{
	{
		words: "a C compiler (gcc or clang) with the C library's headers",
		why:   "the window toolkit has parts in C",
		here:  hasCompiler,
		packages: map[string][]string{
			debian.name:  {"gcc", "libc6-dev"},
			fedora.name:  {"gcc", "glibc-devel"},
			arch.name:    {"gcc"},
			macOS.name:   {"the command line tools: xcode-select --install"},
			windows.name: {"BrechtSanders.WinLibs.POSIX.UCRT"},
		},
	},
	{
		words: "pkg-config",
		why:   "the build finds OpenGL through it",
		here:  func(m machine) bool { return m.Has("pkg-config") },
		packages: map[string][]string{
			debian.name: {"pkg-config"},
			fedora.name: {"pkgconf-pkg-config"},
			arch.name:   {"pkgconf"},
		},
	},
	{
		words: "headers of OpenGL and X11 (" + strings.Join(windowLibraries, ", ") + ")",
		why:   "the window is drawn through them",
		here: func(m machine) bool {
			return m.Try(cmd(append([]string{"pkg-config", "--exists"}, windowLibraries...)...))
		},
		packages: map[string][]string{
			debian.name: {"libgl1-mesa-dev", "xorg-dev"},
			fedora.name: {"mesa-libGL-devel", "libX11-devel", "libXcursor-devel", "libXrandr-devel",
				"libXinerama-devel", "libXi-devel", "libXxf86vm-devel"},
			arch.name: {"libglvnd", "xorgproto", "libx11", "libxcursor", "libxrandr", "libxinerama", "libxi", "libxxf86vm"},
		},
	},
	{
		words: "an OpenGL driver (Mesa's software driver does)",
		why:   "without one no window opens",
		here:  hasDriver,
		packages: map[string][]string{
			debian.name: {"libgl1-mesa-dri"},
			fedora.name: {"mesa-dri-drivers"},
			arch.name:   {"mesa"},
		},
	},
}

// screenNeeds are what a window on a virtual display takes besides.
var screenNeeds = []need{
	program("Xvfb", "a virtual display", "xvfb", "xorg-x11-server-Xvfb", "xorg-server-xvfb"),
	program("xauth", "the virtual display's keys", "xauth", "xorg-x11-xauth", "xorg-xauth"),
	program("xdotool", "moves the pointer and types in the window's test", "xdotool", "xdotool", "xdotool"),
	program("import", "takes pictures of the window", "imagemagick", "ImageMagick", "imagemagick"),
}

// sheetNeeds read a finished PDF back.
var sheetNeeds = []need{{
	words: "pdftoppm and pdftotext (Poppler's programs)",
	why:   "the printed sheets are read back",
	here:  func(m machine) bool { return m.Has("pdftoppm") && m.Has("pdftotext") },
	packages: map[string][]string{
		debian.name:  {"poppler-utils"},
		fedora.name:  {"poppler-utils"},
		arch.name:    {"poppler"},
		macOS.name:   {"poppler"},
		windows.name: {"oschwartz10612.Poppler"},
	},
}}

// program is a need for one program on PATH, with its package on the systems
// that have X11.
func program(name, why, onDebian, onFedora, onArch string) need {
	return need{
		words:    name,
		why:      why,
		here:     func(m machine) bool { return m.Has(name) },
		packages: map[string][]string{debian.name: {onDebian}, fedora.name: {onFedora}, arch.name: {onArch}},
	}
}

// runNeeds and testNeeds are the tables of the verbs; look needs what the
// tests need. Pictures of a window are taken under X11 only.
func runNeeds() []need { return buildNeeds }

func testNeeds() []need {
	all := append([]need(nil), buildNeeds...)
	all = append(all, screenNeeds...)
	return append(all, sheetNeeds...)
}

// lacking lists what of needs the machine does not have and has a use for.
func lacking(m machine, s system, needs []need) []need {
	var missing []need
	for _, n := range needs {
		if _, applies := n.packages[s.name]; !applies && s.name != unknown.name {
			continue
		}
		if !n.here(m) {
			missing = append(missing, n)
		}
	}
	return missing
}

func packagesOf(s system, needs []need) []string {
	var names []string
	for _, n := range needs {
		names = append(names, n.packages[s.name]...)
	}
	return names
}

// hasCompiler lets the compiler that Go will call read a header of the C
// library: a compiler alone does not do.
func hasCompiler(m machine) bool {
	// On macOS clang is always on PATH; without the tools it only asks for them.
	if m.OS() == "darwin" && !m.Try(cmd("xcode-select", "-p")) {
		return false
	}
	cc := strings.Fields(m.Getenv("CC"))
	if len(cc) == 0 {
		cc = []string{"gcc"}
		if m.OS() == "darwin" {
			cc = []string{"clang"}
		}
	}
	null := "/dev/null"
	if m.OS() == "windows" {
		null = "NUL"
	}
	return m.Has(cc[0]) && m.Try(cmd(append(cc, "-E", "-include", "stdio.h", "-x", "c", null)...))
}

// hasDriver looks where the distributions put Mesa's drivers: one file each,
// or since Mesa 24.3 one library for all.
func hasDriver(m machine) bool {
	for _, folder := range []string{"/usr/lib", "/usr/lib64", "/usr/lib/*-linux-gnu*", "/run/opengl-driver/lib"} {
		if m.Matches(folder+"/dri/*_dri.so") || m.Matches(folder+"/libgallium-*.so") {
			return true
		}
	}
	return false
}
