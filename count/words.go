package count

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/rule"
)

// Say says how far a place was read: "12 of 40 openings read, 1 not reached, 27
// not visited".
func (c Coverage) Say() string {
	if c.Openings == 0 {
		return "no opening on record"
	}
	parts := []string{fmt.Sprintf("%d of %s read", c.Visits[Read], plural(c.Openings, "opening"))}
	for _, v := range []struct {
		of  Visit
		say string
	}{{CannotRead, "could not be read"}, {NotReached, "not reached"}, {NotVisited, "not visited"}} {
		if n := c.Visits[v.of]; n > 0 {
			parts = append(parts, strconv.Itoa(n)+" "+v.say)
		}
	}
	return strings.Join(parts, ", ")
}

// UseName names openings of one use: "1 receptacle", "3 switches".
func UseName(use observation.OpeningUse, n int) string {
	one, many := string(use), string(use)+"s"
	switch use {
	case observation.Switch:
		many = "switches"
	case observation.Lighting:
		one, many = "lighting opening", "lighting openings"
	case observation.Equipment:
		one, many = "opening for equipment", "openings for equipment"
	case observation.Junction:
		one, many = "junction box", "junction boxes"
	case observation.NoUse:
		one, many = "opening of a use not known", "openings of a use not known"
	case observation.Receptacle:
	}
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}

// plural is "1 opening", "3 openings".
func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

// DrawnName names a drawn opening: "R3, receptacle in Kitchen (sheet E2)".
func DrawnName(in *installation.Installation, d *installation.Drawn) string {
	out := cmp.Or(string(d.Use), "use not known")
	if d.Mark != "" {
		out = d.Mark + ", " + out
	}
	if d.What != "" {
		out += ", " + d.What
	}
	out += " in " + in.Name(d.Room)
	if d.Sheet != "" {
		out += " (sheet " + d.Sheet + ")"
	}
	return out
}

// OutcomeName says what became of a drawn opening that was not found.
func (m Missing) OutcomeName() string {
	switch {
	case m.Gone:
		return "not looked yet; the opening it was found as is no longer on record"
	case m.Is == observation.NeverRoughed:
		return "never roughed"
	case m.Is == observation.CoveredOver:
		return "covered"
	}
	return "not looked yet"
}

// Say says how many are drawn and how many found, and never which is missing.
func (c Counted) Say(in *installation.Installation) string {
	out := fmt.Sprintf("%s: %s drawn, %d found", in.Name(c.Room), UseName(c.Use, len(c.Drawn)), len(c.Found))
	switch {
	case c.Short() > 0:
		return fmt.Sprintf("%s: %d not found, and which is not known", out, c.Short())
	case c.Over() > 0:
		return fmt.Sprintf("%s: %d more than drawn, and which is not known", out, c.Over())
	}
	return out + ": they may be the same, and nobody said so"
}

// Say says where a gap is and between what, or why that cannot be told.
func (g RoomGap) Say() string {
	out := fmt.Sprintf("%s from %s to %s, %s of it more than 6 ft from a receptacle", g.Length.Span(), g.endName(g.From, g.Left), g.endName(g.To, g.Right), g.Beyond.Span())
	if len(g.Because) > 0 {
		return "cannot tell whether there is a gap of " + out + ", because " + strings.Join(g.Because, "; and ")
	}
	return "gap of " + out
}

func (g RoomGap) endName(e rule.End, at *installation.Opening) string {
	if at != nil {
		return at.Number
	}
	return fmt.Sprintf("the end of the wall space (%s, %s along)", e.Wall, e.Along.Span())
}

// Say is what is known of the spacing in a room, a sentence each.
func (s RoomSpacing) Say() []string {
	switch {
	case s.Applies == observation.NotKnown:
		return []string{"Not said whether receptacles along the walls are required here."}
	case s.Applies == observation.No:
		return []string{"Said not to be required here."}
	case len(s.Cannot) > 0:
		return []string{"Cannot tell, because " + strings.Join(s.Cannot, "; and ") + "."}
	}
	var out []string
	for _, g := range s.Gaps {
		say := g.Say()
		out = append(out, strings.ToUpper(say[:1])+say[1:]+".")
	}
	if len(out) == 0 {
		out = append(out, "No gap found by what was measured.")
	}
	for _, n := range s.Notes {
		out = append(out, n+".")
	}
	return out
}
