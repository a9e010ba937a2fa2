package main

import (
	"io/fs"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"kedge/assets"
	"kedge/canvas/sheet"
	"kedge/canvas/words"
	"kedge/solver/quantity"
)

// page is what the help says of one command: how it is called, in one line, at
// length, and of each of its flags.
type page struct {
	use, short, long string
	flags            map[string]string
}

// readPages reads a file of help: pages by the name of their command. A page begins with
// "= NAME …", its first line is the short text, lines "- name: …" are of its flags,
// and lines of two blanks go on with the flag above. In the texts stand {exit},
// {sheets} and {languages}.
func readPages(data string) map[string]*page {
	all := map[string]*page{}
	for part := range strings.SplitSeq("\n"+data, "\n= ") {
		use, body, _ := strings.Cut(part, "\n")
		name, _, _ := strings.Cut(use, " ")
		if name == "" {
			continue
		}
		short, body, _ := strings.Cut(body, "\n")
		p := &page{use: use, short: short, flags: map[string]string{}}
		last := ""
		var long []string
		for line := range strings.SplitSeq(strings.TrimRight(body, "\n"), "\n") {
			flag, isFlag := strings.CutPrefix(line, "- ")
			flag, usage, named := strings.Cut(flag, ": ")
			switch {
			case isFlag && named:
				last, p.flags[flag] = flag, usage
			case last != "":
				p.flags[last] += "\n" + strings.TrimPrefix(line, "  ")
			default:
				long = append(long, line)
			}
		}
		p.long = strings.Trim(strings.Join(long, "\n"), "\n")
		all[name] = p
	}
	return all
}

// manual is the help in one language.
type manual struct {
	w     *words.Words
	pages map[string]*page
	fill  *strings.Replacer
}

func newManual(lang string) (*manual, error) {
	w, err := words.New(lang, quantity.Metric)
	if err != nil {
		return nil, err
	}
	wide, _, _ := strings.Cut(lang, "-")
	data, err := fs.ReadFile(assets.Help(), wide+".txt")
	if err != nil {
		return nil, err
	}
	m := &manual{w: w, pages: readPages(string(data))}
	m.fill = strings.NewReplacer("{exit}", w.Regional(m.of("exit").long), "{sheets}", kindList(w), "{languages}", strings.Join(words.Languages(), ", "))
	return m, nil
}

// of is the page of a command; an empty one if it has none.
func (m *manual) of(name string) *page {
	if p := m.pages[name]; p != nil {
		return p
	}
	return &page{}
}

// say is a text as it is shown.
func (m *manual) say(text string) string { return m.fill.Replace(m.w.Regional(text)) }

// word is a word of a page's layout.
func (m *manual) word(name string) string { return m.say(m.of("page").flags[name]) }

// text is the whole help of a command.
func (m *manual) text(c *cobra.Command) string {
	p := m.of(c.Name())
	var b strings.Builder
	switch {
	case c.Name() == "findings":
		return m.findings()
	case c.Name() == "json":
		b.WriteString(m.members())
	case c.Name() == "licences":
		modules, texts := assets.Licences()
		b.WriteString(m.say(p.flags["own"]) + "\n\n" + modules + "\n\n" + m.say(p.flags["typeface"]) + "\n\n" + strings.TrimSpace(assets.FontLicence()) + "\n\n" + texts)
	case p.long != "":
		b.WriteString(m.say(p.long))
	default:
		b.WriteString(m.say(p.short))
	}
	s := strings.TrimRight(b.String(), "\n") + "\n"
	if !c.Runnable() {
		return s
	}
	line := strings.TrimSpace(strings.TrimSuffix(c.CommandPath(), c.Name()) + p.use)
	if c.HasSubCommands() {
		line += " " + m.word("command")
	}
	s += "\n" + m.word("usage") + ":\n" + indent + line + "\n"
	if c.HasSubCommands() {
		s += m.list(c, "commands", (*cobra.Command).IsAvailableCommand) + m.list(c, "topics", (*cobra.Command).IsAdditionalHelpTopicCommand)
	}
	if flags := m.flags(c); flags != "" {
		s += "\n" + m.word("flags") + ":\n" + flags
	}
	if c.HasSubCommands() {
		s += "\n" + m.word("more") + "\n"
	}
	return s
}

// list is those of a command's own that belong under a head.
func (m *manual) list(c *cobra.Command, head string, belongs func(*cobra.Command) bool) string {
	var t table
	for _, sub := range c.Commands() {
		if belongs(sub) || sub.Name() == "help" && head == "commands" {
			t.add(sub.Name(), m.say(m.of(sub.Name()).short))
		}
	}
	var b strings.Builder
	t.write(&b, indent)
	return "\n" + m.word(head) + ":\n" + b.String()
}

// flags are the flags of a command, a line each.
func (m *manual) flags(c *cobra.Command) string {
	if c.HasSubCommands() {
		return ""
	}
	shown := pflag.NewFlagSet("", pflag.ContinueOnError)
	add := func(f *pflag.Flag) {
		if usage := m.usage(c, f); usage != "" && shown.Lookup(f.Name) == nil {
			g := *f
			g.Usage = usage
			shown.AddFlag(&g)
		}
	}
	c.LocalFlags().VisitAll(add)
	c.InheritedFlags().VisitAll(add)
	return strings.ReplaceAll(shown.FlagUsages(), "(default ", "("+m.word("default")+" ")
}

// usage is what a flag is for: of this command, else of every one; empty if nothing
// is said of it.
func (m *manual) usage(c *cobra.Command, f *pflag.Flag) string {
	text, ok := m.of(c.Name()).flags[f.Name]
	if !ok {
		text = m.of("every").flags[f.Name]
	}
	return m.say(text)
}

// members is what --json prints, member by member.
func (m *manual) members() string {
	wide, _, _ := strings.Cut(m.w.Lang(), "-")
	data, err := fs.ReadFile(assets.Help(), "json-"+wide+".md")
	if err != nil {
		data, _ = fs.ReadFile(assets.Help(), "json.md")
	}
	return string(data)
}

// kindList is every sheet with its name, for the help.
func kindList(w *words.Words) string {
	var t table
	for _, k := range sheet.Kinds() {
		t.add(string(k), w.Label("sheet-kind-"+string(k)))
	}
	var b strings.Builder
	t.write(&b, indent)
	return strings.TrimRight(b.String(), "\n")
}
