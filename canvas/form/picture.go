package form

import (
	"crypto/sha256"
	"encoding/hex"
	"math"
	"slices"
	"strconv"
	"strings"
	"sync/atomic"
	"weak"

	"kedge/canvas/words"
	"kedge/solver/part"
	"kedge/solver/plan"
	"kedge/solver/quantity"
)

// pictureMembers are those of a picture to trace: what says how it lies, and how it is
// shown.
func pictureMembers(u *plan.Underlay) []member {
	list := []member{aField("measured_points", unitPairs), aField("fade", unitPercent).orZero()}
	if len(u.Points) > 0 { // they are all that counts
		return inGroup("thing", list...)
	}
	list = slices.Insert(list, 0, aField("metres_per_pixel", unitFactor), aField("turn_deg", unitAngle).orLess())
	if u.Scaled != nil {
		list = append(list, aField("scaled_by/looks_straight_down", unitBool))
	}
	return slices.Concat(inGroup("thing", list...), placeFields("at"))
}

// showPair is a measured point of a picture as it would be typed: right ; down ; east ;
// north ; ± ; name.
func showPair(q plan.PicturePoint, sys quantity.System) string {
	s := strings.Join([]string{Plain(q.Right), Plain(q.Down), unitLength.typed(q.At.X, sys), unitLength.typed(q.At.Y, sys)}, " "+listSign+" ")
	if q.Doubt > 0 || q.Name != "" {
		s += " " + listSign + " "
	}
	if q.Doubt > 0 {
		s += unitLength.typed(float64(q.Doubt), sys)
	}
	if q.Name != "" {
		s += " " + listSign + " " + q.Name
	}
	return s
}

// pair reads "1820 ; 940 ; 12.5 ; 3.2 ; 0.1 ; corner of the hut"; the last two may be left
// out.
func (e *editor) pair(line string, old plan.PicturePoint) (plan.PicturePoint, error) {
	parts := strings.SplitN(line, listSign, 6)
	if len(parts) < 4 {
		return old, refusedText(line, quantity.NotNumber, noPair, "1820 ; 940 ; 12.5 ; 3.2 ; 0.1")
	}
	for i, to := range []*float64{&old.Right, &old.Down, &old.At.X, &old.At.Y} {
		u := unitFactor
		if i > 1 {
			u = unitLength
		}
		if err := e.figure(to, parts[i], u, i > 1); err != nil {
			return old, err
		}
	}
	parts = append(parts, "", "")
	old.Name = strings.TrimSpace(parts[5])
	if strings.TrimSpace(parts[4]) == "" {
		old.Doubt = 0
		return old, nil
	}
	return old, e.figure((*float64)(&old.Doubt), strings.TrimPrefix(strings.TrimSpace(parts[4]), "±"), unitLength, false)
}

// ReadPlace reads a measured place, "12.5 3.2" or "12.5 ; 3.2 ± 0.1": so far east, so far
// north, in the units of the system where none is said. The ± may be left out: 0. The error
// is a [*quantity.ParseError].
func ReadPlace(given string, sys quantity.System) (at plan.Point, doubt quantity.Length, err error) {
	place, width, ok := quantity.CutPlusMinus(given)
	if ok {
		x, err := unitLength.read(strings.TrimSpace(width), sys, false, false)
		if err != nil {
			return at, 0, err
		}
		doubt = quantity.Length(x.value)
	}
	both := strings.Split(place, listSign)
	if len(both) == 1 {
		both = strings.Fields(place)
	}
	if len(both) != 2 {
		return at, 0, refusedText(given, quantity.NotNumber, noPlace, "12.5 3.2 ± 0.1")
	}
	for i, to := range []*float64{&at.X, &at.Y} {
		x, err := unitLength.read(strings.TrimSpace(both[i]), sys, true, false)
		if err != nil {
			return at, 0, err
		}
		*to = x.value
	}
	return at, doubt, nil
}

// missText is by how much a point is missed, up to the next centimetre.
func missText(w *words.Words, l quantity.Length) string {
	return w.Dimension(quantity.Length(math.Ceil(float64(l)*100-1e-6) / 100))
}

// PictureLies says how a picture lies and how well, as sentences: on what assumption, by
// which points, by how much these are missed; and which file it was. Nil: there is no
// picture.
func PictureLies(w *words.Words, u *plan.Underlay) []string {
	if u == nil {
		return nil
	}
	return []string{pictureLaid(w, u), pictureFile(w, u)}
}

