package observation

import "asfound/quantity"

// Ohm is an ohmmeter reading between two conductors of one place, dead.
// Reprobed means that both leads were lifted since the reading before at this
// stop, so that a lead on a wrong conductor cannot have spoiled both.
type Ohm struct {
	A        Point               `json:"a"`
	B        Point               `json:"b"`
	Ohm      quantity.Resistance `json:"ohm"`
	Reprobed Known               `json:"reprobed,omitempty"`
}

// Kind is "ohm.1".
func (Ohm) Kind() string { return "ohm.1" }

// Check wants two different conductors of one place.
func (o Ohm) Check() error {
	if err := firstFault(o.A.check("a"), o.B.check("b"), o.Reprobed.check("reprobed")); err != nil {
		return err
	}
	if err := checkResistance("ohm", o.Ohm); err != nil {
		return err
	}
	if o.A == o.B {
		return unusable("b", o.B.String(), "Both leads are on the same conductor. Say where the second lead was.")
	}
	if o.A.At != o.B.At {
		return unusable("b", "", "An ohm reading has both leads at one place. Record the other place on its own.")
	}
	return nil
}
