package journal

import (
	"crypto/ed25519"
	"crypto/sha256"
	"fmt"
	"io"
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

// Key is the private key (ed25519) of a device, kept in its store and in no
// other place: it is neither exported nor merged.
type Key struct {
	seed   [ed25519.SeedSize]byte
	device string
}

// NewKey makes a key from 32 bytes of random.
func NewKey(random io.Reader) (Key, error) {
	var seed [ed25519.SeedSize]byte
	if _, err := io.ReadFull(random, seed[:]); err != nil {
		return Key{}, fmt.Errorf("make device key: %w", err)
	}
	return KeyFromSeed(seed[:])
}

// deviceLetters makes ids of 50 bits: people never type them, and two of a
// thousand devices share one by chance once in two billion jobs.
const deviceLetters = 10

// KeyFromSeed gives back the key whose Seed was kept.
func KeyFromSeed(seed []byte) (Key, error) {
	if len(seed) != ed25519.SeedSize {
		return Key{}, fmt.Errorf("read device key: %d bytes, not %d", len(seed), ed25519.SeedSize)
	}
	k := Key{seed: [ed25519.SeedSize]byte(seed)}
	public := k.Private().Public().(ed25519.PublicKey)
	k.device = short(sha256.Sum256(public), deviceLetters)
	return k, nil
}

// Seed is what a store keeps of the key. It is secret.
func (k Key) Seed() []byte { return slices.Clone(k.seed[:]) }

// Private is the key for signing.
func (k Key) Private() ed25519.PrivateKey { return ed25519.NewKeyFromSeed(k.seed[:]) }

// Device is the id that belongs to the key: ten signs of the hash of its public
// half.
func (k Key) Device() string { return k.device }

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