func pictureLaid(w *words.Words, u *plan.Underlay) string {
	f := u.Fit()
	switch {
	case f != nil && !f.Checked():
		return w.Label("picture-by-four")
	case f != nil:
		worst := f.Worst()
		return strings.TrimSpace(w.Label("picture-by-points", part.Count("n", len(u.Points)), part.Text("rms", missText(w, f.RMS)),
			part.Text("point", pointName(u, worst)), part.Text("most", missText(w, f.Miss[worst]))) + " " + pictureHides(w, u, f))
	case u.Scaled == nil:
		return w.Label("picture-not-scaled")
	}
	length := w.Dimension(u.Scaled.Length)
	if u.Scaled.Doubt > 0 {
		length += " ± " + missText(w, u.Scaled.Doubt)
	}
	if u.Scaled.Down {
		return w.Label("picture-by-two-down", part.Text("length", length))
	}
	return w.Label("picture-by-two", part.Text("length", length))
}

// pictureHides names the points an error of which would hardly show; empty: there is none.
func pictureHides(w *words.Words, u *plan.Underlay, f *plan.PictureFit) string {
	var list []string
	for i, c := range f.Checks {
		if c.Hides() {
			list = append(list, pointName(u, i))
		}
	}
	if len(list) == 0 {
		return ""
	}
	return w.Label("picture-hides", part.Count("n", len(list)), part.Text("list", strings.Join(list, ", ")))
}

// PictureOff says which measured points a picture misses by so much that one of them may be
// wrong; empty: none.
func PictureOff(w *words.Words, u *plan.Underlay) string {
	var list []string
	if f := u.Fit(); f != nil {
		for i, c := range f.Checks {
			if c.Off {
				list = append(list, w.Label("picture-off-point", part.Text("point", pointName(u, i)), part.Text("miss", missText(w, f.Miss[i]))))
			}
		}
	}
	if len(list) == 0 {
		return ""
	}
	return w.Label("picture-off", part.Text("list", strings.Join(list, ", ")))
}

// pictureFile says which file a picture is, by its hash: the one it was taken from, or, if
// that was not kept, what the plan holds.
func pictureFile(w *words.Words, u *plan.Underlay) string {
	if u.Original == "" {
		return w.Label("picture-hash-own", part.Text("hash", HashOf(u.Bytes)))
	}
	return PhotoFile(w, &plan.Photo{Bytes: u.Bytes, File: u.File, Original: u.Original})
}

// PhotoFile says which file a picture was taken from, by its hash, and what of it the plan
// holds.
func PhotoFile(w *words.Words, q *plan.Photo) string {
	name, hash := part.Text("name", fileName(w, q.File)), part.Text("hash", q.Original)
	if len(q.Bytes) == 0 {
		return w.Label("picture-hash-lost", name, hash)
	}
	if own := HashOf(q.Bytes); own != q.Original {
		return w.Label("picture-hash-copy", name, hash, part.Text("own", own))
	}
	return w.Label("picture-hash", name, hash)
}

// hashed is the hash of a picture, which is up to 12 MiB and shown again with each drawing.
type hashed struct {
	of  weak.Pointer[byte]
	n   int
	sum string
}

// lastHash is that of the picture asked for last. The bytes of a picture never change.
var lastHash atomic.Pointer[hashed]

// HashOf is the SHA-256 of a picture (FIPS 180-4), hexadecimal.
func HashOf(picture []byte) string {
	h := hashed{n: len(picture)}
	if h.n > 0 {
		h.of = weak.Make(&picture[0])
	}
	if l := lastHash.Load(); l != nil && l.of == h.of && l.n == h.n {
		return l.sum
	}
	sum := sha256.Sum256(picture)
	h.sum = hex.EncodeToString(sum[:])
	lastHash.Store(&h)
	return h.sum
}

func fileName(w *words.Words, name string) string {
	if name == "" {
		return w.Label("picture-no-name")
	}
	return name
}

// pointName is the number of a measured point, from 1, and its name.
func pointName(u *plan.Underlay, i int) string {
	s := strconv.Itoa(i + 1)
	if name := u.Points[i].Name; name != "" {
		s += " (" + name + ")"
	}
	return s
}

// shownLies is the field that says how a picture lies, and whether that was checked.
const shownLies = "=lies"

// shownOff is the field that says that measured points are missed by far.
const shownOff = "=off"

// ofPicture are the figures of a picture that are no members: how it lies, and by how much
// each of its points is missed.
func (c *teller) ofPicture(u *plan.Underlay, add func(member, label, value string)) {
	if off := PictureOff(c.w, u); off != "" {
		add(shownOff[1:], c.w.Level(part.Caution), off)
	}
	add(shownLies[1:], c.w.Label("shown-lies"), pictureLaid(c.w, u))
	if f := u.Fit(); f != nil && f.Checked() {
		for i, m := range f.Miss {
			text := missText(c.w, m)
			if d := u.Points[i].Doubt; d > 0 && m > d {
				text = c.w.Label("picture-miss-more", part.Text("miss", text), part.Text("doubt", c.w.Dimension(d)))
			}
			add("miss-"+strconv.Itoa(i), c.w.Label("shown-miss", part.Text("point", pointName(u, i))), text)
		}
	}
	add("file", c.w.Label("shown-file"), pictureFile(c.w, u))
}
