package scenario

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"asfound/quantity"
	"github.com/google/go-cmp/cmp"
)

func TestFiguresExchanged(t *testing.T) {
	if diff := cmp.Diff([]string{"A20-08", "A00-28", "A02-80"}, exchanged("A02-08")); diff != "" {
		t.Error(diff)
	}
	rng := rand.New(rand.NewPCG(1, 1))
	for _, c := range []struct {
		value quantity.Ohms
		want  []quantity.Ohms
	}{
		{2490, []quantity.Ohms{4290, 2940, 2409}},
		{12.1, []quantity.Ohms{21.1}},
		{555, []quantity.Ohms{555}},
	} {
		for range 20 {
			if got := turned(rng, c.value); !slices.Contains(c.want, got) {
				t.Errorf("%v turned is %v, want one of %v", c.value, got, c.want)
			}
		}
	}
}

// Tomas, who is new, makes twice as many mistakes as Marit, who makes as many as
// the rates say.
func TestShareOfMistakes(t *testing.T) {
	const draws = 60000
	second := pellamPoint(t).Visits(time.UTC, 0)[1]
	p := &player{crew: second.Crew, rng: rand.New(rand.NewPCG(3, 4)), played: &Played{Slips: map[Slip]int{}}}
	made := [2]float64{}
	for p.who = range 2 {
		for range draws {
			if p.slip(WrongUnit, 0.03) {
				made[p.who]++
			}
		}
	}
	if ratio := made[1] / made[0]; math.Abs(ratio-2) > 0.2 {
		t.Errorf("Tomas makes %.2f times as many", ratio)
	}
	if rate := made[0] / draws; math.Abs(rate-0.03) > 0.003 {
		t.Errorf("Marit: %.4f, want 0.03", rate)
	}
}

// Of wrong numbers 70 % name another opening of the room (assumed).
func TestWrongOpeningsFallAsTheyDo(t *testing.T) {
	p, err := newPlayer(Generate(1, OnePanel), people(1, Mistaken()))
	if err != nil {
		t.Fatal(err)
	}
	p.survey()
	in, same, draws := p.installation(), 0.0, 4000.0
	o := in.In(in.Rooms[1].Thing)[0]
	for range int(draws) {
		if in.Opening(p.wrongOpening(o.Thing)).Room == o.Room {
			same++
		}
	}
	if share := same / draws; share < 0.67 || share > 0.95 {
		t.Errorf("%.2f in the same room, want 0.70 and what falls there anyway", share)
	}
}

// Walks by the assumed costs, added up by hand.
func TestWalk(t *testing.T) {
	truth := &Truth{Rooms: []Room{{0, "a", 0}, {0, "b", 0}, {0, "c", 0}, {0, "d", 1}, {1, "e", 0}}}
	for _, c := range []struct {
		name     string
		from, to int
		want     time.Duration
	}{
		{"stays", 1, 1, 0},
		{"next room", 0, 1, 8 * time.Second},
		{"past one", 0, 2, 12 * time.Second},
		{"past one and up", 1, 3, 32 * time.Second},
		{"and down", 3, 2, 28 * time.Second},
		{"from outside", -1, 2, 38 * time.Second},
		{"other building", 0, 4, 128 * time.Second},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := truth.Walk(AssumedCosts(), c.from, c.to); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
		})
	}
}

func TestBenchmarkTable(t *testing.T) {
	var out strings.Builder
	if err := Trace(&out, Options{Jobs: 2, Misreads: []float64{0.01}}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"1 %", "joined circuits found, must be all: met", "wrong lines settled, must be at most 1 in 10,000: met"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("the table lacks %q:\n%s", want, out.String())
		}
	}
}

func TestQuantile(t *testing.T) {
	for _, c := range []struct {
		values      []float64
		share, want float64
	}{
		{[]float64{3, 1, 2}, 0.5, 2},
		{[]float64{4, 1, 2, 3}, 0.5, 2.5},
		{[]float64{0, 10}, 0.05, 0.5},
		{nil, 0.5, 0},
	} {
		if got := quantile(c.values, c.share); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("quantile %v of %v is %v, want %v", c.share, c.values, got, c.want)
		}
	}
}
