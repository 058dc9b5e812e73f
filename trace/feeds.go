package trace

import "asfound/step"

const minutesFind = 20.0 // looking for what feeds a live opening, covers left closed (assumed)

// feeds proposes to find what feeds each opening that is on record as live. It
// comes first: what feeds it unseen may feed other boxes of its building, and it
// has the Gain of all that waits there. Nothing is read at it meanwhile.
func (p *proposer) feeds() {
	for _, o := range p.in.Openings {
		if !p.live[o.Thing] {
			continue
		}
		ends, where := hots(o), o.Number
		if room := p.in.Room(o.Room); room != nil {
			ends, where = ends+p.waits[room.Building].ends, where+", "+room.Name
		}
		p.add(Proposal{First: true, Gain: worthLikely * float64(ends), Step: step.Step{Key: "live " + string(o.Thing), Kind: step.FindFeed, Place: string(o.Thing), Where: where,
			Caution: "The test here found voltage: hands and leads stay out of this box, and every box near it counts as live. Open no other cover for this.",
			Do: []string{"Close the box or keep people off it, and tell everybody.", "Go through what can feed it: panels and sources not locked out, circuits of other buildings, what starts by itself.",
				"Have what feeds it locked out.", "Test here again for absence of voltage: tester on a known source, every conductor, tester again."},
			WriteDown: "what feeds it, its lock, the three answers", StopIf: "what you follow leads behind a cover, or nothing on record can feed it",
			Reason:  "The latest test here found voltage, and nothing says where it comes from. Nothing is read here before that is found.",
			Minutes: minutesFind, Bring: []string{"lock and tag", "tester", "known source"}}})
	}
}
