package report_test

import (
	"fmt"
	"strings"
	"testing"

	"asfound/observation"
	"asfound/quantity"
	"asfound/report"
)

// drawnJob is the small job with drawings, a measured room and outcomes.
func drawnJob() *job {
	j := smallJob()
	drawn := func(room, mark, what string, use observation.OpeningUse) observation.Thing {
		return j.add("", observation.Drawn{Room: j.at[room], Mark: mark, What: what, Use: use, Sheet: "E2"}).Thing()
	}
	drawn("Great room", "A02-05", "", observation.Receptacle)
	for range 6 {
		drawn("Great room", "", "", observation.Receptacle)
	}
	sconce := drawn("Great room", "L4", "sconce", observation.Switch)
	heater := drawn("Boat bay", "", "deck heater", observation.Equipment)
	plug := drawn("Entry", "", "", observation.Receptacle)
	j.add(heater, observation.Reconciled{Is: observation.NeverRoughed, How: "deck boards lifted, no box and no cable"})
	j.add(sconce, observation.Reconciled{Is: observation.CoveredOver, How: "tone heard behind the paneling"})
	j.add(plug, observation.Reconciled{Is: observation.NotLooked})
	j.openings("Boat bay", observation.Junction, "C01-02")
	great, entry := j.at["Great room"], j.at["Entry"]
	ft := func(f float64) quantity.Inches { return quantity.Inches(12 * f) }
	j.add(great, observation.RoomSize{Width: ft(30), Depth: ft(16), Ceiling: ft(9), Corner: &observation.Corner{}, Spaced: observation.Yes})
	j.add(great, observation.Doorway{Wall: observation.FrontWall, From: ft(13), To: ft(17)})
	j.add(entry, observation.RoomSize{Width: ft(8), Depth: ft(10), Corner: &observation.Corner{Right: ft(30.5)}, Spaced: observation.Yes})
	j.add(entry, observation.Doorway{Wall: observation.FrontWall, From: ft(2), To: ft(5)})
	for number, s := range map[string]observation.Spot{"A02-05": {Wall: observation.FrontWall, Along: ft(7)}, "A02-06": {Wall: observation.LeftWall, Along: ft(4)},
		"A02-07": {Wall: observation.BackWall, Along: ft(4)}, "A02-08": {Wall: observation.BackWall, Along: ft(18)}, "A02-10": {Wall: observation.RightWall, Along: ft(8)},
		"A02-12": {Wall: observation.Overhead, Along: ft(15), Out: ft(8)}} {
		o := j.fold.Installation().Opening(j.at[number]).Opening
		o.Height = 16
		j.add(j.at[number], o)
		j.add(j.at[number], s)
	}
	return j
}

func TestDifferencesSheet(t *testing.T) {
	s := made(t, drawnJob().asFound(), "differences")
	noOverlap(t, s)
	text := strings.Join(strings.Fields(textOf(s)), " ")
	for _, want := range []string{
		"10 drawn: 1 paired with an opening, 3 not found, 6 counted by room and use",
		"Never roughed: deck boards lifted, no box and no cable (",
		"Covered: tone heard behind the paneling (",
		"Not looked yet Look here first: gap of 33 ft from", // the entry has none: 2 (8 + 10) ft around, less its doorway of 3 ft
		"Great room: 6 receptacles drawn, 4 found: 2 not found, and which is not known",
		"Boat bay: receptacle C01-01, C01-02; lighting C01-03",
		"C01-02 is on 2 openings: Boathouse: Boat bay, Boathouse: Boat bay",
		"Gap of 14 ft from A02-07 to A02-08, 2 ft of it more than 6 ft from a receptacle.",
		"National Electrical Code (2017, 2020, 2023), 210.52(A). It ranks where to look",
		"Not said whether the spacing of receptacles is required: Boat bay, Kitchen.",
	} {
		if !strings.Contains(strings.ReplaceAll(text, "- ", "-"), want) {
			t.Errorf("the sheet does not say %q:\n%s", want, text)
		}
	}
}

func TestCountAndPlanSheets(t *testing.T) {
	a := drawnJob().asFound()
	for _, name := range []string{"count", "count-main-house", "differences-boathouse", "plan-main-house", "plan-boathouse"} {
		s := made(t, a, name)
		noOverlap(t, s)
		if len(s.Pages) != 1 {
			t.Errorf("%s takes %d pages", name, len(s.Pages))
		}
	}
	got, err := report.CSV(a, "count")
	if err != nil {
		t.Fatal(err)
	}
	total := 0
	for _, row := range rowsOf(t, got)[1:] {
		if n := 0; row[0] != "" {
			if _, err := fmt.Sscan(row[3], &n); err != nil {
				t.Fatal(err)
			}
			total += n
		}
	}
	if total != len(a.Openings) {
		t.Errorf("%d openings are counted, want %d", total, len(a.Openings))
	}
}

// A floor too full for a letter page makes the paper larger; nothing is lost.
func TestFullFloorTakesLargerPaper(t *testing.T) {
	j := newJob()
	j.building("A")
	for r := range 30 {
		room := fmt.Sprintf("Room %d", r+1)
		j.room("A", room)
		for n := range 14 {
			j.openings(room, observation.Receptacle, fmt.Sprintf("A%02d-%02d", r+1, n+1))
		}
	}
	s := made(t, j.asFound(), "plan-a")
	noOverlap(t, s)
	if len(s.Pages) != 1 || s.Pages[0].Width < 279 {
		t.Errorf("%d pages, %v mm wide", len(s.Pages), s.Pages[0].Width)
	}
	text := textOf(s)
	for r := range 30 {
		for n := range 14 {
			if number := fmt.Sprintf("A%02d-%02d", r+1, n+1); !strings.Contains(text, number) {
				t.Errorf("%s is lost", number)
			}
		}
	}
}
