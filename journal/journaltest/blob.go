package journaltest

import (
	"errors"
	"io"
	"strings"
	"testing"
	"testing/iotest"

	"asfound/journal"
	"asfound/observation"
)

// pictureHash is the SHA-256 of "abc" (FIPS 180-4, example B.1).
const pictureHash = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"

func photographs(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	for range 2 { // the second time changes nothing
		hash, size, err := s.PutBlob(strings.NewReader("abc"))
		must(t, err)
		equal(t, "hash", hash, pictureHash)
		equal(t, "size", size, 3)
	}
	equal(t, "held", s.HasBlob(pictureHash), true)
	r, err := s.Blob(pictureHash)
	must(t, err)
	got, err := io.ReadAll(r)
	must(t, errors.Join(err, r.Close()))
	equal(t, "bytes", string(got), "abc")
	blobs, err := s.Blobs()
	must(t, err)
	equal(t, "list", blobs, []string{pictureHash})
	for _, name := range []string{"", "..", strings.Repeat("0", 64), "../" + pictureHash, strings.ToUpper(pictureHash)} {
		if _, err := s.Blob(name); !errors.Is(err, journal.ErrNoBlob) {
			t.Errorf("photograph %q: got %v, want that it is not here", name, err)
		}
		equal(t, "held "+name, s.HasBlob(name), false)
	}
}

func brokenPhotograph(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	broken := errors.New("the connection broke off")
	_, _, err := s.PutBlob(io.MultiReader(strings.NewReader("abc"), iotest.ErrReader(broken)))
	if !errors.Is(err, broken) {
		t.Errorf("got %v, want the error of the reader", err)
	}
	_, _, err = s.PutBlob(journal.Verified(strings.NewReader("abd"), pictureHash))
	if !errors.Is(err, journal.ErrWrongBlob) {
		t.Errorf("got %v, want that it is another photograph", err)
	}
	blobs, err := s.Blobs()
	must(t, err)
	equal(t, "held", len(blobs), 0)
	_, _, err = s.PutBlob(journal.Verified(strings.NewReader("abc"), pictureHash))
	must(t, err)
}

func state(t *testing.T, place Place) {
	one, two := opened(t, place, NewClock()), opened(t, place, NewClock())
	of := func(s journal.Store) string {
		marks, err := s.Marks()
		must(t, err)
		return journal.State(marks)
	}
	empty := of(one)
	phone, tablet := NewWriter("phone").Rooms(2), NewWriter("tablet").Rooms(1)
	merged(t, one, phone...)
	half := of(one)
	merged(t, one, tablet...)
	merged(t, two, tablet...)
	merged(t, two, phone...)
	equal(t, "in another order", of(two), of(one))
	if of(one) == half || half == empty {
		t.Errorf("states %s, %s, %s: want them to differ", empty, half, of(one))
	}
	if !strings.HasSuffix(of(one), "-3") {
		t.Errorf("state %s does not say 3 events", of(one))
	}
}

func check(t *testing.T, place Place) {
	s := opened(t, place, NewClock())
	photo := func(hash string) {
		_, err := s.Append(observation.Observation{Who: "Tomas Veil", Subject: "k7m3qd8x2a-1",
			Body: observation.Photo{Hash: hash, Type: "image/jpeg", Bytes: 3}})
		must(t, err)
	}
	_, _, err := s.PutBlob(strings.NewReader("abc"))
	must(t, err)
	photo(pictureHash)
	photo(strings.Repeat("0", 64))
	extra, _, err := s.PutBlob(strings.NewReader("extra"))
	must(t, err)
	r := whole(t, s)
	equal(t, "events, devices, photographs", []int{int(r.Events), r.Devices, r.Photos}, []int{2, 1, 2})
	if len(r.Missing) != 1 || !strings.Contains(r.Missing[0], s.Device()+"-2") {
		t.Errorf("missing: got %q, want the photograph of the second event", r.Missing)
	}
	if len(r.Notes) != 1 || !strings.Contains(r.Notes[0], extra) {
		t.Errorf("notes: got %q, want the extra photograph", r.Notes)
	}
}
