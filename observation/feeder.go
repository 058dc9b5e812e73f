package observation

import "strconv"

// Feeder is what supplies a panel, or could: conductors from a source or from
// spaces of another panel. The subject is empty for a new one.
type Feeder struct {
	From  Thing  `json:"from,omitempty"` // the source or panel it comes from; empty is not known
	Space int    `json:"space,omitempty"`
	To    Thing  `json:"to"`            // the panel it comes to
	How   Basis  `json:"how,omitempty"` // how that is known
	Way   string `json:"way,omitempty"` // through what: "2-1/2 in PVC, transfer switch"
	Wires string `json:"wires,omitempty"`
}

// Basis is how somebody knows what he records of something he cannot see whole.
type Basis string

// The bases; BasisUnknown is not known.
const (
	BasisUnknown Basis = ""
	BasisTested  Basis = "tested" // both ends were identified by a test
	BasisLabel   Basis = "label"  // a mark or a drawing says so; marks may lie
	BasisAssumed Basis = "assumed"
)

// String says the basis as people read it.
func (b Basis) String() string {
	switch b {
	case BasisTested:
		return "both ends tested"
	case BasisLabel:
		return "as a label says"
	case BasisAssumed:
		return "assumed"
	case BasisUnknown:
	}
	return "not known how"
}

func (b Basis) check(field string) error {
	switch b {
	case BasisUnknown, BasisTested, BasisLabel, BasisAssumed:
		return nil
	}
	return unusable(field, string(b), "Choose how it is known from the list.")
}

// Kind is "feeder.1".
func (Feeder) Kind() string { return "feeder.1" }

// Check wants the panel it comes to, and another place it comes from.
func (f Feeder) Check() error {
	if f.To == "" {
		return unusable("to", "", "Say which panel it supplies.")
	}
	if f.From == f.To {
		return unusable("from", "", "A feeder comes from another panel or from a source.")
	}
	if f.Space < 0 || f.Space > 0 && f.From == "" {
		return unusable("space", strconv.Itoa(f.Space), "Say at which panel the space is.")
	}
	return firstFault(f.How.check("how"), checkText("way", f.Way), checkText("wires", f.Wires))
}
