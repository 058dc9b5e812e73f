package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"testing"
)

// corner is a picture whose top left quarter is black, the rest white.
func corner(w, h int) image.Image {
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			out.Set(x, y, color.White)
			if x < w/2 && y < h/2 {
				out.Set(x, y, color.Black)
			}
		}
	}
	return out
}

func jpegOf(t testing.TB, in image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := jpeg.Encode(&out, in, nil); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// withOrientation puts an Exif segment behind the first marker.
func withOrientation(file []byte, orientation uint16, order binary.AppendByteOrder) []byte {
	exif := []byte("Exif\x00\x00MM\x00\x2a")
	if order == binary.AppendByteOrder(binary.LittleEndian) {
		exif = []byte("Exif\x00\x00II\x2a\x00")
	}
	exif = order.AppendUint32(exif, 8)
	exif = order.AppendUint16(exif, 1)
	exif = order.AppendUint16(exif, 0x0112)
	exif = order.AppendUint16(exif, 3)
	exif = order.AppendUint32(exif, 1)
	exif = order.AppendUint16(exif, orientation)
	exif = append(exif, 0, 0, 0, 0, 0, 0)
	out := append([]byte{}, file[:2]...)
	out = append(out, 0xff, 0xe1)
	out = binary.BigEndian.AppendUint16(out, uint16(len(exif)+2))
	return append(append(out, exif...), file[2:]...)
}

func dark(in image.Image, x, y int) bool {
	r, _, _, _ := in.At(x, y).RGBA()
	return r < 0x8000
}

// Where the quarter that was kept top left is seen, for each orientation, as
// Exif 2.32 describes the value: "6: the 0th row is the right side, the 0th
// column the top".
func TestUpright(t *testing.T) {
	seen := []string{"top left", "top left", "top right", "bottom right", "bottom left", "top left", "top right", "bottom right", "bottom left"}
	for orientation, want := range seen {
		for _, order := range []binary.AppendByteOrder{binary.BigEndian, binary.LittleEndian} {
			out, err := Fit(withOrientation(jpegOf(t, corner(80, 40)), uint16(orientation), order), 80)
			if err != nil {
				t.Fatal(err)
			}
			in, err := jpeg.Decode(bytes.NewReader(out))
			if err != nil {
				t.Fatal(err)
			}
			w, h := in.Bounds().Dx(), in.Bounds().Dy()
			if lying := w > h; lying != (orientation < 5) {
				t.Errorf("orientation %d: %d by %d", orientation, w, h)
			}
			var got string
			for name, at := range map[string][2]int{"top left": {w / 8, h / 8}, "top right": {w * 7 / 8, h / 8}, "bottom left": {w / 8, h * 7 / 8}, "bottom right": {w * 7 / 8, h * 7 / 8}} {
				if dark(in, at[0], at[1]) {
					got += name
				}
			}
			if got != want {
				t.Errorf("orientation %d: the dark corner is %q, want %q", orientation, got, want)
			}
		}
	}
}

func TestFitsTheSize(t *testing.T) {
	var asPNG bytes.Buffer
	if err := png.Encode(&asPNG, image.NewNRGBA(image.Rect(0, 0, 300, 900))); err != nil {
		t.Fatal(err)
	}
	for i, c := range []struct {
		file          []byte
		longest, w, h int
	}{
		{jpegOf(t, corner(1600, 1200)), 400, 400, 300},
		{jpegOf(t, corner(500, 400)), 400, 400, 320},
		{jpegOf(t, corner(100, 50)), 400, 100, 50},
		{jpegOf(t, corner(3000, 2)), 400, 400, 1},
		{asPNG.Bytes(), 90, 30, 90},
	} {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			out, err := Fit(c.file, c.longest)
			if err != nil {
				t.Fatal(err)
			}
			in, err := jpeg.Decode(bytes.NewReader(out))
			if err != nil {
				t.Fatal(err)
			}
			if in.Bounds().Dx() != c.w || in.Bounds().Dy() != c.h {
				t.Errorf("%v, want %d by %d", in.Bounds(), c.w, c.h)
			}
		})
	}
	out, err := Fit(asPNG.Bytes(), 90)
	if err != nil {
		t.Fatal(err)
	}
	if in, _ := jpeg.Decode(bytes.NewReader(out)); dark(in, 5, 5) {
		t.Error("what is clear in a PNG is not white on paper")
	}
}

