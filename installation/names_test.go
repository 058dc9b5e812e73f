package installation

import (
	"testing"

	"asfound/observation"
)

func TestNamesInWords(t *testing.T) {
	n := Names{"A02-07": "A02-08", "A02-08": "A02-07", "A": "Main house", "A1": "P7"}
	for text, want := range map[string]string{
		"the hot at A02-07 is on A1-34": "the hot at A02-08 is on P7-34",
		"A02-07, A02-08":                "A02-08, A02-07",
		"A02-070 and XA02-07":           "A02-070 and XA02-07",
		"A: Great room":                 "Main house: Great room",
		"":                              "",
		"ÄA1":                           "ÄA1",
	} {
		if got := n.In(text); got != want {
			t.Errorf("%q became %q, want %q", text, got, want)
		}
	}
	if Stands("A1", "A11, BA1") || !Stands("A1", "A11, A1-3") || Stands("", "A1") {
		t.Error("a name stands as a word of its own, or not at all")
	}
}

func TestNamesSince(t *testing.T) {
	f, seq := NewFold(), uint64(0)
	add := func(subject observation.Thing, body observation.Body, seen ...observation.ID) observation.Event {
		seq++
		e := observation.Event{ID: observation.ID{Device: "d", Seq: seq}, HLC: seq, Kind: body.Kind(),
			Observation: observation.Observation{Who: "Marit Sandvei", Subject: subject, Seen: seen, Body: body}}
		f.Add(e)
		return e
	}
	a := add("", observation.Building{Name: "A"})
	room := add("", observation.Room{Building: a.Thing(), Name: "Hall"})
	one := add("", observation.Opening{Room: room.Thing(), Number: "01"})
	two := add("", observation.Opening{Room: room.Thing(), Number: "02"})
	add("", observation.Opening{Room: room.Thing(), Number: "02"})
	then := add(a.Thing(), observation.Note{Text: "then"})
	add(one.Thing(), observation.Opening{Room: room.Thing(), Number: "11"}, one.ID)
	add(two.Thing(), observation.Opening{Room: room.Thing(), Number: "12"}, two.ID)
	late := add(a.Thing(), observation.Note{Text: "late"})
	in := f.Installation()
	if got := in.NamesSince(then); len(got) != 1 || got["01"] != "11" {
		t.Errorf("since then %v, want 01 to be 11 and nothing of 02, which two bore", got)
	}
	if got := in.NamesSince(late); len(got) != 0 {
		t.Errorf("since the last change %v", got)
	}
}

// A thing that was renamed twice, once by an entry withdrawn since, tells the
// names that stood; so does a source.
func TestWas(t *testing.T) {
	f, seq := NewFold(), uint64(0)
	add := func(subject observation.Thing, body observation.Body, seen ...observation.ID) observation.Event {
		seq++
		e := observation.Event{ID: observation.ID{Device: "d", Seq: seq}, HLC: seq, Kind: body.Kind(),
			Observation: observation.Observation{Who: "Marit Sandvei", Subject: subject, Seen: seen, Body: body}}
		f.Add(e)
		return e
	}
	source := add("", observation.Source{Name: "Generator", Of: observation.Generator})
	then := add(source.Thing(), observation.Note{Text: "Generator hums"})
	wrong := add(source.Thing(), observation.Source{Name: "Battery", Of: observation.Generator}, source.ID)
	add(source.Thing(), observation.Withdrawal{Reason: "Misread"}, wrong.ID)
	now := add(source.Thing(), observation.Source{Name: "Yard generator", Of: observation.Generator}, source.ID)
	add(source.Thing(), observation.Source{Name: "Yard generator", Of: observation.Generator, Note: "20 kW"}, now.ID)
	in := f.Installation()
	was := in.Story(source.Thing()).Was()
	if len(was) != 1 || was[0].Name != "Generator" || was[0].Until.ID != now.ID {
		t.Errorf("it was %v, want Generator until %s", was, now.ID)
	}
	if got := in.NamesSince(then); len(got) != 1 || got["Generator"] != "Yard generator" {
		t.Errorf("since then %v, want Generator to be the yard generator", got)
	}
	if in.Story("nothing").Was() != nil {
		t.Error("a thing not on record bore names")
	}
}
