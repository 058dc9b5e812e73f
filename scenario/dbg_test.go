package scenario

import (
	"testing"

	"asfound/evidence"
)

func TestDbg(t *testing.T) {
	dbg = func(p *player) {
		tr := p.tracer.Trace(p.installation())
		n := map[string]int{}
		for _, l := range tr.Lines {
			if l.Verdict.Standing != evidence.Settled {
				k := l.Verdict.Standing.String() + " " + l.Lacks()
				n[k]++
				if n[k] < 4 {
					t.Log(k, l.Verdict.Depth, l.Verdict.Wrong, l.Verdict.Exact, l.FalseOnlyIf())
				}
			}
		}
		t.Log(n)
	}
	tr := Generate(0, FourPanels)
	Play(tr, People{Crew: []Person{Dell}, Costs: StudyCosts(), Start: start, Seed: 1, Misread: 0.0}, EndOfJob)
}
