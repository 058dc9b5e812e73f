package count

import (
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
)

// Differences is the drawings against what was found. Every drawn opening is in
// exactly one of Pairs, Missing and Counted; so is every found one of Pairs,
// Extra and Counted.
type Differences struct {
	Pairs   []Pair
	Missing []Missing               // drawn and not found
	Extra   []*installation.Opening // found and on no drawing
	Counted []Counted               // by room and use: those short first, then those over
	Twice   []Twice
	Rooms   []RoomSpacing // rooms of the property, for gaps along the walls
	Drawn   int           // how many drawn openings there are
}

// Pair is a found opening with what is drawn for it.
type Pair struct {
	Found *installation.Opening
	Drawn []*installation.Drawn // more than one when several were said to be it
	Said  bool                  // somebody said so; else their number is the same
}

// Missing is a drawn opening for which there is none, with what became of it.
type Missing struct {
	*installation.Drawn
	Is   observation.Outcome
	How  string             // what shows it
	Gone bool               // it was found once, and that opening is no longer on record
	Near []RoomGap          // gaps of its room where a receptacle may be
	Said *observation.Event // who said so, or nil
}

// Counted are drawn and found openings of one use in one room that nothing
// pairs. Where there are as many drawn as found they may all be the same.
type Counted struct {
	Room  observation.Thing
	Use   observation.OpeningUse
	Drawn []*installation.Drawn
	Found []*installation.Opening
}

// Short is how many more are drawn than found, Over how many more are found.
func (c Counted) Short() int { return max(0, len(c.Drawn)-len(c.Found)) }

// Over is how many more are found than drawn.
func (c Counted) Over() int { return max(0, len(c.Found)-len(c.Drawn)) }

// Twice is a number that several openings bear, or a mark that stands at several
// drawn openings of a room.
type Twice struct {
	Number string
	Found  []*installation.Opening
	Drawn  []*installation.Drawn
}

// comparison is a comparison being made.
type comparison struct {
	in    *installation.Installation
	out   Differences
	drawn map[*installation.Drawn]bool   // those not told yet
	found map[*installation.Opening]bool // those not told yet
	miss  map[*installation.Drawn]*Missing
	pairs map[*installation.Opening]*Pair
	extra map[*installation.Opening]bool
	rooms map[observation.Thing]RoomSpacing
}

// Compare compares the drawings with a building, or with the property for no
// thing.
func Compare(in *installation.Installation, of observation.Thing) Differences {
	c := &comparison{in: in, drawn: map[*installation.Drawn]bool{}, found: map[*installation.Opening]bool{}, miss: map[*installation.Drawn]*Missing{},
		pairs: map[*installation.Opening]*Pair{}, extra: map[*installation.Opening]bool{}, rooms: map[observation.Thing]RoomSpacing{}}
	inside := map[observation.Thing]bool{}
	for _, r := range Rooms(in, of) {
		inside[r.Thing] = true
		c.out.Rooms = append(c.out.Rooms, SpacingOf(in, r))
		c.rooms[r.Thing] = c.out.Rooms[len(c.out.Rooms)-1]
	}
	var drawn []*installation.Drawn
	for _, d := range in.Drawn {
		if of == "" || inside[d.Room] {
			drawn = append(drawn, d)
			c.drawn[d] = true
		}
	}
	found := Openings(in, of)
	for _, o := range found {
		c.found[o] = true
	}
	c.out.Drawn = len(drawn)
	c.said(drawn, found)
	c.numbered(drawn, found)
	c.counted(drawn, found)
	c.list(drawn)
	c.twice(drawn, found)
	return c.out
}

// said takes what somebody said became of a drawn opening.
func (c *comparison) said(drawn []*installation.Drawn, found []*installation.Opening) {
	for _, d := range drawn {
		switch b := outcome(d); b.Is {
		case observation.FoundAs:
			as := c.in.Opening(b.As)
			if as == nil {
				c.missing(d, &Missing{Gone: true})
			} else {
				c.pair(as, d, true)
			}
		case observation.NeverRoughed, observation.CoveredOver:
			c.missing(d, &Missing{Is: b.Is, How: b.How, Said: d.Outcome})
		case observation.NotLooked:
		}
	}
	here, asked := setOf(found), setOf(drawn)
	for _, d := range c.in.Drawn { // in another building, and found in this one
		if as := c.in.Opening(outcome(d).As); as != nil && here[as] && !asked[d] {
			c.pair(as, d, true)
		}
	}
}

func outcome(d *installation.Drawn) observation.Reconciled {
	if d.Outcome == nil {
		return observation.Reconciled{}
	}
	return d.Outcome.Body.(observation.Reconciled)
}

