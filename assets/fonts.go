package assets

import _ "embed"

// Noto Sans, SIL Open Font License 1.1 (text in FontLicence), cut to the Latin,
// Greek and Cyrillic ranges, without hints, and with drawn symbols added, by
// `go run ./cmd/dev fonts`. It is made of the unmodified faces of Debian's
// fonts-noto-core that lie beside, which are not embedded. TrueType outlines
// (glyf), 1000 units to the em.
var (
	//go:embed fonts/KedgeSans-Regular.ttf
	fontRegular []byte
	//go:embed fonts/KedgeSans-Bold.ttf
	fontBold []byte
	//go:embed fonts/OFL.txt
	fontLicence string
)

// FontRegular is the text face as a TrueType file. Read-only.
func FontRegular() []byte { return fontRegular }

// FontBold is the heading face as a TrueType file. Read-only.
func FontBold() []byte { return fontBold }

// FontLicence is the licence both faces are under. It asks to be easily viewed
// by whoever has the program (condition 2).
func FontLicence() string { return fontLicence }
