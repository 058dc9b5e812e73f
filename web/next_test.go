package web

import (
	"testing"
	"time"

	"asfound/observation"
)

func TestNext(t *testing.T) {
	t.Run("nothing on record", func(t *testing.T) {
		h := newHouse(t)
		wants(t, h.get("/"), "Record the first building.", `href="property"`)
	})
	t.Run("panel not dead: the test comes before any reading", func(t *testing.T) {
		h := built(t)
		page := h.get("/")
		wants(t, page, "Panel A1", "First:", "Stop if:", "dead/"+string(h.panel))
	})
	t.Run("where the person stands, by what he recorded last", func(t *testing.T) {
		h := traced(t)
		h.kept("/opening/"+string(h.opening["A02-02"])+"/missing", "answer", "notreached")
		wants(t, h.get("/"), "You were last at A02-02")
	})
	t.Run("a name not chosen yet", func(t *testing.T) {
		h := built(t)
		h.who = ""
		wants(t, h.get("/"), "Who is this?", `value="Tomas Veil"`)
	})
}

func TestMomentsAreSaidInThePersonsZone(t *testing.T) {
	h := built(t)
	west := time.FixedZone("west", -6*3600)
	got := dayAndTime(h.now, h.now.In(west))
	if want := "today " + h.now.In(west).Format("15:04"); got != want {
		t.Errorf("said %q, want %q", got, want)
	}
}

func TestPlaceOfAnEvent(t *testing.T) {
	at := observation.Point{At: "k-1", Wire: observation.Hot}
	for name, c := range map[string]struct {
		body observation.Body
		want observation.Thing
	}{
		"reading":    {observation.Ohm{A: at, B: at}, "k-1"},
		"resistor":   {observation.Resistor{On: at}, "k-1"},
		"read-back":  {observation.ReadBack{At: at}, "k-1"},
		"withdrawal": {observation.Withdrawal{}, ""},
		"new room":   {observation.Room{}, "k-7"},
	} {
		e := observation.Event{ID: observation.ID{Device: "k", Seq: 7}, Observation: observation.Observation{Body: c.body}}
		if got := placeOf(e); got != c.want {
			t.Errorf("%s: placed at %q, want %q", name, got, c.want)
		}
	}
}
