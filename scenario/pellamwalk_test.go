package scenario

import (
	"math"
	"testing"
	"time"

	"asfound/observation"
)

// Ways and ladders by the property's movement model, added up by hand.
func TestPellamPointWays(t *testing.T) {
	w := pellamPoint(t)
	for _, c := range []struct {
		name, from, to string
		want           float64 // s
	}{
		{"the next room", "A01", "A11", 1.3 * 20 / 4},                       // middles (7, 27) and (7, 7)
		{"one floor up", "A12", "A14", 1.3*1/4 + 14},                        // (30, 27) and (30, 28)
		{"one floor down", "A14", "A12", 1.3*1/4 + 10},                      //
		{"across the snow", "A01", "B01", 9.07 + 175.0/3 + 4.37},            // 27.9 and 13.5 ft from the corners
		{"to the dock, from the well", "E01", "C01", 460.0/3 + 2.54 + 6.45}, // 7.8 and 19.8 ft
	} {
		if got := w.Walk(Costs{}, w.room(c.from), w.room(c.to)).Seconds(); math.Abs(got-c.want) > 0.02 {
			t.Errorf("%s: %.2f s, want %.2f", c.name, got, c.want)
		}
	}
	for i, b := range w.view.Boxes {
		want, listed := map[string]time.Duration{"A01-02": 10, "A01-05": 10, "A06-11": 85, "A02-12": 160, "D01-06": 175}[b.Number]
		if got := w.Reach(Costs{}, i); listed && got != want*time.Second {
			t.Errorf("%s at %v in.: %s, want %d s", b.Number, b.Height, got, want)
		}
	}
}

// The visits stand on their dates; whoever is new on the first two of his own
// makes more mistakes.
func TestPellamPointVisits(t *testing.T) {
	visits := pellamPoint(t).Visits(time.UTC, 0)
	if len(visits) != 14 || !visits[1].Start.Equal(time.Date(2027, 1, 20, 8, 0, 0, 0, time.UTC)) || visits[1].Hours != 8*time.Hour {
		t.Fatalf("%d visits, the second %+v", len(visits), visits[1])
	}
	for i, want := range []float64{1: 2, 2: 2, 3: 1} {
		for _, c := range visits[i].Crew {
			if c.Name == "Tomas Veil" && c.Share != want {
				t.Errorf("visit %d: Tomas makes %v times the rates, want %v", i+1, c.Share, want)
			}
		}
	}
}

// Notes come on the day, by their person, about their place; the one that
// withdraws another leaves it visible.
func TestNotesAreWritten(t *testing.T) {
	w := pellamPoint(t)
	p, err := newPlayer(w, People{Visits: w.Visits(time.UTC, 0), Costs: AssumedCosts()})
	if err != nil {
		t.Fatal(err)
	}
	p.survey()
	for p.visit < len(p.people.Visits)-1 {
		p.nextVisit()
	}
	in := p.installation()
	if p.err != nil || len(p.played.Noted) != 28 {
		t.Fatalf("%d notes stand, want 28 of 30: %v", len(p.played.Noted), p.err)
	}
	for _, c := range []struct {
		note, at, who, day string
	}{{"N01", "A1", "Marit Sandvei", "2027-01-20"}, {"N07", "A12-01", "Tomas Veil", "2027-01-26"}, {"N27", "", "Dell Amoah", "2027-02-24"}} {
		id, found := p.played.Noted[c.note], false
		for _, e := range append(storyOf(p, c.at), in.Notes...) {
			if e.ID == id {
				found = true
				if e.Who != c.who || e.Wall.Format(time.DateOnly) != c.day {
					t.Errorf("%s by %s on %s, want %s on %s", c.note, e.Who, e.Wall, c.who, c.day)
				}
			}
		}
		if !found {
			t.Errorf("%s does not stand at %q", c.note, c.at)
		}
	}
	withdrawn := 0
	for _, e := range in.Story(numbered(p, "A06-02")) {
		if n, is := e.Body.(observation.Note); is && len(e.WithdrawnBy) == 1 {
			withdrawn++
			if n.Text != w.Work.Notes[8].Text {
				t.Errorf("withdrawn: %q", n.Text)
			}
		}
	}
	if withdrawn != 1 {
		t.Errorf("%d notes withdrawn at A06-02, want N09", withdrawn)
	}
}

func numbered(p *player, number string) observation.Thing {
	if o := p.installation().Numbered(number); len(o) > 0 {
		return o[0].Thing
	}
	return ""
}

// storyOf lists what was recorded about an opening or a panel.
func storyOf(p *player, name string) []observation.Event {
	thing := numbered(p, name)
	for _, panel := range p.panels {
		if p.installation().Name(panel) == name {
			thing = panel
		}
	}
	var out []observation.Event
	for _, e := range p.installation().Story(thing) {
		out = append(out, e.Event)
	}
	return out
}
