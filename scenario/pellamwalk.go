package scenario

import (
	"math"
	"time"

	"asfound/pellam"
	"asfound/quantity"
)

// Walk goes from the middle of a room to that of another: straight lines made
// longer, stairs, and the measured paths over the snow, which begin and end at
// the corner that a building's room positions are counted from (assumed). The
// costs of made-up jobs have no part in it: the property has its own.
func (p *PellamPoint) Walk(_ Costs, from, to int) time.Duration {
	if from == to {
		return 0
	}
	b := p.Found.Rooms[to]
	if from < 0 {
		return p.inside(b)
	}
	a := p.Found.Rooms[from]
	if length, apart := p.path(pellam.Building(a.ID), pellam.Building(b.ID)); apart {
		return p.inside(a) + seconds(float64(length)/p.Work.Movement.OnSnow) + p.inside(b)
	}
	x, y := middle(b)
	fromX, fromY := middle(a)
	return p.indoors(x-fromX, y-fromY) + p.stairs(p.view.Rooms[from].Floor, p.view.Rooms[to].Floor)
}

// path is the way between two buildings; not apart if they are one.
func (p *PellamPoint) path(a, b string) (length quantity.Feet, apart bool) {
	for _, w := range p.Found.Paths {
		if w.From == a && w.To == b || w.From == b && w.To == a {
			return w.Length, true
		}
	}
	return 0, false
}

// inside is the way between a building's corner and the middle of a room.
func (p *PellamPoint) inside(r pellam.Room) time.Duration {
	x, y := middle(r)
	return p.indoors(x, y) + p.stairs(0, p.view.Rooms[p.room(r.ID)].Floor)
}

func middle(r pellam.Room) (x, y quantity.Feet) { return r.X + r.Width/2, r.Y + r.Depth/2 }

func (p *PellamPoint) indoors(dx, dy quantity.Feet) time.Duration {
	m := p.Work.Movement
	return seconds(m.Longer * math.Hypot(float64(dx), float64(dy)) / m.Indoors)
}

func (p *PellamPoint) stairs(from, to int) time.Duration {
	if to > from {
		return time.Duration(to-from) * p.Work.Movement.Up
	}
	return time.Duration(from-to) * p.Work.Movement.Down
}

func inches(f quantity.Feet) quantity.Inches { return quantity.Inches(12 * f) }

func seconds(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }

// Reach sets a ladder up where one is needed and opens the box: a bare one, or
// one with a luminaire on it, whose two parts come off and go on again like a
// plate.
func (p *PellamPoint) Reach(_ Costs, box int) time.Duration {
	m := p.Work.Movement
	d := m.Box
	if p.Found.Trimmed(p.view.Boxes[box].Number) {
		d = m.PlateOff + m.PlateOn
	}
	return d + p.Ladder(box)
}

// Ladder is the time to set one up at a box, if it hangs that high.
func (p *PellamPoint) Ladder(box int) time.Duration {
	m := p.Work.Movement
	switch h := p.view.Boxes[box].Height; {
	case h > inches(m.ExtensionOver):
		return m.Extension
	case h > inches(m.StepladderOver):
		return m.Stepladder
	}
	return 0
}

// Visits are the days on which people come, from eight in the morning where the
// clock of the job runs. Shift moves them all.
func (p *PellamPoint) Visits(in *time.Location, shift int) []Visit {
	const morning = 8
	var out []Visit
	before := map[string]int{}
	for _, v := range p.Work.Visits {
		d := v.Date.AddDate(0, 0, shift)
		visit := Visit{Start: time.Date(d.Year(), d.Month(), d.Day(), morning, 0, 0, 0, in), Hours: p.Work.Movement.OnSite, Work: v.Work, Notes: p.Work.NotesOf(v.ID)}
		for _, name := range v.Crew {
			who := p.Work.Person(name)
			one := Person{Name: name, Share: who.Rate(before[name])}
			if who.Part == "lead" {
				visit.Crew = append([]Person{one}, visit.Crew...)
			} else {
				visit.Crew = append(visit.Crew, one)
			}
			before[name]++
		}
		out = append(out, visit)
	}
	return out
}

// Crew names the people of the demo property.
func Crew() []string {
	var out []string
	for _, p := range atPellam().People {
		out = append(out, p.Name)
	}
	return out
}
