package pellam

import (
	"fmt"
	"slices"
	"strings"

	"asfound/observation"
	"asfound/quantity"
)

// Found is the property as it really is: the design with what was left undone
// and what was done wrong.
type Found struct {
	*Property
	Wiring   *Wiring
	Faults   []Fault
	Boxes    map[string]Look      // openings at which something can be seen
	Cabinets map[string]PanelLook // by panel
	Ways     map[string]Way       // raceways of feeders, by feeder
	Source   map[string]bool      // sources with a neutral-to-frame bond of their own
}

// Look is what is to be seen at an opening beside its conductors; the zero Look
// is nothing out of the ordinary.
type Look struct {
	Covered    bool             // the finish was never cut
	FreeLength quantity.Inches  // of conductors outside the face; 0 is enough
	Setback    quantity.Inches  // of the box front behind the finish
	BoxNotFor  string           // a fan, insulation: what the box or housing is not listed for
	Unmarked   observation.Wire // a white conductor that is hot and not re-marked
	HotIsGreen bool             // a green conductor serves as hot
	WetCable   bool             // cable for dry places in a wet one
}

// PanelLook is what is to be seen at a panel.
type PanelLook struct {
	DeadFrontGone, NameplateGone bool
	KnockoutsBroken              int // joined into one hole
	CablesInOneFitting           int
	DoubleNeutrals               int // terminals with two
	InClothesCloset              bool
	NoElectrode                  bool     // at a separate building
	NoGroundFault                []string // circuits that should have it and do not
}

// Way is what is to be found of an underground raceway.
type Way struct {
	StubShort quantity.Feet // of the building's wall
	Cover     quantity.Inches
	CoverOver quantity.Feet // so long a part lies so shallow
	Blocked   quantity.Feet // from the From end
}

// Build makes the property as it really is, or as it would be without some of its
// faults.
func Build(without ...string) (*Found, error) {
	p, err := Designed()
	if err != nil {
		return nil, err
	}
	f := &Found{Property: p, Wiring: p.Wire(), Boxes: map[string]Look{}, Cabinets: map[string]PanelLook{}, Ways: map[string]Way{}, Source: map[string]bool{}}
	if f.Faults, err = faults(); err != nil {
		return nil, err
	}
	f.Faults = slices.DeleteFunc(f.Faults, func(x Fault) bool { return slices.Contains(without, x.ID) })
	for _, x := range f.Faults {
		for _, c := range x.Changes {
			if err := c.apply(f); err != nil {
				return nil, fmt.Errorf("work fault %s into the property: %w", x.ID, err)
			}
		}
	}
	f.unmake()
	return f, nil
}

// MadeUp reports whether the splices of an opening were made. They were on the
// main and upper floor of the main house, in the cabin, the workshop and the
// well house; not on the lower level nor in the boathouse, but for the three
// circuits there that were tried on temporary power.
func (f *Found) MadeUp(opening string) bool {
	if c := f.circuitOf(opening); c != nil && slices.Contains([]string{"A1-45", "A1-49", "C1-12"}, c.ID) {
		return true
	}
	if o := f.Opening(opening); o == nil || f.Room(o.Room).Floor < 0 || Building(opening) == "C" {
		return false
	}
	return true
}

// Trimmed reports whether something is installed at an opening: the strip
// luminaires of the workshop, nothing else.
func (f *Found) Trimmed(opening string) bool {
	o := f.Opening(opening)
	return o != nil && Building(opening) == "D" && strings.Contains(o.What, "strip")
}

// unmake takes the splices of the openings apart that were never made up.
func (f *Found) unmake() {
	for _, o := range f.Openings {
		if f.MadeUp(o.ID) {
			continue
		}
		for _, n := range f.Wiring.At(o.ID) {
			for _, wire := range f.Wiring.Run(n).Conductors {
				f.Wiring.Free(f.Wiring.End(n, o.ID, wire))
			}
		}
	}
}
