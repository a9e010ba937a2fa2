package main

import (
	"archive/tar"
	"archive/zip"
	"compress/gzip"
	"crypto/sha256"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// piece is a file of an archive: where it lies now, its name there, and whether it is
// a program.
type piece struct {
	from, name string
	runs       bool
}

// archives packs programs as people unpack them by hand.
func (r *release) archives() error {
	shared, err := r.shared()
	if err != nil {
		return err
	}
	notices := piece{from: r.in("share", "doc", "kedge", "licences.txt"), name: "licences.txt"}
	for _, t := range commandLines {
		cli := []piece{{from: r.program(t, "kedge"), name: filepath.Base(r.program(t, "kedge")), runs: true}}
		if err := r.pack("kedge-command-line", t, append(cli, notices)); err != nil {
			return err
		}
		if boards[t] == "" {
			continue
		}
		board := r.program(t, "kedge-board")
		all := append(cli, piece{from: board, name: filepath.Base(board), runs: true}, notices)
		if t.system == "linux" {
			all = append(all, shared...)
		}
		if err := r.pack("kedge", t, all); err != nil {
			return err
		}
	}
	return nil
}

// shared are the files beside the programs, as they lie below a prefix.
func (r *release) shared() ([]piece, error) {
	var all []piece
	top := r.in("share")
	err := filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, err := filepath.Rel(top, path)
		all = append(all, piece{from: path, name: "share/" + filepath.ToSlash(name)})
		return err
	})
	return all, err
}

func (r *release) pack(what string, t target, pieces []piece) (err error) {
	folder := what + "-" + r.version
	name := fmt.Sprintf("%s_%s_%s_%s", what, r.version, t.system, t.processor)
	write, ending := r.tarball, ".tar.gz"
	if t.system == "windows" {
		write, ending = r.zipped, ".zip"
	}
	file, err := os.Create(r.out(name + ending))
	if err != nil {
		return err
	}
	defer func() {
		if closed := file.Close(); err == nil {
			err = closed
		}
	}()
	return write(file, folder, pieces)
}

func modeOf(runs bool) fs.FileMode {
	if runs {
		return 0o755
	}
	return 0o644
}

func (r *release) tarball(to io.Writer, folder string, pieces []piece) error {
	z := gzip.NewWriter(to)
	w := tar.NewWriter(z)
	for _, p := range pieces {
		data, err := os.ReadFile(p.from)
		if err != nil {
			return err
		}
		head := &tar.Header{Name: folder + "/" + p.name, Mode: int64(modeOf(p.runs)), Size: int64(len(data)), ModTime: r.made, Format: tar.FormatUSTAR}
		if err := w.WriteHeader(head); err != nil {
			return err
		}
		if _, err := w.Write(data); err != nil {
			return err
		}
	}
	if err := w.Close(); err != nil {
		return err
	}
	return z.Close()
}

func (r *release) zipped(to io.Writer, folder string, pieces []piece) error {
	w := zip.NewWriter(to)
	for _, p := range pieces {
		data, err := os.ReadFile(p.from)
		if err != nil {
			return err
		}
		head := &zip.FileHeader{Name: folder + "/" + p.name, Method: zip.Deflate, Modified: r.made}
		head.SetMode(modeOf(p.runs))
		f, err := w.CreateHeader(head)
		if err != nil {
			return err
		}
		if _, err := f.Write(data); err != nil {
			return err
		}
	}
	return w.Close()
}

// linuxPackages makes the packages that the distributions' own tools install.
func (r *release) linuxPackages() error {
	pieces, err := r.shared()
	if err != nil {
		return err
	}
	t := target{"linux", "amd64"}
	for _, name := range []string{"kedge", "kedge-board"} {
		pieces = append(pieces, piece{from: r.program(t, name), name: "bin/" + name, runs: true})
	}
	recipe := r.in("package.yaml")
	if err := os.WriteFile(recipe, []byte(r.recipe(pieces)), 0o644); err != nil {
		return err
	}
	for _, kind := range []string{"deb", "rpm"} {
		c := cmd("go", "run", nfpm, "package", "--config", recipe, "--packager", kind, "--target", r.out("")).with(r.epoch(), "CGO_ENABLED=0")
		if err := r.m.Run(c); err != nil {
			return fmt.Errorf("no .%s: %w", kind, err)
		}
	}
	return nil
}

// recipe is what nfpm makes a package of. The libraries are those that the board is
// linked with; the rest of the window toolkit is inside it.
func (r *release) recipe(pieces []piece) string {
	var b strings.Builder
	made := r.made.Format(time.RFC3339)
	fmt.Fprintf(&b, `name: kedge
arch: amd64
platform: linux
version: %s
version_schema: semver
section: science
maintainer: The makers of Kedge
description: |
  Drawing board for winch pulls in vehicle recovery
  Vehicles, anchors and lines are drawn to scale; every tension, anchor load
  and danger zone is computed and drawn in place.
mtime: %s
rpm:
  buildhost: kedge
depends: [libc6, libgl1, libx11-6, libxcursor1, libxrandr2, libxinerama1, libxi6, libxxf86vm1]
overrides:
  rpm:
    depends: ["libGL.so.1()(64bit)", "libX11.so.6()(64bit)", "libXcursor.so.1()(64bit)", "libXrandr.so.2()(64bit)", "libXinerama.so.1()(64bit)", "libXi.so.6()(64bit)", "libXxf86vm.so.1()(64bit)"]
contents:
`, r.version, made)
	for _, p := range pieces {
		fmt.Fprintf(&b, "  - {src: %q, dst: %q, file_info: {mode: %#o, mtime: %s}}\n", p.from, "/usr/"+p.name, modeOf(p.runs), made)
	}
	return b.String()
}

// checksums lists what was made, as sha256sum -c reads it.
func (r *release) checksums() error {
	entries, err := os.ReadDir(r.out("")) // sorted by name
	if err != nil {
		return err
	}
	var b strings.Builder
	for _, e := range entries {
		data, err := os.ReadFile(r.out(e.Name()))
		if err != nil {
			return err
		}
		fmt.Fprintf(&b, "%x  %s\n", sha256.Sum256(data), e.Name())
	}
	return os.WriteFile(r.out("SHA256SUMS"), []byte(b.String()), 0o644)
}
