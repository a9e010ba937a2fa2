//go:build unix

package store

import (
	"errors"
	"syscall"
)

func isFull(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) || errors.Is(err, syscall.EFBIG)
}

func isReadOnly(err error) bool { return errors.Is(err, syscall.EROFS) }

func isFolder(err error) bool { return errors.Is(err, syscall.EISDIR) }

func isBadName(err error) bool {
	return errors.Is(err, syscall.ENAMETOOLONG) || errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ELOOP)
}
