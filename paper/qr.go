package paper

import (
	"fmt"

	"github.com/boombuler/barcode/qr"
)

// quietModules is the light margin around a QR code, in modules
// (ISO/IEC 18004:2015, 5.3.8).
const quietModules = 4

// QR draws a QR code of the content in a square of the given size, with the
// light margin inside the square. Error correction is level M, so that a smudge
// does not end it. It fails if the content is too long for a QR code.
//
// Print the same content, or a short key, in letters near it: not every camera
// reads codes.
func (g *Group) QR(x, y, size float64, content string) error {
	code, err := qr.Encode(content, qr.M, qr.Auto)
	if err != nil {
		return fmt.Errorf("draw QR code of %d bytes: %w", len(content), err)
	}
	n := code.Bounds().Dx()
	dark := func(col, row int) bool {
		r, _, _, _ := code.At(col, row).RGBA()
		return r == 0
	}
	module := size / float64(n+2*quietModules)
	g.Rect(Area{x, y, size, size}, Pen{}, White)
	left, top := x+quietModules*module, y+quietModules*module
	g.Add(Path{Runs: moduleRuns(n, left, top, module, dark), Closed: true, Fill: Black})
	return nil
}

// moduleRuns joins dark modules that touch in a row, so that no hair line shows
// between them.
func moduleRuns(n int, left, top, module float64, dark func(col, row int) bool) [][]Point {
	var runs [][]Point
	for row := range n {
		for col := 0; col < n; col++ {
			start := col
			for col < n && dark(col, row) {
				col++
			}
			if col > start {
				a := Area{left + float64(start)*module, top + float64(row)*module, float64(col-start) * module, module}
				runs = append(runs, a.corners())
			}
		}
	}
	return runs
}
