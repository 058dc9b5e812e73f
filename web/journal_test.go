package web

import (
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"asfound/observation"
	"asfound/quantity"
)

// The newest entry first, a hundred on a page, withdrawn ones struck through.
func TestJournal(t *testing.T) {
	h := traced(t)
	for range 90 {
		h.record(observation.Observation{Who: "Tomas Veil", Subject: h.opening["A03-03"], Body: observation.NotReached{Why: "locked"}})
	}
	page := h.get("/journal")
	wants(t, page, "1 to 100 of", "Older")
	if n := strings.Count(page, `href="entry/`); n != 100 {
		t.Errorf("%d entries on the page", n)
	}
	older := between(page, `<a class="button second" href="journal?`, `"`)
	wants(t, h.get("/journal?"+strings.ReplaceAll(older, "&amp;", "&")), "101 to ", "Newer")
	wants(t, h.get("/journal?by=Tomas+Veil"), "1 to 90 of 90")
	wants(t, h.get("/journal?kind=tour.1"), "1 to 1 of 1", "Tour set up: Tour 1")
	wants(t, h.get("/journal?place=great"), "A02-01")
	wants(t, h.get("/journal?place=nowhere"), "No entry of this sort.")
}

// journalOfAll is a traced house with an entry withdrawn, a note, and a second
// person who read two points again: one alike, one not.
func journalOfAll(t *testing.T) *house {
	h := traced(t)
	h.record(observation.Observation{Who: "Tomas Veil", Subject: h.opening["A03-02"], Body: observation.Note{Text: "Mud ring sits crooked, Søren's tape is gone"}})
	again := func(number string, ohm float64) {
		at := h.opening[number]
		h.record(observation.Observation{Who: "Dell Amoah", Stop: "d-" + number, Under: []observation.ID{h.tour}, Body: observation.Ohm{A: observation.Point{At: at, Wire: observation.Hot},
			B: observation.Point{At: at, Wire: observation.EGC}, Ohm: quantity.Resistance{Ohm: quantity.Ohms(ohm)}, Reprobed: observation.Yes}})
	}
	again("A02-01", 1003)
	again("A02-02", 3000)
	return h
}

// All words must occur, in any order and letters of any size: in the line, the
// number, the person, the device or a note.
func TestSearchByWords(t *testing.T) {
	h := journalOfAll(t)
	device, _, _ := strings.Cut(h.tour.String(), "-")
	for _, c := range []struct{ words, count string }{
		{"crooked MUD", "1 to 1 of 1"},
		{"crooked dell", "No entry of this sort."},
		{"SØREN", "1 to 1 of 1"},
		{"a03-02 opening", "1 to 1 of 1"},
		{"veil note", "1 to 1 of 1"},
		{device + " tour set up", "1 to 1 of 1"},
		{"dell ohm", "1 to 2 of 2"},
	} {
		t.Run(c.words, func(t *testing.T) { wants(t, h.get("/journal?words="+queryEscape(c.words)), c.count) })
	}
	h.kept("/opening/"+string(h.opening["A03-02"]), "number", "A03-99", "use", "switch")
	wants(t, h.get("/journal?words=a03-99+crooked"), "1 to 1 of 1")
	wants(t, h.get("/journal?words=a03-02+crooked"), "No entry of this sort.")
}

