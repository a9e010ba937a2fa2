//go:build cgo

package main

import (
	"errors"
	"sync"

	"golang.design/x/clipboard"
)

// pictures is the desktop's clipboard for pictures. It is reached when the
// first one is copied: a window that copies none does not need it.
type pictures struct {
	once sync.Once
	err  error
}

// PutPNG implements window.PictureClipboard.
func (p *pictures) PutPNG(png []byte) error {
	p.once.Do(func() {
		if clipboard.Init() != nil { // it tells how to install things, over many lines
			p.err = errors.New("the desktop's clipboard for pictures is not to be reached (under X11 it needs libX11)")
		}
	})
	if p.err != nil {
		return p.err
	}
	if clipboard.Write(clipboard.FmtImage, png) == nil {
		return errors.New("the desktop did not take the picture")
	}
	return nil
}
