package rule

import (
	"cmp"
	"fmt"
	"slices"

	"asfound/cite"
	"asfound/quantity"
)

// SpacingPlace is where the spacing along walls is required. The figures are the
// same in these three editions; they are from memory, not read from the page.
var SpacingPlace = cite.Place{Title: "National Electrical Code", Edition: "2017, 2020, 2023", Section: "210.52(A)"}

// SpacingCovers and SpacingLeaves say for people what Spacing looks at and what
// it leaves to them.
const (
	SpacingCovers = "Looked at: wall spaces 2 ft wide or more, measured around corners, between doorways and other breaks on record. " +
		"No point along the floor line more than 6 ft from a receptacle in the same wall space. A receptacle in the floor counts within 18 in of the wall; one more than 5-1/2 ft above the floor does not."
	SpacingLeaves = "Not looked at: countertops, hallways, fixed panels, railings and room dividers; receptacles switched from the wall, inside cabinets, or part of a luminaire or appliance; whether this room is one that the section names."
)

// The figures of 210.52(A) and of the general text of 210.52.
const (
	reach      quantity.Inches = 6 * 12 // of a receptacle along the floor line, (A)(1)
	leastSpace quantity.Inches = 2 * 12 // width of a wall space, (A)(2)
	offWall    quantity.Inches = 18     // of a floor receptacle from the wall, (A)(3)
	tooHigh    quantity.Inches = 66     // above the floor, 210.52
)

// FloorLine is the floor line of a room. Each wall begins where the one before
// ends, and the last ends where the first begins.
type FloorLine struct {
	Walls    []Wall
	Unplaced []Receptacle // somewhere in the room
}

// Wall is one wall of a floor line; places are measured from its beginning.
type Wall struct {
	Name        string          // "front wall"
	Length      quantity.Inches // 0 is not measured
	Breaks      []Stretch       // doorways, fireplaces, fixed cabinets
	Receptacles []Receptacle
}

// Stretch is a part of a wall.
type Stretch struct{ From, To quantity.Inches }

// Receptacle is a receptacle, or an opening that may be one.
type Receptacle struct {
	Name    string
	Along   quantity.Inches
	Height  quantity.Inches // above the floor; 0 is not measured
	OffWall quantity.Inches // of one in the floor; 0 is in the wall
	Floor   bool            // it is in the floor
	Unsure  bool            // what the opening is for is not known
}

// Spaced is what Spacing found. With Cannot nothing could be told.
type Spaced struct {
	Cannot []string
	Gaps   []Gap    // the longest beyond reach first
	Notes  []string // what was not counted, and why
}

// Gap is a stretch of a wall space with a point more than 6 ft from any
// receptacle in it. Because says why it cannot be told whether it is one; none
// means that it is one by all that was measured.
type Gap struct {
	From, To End
	Length   quantity.Inches // from From to To
	Beyond   quantity.Inches // how much of it is out of reach
	Because  []string
}

// End is where a gap ends: at a receptacle, or where the wall space ends.
type End struct {
	Name  string // of the receptacle; empty is the end of the wall space
	Wall  string
	Along quantity.Inches
}

// Spacing looks along the floor line of a room for points that no receptacle is
// near enough to. See SpacingCovers and SpacingLeaves.
func Spacing(f FloorLine) Spaced {
	var out Spaced
	if out.Cannot = f.unmeasured(); len(out.Cannot) > 0 {
		return out
	}
	l := f.loop(&out)
	var gaps []*Gap
	for _, space := range l.spaces() {
		if space.To-space.From >= leastSpace {
			gaps = append(gaps, l.gaps(space, f.Unplaced)...)
		}
	}
	slices.SortStableFunc(gaps, func(a, b *Gap) int {
		return cmp.Or(cmp.Compare(len(a.Because), len(b.Because)), cmp.Compare(b.Beyond, a.Beyond))
	})
	for _, g := range gaps {
		out.Gaps = append(out.Gaps, *g)
	}
	return out
}

// unmeasured is why nothing can be told of a floor line.
func (f FloorLine) unmeasured() []string {
	var out []string
	breaks := 0
	for _, w := range f.Walls {
		breaks += len(w.Breaks)
		if w.Length <= 0 {
			out = append(out, "the length of the "+w.Name+" was not measured")
			continue
		}
		for _, b := range w.Breaks {
			if b.From < 0 || b.To > w.Length || b.To <= b.From {
				out = append(out, fmt.Sprintf("a doorway in the %s ends at %s, and the wall is %s long: one of the measures is wrong", w.Name, b.To.Span(), w.Length.Span()))
			}
		}
		for _, r := range w.Receptacles {
			if r.Along < 0 || r.Along > w.Length {
				out = append(out, fmt.Sprintf("%s is noted %s along the %s, and the wall is %s long: one of the measures is wrong", r.Name, r.Along.Span(), w.Name, w.Length.Span()))
			}
		}
	}
	if breaks == 0 {
		out = append(out, "no doorway is on record, and every room has one")
	}
	return out
}

// counts says whether a receptacle counts: not at all, for certain, or not known
// with the reason.
func (r Receptacle) counts() (may bool, note, doubt string) {
	switch {
	case r.Floor && r.OffWall > offWall:
		return false, r.Name + " is in the floor more than 18 in from the wall and was not counted", ""
	case r.Height > tooHigh:
		return false, r.Name + " is more than 5-1/2 ft above the floor and was not counted", ""
	case r.Unsure:
		return true, "", "what " + r.Name + " is for is not known"
	case r.Height == 0 && !r.Floor:
		return true, "", "the height of " + r.Name + " was not measured"
	}
	return true, "", ""
}
