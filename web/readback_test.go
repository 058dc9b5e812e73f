package web

import (
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
		h.kept(path, "at", at, "after", "yes", "ohm", "1k")
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
