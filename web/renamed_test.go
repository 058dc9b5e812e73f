package web

import (
	"strings"
	"testing"
)

// A name that is changed later follows into what was decided and put off under
// the old one.
func TestDecisionsFollowNames(t *testing.T) {
	h := traced(t)
	opening, panel := string(h.opening["A02-01"]), string(h.panel)
	h.kept("/line/"+opening+"?wire=hot", "about", "the hot at A02-01 is on A1-1", "answer", "A1-3", "reason", "seen by eye")
	h.kept("/notnow", "key", "isolation "+panel, "reason", "no lead long enough")
	h.kept("/notnow", "key", "look "+string(h.study), "reason", "locked")
	h.kept("/panel/"+panel, "mend_name", "P7", "mend_spaces", "30", "mend_building", string(h.building))
	h.kept("/opening/"+opening, "number", "A02-41")
	h.kept("/room/"+string(h.study)+"/mend", "mend_name", "A03 Library", "mend_floor", "0", "mend_order", "2", "mend_building", string(h.building))
	line := h.get("/line/" + opening + "?wire=hot")
	wants(t, line, "P7-3", "seen by eye", "the hot at A02-41")
	journal := h.get("/journal?kind=decision.1")
	wants(t, journal, "Decided: the hot at A02-41 is on P7-1. Instead: P7-3.", "Panel isolation test of panel P7", "Look around A03 Library")
	for name, page := range map[string]string{"line": line, "journal": journal} {
		for _, old := range []string{"A02-01", "A1-1", "A1-3", "A03 Study"} {
			if strings.Contains(text([]byte(page)), old) {
				t.Errorf("the page of the %s still says %s", name, old)
			}
		}
	}
}
