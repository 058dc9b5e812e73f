package web

import (
	"testing"

	"asfound/observation"
)

func TestOpening(t *testing.T) {
	h := traced(t)
	path := "/opening/" + string(h.opening["A02-01"])
	wants(t, h.get(path), "the hot at A02-01 is on A1-1", `class="line likely"`, "1 gang", `href="line/`)
	h.kept(path+"/cable", "tag", "1", "conductors", "hot,neutral,egc", "hot_state", "spliced")
	wants(t, h.get(path), "Cable 1", "hot spliced, neutral, ground")
	h.kept(path+"/missing", "answer", "cannot")
	wants(t, h.get(path), sayNotGiven)
}

// A change of number is another entry; the first one stays in the journal.
func TestOpeningIsRenumbered(t *testing.T) {
	h := built(t)
	before := h.length()
	for _, number := range []string{"A02-11", "A02-12"} {
		h.kept("/opening/"+string(h.opening["A02-01"]), "number", number, "use", "receptacle")
	}
	o := h.found().Opening(h.opening["A02-01"])
	if o == nil || o.Number != "A02-12" || o.Order != 1 {
		t.Fatalf("the opening stands as %+v", o)
	}
	if h.length() != before+2 || len(o.Story) != 3 {
		t.Errorf("%d entries, %d in its story", h.length()-before, len(o.Story))
	}
	var _ observation.Thing = o.Thing
}
