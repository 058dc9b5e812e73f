package web

import (
	"strings"
	"testing"

	"asfound/observation"
)

// What somebody types wrong comes back in its field, with one sentence, and
// everything else as typed.
func TestBadInputComesBack(t *testing.T) {
	h := built(t).touring()
	opening := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	space := "/panel/" + string(h.panel) + "/space/"
	cases := []struct {
		name, path, say string
		typed           []string
		keeps           []string // what still stands on the page
	}{
		{"letter O for zero", "/room/" + string(h.room), "A02-O8 has a letter where a figure belongs. Type A02-08.",
			[]string{"number", "A02-O8", "use", "switch", "gangs", "2", "note", "over the door"}, []string{`value="A02-O8"`, `value="over the door"`, `value="switch" checked`, `value="2" checked`}},
		{"no number", "/room/" + string(h.room), "Type the number on the tape.", []string{"number", " ", "note", "low"}, []string{`value="low"`}},
		{"space 33 of 30", space + "33", "Panel A1 has spaces 1 to 30; there is no space 33.", []string{"poles", "1", "label", "pump"}, []string{`value="pump"`}},
		{"2-pole in the last space", space + "29", "A 2-pole breaker takes spaces 29 and 31, and panel A1 ends at 30. Check the space.",
			[]string{"poles", "2", "amps", "30"}, []string{`value="2" checked`, `value="30" checked`}},
		{"amperes in words", space + "9", "Type the ampere rating on the breaker handle, such as 20.", []string{"amps_typed", "twenty", "label", "lights"}, []string{`value="twenty"`, `value="lights"`}},
		{"negative ohms", opening, "An ohmmeter below zero means voltage on the conductors or leads not zeroed: test for voltage, then read again.",
			[]string{"ohm", "-3", "reading", ".hot.egc", "stop", "s"}, []string{`value="-3"`}},
		{"unit that does not fit", opening, "Volts, where ohms belong: leads off, treat it as live, and test for voltage again before any ohm reading.", []string{"ohm", "120 V", "reading", ".hot.egc"}, []string{`value="120 V"`}},
		{"letter O in ohms", opening, `Character 2 of "1O0" is the letter O: type the figure 0 if that is meant.`, []string{"ohm", "1O0", "reading", ".hot.egc"}, []string{`value="1O0"`}},
		{"nothing typed", opening, sayNoValue, []string{"ohm", "", "reading", ".hot.egc", "why", "too short"}, []string{`value="too short"`}},
		{"conductor against itself", opening, "Both leads are on the same conductor. Say where the second lead was.", []string{"ohm", "12", "reading", ".hot.hot"}, []string{`value="12"`}},
		{"three letters", opening, "Type the two letters on the tape of this opening.", []string{"letters", "ABC", "answer", "letters"}, []string{`value="ABC"`}},
		{"odd number of spaces", "/building/" + string(h.building) + "/panel", "Count the spaces of both columns: an even number from 2 to 84.",
			[]string{"panel_name", "A2", "spaces", "31", "fed_from", "A1"}, []string{`value="A2"`, `value="31"`, `value="A1"`}},
		{"room without a name", "/building/" + string(h.building) + "/room", "Give the room a name or a number.", []string{"room_name", "", "floor", "-1"}, []string{`value="-1"`}},
		{"floor in words", "/building/" + string(h.building) + "/room", sayFloor, []string{"room_name", "Loft", "floor", "upstairs"}, []string{`value="Loft"`, `value="upstairs"`}},
		{"building without a name", "/property", "Give the building a name or a letter.", []string{"building_name", ""}, nil},
		{"cable without a tag", "/opening/" + string(h.opening["A02-01"]) + "/cable", "Give the cable a tag: 1, 2, 3 as they enter.", []string{"tag", "", "mark", "pump?"}, []string{`value="pump?"`}},
		{"two conductors of one name", "/opening/" + string(h.opening["A02-01"]) + "/cable", "Two conductors are called blue. Number them: blue 1, blue 2.",
			[]string{"tag", "1", "conductors_typed", "blue, blue"}, []string{`value="blue, blue"`}},
		{"lock without a name", "/lockout/" + string(h.panel), "Say which lock: its tag or number.", []string{"device", "", "told", "the builder"}, []string{`value="the builder"`}},
		{"locked space that is not there", "/lockout/" + string(h.panel), "Panel A1 has spaces 1 to 30; there is no space 40.", []string{"device", "4", "spaces", "2, 40"}, []string{`value="2, 40"`}},
		{"tour without a panel", "/tour", sayNoPick, []string{"name", "Second", "tolerance", "1", "meter", "0.9", "meter_ohm", "0.2"}, []string{`value="Second"`}},
		{"tolerance of 90 percent", "/tour", "Type the tolerance on the resistor bag, from 0.1 to 20 percent.",
			[]string{"name", "Second", "panel", string(h.panel), "tolerance", "90", "meter", "0.9", "meter_ohm", "0.2"}, []string{`value="90"`}},
		{"withdrawal without a reason", "/entry/" + h.tour.String(), "Write why it is withdrawn: wrong opening, misread, wrong unit ...", []string{"other", " "}, nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			h.t = t
			page := h.refused(c.path, c.say, c.typed...)
			for _, k := range c.keeps {
				if !strings.Contains(page, k) {
					t.Errorf("the page has lost %s", k)
				}
			}
		})
	}
}

