package journal

import (
	"crypto/sha256"
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// figures are the 32 signs of ids and states: no i, l, o or u, which are read as
// 1, 0 and v.
const figures = "0123456789abcdefghjkmnpqrstvwxyz"

// short writes the first n × 5 bits of a hash.
func short(sum [sha256.Size]byte, n int) string {
	var out strings.Builder
	for i := range n {
		bit := i * 5
		pair := uint(sum[bit/8])<<8 | uint(sum[bit/8+1])
		out.WriteByte(figures[pair>>(11-bit%8)&31])
	}
	return out.String()
}

// deviceLetters makes ids of 50 bits: people never type them, and two of a
// thousand devices share one by chance once in two billion jobs.
const deviceLetters = 10

// DeviceOf is the id that belongs to a device's public key: ten signs of its
// hash.
func DeviceOf(public []byte) string { return short(sha256.Sum256(public), deviceLetters) }

// State is a short text for the journal state with these marks, to be printed on
// a sheet: six signs that differ when any mark differs, a hyphen, and how many
// events are counted ("k7m3qd-1204").
func State(marks map[string]uint64) string {
	devices := make([]string, 0, len(marks))
	for dev, seq := range marks {
		if seq > 0 {
			devices = append(devices, dev)
		}
	}
	slices.Sort(devices)
	var text strings.Builder
	var count uint64
	for _, dev := range devices {
		fmt.Fprintf(&text, "%s %d\n", strconv.Quote(dev), marks[dev])
		count += marks[dev]
	}
	const letters = 6
	return short(sha256.Sum256([]byte(text.String())), letters) + "-" + strconv.FormatUint(count, 10)
}
