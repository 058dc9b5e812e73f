package site

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"asfound/journal"
	"asfound/observation"
)

// A file taken back leaves the property as it was before, in as many withdrawals
// as that takes, and may be brought again.
func TestTakeBackAFile(t *testing.T) {
	s := open(t)
	bring(t, s, ListOpenings, "building,room,number\nA,Hall,A01-01\n")
	var lines strings.Builder
	lines.WriteString("building,room,number,height,cables\nA,Hall,A01-01,48,\n")
	for n := range withdrawnAtOnce {
		fmt.Fprintf(&lines, "A,Attic,A09-%04d,16,1\n", n)
	}
	got := bring(t, s, ListOpenings, lines.String())
	if found := asFound(t, s); len(found.Openings) != withdrawnAtOnce+1 || found.Openings[0].Height != 48 {
		t.Fatalf("%d openings", len(found.Openings))
	}
	back, err := s.TakeBack(got.First, "Marit Sandvei", "the wrong house")
	if err != nil || back.Withdrawn != got.Entries || len(back.Stays) != 0 {
		t.Fatalf("%+v, %v", back, err)
	}
	found := asFound(t, s)
	if len(found.Openings) != 1 || found.Openings[0].Height != 0 || len(found.Rooms) != 1 {
		t.Errorf("%d openings in %d rooms, the first at %s", len(found.Openings), len(found.Rooms), found.Openings[0].Height)
	}
	if e, _ := s.Event(got.First); len(e.WithdrawnBy) != 1 {
		t.Errorf("withdrawn by %v", e.WithdrawnBy)
	}
	again, err := s.TakeBack(got.First, "Marit Sandvei", "twice")
	if err != nil || again.Withdrawn != 0 {
		t.Errorf("taken back twice: %+v, %v", again, err)
	}
	counts(t, bring(t, s, ListOpenings, lines.String()), withdrawnAtOnce+1, 0, 0)
}

// What others rest on since stays, with its room and building, and is named.
func TestWhatOthersRestOnStays(t *testing.T) {
	s := open(t)
	got := bring(t, s, ListOpenings, "building,room,number\nA,Hall,A01-01\nA,Hall,A01-02\nA,Den,A02-01\nB,Shop,B01-01\n")
	found := asFound(t, s)
	read := found.Numbered("A01-02")[0].Thing
	record(t, s, observation.Observation{Subject: read, Body: observation.NotReached{Why: "behind the range"}})
	record(t, s, observation.Observation{Body: observation.Opening{Room: found.Numbered("A02-01")[0].Room, Number: "A02-02"}})
	back, err := s.TakeBack(got.First, "Marit Sandvei", "the wrong house")
	if err != nil {
		t.Fatal(err)
	}
	found = asFound(t, s)
	var stays []string
	for _, thing := range back.Stays {
		stays = append(stays, found.Name(thing))
	}
	slices.Sort(stays)
	if said := strings.Join(stays, ", "); said != "A, A01-02, Den, Hall" {
		t.Errorf("stays: %s", said)
	}
	if len(found.Openings) != 2 || len(found.Buildings) != 1 || len(found.Rooms) != 2 {
		t.Errorf("%d openings, %d rooms, %d buildings", len(found.Openings), len(found.Rooms), len(found.Buildings))
	}
}

func TestTakeBackWantsAFile(t *testing.T) {
	s := open(t)
	got := bring(t, s, ListOpenings, "building,room,number\nA,Hall,A01-01\n")
	other := record(t, s, observation.Observation{Body: observation.Building{Name: "B"}})
	for _, c := range []struct {
		id          observation.ID
		who, reason string
		field       string
	}{{other, "Marit Sandvei", "wrong", "file"}, {got.First, "", "wrong", "who"}, {got.First, "Marit Sandvei", " ", "reason"}} {
		_, err := s.TakeBack(c.id, c.who, c.reason)
		var u observation.Unusable
		if !errors.As(err, &u) || u.Field != c.field {
			t.Errorf("got %v, want a fault at %s", err, c.field)
		}
	}
}

// Two files of one name are two.
func TestFilesOfOneName(t *testing.T) {
	s := open(t)
	bring(t, s, ListOpenings, "building,room,number\nA,Hall,A01-01\n")
	second := bring(t, s, ListOpenings, "building,room,number\nA,Hall,A01-02\n")
	var events []observation.Event
	err := s.journal.Read(0, func(e journal.Entry) error {
		events = append(events, e.Event)
		return nil
	})
	files := Files(events)
	if err != nil || len(files) != 2 || files[0].Title() != "openings.csv" || len(files[0].Entries) != 3 || files[1].First != second.First {
		t.Fatalf("%+v, %v", files, err)
	}
}

// All or nothing: a journal that fails on the way has kept none of it.
func TestAFailingJournalKeepsNothing(t *testing.T) {
	s := open(t)
	m := s.journal.(*journal.Memory)
	s.journal = &failing{m, 3}
	_, err := s.TakeIn(List{Kind: ListOpenings, File: "a.csv", From: strings.NewReader(someOpenings), Who: "Marit Sandvei"})
	if !errors.Is(err, journal.ErrFull) {
		t.Fatalf("got %v", err)
	}
	s.journal = m
	if n := asFound(t, s).Revision; n != 0 {
		t.Errorf("%d entries kept", n)
	}
	counts(t, bring(t, s, ListOpenings, someOpenings), 3, 0, 0)
}

// failing is a journal whose disk is full after some entries.
type failing struct {
	*journal.Memory
	room int
}

func (f *failing) Together(do func(journal.Adder) error) error {
	return f.Memory.Together(func(add journal.Adder) error {
		left := f.room
		return do(func(o observation.Observation) (journal.Entry, error) {
			if left--; left < 0 {
				return journal.Entry{}, journal.ErrFull
			}
			return add(o)
		})
	})
}
