package sqlite

import "testing"

func TestKeyIsKeptWhole(t *testing.T) {
	k, err := newKey()
	if err != nil {
		t.Fatal(err)
	}
	again, err := keyFrom(k[:])
	if err != nil || again.device() != k.device() {
		t.Errorf("kept and read again: %q, %v; want %q", again.device(), err, k.device())
	}
	if _, err := keyFrom(k[:31]); err == nil {
		t.Error("a key was read from 31 bytes")
	}
}
