package web

import (
	"fmt"
	"strings"

	"asfound/count"
	"asfound/installation"
	"asfound/observation"
	"asfound/rule"
)

type differencesPage struct {
	Form                  *form
	Of                    navItem // the building, or nothing for all
	Summary               string
	Kept, Any             bool
	Missing               []missingRow
	Counted               []countedRow
	Extra, Pairs, Twice   []foundRow
	Spacing, Unsaid       []spacingRow
	Cite, Covers, NotSeen string
	Doors                 []navItem
}

// missingRow is a drawn opening that was not found, with the form that says what
// became of it.
type missingRow struct {
	Form          *form
	Thing         observation.Thing
	Say, Is, How  string
	Entry         string // who said so
	Near          []gapRow
	Open          bool // the form came back
	As            []option
	AsSay, HowSay string // sentences at the two fields
	HowTyped      string
	NumberTyped   string
}

type countedRow struct {
	Say  string
	Room navItem
	Rows []missingRow
}

type foundRow struct {
	Say   string
	Links []navItem
}

type spacingRow struct {
	Room navItem
	Say  []string
	Gaps []gapRow
}

type gapRow struct {
	Say   string
	Links []navItem
}

// showDifferences shows the drawings against the building, or against the one
// building asked for.
func showDifferences(v *visit) error { return differencesWith(v, v.form()) }

func differencesWith(v *visit, f *form) error {
	of := observation.Thing(v.query("building"))
	b := v.found.Building(of)
	if b == nil {
		of = ""
	}
	in := v.found.Installation
	d := count.Compare(in, of)
	data := differencesPage{Form: f, Kept: v.query("kept") != "", Any: d.Drawn > 0,
		Cite: rule.SpacingPlace.String(), Covers: rule.SpacingCovers, NotSeen: rule.SpacingLeaves,
		Doors: []navItem{{Href: "drawings", Name: doorDrawings}, {Href: "papers", Name: titlePapers}}}
	if b != nil {
		data.Of = navItem{Href: "building/" + string(b.Thing), Name: b.Name}
	}
	numbered := 0
	for _, m := range d.Missing {
		data.Missing = append(data.Missing, v.missing(f, d, m))
	}
	for _, c := range d.Counted {
		numbered += len(c.Drawn)
		data.Counted = append(data.Counted, v.countedRow(f, d, c))
	}
	data.Summary = drawnSummary(d.Drawn, d.Drawn-len(d.Missing)-numbered, len(d.Missing), numbered, len(d.Extra))
	v.fillFound(&data, d)
	v.fillSpacing(&data, d)
	return v.renderForm("differences", titleDifferences, f, data)
}

// missing is a row for a drawn opening that nobody found.
func (v *visit) missing(f *form, d count.Differences, m count.Missing) missingRow {
	out := missingRow{Form: f, Thing: m.Thing, Say: count.DrawnName(v.found.Installation, m.Drawn), Is: m.OutcomeName(), How: m.How}
	if m.Said != nil {
		out.Entry = m.Said.Who + ", " + dayAndTime(m.Said.When(), v.ask.Now)
	}
	for _, g := range m.Near {
		out.Near = append(out.Near, v.gap(g))
	}
	chosen := ""
	if f.Sent("differences/" + string(m.Thing)) {
		out.Open = true
		out.AsSay, out.HowSay = f.Fault("as"), f.Fault("how")
		out.HowTyped, out.NumberTyped, chosen = f.Get("how"), f.Get("as_number"), f.Get("as")
	}
	out.As = v.asOptions(d, m.Room, chosen)
	return out
}

// asOptions are the openings of its room that a drawn one may be: those that
// nothing is paired with. Any other is named by its number.
func (v *visit) asOptions(d count.Differences, room observation.Thing, chosen string) []option {
	paired := map[observation.Thing]bool{}
	for _, p := range d.Pairs {
		paired[p.Found.Thing] = true
	}
	var out []option
	for _, o := range v.found.In(room) {
		if !paired[o.Thing] {
			out = append(out, option{Value: string(o.Thing), Say: o.Number + ", " + useWord(o.Use), On: string(o.Thing) == chosen})
		}
	}
	if len(out) > 0 {
		out = append([]option{{Say: sayChooseOpening}}, out...)
	}
	return out
}

