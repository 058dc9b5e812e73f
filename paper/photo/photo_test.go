package photo

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
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

func FuzzFit(f *testing.F) {
	file := jpegOf(f, corner(16, 8))
	f.Add(file)
	f.Add(withOrientation(file, 6, binary.BigEndian))
	f.Add(withOrientation(file, 8, binary.LittleEndian)[:40])
	f.Fuzz(func(t *testing.T, data []byte) {
		if config, _, err := image.DecodeConfig(bytes.NewReader(data)); err == nil && config.Width*config.Height > 1<<20 {
			t.Skip("large: takes memory and time, and is no other path")
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
