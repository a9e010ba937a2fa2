package assets

import _ "embed"

// Noto Sans, SIL Open Font License 1.1 (text in FontLicence), unmodified from
// Debian's fonts-noto-core. TrueType outlines (glyf), 1000 units to the em.
var (
	//go:embed fonts/NotoSans-Regular.ttf
	fontRegular []byte
	//go:embed fonts/NotoSans-Bold.ttf
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
