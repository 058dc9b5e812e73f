package scenario
import ("testing";"os")
func TestBenchTry(t *testing.T) {
	if err := Trace(os.Stdout, Options{Jobs: 12, Mistakes: true}); err != nil { t.Fatal(err) }
}
func TestDemoTry(t *testing.T) {
	for seed := range uint64(3) {
	m := newMem()
	p, err := Demo(m, start, seed*1000)
	if err != nil { t.Fatal(err) }
	t.Log(p.Truth.Seed, p.AsFound.Trace.Standing(), len(p.AsFound.Trace.Clashes), p.Slips)
	for _, c := range p.AsFound.Trace.Clashes { t.Log(p.AsFound.Name(c.Lines[0].End.At), len(c.Sets), c.Settle); for _, s := range c.Sets { for _, d := range s { t.Log("  ", d.Words) }; t.Log(" - ") } }
	}
}
