package web

import (
	"strings"
	"testing"
	"time"

	"asfound/step"
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

// The button leads straight to the page on which the step is entered.
func TestStepLeadsToItsEntry(t *testing.T) {
	h := traced(t)
	v := &visit{pages: h.pages, job: h.pages.jobs[0], found: h.found(), ask: Request{Now: h.now}, who: h.who}
	id, panel := h.tour.String(), string(h.panel)
	fresh, read := string(h.opening["A02-04"]), string(h.opening["A02-01"])
	for name, c := range map[string]struct {
		step step.Step
		want string
	}{
		"spaces of a panel":     {step.Step{Key: "named otherwise", Kind: step.Spaces, Place: panel}, "panel/" + panel + "/space/9"},
		"panel":                 {step.Step{Key: "spaces told by its key", Kind: step.Record, Place: panel}, "panel/" + panel},
		"what feeds a panel":    {step.Step{Kind: step.FindFeed, Place: panel}, "feeder/" + panel},
		"what feeds an opening": {step.Step{Kind: step.FindFeed, Place: read}, "live/" + read},
		"sources":               {step.Step{Kind: step.Sources}, "sources"},
		"locks to come off":     {step.Step{Kind: step.Release, Place: panel}, "release/" + panel},
		"drawn, not looked for": {step.Step{Kind: step.LookFor, Place: string(h.room)}, "differences?building=" + string(h.building)},
		"openings":              {step.Step{Kind: step.Record}, "building/" + string(h.building)},
		"test of a panel":       {step.Step{Kind: step.ProveDead, Place: panel}, "dead/" + panel},
		"isolation":             {step.Step{Kind: step.Isolate, Place: panel}, "isolation/" + panel},
		"resistors":             {step.Step{Kind: step.Place, Place: panel}, "resistors/" + id},
		"read-back":             {step.Step{Kind: step.ReadBack, Place: panel}, "readback/" + id},
		"opening not read":      {step.Step{Kind: step.Read, Place: fresh}, "tour/" + id + "/" + fresh},
		"opening read before":   {step.Step{Kind: step.Read, Place: read}, "tour/" + id + "/" + read + "?again=yes"},
		"look around":           {step.Step{Kind: step.LookRound, Place: read}, "look/" + id + "/" + string(h.room)},
		"end of the tour":       {step.Step{Kind: step.TakeOff, Place: panel}, "takeoff/" + id},
		"nothing left anywhere": {step.Step{Kind: step.Rest}, "building/" + string(h.building)},
	} {
		got := v.stepHref(c.step)
		if got != c.want {
			t.Errorf("%s: leads to %s, want %s", name, got, c.want)
		}
		h.get("/" + got) // the page is there
	}
}

// An opening where voltage was found leads to what can feed it, not to a reading.
func TestNextAtALiveOpening(t *testing.T) {
	h := traced(t)
	at := h.opening["A02-04"]
	wants(t, h.get("/live/"+string(at)), `href="dead/`+string(at)+`"`)
	h.kept("/dead/"+string(at), "before", "yes", "absent", "no", "after", "yes")
	wants(t, h.get("/dead/"+string(at)+"?kept=1"), "Voltage was found in this box")
	page := h.get("/")
	wants(t, page, "A02-04", "The latest test here found voltage", `href="live/`+string(at)+`"`, "What feeds it")
	if strings.Contains(page, "tour/"+h.tour.String()+"/"+string(at)) {
		t.Error("the card leads to a reading there too")
	}
	h.kept("/dead/"+string(at), "before", "yes", "absent", "yes", "after", "yes")
	if page := h.get("/"); strings.Contains(page, "found voltage") {
		t.Error("tested again, and still said to be live")
	}
}
