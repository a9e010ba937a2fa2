package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"
)

const (
	distFolder  = "dist"                     // what package makes; git ignores it
	versionFile = "canvas/report/version.go" // where the program's own version stands
	// nfpm makes the packages of Linux (MIT licence). It is fetched when it is wanted:
	// its own needs are many, and none of them is to stand in go.mod.
	nfpm = "github.com/goreleaser/nfpm/v2/cmd/nfpm@v2.45.2"
)

// packageNeeds are what package takes beside a build of the board.
var packageNeeds = append(append([]need(nil), buildNeeds...),
	need{
		words: "a C compiler for Windows (x86_64-w64-mingw32-gcc, with its windres)",
		why:   "the board for Windows has parts in C",
		here: func(m machine) bool {
			return m.Has("x86_64-w64-mingw32-gcc") && m.Has("x86_64-w64-mingw32-windres")
		},
		packages: map[string][]string{debian.name: {"gcc-mingw-w64-x86-64", "binutils-mingw-w64-x86-64"}, fedora.name: {"mingw64-gcc"}, arch.name: {"mingw-w64-gcc"}},
	},
	program("rsvg-convert", "draws the icon in its sizes", "librsvg2-bin", "librsvg2-tools", "librsvg"),
)

// release is one run of package: what it is made of and where it is made.
type release struct {
	m       machine
	version string
	commit  string
	made    time.Time // when the commit was made: every file's time
	room    string    // temporary folder, inside the project's
}

// out is where finished files wait until all are there.
func (r *release) out(name string) string { return filepath.Join(r.room, "out", name) }

func (r *release) in(name ...string) string {
	return filepath.Join(append([]string{r.room}, name...)...)
}

// packaged builds what people install, into dist/: the same bytes for the same commit and
// the same compilers. What was in dist/ stays until all of it is made.
func packaged(m machine, args []string) error {
	flags := flag.NewFlagSet("package", flag.ContinueOnError)
	yes := flags.Bool("y", false, "")
	asked := ""
	if len(args) > 0 && !strings.HasPrefix(args[len(args)-1], "-") {
		asked, args = args[len(args)-1], args[:len(args)-1]
	}
	if err := parse(flags, args); err != nil {
		return err
	}
	r, err := newRelease(m, asked)
	if err != nil {
		return err
	}
	if m.OS() != "linux" {
		return fmt.Errorf("packages are made on Linux: Debian's compilers build the board for Windows too")
	}
	if err := provide(m, packageNeeds, *yes); err != nil {
		return err
	}
	if r.room, err = os.MkdirTemp(".", ".package-"); err != nil {
		return err
	}
	defer os.RemoveAll(r.room)
	if err := os.Mkdir(r.out(""), 0o755); err != nil {
		return err
	}
	m.Say("Kedge " + r.version + ", of " + r.made.Format(time.DateTime) + " UTC")
	for _, step := range []func() error{r.beside, r.programs, r.archives, r.linuxPackages, r.checksums} {
		if err := step(); err != nil {
			return err
		}
	}
	if err := os.RemoveAll(distFolder); err != nil {
		return err
	}
	if err := os.Rename(r.out(""), distFolder); err != nil {
		return err
	}
	m.Say("In " + distFolder + "/.")
	return nil
}

