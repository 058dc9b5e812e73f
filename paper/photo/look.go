package photo

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"io"
)

// ErrTooLarge is returned for a picture that takes too much memory to read.
var ErrTooLarge = errors.New("picture too large")

// mostBytes is the memory that one picture may take while it is read: 60 million
// pixels of a JPEG as cameras write it, 15 million of a progressive one, 30 or 15
// million of a PNG by its depth. A file of a few kB may claim any size.
const mostBytes = 240e6

// Look reads the beginning of a picture, JPEG or PNG, and returns ErrTooLarge
// when Fit would refuse it for its size, or why it is no picture.
func Look(file io.Reader) error {
	var head bytes.Buffer
	config, format, err := image.DecodeConfig(io.TeeReader(file, &head))
	if err != nil {
		return fmt.Errorf("look into picture: %w", err)
	}
	each := ofPNG(config.ColorModel)
	if format == "jpeg" {
		each = ofJPEG(head.Bytes())
	}
	if float64(config.Width)*float64(config.Height)*each > mostBytes {
		return fmt.Errorf("%w: %d by %d pixels", ErrTooLarge, config.Width, config.Height)
	}
	return nil
}

// ofPNG is how many bytes a pixel takes at most. An interlaced picture is read in
// passes, which together take as much again.
func ofPNG(model color.Model) float64 {
	const again = 2
	switch model {
	case color.RGBA64Model, color.NRGBA64Model:
		return again * 8
	}
	return again * 4
}

// ofJPEG is how many bytes a pixel takes at most: four components, and where the
// file is not baseline or extended sequential, their coefficients besides (ITU-T
// T.81, B.1.1.3: the frame headers SOF0 and SOF1).
func ofJPEG(head []byte) float64 {
	const sof0, sof1, components = 0xc0, 0xc1, 4
	for marker := range segments(head) {
		if marker == sof0 || marker == sof1 {
			return components
		}
	}
	return components * 4 // coefficients are kept in 4 bytes; three components are usual
}
