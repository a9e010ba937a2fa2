//go:build cgo

package main

import (
	"sync"

	"golang.design/x/clipboard"

	"kedge/canvas/window"
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
			p.err = window.NoPictureClipboard.At("")
		}
	})
	if p.err != nil {
		return p.err
	}
	if clipboard.Write(clipboard.FmtImage, png) == nil {
		return window.PictureNotTaken.At("")
	}
	return nil
}
