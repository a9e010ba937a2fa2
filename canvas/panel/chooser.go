package panel

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// FileChoice is what is asked of whoever chooses a file.
type FileChoice struct {
	Title, Verb string
	Name        string // typed to begin with
	Folder      string // whose files are listed to begin with
	Lists       func(name string) bool
	Words       FileWords
	Fault       func(error) string // says why a folder cannot be read
	Closed      func()             // it is not shown any more
	Done        func(path string)  // a file was chosen: its full path
}

// FileWords are the words of a [Chooser] that are always the same.
type FileWords struct{ Hint, NameFirst, Cancel, Up string }

// Chooser asks for a file: a name to type, and the folders and files beside it.
type Chooser struct {
	Left  func() // follows if nothing is chosen; nil: nothing
	Name  *Entry
	List  *Pane
	Parts []*Pane

	asked  FileChoice
	host   Host
	on     fyne.Canvas
	pop    *widget.PopUp
	scroll *container.Scroll
	folder string
	fault  string
}

// ChooseFile asks for a file and gives the keys to its name.
func ChooseFile(host Host, on fyne.Canvas, asked FileChoice) *Chooser {
	c := &Chooser{asked: asked, host: host, on: on, folder: asked.Folder}
	c.Name = NewEntry(asked.Words.Hint, c.typed)
	c.Name.SetText(asked.Name)
	c.Name.OnSubmitted = func(string) { c.take() }
	head := NewPane(host, "file-head", false, func() func(*Drawing) {
		folder := c.folder
		return func(d *Drawing) {
			d.Text(d.Px(14), d.Px(18), asked.Title, Bold(d.Big()), d.W-d.Px(28))
			d.Text(d.Px(14), d.Px(40), folder, d.Small(), d.W-d.Px(28))
		}
	})
	c.List = NewPane(host, "file-list", true, c.snapList)
	c.List.Escape = c.leave
	foot := NewPane(host, "file-foot", false, func() func(*Drawing) {
		fault := c.fault
		return func(d *Drawing) {
			x := d.Px(14)
			x += d.Button(x, d.Px(8), "take", asked.Verb, true, c.take, "") + d.Px(10)
			x += d.Button(x, d.Px(8), "cancel", asked.Words.Cancel, false, c.leave, "") + d.Px(10)
			d.Text(x, d.Px(8)+d.ButtonHigh()/2, fault, Bold(Coloured(d.Small(), d.Shades.ZoneRedText)), d.W-x-d.Px(10))
		}
	})
	foot.Escape = c.leave
	c.scroll = container.NewVScroll(c.List)
	c.List.OnTall = c.scroll.Refresh
	c.List.Reveal = func(y0, y1 float32) { c.scroll.ScrollToOffset(fyne.NewPos(0, max(0, y1-c.scroll.Size().Height))) }
	k := float32(host.Style().Text)
	wide, high := min(560*k, on.Size().Width-40), min(460*k, on.Size().Height-60)
	c.pop = widget.NewModalPopUp(container.New(&fileLayout{wide, high, k}, head, c.Name, c.scroll, foot), on)
	c.pop.Show()
	c.Parts = []*Pane{head, c.List, foot}
	for _, p := range c.Parts {
		p.Alone = true
		p.Update()
	}
	on.Focus(c.Name)
	c.Name.TypedShortcut(&fyne.ShortcutSelectAll{})
	return c
}

func (c *Chooser) typed(k fyne.KeyName) bool {
	switch k {
	case fyne.KeyEscape:
		c.leave()
	case fyne.KeyTab, fyne.KeyDown:
		c.on.Focus(c.List)
	default:
		return false
	}
	return true
}

// Close chooses nothing.
func (c *Chooser) Close() {
	c.pop.Hide()
	c.asked.Closed()
	c.host.Refresh()
}

// leave closes it with nothing chosen.
func (c *Chooser) leave() {
	c.Close()
	if c.Left != nil {
		c.Left()
		c.host.Refresh()
	}
}

// take takes the name that was typed: a folder is gone into, a file is taken.
func (c *Chooser) take() {
	name := strings.TrimSpace(c.Name.Text)
	if name == "" {
		c.fault = c.asked.Words.NameFirst
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
	if IsFolder(name) {
		c.Enter(name)
		return
	}
	c.Close()
	c.asked.Done(name)
	c.host.Refresh()
}

// IsFolder reports whether a path is that of a folder.
func IsFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// Enter goes into a folder.
func (c *Chooser) Enter(folder string) {
	c.folder, c.fault = filepath.Clean(folder), ""
	c.Name.SetText("")
	c.scroll.ScrollToTop()
	c.update()
	c.on.Focus(c.Name)
}

func (c *Chooser) update() {
	for _, p := range c.Parts {
		p.Update()
	}
}

// snapList lists the folders and files of the folder.
func (c *Chooser) snapList() func(*Drawing) {
	var folders, files []string
	list, err := os.ReadDir(c.folder)
	fault := ""
	if err != nil {
		fault = c.asked.Fault(err)
	}
	for _, e := range list {
		n := e.Name()
		switch {
		case strings.HasPrefix(n, "."):
		case IsFolder(filepath.Join(c.folder, n)):
			folders = append(folders, n)
		case c.asked.Lists(n):
			files = append(files, n)
		}
	}
	slices.Sort(folders)
	slices.Sort(files)
	return func(d *Drawing) {
		d.Row("..", "▴ "+c.asked.Words.Up, func() { c.Enter(filepath.Dir(c.folder)) })
		for _, f := range files {
			d.Row("file "+f, f, func() {
				if c.Name.Text == f {
					c.take()
					return
				}
				c.Name.SetText(f)
				c.on.Focus(c.Name)
			})
		}
		for _, f := range folders {
			d.Row("folder "+f, "▸ "+f, func() { c.Enter(filepath.Join(c.folder, f)) })
		}
		if fault != "" {
			d.Y = d.Para(d.Px(14), d.Y, d.W-d.Px(28), fault, d.Mid())
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
