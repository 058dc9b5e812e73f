package paper

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The code is read back from the drawn squares, not from the library that made
// it, by the steps of ISO/IEC 18004:2015, clause 12: format information, mask,
// code words in their zigzag order, one byte-mode segment. Only versions 1 to 3
// at level M are read: they have a single block, so code words are in order.
func TestQRReadsBack(t *testing.T) {
	for _, content := range []string{"K7M2Q", "https://laptop.local/s/K7M2Q", "http://127.0.0.1:8340/sheet/ab12"} {
		if got := readQR(t, drawnModules(t, content)); got != content {
			t.Errorf("read %q, want %q", got, content)
		}
	}
}

func TestQREveryShortAddressReadsBack(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		content := rapid.StringMatching(`[a-z][a-zA-Z0-9/._-]{0,38}`).Draw(r, "content")
		if got := readQR(t, drawnModules(t, content)); got != content {
			r.Fatalf("read %q, want %q", got, content)
		}
	})
}

func TestQRTooLongIsAnError(t *testing.T) {
	p := NewPage(Letter, "")
	if err := p.QR(0, 0, 20, strings.Repeat("x", 5000)); err == nil {
		t.Error("5,000 bytes made a QR code")
	}
	if _, err := NewSheet(Frame{Find: strings.Repeat("x", 5000)}); err == nil {
		t.Error("5,000 bytes made the foot of a sheet")
	}
}

// drawnModules samples the drawing at the center of every module.
func drawnModules(t *testing.T, content string) [][]bool {
	t.Helper()
	const x, y, size = 7.0, 11.0, 30.0
	p := NewPage(Letter, "")
	if err := p.QR(x, y, size, content); err != nil {
		t.Fatal(err)
	}
	runs := p.Marks[1].(Path).Runs
	// The first run is the top bar of the finder pattern: seven modules.
	module := (runs[0][1].X - runs[0][0].X) / 7
	n := int(math.Round(size/module)) - 8
	grid := make([][]bool, n)
	for row := range n {
		grid[row] = make([]bool, n)
		for col := range n {
			cx, cy := x+(float64(col)+4.5)*module, y+(float64(row)+4.5)*module
			for _, r := range runs {
				if r[0].X < cx && cx < r[2].X && r[0].Y < cy && cy < r[2].Y {
					grid[row][col] = true
				}
			}
		}
	}
	return grid
}

func readQR(t *testing.T, g [][]bool) string {
	t.Helper()
	n := len(g)
	version := (n - 17) / 4
	if n%4 != 1 || version < 1 || version > 3 {
		t.Fatalf("%d modules wide: not version 1 to 3", n)
	}
	// Format information, the copy around the top left finder: bits 14 to 10 are
	// level and mask, XORed with 10101.
	format := 0
	for _, col := range []int{0, 1, 2, 3, 4} {
		format = format << 1
		if g[8][col] {
			format |= 1
		}
	}
	format ^= 0b10101
	if level := format >> 3; level != 0 {
		t.Fatalf("level bits %02b, want 00 for M", level)
	}
	bits := codeBits(g, format&7)
	take := func(k int) (v int) {
		for _, b := range bits[:k] {
			v = v<<1 | b
		}
		bits = bits[k:]
		return v
	}
	switch mode := take(4); mode {
	case 0b0100:
		text := make([]byte, take(8))
		for i := range text {
			text[i] = byte(take(8))
		}
		return string(text)
	case 0b0010:
		return readAlphanumeric(take)
	default:
		t.Fatalf("mode %04b", mode)
		return ""
	}
}

func readAlphanumeric(take func(int) int) string {
	const letters = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
	var b strings.Builder
	for n := take(9); n > 0; n -= 2 {
		if n == 1 {
			b.WriteByte(letters[take(6)])
			break
		}
		pair := take(11)
		b.WriteString(string(letters[pair/45]) + string(letters[pair%45]))
	}
	return b.String()
}

var qrMasks = [8]func(i, j int) bool{
	func(i, j int) bool { return (i+j)%2 == 0 },
	func(i, j int) bool { return i%2 == 0 },
	func(i, j int) bool { return j%3 == 0 },
	func(i, j int) bool { return (i+j)%3 == 0 },
	func(i, j int) bool { return (i/2+j/3)%2 == 0 },
	func(i, j int) bool { return i*j%2+i*j%3 == 0 },
	func(i, j int) bool { return (i*j%2+i*j%3)%2 == 0 },
	func(i, j int) bool { return ((i+j)%2+i*j%3)%2 == 0 },
}

// codeBits walks column pairs from the right, up and down in turn, skipping the
// timing column and everything that is not data.
func codeBits(g [][]bool, mask int) []int {
	n := len(g)
	var bits []int
	up := true
	for right := n - 1; right > 0; right -= 2 {
		if right == 6 {
			right--
		}
		for k := range n {
			row := k
			if up {
				row = n - 1 - k
			}
			for col := right; col > right-2; col-- {
				if qrFixed(n, row, col) {
					continue
				}
				bit := 0
				if g[row][col] != qrMasks[mask](row, col) {
					bit = 1
				}
				bits = append(bits, bit)
			}
		}
		up = !up
	}
	return bits
}

// qrFixed tells finder, format, timing and alignment modules from data.
func qrFixed(n, row, col int) bool {
	finder := row < 9 && col < 9 || row < 9 && col >= n-8 || row >= n-8 && col < 9
	timing := row == 6 || col == 6
	c := n - 7 // center of the one alignment pattern of versions 2 and 3
	align := n > 21 && row >= c-2 && row <= c+2 && col >= c-2 && col <= c+2
	return finder || timing || align
}
