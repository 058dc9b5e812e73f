package photo

import (
	"bytes"
	"encoding/binary"
	"iter"
)

// held is how the camera noted it was held: a number from 1, upright, to 8, or 0
// when a file does not say. It stands in the first Exif segment of a JPEG file
// (Exif 2.32, 4.5.4 and 4.6.4; TIFF 6.0, section 2).
func held(data []byte) int {
	const app1 = 0xe1
	for marker, segment := range segments(data) {
		if exif, ok := bytes.CutPrefix(segment, []byte("Exif\x00\x00")); ok && marker == app1 {
			return orientation(exif)
		}
	}
	return 0
}

// segments goes through the marker segments of a JPEG file before its first scan
// (ITU-T T.81, B.1.1.4). The last may be cut off.
func segments(data []byte) iter.Seq2[byte, []byte] {
	const begin, scan = 0xd8, 0xda
	return func(yield func(byte, []byte) bool) {
		if len(data) < 4 || data[0] != 0xff || data[1] != begin {
			return
		}
		for at := 2; at+4 <= len(data) && data[at] == 0xff; {
			marker, size := data[at+1], int(binary.BigEndian.Uint16(data[at+2:]))
			if size < 2 || marker == scan || !yield(marker, data[at+4:max(at+4, min(at+2+size, len(data)))]) {
				return
			}
			at += 2 + size
		}
	}
}

// orientation reads tag 0x0112 of the first directory of a TIFF structure.
func orientation(tiff []byte) int {
	if len(tiff) < 8 {
		return 0
	}
	var order binary.ByteOrder = binary.BigEndian
	if tiff[0] == 'I' {
		order = binary.LittleEndian
	}
	first := int(order.Uint32(tiff[4:]))
	if first < 8 || first+2 > len(tiff) {
		return 0
	}
	for i := range int(order.Uint16(tiff[first:])) {
		at := first + 2 + 12*i
		if at+12 > len(tiff) {
			return 0
		}
		if order.Uint16(tiff[at:]) == 0x0112 {
			return int(order.Uint16(tiff[at+8:]))
		}
	}
	return 0
}