func (v *visit) countedRow(f *form, d count.Differences, c count.Counted) countedRow {
	out := countedRow{Say: c.Say(v.found.Installation), Room: v.placeItem(c.Room)}
	for _, drawn := range c.Drawn {
		out.Rows = append(out.Rows, v.missing(f, d, count.Missing{Drawn: drawn}))
	}
	return out
}

// fillFound lists what was found: on no drawing, paired, and numbers given twice.
func (v *visit) fillFound(data *differencesPage, d count.Differences) {
	in := v.found.Installation
	for _, o := range d.Extra {
		data.Extra = append(data.Extra, foundRow{useWord(o.Use) + " in " + v.found.Name(o.Room), []navItem{openingItem(o)}})
	}
	for _, p := range d.Pairs {
		var names []string
		for _, x := range p.Drawn {
			names = append(names, count.DrawnName(in, x))
		}
		how := "same number"
		if p.Said {
			how = "as said"
		}
		data.Pairs = append(data.Pairs, foundRow{fmt.Sprintf("drawn as %s, %s", strings.Join(names, " and as "), how), []navItem{openingItem(p.Found)}})
	}
	for _, t := range d.Twice {
		row := foundRow{Say: fmt.Sprintf("%s stands %d times on the drawing of %s", t.Number, len(t.Drawn), in.Name(roomOfTwice(t)))}
		if len(t.Found) > 0 {
			row.Say = sayShares(t.Number, len(t.Found))
		}
		for _, o := range t.Found {
			row.Links = append(row.Links, navItem{Href: "opening/" + string(o.Thing), Name: o.Number + " in " + v.found.Name(o.Room)})
		}
		data.Twice = append(data.Twice, row)
	}
}

func roomOfTwice(t count.Twice) observation.Thing {
	if len(t.Drawn) == 0 {
		return ""
	}
	return t.Drawn[0].Room
}

func openingItem(o *installation.Opening) navItem {
	return navItem{Href: "opening/" + string(o.Thing), Name: o.Number}
}

// fillSpacing lists the gaps along walls, and the rooms of which nobody said
// whether the rule applies.
func (v *visit) fillSpacing(data *differencesPage, d count.Differences) {
	for _, s := range d.Rooms {
		row := spacingRow{Room: navItem{Href: "room/" + string(s.Room.Thing) + "#measure", Name: v.found.Name(s.Room.Building) + ", " + s.Room.Name}}
		switch {
		case s.Applies == observation.NotKnown:
			data.Unsaid = append(data.Unsaid, row)
			continue
		case len(s.Gaps) == 0:
			row.Say = s.Say()
		default:
			for _, g := range s.Gaps {
				row.Gaps = append(row.Gaps, v.gap(g))
			}
			for _, n := range s.Notes {
				row.Say = append(row.Say, n+".")
			}
		}
		data.Spacing = append(data.Spacing, row)
	}
}

func (v *visit) gap(g count.RoomGap) gapRow {
	out := gapRow{Say: g.Say()}
	for _, o := range []*installation.Opening{g.Left, g.Right} {
		if o != nil {
			out.Links = append(out.Links, openingItem(o))
		}
	}
	return out
}

// openingMeant is the opening whose number was typed, else the one chosen.
func (v *visit) openingMeant(f *form) observation.Thing {
	number := strings.TrimSpace(f.Get("as_number"))
	if number == "" {
		return observation.Thing(f.Get("as"))
	}
	switch all := v.found.Numbered(number); len(all) {
	case 1:
		return all[0].Thing
	case 0:
		f.fault("as", sayNoNumber)
	default:
		f.fault("as", sayShares(number, len(all)))
	}
	return ""
}

// addOutcome records what became of a drawn opening.
func addOutcome(v *visit) error {
	f := v.typed()
	d := v.found.DrawnAs(v.arg("drawn"))
	if d == nil {
		return notFound{sayNoThing}
	}
	body := observation.Reconciled{Is: observation.Outcome(f.Get("is")), How: strings.TrimSpace(f.Get("how"))}
	if body.Is == observation.FoundAs {
		body.As = v.openingMeant(f)
	}
	seen := replaces(d.Story, every[observation.Reconciled])
	if _, ok := v.record(f, observation.Observation{Subject: d.Thing, Seen: seen, Body: body}, nil); !ok {
		return differencesWith(v, f)
	}
	return v.goTo("differences?kept=yes")
}
