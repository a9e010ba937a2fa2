package sheet

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"

	"kedge/assets"
)

// listLine is one line of an editable list.
type listLine struct {
	Text string `toml:"text"`
	Sign *bool  `toml:"sign"` // false: no room for a name
	Goes bool   `toml:"goes"` // it sets about the pull: not of a rig that is not to be pulled
}

// list reads an editable list in the language, in the words of its region, else in
// English.
func (m *maker) list(name string) ([]listLine, error) {
	folder := assets.SheetLists()
	lang, _, _ := strings.Cut(m.w.Lang(), "-")
	data, err := fs.ReadFile(folder, lang+"-"+name+".toml")
	if err != nil {
		if data, err = fs.ReadFile(folder, "en-"+name+".toml"); err != nil {
			return nil, fmt.Errorf("sheet: list %s: %w", name, err)
		}
	}
	lines, err := readList(name, data)
	for i, l := range lines {
		lines[i].Text = m.w.Regional(l.Text)
	}
	return lines, err
}

// fieldList is a list for the field; of a rig that is not to be pulled, without the
// lines that set about it.
func (m *maker) fieldList(name string, goes bool) ([]listLine, error) {
	lines, err := m.list(name)
	if !goes {
		lines = slices.DeleteFunc(lines, func(l listLine) bool { return l.Goes })
	}
	return lines, err
}

func readList(name string, data []byte) ([]listLine, error) {
	var file struct {
		Line []listLine `toml:"line"`
	}
	meta, err := toml.Decode(string(data), &file)
	if err != nil {
		return nil, fmt.Errorf("sheet: list %s: %w", name, err)
	}
	if extra := meta.Undecoded(); len(extra) > 0 {
		return nil, fmt.Errorf("sheet: list %s: unknown key %q", name, extra[0].String())
	}
	for i, l := range file.Line {
		if strings.TrimSpace(l.Text) == "" {
			return nil, fmt.Errorf("sheet: list %s: line %d is empty", name, i+1)
		}
	}
	return file.Line, nil
}
