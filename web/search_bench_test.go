package web

import (
	"fmt"
	"testing"
	"time"

	"asfound/observation"
)

// A journal of 100,000 entries: each search after the first looks at lines that
// are made already.
func BenchmarkSearch100000(b *testing.B) {
	h := newBench(b, 100_000)
	for _, c := range []struct{ name, query string }{{"all", ""}, {"two words", "words=veil+b7"}, {"no hit", "words=nowhere"}, {"place and day", "place=A02+Great+room&from=2031-05-29&to=2031-06-02"},
		{"person and kind", "by=Dell+Amoah&kind=note.1"}, {"differ", "differ=yes"}, {"withdrawn", "gone=yes"}} {
		b.Run(c.name, func(b *testing.B) {
			h.send("GET", "/journal?"+c.query, nil)
			for b.Loop() {
				if r := h.send("GET", "/journal?"+c.query, nil); r.Status != statusOK {
					b.Fatal(r.Status)
				}
			}
		})
	}
	b.Run("made anew after a rename", func(b *testing.B) {
		events, found := h.events(), h.found()
		for b.Loop() {
			var x index
			x.look(events, found)
		}
	})
}

// newBench is a built house with so many entries from three people on many days.
func newBench(b *testing.B, entries int) *house {
	b.Helper()
	t := &testing.T{}
	h := built(t)
	people := []string{"Marit Sandvei", "Dell Amoah", "Tomas Veil"}
	numbers := []string{"A02-01", "A02-02", "A02-03", "A02-04", "A03-01", "A03-02", "A03-03"}
	for i := range entries {
		h.now = h.now.Add(30 * time.Second)
		o := observation.Observation{Who: people[i/40%3], Stop: fmt.Sprint("s", i/4), Subject: h.opening[numbers[i/4%7]]}
		switch i % 4 {
		case 0:
			o.Body = observation.Letters{Letters: "b7"}
		case 1:
			o.Body = observation.Note{Text: fmt.Sprintf("Mud ring %d sits crooked, plaster in the box", i)}
		default:
			o.Subject, o.Body = "", observation.Ohm{A: observation.Point{At: h.opening[numbers[i/4%7]], Wire: observation.Hot}, B: observation.Point{At: h.opening[numbers[i/4%7]], Wire: observation.EGC}, Reprobed: observation.Yes}
		}
		o.Who = people[i/40%3]
		if _, err := h.store.Append(o); err != nil {
			b.Fatal(err)
		}
	}
	return h
}
