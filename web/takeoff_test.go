package web

import (
	"fmt"
	"strings"
	"testing"

	"asfound/observation"
	"asfound/quantity"
)

func TestTakeOff(t *testing.T) {
	h := traced(t)
	path := "/takeoff/" + h.tour.String()
	wants(t, h.get(path), "7 of 7 resistors were not read back after the walk", "7 off, 7 in the bag")
	h.kept(path, "note", "all in the bag")
	if !h.found().Tours[0].Removed {
		t.Error("the tour still stands")
	}
	page := h.get(path)
	wants(t, page, "This tour is taken down.")
	if strings.Contains(page, "still need the resistors") {
		t.Error("resistors are asked for that are off")
	}
}

// What still needs the resistors stands before everything else of the page: each
// line that is not settled with what it lacks, and the openings not read.
func TestTakeOffSaysWhatStillNeedsTheResistors(t *testing.T) {
	h := traced(t)
	path := "/takeoff/" + h.tour.String()
	page := h.get(path)
	need := between(page, "These still need the resistors", "</section>")
	if strings.Index(page, "These still need the resistors") > strings.Index(page, "Count them") {
		t.Error("what still needs the resistors does not stand first")
	}
	for _, l := range h.found().Trace.Lines {
		if s := standingWord(l.Verdict); s != "settled" && s != "untested" && !strings.Contains(need, " at "+h.found().Name(l.End.At)+" ") {
			t.Errorf("%s is %s, and is not named:\n%s", h.found().PointName(l.End), s, need)
		} else if !strings.Contains(need, l.Lacks()) {
			t.Errorf("the page does not say what %s lacks: %q", h.found().PointName(l.End), l.Lacks())
		}
	}
	wants(t, need, ">A02-04</a>", ">A03-02</a>")
	if strings.Contains(need, ">A03-03</a>") {
		t.Error("an opening that nobody can reach keeps the resistors on")
	}
	h.kept(path)
}

// Of many lines, the first say what they lack; the others are folded away and
// lead to the page that says it.
func TestTakeOffOfManyLines(t *testing.T) {
	h := built(t).touring()
	for i := range 4 {
		h.read(fmt.Sprintf("A02-%02d", i+1), fmt.Sprint("v", i), 2*i+1, 2*i+1)
	}
	for i := 4; i < mostNeeds+4; i++ {
		number := fmt.Sprintf("A02-%02d", i+1)
		h.addOpening(h.room, number, i+1)
		h.read(number, fmt.Sprint("v", i), 1, 1)
	}
	need := between(h.get("/takeoff/"+h.tour.String()), "These still need the resistors", "</section>")
	shown, folded, ok := strings.Cut(need, "<details")
	if !ok {
		t.Fatalf("nothing is folded away:\n%s", need)
	}
	if n := strings.Count(shown, `<span class="hint">`); n != mostNeeds {
		t.Errorf("%d lines say what they lack, want %d", n, mostNeeds)
	}
	rest := strings.Count(folded, "<li>")
	wants(t, folded, fmt.Sprintf("%d more lines not settled", rest), "Touch a line to see what it lacks.")
	if rest == 0 || strings.Contains(folded, `<span class="hint">`) || strings.Count(folded, `href="line/`) != rest {
		t.Errorf("the folded lines do not each lead to their page:\n%s", folded)
	}
	href := "/" + strings.ReplaceAll(between(folded, `href="`, `"`), "&amp;", "&")
	wants(t, h.get(href), "To settle it")
}

// Once every line is settled and every opening read, nothing holds them back.
func TestTakeOffWhenAllIsSettled(t *testing.T) {
	h := built(t).touring()
	for visit := range 2 {
		for i, space := range []int{1, 3, 5, 7} {
			h.read(fmt.Sprintf("A02-%02d", i+1), fmt.Sprintf("v%d-%d", visit, i), space, space)
		}
		for i, space := range []int{2, 4, 6} {
			h.read(fmt.Sprintf("A03-%02d", i+1), fmt.Sprintf("w%d-%d", visit, i), space, space)
		}
		for _, room := range []observation.Thing{h.room, h.study} {
			h.record(observation.Observation{Subject: room, Under: []observation.ID{h.tour}, Body: observation.RoomCheck{All: observation.Yes}})
		}
	}
	path := "/takeoff/" + h.tour.String()
	wants(t, h.get(path), "These still need the resistors", "The resistor read back once more before it is taken off.")
	for _, s := range []int{6, 1, 5, 2, 7, 3, 4} {
		h.record(observation.Observation{Under: []observation.ID{h.tour}, Body: observation.ReadBack{At: observation.Point{At: h.panel, Space: s, Wire: observation.Hot},
			Ohm: quantity.Resistance{Ohm: value(s)}, Blind: true, After: true}})
	}
	if page := h.get(path); strings.Contains(page, "still need the resistors") {
		t.Errorf("the resistors are held back:\n%s", between(page, "still need", "</section>"))
	}
}

// A pairing tour still needs the resistors whose other end was not found.
func TestTakeOffOfAPairingTour(t *testing.T) {
	h := built(t)
	tour := h.pairing()
	id, err := observation.ParseID(tour)
	if err != nil {
		t.Fatal(err)
	}
	h.record(observation.Observation{Under: []observation.ID{id}, Body: observation.Resistor{On: observation.Point{At: h.opening["A02-03"], Cable: "1", Wire: observation.Hot}, Ohm: 31600}})
	need := between(h.get("/takeoff/"+tour), "These still need the resistors", "</section>")
	wants(t, need, "Other end not found:", ">A02-03</a>")
	if strings.Contains(need, ">A03-01</a>") {
		t.Error("an opening without a resistor is listed")
	}
}
