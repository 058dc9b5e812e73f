package report

import (
	"cmp"
	"fmt"
	"slices"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

// begin begins a sheet with its head, foot and code.
func begin(a *site.AsFound, k Kind, caution ...string) (*paper.Sheet, error) {
	return beginOn(paper.Letter, a, k, caution...)
}

// beginOn is begin on paper of another size.
func beginOn(size paper.Size, a *site.AsFound, k Kind, caution ...string) (*paper.Sheet, error) {
	f := frameOf(a, k, caution...)
	f.Size = size
	return paper.NewSheet(f)
}

func frameOf(a *site.AsFound, k Kind, caution ...string) paper.Frame {
	return paper.Frame{
		Title: k.Title, Place: place(a, k), Date: a.Taken.Format("January 2, 2006, 15:04"), People: people(a, k),
		Caution: caution,
		State:   fmt.Sprintf("Journal state %s, %s", a.State, counted(a.Events, "event")),
		Find:    Path(k.Name, a.State), Key: Key(k.Name, a.State),
	}
}

// counted is a number with its noun: "1 event", "12 events".
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// place names the buildings, and of a panel the room.
func place(a *site.AsFound, k Kind) string {
	out := ""
	for i, b := range buildings(a, k) {
		if i > 0 {
			out += ", "
		}
		out += b.Name
	}
	if p := a.Panel(k.Of); p != nil {
		if room := a.Room(p.Room); room != nil {
			out += " · " + room.Name
		}
	}
	return out
}

// buildings lists the buildings a sheet is about, by name; one about nothing in
// particular is about all.
func buildings(a *site.AsFound, k Kind) []*installation.Building {
	if k.Of == "" {
		return a.Buildings
	}
	about := map[observation.Thing]bool{k.Of: true}
	if p := a.Panel(k.Of); p != nil {
		about[p.Building] = true
	}
	for _, t := range a.Tours {
		if t.ID.Thing() != k.Of {
			continue
		}
		for _, thing := range t.Panels {
			if p := a.Panel(thing); p != nil {
				about[p.Building] = true
			}
		}
	}
	var out []*installation.Building
	for _, b := range a.Buildings {
		if about[b.Thing] || k.Of == "" {
			out = append(out, b)
		}
	}
	return out
}

// people lists who recorded what the sheet is made of: its panel or tour, and
// the rooms and openings of its buildings; of one about the property, its panels
// and sources too.
func people(a *site.AsFound, k Kind) []string {
	if k.Sort == Helper {
		return []string{cmp.Or(k.Who, "for ____________________")}
	}
	who := map[string]bool{}
	add := func(t observation.Thing) {
		for _, e := range a.Story(t) {
			who[e.Who] = true
		}
	}
	add(k.Of)
	if k.Of == "" {
		for _, p := range a.Panels {
			add(p.Thing)
		}
		for _, s := range a.Sources {
			add(s.Thing)
		}
	}
	for _, b := range buildings(a, k) {
		add(b.Thing)
		for _, r := range a.Rooms {
			if r.Building == b.Thing {
				add(r.Thing)
			}
		}
		for _, o := range a.Openings {
			if a.BuildingOf(o.Thing) == b {
				add(o.Thing)
			}
		}
	}
	var out []string
	for name := range who {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}
