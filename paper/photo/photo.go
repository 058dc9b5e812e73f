// Package photo makes a photograph fit for paper: upright, no larger than the
// print needs, as JPEG.
//
// It refuses a picture that would take more memory than a phone or laptop has to
// spare, and it changes nothing else: no crop, no color, no sharpening.
//
// Start reading at Fit.
package photo

import (
	"bytes"
	"fmt"
	"image"
	"image/jpeg"
	_ "image/png" // photographs may be PNG too

	"golang.org/x/image/draw"
)

// quality is that of the JPEG on paper: its blocks are not seen at 150 dots an
// inch (by eye).
const quality = 78

// Fit returns the picture in data, JPEG or PNG, as an upright baseline JPEG
// whose longer side has at most so many pixels. What the camera noted of how it
// was held is followed.
func Fit(data []byte, longest int) ([]byte, error) {
	if err := Look(bytes.NewReader(data)); err != nil {
		return nil, err
	}
	full, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("read picture: %w", err)
	}
	var out bytes.Buffer
	if err := jpeg.Encode(&out, upright(smaller(full, longest), held(data)), &jpeg.Options{Quality: quality}); err != nil {
		return nil, fmt.Errorf("write picture: %w", err)
	}
	return out.Bytes(), nil
}

// smaller scales a picture down onto white ground; one that is small enough
// keeps its size.
func smaller(full image.Image, longest int) *image.RGBA {
	w, h := full.Bounds().Dx(), full.Bounds().Dy()
	if most := max(w, h); most > longest && longest > 0 {
		w, h = max(1, w*longest/most), max(1, h*longest/most)
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src)
	if w == full.Bounds().Dx() {
		draw.Draw(out, out.Bounds(), full, full.Bounds().Min, draw.Over)
	} else {
		halved(out, full)
	}
	return out
}

// halved scales down: roughly to twice the size wanted, then smoothly, so that
// thin print in the picture stays readable and a large picture does not take
// seconds.
func halved(out *image.RGBA, full image.Image) {
	w, h := 2*out.Bounds().Dx(), 2*out.Bounds().Dy()
	if w >= full.Bounds().Dx() {
		draw.BiLinear.Scale(out, out.Bounds(), full, full.Bounds(), draw.Over, nil)
		return
	}
	half := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.ApproxBiLinear.Scale(half, half.Bounds(), full, full.Bounds(), draw.Src, nil)
	draw.BiLinear.Scale(out, out.Bounds(), half, half.Bounds(), draw.Over, nil)
}

// upright turns a picture as its orientation says (Exif 2.32, tag 0x0112).
func upright(in *image.RGBA, orientation int) image.Image {
	if orientation < 2 || orientation > 8 {
		return in
	}
	w, h := in.Bounds().Dx(), in.Bounds().Dy()
	size := image.Rect(0, 0, w, h)
	if orientation >= 5 {
		size = image.Rect(0, 0, h, w)
	}
	out := image.NewRGBA(size)
	for y := range h {
		for x := range w {
			tx, ty := turned(x, y, w, h, orientation)
			out.SetRGBA(tx, ty, in.RGBAAt(x, y))
		}
	}
	return out
}

// turned is where a pixel of the picture as kept stands in the upright one.
func turned(x, y, w, h, orientation int) (int, int) {
	switch orientation {
	case 2:
		return w - 1 - x, y
	case 3:
		return w - 1 - x, h - 1 - y
	case 4:
		return x, h - 1 - y
	case 5:
		return y, x
	case 6:
		return h - 1 - y, x
	case 7:
		return h - 1 - y, w - 1 - x
	}
	return y, w - 1 - x
}
