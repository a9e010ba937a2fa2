package window

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"kedge/canvas/store"
)

// chooser asks for a file: a name to type, and the folders and plans beside
// it.
type chooser struct {
	w      *Window
	pop    *widget.PopUp
	name   *nameEntry
	list   *pane
	scroll *container.Scroll
	folder string
	fault  string
	done   func(path string)
	kinds  []string // extensions of the files listed; nil: plans
	parts  []*pane
}

// nameEntry is where the name is typed.
type nameEntry struct {
	widget.Entry
	c *chooser
}

// TypedKey implements fyne.Focusable.
func (e *nameEntry) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyEscape:
		e.c.close()
	case fyne.KeyTab, fyne.KeyDown:
		e.c.w.win.Canvas().Focus(e.c.list)
	default:
		e.Entry.TypedKey(k)
	}
}

// AcceptsTab implements fyne.Tabbable.
func (e *nameEntry) AcceptsTab() bool { return true }

// TypedShortcut implements fyne.Shortcutable: the window's commands wait until
// the file is chosen.
func (e *nameEntry) TypedShortcut(s fyne.Shortcut) {
	if _, own := s.(*desktop.CustomShortcut); !own {
		e.Entry.TypedShortcut(s)
	}
}

// chooseFile asks for a file; done gets its full path.
func (w *Window) chooseFile(title, verb, name string, done func(path string)) {
	c := &chooser{w: w, folder: w.folder(), done: done}
	c.name = &nameEntry{c: c}
	c.name.ExtendBaseWidget(c.name)
	c.name.SetText(name)
	c.name.SetPlaceHolder(w.label("file-name"))
	c.name.OnSubmitted = func(string) { c.take() }
	head := newPane(w.host, "file-head", false, func() func(*ink) {
		folder := c.folder
		return func(k *ink) {
			k.text(k.px(14), k.px(18), title, bold(k.big()), k.w-k.px(28))
			k.text(k.px(14), k.px(40), folder, k.small(), k.w-k.px(28))
		}
	})
	c.list = newPane(w.host, "file-list", true, c.snapList)
	c.list.escape = c.close
	foot := newPane(w.host, "file-foot", false, func() func(*ink) {
		fault := c.fault
		return func(k *ink) {
			x := k.px(14)
			x += k.button(x, k.px(8), "take", verb, true, c.take, "") + k.px(10)
			x += k.button(x, k.px(8), "cancel", w.label("do-cancel"), false, c.close, "") + k.px(10)
			k.text(x, k.px(8)+k.buttonHigh()/2, fault, bold(in(k.small(), k.c.ZoneRedText)), k.w-x-k.px(10))
		}
	})
	foot.escape = c.close
	c.scroll = container.NewVScroll(c.list)
	c.list.onTall = func() { c.scroll.Refresh() }
	c.list.reveal = func(y0, y1 float32) { c.scroll.ScrollToOffset(fyne.NewPos(0, max(0, y1-c.scroll.Size().Height))) }
	k := float32(w.textScale())
	size := w.win.Canvas().Size()
	wide, high := min(560*k, size.Width-40), min(460*k, size.Height-60)
	body := container.New(&fileLayout{wide, high, k}, head, c.name, c.scroll, foot)
	c.pop = widget.NewModalPopUp(body, w.win.Canvas())
	c.pop.Show()
	c.parts = []*pane{head, c.list, foot}
	for _, p := range c.parts {
		p.own = true
		p.update()
	}
	w.choosing = c
	w.win.Canvas().Focus(c.name)
	c.name.TypedShortcut(&fyne.ShortcutSelectAll{})
}

func (c *chooser) close() {
	c.w.choosing = nil
	c.pop.Hide()
	c.w.focusBoard()
	c.w.refresh()
}

// take takes the name that was typed: a folder is gone into, a file is taken.
func (c *chooser) take() {
	name := strings.TrimSpace(c.name.Text)
	if name == "" {
		c.fault = c.w.label("name-first")
		c.update()
		return
	}
	if rest, ok := strings.CutPrefix(name, "~"); ok {
		if home, err := os.UserHomeDir(); err == nil {
			name = home + rest
		}
	}
	if !filepath.IsAbs(name) {
		name = filepath.Join(c.folder, name)
	}
	if isFolder(name) {
		c.enter(name)
		return
	}
	c.close()
	c.done(name)
	c.w.refresh()
}

func (c *chooser) enter(folder string) {
	c.folder, c.fault = filepath.Clean(folder), ""
	c.name.SetText("")
	c.scroll.ScrollToTop()
	c.update()
	c.w.win.Canvas().Focus(c.name)
}

func (c *chooser) update() {
	for _, p := range c.parts {
		p.update()
	}
}

// snapList lists the folders and plans of the folder.
func (c *chooser) snapList() func(*ink) {
	var folders, files []string
	list, err := os.ReadDir(c.folder)
	fault := ""
	if err != nil {
		fault = store.Sentence(err)
	}
	for _, e := range list {
		n := e.Name()
		switch {
		case strings.HasPrefix(n, "."):
		case isFolder(filepath.Join(c.folder, n)):
			folders = append(folders, n)
		case c.lists(n):
			files = append(files, n)
		}
	}
	slices.Sort(folders)
	slices.Sort(files)
	return func(k *ink) {
		row := func(id, name string, press func()) {
			h := k.px(26)
			if k.hover == id {
				k.fill(0, k.y, k.w, h, k.c.Hover)
			}
			k.text(k.px(14), k.y+h/2, name, k.mid(), k.w-k.px(28))
			k.hit(hit{id: id, x0: k.px(4), y0: k.y, x1: k.w - k.px(4), y1: k.y + h, press: press})
			k.y += h
		}
		row("..", "▴ "+c.w.label("folder-up"), func() { c.enter(filepath.Dir(c.folder)) })
		for _, f := range files {
			row("file "+f, f, func() {
				if c.name.Text == f {
					c.take()
					return
				}
				c.name.SetText(f)
				c.w.win.Canvas().Focus(c.name)
			})
		}
		for _, f := range folders {
			row("folder "+f, "▸ "+f, func() { c.enter(filepath.Join(c.folder, f)) })
		}
		if fault != "" {
			k.y = k.para(k.px(14), k.y, k.w-k.px(28), fault, k.mid())
		}
	}
}

// fileLayout puts head, name, list and buttons below one another.
type fileLayout struct{ wide, high, k float32 }

func (l *fileLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(l.wide, l.high) }

func (l *fileLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	head, foot, entry := 54*l.k, 44*l.k, max(32*l.k, o[1].MinSize().Height)
	place := func(i int, y, h, inset float32) {
		o[i].Move(fyne.NewPos(inset, y))
		o[i].Resize(fyne.NewSize(s.Width-2*inset, h))
	}
	place(0, 0, head, 0)
	place(1, head, entry, 12)
	place(2, head+entry+6, s.Height-head-entry-6-foot, 0)
	place(3, s.Height-foot, foot, 0)
}
