package site

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"asfound/installation"
	"asfound/journal"
	"asfound/observation"
)

// Entries that came from a file bear its name and their line as their stop:
// "file openings.csv (3f9a1c), line 12". The mark in parentheses is of the
// file's bytes, so that two files of one name are told apart.
const (
	fileFront = "file "
	lineFront = ", line "
)

func fileStop(name, mark string) string { return fileFront + name + " (" + mark + ")" + lineFront }

// FromFile says from which file an entry came, and from which line.
func FromFile(o observation.Observation) (file string, line int, ok bool) {
	front, number, found := cutLast(o.Stop, lineFront)
	file, named := strings.CutPrefix(front, fileFront)
	line, err := strconv.Atoi(number)
	return file, line, found && named && err == nil
}

func cutLast(s, by string) (before, after string, found bool) {
	i := strings.LastIndex(s, by)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(by):], true
}

// File is a list that was taken in.
type File struct {
	First   observation.ID // its first entry, which names it
	Name    string         // with its mark
	Who     string
	When    time.Time
	Entries []observation.ID
}

// Title is the name without the mark.
func (f File) Title() string {
	title, _, _ := cutLast(f.Name, " (")
	return title
}

// Files are the lists that events came from, in order of arrival. The same file
// on two devices is two.
func Files(events []observation.Event) []File {
	var out []File
	at := map[string]int{}
	for _, e := range events {
		name, _, ok := FromFile(e.Observation)
		if !ok {
			continue
		}
		key := e.Device + " " + name
		i, had := at[key]
		if !had {
			i = len(out)
			at[key] = i
			out = append(out, File{First: e.ID, Name: name, Who: e.Who, When: e.When()})
		}
		out[i].Entries = append(out[i].Entries, e.ID)
	}
	return out
}

// Back says what became of a file that was taken back.
type Back struct {
	Withdrawn int
	Stays     []observation.Thing // recorded by the file, and since then home to other entries
}

// withdrawnAtOnce is how many entries one withdrawal names; a thousand names
// take a fortieth of the longest line.
const withdrawnAtOnce = 1000

// TakeBack withdraws the entries of a file, all together. What the file recorded
// first stays when other entries rest on it since: a reading at an opening, an
// opening in a room. It is named, to be withdrawn by hand.
func (s *Site) TakeBack(first observation.ID, who, reason string) (Back, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	file, err := s.file(first)
	if err != nil {
		return Back{}, err
	}
	o := observation.Observation{Who: who, Seen: file.Entries, Body: observation.Withdrawal{Reason: reason}}
	if err := o.Check(s.now()); err != nil {
		return Back{}, err
	}
	b := takingBack{fold: s.fold, in: s.fold.Installation(), of: map[observation.ID]bool{}, stays: map[observation.Thing]bool{}}
	all := b.withdraw(file.Entries)
	err = s.together(func(add journal.Adder) error {
		for some := range slices.Chunk(all, withdrawnAtOnce) {
			o.Seen = some
			if _, err := add(o); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return Back{}, fmt.Errorf("take back %s: %w", file.Title(), err)
	}
	return Back{Withdrawn: len(all), Stays: b.named}, s.catchUp()
}

// file finds a file by its first entry.
func (s *Site) file(first observation.ID) (File, error) {
	if err := s.catchUp(); err != nil {
		return File{}, err
	}
	var events []observation.Event
	err := s.journal.Read(0, func(e journal.Entry) error {
		if e.Event.Device == first.Device && strings.HasPrefix(e.Event.Stop, fileFront) {
			events = append(events, e.Event)
		}
		return nil
	})
	if err != nil {
		return File{}, fmt.Errorf("look for file: %w", err)
	}
	for _, f := range Files(events) {
		if f.First == first {
			return f, nil
		}
	}
	return File{}, observation.Unusable{Field: "file", Typed: first.String(), Say: "No list that was taken in begins with this entry. Choose one from the page Lists."}
}

// takingBack finds which entries of a file can go.
type takingBack struct {
	fold   *installation.Fold
	in     *installation.Installation
	of     map[observation.ID]bool    // entries of the file
	others map[observation.Thing]bool // what something not of the file lies in or names
	stays  map[observation.Thing]bool
	named  []observation.Thing
}

// withdraw lists the entries to be withdrawn: those that were not yet, but for
// what has to stay and what the file says of it.
func (b *takingBack) withdraw(entries []observation.ID) []observation.ID {
	for _, id := range entries {
		b.of[id] = true
	}
	b.others = b.namedByOthers()
	// What lies in a thing was recorded after it: from the last to the first.
	for _, id := range slices.Backward(entries) {
		e, _ := b.fold.Event(id)
		if e.Subject == "" && len(e.WithdrawnBy) == 0 && b.restsOn(id.Thing()) {
			b.keep(id.Thing())
		}
	}
	var out []observation.ID
	for _, id := range entries {
		e, _ := b.fold.Event(id)
		about := e.Subject
		if about == "" {
			about = id.Thing()
		}
		if len(e.WithdrawnBy) == 0 && !b.stays[about] {
			out = append(out, id)
		}
	}
	slices.Reverse(b.named)
	return out
}

// keep lets a thing stay, and so the room and building it is in.
func (b *takingBack) keep(t observation.Thing) {
	id, err := observation.ParseID(string(t))
	if t == "" || b.stays[t] || err != nil || !b.of[id] {
		return
	}
	b.stays[t] = true
	b.named = append(b.named, t)
	switch {
	case b.in.Opening(t) != nil:
		b.keep(b.in.Opening(t).Room)
	case b.in.Panel(t) != nil:
		b.keep(b.in.Panel(t).Room)
		b.keep(b.in.Panel(t).Building)
	case b.in.DrawnAs(t) != nil:
		b.keep(b.in.DrawnAs(t).Room)
	case b.in.Room(t) != nil:
		b.keep(b.in.Room(t).Building)
	}
}

// restsOn reports whether something that is not of the file rests on a thing: an
// entry about it, or a thing that lies in it or names it.
func (b *takingBack) restsOn(t observation.Thing) bool {
	for _, e := range b.in.Story(t) {
		if _, back := e.Body.(observation.Withdrawal); !back && e.Live() && !b.of[e.ID] {
			return true
		}
	}
	return b.others[t]
}

// namedByOthers are the things that something not of the file lies in or names.
func (b *takingBack) namedByOthers() map[observation.Thing]bool {
	out := map[observation.Thing]bool{}
	name := func(by observation.Thing, things ...observation.Thing) {
		if id, err := observation.ParseID(string(by)); err == nil && !b.of[id] {
			for _, t := range things {
				out[t] = true
			}
		}
	}
	for _, r := range b.in.Rooms {
		name(r.Thing, r.Building)
	}
	for _, o := range b.in.Openings {
		name(o.Thing, o.Room)
	}
	for _, p := range b.in.Panels {
		name(p.Thing, p.Building, p.Room)
	}
	for _, d := range b.in.Drawn {
		name(d.Thing, d.Room)
		if d.Outcome != nil {
			name(d.Outcome.ID.Thing(), d.Outcome.Body.(observation.Reconciled).As)
		}
	}
	for _, x := range b.in.Sources {
		name(x.Thing, x.Building)
	}
	for _, f := range b.in.Feeders {
		name(f.Thing, f.From, f.To)
	}
	for _, t := range b.in.Tours {
		name(t.ID.Thing(), t.Panels...)
	}
	for _, building := range b.in.Buildings {
		for _, path := range building.Paths {
			name(path.ID.Thing(), path.Body.(observation.Path).To)
		}
	}
	return out
}
