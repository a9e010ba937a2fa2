package store

import (
	"errors"
	"io/fs"
	"syscall"
)

// Numbers of the Windows system errors, from its table of system error codes.
const (
	writeProtected = syscall.Errno(19)  // ERROR_WRITE_PROTECT
	diskFull       = syscall.Errno(112) // ERROR_DISK_FULL
	badName        = syscall.Errno(123) // ERROR_INVALID_NAME
	handleDiskFull = syscall.Errno(39)  // ERROR_HANDLE_DISK_FULL
)

func isFull(err error) bool {
	return errors.Is(err, diskFull) || errors.Is(err, handleDiskFull) || errors.Is(err, syscall.ENOSPC)
}

func isReadOnly(err error) bool {
	return errors.Is(err, writeProtected) || errors.Is(err, syscall.EROFS)
}

func isFolder(err error) bool { return errors.Is(err, syscall.EISDIR) }

func isNotThere(err error) bool { return errors.Is(err, fs.ErrNotExist) }

func isBadName(err error) bool {
	return errors.Is(err, badName) || errors.Is(err, fs.ErrInvalid)
}

func isLinks(err error) bool { return errors.Is(err, errLinks) }
