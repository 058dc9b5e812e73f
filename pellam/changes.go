package pellam

import (
	"fmt"
	"slices"

	"asfound/observation"
	"asfound/quantity"
)

// Change is one typed step from the property as designed to the property as it
// is.
type Change interface {
	apply(*Found) error
}

// Between names the run between two places that a change is about.
type Between struct{ From, To string }

// run finds it; an error says that the design has no such cable, or several.
func (b Between) run(f *Found) (int, error) {
	runs := f.Wiring.Lies(b.From, b.To)
	if len(runs) != 1 {
		return 0, fmt.Errorf("%d cables from %s to %s, want one", len(runs), b.From, b.To)
	}
	return runs[0], nil
}

// ExchangeScrews is two conductors landed on each other's screw.
type ExchangeScrews struct {
	Yoke Yoke
	A, B string
}

func (c ExchangeScrews) apply(f *Found) error {
	f.Wiring.Exchange(c.Yoke.Screw(c.A), c.Yoke.Screw(c.B))
	return nil
}

// ExchangeEnds is two conductors exchanged at an opening's outlet.
type ExchangeEnds struct {
	At   string
	A, B observation.Wire
}

func (c ExchangeEnds) apply(f *Found) error {
	f.Wiring.Exchange(Box(c.At, c.A), Box(c.At, c.B))
	return nil
}

// JoinNodes is copper where there should be none.
type JoinNodes struct{ A, B Node }

func (c JoinNodes) apply(f *Found) error {
	f.Wiring.Tie(c.A, c.B)
	return nil
}

// OpenSplice is a conductor of a run that was left out of its splice at a place.
type OpenSplice struct {
	Run  Between
	At   string
	Wire observation.Wire
}

func (c OpenSplice) apply(f *Found) error {
	n, err := c.Run.run(f)
	if err == nil {
		f.Wiring.Free(f.Wiring.End(n, c.At, c.Wire))
	}
	return err
}

// CutRun is a cable cut through.
type CutRun struct {
	Run Between
	At  quantity.Feet
}

func (c CutRun) apply(f *Found) error {
	n, err := c.Run.run(f)
	if err != nil {
		return err
	}
	f.Wiring.Run(n).Cut = c.At
	at := f.Wiring.Run(n).To
	for _, wire := range f.Wiring.Run(n).Conductors {
		f.Wiring.Free(f.Wiring.End(n, at, wire))
	}
	return nil
}

// Leak is insulation that fails from the hot of a cable to its ground.
type Leak struct {
	Run Between
	Ohm quantity.Ohms
}

func (c Leak) apply(f *Found) error {
	n, err := c.Run.run(f)
	if err != nil {
		return err
	}
	at := f.Wiring.Run(n).To
	f.Wiring.Across = append(f.Wiring.Across, Across{f.Wiring.End(n, at, observation.Hot), f.Wiring.End(n, at, observation.EGC), c.Ohm})
	return nil
}

// Conductors is a cable with others than the design wants.
type Conductors struct {
	Run   Between
	Wires []observation.Wire
	Size  quantity.Gauge // as designed when empty
}

func (c Conductors) apply(f *Found) error {
	n, err := c.Run.run(f)
	if err != nil {
		return err
	}
	r := f.Wiring.Run(n)
	if c.Size != "" {
		r.Size = c.Size
	}
	for _, wire := range r.Conductors {
		if c.Wires != nil && !slices.Contains(c.Wires, wire) {
			f.Wiring.Free(f.Wiring.End(n, r.From, wire))
			f.Wiring.Free(f.Wiring.End(n, r.To, wire))
		}
	}
	if c.Wires != nil {
		r.Conductors = c.Wires
	}
	return nil
}

// TakeOut is a cable of the design that is not there.
type TakeOut struct{ Run Between }

func (c TakeOut) apply(f *Found) error {
	n, err := c.Run.run(f)
	if err != nil {
		return err
	}
	r := f.Wiring.Run(n)
	for _, wire := range r.Conductors {
		f.Wiring.Free(f.Wiring.End(n, r.From, wire))
		f.Wiring.Free(f.Wiring.End(n, r.To, wire))
	}
	r.Conductors, r.From, r.To = nil, "", ""
	return nil
}

// Lay is a cable that the design does not have. Ties says what each conductor
// touches at either end.
type Lay struct {
	Run      Run
	From, To map[observation.Wire]Node
}

func (c Lay) apply(f *Found) error {
	n := f.Wiring.add(c.Run)
	for _, side := range []struct {
		at   string
		ties map[observation.Wire]Node
	}{{c.Run.From, c.From}, {c.Run.To, c.To}} {
		for _, wire := range c.Run.Conductors {
			end := f.Wiring.End(n, side.at, wire)
			f.Wiring.of(end)
			if to, tied := side.ties[wire]; tied {
				f.Wiring.Tie(to, end)
			}
		}
	}
	return nil
}

// Divert leads a cable through a place where it is cut and spliced: To feet to
// there and Rest feet on.
type Divert struct {
	Run    Between
	Via    string
	Splice string // names its joints, so that others can be tied to them
	To     quantity.Feet
	Rest   quantity.Feet
}

