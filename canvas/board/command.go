package board

import (
	"slices"
	"strings"
)

// Entry is a command as a menu shows it.
type Entry struct {
	ID       string
	Label    string
	Enabled  bool
	Why      string // why it is not enabled; empty if it is
	Shortcut string // as shown, "Ctrl+Z"; empty: none
}

// command is what the board can be told to do.
type command struct {
	id       string
	label    string            // id of its text
	shortcut string            // "Ctrl+Z"
	why      func(*Board) bool // true: it can be done; nil: always
	whyNot   string            // id of the text if not
	do       func(*Board)
}

// commands lists what the board can be told to do, in the order of the menus.
func commands() []command {
	some := func(b *Board) bool { return len(b.selection) > 0 }
	selected := func(n int) func(*Board) bool {
		return func(b *Board) bool { return len(movable(b.scene, b.selection)) >= n }
	}
	rig := func(b *Board) bool { return b.at().Rig != nil }
	list := []command{
		{"undo", "do-undo", "Ctrl+Z", func(b *Board) bool { return len(b.undo) > 0 }, "nothing-to-undo", (*Board).Undo},
		{"redo", "do-redo", "Ctrl+Shift+Z", func(b *Board) bool { return len(b.redo) > 0 }, "nothing-to-redo", (*Board).Redo},
		{"cut", "do-cut", "Ctrl+X", some, "nothing-selected", (*Board).cut},
		{"copy", "do-copy", "Ctrl+C", some, "nothing-selected", (*Board).copy},
		{"paste", "do-paste", "Ctrl+V", func(b *Board) bool { return b.clip != nil }, "nothing-copied", (*Board).paste},
		{"duplicate", "do-duplicate", "Ctrl+D", some, "nothing-selected", (*Board).duplicate},
		{"delete", "do-delete", "Delete", some, "nothing-selected", func(b *Board) {
			if !b.deleteWay() && !b.keepsWhole() {
				b.commit(deleting(b.scene, b.selection))
			}
		}},
		{"select-all", "do-select-all", "Ctrl+A", nil, "", func(b *Board) { b.selectAll(nil) }},
		{"select-kind", "do-select-kind", "Ctrl+Shift+A", some, "nothing-selected", (*Board).selectKind},
		{"lock", "do-lock", "Ctrl+L", some, "nothing-selected", func(b *Board) { b.commit(marked(b.scene, "lock")) }},
		{"hide", "do-hide", "Ctrl+H", some, "nothing-selected", func(b *Board) { b.commit(marked(b.scene, "hide")) }},
		{"show-all", "do-show-all", "Ctrl+Shift+H", func(b *Board) bool { return len(b.Hidden()) > 0 }, "nothing-hidden", func(b *Board) { b.commit(b.showAll()) }},
		{"align-west", "do-align-west", "Ctrl+Shift+ArrowLeft", selected(2), "needs-two", func(b *Board) { b.commit(aligned(b.scene, "align-west")) }},
		{"align-east", "do-align-east", "Ctrl+Shift+ArrowRight", selected(2), "needs-two", func(b *Board) { b.commit(aligned(b.scene, "align-east")) }},
		{"align-north", "do-align-north", "Ctrl+Shift+ArrowUp", selected(2), "needs-two", func(b *Board) { b.commit(aligned(b.scene, "align-north")) }},
		{"align-south", "do-align-south", "Ctrl+Shift+ArrowDown", selected(2), "needs-two", func(b *Board) { b.commit(aligned(b.scene, "align-south")) }},
		{"distribute", "do-distribute", "Ctrl+Shift+D", selected(3), "needs-three", func(b *Board) { b.commit(distributed(b.scene)) }},
		{"mirror", "do-mirror", "Ctrl+M", selected(1), "nothing-to-move", func(b *Board) { b.commit(mirrored(b.scene)) }},
		{"strap-up", "do-strap-up", "}", func(b *Board) bool { return canSlide(b.scene) }, "no-strap", func(b *Board) { stepStrap(b, 1) }},
		{"strap-down", "do-strap-down", "{", func(b *Board) bool { return canSlide(b.scene) }, "no-strap", func(b *Board) { stepStrap(b, -1) }},
		{"fit", "do-fit", "Ctrl+0", nil, "", func(b *Board) { b.fitAll() }},
		{"zoom-in", "do-zoom-in", "Ctrl++", nil, "", func(b *Board) { b.zoom(zoomStep*zoomStep, b.view.W/2, b.view.H/2) }},
		{"zoom-out", "do-zoom-out", "Ctrl+-", nil, "", func(b *Board) { b.zoom(1/zoomStep/zoomStep, b.view.W/2, b.view.H/2) }},
		{"rig.new", "do-new-rig", "Ctrl+T", nil, "", func(b *Board) { b.commit(newRig(b.scene)) }},
		{"rig.duplicate", "do-copy-rig", "Ctrl+Shift+T", rig, "no-rig", func(b *Board) { b.commit(copyRig(b.scene)) }},
		{"rig.delete", "do-delete-rig", "", rig, "no-rig", func(b *Board) { b.commit(deleteRig(b.scene)) }},
		{"stand", "do-stand", "", nil, "", func(b *Board) { b.arm(ToolStand) }},
		{"ways", "do-ways", "W", nil, "", (*Board).openWays},
		{"rig.next", "do-next-rig", "Ctrl+Tab", func(b *Board) bool { return len(b.plan.Rigs) > 1 }, "one-rig", func(b *Board) { b.nextRig(1) }},
		{"rig.previous", "do-previous-rig", "Ctrl+Shift+Tab", func(b *Board) bool { return len(b.plan.Rigs) > 1 }, "one-rig", func(b *Board) { b.nextRig(-1) }},
		{"rig.left", "do-rig-left", "", func(b *Board) bool { return b.plan.RigIndex(b.rig) > 0 }, "rig-first", func(b *Board) { b.commit(moveRig(b.scene, -1)) }},
		{"rig.right", "do-rig-right", "", func(b *Board) bool {
			i := b.plan.RigIndex(b.rig)
			return i >= 0 && i+1 < len(b.plan.Rigs)
		}, "rig-last", func(b *Board) { b.commit(moveRig(b.scene, 1)) }},
	}
	for _, t := range Tools() {
		id, label := "tool.select", "tool-select"
		if t != ToolSelect {
			id, label = "tool."+string(t), "tool-"+string(t)
		}
		list = append(list, command{id: id, label: label, shortcut: letterOf(t), do: func(b *Board) { b.arm(t) }})
	}
	list = append(append(list, pictureCommands()...), surveyCommands()...)
	for _, s := range StartRigs() {
		list = append(list, command{id: "start." + s, label: "do-start-" + s, why: func(b *Board) bool { return canStart(b.scene) }, whyNot: "start-needs", do: func(b *Board) { b.commit(startRig(b.scene, s)) }})
	}
	for _, s := range Begins() {
		list = append(list, command{id: "begin." + s, label: "do-begin-" + s, why: (*Board).Bare, whyNot: "begin-needs-bare", do: func(b *Board) { b.commit(beginning(b.scene, s)) }})
	}
	return list
}

