//go:build unix

package store

import (
	"errors"
	"io/fs"
	"syscall"
)

func isFull(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) || errors.Is(err, syscall.EFBIG)
}

func isReadOnly(err error) bool { return errors.Is(err, syscall.EROFS) }

func isFolder(err error) bool { return errors.Is(err, syscall.EISDIR) }

func isNotThere(err error) bool {
	return errors.Is(err, fs.ErrNotExist) || errors.Is(err, syscall.ENOTDIR)
}

func isBadName(err error) bool {
	return errors.Is(err, syscall.ENAMETOOLONG) || errors.Is(err, fs.ErrInvalid) || errors.Is(err, syscall.EINVAL)
}

func isLinks(err error) bool { return errors.Is(err, syscall.ELOOP) || errors.Is(err, errLinks) }