// Spliced is the joint of a Divert for a conductor.
func Spliced(at, name string, w observation.Wire) Node {
	return Node{At: at, Terminal: name + " " + string(w)}
}

func (c Divert) apply(f *Found) error {
	n, err := c.Run.run(f)
	if err != nil {
		return err
	}
	r := f.Wiring.Run(n)
	rest := *r
	far := r.To
	rest.From, rest.Length = c.Via, c.Rest
	r.To, r.Length = c.Via, c.To
	m := f.Wiring.add(rest)
	for _, wire := range rest.Conductors {
		old := Node{At: far, Run: n, Wire: wire}
		f.Wiring.Tie(old, f.Wiring.End(m, far, wire))
		f.Wiring.Free(old)
		f.Wiring.Tie(Spliced(c.Via, c.Splice, wire), f.Wiring.End(n, c.Via, wire), f.Wiring.End(m, c.Via, wire))
	}
	return nil
}

// Land moves a conductor of a home run to another space.
type Land struct {
	Run  Between
	Wire observation.Wire
	On   SpaceAt
}

func (c Land) apply(f *Found) error {
	n, err := c.Run.run(f)
	if err != nil {
		return err
	}
	end := f.Wiring.End(n, c.On.Panel, c.Wire)
	f.Wiring.Free(end)
	f.Wiring.Tie(c.On.Node(), end)
	return nil
}

// Seen is something to be seen at openings.
type Seen struct {
	At   []string
	Look func(*Look)
}

func (c Seen) apply(f *Found) error {
	for _, at := range c.At {
		if f.Opening(at) == nil {
			return fmt.Errorf("no opening %s", at)
		}
		look := f.Boxes[at]
		c.Look(&look)
		f.Boxes[at] = look
	}
	return nil
}

// SeenAtPanel is something to be seen at a panel.
type SeenAtPanel struct {
	At   string
	Look func(*PanelLook)
}

func (c SeenAtPanel) apply(f *Found) error {
	if f.Panel(c.At) == nil {
		return fmt.Errorf("no panel %s", c.At)
	}
	look := f.Cabinets[c.At]
	c.Look(&look)
	f.Cabinets[c.At] = look
	return nil
}

// Underground is what is wrong with the raceway of a feeder.
type Underground struct {
	Feeder string
	Way    Way
}

func (c Underground) apply(f *Found) error {
	f.Ways[c.Feeder] = c.Way
	return nil
}

// FrameBond is a source that ties its neutral to its frame.
type FrameBond struct{ Source string }

func (c FrameBond) apply(f *Found) error {
	f.Source[c.Source] = true
	f.Wiring.Tie(NeutralBar(c.Source), GroundBar(c.Source))
	return nil
}

// PolarityReversing is two 3-ways with hot and neutral on the travelers' screws
// of both and the luminaires between their commons.
type PolarityReversing struct{ Group string }

func (c PolarityReversing) apply(f *Found) error {
	g := f.Group(c.Group)
	a, b := g.Switches[0], g.Switches[1]
	w, n := f.Wiring, f.travelers(f.Wiring, g, 0)
	leg, err := Between{b.Box, g.Luminaires[0]}.run(f)
	if err != nil {
		return err
	}
	for _, end := range []Node{a.Screw("common"), a.Screw("traveler 1"), a.Screw("traveler 2"), b.Screw("common"), b.Screw("traveler 1"),
		b.Screw("traveler 2"), w.End(n, a.Box, observation.Hot), w.End(n, a.Box, HotTwo), w.End(n, b.Box, observation.Hot),
		w.End(n, b.Box, HotTwo), w.End(n, b.Box, observation.Neutral), w.End(leg, b.Box, observation.Hot), w.End(leg, b.Box, observation.Neutral)} {
		w.Free(end)
	}
	w.Tie(a.Screw("traveler 1"), feedJoint(a.Box, g.Circuit, observation.Hot), w.End(n, a.Box, observation.Hot))
	w.Tie(a.Screw("traveler 2"), feedJoint(a.Box, g.Circuit, observation.Neutral))
	w.Tie(a.Screw("common"), w.End(n, a.Box, HotTwo))
	w.Tie(b.Screw("traveler 1"), w.End(n, b.Box, observation.Hot))
	w.Tie(b.Screw("traveler 2"), w.End(n, b.Box, observation.Neutral))
	w.Tie(b.Screw("common"), w.End(leg, b.Box, observation.Hot))
	w.Tie(w.End(leg, b.Box, observation.Neutral), w.End(n, b.Box, HotTwo))
	return nil
}

// GroundAsTraveler is a cable with a conductor too few between two 3-ways, whose
// bare conductor is the second traveler.
type GroundAsTraveler struct {
	Run  Between
	A, B Yoke
}

func (c GroundAsTraveler) apply(f *Found) error {
	if err := (Conductors{Run: c.Run, Wires: []observation.Wire{observation.Hot, observation.Neutral, observation.EGC}}).apply(f); err != nil {
		return err
	}
	n, err := c.Run.run(f)
	if err != nil {
		return err
	}
	for _, y := range []Yoke{c.A, c.B} {
		end := f.Wiring.End(n, y.Box, observation.EGC)
		f.Wiring.Free(end)
		f.Wiring.Tie(y.Screw("traveler 2"), end)
	}
	return nil
}
