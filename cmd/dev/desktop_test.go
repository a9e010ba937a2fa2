package main

import (
	"encoding/xml"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const (
	desktopFolder = "../../assets/desktop"
	fileType      = "application/vnd.kedge.plan+json"
)

func readDesktop(t *testing.T, name string) string {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(desktopFolder, name))
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// What the desktop is told of the program agrees: one file type, one icon, one
// program, one version. The keys are those of the Desktop Entry, Shared MIME-info and
// AppStream specifications of freedesktop.org.
func TestTheDesktopIsToldOneThing(t *testing.T) {
	entry := map[string]string{}
	lines := strings.Split(strings.TrimSpace(readDesktop(t, "kedge-board.desktop")), "\n")
	if lines[0] != "[Desktop Entry]" {
		t.Errorf("first line %q", lines[0])
	}
	for _, line := range lines[1:] {
		key, value, ok := strings.Cut(line, "=")
		if _, twice := entry[key]; !ok || twice || value == "" {
			t.Errorf("line %q", line)
		}
		entry[key] = value
	}
	for key, want := range map[string]string{"Type": "Application", "Exec": "kedge-board %f", "TryExec": "kedge-board", "Icon": "kedge", "Terminal": "false", "MimeType": fileType + ";"} {
		if entry[key] != want {
			t.Errorf("%s=%q, not %q", key, entry[key], want)
		}
	}
	for _, key := range []string{"GenericName", "Comment", "Keywords"} {
		if entry[key] == "" || entry[key+"[de]"] == "" {
			t.Errorf("%s lacks a language", key)
		}
	}

	var mime struct {
		Type struct {
			Name string `xml:"type,attr"`
			Glob struct {
				Pattern string `xml:"pattern,attr"`
			} `xml:"glob"`
			Icon struct {
				Name string `xml:"name,attr"`
			} `xml:"icon"`
		} `xml:"mime-type"`
	}
	if err := xml.Unmarshal([]byte(readDesktop(t, "kedge-plan.xml")), &mime); err != nil {
		t.Fatal(err)
	}
	if mime.Type.Name != fileType || mime.Type.Glob.Pattern != "*.kedge" || mime.Type.Icon.Name != entry["Icon"] {
		t.Errorf("file type %+v", mime.Type)
	}

	var info struct {
		Launch   string   `xml:"launchable"`
		Binaries []string `xml:"provides>binary"`
		Media    string   `xml:"provides>mediatype"`
		Name     string   `xml:"name"`
		Release  []struct {
			Version string `xml:"version,attr"`
		} `xml:"releases>release"`
	}
	if err := xml.Unmarshal([]byte(readDesktop(t, "kedge.metainfo.xml")), &info); err != nil {
		t.Fatal(err)
	}
	if info.Launch != "kedge-board.desktop" || info.Media != fileType || strings.Join(info.Binaries, " ") != "kedge-board kedge" || info.Name != entry["Name"] {
		t.Errorf("description %+v", info)
	}
	build, err := os.ReadFile("../../" + versionFile)
	if err != nil {
		t.Fatal(err)
	}
	version, err := ownVersion(string(build))
	if err != nil || len(info.Release) == 0 || info.Release[0].Version != version {
		t.Errorf("newest release %v, the program says %q (%v)", info.Release, version, err)
	}
}

func TestTheIconIsASquareDrawing(t *testing.T) {
	var icon struct {
		XMLName xml.Name `xml:"http://www.w3.org/2000/svg svg"`
		Box     string   `xml:"viewBox,attr"`
		Width   string   `xml:"width,attr"`
		Height  string   `xml:"height,attr"`
		Shapes  []struct {
			XMLName xml.Name
		} `xml:",any"`
	}
	if err := xml.Unmarshal([]byte(readDesktop(t, "kedge.svg")), &icon); err != nil {
		t.Fatal(err)
	}
	if icon.Box != "0 0 256 256" || icon.Width != icon.Height || len(icon.Shapes) < 3 {
		t.Errorf("icon %+v", icon)
	}
}
