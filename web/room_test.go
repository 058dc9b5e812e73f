package web

import (
	"testing"

	"asfound/pattern"
)

// The number is prefilled, the next opening takes one touch and Keep, and the
// letters for its tape are shown at once.
func TestRoomAddsOpenings(t *testing.T) {
	h := built(t)
	page := h.get("/room/" + string(h.room))
	wants(t, page, `value="A02-05"`, "Receptacle", "Not known yet")
	at := h.kept("/room/"+string(h.room), "number", "A02-05", "use", "switch", "gangs", "2")
	wants(t, h.get(at), "Kept A02-05.", pattern.Letters("A02-05"), `value="A02-06"`)
	o := h.found().Numbered("A02-05")[0]
	if o.Gangs != 2 || o.Order != 5 || o.Room != h.room {
		t.Errorf("kept as %+v", o.Opening)
	}
}

// What is missing at an opening and what it is for are told apart by a comma.
func TestRoomTellsStateAndUseApart(t *testing.T) {
	h := built(t)
	page := h.get("/room/" + string(h.room))
	wants(t, page, "A02-01 not read yet, receptacle")
}
