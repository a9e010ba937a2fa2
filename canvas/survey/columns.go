package survey

import (
	"strings"
	"unicode"
)

// Role is what a column of a list holds.
type Role string

// The roles.
const (
	RoleNone Role = "" // nothing that is read
	RoleName Role = "name"
	RoleX    Role = "x" // east
	RoleY    Role = "y" // north
	RoleZ    Role = "z" // height
	RoleLat  Role = "latitude"
	RoleLon  Role = "longitude"

	RoleDoubt Role = "accuracy" // its place is known to ±
)

// Columns is how a list is read.
type Columns struct {
	Separator rune   // ',', ';', '|', tab, or ' ' for any blanks
	Decimal   byte   // '.' or ','
	Header    bool   // the first line names the columns
	Roles     []Role // one a column; columns beyond are not read
}

// Preview shows how a list was understood, for a person to agree or to choose
// other Columns.
type Preview struct {
	Columns Columns
	Heads   []string   // as the file names them; nil if it does not
	Rows    [][]string // the first rows
	Total   int        // rows in all
	Left    int        // rows left out
}

// previewRows is what fits beside the picture in the dialog.
const previewRows = 5

// heads are the names of columns in English, German, French, Spanish, Italian,
// Dutch, Polish and the Nordic languages, without blanks and marks.
var heads = map[Role][]string{
	RoleName: {"name", "id", "nr", "no", "number", "point", "pointid", "pointname", "pt", "label", "code", "punkt", "punktnummer", "punktnr", "bezeichnung",
		"nom", "nombre", "numero", "numéro", "punto", "nome", "naam", "punkty", "nazwa", "navn", "namn", "nimi", "mark", "station", "title"},
	RoleX: {"x", "e", "east", "easting", "eastings", "ost", "ostwert", "rechtswert", "rechts", "est", "este", "oost", "wschód", "øst", "öst", "itä", "xcoord", "xcoordinate", "posx"},
	RoleY: {"y", "n", "north", "northing", "northings", "nord", "nordwert", "hochwert", "hoch", "norte", "noord", "północ", "norr", "pohjoinen", "ycoord", "ycoordinate", "posy"},
	RoleZ: {"z", "h", "height", "elevation", "elev", "ele", "alt", "altitude", "level", "höhe", "hoehe", "hauteur", "altura", "altitud", "elevación", "quota", "altezza",
		"hoogte", "wysokość", "høyde", "højde", "höjd", "korkeus", "zcoord", "cota"},
	RoleDoubt: {"accuracy", "acc", "hacc", "horizontalaccuracy", "positionalaccuracy", "uncertainty", "genauigkeit", "lagegenauigkeit", "précision", "precisión", "precisione", "nauwkeurigheid", "dokładność", "nøyaktighed", "nøyaktighet", "noggrannhet", "tarkkuus"},
	RoleLat:   {"lat", "latitude", "breite", "breitengrad", "latitud", "latitudine", "breedtegraad", "szerokość", "breddegrad", "breddgrad", "leveysaste", "geographischebreite"},
	RoleLon:   {"lon", "lng", "long", "longitude", "länge", "laenge", "längengrad", "laengengrad", "longitud", "longitudine", "lengtegraad", "długość", "lengdegrad", "længdegrad", "längdgrad", "pituusaste", "geographischelänge"},
}

// roles in the order they are looked up.
var roles = []Role{RoleLat, RoleLon, RoleX, RoleY, RoleZ, RoleDoubt, RoleName}

// roleOf is what a head says, and the unit it gives, empty if none.
func roleOf(head string) (role Role, unit string) {
	head = strings.ToLower(strings.TrimSpace(head))
	if i := strings.IndexAny(head, "[("); i >= 0 {
		unit = strings.TrimSpace(strings.TrimRight(head[i+1:], "]) "))
		head = head[:i]
	} else if i := strings.LastIndexAny(head, "_ "); i > 0 {
		if _, known := unitM(head[i+1:]); known || head[i+1:] == "deg" {
			unit, head = head[i+1:], head[:i]
		}
	}
	head = strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return r
		}
		return -1
	}, head)
	for _, r := range roles {
		for _, name := range heads[r] {
			if name == head {
				return r, unit
			}
		}
	}
	return RoleNone, unit
}

// unitM is one of a unit of length in metres. The international foot is
// 0.3048 m, the US survey foot 1200/3937 m (NIST SP 811, B.6).
func unitM(unit string) (float64, bool) {
	switch strings.ReplaceAll(strings.ReplaceAll(unit, ".", ""), " ", "") {
	case "", "m", "metre", "metres", "meter", "meters", "mètre", "mètres", "metro", "metros", "metri":
		return 1, true
	case "cm":
		return 0.01, true
	case "mm":
		return 0.001, true
	case "km":
		return 1000, true
	case "ft", "feet", "foot":
		return 0.3048, true
	case "usft", "ftus", "ussurveyfeet":
		return 1200.0 / 3937, true
	}
	return 0, false
}

// has reports whether a role is among them.
func (c Columns) has(r Role) bool { return c.at(r) >= 0 }

// at is the first column of that role, -1 if there is none.
func (c Columns) at(r Role) int {
	for i, have := range c.Roles {
		if have == r {
			return i
		}
	}
	return -1
}

// globe reports whether places are latitude and longitude.
func (c Columns) globe() bool { return c.has(RoleLat) && c.has(RoleLon) }

func (c Columns) complete() bool { return c.globe() || c.has(RoleX) && c.has(RoleY) }
