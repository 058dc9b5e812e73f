package web

import (
	"strings"

	"asfound/observation"
	"asfound/quantity"
)

// Words of what is recorded at a panel or of raceways and cables, with its values.

// racewayWords says a raceway: "raceway R1 EMT, 3/4 in, enters at the top, 4 conductors".
func racewayWords(r observation.Raceway) string {
	out := "raceway " + strings.Join(nonEmpty(r.Tag, r.Type), " ")
	parts := []string{out, sizeWord(r.Size, "")}
	if r.Side != "" {
		parts = append(parts, "enters at the "+r.Side)
	}
	if r.Count > 0 {
		parts = append(parts, counted(r.Count, "conductor"))
	}
	return strings.Join(nonEmpty(append(parts, r.Note)...), ", ")
}

// passWords says conductors that pass through a cabinet.
func passWords(p observation.PassThrough) string {
	out := counted(p.Count, "conductor") + " pass through"
	if p.Count == 1 {
		out = "1 conductor passes through"
	}
	parts := []string{out}
	if p.From != "" {
		parts = append(parts, "in by "+p.From)
	}
	if p.To != "" {
		parts = append(parts, "out by "+p.To)
	}
	switch p.Spliced {
	case observation.Yes:
		parts = append(parts, "spliced inside")
	case observation.No:
		parts = append(parts, "not spliced")
	}
	return strings.Join(nonEmpty(append(parts, p.Note)...), ", ")
}

// cabinetWords says the sizes that were measured.
func cabinetWords(c observation.Cabinet) string {
	box := strings.Join(nonEmpty(sizeWord(c.Width, "wide"), sizeWord(c.Height, "high"), sizeWord(c.Depth, "deep")), ", ")
	if box == "" {
		box = "not measured"
	}
	wall := strings.Join(nonEmpty(sizeWord(c.WallWidth, "wide"), sizeWord(c.WallHeight, "high")), ", ")
	if wall != "" {
		wall = "opening in the wall " + wall
	}
	return strings.Join(nonEmpty("cabinet "+box, wall, setWord(c.Set)), "; ")
}

// setWord says where the front edge of a cabinet lies.
func setWord(set *quantity.Inches) string {
	switch {
	case set == nil:
		return ""
	case *set == 0:
		return "flush with the finished surface"
	case *set < 0:
		return (-*set).String() + " in front of the finished surface"
	}
	return set.String() + " behind the finished surface"
}

// sizeWord is a size with what it is of; nothing when it was not measured.
func sizeWord(size quantity.Inches, of string) string {
	if size <= 0 {
		return ""
	}
	return strings.Join(nonEmpty(size.String(), of), " ")
}

func markWords(mark string) string {
	if mark == "" {
		return ""
	}
	return "marked “" + mark + "”"
}

// sayOnRecord refuses a tag that is on record.
func sayOnRecord(what string) string { return what + " is on record already: put it right there." }

const (
	sayConductorsCoiled = "Choose the conductors, or type them with commas between."
	sayRacewayType      = "Choose the type from the list, or type another one."
	saySide             = "Choose from the list where it enters."
	sayNotAbove         = "Type this size in inches, above zero; empty means not measured."
	sayTooLong          = "Type this size in inches, up to 200."
)
