package scenario

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"sync"
	"time"

	"asfound/pellam"
	"asfound/quantity"
)

// Person is somebody on the job. Share is how many mistakes he makes beside the
// rates: 1 is as many.
type Person struct {
	Name  string
	Share float64
}

// Visit is a day of a job: who is there, the first of whom does the panels.
// Hours is when nothing more is begun, if another visit follows; 0 is never.
type Visit struct {
	Start time.Time
	Hours time.Duration
	Crew  []Person
	Work  string        // as planned, for the record
	Notes []pellam.Note // that they write down besides
}

// TwoDays is a visit to look and one to trace, each until all is done.
func TwoDays(start time.Time, crew ...Person) []Visit {
	return []Visit{{Start: start, Crew: crew}, {Start: start.AddDate(0, 0, 1), Crew: crew}}
}

// Rates are how often people go wrong.
type Rates struct {
	Opening   float64 // wrong opening number written, once a stop
	Letters   float64 // then also the letters of the wrong number
	Figures   float64 // two figures of a value exchanged
	Unit      float64 // a value in the wrong unit
	Space     float64 // a resistor on the wrong space
	Columns   float64 // hot and neutral columns exchanged, once a stop
	Skipped   float64 // a step left out without a note
	Date      float64 // notes of a visit with the wrong date
	Twice     float64 // an opening numbered twice
	BackBlind float64 // a blind read-back that repeats the placer's mistake
	Look      float64 // a room check answered without looking
	Feed      float64 // in a box with two circuits, the other feed joined to a leg
	InRoom    float64 // of wrong openings, those of the same room
	Exchanged float64 // and those with two figures of the number exchanged
	Breaker   float64 // the wrong breaker thrown by whoever stands at the panel
}

// atPellam is how people work at the demo property. Its tables are part of the
// program: that they cannot be read is a mistake in it.
var atPellam = sync.OnceValue(func() *pellam.Work {
	w, err := pellam.Working()
	if err != nil {
		panic("scenario: " + err.Error())
	}
	return w
})

// Mistaken are the rates of the practitioner's model of mistakes (assumed; no
// measurement behind them).
func Mistaken() Rates {
	m := atPellam().Mistakes
	return Rates{Opening: m.Opening, Letters: m.Letters, InRoom: m.InRoom, Exchanged: m.Exchanged, Figures: m.Figures, Unit: m.Unit, Space: m.Space,
		Columns: m.Columns, Skipped: m.Skipped, Date: m.Date, Twice: m.Twice, BackBlind: m.Back, Look: m.Look, Feed: m.Feed, Breaker: m.Breaker}
}

// Slip names a sort of mistake in the count kept beside the truth.
type Slip string

// The mistakes that are counted.
const (
	WrongOpening  Slip = "wrong opening written"
	WrongLetters  Slip = "letters of the wrong number too"
	FiguresTurned Slip = "figures exchanged"
	WrongUnit     Slip = "wrong unit"
	WrongSpace    Slip = "resistors exchanged"
	ColumnsTurned Slip = "columns exchanged"
	StepSkipped   Slip = "step skipped"
	WrongDate     Slip = "wrong date"
	NumberedTwice Slip = "opening numbered twice"
	NumberShared  Slip = "number given twice"
	BackRepeated  Slip = "mistake repeated at read-back"
	NotLooked     Slip = "room not looked round"
	Misread       Slip = "misread"
	WrongFeed     Slip = "another feed joined"
)

// People are who plays a job, and how.
type People struct {
	Visits  []Visit // the last goes on until all is done
	Rates   Rates   // the zero Rates: nobody makes a mistake
	Misread float64 // benchmark: chance that an ohm reading at an opening shows something else
	Costs   Costs
	Seed    uint64 // of their mistakes and their meter
}

// slip draws whether the person makes a mistake of a sort, and counts it.
func (p *player) slip(s Slip, rate float64) bool {
	if p.rng.Float64() >= rate*p.crew[p.who].Share {
		return false
	}
	p.played.Slips[s]++
	return true
}

// typed is a value as the person enters it: sometimes two figures exchanged or
// the unit wrong.
func (p *player) typed(r quantity.Resistance) quantity.Resistance {
	if r.Open {
		return r
	}
	if p.slip(FiguresTurned, p.people.Rates.Figures) {
		r.Ohm = turned(p.rng, r.Ohm)
	}
	if p.slip(WrongUnit, p.people.Rates.Unit) {
		if r.Ohm >= 1000 {
			r.Ohm /= 1000
		} else {
			r.Ohm *= 1000
		}
	}
	return r
}

// turned exchanges two neighboring figures of a value that differ, if it has
// such.
func turned(rng *rand.Rand, value quantity.Ohms) quantity.Ohms {
	text := []byte(strconv.FormatFloat(float64(value), 'f', -1, 64))
	var at []int
	for i := 0; i+1 < len(text); i++ {
		if text[i] != '.' && text[i+1] != '.' && text[i] != text[i+1] {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return value
	}
	i := at[rng.IntN(len(at))]
	text[i], text[i+1] = text[i+1], text[i]
	out, err := strconv.ParseFloat(string(text), 64)
	if err != nil {
		return value
	}
	return quantity.Ohms(out)
}

// exchanged lists the numbers that differ from one by two neighboring figures
// exchanged.
func exchanged(number string) []string {
	var out []string
	for i := 0; i+1 < len(number); i++ {
		j := i + 1
		if number[j] == '-' && j+1 < len(number) {
			j++
		}
		a, b := number[i], number[j]
		if strings.IndexByte("0123456789", a) < 0 || strings.IndexByte("0123456789", b) < 0 || a == b {
			continue
		}
		text := []byte(number)
		text[i], text[j] = b, a
		out = append(out, string(text))
	}
	return out
}

// shownInstead is what the benchmark's misread puts in place of a reading: half
// of them open, a quarter the value of another circuit of this or the next
// room, a quarter arbitrary, of which 0.35 fall into some circuit's interval.
func (p *player) shownInstead(box int) quantity.Resistance {
	switch u := p.rng.Float64(); {
	case u < 0.5:
		return open
	case u < 0.75:
		near := p.world.Near(box)
		if len(near) == 0 {
			return open
		}
		return p.world.AtTerminal(p.rig, near[p.rng.IntN(len(near))])
	}
	if p.rng.Float64() < 0.35 && len(p.plan.Puts) > 0 {
		return quantity.Resistance{Ohm: p.plan.Puts[p.rng.IntN(len(p.plan.Puts))].Ohm}
	}
	for {
		r := quantity.Resistance{Ohm: quantity.Ohms(math.Exp(math.Log(30) + p.rng.Float64()*math.Log(180e3/30)))}
		if _, named := p.plan.Set.Named(r); !named {
			return r
		}
	}
}
