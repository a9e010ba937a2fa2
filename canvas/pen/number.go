package pen

import "strconv"

// short writes a length or coordinate to a thousandth, without trailing zeros
// and without a negative zero: a micrometre on a page in millimetres.
func short(v float64) string { return string(appendShort(nil, v)) }

func appendShort(b []byte, v float64) []byte {
	from := len(b)
	b = strconv.AppendFloat(b, v, 'f', 3, 64)
	for b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	if b[len(b)-1] == '.' {
		b = b[:len(b)-1]
	}
	if string(b[from:]) == "-0" {
		b = append(b[:from], '0')
	}
	return b
}