// newRelease asks git what is built. Changes that are in no commit are said in the
// version, which is then of no commit alone.
func newRelease(m machine, asked string) (*release, error) {
	version := asked
	if version == "" {
		text, _ := m.ReadFile(versionFile)
		var err error
		if version, err = ownVersion(text); err != nil {
			return nil, err
		}
	}
	if !isVersion.MatchString(version) {
		return nil, fmt.Errorf("%w: %q is no version: three numbers with dots, such as 1.2.0, or 1.2.0-rc1 before a release", errMisused, version)
	}
	stamp, err := m.Output(cmd("git", "show", "-s", "--format=%ct %h", "--abbrev=12"))
	if err != nil {
		return nil, fmt.Errorf("git knows no commit here; packages are made of one: %w", err)
	}
	when, commit, _ := strings.Cut(strings.TrimSpace(stamp), " ")
	seconds, err := strconv.ParseInt(when, 10, 64)
	if err != nil {
		return nil, fmt.Errorf("git gives no time of the commit: %w", err)
	}
	changes, err := m.Output(cmd("git", "status", "--porcelain"))
	if err != nil {
		return nil, err
	}
	if strings.TrimSpace(changes) != "" {
		m.Say("Some files differ from the commit: the version ends with +changed.")
		version += "+changed"
	}
	return &release{m: m, version: version, commit: commit, made: time.Unix(seconds, 0).UTC()}, nil
}

var (
	isVersion  = regexp.MustCompile(`^(0|[1-9]\d{0,5})\.(0|[1-9]\d{0,5})\.(0|[1-9]\d{0,5})(-[0-9A-Za-z]+(\.[0-9A-Za-z]+)*)?$`)
	versionSet = regexp.MustCompile(`(?m)^var Version = "([^"]*)"$`)
)

var errNoVersion = errors.New(versionFile + " says no version")

// ownVersion is the version that the program's source says.
func ownVersion(source string) (string, error) {
	found := versionSet.FindStringSubmatch(source)
	if found == nil {
		return "", errNoVersion
	}
	return found[1], nil
}

// iconSizesPx are the sizes in which desktops of Linux look for an icon; those of
// Windows are among them.
var (
	iconSizesPx    = []int{16, 24, 32, 48, 64, 128, 256, 512}
	windowsIconsPx = []int{16, 32, 48, 256}
)

// beside makes what lies beside the programs: manual pages, completions, icons, what
// the desktop is told, notices.
func (r *release) beside() error {
	share := r.in("share")
	if err := r.m.Run(cmd("go", "run", "-buildvcs=false", "-ldflags", r.names(), "./cmd/kedge", "extras", share).with("CGO_ENABLED=0", r.epoch())); err != nil {
		return fmt.Errorf("no manual pages: %w", err)
	}
	files := map[string]string{}
	for from, to := range map[string]string{
		"assets/desktop/kedge-board.desktop": "applications/kedge-board.desktop",
		"assets/desktop/kedge-plan.xml":      "mime/packages/kedge-plan.xml",
		"assets/desktop/kedge.metainfo.xml":  "metainfo/org.kedge.board.metainfo.xml",
		"assets/desktop/kedge.svg":           "icons/hicolor/scalable/apps/kedge.svg",
		"README.md":                          "doc/kedge/README.md",
	} {
		text, ok := r.m.ReadFile(from)
		if !ok {
			return fmt.Errorf("%s is not there", from)
		}
		files[to] = text
	}
	for name, text := range files {
		path := filepath.Join(share, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			return err
		}
	}
	for _, px := range iconSizesPx {
		path := r.icon(px)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		size := strconv.Itoa(px)
		if err := r.m.Run(cmd("rsvg-convert", "-w", size, "-h", size, "-o", path, "assets/desktop/kedge.svg")); err != nil {
			return fmt.Errorf("no icon of %d px: %w", px, err)
		}
	}
	return nil
}

// icon is the file of the icon in one size.
func (r *release) icon(px int) string {
	return r.in("share", "icons", "hicolor", fmt.Sprintf("%dx%d", px, px), "apps", "kedge.png")
}

// names are what the linker writes into the programs: version, commit, its time.
func (r *release) names() string {
	return fmt.Sprintf("-X kedge/canvas/report.Version=%s -X main.commit=%s -X main.committed=%s", r.version, r.commit, r.made.Format("2006-01-02T15:04:05"))
}

// epoch tells tools which time to write into what they make.
func (r *release) epoch() string { return fmt.Sprintf("SOURCE_DATE_EPOCH=%d", r.made.Unix()) }
