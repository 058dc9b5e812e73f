package sqlite

import (
	"crypto/ed25519"
	"crypto/rand"
	"fmt"

	"asfound/journal"
)

// key is the private key (ed25519) of a device, kept in its file and in no
// other place: it is neither exported nor merged.
type key [ed25519.SeedSize]byte

func newKey() (key, error) {
	var k key
	if _, err := rand.Read(k[:]); err != nil {
		return k, fmt.Errorf("make device key: %w", err)
	}
	return k, nil
}

// keyFrom gives back the key whose bytes were kept.
func keyFrom(seed []byte) (key, error) {
	if len(seed) != ed25519.SeedSize {
		return key{}, fmt.Errorf("read device key: %d bytes, not %d", len(seed), ed25519.SeedSize)
	}
	return key(seed), nil
}

// device is the id that belongs to the key, by its public half.
func (k key) device() string {
	return journal.DeviceOf(ed25519.NewKeyFromSeed(k[:]).Public().(ed25519.PublicKey))
}
