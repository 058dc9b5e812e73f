package list

import (
	"bytes"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// decode turns the bytes of a file into text. A byte-order mark says how the
// letters are written (Unicode Standard 23.8); without one, a zero in every
// other byte is UTF-16, what is valid UTF-8 is that, and anything else was
// written by a program of one byte a letter: Windows-1252.
func decode(data []byte) (text, encoding string, err error) {
	if rest, ok := bytes.CutPrefix(data, []byte("\xef\xbb\xbf")); ok {
		return strings.ToValidUTF8(string(rest), string(utf8.RuneError)), "UTF-8", nil
	}
	if rest, ok := bytes.CutPrefix(data, []byte("\xff\xfe")); ok {
		return wide(rest, 1, 0), "UTF-16", nil
	}
	if rest, ok := bytes.CutPrefix(data, []byte("\xfe\xff")); ok {
		return wide(rest, 0, 1), "UTF-16", nil
	}
	switch {
	case bytes.HasPrefix(data, []byte("PK\x03\x04")), bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0")), bytes.HasPrefix(data, []byte("%PDF")):
		return "", "", unusable("This is not a list of plain text. Save it from the spreadsheet as CSV and choose that file.")
	case len(data) > 3 && data[0] != 0 && data[1] == 0 && data[3] == 0:
		return wide(data, 1, 0), "UTF-16", nil
	case len(data) > 3 && data[0] == 0 && data[1] != 0 && data[2] == 0:
		return wide(data, 0, 1), "UTF-16", nil
	case bytes.IndexByte(data, 0) >= 0:
		return "", "", unusable("This is not a list of plain text. Save it from the spreadsheet as CSV and choose that file.")
	case utf8.Valid(data):
		return string(data), "UTF-8", nil
	}
	return narrow(data), "Windows-1252", nil
}

// wide reads UTF-16, whose units have their high byte at one of two places.
func wide(data []byte, high, low int) string {
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = uint16(data[2*i+high])<<8 | uint16(data[2*i+low])
	}
	return string(utf16.Decode(units))
}

// beyond1252 are the letters of bytes 0x80 to 0x9f in Windows-1252; the others
// stand where Latin-1 has them (Unicode Consortium, CP1252.TXT, from memory).
// Five bytes stand for nothing.
var beyond1252 = []rune("€\ufffd‚ƒ„…†‡ˆ‰Š‹Œ\ufffdŽ\ufffd\ufffd‘’“”•–—˜™š›œ\ufffdžŸ")

func narrow(data []byte) string {
	var out strings.Builder
	out.Grow(len(data) + len(data)/8)
	for _, b := range data {
		switch {
		case b < utf8.RuneSelf:
			out.WriteByte(b)
		case b < 0xa0:
			out.WriteRune(beyond1252[b-0x80])
		default:
			out.WriteRune(rune(b))
		}
	}
	return out.String()
}
