// Package drawing draws the installation as it was found: the panel face with
// every space and what it feeds, and the plan of a floor with every opening.
//
// It draws what is on record and nothing else. A space nobody looked at and an
// opening nobody reached are hatched, what was not measured stands apart, a breaker with nothing on it is called spare, and every statement
// about a conductor stands over the pencil line of its standing: none untested,
// dotted undecided, one line likely, two lines settled, wavy clash. It decides
// nothing, and it says of nothing that it is dead.
//
// Start with PanelFace and FloorPlan, then Feeds, whose words the sheets of
// package report share.
package drawing

import (
	"asfound/evidence"
	"asfound/paper"
)

// Stroke is the pencil line under a statement of this standing.
func Stroke(s evidence.Standing) paper.Stroke {
	return map[evidence.Standing]paper.Stroke{
		evidence.Undecided: paper.Dotted,
		evidence.Likely:    paper.Single,
		evidence.Settled:   paper.Double,
		evidence.Clash:     paper.Wavy,
	}[s]
}

// Meaning says what a standing means, for a legend and for whoever cannot see
// the pencil line.
func Meaning(s evidence.Standing) string {
	return map[evidence.Standing]string{
		evidence.Untested:  "nothing has been read that bears on it",
		evidence.Undecided: "several answers stand",
		evidence.Likely:    "one answer stands, but a single mistake could overturn it",
		evidence.Settled:   "false only if two mistakes were made",
		evidence.Clash:     "readings cannot all be right",
	}[s]
}

// Standings lists the standings in the order a legend shows them.
var Standings = []evidence.Standing{evidence.Settled, evidence.Likely, evidence.Undecided, evidence.Clash, evidence.Untested}

// weakest is the standing said first when one mark has to stand for several.
func weakest(feeds []Feed) evidence.Standing {
	out := evidence.Untested
	for _, s := range Standings {
		for _, f := range feeds {
			if f.Standing == s {
				out = s
			}
		}
	}
	return out
}
