package report

import (
	"kedge/canvas/form"
	"kedge/canvas/words"
	"kedge/solver/plan"
)

// pictureOff is the caution of a picture that misses its measured points; none: it does not.
func pictureOff(w *words.Words, p *plan.Plan) (all []string) {
	if off := form.PictureOff(w, p.Site.Underlay); off != "" {
		all = append(all, off)
	}
	return all
}

// Picture is how the picture lies that a plan was traced over, in the form of an answer.
type Picture struct {
	LaidBy    string         `json:"laid_by"` // "points", "two points", "" if it is not to scale
	Down      bool           `json:"looks_straight_down"`
	Length    *float64       `json:"length_m"` // between the two points
	PlusMinus *float64       `json:"length_plus_minus_m"`
	Points    []PicturePoint `json:"points"`
	RMS       *Number        `json:"missed_rms_m"`
	File      string         `json:"file"`
	Original  string         `json:"sha256_of_file"`
	Own       string         `json:"sha256_in_plan"`
}

// PicturePoint is a measured point of a picture, and what the others say of it.
type PicturePoint struct {
	Name      string   `json:"name"`
	Right     float64  `json:"right_px"`
	Down      float64  `json:"down_px"`
	X         float64  `json:"x_m"`
	Y         float64  `json:"y_m"`
	PlusMinus *float64 `json:"plus_minus_m"`
	Miss      *Number  `json:"missed_m"`
	Shows     Number   `json:"least_of_an_error_shown"`
	Hides     bool     `json:"an_error_may_hide"`
	Off       bool     `json:"far_off"`
}

// PictureOf is how the picture of a plan lies; nil: there is none.
func PictureOf(p *plan.Plan) *Picture {
	u := p.Site.Underlay
	if u == nil {
		return nil
	}
	out := &Picture{Points: []PicturePoint{}, File: u.File, Original: u.Original, Own: form.HashOf(u.Bytes)}
	f := u.Fit()
	if f == nil && u.Scaled != nil {
		out.LaidBy, out.Down = "two points", u.Scaled.Down
		out.Length, out.PlusMinus = above0(float64(u.Scaled.Length)), above0(float64(u.Scaled.Doubt))
	}
	if f == nil {
		return out
	}
	out.LaidBy, out.RMS = "points", Known(f.RMS, f.Checked())
	for i, q := range u.Points {
		c := f.Checks[i]
		out.Points = append(out.Points, PicturePoint{Name: q.Name, Right: q.Right, Down: q.Down, X: q.At.X, Y: q.At.Y, PlusMinus: above0(float64(q.Doubt)),
			Miss: Known(f.Miss[i], f.Checked()), Shows: Number(c.Least), Hides: c.Hides(), Off: c.Off})
	}
	return out
}

// above0 is a figure as it was entered, or null if it was not.
func above0(x float64) *float64 {
	if !(x > 0) {
		return nil
	}
	return &x
}
