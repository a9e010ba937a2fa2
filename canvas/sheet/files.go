package sheet

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"kedge/solver/plan"
)

// File is one file of a booklet.
type File struct {
	Path string
	Data []byte
}

// ErrEnding says that the ending of a name is no format of sheets.
var ErrEnding = errors.New("sheet: ending")

// file is a file that is yet to be drawn.
type file struct {
	path string
	draw func() ([]byte, error)
}

// files are the files that the booklet becomes under a name: what holds
// answers apart, with -KEY behind the name; one file a page in a format that has
// one page; the plans of variants if they were asked for.
func (b *Booklet) files(path string) ([]file, error) {
	ext := filepath.Ext(path)
	stem, ending := strings.TrimSuffix(path, ext), strings.ToLower(ext)
	if ending != ".pdf" && ending != ".svg" && ending != ".png" {
		return nil, badEnding.At("")
	}
	var all []file
	open, key := b.Split()
	for _, part := range [...]struct {
		b    *Booklet
		stem string
	}{{open, stem}, {key, stem + keyMark}} {
		if part.b == nil {
			continue
		}
		if ending == ".pdf" {
			all = append(all, file{part.stem + ext, part.b.PDF})
			continue
		}
		for i := range part.b.Pages {
			name := part.stem + ext
			if len(part.b.Pages) > 1 {
				name = fmt.Sprintf("%s-%d%s", part.stem, i+1, ext)
			}
			draw := func() ([]byte, error) { return part.b.SVG(i) }
			if ending == ".png" {
				draw = func() ([]byte, error) { return part.b.PNG(i, 0) }
			}
			all = append(all, file{name, draw})
		}
	}
	if b.o.Plans {
		for i, p := range b.Variants {
			all = append(all, file{fmt.Sprintf("%s%s-%d.kedge", stem, keyMark, i+1), func() ([]byte, error) { return plan.FormatPlan(p) }})
		}
	}
	return all, nil
}

// keyMark stands behind the name of a file that holds answers.
const keyMark = "-KEY"

// FileNames are the files that [Booklet.Files] makes under a name.
func (b *Booklet) FileNames(path string) ([]string, error) {
	all, err := b.files(path)
	if err != nil {
		return nil, err
	}
	names := make([]string, len(all))
	for i, f := range all {
		names[i] = f.path
	}
	return names, nil
}

// Files is the booklet as files, by the ending of the name PDF, SVG or PNG. It
// stops between two files when ctx is done; progress, if there is one, is told
// how many are done. Nothing is written.
func (b *Booklet) Files(ctx context.Context, path string, progress func(done, total int)) ([]File, error) {
	all, err := b.files(path)
	if err != nil {
		return nil, err
	}
	out := make([]File, len(all))
	for i, f := range all {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if progress != nil {
			progress(i, len(all))
		}
		data, err := f.draw()
		if err != nil {
			return nil, err
		}
		out[i] = File{f.path, data}
	}
	return out, ctx.Err()
}
