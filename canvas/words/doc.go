// Package words turns what the solver says into text: findings, sums, names of
// parts, states, figures with their units, and every fixed word of screen,
// sheet and command line.
//
// The texts are TOML files built into the program, one set per language,
// called <language>-<room>.toml. All files of a language make one catalogue;
// an id defined twice is an error. A language that lacks a text shows the
// English one, and a text that is nowhere shows its id in brackets: nothing
// vanishes and nothing crashes. A new language is files only. A region of one has a
// single file, <language>-<REGION>.toml, of what it says otherwise (en-US.toml).
//
// Sections of a file:
//
//	[finding.line-bears]  what = "…" and do = "…", one short sentence each
//	[basis] [formula] [note] [remedy] [word] [label]  id = "text"
//	[fact]                   id of a handbook row = "what it is called"; English has
//	                         them in the handbook's own files
//	[refusal]                why something is refused: what is wrong and what to do
//	[why]                    id of a finding = what its rule rests on; English has it
//	                         with the rule itself
//	[swap]                   of a region alone: words of the language = what it says instead
//	[term] [called]          word of the trade = "name: what it is", and "other names,
//	                         between commas"
//	[search]                 words of the handbook = "other names, between commas"
//
// A text holds placeholders {name}: the values of the finding, sum step or
// label by name, and in findings {thing}, {thing2} and {part}. After a colon a
// placeholder may say how its value is printed:
//
//	{missing:up} {clear:down}   rounded up, rounded down
//	{from:bare}                 the figure without its unit
//	{turn:whole}                a whole number
//	{trunk:fine} {rope:thick}   two decimals; a thickness in mm or inches
//	{girth:stem}                of a trunk: two decimals of a metre, or inches
//	{moment:long}               up to seven digits, to follow a sum by hand
//	{pull:stop}                 a sentence's end stop taken off
//
// Several go together: {need:up:bare}. After a bar stand two words, of which
// the number chooses: the first for exactly one, the second for any other.
//
//	{n} {n|rating is a preset|ratings are presets}
//
// A loose { or } is an error.
//
// Figures: loads and shares round up, limits down (see package quantity), and
// what is not finite prints as "not computed". No text ever says of a load or
// a person that it is safe; a test reads every text for that.
//
// The smallest use:
//
//	w, err := words.New("en", quantity.Metric)
//	what, do := w.Finding(f, names)
package words
