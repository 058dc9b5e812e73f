package scenario

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"time"

	"asfound/observation"
	"asfound/quantity"
)

// Practice is a usual way to find out what each opening is on.
type Practice int

// The practices that the tour is compared with. Both work dead, on the same
// wiring, ways, ladders, instruments and mistakes as the tour; how they go is
// common practice, no source, and what follows is assumed in their favor:
//
//   - the dead bus is tied to the ground bar, so that a closed breaker is a known
//     end on its circuit, in the time a breaker takes; a coiled cable is put on a
//     spare one first, once;
//   - every switch is in and closed, so that what lies beyond is reached, at no
//     cost;
//   - a box is opened, and a ladder set up, once: after that its conductors stand
//     out, down to where they are reached from the floor;
//   - a building without a panel belongs to the nearest that has one;
//   - panels are neither opened, proved dead nor tested for joins;
//   - nothing is surveyed: numbers are on the boxes, and nobody writes more than a
//     circuit beside them.
//
// OneAtATime is one person: one known end on, a walk past every opening of the
// building that has no name yet, back to the panel, the next. A reading that
// names is repeated.
//
// CompetentPair is two people with radios and a tone, one at the panel: at the
// next opening without a name half of the circuits are tied, and half of what is
// left, until one is; its tone is then listened for in that room and those beside
// it, and what answers is confirmed by its known end. Both are paid for all of
// it.
const (
	OneAtATime Practice = iota
	CompetentPair
)

// Practiced is what a practice came to.
type Practiced struct {
	Elapsed  time.Duration
	People   int
	Readings int
	Right    int // conductor ends named as they are
	Wrong    int // named otherwise, or called dead though something reaches them
	Joined   int // of those: openings put on one circuit whose cables are on two
	NoName   int // left without a name although something reaches them
	Dead     int // without a name, and nothing reaches them: what is so
}

// Hours are those of all its people.
func (p Practiced) Hours() float64 { return float64(p.People) * p.Elapsed.Hours() }

// How long a practice takes at its own work (assumed, as in the costs of the
// tracing benchmark), and how often a closed or open reading is taken for the
// other.
const (
	listen    = 6 * time.Second
	breaker   = 1500 * time.Millisecond
	overRadio = 6 * time.Second
	inverted  = 0.01
)

// practitioner is a practice under way. It knows what reaches each end with all
// switches closed; whoever works knows only what he reads.
type practitioner struct {
	world *PellamPoint
	rng   *rand.Rand
	rates Rates
	costs Costs
	out   Practiced

	ends    []End
	on      map[End][]Terminal // what reaches it
	named   map[End]Terminal
	visited map[int]bool
	landed  map[Terminal]bool // coiled cables on a spare breaker
	at      int               // the room he is in
}

// Practice plays a practice at the demo property by one of its people, with the
// mistakes of a seed.
func (p *PellamPoint) Practice(which Practice, rates Rates, seed uint64) Practiced {
	w := &practitioner{world: p, rng: rand.New(rand.NewPCG(seed, uint64(which))), rates: rates, costs: AssumedCosts(),
		on: map[End][]Terminal{}, named: map[End]Terminal{}, visited: map[int]bool{}, landed: map[Terminal]bool{}, at: -1}
	for i, b := range p.view.Boxes {
		for _, e := range b.Ends {
			if !b.Covered {
				w.ends = append(w.ends, End{i, e.Tag})
				w.on[End{i, e.Tag}] = p.feeding(p.closed, End{i, e.Tag})
			}
		}
	}
	switch which {
	case OneAtATime:
		w.out.People = 1
		w.oneAtATime()
	case CompetentPair:
		w.out.People = 2
		w.competentPair()
	}
	w.score()
	return w.out
}

func (w *practitioner) slip(rate float64) bool { return w.rng.Float64() < rate }

func (w *practitioner) spend(d time.Duration) { w.out.Elapsed += d }

func (w *practitioner) goTo(room int) {
	w.spend(w.world.Walk(w.costs, w.at, room))
	w.at = room
}

// stand goes to a box; the first time it is opened.
func (w *practitioner) stand(box int) {
	w.goTo(w.world.view.Boxes[box].Room)
	if !w.visited[box] {
		w.visited[box] = true
		w.spend(w.world.Reach(w.costs, box))
	}
}

// terminalsOf lists what can be tied at a panel.
func (w *practitioner) terminalsOf(panel int) []Terminal {
	var out []Terminal
	for _, b := range w.world.view.Panels[panel].Breakers {
		if b.Lands == observation.LandsBranch {
			out = append(out, Terminal{Panel: panel, Space: b.Number})
		}
	}
	for _, c := range w.world.view.Panels[panel].Coiled {
		out = append(out, Terminal{Panel: panel, Cable: c.Tag})
	}
	return out
}

// panelsOf lists the panels that a building's openings are looked for on: its
// own, else the nearest.
func (w *practitioner) panelsOf(building int) []int {
	var out []int
	for i, p := range w.world.view.Panels {
		if p.Building == building {
			out = append(out, i)
		}
	}
	if len(out) > 0 {
		return out
	}
	nearest, best := 0, quantity.Feet(math.Inf(1))
	for i, p := range w.world.view.Panels {
		if length, _ := w.world.path(letter(p.Building), letter(building)); length < best {
			nearest, best = i, length
		}
	}
	return []int{nearest}
}

func letter(building int) string { return string(rune('A' + building)) }

// tie puts known ends on, and says which are really on: now and then the wrong
// breaker is thrown.
func (w *practitioner) tie(on []Terminal) []Terminal {
	really := slices.Clone(on)
	for i, t := range on {
		if t.Cable != "" && !w.landed[t] {
			w.landed[t] = true
			w.spend(w.costs.Resistor)
		}
		w.spend(breaker)
		if w.slip(w.rates.Breaker) {
			all := w.terminalsOf(t.Panel)
			really[i] = all[w.rng.IntN(len(all))]
		}
	}
	return really
}

