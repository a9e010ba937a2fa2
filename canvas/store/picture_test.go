package store_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"kedge/canvas/store"
	"kedge/solver/plan"
)

// corner is a picture whose upper left quarter is red, the rest white.
func corner(w, h int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			c := color.NRGBA{255, 255, 255, 255}
			if x < w/2 && y < h/2 {
				c = color.NRGBA{200, 0, 0, 255}
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}

func noise(w, h int) *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	random := rand.New(rand.NewPCG(3, 4))
	for i := range img.Pix {
		img.Pix[i] = byte(random.Uint32())
		if i%4 == 3 {
			img.Pix[i] = 255
		}
	}
	return img
}

func asPNG(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(&b, img))
	return b.Bytes()
}

func asJPEG(t testing.TB, img image.Image, quality int) []byte {
	t.Helper()
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}))
	return b.Bytes()
}

// withTurn puts an Exif segment with one entry, Orientation, into a JPEG file.
func withTurn(jpg []byte, order binary.AppendByteOrder, turn uint16) []byte {
	tiff := []byte("II*\x00")
	if order == binary.AppendByteOrder(binary.BigEndian) {
		tiff = []byte("MM\x00*")
	}
	tiff = order.AppendUint32(tiff, 8)
	tiff = order.AppendUint16(tiff, 1)   // entries
	tiff = order.AppendUint16(tiff, 274) // Orientation
	tiff = order.AppendUint16(tiff, 3)   // SHORT
	tiff = order.AppendUint32(tiff, 1)
	tiff = order.AppendUint16(tiff, turn)
	tiff = append(tiff, 0, 0, 0, 0, 0, 0)
	body := append([]byte("Exif\x00\x00"), tiff...)
	seg := binary.BigEndian.AppendUint16([]byte{0xFF, 0xE1}, uint16(len(body)+2))
	return bytes.Join([][]byte{jpg[:2], seg, body, jpg[2:]}, nil)
}

func TestPictureTakenAsItIs(t *testing.T) {
	for kind, data := range map[string][]byte{
		"image/png":  asPNG(t, corner(30, 20)),
		"image/jpeg": asJPEG(t, corner(30, 20), 80),
	} {
		path := filepath.Join(t.TempDir(), "site")
		require.NoError(t, os.WriteFile(path, data, 0o644))
		p, err := store.New(store.Program).ReadPicture(path)
		require.NoError(t, err)
		sum := sha256.Sum256(data)
		assert.Equal(t, store.Picture{Type: kind, Bytes: data, Width: 30, Height: 20, Original: hex.EncodeToString(sum[:])}, p, "byte for byte, without a note")
	}
}

// Where the red corner of the stored picture is to be seen, by the value of
// Orientation: TIFF 6.0, section 8, "the 0th row represents the visual top of
// the image, and the 0th column represents the visual left-hand side" and so on.
func TestPictureTurnedUpright(t *testing.T) {
	for turn, where := range map[uint16][2]string{
		1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
		5: {"top", "left"}, 6: {"top", "right"}, 7: {"bottom", "right"}, 8: {"bottom", "left"},
	} {
		for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
			t.Run(fmt.Sprint(turn, order), func(t *testing.T) {
				p, err := store.TakePicture("photo.jpg", withTurn(asJPEG(t, corner(64, 32), 90), order, turn))
				require.NoError(t, err)
				w, h := 64, 32
				if turn >= 5 {
					w, h = h, w
				}
				require.Equal(t, [2]int{w, h}, [2]int{p.Width, p.Height})
				img, err := jpeg.Decode(bytes.NewReader(p.Bytes))
				require.NoError(t, err)
				require.Equal(t, image.Rect(0, 0, w, h), img.Bounds())
				x, y := w/4, h/4
				if where[0] == "bottom" {
					y = h * 3 / 4
				}
				if where[1] == "right" {
					x = w * 3 / 4
				}
				r, g, _, _ := img.At(x, y).RGBA()
				assert.Greater(t, r, uint32(0x8000))
				assert.Less(t, g, uint32(0x4000), "red is there")
				assert.Equal(t, turn != 1, said(t, p.Note) == "The picture was turned upright.")
			})
		}
	}
	p, err := store.TakePicture("photo.jpg", withTurn(asJPEG(t, corner(64, 32), 90), binary.LittleEndian, 9))
	require.NoError(t, err)
	assert.NoError(t, p.Note, "there is no turn 9")
}

