package survey

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"

	"kedge/solver/quantity"
)

const (
	maxXMLDepth   = 64      // GPX needs six
	maxPieceBytes = 1 << 20 // of a tag and the text behind it: a recorder's take some hundred (ours)
	maxNameText   = 4 << 10 // of a text, as much as is looked at for a name or a height
)

// gpxReader walks a GPX file, version 1.0 or 1.1 (topografix.com/GPX/1/1):
// places are wpt, rtept and trkpt with lat and lon in degrees of WGS 84; ele is
// metres, above mean sea level.
type gpxReader struct {
	g     gathered
	open  []string // names of the elements around
	mark  mark
	trail trail
	name  string // of the track or route around
	in    bool   // inside a place
}

func readGPX(data []byte, o Options) (Result, error) {
	for piece := range bytes.SplitSeq(data, []byte{'<'}) { // no value of an attribute may hold that sign
		if len(piece) > maxPieceBytes { // before any of it is read
			return Result{}, longPiece.At("")
		}
	}
	dec := xml.NewDecoder(bytes.NewReader(data))
	dec.CharsetReader = charset
	r := &gpxReader{}
	seen := false
	for {
		token, err := dec.RawToken()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return Result{}, badForm.At("", strings.TrimPrefix(err.Error(), "XML "))
		}
		switch t := token.(type) {
		case xml.StartElement:
			if !seen && t.Name.Local != "gpx" {
				return Result{}, otherXML.At("", cleanName(t.Name.Local))
			}
			seen = true
			if len(r.open) >= maxXMLDepth {
				return Result{}, deep.At("")
			}
			if err := r.start(t); err != nil {
				return Result{}, err
			}
			r.open = append(r.open, t.Name.Local)
		case xml.EndElement:
			if len(r.open) == 0 || r.open[len(r.open)-1] != t.Name.Local {
				return Result{}, endsNothing.At("", cleanName(t.Name.Local))
			}
			r.open = r.open[:len(r.open)-1]
			if err := r.end(t.Name.Local); err != nil {
				return Result{}, err
			}
		case xml.CharData:
			r.text(t)
		}
	}
	switch {
	case !seen:
		return Result{}, notGPX.At("")
	case len(r.open) > 0:
		return Result{}, cutOff.At("", cleanName(r.open[len(r.open)-1]))
	}
	return r.g.onGlobe(FormatGPX, o)
}

func (r *gpxReader) around() string {
	if len(r.open) == 0 {
		return ""
	}
	return r.open[len(r.open)-1]
}

func (r *gpxReader) start(t xml.StartElement) error {
	switch t.Name.Local {
	case "wpt", "rtept", "trkpt":
		if r.in {
			return pointInPoint.At("")
		}
		var lat, lon float64
		haveLat, haveLon := false, false
		for _, a := range t.Attr {
			switch a.Name.Local {
			case "lat":
				lat, haveLat = plainNumber(strings.TrimSpace(a.Value), '.')
			case "lon":
				lon, haveLon = plainNumber(strings.TrimSpace(a.Value), '.')
			}
		}
		if !haveLat || !haveLon {
			return noDegrees.At("", r.g.count+1)
		}
		r.mark, r.in = mark{lat: lat, lon: lon}, true
	case "trk", "rte":
		r.name, r.trail = "", trail{}
	case "trkseg":
		r.trail = trail{}
	}
	return nil
}

func (r *gpxReader) text(t xml.CharData) {
	t = t[:min(len(t), maxNameText)]
	switch around := r.around(); {
	case around != "name" && around != "ele":
	case r.in && len(r.open) >= 2 && isPlace(r.open[len(r.open)-2]):
		if around == "name" {
			r.mark.name = cleanName(r.mark.name + string(t))
		} else if z, ok := plainNumber(strings.TrimSpace(string(t)), '.'); ok {
			r.mark.height = quantity.Length(z)
		}
	case around == "name" && len(r.open) >= 2 && (r.open[len(r.open)-2] == "trk" || r.open[len(r.open)-2] == "rte"):
		r.name = cleanName(r.name + string(t))
	}
}

func isPlace(element string) bool {
	return element == "wpt" || element == "rtept" || element == "trkpt"
}

func (r *gpxReader) end(element string) error {
	switch element {
	case "wpt":
		r.in = false
		return r.g.add(r.mark)
	case "rtept", "trkpt":
		r.in = false
		r.trail.marks = append(r.trail.marks, r.mark)
		return r.g.one()
	case "trkseg", "rte":
		if len(r.trail.marks) > 0 {
			r.trail.name = r.name
			r.g.trails = append(r.g.trails, r.trail)
		}
		r.trail = trail{}
	}
	return nil
}
