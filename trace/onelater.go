package trace

import (
	"fmt"
	"slices"
	"strings"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
)

// oneLater lists resistors whose latest read-back after the tour shows what they
// and another one show together, though they were read back alone before: joined
// since, by a feed joined to another circuit's leg or by somebody else. It is a
// hint where to look and settles nothing.
func (t *Trace) oneLater(in *installation.Installation, add adder) {
	for _, tour := range in.Tours {
		if tour.Removed || tour.Means != observation.ByResistor {
			continue
		}
		l := listOf([]*installation.Tour{tour})
		for _, x := range l.puts {
			late, alone := lastBack(in, tour, x, true), lastBack(in, tour, x, false)
			if late == nil || alone == nil || !x.atPanel() || l.is(x, late) || !l.is(x, alone) {
				continue
			}
			var with []string
			for _, z := range l.puts {
				if z.on != x.on && l.together(x, z, late) && !l.is(z, lastBack(in, tour, z, true)) {
					with = append(with, in.PointName(z.on))
				}
			}
			const few = 3
			if len(with) == 0 || len(with) > few {
				continue
			}
			add(JoinedLater, x.on.At, t.On(x.on.At, x.on.Space), "%s was read back as %s, which is what it shows when it is one with %s. %s",
				in.PointName(x.on), late.Body.(observation.ReadBack).Ohm, strings.Join(with, " or "), lookAt(joinedBetween(in, *alone, *late)))
		}
	}
}

// lastBack is the latest read-back of a resistor before or after the tour.
func lastBack(in *installation.Installation, t *installation.Tour, x put, after bool) *observation.Event {
	for _, e := range slices.Backward(t.ReadBacks) {
		if b := e.Body.(observation.ReadBack); b.At == x.on && b.After == after && x.settledFor(e) && !in.Powered(t, e) {
			return &e
		}
	}
	return nil
}

// is reports whether a read-back shows a resistor alone.
func (l *list) is(x put, e *observation.Event) bool {
	return e != nil && l.between(e.Body.(observation.ReadBack).Ohm, x.ohm, x.ohm)
}

// together reports whether a read-back shows two resistors at once, the second
// over as much conductor as a job has.
func (l *list) together(x, z put, e *observation.Event) bool {
	beside := func(far quantity.Ohms) quantity.Ohms { return x.ohm * (z.ohm + far) / (x.ohm + z.ohm + far) }
	return l.between(e.Body.(observation.ReadBack).Ohm, beside(0), beside(conductorMax))
}

// between reports whether a value lies from least to most, give or take the
// resistors and the meter.
func (l *list) between(r quantity.Resistance, least, most quantity.Ohms) bool {
	off := quantity.Ohms(l.set.Tolerance + l.set.Meter.Relative)
	return !r.Open && r.Ohm >= least*(1-off)-l.set.Meter.AbsoluteOhm && r.Ohm <= most*(1+off)+l.set.Meter.AbsoluteOhm
}

// joinedBetween names the boxes where a feed was joined that may have been after
// one event and before another.
func joinedBetween(in *installation.Installation, before, after observation.Event) []string {
	var out []string
	for _, j := range madeIn(in) {
		if !before.Follows(j.event) && !j.event.Follows(after) && !slices.Contains(out, j.opening.Number) {
			out = append(out, j.opening.Number)
		}
	}
	return out
}

func lookAt(boxes []string) string {
	const most = 4
	switch n := len(boxes); {
	case n == 0:
		return "Find where they meet before anything is energized."
	case n <= most:
		return "Look at the joins made since: " + listed(boxes) + "."
	default:
		return fmt.Sprintf("Look at the joins made since: %s and %s more.", strings.Join(boxes[:most], ", "), number(n-most))
	}
}
