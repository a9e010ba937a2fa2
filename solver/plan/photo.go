package plan

import (
	"slices"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"
)

// Photo is a picture that shows evidence. Pins name it by the hash of its file, see
// [Pin.Shows]; one that no pin names is not kept.
type Photo struct {
	Type     string         `json:"type"`                   // "image/png" or "image/jpeg"
	Bytes    []byte         `json:"bytes"`                  // may be a smaller copy of the file; none: lost
	File     string         `json:"original_name,omitzero"` // what the file was called
	Original string         `json:"original_sha256"`        // of the file, hexadecimal
	Extra    jsontext.Value `json:",embed"`
}

// Bounds of the pictures that show evidence, bytes: so many as a tag takes to be read, and
// together what a file has room for beside the picture to trace.
const (
	MaxPhotoBytes  = 2 << 20
	MaxPhotosBytes = 16 << 20
)

// Photo is the picture of the plan whose file has a hash, the one to trace too; nil: there is
// none.
func (p *Plan) Photo(hash string) *Photo {
	if hash == "" {
		return nil
	}
	for i := range p.Photos {
		if p.Photos[i].Original == hash {
			return &p.Photos[i]
		}
	}
	if u := p.Site.Underlay; u != nil && u.Original == hash {
		return &Photo{Type: u.Type, Bytes: u.Bytes, File: u.File, Original: u.Original}
	}
	return nil
}

// named are the pictures that pins name.
func (p *Plan) named() map[string]bool {
	names := map[string]bool{}
	for i := range p.Rigs {
		if n := p.Rigs[i].Incident; n != nil {
			for k := range n.Pins {
				names[n.Pins[k].Shows] = true
			}
		}
	}
	delete(names, "")
	return names
}

// KeepPhotos is next, an edit of before, with the pictures that its pins name, those that the
// edit took out of it too, and without others. Neither plan is changed; next itself comes back
// if it has them.
func KeepPhotos(before, next *Plan) *Plan {
	if before == nil || next == nil || before == next {
		return next
	}
	names := next.named()
	photos := slices.DeleteFunc(slices.Clone(next.Photos), func(q Photo) bool { return !names[q.Original] })
	for i := range before.Rigs {
		if n := before.Rigs[i].Incident; n != nil {
			for k := range n.Pins {
				hash := n.Pins[k].Shows
				if q := before.Photo(hash); q != nil && names[hash] && next.Photo(hash) == nil {
					photos = append(photos, *q)
				}
				delete(names, hash)
			}
		}
	}
	if slices.EqualFunc(photos, next.Photos, func(a, b Photo) bool { return a.Original == b.Original }) {
		return next
	}
	q := *next
	q.Photos = photos
	return &q
}

// validPhotos refuses pictures of one file twice, more of them than a file has room for, and
// pins that name none of the plan.
func validPhotos(p *Plan) error {
	seen, size := map[string]bool{}, 0
	for i := range p.Photos {
		q, path := &p.Photos[i], at("/photos", i)
		if q.Original == "" || seen[q.Original] {
			return photoTwice.At(path+"/original_sha256", quoted(ID(q.Original)))
		}
		seen[q.Original] = true
		if size += len(q.Bytes); size > MaxPhotosBytes {
			return largePhotos.At(path+"/bytes", strconv.Itoa(MaxPhotosBytes>>20))
		}
	}
	for i := range p.Rigs {
		if n := p.Rigs[i].Incident; n != nil {
			for k := range n.Pins {
				if hash := n.Pins[k].Shows; hash != "" && p.Photo(hash) == nil {
					return noPhoto.At(at(at("/rigs", i)+"/incident/pins", k)+"/picture", string(n.Pins[k].ID))
				}
			}
		}
	}
	return nil
}
