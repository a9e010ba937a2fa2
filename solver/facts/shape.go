package facts

// Of a text in TOML that somebody wrote: a list of maxItems, each with all the keys
// of its kind, has not half as many signs, and no line of it nests or joins names
// even twice. (ours)
const (
	maxSigns = 300_000
	maxNest  = 8
)

// Shape refuses a text in TOML whose brackets, or names joined by dots, go deeper than
// any that is read here, or that has more signs than that. Its decoder goes down with
// them: a few thousand take it minutes, a million its stack, which ends the program.
// Where the text is no TOML, that is the decoder's to say.
func Shape(name string, data []byte) error {
	signs, nest, dots := 0, 0, 0
	for i := 0; i < len(data); i++ {
		switch c := data[i]; c {
		case '"', '\'':
			i = textEnd(data, i)
			continue
		case '#':
			for i+1 < len(data) && data[i+1] != '\n' {
				i++
			}
			continue
		case '.':
			dots++
		case '[', '{':
			nest++
			dots = 0
		case ']', '}':
			nest--
		case '\n', ',', '=':
			dots = 0
		default:
			continue
		}
		if signs++; signs > maxSigns || nest > maxNest || dots > maxNest {
			return oddShape.At(name)
		}
	}
	return nil
}

// textEnd is where the text ends that begins at data[i], or its line, if it has no end.
func textEnd(data []byte, i int) int {
	quote, long := data[i], i+2 < len(data) && data[i+1] == data[i] && data[i+2] == data[i]
	if long {
		i += 2
	}
	for i++; i < len(data); i++ {
		switch {
		case data[i] == '\\' && quote == '"':
			i++
		case data[i] == '\n' && !long:
			return i
		case data[i] == quote && !long:
			return i
		case data[i] == quote && i+2 < len(data) && data[i+1] == quote && data[i+2] == quote:
			for i += 2; i+1 < len(data) && data[i+1] == quote; i++ { // one or two of its own may stand before
			}
			return i
		}
	}
	return i
}
