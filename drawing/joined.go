package drawing

import (
	"slices"
	"strconv"
	"strings"

	"asfound/evidence"
	"asfound/observation"
	"asfound/trace"
)

// JoinedWith lists the spaces found joined with this one, "7, 9", or nothing.
// It is settled when every join among them is.
func JoinedWith(tr *trace.Trace, panel observation.Thing, space int) (with string, settled bool) {
	for _, group := range tr.JoinedGroups(panel) {
		if !slices.Contains(group, space) {
			continue
		}
		var others []string
		for _, s := range group {
			if s != space {
				others = append(others, strconv.Itoa(s))
			}
		}
		return strings.Join(others, ", "), joinsSettled(tr, panel, group)
	}
	return "", false
}

func joinsSettled(tr *trace.Trace, panel observation.Thing, group []int) bool {
	for _, j := range tr.Joins {
		within := slices.Contains(group, j.A) && slices.Contains(group, j.B)
		if j.Panel == panel && j.Kind == trace.Joined && within && j.Verdict.Standing != evidence.Settled {
			return false
		}
	}
	return true
}
