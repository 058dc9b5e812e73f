package web

import (
	"strings"
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

// One number, one tape: the letters would be the same. Its own number an opening
// keeps, also when another bears it already.
func TestOpeningNumberInUse(t *testing.T) {
	h := built(t)
	path := "/opening/" + string(h.opening["A02-01"])
	page := h.refused(path, "The number A03-02 is in use in A03 Study, and its letters would be the same: give another number.",
		"number", "a03-02", "use", "switch", "note", "over the door")
	wants(t, page, `value="a03-02"`, `value="over the door"`)
	h.addOpening(h.study, "A02-01", 9)
	h.kept(path, "number", "A02-01", "use", "switch", "note", "over the door")
}

// A file that is refused is told of at its field, which the page goes to; what
// was typed beside it stands.
func TestPhotographRefusedAtItsField(t *testing.T) {
	h := built(t)
	for name, thing := range map[string]observation.Thing{"opening": h.opening["A02-01"], "room": h.room, "panel": h.panel} {
		t.Run(name, func(t *testing.T) {
			hash, size, err := h.store.PutBlob(strings.NewReader("MZ this is a program"))
			if err != nil {
				t.Fatal(err)
			}
			r := h.pages.Answer(Request{Method: "POST", Path: "/photo/" + string(thing), Who: h.who, Now: h.now,
				Form: map[string][]string{"caption": {"as found"}}, Files: map[string][]File{"photo": {{Hash: hash, Type: "image/png", Bytes: size}}}})
			page := string(r.Body)
			wellFormed(t, name, r.Body)
			if r.Status != statusUnusable {
				t.Errorf("status %d", r.Status)
			}
			field := between(page, `<label for="f-photo">`, "</div>")
			wants(t, field, "Add a JPEG or PNG picture.", `autofocus="autofocus"`, `aria-invalid="true"`)
			wants(t, page, `value="as found"`, `<details class="more" open="open"><summary>Add a photograph`)
			if n := strings.Count(page, "autofocus="); n != 1 {
				t.Errorf("the cursor starts in %d places", n)
			}
		})
	}
}
