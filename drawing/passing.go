package drawing

import (
	"fmt"

	"asfound/installation"
)

// Passing warns of conductors that pass through a panel's cabinet without
// landing: they may stay live with the panel dead. It is empty when none are on
// record.
func Passing(p *installation.Panel) string {
	count := 0
	for _, pass := range p.Passes {
		count += pass.Count
	}
	switch count {
	case 0:
		return ""
	case 1:
		return "1 conductor passes through this cabinet and may be live with the panel dead: another source feeds it: test it."
	}
	return fmt.Sprintf("%d conductors pass through this cabinet and may be live with the panel dead: another source feeds them: test each.", count)
}
