package report

import (
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/paper"
	"asfound/site"
)

// locksCaution is of 29 CFR 1910.147(e), 1910.333(b)(2) and 1926.417.
var locksCaution = []string{
	"Each person puts on their own lock and takes off that one and no other. A lock is no test.",
	"Before, absent, after: the tester answers on a known source; no voltage between all conductors and to ground; the tester answers again. One of the three missing: live.",
	"A lock taken off, or power put on anywhere on the way here, voids the test. Then test again.",
}

var locksFields = []field{
	{head: "What is locked", width: 46, face: paper.Bold}, {head: "Lock, by its tag", width: 27}, {head: "Who", width: 32}, {head: "Time", width: 25}, {head: "Told", width: 28},
	{head: "Before", width: 14, kind: toTick}, {head: "Absent", width: 14, kind: toTick}, {head: "After", width: 14, kind: toTick}, {head: "Tested at, by", width: 25}, {head: "Released at", width: 24}}

// lockLine is one line of the sheet: a lock that stands, or room for one.
type lockLine struct {
	place, device, who, time, told string
	standing                       bool
}

// locksOf lists the lines: of each source and panel the locks that stand, and
// room for two people.
func locksOf(a *site.AsFound) []lockLine {
	var out []lockLine
	place := func(name string, s *installation.Safety) {
		n := 0
		for _, e := range s.Standing() {
			b := e.Body.(observation.LockOut)
			line := lockLine{place: name, device: b.Device, who: e.Who, time: e.When().Format("Jan 2 15:04"), told: b.Told, standing: true}
			if len(b.Spaces) > 0 {
				line.place += ", space " + numbered(b.Spaces)
			}
			out = append(out, line)
			n++
		}
		for ; n < 2; n++ {
			out = append(out, lockLine{place: name})
		}
	}
	for _, s := range a.Sources {
		place("Source "+s.Name, &s.Safety)
	}
	for _, p := range a.Panels {
		place("Panel "+p.Name, &p.Safety)
	}
	return out
}

func makeLocks(a *site.AsFound, k Kind) (*paper.Sheet, error) {
	s, err := beginOn(paper.Letter.Landscape(), a, k, locksCaution...)
	if err != nil {
		return nil, err
	}
	checks(s, "First person", "Second person")
	g := &grid{sheet: s, size: 11, height: 9.4, columns: locksFields}
	for _, l := range locksOf(a) {
		g.row(0, l.place, l.device, l.who, l.time, l.told)
	}
	s.Heading("Other sources and spaces")
	g.page = nil // the heading comes between
	for range 4 {
		g.row(0, "")
	}
	checks(s, "Resistors and tools counted back, by", "All told before power, by")
	return s, nil
}

func lockRows(a *site.AsFound, _ Kind) (list, error) {
	l := list{head: []string{"no", "what is locked", "lock", "who", "time", "told"}}
	for i, x := range locksOf(a) {
		said := "no lock on record"
		if x.standing {
			said = strings.Join([]string{x.device, x.who, x.time}, ", ")
		}
		l.add(x.place, said, strconv.Itoa(i+1), x.place, x.device, x.who, x.time, x.told)
	}
	return l, nil
}