// closed reads an end: whether it shows a known end that is on.
func (w *practitioner) closed(e End, on []Terminal, cost time.Duration) bool {
	w.out.Readings++
	w.spend(cost)
	shows := slices.ContainsFunc(w.on[e], func(t Terminal) bool { return slices.Contains(on, t) })
	return shows != (w.rates != (Rates{}) && w.rng.Float64() < inverted)
}

// write names an end, or by mistake one of another opening.
func (w *practitioner) write(e End, t Terminal) {
	if w.slip(w.rates.Opening) {
		e = w.otherThan(e)
	}
	w.named[e] = t
}

// otherThan draws the end that a name is written against in place of another's:
// mostly in the same room.
func (w *practitioner) otherThan(e End) End {
	pool := w.ends
	if w.rng.Float64() < w.rates.InRoom {
		room := w.world.view.Boxes[e.Box].Room
		pool = slices.DeleteFunc(slices.Clone(w.ends), func(x End) bool { return w.world.view.Boxes[x.Box].Room != room })
	}
	return pool[w.rng.IntN(len(pool))]
}

// unnamed lists the ends without a name whose building is served by a panel, in
// walking order.
func (w *practitioner) unnamed(panel int) []End {
	return slices.DeleteFunc(slices.Clone(w.ends), func(e End) bool {
		_, is := w.named[e]
		building := w.world.view.Rooms[w.world.view.Boxes[e.Box].Room].Building
		return is || !slices.Contains(w.panelsOf(building), panel)
	})
}

// oneAtATime takes each circuit of each panel in turn.
func (w *practitioner) oneAtATime() {
	for panel, face := range w.world.view.Panels {
		for _, t := range w.terminalsOf(panel) {
			w.goTo(face.Room)
			on := w.tie([]Terminal{t})
			last := -1
			for _, e := range w.unnamed(panel) {
				if w.slip(w.rates.Skipped) {
					continue
				}
				w.stand(e.Box)
				cost := w.costs.Ohm
				if e.Box == last {
					cost = w.costs.OhmAgain
				}
				last = e.Box
				if w.closed(e, on, cost) && w.closed(e, on, w.costs.OhmAgain) {
					w.write(e, t)
				}
			}
		}
	}
}

// competentPair takes the openings in walking order.
func (w *practitioner) competentPair() {
	tried := map[End]bool{}
	for _, e := range w.ends {
		if _, is := w.named[e]; is || tried[e] || w.slip(w.rates.Skipped) {
			continue
		}
		tried[e] = true
		w.stand(e.Box)
		t, found := w.halve(e)
		if !found {
			continue
		}
		on := w.tie([]Terminal{t})
		w.spend(overRadio)
		if !w.closed(e, on, w.costs.OhmAgain) {
			continue // the halving went wrong: it stays for the end
		}
		w.write(e, t)
		w.sweep(e, t, on)
	}
}

// halve narrows down what reaches an end. Not found is that nothing of its
// building's panels does.
func (w *practitioner) halve(e End) (Terminal, bool) {
	var left []Terminal
	for _, panel := range w.panelsOf(w.world.view.Rooms[w.world.view.Boxes[e.Box].Room].Building) {
		left = append(left, w.terminalsOf(panel)...)
	}
	w.spend(overRadio)
	if !w.closed(e, w.tie(left), w.costs.Ohm) {
		return Terminal{}, false
	}
	for range bits.Len(uint(len(left))) {
		if len(left) == 1 {
			break
		}
		half := left[:len(left)/2]
		w.spend(overRadio)
		if w.closed(e, w.tie(half), w.costs.OhmAgain) {
			left = half
		} else {
			left = left[len(left)/2:]
		}
	}
	return left[0], true
}

// sweep listens for the tone of a circuit in the room of an end and those beside
// it, and confirms what answers.
func (w *practitioner) sweep(from End, t Terminal, on []Terminal) {
	tone := w.world.Work.Instrument("tone pair")
	boxes := w.world.view.Boxes
	room := boxes[from.Box].Room
	for _, e := range w.ends {
		at := boxes[e.Box].Room
		if _, is := w.named[e]; is || at < room-1 || at > room+1 || w.world.view.Rooms[at].Building != w.world.view.Rooms[room].Building {
			continue
		}
		w.stand(e.Box)
		w.spend(listen)
		w.out.Readings++
		share := tone.Strays
		if slices.ContainsFunc(w.on[e], func(x Terminal) bool { return slices.Contains(on, x) }) {
			share = tone.Hits
		}
		if w.rng.Float64() < share && w.closed(e, on, w.costs.OhmAgain) {
			w.write(e, t)
		}
	}
}

// score compares the names with what is so.
func (w *practitioner) score() {
	circuits := map[int]map[Terminal]bool{} // really in a box
	names := map[int]map[Terminal]bool{}    // on record for it
	for _, e := range w.ends {
		t, is := w.named[e]
		switch {
		case is && slices.Contains(w.on[e], t):
			w.out.Right++
		case is:
			w.out.Wrong++
		case len(w.on[e]) > 0:
			w.out.NoName++
		default:
			w.out.Dead++
		}
		if names[e.Box] == nil {
			names[e.Box], circuits[e.Box] = map[Terminal]bool{}, map[Terminal]bool{}
		}
		if is {
			names[e.Box][t] = true
		}
		if len(w.on[e]) > 0 {
			circuits[e.Box][w.on[e][0]] = true
		}
	}
	for box, really := range circuits {
		if len(really) > 1 && len(names[box]) < 2 {
			w.out.Joined++
		}
	}
}
