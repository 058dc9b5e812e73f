package web

import (
	"strings"
	"testing"

	"asfound/observation"
)

func TestProperty(t *testing.T) {
	h := newHouse(t)
	wants(t, h.get("/property"), "Nothing is on record yet.")
	at := h.kept("/property", "building_name", "B")
	wants(t, h.get(at), "Building B", "No room is on record yet.")
	wants(t, h.get("/property"), "no rooms, no openings, no panels")
}

// A second building or room of one name comes back with one sentence at the
// field and the way to the first; spaces and capitals make no other name.
func TestNameInUse(t *testing.T) {
	h := built(t)
	other := h.record(observation.Observation{Body: observation.Building{Name: "B"}}).Thing()
	building, room := "building/"+string(h.building), "room/"+string(h.room)
	for _, c := range []struct {
		name, path, field, typed, say, open string
		also                                []string
	}{
		{"building", "/property", "building_name", " a ", "There is a building A on record: open that one, or give this one another name.", `href="` + building + `">Open A`, nil},
		{"room", "/" + building + "/room", "room_name", "a02  great ROOM", "There is a room A02 Great room on record: open that one, or give this one another name.", `href="` + room + `">Open A02 Great room`, []string{"floor", "-1"}},
		{"building put right", "/building/" + string(other), "mend_name", "A", "There is a building A on record: open that one, or give this one another name.", "", nil},
		{"room put right", "/room/" + string(h.study) + "/mend", "mend_name", "A02 Great room", "There is a room A02 Great room on record: open that one, or give this one another name.", "", []string{"mend_building", string(h.building), "mend_order", "7"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			h.t = t
			page := h.refused(c.path, c.say, append([]string{c.field, c.typed}, c.also...)...)
			wants(t, page, c.open, `name="`+c.field+`" value="`+c.typed+`"`)
			for i := 1; i < len(c.also); i += 2 {
				wants(t, page, `value="`+c.also[i]+`"`)
			}
			if i := strings.Index(page, `id="f-`+c.field+`"`); !strings.Contains(page[i:i+400], c.say) {
				t.Error("the sentence does not stand at the field")
			}
		})
	}
	h.t = t
	h.kept("/building/"+string(other)+"/room", "room_name", "A02 Great room", "floor", "0") // in another building
	h.kept("/building/"+string(h.building), "mend_name", "A")                               // its own name
	h.kept("/"+room+"/mend", "mend_name", "A02 Great room", "mend_building", string(h.building), "mend_order", "3")
}
