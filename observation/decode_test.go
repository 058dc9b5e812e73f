package observation

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// FuzzDecode demands that Decode never panics, that the scanner agrees with the
// general reader wherever it reads at all, and that what was read comes back
// equal when it is encoded.
func FuzzDecode(f *testing.F) {
	for _, body := range examples {
		raw, err := example(body).Encode()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(raw)
	}
	for _, odd := range []string{
		`{"dev":"p2x","seq":1,"hlc":0,"wall":"2026-03-09T08:30:00Z","who":"","kind":"drone.3","data":{"a":[}]}}`,
		`{"dev":"p2x","seq":1,"hlc":0,"wall":"2026-03-09T08:30:00Z","who":"","kind":"ohm.1","data":{"a":{"at":"x","wire":"hot"},"b":{"at":"x","space":007,"wire":"egc"},"ohm":1.}}`,
		`{"dev":"p2x","seq":1,"hlc":0,"wall":"2026-03-09T08:30:00Z","under":[],"who":"` + "\xff" + `","kind":"building.1","data":{"name":"A"},"seen":["a-1",""]}`,
		`{"dev":"p2x","seq":1,"kind":"building.1","data":{"name":"A"},"dev":"other","SEQ":7}`,
		`{"dev":"p2x","seq":1,"kind":"building.1","data":null}`,
	} {
		f.Add([]byte(odd))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		if scanned, ok := scanEvent(raw); ok {
			general, err := decodeAny(raw)
			if err != nil {
				t.Fatalf("the scanner reads %+v, the general reader: %v", scanned, err)
			}
			if diff := cmp.Diff(general, scanned); diff != "" {
				t.Errorf("general reader (-) and scanner (+):\n%s", diff)
			}
		}
		e, err := Decode(raw)
		if err != nil || e.Body == nil {
			return
		}
		again, err := e.Encode()
		if err != nil {
			return // a time or a text that JSON allows and this form does not
		}
		back, err := Decode(again)
		if err != nil {
			t.Fatalf("%s, encoded as %s: %v", raw, again, err)
		}
		if third, err := back.Encode(); err != nil || string(third) != string(again) {
			t.Errorf("encoded as %s, then as %s (%v)", again, third, err)
		}
	})
}