func TestPictureThatCannotBeRead(t *testing.T) {
	file := jpegOf(t, corner(80, 40))
	for _, data := range [][]byte{nil, []byte("not a picture"), file[:len(file)/2]} {
		if _, err := Fit(data, 100); err == nil {
			t.Errorf("%d bytes that are no picture were read", len(data))
		}
	}
	huge := append([]byte{}, file...)
	at := bytes.Index(huge, []byte{0xff, 0xc0})
	binary.BigEndian.PutUint16(huge[at+5:], 65535)
	binary.BigEndian.PutUint16(huge[at+7:], 65535)
	if _, err := Fit(huge, 100); !errors.Is(err, ErrTooLarge) {
		t.Errorf("a picture of 4 billion pixels: %v", err)
	}
}

// claimingPNG is a file of a few bytes that claims a size.
func claimingPNG(w, h uint32, depth, color byte) []byte {
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32([]byte("IHDR"), w), h)
	head = append(head, depth, color, 0, 0, 0)
	out := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\x0d"), head...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(head))
}

// claimingJPEG has the frame header of a kind: 0xc0 baseline, 0xc2 progressive
// (ITU-T T.81, table B.1).
func claimingJPEG(t *testing.T, w, h uint16, frame byte) []byte {
	t.Helper()
	out := bytes.Clone(jpegOf(t, corner(80, 40)))
	at := bytes.Index(out, []byte{0xff, 0xc0})
	out[at+1] = frame
	binary.BigEndian.PutUint16(out[at+5:], h)
	binary.BigEndian.PutUint16(out[at+7:], w)
	return out
}

// What a picture may claim goes by the memory that reading it takes.
func TestTooLargeGoesByMemory(t *testing.T) {
	for _, c := range []struct {
		name  string
		file  []byte
		large bool
	}{
		{"JPEG of 50 million pixels", claimingJPEG(t, 8165, 6124, 0xc0), false},
		{"JPEG of 108 million pixels", claimingJPEG(t, 12000, 9000, 0xc0), true},
		{"progressive JPEG of 12 million pixels", claimingJPEG(t, 4000, 3000, 0xc2), false},
		{"progressive JPEG of 50 million pixels", claimingJPEG(t, 8165, 6124, 0xc2), true},
		{"PNG of 24 million pixels", claimingPNG(6000, 4000, 8, 6), false},
		{"PNG of 50 million pixels", claimingPNG(8165, 6124, 8, 6), true},
		{"PNG of 12 million pixels of 16 bits", claimingPNG(4000, 3000, 16, 6), false},
		{"PNG of 24 million pixels of 16 bits", claimingPNG(6000, 4000, 16, 6), true},
		{"PNG of 220 million pixels", claimingPNG(20000, 11000, 8, 2), true},
	} {
		if err := Look(bytes.NewReader(c.file)); errors.Is(err, ErrTooLarge) != c.large || err != nil != c.large {
			t.Errorf("%s: %v, want too large: %t", c.name, err, c.large)
		}
		if c.large {
			if _, err := Fit(c.file, 100); !errors.Is(err, ErrTooLarge) {
				t.Errorf("%s: fitted, %v", c.name, err)
			}
		}
	}
}

func FuzzFit(f *testing.F) {
	file := jpegOf(f, corner(16, 8))
	f.Add(file)
	f.Add(withOrientation(file, 6, binary.BigEndian))
	f.Add(withOrientation(file, 8, binary.LittleEndian)[:40])
	f.Fuzz(func(t *testing.T, data []byte) {
		if config, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && config.Width*config.Height > 1<<20 {
			return // takes the same path as a small one, with more memory and time
		}
		out, err := Fit(data, 8)
		if err != nil {
			return
		}
		config, err := jpeg.DecodeConfig(bytes.NewReader(out))
		if err != nil || config.Width > 8 || config.Height > 8 || config.Width < 1 || config.Height < 1 {
			t.Errorf("%d by %d, %v", config.Width, config.Height, err)
		}
	})
}

// One photograph of a phone of 12 million pixels.
func BenchmarkFit12Megapixel(b *testing.B) {
	file := jpegOf(b, corner(4000, 3000))
	for b.Loop() {
		if _, err := Fit(file, 560); err != nil {
			b.Fatal(err)
		}
	}
}

// One photograph of a phone of 12 million pixels, as noisy as one by lamp light.
func BenchmarkFitNoisy12Megapixel(b *testing.B) {
	in := image.NewRGBA(image.Rect(0, 0, 4000, 3000))
	noise := rand.New(rand.NewPCG(1, 2))
	for i := range in.Pix {
		in.Pix[i] = uint8(118 + noise.IntN(20))
	}
	file := jpegOf(b, in)
	b.SetBytes(int64(len(file)))
	for b.Loop() {
		if _, err := Fit(file, 520); err != nil {
			b.Fatal(err)
		}
	}
}
