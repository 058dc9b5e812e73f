package web

import (
	"strings"
	"testing"

	"asfound/days"
	"asfound/step"
)

// A step put off makes room for the next one and is said with its reason. With
// all of them put off the page says so and offers them, what waited longest
// first; nothing comes back as the card before it is taken up again.
func TestNotNow(t *testing.T) {
	h := traced(t)
	next := func() days.Card { return days.Next(h.found(), days.Person{Name: h.who, At: "none"}) }
	h.refused("/notnow", "Write the reason in a few words: it is kept with the line.", "key", next().Best[0].Key, "other", " ")
	var steps []step.Step
	for card := next(); len(card.Best) > 0; card = next() {
		i, s := len(steps), card.Best[0]
		steps = append(steps, s)
		page := h.get("/?at=none")
		wants(t, page, `name="key" value="`+s.Key+`"`)
		h.kept("/notnow", "key", s.Key, "reason", notNowReasons[i%len(notNowReasons)])
		page = h.get("/?at=none")
		wants(t, page, "Put off", notNowReasons[i%len(notNowReasons)]+" Marit Sandvei")
		if strings.Contains(page, `name="key" value="`+s.Key+`"`) {
			t.Errorf("%s was put off and is the card again", s.Key)
		}
	}
	if len(steps) < 3 {
		t.Fatalf("%d steps are proposed, want some to choose from", len(steps))
	}
	page := h.get("/?at=none")
	wants(t, page, "Every step proposed here is put off. In the order they were put off:")
	rest := page
	for _, s := range steps { // several may be at one place
		_, after, found := strings.Cut(rest, "<strong>"+s.Where+"</strong>")
		if !found {
			t.Errorf("%s, %s, stands before what was put off earlier, or not at all", s.Key, s.Where)
		}
		rest = after
	}
	again := h.get("/?at=none")
	if strings.Contains(again, `action="notnow"`) {
		t.Error("a card is proposed though all are put off")
	}
	first := h.found().Decisions[0].ID.String()
	h.kept("/notnow/" + first)
	page = h.get("/?at=none")
	wants(t, page, `name="key" value="`+steps[0].Key+`"`)
	if strings.Contains(page, "/notnow/"+first) {
		t.Error("it is still listed as put off")
	}
}

func TestStepKeysAreSaidInWords(t *testing.T) {
	h := traced(t)
	in := h.found().Installation
	for key, want := range map[string]string{
		"dead A1": "Absence-of-voltage test of panel A1", "read " + string(h.opening["A02-04"]): "Read A02-04",
		"off " + h.tour.String(): "Read back and take off Tour 1", "look " + string(h.room): "Look around A02 Great room",
		"back " + h.tour.String() + " " + string(h.panel): "Blind read-back of Tour 1, panel A1", "release " + string(h.panel): "Take the locks off panel A1",
		"count " + string(h.study): "Record the openings of A03 Study", "again " + string(h.study): "Read once more at A03 Study",
		"drawn " + string(h.room): "Look for what the drawing shows in A02 Great room", "feeder " + string(h.panel): "What feeds panel A1", "new kind": "new kind",
	} {
		if got := stepKeyWords(in, key); got != want {
			t.Errorf("%s is said as %q, want %q", key, got, want)
		}
	}
}

// Put off twice, a step is where it was put off last.
func TestPutOffTwice(t *testing.T) {
	offs := []offView{{Key: "read 1", Reason: "first", place: 0}, {Key: "read 2", place: 1}, {Key: "read 1", Reason: "second", place: 2}}
	if off := offBy(offs, "read 1"); off == nil || off.Reason != "second" {
		t.Errorf("found %+v, want the second time", off)
	}
	if off := offBy(offs, "read 3"); off != nil {
		t.Errorf("found %+v, want nothing", off)
	}
}

// Another step chosen instead is remembered with who, what was proposed and what
// was chosen; it is the card until it is done, and the journal says it in words.
func TestDoThisOneInstead(t *testing.T) {
	h := traced(t)
	card := days.Next(h.found(), days.Person{Name: h.who})
	proposed, chosen := card.Best[0], card.Best[1]
	page := h.get("/")
	wants(t, page, "Or instead", "Do this one instead", `name="chosen" value="`+chosen.Key+`"`)
	h.refused("/instead", sayNoStep, "proposed", proposed.Key, "chosen", "read nowhere")
	at := h.kept("/instead", "proposed", proposed.Key, "chosen", chosen.Key)
	if at == "/" {
		t.Errorf("the choice leads to %s, not to where it is entered", at)
	}
	page = h.get("/")
	in := h.found().Installation
	wants(t, page, "You chose this", "Proposed was: "+stepKeyWords(in, proposed.Key), "Back to what was proposed")
	if got := between(page, `name="key" value="`, `"`); got != chosen.Key {
		t.Errorf("the card is %s, want %s", got, chosen.Key)
	}
	wants(t, h.get("/journal"), "Proposed: "+stepKeyWords(in, proposed.Key)+". Chosen instead: "+stepKeyWords(in, chosen.Key)+".")
	h.kept("/notnow/" + h.found().Decisions[0].ID.String())
	if got := between(h.get("/"), `name="key" value="`, `"`); got != proposed.Key {
		t.Errorf("the choice taken back, the card is %s, want %s", got, proposed.Key)
	}
}

// The choice of one is not that of another.
func TestInsteadIsOnesOwn(t *testing.T) {
	h := traced(t)
	card := days.Next(h.found(), days.Person{Name: h.who})
	h.kept("/instead", "proposed", card.Best[0].Key, "chosen", card.Best[1].Key)
	h.who = "Dell Amoah"
	if page := h.get("/"); strings.Contains(page, "You chose this") {
		t.Error("Dell's card follows the choice of Marit")
	}
}
