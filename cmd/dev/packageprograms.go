package main

import (
	"bytes"
	le "encoding/binary"
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// target is a system and processor that a program is built for.
type target struct{ system, processor string }

// commandLines are what the command line is built for; boards what the board is,
// with the C compiler of each.
var (
	commandLines = []target{{"linux", "amd64"}, {"linux", "arm64"}, {"windows", "amd64"}, {"windows", "arm64"}, {"darwin", "amd64"}, {"darwin", "arm64"}}
	boards       = map[target]string{{"linux", "amd64"}: "gcc", {"windows", "amd64"}: "x86_64-w64-mingw32-gcc"}
)

// program is the file of a built program.
func (r *release) program(t target, name string) string {
	if t.system == "windows" {
		name += ".exe"
	}
	return r.in("programs", t.system+"_"+t.processor, name)
}

// programs builds all of them: without paths of this machine, without tables for
// debuggers, stamped with the commit.
func (r *release) programs() error {
	resource, err := r.windowsIcon()
	if err != nil {
		return err
	}
	for _, t := range commandLines {
		if err := r.build(t, "kedge", "", "CGO_ENABLED=0"); err != nil {
			return err
		}
	}
	for _, t := range commandLines {
		compiler, ok := boards[t]
		if !ok {
			continue
		}
		link := ""
		if t.system == "windows" {
			link = " -H windowsgui -extldflags=" + resource
		}
		r.m.Say("The board for " + t.system + " ... " + longBuild)
		if err := r.build(t, "kedge-board", link, "CGO_ENABLED=1", "CC="+compiler); err != nil {
			return err
		}
	}
	return nil
}

func (r *release) build(t target, name, link string, env ...string) error {
	file := r.program(t, name)
	c := cmd("go", "build", "-trimpath", "-buildvcs=false", "-ldflags", "-s -w -buildid= "+r.names()+link, "-o", file, "./cmd/"+name)
	if err := r.m.Run(c.with(append(env, "GOOS="+t.system, "GOARCH="+t.processor)...)); err != nil {
		return fmt.Errorf("%s for %s on %s was not built: %w", name, t.system, t.processor, err)
	}
	return nil
}

// windowsIcon makes the resource with the icon that the linker puts into the board for
// Windows, and gives its file.
func (r *release) windowsIcon() (string, error) {
	var pictures [][]byte
	for _, px := range windowsIconsPx {
		data, err := os.ReadFile(r.icon(px))
		if err != nil {
			return "", err
		}
		pictures = append(pictures, data)
	}
	if err := os.WriteFile(r.in("kedge.ico"), icoFile(windowsIconsPx, pictures), 0o644); err != nil {
		return "", err
	}
	script := r.in("kedge.rc")
	if err := os.WriteFile(script, []byte("1 ICON \"kedge.ico\"\n"), 0o644); err != nil {
		return "", err
	}
	object, err := filepath.Abs(r.in("icon.o"))
	if err != nil {
		return "", err
	}
	if strings.ContainsAny(object, " '\"") {
		return "", fmt.Errorf("the project's folder has a blank or a quote in its path, which the linker for Windows does not take: %s", object)
	}
	if err := r.m.Run(cmd("x86_64-w64-mingw32-windres", "-I", r.room, "-i", script, "-o", object)); err != nil {
		return "", fmt.Errorf("no icon for Windows: %w", err)
	}
	return object, nil
}

// icoFile is a file of icons for Windows: a head, an entry of 16 bytes a picture, then
// the pictures as PNG, which it has taken since Vista ("Icons", Win32 documentation).
func icoFile(sizesPx []int, pictures [][]byte) []byte {
	var head, body bytes.Buffer
	put := func(values ...any) {
		for _, v := range values {
			_ = le.Write(&head, le.LittleEndian, v) // a buffer takes all
		}
	}
	put(uint16(0), uint16(1), uint16(len(pictures)))
	for i, p := range pictures {
		side := uint8(sizesPx[i]) // 256 is written as 0
		put(side, side, uint8(0), uint8(0), uint16(1), uint16(32), uint32(len(p)), uint32(6+16*len(pictures)+body.Len()))
		body.Write(p)
	}
	return append(head.Bytes(), body.Bytes()...)
}