// A decimal comma is taken as one, and what was understood is said back.
func TestDecimalCommaIsSaidBack(t *testing.T) {
	h := built(t).touring()
	at := h.kept("/tour/"+h.tour.String()+"/"+string(h.opening["A02-01"]), "ohm", "2,49 k", "reading", ".hot.egc", "stop", "s1")
	wants(t, h.get(at), "Kept 2.49 kΩ.")
}

// Two openings may bear one number: it is kept, and said.
func TestNumberTwiceIsKeptAndSaid(t *testing.T) {
	h := built(t)
	at := h.kept("/room/"+string(h.room), "number", "A02-01", "use", "switch")
	wants(t, h.get(at), "Another opening bears the number A02-01 too")
	if n := len(h.found().Numbered("A02-01")); n != 2 {
		t.Errorf("%d openings bear A02-01, want 2", n)
	}
}

// What is not on record is a page that says so.
func TestUnknownAddress(t *testing.T) {
	h := built(t).touring()
	for path, say := range map[string]string{"/opening/none-1": sayNoThing, "/opening/" + string(h.room): sayNoThing, "/panel/x": sayNoThing, "/room/x": sayNoThing,
		"/tour/x-1": sayNoTour, "/entry/x": sayNoEntry, "/entry/x-9": sayNoEntry, "/nothing/here": sayNoPage, "/sheet/none": sayNoSheet,
		"/photo/00": sayNoPhoto, "/clash?key=none": sayNoClash, "/tour/" + h.tour.String() + "/none-1": sayNoThing} {
		r := h.send("GET", path, nil)
		if r.Status != statusNotFound {
			t.Errorf("GET %s: status %d, want 404", path, r.Status)
		}
		wants(t, string(r.Body), say)
	}
}

// Names with markup in them are shown as they were typed.
func TestMarkupInANameIsText(t *testing.T) {
	h := built(t)
	name := `<script>alert(1)</script> & "den" <b>`
	at := h.kept("/building/"+string(h.building)+"/room", "room_name", name, "floor", "0")
	page := h.get(at)
	if strings.Contains(page, "<script>alert") {
		t.Error("the name's markup stands in the page")
	}
	wants(t, text([]byte(page)), `<script>alert(1)</script> & "den" <b>`)
	h.kept("/room/"+strings.TrimPrefix(at, "/room/"), "number", `9"><img src=x>`)
	h.kept("/panel/"+string(h.panel)+"/space/9", "label", `</title><svg onload=x>`, "poles", "1")
	for _, path := range []string{"/", "/journal", "/trace", "/property", "/building/" + string(h.building), at, "/panel/" + string(h.panel)} {
		if page := h.get(path); strings.Contains(page, "<img src=x") || strings.Contains(page, "<svg onload") {
			t.Errorf("%s holds markup that was typed", path)
		}
	}
}