// A file that ends within what tells the way up, or points beyond its end, is upright.
func TestWayUpOfAPictureThatIsCut(t *testing.T) {
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		whole := withTurn(asJPEG(t, corner(3, 2), 80), order, 6)
		const tells = 2 + 4 + 6 + 8 + 2 + 12 + 4 // start, segment, "Exif", head, count, entry, end
		assert.Equal(t, 6, store.ExifTurn(whole))
		assert.Equal(t, 6, store.ExifTurn(whole[:tells]))
		for n := range tells {
			assert.Equal(t, 1, store.ExifTurn(whole[:n]), "%d bytes", n)
		}
		for at := range uint32(40) { // of the directory, from the segment's own beginning
			far := append([]byte(nil), whole...)
			copy(far[2+4+6+4:], order.AppendUint32(nil, 20+at))
			assert.Equal(t, 1, store.ExifTurn(far), "at %d", 20+at)
		}
	}
}

func TestPictureMadeSmaller(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	data := asPNG(t, noise(2600, 2000)) // noise does not pack: 3 bytes a pixel
	require.Greater(t, len(data), plan.MaxUnderlayBytes)
	p, err := store.TakePicture("site.png", data)
	require.NoError(t, err)
	assert.LessOrEqual(t, len(p.Bytes), plan.MaxUnderlayBytes)
	assert.Greater(t, len(p.Bytes), plan.MaxUnderlayBytes/2, "no smaller than it must")
	assert.InDelta(t, 1.3, float64(p.Width)/float64(p.Height), 0.002, "2600 by 2000")
	assert.Equal(t, fmt.Sprintf("The picture was made smaller from 2600 × 2000 to %d × %d pixels to fit into the plan (12 MiB).", p.Width, p.Height), said(t, p.Note))
	head, format, err := image.DecodeConfig(bytes.NewReader(p.Bytes))
	require.NoError(t, err)
	assert.Equal(t, "png", format)
	assert.Equal(t, [2]int{p.Width, p.Height}, [2]int{head.Width, head.Height})
}

func TestPhotographMadeSmaller(t *testing.T) {
	if testing.Short() {
		t.Skip("takes seconds")
	}
	data := asJPEG(t, noise(3000, 2400), 100)
	require.Greater(t, len(data), plan.MaxUnderlayBytes)
	p, err := store.TakePicture("site.jpg", data)
	require.NoError(t, err)
	assert.LessOrEqual(t, len(p.Bytes), plan.MaxUnderlayBytes)
	assert.Equal(t, [2]int{3000, 2400}, [2]int{p.Width, p.Height}, "packed tighter it fits as it is")
	assert.Equal(t, "The picture was packed tighter to fit into the plan (12 MiB), with its 3000 × 2400 pixels.", said(t, p.Note))
	_, format, err := image.DecodeConfig(bytes.NewReader(p.Bytes))
	require.NoError(t, err)
	assert.Equal(t, "jpeg", format)
}

