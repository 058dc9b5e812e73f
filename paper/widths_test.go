package paper

import (
	"encoding/binary"
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
)

var update = flag.Bool("update", false, "write the golden files and the table of widths anew")

// The table must be what the fonts say: the tables cmap (format 4), hmtx, hhea
// and head of the OpenType specification (ISO/IEC 14496-22).
func TestWidthsAreTheFonts(t *testing.T) {
	var want strings.Builder
	for f, ttf := range [faces][]byte{goregular.TTF, gobold.TTF, goitalic.TTF, gomono.TTF} {
		want.WriteString(widthLines(Face(f), ttf))
	}
	if *update {
		if err := os.WriteFile("widths.txt", []byte(want.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(want.String(), widthTable); diff != "" {
		t.Errorf("widths.txt is not what the fonts say (-fonts +table):\n%s", diff)
	}
}

func TestFacesHaveTheSignsOfTheTrade(t *testing.T) {
	for f := range faces {
		for _, r := range "Ωµ°±≤≥½…·–—×√→²" {
			if !f.Has(r) {
				t.Errorf("face %d lacks %q", f, r)
			}
		}
		if f.Has('✓') {
			t.Errorf("face %d has a check mark after all: Tick need not be drawn", f)
		}
	}
}

func widthLines(f Face, ttf []byte) string {
	w := fontWidths(ttf)
	var b strings.Builder
	for r := rune(1); r <= 0xFFFF; r++ {
		width, ok := w[r]
		if !ok {
			continue
		}
		if _, before := w[r-1]; !before {
			fmt.Fprintf(&b, "%d %04X", f, r)
		}
		fmt.Fprintf(&b, " %d", width)
		if _, after := w[r+1]; !after {
			b.WriteByte('\n')
		}
	}
	return b.String()
}

// fontWidths reads the advance of every character, in thousandths of the size.
func fontWidths(ttf []byte) map[rune]int {
	u16 := func(b []byte, at int) int { return int(binary.BigEndian.Uint16(b[at:])) }
	tables := map[string][]byte{}
	for i := range u16(ttf, 4) {
		e := ttf[12+16*i:]
		from, n := binary.BigEndian.Uint32(e[8:]), binary.BigEndian.Uint32(e[12:])
		tables[string(e[:4])] = ttf[from : from+n]
	}
	unitsPerEm, longMetrics := u16(tables["head"], 18), u16(tables["hhea"], 34)
	advance := func(glyph int) int {
		units := u16(tables["hmtx"], 4*min(glyph, longMetrics-1))
		return (units*1000 + unitsPerEm/2) / unitsPerEm
	}
	widths := map[rune]int{}
	c := cmapFormat4(tables["cmap"])
	n := u16(c, 6) / 2
	for s := range n {
		end, start := u16(c, 14+2*s), u16(c, 16+2*n+2*s)
		delta, offsetAt := u16(c, 16+4*n+2*s), 16+6*n+2*s
		for r := start; r <= end && r != 0xFFFF; r++ {
			glyph := r
			if off := u16(c, offsetAt); off != 0 {
				glyph = u16(c, offsetAt+off+2*(r-start))
			}
			if glyph = (glyph + delta) & 0xFFFF; glyph != 0 {
				widths[rune(r)] = advance(glyph)
			}
		}
	}
	return widths
}

func cmapFormat4(cmap []byte) []byte {
	for i := range int(binary.BigEndian.Uint16(cmap[2:])) {
		sub := cmap[binary.BigEndian.Uint32(cmap[4+8*i+4:]):]
		if binary.BigEndian.Uint16(sub) == 4 {
			return sub
		}
	}
	return nil
}