func (c *comparison) pair(o *installation.Opening, d *installation.Drawn, said bool) {
	if c.pairs[o] == nil {
		c.pairs[o] = &Pair{Found: o, Said: said}
	}
	c.pairs[o].Drawn = append(c.pairs[o].Drawn, d)
	delete(c.found, o)
	delete(c.drawn, d)
}

func (c *comparison) missing(d *installation.Drawn, m *Missing) {
	m.Drawn = d
	if d.Use == observation.Receptacle {
		m.Near = c.rooms[d.Room].Gaps
	}
	c.miss[d] = m
	delete(c.drawn, d)
}

// setOf is for asking many times whether something is among others.
func setOf[T comparable](all []T) map[T]bool {
	out := make(map[T]bool, len(all))
	for _, x := range all {
		out[x] = true
	}
	return out
}

// bearing is a mark or number in a room.
type bearing struct {
	room observation.Thing
	key  string
}

func markOf(d *installation.Drawn) bearing     { return bearing{d.Room, keyOf(d.Mark)} }
func numberOf(o *installation.Opening) bearing { return bearing{o.Room, keyOf(o.Number)} }

// numbered pairs what bears the same number in the same room, where only one of
// either does.
func (c *comparison) numbered(drawn []*installation.Drawn, found []*installation.Opening) {
	marks, numbers := map[bearing][]*installation.Drawn{}, map[bearing][]*installation.Opening{}
	for _, d := range drawn {
		if c.drawn[d] {
			marks[markOf(d)] = append(marks[markOf(d)], d)
		}
	}
	for _, o := range found {
		if c.found[o] {
			numbers[numberOf(o)] = append(numbers[numberOf(o)], o)
		}
	}
	for _, d := range drawn {
		at := markOf(d)
		if c.drawn[d] && at.key != "" && len(marks[at]) == 1 && len(numbers[at]) == 1 {
			c.pair(numbers[at][0], d, false)
		}
	}
}

// keyOf is a number as compared: capitals and spaces make no other.
func keyOf(number string) string {
	return strings.ToLower(strings.Join(strings.Fields(number), ""))
}

// counted sorts the rest by room and use.
func (c *comparison) counted(drawn []*installation.Drawn, found []*installation.Opening) {
	type key struct {
		room observation.Thing
		use  observation.OpeningUse
	}
	var groups []*Counted
	by := map[key]*Counted{}
	at := func(k key) *Counted {
		if by[k] == nil {
			by[k] = &Counted{Room: k.room, Use: k.use}
			groups = append(groups, by[k])
		}
		return by[k]
	}
	for _, d := range drawn {
		if c.drawn[d] {
			g := at(key{d.Room, d.Use})
			g.Drawn = append(g.Drawn, d)
		}
	}
	for _, o := range found {
		if c.found[o] {
			g := at(key{o.Room, o.Use})
			g.Found = append(g.Found, o)
		}
	}
	rank := func(g *Counted) int { return 2*min(1, g.Over()) + 3*min(1, g.Short()) }
	slices.SortStableFunc(groups, func(a, b *Counted) int { return rank(b) - rank(a) })
	for _, g := range groups {
		switch {
		case len(g.Found) == 0:
			for _, d := range g.Drawn {
				c.missing(d, &Missing{})
			}
		case len(g.Drawn) == 0:
			for _, o := range g.Found {
				c.extra[o] = true
			}
		default:
			c.out.Counted = append(c.out.Counted, *g)
		}
	}
}

// list puts what was told in several steps into the order of the drawings and of
// the walk.
func (c *comparison) list(drawn []*installation.Drawn) {
	for _, d := range drawn {
		if m := c.miss[d]; m != nil {
			c.out.Missing = append(c.out.Missing, *m)
		}
	}
	for _, o := range c.in.Openings {
		if p := c.pairs[o]; p != nil {
			c.out.Pairs = append(c.out.Pairs, *p)
		}
		if c.extra[o] {
			c.out.Extra = append(c.out.Extra, o)
		}
	}
}

// twice lists numbers and marks given more than once.
func (c *comparison) twice(drawn []*installation.Drawn, found []*installation.Opening) {
	bear := map[string]int{}
	for _, o := range c.in.Openings {
		bear[keyOf(o.Number)]++
	}
	done := map[string]bool{}
	for _, o := range found {
		key := keyOf(o.Number)
		if bear[key] < 2 || done[key] {
			continue
		}
		if all := c.in.Numbered(o.Number); len(all) > 1 {
			done[key] = true
			c.out.Twice = append(c.out.Twice, Twice{Number: o.Number, Found: all})
		}
	}
	same := map[bearing][]*installation.Drawn{}
	for _, d := range drawn {
		same[markOf(d)] = append(same[markOf(d)], d)
	}
	for _, d := range drawn {
		if all := same[markOf(d)]; d.Mark != "" && all[0] == d && len(all) > 1 {
			c.out.Twice = append(c.out.Twice, Twice{Number: d.Mark, Drawn: all})
		}
	}
}
