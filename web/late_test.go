package web

import (
	"strings"
	"testing"
	"time"

	"asfound/pattern"
)

// One Save for the whole sheet: good rows are kept once with the time they were
// taken, a bad row comes back as typed, and saving twice adds nothing.
func TestLateEntry(t *testing.T) {
	h := built(t).touring()
	path := "/late/" + h.tour.String()
	one, two, three := string(h.opening["A02-01"])+".", string(h.opening["A02-02"])+".", string(h.opening["A02-03"])+"."
	sheet := []string{"taker", "Tomas Veil", "date", "2031-05-28",
		"letters." + one, pattern.Letters("A02-01"), "ground." + one, "1k", "neutral." + one, "1.001k", "time." + one, "9:02",
		"letters." + two, "hc", "ground." + two, "OL", "neutral." + two, "open", "side." + two, "0.8",
		"ground." + three, "3 V", "neutral." + three, "3k"}
	before := h.length()
	r := h.send("POST", path, sheet)
	if r.Status != statusUnusable {
		t.Fatalf("status %d, want the bad row back", r.Status)
	}
	page := string(r.Body)
	wants(t, page, `value="3 V"`, "treat it as live")
	if kept := h.length() - before; kept != 8 {
		t.Errorf("%d entries kept, want 8: all but the bad field", kept)
	}
	stop := h.found().Opening(h.opening["A02-02"]).Stops[0]
	if stop.Who != "Tomas Veil" || !stop.First.When().Equal(time.Date(2031, 5, 28, 9, 2, 0, 0, time.UTC)) {
		t.Errorf("taken by %s at %s", stop.Who, stop.First.When())
	}
	after := h.length()
	h.send("POST", path, sheet)
	if h.length() != after {
		t.Errorf("saved again: %d more entries", h.length()-after)
	}
	mended := append([]string{}, sheet...)
	mended[len(mended)-3] = "3k"
	at := h.kept(path, mended...)
	wants(t, h.get(at), "Kept 1.", "1.001 kΩ")
	if h.length() != after+1 {
		t.Errorf("mended: %d more entries, want 1", h.length()-after)
	}
}

func TestLateEntryKeepsWhatIsWrong(t *testing.T) {
	h := built(t).touring()
	path := "/late/" + h.tour.String()
	one := string(h.opening["A02-01"]) + "."
	h.refused(path, sayFuture, "date", "2031-06-30", "ground."+one, "1k", "time."+one, "9:00")
	h.refused(path, sayClock, "ground."+one, "1k", "time."+one, "nine")
	h.refused(path, sayNoRow, "taker", "Tomas Veil")
	h.kept(path, "ground."+one, "1k")
	h.refused(path, sayKeptAs("1 kΩ"), "ground."+one, "2k")
}

// The table is in the sheet's own order and tabs row by row.
func TestLateEntryOrder(t *testing.T) {
	h := built(t).touring()
	page := h.get("/late/" + h.tour.String())
	last := 0
	for _, number := range []string{"A02-01", "A02-02", "A02-03", "A02-04", "A03-01", "A03-02", "A03-03"} {
		for _, c := range lateColumns {
			at := strings.Index(page, `name="`+c.Name+"."+string(h.opening[number])+`."`)
			if at < last {
				t.Errorf("%s of %s is out of order", c.Name, number)
			}
			last = at
		}
	}
	if !strings.Contains(page, `name="letters.`+string(h.opening["A02-01"])+`." value="" aria-label="letters, A02-01" autocomplete="off" autofocus`) {
		t.Error("the cursor does not start in the first row")
	}
}

// What could not be read is an answer on the sheet too, and kept once.
func TestLateEntryWithoutAValue(t *testing.T) {
	h := built(t).touring()
	path := "/late/" + h.tour.String()
	sheet := []string{"ground." + string(h.opening["A02-01"]) + ".", "cr", "ground." + string(h.opening["A02-02"]) + ".", "not reached"}
	page := h.get(h.kept(path, sheet...))
	wants(t, page, "Kept 2.", "could not be read", "not reached")
	before := h.length()
	h.send("POST", path, append(sheet, "once", "again"))
	if h.length() != before {
		t.Errorf("saved again: %d more entries", h.length()-before)
	}
}