func TestPictureRefused(t *testing.T) {
	whole := asPNG(t, corner(300, 200))
	var gifBytes bytes.Buffer
	require.NoError(t, gif.Encode(&gifBytes, corner(3, 3), nil))
	for _, c := range []struct {
		name string
		data []byte
		want error
		says string
	}{
		{"nothing", nil, store.ErrContent, "site: it is not a PNG or JPEG picture. Turn it into one of these."},
		{"text", []byte("peat track"), store.ErrContent, "site: it is not a PNG or JPEG picture. Turn it into one of these."},
		{"gif", gifBytes.Bytes(), store.ErrContent, "site: it is not a PNG or JPEG picture. Turn it into one of these."},
		{"cut off", whole[:len(whole)*3/4], store.ErrContent, "site: the picture is damaged. Take a copy that is whole."},
		{"40 million and more", header(7000, 6000), store.ErrTooLarge, "site: it has 7000 × 6000 pixels, more than 40 million (20 million at 16 bits a colour). Make it smaller, or cut out the part that matters."},
		{"a strip", header(40_000_000, 1), store.ErrTooLarge, "site: it has 40000000 × 1 pixels, more than 30000 along one side. Cut out the part that matters."},
		{"21 million of 16 bits", deeper(header(7000, 3000)), store.ErrTooLarge, "site: it has 7000 × 3000 pixels, more than 40 million (20 million at 16 bits a colour). Make it smaller, or cut out the part that matters."},
		{"sides that overflow", header(1<<31-1, 1<<31-1), store.ErrTooLarge, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := store.TakePicture("site", c.data)
			require.Error(t, err)
			assert.Empty(t, p.Bytes)
			if c.name != "sides that overflow" { // refused by the decoder or by us
				assert.ErrorIs(t, err, c.want)
				assert.Equal(t, c.says, said(t, err))
			}
		})
	}
	large := filepath.Join(t.TempDir(), "site")
	require.NoError(t, os.WriteFile(large, nil, 0o644))
	require.NoError(t, os.Truncate(large, store.MaxPictureBytes+1))
	_, err := store.New(store.Program).ReadPicture(large)
	assert.Equal(t, "site: it is larger than 32 MiB. Take a smaller one.", said(t, err))
	_, err = store.New(store.Program).ReadPicture(filepath.Join(t.TempDir(), "none.png"))
	assert.ErrorIs(t, err, store.ErrNotFound)
}

// header is the beginning of a PNG file of that size, with a check sum that is
// right: PNG (ISO/IEC 15948), 11.2.2.
func header(w, h uint32) []byte {
	img := image.NewGray(image.Rect(0, 0, 1, 1))
	var b bytes.Buffer
	if png.Encode(&b, img) != nil {
		return nil
	}
	data := b.Bytes()
	binary.BigEndian.PutUint32(data[16:], w)
	binary.BigEndian.PutUint32(data[20:], h)
	binary.BigEndian.PutUint32(data[29:], crc(data[12:29]))
	return data
}

// deeper is the head of a PNG with 16 bits a pixel.
func deeper(data []byte) []byte {
	data[24] = 16
	binary.BigEndian.PutUint32(data[29:], crc(data[12:29]))
	return data
}

func crc(p []byte) uint32 {
	c := ^uint32(0)
	for _, b := range p {
		c ^= uint32(b)
		for range 8 {
			c = c>>1 ^ 0xEDB88320&-(c&1)
		}
	}
	return ^c
}

func FuzzTakePicture(f *testing.F) {
	f.Add(asPNG(f, corner(4, 3)))
	f.Add(asJPEG(f, corner(4, 3), 50))
	f.Add(withTurn(asJPEG(f, corner(8, 4), 50), binary.LittleEndian, 6))
	f.Add(header(7000, 6000))
	f.Fuzz(func(t *testing.T, data []byte) {
		if head, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && head.Width*head.Height > 1<<20 {
			t.Skip("takes long to unpack")
		}
		p, err := store.TakePicture("site", data)
		if err != nil {
			assert.Regexp(t, `^site: .+\.$`, said(t, err))
			assert.Regexp(t, `^store: site: .+`, err.Error())
			return
		}
		head, format, err := image.DecodeConfig(bytes.NewReader(p.Bytes))
		require.NoError(t, err)
		assert.Equal(t, p.Type, "image/"+format)
		assert.Equal(t, [2]int{p.Width, p.Height}, [2]int{head.Width, head.Height})
		assert.LessOrEqual(t, len(p.Bytes), plan.MaxUnderlayBytes)
	})
}

// Every second pixel is white: made smaller all are half white, for each counts. What is
// held on the way is pictures, four bytes a pixel: of half the size, a quarter, the last.
func TestScaledCountsEachPixelAndHoldsNoMoreThanPictures(t *testing.T) {
	from := image.NewGray(image.Rect(0, 0, 1600, 1200))
	for i := range from.Pix {
		from.Pix[i] = uint8((i + i/from.Stride) % 2 * 255)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	to := store.Scaled(from, image.Pt(400, 300))
	runtime.ReadMemStats(&after)
	assert.Equal(t, image.Pt(400, 300), to.Bounds().Size())
	for x := range 400 {
		r, _, _, _ := to.At(x, x*3/4).RGBA()
		assert.InDelta(t, 0x7fff, r, 0x200, "half of white")
	}
	assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(2*4*(800*600+400*300)))
}