// Each filter alone and together; a place holds everything in it.
func TestJournalFilters(t *testing.T) {
	h := journalOfAll(t)
	id := h.record(observation.Observation{Subject: h.opening["A03-03"], Body: observation.NotReached{Why: "locked"}})
	h.kept("/entry/"+id.String(), "reason", "Mistyped")
	for _, c := range []struct{ query, count string }{
		{"gone=yes", "1 to 1 of 1"},
		{"stop=s1", "1 to 3 of 3"},
		{"stop=s1&kind=ohm.1", "1 to 2 of 2"},
		{"place=" + string(h.opening["A02-01"]), "1 to 5 of 5"},
		{"place=a02-01", "1 to 5 of 5"},
		{"place=A02+Great+room&by=Dell+Amoah", "1 to 2 of 2"},
		{"place=A&by=Dell+Amoah", "1 to 2 of 2"},
		{"from=2031-05-28&to=2031-05-28&kind=tour.1", "1 to 1 of 1"},
		{"from=2031-05-29", "No entry of this sort."},
		{"to=2031-05-27", "No entry of this sort."},
	} {
		t.Run(c.query, func(t *testing.T) { wants(t, h.get("/journal?"+c.query), c.count) })
	}
	page := h.get("/journal?stop=s1&kind=ohm.1")
	wants(t, page, "Marit Sandvei, ", "A02-01, A02 Great room: 2 entries", `href="journal?stop=s1"`, `href="story/`+string(h.opening["A02-01"]))
	if strings.Count(between(page, `class="filters"`, "</ul>"), "<li>") != 2 || !strings.Contains(page, `href="journal?kind=ohm.1"`) {
		t.Errorf("two filters, each with one touch that takes it away:\n%s", between(page, `class="filters"`, "</ul>"))
	}
	for query, say := range map[string]string{"from=monday": sayDate, "from=2031-05-28&to=2031-05-01": sayDayOrder} {
		if r := h.send("GET", "/journal?"+query, nil); r.Status != statusUnusable || !strings.Contains(text(r.Body), say) {
			t.Errorf("%s: status %d, %s", query, r.Status, text(r.Body))
		}
	}
}

// People differ where their meters may not: 1003 against 1000.5 ohms is alike at
// 0.9 % and 0.2 ohms for each meter; 3000 against 1000.5 is not.
func TestPeopleDiffer(t *testing.T) {
	h := journalOfAll(t)
	page := h.get("/journal?differ=yes")
	wants(t, page, "1 to 2 of 2", "A02-02, hot to ground")
	if strings.Contains(between(page, "<h3>", "</h3>"), "A02-01") {
		t.Error("two readings that are alike are said to differ")
	}
	id := ""
	for _, e := range h.found().Opening(h.opening["A02-02"]).Story {
		if e.Who == "Dell Amoah" {
			id = e.ID.String()
		}
	}
	h.kept("/entry/"+id, "reason", "Misread")
	wants(t, h.get("/journal?differ=yes"), "No entry of this sort.")
}

// Whatever is recorded, renamed and withdrawn in whatever order it is looked at,
// the index holds the lines that one made at once would.
func TestIndexIsAsIfMadeAtOnce(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		h := built(t)
		var kept index
		for range rapid.IntRange(1, 12).Draw(r, "steps") {
			switch rapid.IntRange(0, 4).Draw(r, "what") {
			case 0:
				h.record(observation.Observation{Subject: h.room, Body: observation.Room{Building: h.building, Name: rapid.SampledFrom([]string{"den", "A02 Great room", "hall"}).Draw(r, "name")}})
			case 1:
				h.addOpening(h.study, "A03-"+rapid.StringMatching(`[3-9][0-9]`).Draw(r, "number"), 4)
			case 2:
				h.record(observation.Observation{Taken: h.now.Add(-time.Duration(rapid.IntRange(0, 90).Draw(r, "ago")) * time.Minute), Subject: h.room, Body: observation.Note{Text: "late"}})
			case 3:
				story := h.found().Story(h.opening["A02-01"])
				h.record(observation.Observation{Subject: h.opening["A02-01"], Seen: []observation.ID{story[len(story)-1].ID}, Body: observation.Withdrawal{Reason: "Misread"}})
			case 4:
				h.record(observation.Observation{Subject: h.opening["A02-02"], Body: observation.NotReached{}})
			}
			if rapid.Bool().Draw(r, "look") {
				kept.look(h.events(), h.found())
			}
		}
		var once index
		if diff := cmp.Diff(once.look(h.events(), h.found()).lines, kept.look(h.events(), h.found()).lines); diff != "" {
			r.Fatalf("lines (-at once +bit by bit):\n%s", diff)
		}
		x := kept.look(h.events(), h.found())
		for i := 1; i < len(x.order); i++ {
			if x.events[x.order[i]].When().Before(x.events[x.order[i-1]].When()) {
				r.Fatal("the order is not that of when entries were taken")
			}
		}
		if len(x.order) != len(x.events) || len(x.lines) != len(x.events) {
			r.Fatalf("%d events, %d lines, %d in order", len(x.events), len(x.lines), len(x.order))
		}
	})
}

func (h *house) events() []observation.Event {
	h.t.Helper()
	out, err := h.pages.jobs[0].book.all(h.store)
	if err != nil {
		h.t.Fatal(err)
	}
	return out
}