// Commands lists what the board can be told to do, and whether it can be done
// now.
func (b *Board) Commands() []Entry {
	var out []Entry
	for _, c := range commands() {
		e := Entry{ID: c.id, Label: b.label(c.label), Enabled: c.why == nil || c.why(b), Shortcut: c.shortcut}
		if !e.Enabled {
			e.Why = b.label(c.whyNot)
		}
		out = append(out, e)
	}
	return out
}

// command does what it is told. What cannot be done says why; an id that there
// is not does nothing.
func (b *Board) command(id string) {
	list := commands()
	i := slices.IndexFunc(list, func(c command) bool { return c.id == id })
	if i < 0 {
		return
	}
	c := &list[i]
	if id == "select-all" && b.question.mark() {
		b.changed()
		return
	}
	if b.question != nil && id != "undo" && id != "redo" {
		b.closeQuestion()
	}
	if c.why != nil && !c.why(b) {
		b.say(b.label(c.whyNot))
		return
	}
	if b.gesture != nil {
		b.cancelGesture()
	}
	before := b.plan
	c.do(b)
	if b.plan == before && b.report == "" && arranges(id) {
		b.say(b.label("nothing-changed"))
	}
}

// arranges tells the commands that only ever move what is selected.
func arranges(id string) bool {
	return strings.HasPrefix(id, "align-") || id == "distribute" || id == "mirror"
}

// shortcut is the command of a key held with Ctrl.
func shortcut(e Key) (string, bool) {
	name := e.Name
	if len(name) == 1 && name[0] >= 'a' && name[0] <= 'z' {
		name = string(name[0] - 'a' + 'A')
	}
	want := "Ctrl+"
	if e.Mods.Shift {
		want += "Shift+"
	}
	want += name
	switch want {
	case "Ctrl+Y":
		return "redo", true
	case "Ctrl+=":
		return "zoom-in", true
	}
	for _, c := range commands() {
		if c.shortcut == want {
			return c.id, true
		}
	}
	return "", false
}
