//go:build !linux

package store

import (
	"errors"
	"io/fs"
	"os"
	"runtime"
	"syscall"
)

func processMark(int) string { return "" }

func processRuns(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	if runtime.GOOS == "windows" {
		return p.Release() == nil // finding it there means that it runs
	}
	err = p.Signal(syscall.Signal(0))
	return err == nil || errors.Is(err, fs.ErrPermission)
}
