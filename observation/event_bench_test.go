package observation

import (
	"testing"
	"time"

	"asfound/quantity"
)

func BenchmarkDecode(b *testing.B) {
	at := Point{At: "k7m3qd8x2a-44", Cable: "2", Wire: Hot}
	other := Point{At: "k7m3qd8x2a-44", Cable: "2", Wire: EGC}
	e := Event{ID: ID{"k7m3qd8x2a", 1204}, HLC: 113554325504000001, Wall: time.Now().Truncate(time.Millisecond),
		Prev: "5891b5b522d5df086d0ff0b110fbd9d21bb4fc7163af34d08286a2e846f6be03",
		Observation: Observation{Who: "Marit Sandvei", Stop: "k7m3qd8x2a-1200", Under: []ID{{"k7m3qd8x2a", 17}}, Subject: at.At,
			Body: Ohm{A: at, B: other, Ohm: quantity.Resistance{Ohm: 2490}, Reprobed: Yes}}}
	raw, err := e.Encode()
	if err != nil {
		b.Fatal(err)
	}
	for name, decode := range map[string]func([]byte) (Event, error){"Decode": Decode, "any": decodeAny} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := decode(raw); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