// A full disk keeps the form and says so; the same press then works.
func TestFullDiskKeepsTheForm(t *testing.T) {
	h := built(t).touring()
	path := "/tour/" + h.tour.String() + "/" + string(h.opening["A02-01"])
	typed := []string{"ohm", "2.49k", "reading", ".hot.egc", "stop", "s1", "once", "x", "why", "by lamp"}
	h.store.full = true
	page := h.refused(path, sayFull, typed...)
	for _, k := range []string{`value="2.49k"`, `value="by lamp"`} {
		if !strings.Contains(page, k) {
			t.Errorf("the page has lost %s", k)
		}
	}
	if r := h.send("POST", path, typed); r.Status != statusFull {
		t.Errorf("status %d, want 507", r.Status)
	}
	h.store.full, h.store.broken = false, true
	h.refused(path, sayFailed, typed...)
	h.store.broken = false
	h.kept(path, typed...)
}

// The same form twice is kept once; the same form with another value twice.
func TestPressedTwiceIsKeptOnce(t *testing.T) {
	h := built(t)
	before := h.length()
	first := h.kept("/room/"+string(h.room), "number", "A02-09", "once", "a")
	second := h.kept("/room/"+string(h.room), "number", "A02-09", "once", "a")
	if h.length() != before+1 || first != second {
		t.Errorf("%d entries kept, sent to %q and %q", h.length()-before, first, second)
	}
	h.kept("/room/"+string(h.room), "number", "A02-10", "once", "a")
	if h.length() != before+2 {
		t.Error("a changed form was taken for the same one")
	}
}

// Nobody named: the form asks who, and keeps what was typed.
func TestNobodyNamed(t *testing.T) {
	h := built(t)
	h.who = ""
	page := h.refused("/room/"+string(h.room), sayWho, "number", "A02-09", "note", "high")
	if !strings.Contains(page, `value="high"`) {
		t.Error("the note is lost")
	}
	h.kept("/room/"+string(h.room), "number", "A02-09", "who", "Tomas Veil")
	if r := h.send("GET", "/?who=Dell+Amoah", nil); r.Who != "Dell Amoah" {
		t.Errorf("the device is told to remember %q", r.Who)
	}
}

func TestPhotograph(t *testing.T) {
	h := built(t)
	send := func(content, kind string) Response {
		hash, size, err := h.store.PutBlob(strings.NewReader(content))
		if err != nil {
			t.Fatal(err)
		}
		return h.pages.Answer(Request{Method: "POST", Path: "/photo/" + string(h.opening["A02-01"]), Who: h.who, Now: h.now,
			Form: map[string][]string{"caption": {"as found"}}, Files: map[string][]File{"photo": {{Hash: hash, Type: kind, Bytes: size}}}})
	}
	r := send("MZ this is a program", "image/png")
	if r.Status != statusUnusable || !strings.Contains(string(r.Body), "Add a JPEG or PNG picture.") || !strings.Contains(string(r.Body), `value="as found"`) {
		t.Errorf("a file that is no picture: status %d\n%s", r.Status, text(r.Body))
	}
	if r := send("\x89PNG\r\n\x1a\n rest", "image/png"); r.Status != statusGoTo {
		t.Errorf("a picture: status %d\n%s", r.Status, text(r.Body))
	}
	if r := h.send("POST", "/photo/"+string(h.opening["A02-01"]), nil); r.Status != statusUnusable || !strings.Contains(string(r.Body), sayPhoto) {
		t.Errorf("no file: status %d", r.Status)
	}
	photo := h.found().Opening(h.opening["A02-01"]).Story
	body := photo[len(photo)-1].Body.(observation.Photo)
	if r := h.send("GET", "/photo/"+body.Hash, nil); r.Type != "image/png" || !r.Lasting {
		t.Errorf("the photograph comes as %q", r.Type)
	}
}
