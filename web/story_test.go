package web

import (
	"strings"
	"testing"

	"asfound/observation"
)

// The story of an opening: oldest first, what became of each entry, earlier
// names, photographs, and what rests on what.
func TestStory(t *testing.T) {
	h := traced(t)
	at := h.opening["A02-01"]
	hash, size, err := h.store.PutBlob(strings.NewReader("\xff\xd8\xff picture"))
	if err != nil {
		t.Fatal(err)
	}
	h.record(observation.Observation{Subject: at, Body: observation.Photo{Hash: hash, Type: "image/jpeg", Bytes: size, Caption: "Behind the mud ring"}})
	h.kept("/note/"+string(at), "noted", "Tape came off, put on again")
	h.kept("/opening/"+string(at), "number", "A02-11", "use", "switch")
	wrong := h.record(observation.Observation{Subject: at, Body: observation.NotReached{Why: "locked"}})
	h.kept("/entry/"+wrong.String(), "reason", "Wrong opening")
	page := h.get("/story/" + string(at))
	wants(t, page, "The story of A02-11, A02 Great room", "It was A02-01 until May 28, 2031.", "Tape came off", "Withdrawn: Wrong opening",
		"rests on it now", `src="photo/`+hash, "Opening A02-01, receptacle", "Opening A02-11, switch")
	last := -1
	for _, say := range []string{"Opening A02-01, receptacle", "letters on the tape", "hot to ground", "Behind the mud ring", "Tape came off", "A02-11, not reached"} {
		i := strings.Index(page, say)
		if i < last {
			t.Errorf("%q does not come in its turn", say)
		}
		last = i
	}
	if !strings.Contains(page, "<del>A02-11, not reached, locked</del>") {
		t.Error("what was withdrawn is not struck through")
	}
	if r := h.send("GET", "/story/nothing-9", nil); r.Status != statusNotFound {
		t.Errorf("the story of nothing: status %d", r.Status)
	}
}

// The story of a room holds what happened at its openings; that of a panel the
// resistors put on there.
func TestStoryOfRoomAndPanel(t *testing.T) {
	h := traced(t)
	wants(t, h.get("/story/"+string(h.room)), "Room A02 Great room", "Opening A02-03", "every opening read bears its mark")
	page := h.get("/story/" + string(h.panel))
	wants(t, page, "Panel A1, 30 spaces", "Resistor of", "locked out")
	if strings.Contains(page, "Opening A02-03") {
		t.Error("the story of a panel holds an opening")
	}
	for range 100 {
		h.record(observation.Observation{Subject: h.room, Body: observation.Note{Text: "again"}})
	}
	first := h.get("/story/" + string(h.room))
	wants(t, first, "Later", "Room A02 Great room")
	if strings.Contains(first, "Earlier") || !strings.Contains(h.get("/story/"+string(h.room)+"?page=2"), "Earlier") {
		t.Error("a long story does not go on page by page")
	}
}

// A source tells its earlier name as a panel does.
func TestStoryOfARenamedSource(t *testing.T) {
	h := built(t)
	source := h.record(observation.Observation{Body: observation.Source{Name: "Generator", Of: observation.Generator}})
	h.record(observation.Observation{Subject: source.Thing(), Seen: []observation.ID{source}, Body: observation.Source{Name: "Yard generator", Of: observation.Generator}})
	wants(t, h.get("/story/"+string(source.Thing())), "It was Generator until May 28, 2031.")
}
