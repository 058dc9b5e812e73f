package scenario

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"asfound/observation"
	"asfound/quantity"
)

// Generate makes up a property of a size. The same seed gives the same one.
func Generate(seed uint64, size Size) *Truth {
	g := &generator{Truth: &Truth{Number: seed, Size: size}, rng: rand.New(rand.NewPCG(seed, uint64(size)+1)), shape: shapes[size]}
	for i, p := range g.shape.panels {
		g.building(i, p)
		g.circuits(i, p)
	}
	for c := range g.Circuits {
		g.openings(c)
	}
	g.trim()
	g.number()
	g.spoil()
	return g.Truth
}

type generator struct {
	*Truth
	rng   *rand.Rand
	shape shape
}

func (g *generator) building(b int, p panelShape) {
	g.Buildings = append(g.Buildings, buildingNames[b])
	first := len(g.Rooms)
	for i := range p.rooms {
		floor := 0
		if i >= p.rooms-p.upstairs {
			floor = 1
		}
		g.Rooms = append(g.Rooms, Room{Building: b, Name: roomNames[b][i], Floor: floor})
	}
	g.Panels = append(g.Panels, Panel{Building: b, Room: first + g.rng.IntN(p.rooms-p.upstairs),
		Name: string(rune('A'+b)) + "1", Spaces: p.spaces})
}

// circuits puts breakers on free spaces of a panel, two-pole ones first.
func (g *generator) circuits(panel int, p panelShape) {
	n := int(math.Round(p.mean + p.spread*g.rng.NormFloat64()))
	var made []Circuit
	spaces := 0
	for range n {
		c := Circuit{Panel: panel, Poles: 1, Home: g.roomOf(panel), Size: "12"}
		switch u := g.rng.Float64(); {
		case u < twoPoleShare:
			c.Poles, c.Dedicated, c.Size = 2, true, "10"
		case u < twoPoleShare+dedicatedShare:
			c.Dedicated = true
		case g.rng.IntN(2) == 0:
			c.Size = "14"
		}
		if spaces += c.Poles; spaces > p.spaces {
			break
		}
		made = append(made, c)
	}
	slices.SortStableFunc(made, func(a, b Circuit) int { return b.Poles - a.Poles })
	free := g.rng.Perm(p.spaces)
	taken := map[int]bool{}
	for i := range made {
		at := slices.IndexFunc(free, func(s int) bool {
			return !taken[s] && (made[i].Poles == 1 || s+2 < p.spaces && !taken[s+2])
		})
		if at < 0 {
			continue // no two spaces of one column are left
		}
		made[i].Space = free[at] + 1
		taken[free[at]] = true
		if made[i].Poles == 2 {
			taken[free[at]+2] = true
		}
		g.Circuits = append(g.Circuits, made[i])
	}
}

// roomOf draws a room of a panel's building.
func (g *generator) roomOf(panel int) int {
	rooms := g.roomsOf(g.Panels[panel].Building)
	return rooms[g.rng.IntN(len(rooms))]
}

func (g *generator) roomsOf(building int) []int {
	var out []int
	for i, r := range g.Rooms {
		if r.Building == building {
			out = append(out, i)
		}
	}
	return out
}

// openings gives a circuit its openings, and its label.
func (g *generator) openings(c int) {
	circuit := &g.Circuits[c]
	n := 1
	if !circuit.Dedicated {
		n = leastOpenings + g.poisson(moreOpenings)
	}
	for range n {
		g.Truth.Openings = append(g.Truth.Openings, g.opening(c))
	}
	labelled := circuit.Home
	if g.rng.Float64() < wrongLabels {
		labelled = g.roomOf(circuit.Panel)
	}
	circuit.Label = g.Rooms[labelled].Name
}

func (g *generator) opening(c int) Opening {
	circuit := g.Circuits[c]
	o := Opening{Circuit: c, Room: g.place(circuit), Size: circuit.Size, Ground: true, Neutral: true, Use: observation.Equipment}
	if !circuit.Dedicated {
		uses := []observation.OpeningUse{observation.Receptacle, observation.Receptacle, observation.Receptacle,
			observation.Lighting, observation.Lighting, observation.Switch}
		o.Use = uses[g.rng.IntN(len(uses))]
	}
	rooms := math.Abs(float64(o.Room - g.Panels[circuit.Panel].Room))
	o.Length = quantity.Feet(math.Round(20 + 8*rooms + 40*g.rng.Float64()))
	return o
}

// place draws the room of an opening: the circuit's own, the next, or any.
func (g *generator) place(c Circuit) int {
	rooms := g.roomsOf(g.Panels[c.Panel].Building)
	switch u := g.rng.Float64(); {
	case u < homeShare:
		return c.Home
	case u < homeShare+nextShare:
		next := c.Home + 1 - 2*g.rng.IntN(2)
		if !slices.Contains(rooms, next) {
			next = 2*c.Home - next
		}
		return next
	}
	return rooms[g.rng.IntN(len(rooms))]
}

// poisson draws by counting how many uniform factors keep the product above
// e to the minus mean (Knuth's method, for small means).
func (g *generator) poisson(mean float64) int {
	n := -1
	for left := 1.0; left > math.Exp(-mean); n++ {
		left *= g.rng.Float64()
	}
	return n
}

// trim brings the number of openings to what the size asks for.
func (g *generator) trim() {
	want := g.shape.openings
	for want > 0 && len(g.Truth.Openings) != want {
		if len(g.Truth.Openings) > want {
			i := g.spare(func(o Opening) bool { return true })
			g.Truth.Openings = slices.Delete(g.Truth.Openings, i, i+1)
			continue
		}
		c := g.rng.IntN(len(g.Circuits))
		if !g.Circuits[c].Dedicated {
			g.Truth.Openings = append(g.Truth.Openings, g.opening(c))
		}
	}
}

// spare draws an opening whose circuit keeps another one.
func (g *generator) spare(fit func(Opening) bool) int {
	for {
		i := g.rng.IntN(len(g.Truth.Openings))
		o := g.Truth.Openings[i]
		if o.Circuit != Dead && g.count(o.Circuit) > 1 && !o.Foreign && !o.MisTied && fit(o) {
			return i
		}
	}
}

func (g *generator) count(circuit int) int {
	n := 0
	for _, o := range g.Truth.Openings {
		if o.Circuit == circuit {
			n++
		}
	}
	return n
}

// number puts the openings into walking order and numbers them room by room,
// with room numbers that start anew in each building: A02-08.
func (g *generator) number() {
	openings := g.Truth.Openings
	g.rng.Shuffle(len(openings), func(i, j int) { openings[i], openings[j] = openings[j], openings[i] })
	slices.SortStableFunc(openings, func(a, b Opening) int { return a.Room - b.Room })
	at, room := 0, -1
	for i := range openings {
		if at++; openings[i].Room != room {
			at, room = 1, openings[i].Room
		}
		building := g.Rooms[room].Building
		openings[i].Number = fmt.Sprintf("%c%02d-%02d", 'A'+building, room-g.roomsOf(building)[0]+1, at)
	}
}
