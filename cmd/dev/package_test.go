package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	le "encoding/binary"
	"image"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// maker is a machine with a commit of that time and those changes.
func maker(t *testing.T, changes string) *fake {
	return &fake{t: t, os: "linux", outputs: map[string]string{"git show": "1772411400 0123456789ab\n", "git status": changes},
		files: map[string]string{versionFile: "package report\n\nvar Version = \"1.2.3\"\n"}}
}

func TestAVersionIsReadOrRefused(t *testing.T) {
	r, err := newRelease(maker(t, ""), "")
	require.NoError(t, err)
	require.Equal(t, "1.2.3", r.version)
	require.Equal(t, time.Date(2026, 3, 2, 0, 30, 0, 0, time.UTC), r.made)
	require.Equal(t, "-X kedge/canvas/report.Version=1.2.3 -X main.commit=0123456789ab -X main.committed=2026-03-02T00:30:00", r.names())
	r, err = newRelease(maker(t, " M README.md\n"), "2.0.0-rc1")
	require.NoError(t, err)
	require.Equal(t, "2.0.0-rc1+changed", r.version, "changes that are in no commit are said")
	for _, bad := range []string{"1.2", "v1.2.3", "1.2.3.4", "01.2.3", "1.2.3-", "1.2.3+x", "latest", "1.2.3 ", "../1.2.3"} {
		_, err := newRelease(maker(t, ""), bad)
		require.ErrorIs(t, err, errMisused, bad)
		require.ErrorContains(t, err, "is no version", bad)
	}
	m := maker(t, "")
	m.files = nil
	_, err = newRelease(m, "")
	require.ErrorIs(t, err, errNoVersion)
}

// Where something lacks, or a step fails, nothing half built is left, and what was
// made before stays.
func TestNothingHalfBuiltIsLeft(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.Mkdir(distFolder, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(distFolder, "before"), nil, 0o644))
	lacks := maker(t, "")
	lacks.files["/etc/os-release"], lacks.programs = "ID=debian\n", map[string]bool{"apt-get": true}
	require.ErrorIs(t, packaged(lacks, nil), errLacking)
	require.Contains(t, lacks.text(), "gcc-mingw-w64-x86-64")

	m := maker(t, "")
	m.programs = map[string]bool{"gcc": true, "pkg-config": true, "rsvg-convert": true, "x86_64-w64-mingw32-gcc": true, "x86_64-w64-mingw32-windres": true}
	m.libraries = map[string]bool{}
	for _, name := range windowLibraries {
		m.libraries[name] = true
	}
	m.files["/usr/include/stdio.h"], m.files["/usr/lib/dri/swrast_dri.so"] = "", ""
	for _, file := range []string{"assets/desktop/kedge-board.desktop", "assets/desktop/kedge-plan.xml", "assets/desktop/kedge.metainfo.xml", "assets/desktop/kedge.svg", "README.md"} {
		m.files[file] = "text"
	}
	m.fails = map[string]bool{"rsvg-convert": true}
	require.ErrorContains(t, packaged(m, nil), "no icon of 16 px")

	entries, err := os.ReadDir(".")
	require.NoError(t, err)
	require.Len(t, entries, 1, "the folder it is made in is gone")
	require.FileExists(t, filepath.Join(distFolder, "before"))
}

// The head of the file and its entries as "Icons" of the Win32 documentation gives
// them: type 1, a count, and for each picture its size, length and place.
func TestTheWindowsIconHoldsItsPictures(t *testing.T) {
	var pictures [][]byte
	for _, px := range windowsIconsPx {
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, image.NewGray(image.Rect(0, 0, px, px))))
		pictures = append(pictures, b.Bytes())
		require.Contains(t, iconSizesPx, px)
	}
	file := icoFile(windowsIconsPx, pictures)
	at := le.LittleEndian
	require.Equal(t, []uint16{0, 1, uint16(len(pictures))}, []uint16{at.Uint16(file), at.Uint16(file[2:]), at.Uint16(file[4:])})
	for i, px := range windowsIconsPx {
		entry := file[6+16*i:]
		length, place := at.Uint32(entry[8:]), at.Uint32(entry[12:])
		shown, err := png.DecodeConfig(bytes.NewReader(file[place : place+length]))
		require.NoError(t, err)
		require.Equal(t, px, shown.Width)
		require.Equal(t, uint8(px%256), entry[0])
	}
}

// Two archives of the same files are the same bytes, whenever the files were written;
// programs may be run.
func TestArchivesAreTheSameEachTime(t *testing.T) {
	folder := t.TempDir()
	pieces := []piece{{from: filepath.Join(folder, "kedge"), name: "kedge", runs: true}, {from: filepath.Join(folder, "notes"), name: "licences.txt"}}
	write := func(at time.Time) (tarred, zipped []byte) {
		for _, p := range pieces {
			require.NoError(t, os.WriteFile(p.from, []byte("of "+p.name), 0o600))
			require.NoError(t, os.Chtimes(p.from, at, at))
		}
		r := &release{made: time.Unix(1772411400, 0).UTC()}
		var a, b bytes.Buffer
		require.NoError(t, r.tarball(&a, "kedge-1", pieces))
		require.NoError(t, r.zipped(&b, "kedge-1", pieces))
		return a.Bytes(), b.Bytes()
	}
	tarred, zipped := write(time.Unix(1e9, 0))
	tarredAgain, zippedAgain := write(time.Unix(2e9, 0))
	require.Equal(t, tarred, tarredAgain)
	require.Equal(t, zipped, zippedAgain)

	unpacked, err := gzip.NewReader(bytes.NewReader(tarred))
	require.NoError(t, err)
	archive := tar.NewReader(unpacked)
	for _, p := range pieces {
		head, err := archive.Next()
		require.NoError(t, err)
		require.Equal(t, "kedge-1/"+p.name, head.Name)
		require.Equal(t, int64(1772411400), head.ModTime.Unix())
		require.Equal(t, p.runs, head.FileInfo().Mode()&0o111 != 0, p.name)
		text, err := io.ReadAll(archive)
		require.NoError(t, err)
		require.Equal(t, "of "+p.name, string(text))
	}
	z, err := zip.NewReader(bytes.NewReader(zipped), int64(len(zipped)))
	require.NoError(t, err)
	require.Len(t, z.File, len(pieces))
	require.Equal(t, int64(1772411400), z.File[0].Modified.Unix())
}
