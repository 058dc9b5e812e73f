package web

import (
	"strconv"
	"strings"
	"testing"

	"asfound/observation"
)

// The page names the space and never the value, in another order than placed.
func TestReadBackIsBlind(t *testing.T) {
	h := built(t).touring()
	path := "/readback/" + h.tour.String()
	page := h.get(path + "?after=yes")
	for _, s := range []int{1, 3, 5, 7, 2, 4, 6} {
		if v := value(s).String(); strings.Contains(text([]byte(page)), v) {
			t.Errorf("the page shows %s", v)
		}
	}
	var order []string
	for range 7 {
		at := between(h.get(path+"?after=yes"), `name="at" value="`, `"`)
		order = append(order, strings.Split(at, ".")[1])
		space, _ := strconv.Atoi(order[len(order)-1])
		h.kept(path, "at", at, "after", "yes", "ohm", strconv.FormatFloat(float64(value(space)), 'f', -1, 64))
	}
	if strings.Join(order, " ") == "1 3 5 7 2 4 6" {
		t.Error("read back in the order placed")
	}
	wants(t, h.get(path+"?after=yes"), "Every resistor was read back.")
	last := h.found().Tours[0].ReadBacks[13].Body.(observation.ReadBack)
	if !last.Blind || !last.After {
		t.Errorf("kept as %+v", last)
	}
}

// Another resistor than the one noted is said at once, without telling which it
// should be, and the same space is asked again until its own one shows.
func TestAWrongReadBackStopsTheTour(t *testing.T) {
	h := built(t).touring()
	path := "/readback/" + h.tour.String()
	at := between(h.get(path+"?after=yes"), `name="at" value="`, `"`)
	page := h.get(h.kept(path, "at", at, "after", "yes", "ohm", "777"))
	wants(t, page, "not the resistor listed", "read again", "0 of 7")
	if again := between(page, `name="at" value="`, `"`); again != at {
		t.Errorf("asks %s next, want %s again", again, at)
	}
	space, _ := strconv.Atoi(strings.Split(at, ".")[1])
	if strings.Contains(text([]byte(page)), value(space).String()) {
		t.Error("the page shows the value that belongs there")
	}
	h.kept(path, "at", at, "after", "yes", "ohm", strconv.FormatFloat(float64(value(space)), 'f', -1, 64))
	wants(t, h.get(path+"?after=yes"), "1 of 7")
}

func TestReadBackLaterNamesAnotherSpace(t *testing.T) {
	h := built(t).touring()
	path := "/readback/" + h.tour.String()
	at := between(h.get(path+"?after=yes"), `name="at" value="`, `"`)
	next := h.kept(path, "at", at, "after", "yes", "answer", "later")
	if other := between(h.get(next), `name="at" value="`, `"`); other == at || other == "" {
		t.Errorf("later names %q again", other)
	}
	h.refused(path, sayNoValue, "at", at, "after", "yes", "ohm", "")
}

func between(s, before, after string) string {
	_, s, _ = strings.Cut(s, before)
	s, _, _ = strings.Cut(s, after)
	return s
}
