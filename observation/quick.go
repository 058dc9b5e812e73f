package observation

import (
	"math"
	"strconv"
	"strings"

	"asfound/quantity"
)

// quick reads the data of the kinds of which a job has thousands, in the form
// that Encode writes; anything unusual is left to the general reader.
var quick = map[string]func(*scan) Body{
	Ohm{}.Kind():       func(s *scan) Body { return s.ohm() },
	Letters{}.Kind():   func(s *scan) Body { return s.letters() },
	Opening{}.Kind():   func(s *scan) Body { return s.opening() },
	CableEnd{}.Kind():  func(s *scan) Body { return s.cableEnd() },
	Space{}.Kind():     func(s *scan) Body { return s.space() },
	Isolation{}.Kind(): func(s *scan) Body { return s.isolation() },
	Resistor{}.Kind():  func(s *scan) Body { return s.resistor() },
	ReadBack{}.Kind():  func(s *scan) Body { return s.readBack() },
}

func (s *scan) ohm() (o Ohm) {
	o.A = s.point(`{"a":`)
	o.B = s.point(`,"b":`)
	o.Ohm = s.resistance(`,"ohm":`)
	o.Reprobed = Known(s.text(`,"reprobed":`))
	s.close()
	return o
}

func (s *scan) letters() (l Letters) {
	l.Letters = s.need(`{"letters":`)
	s.close()
	return l
}

func (s *scan) opening() (o Opening) {
	o.Room = Thing(s.need(`{"room":`))
	o.Number = s.need(`,"number":`)
	o.Use = OpeningUse(s.text(`,"use":`))
	o.Gangs = s.whole(`,"gangs":`)
	o.Order = s.whole(`,"order":`)
	o.Height = quantity.Inches(s.number(`,"height":`))
	o.Depth = quantity.Inches(s.number(`,"depth":`))
	o.Note = s.text(`,"note":`)
	s.close()
	return o
}

func (s *scan) cableEnd() (c CableEnd) {
	c.Tag = s.need(`{"tag":`)
	c.Jacket = s.text(`,"jacket":`)
	c.Mark = s.text(`,"mark":`)
	if s.key(`,"conductors":[`) {
		for more := true; more && !s.failed; more = s.key(",") {
			c.Conductors = append(c.Conductors, s.conductor())
		}
		s.failed = !s.key("]") || s.failed
	}
	s.close()
	return c
}

func (s *scan) conductor() (c Conductor) {
	c.Wire = Wire(s.need(`{"wire":`))
	c.Color = s.text(`,"color":`)
	if size := s.text(`,"size":`); size != "" && c.Size.UnmarshalText([]byte(size)) != nil {
		s.failed = true
	}
	c.State = ConductorState(s.text(`,"state":`))
	c.Length = quantity.Inches(s.number(`,"length":`))
	s.close()
	return c
}

func (s *scan) space() (x Space) {
	x.Number = int(s.count(`{"space":`))
	x.Poles = s.whole(`,"poles":`)
	x.Amps = quantity.Amperes(s.number(`,"amps":`))
	x.Tied = Known(s.text(`,"tied":`))
	x.Label = s.text(`,"label":`)
	x.Lands = Lands(s.text(`,"lands":`))
	x.Cable = s.text(`,"cable":`)
	x.Wire = s.text(`,"wire":`)
	s.close()
	s.failed = s.failed || x.Number < 0
	return x
}

func (s *scan) isolation() (i Isolation) {
	i.A = s.spaces(`{"a":[`)
	i.Against = Against(s.need(`,"against":`))
	if strings.HasPrefix(s.rest, `,"b":`) {
		i.B = s.spaces(`,"b":[`)
	}
	i.Ohm = s.resistance(`,"ohm":`)
	i.SwitchesOn = Known(s.text(`,"switches_on":`))
	i.LoadsOff = Known(s.text(`,"loads_off":`))
	s.close()
	return i
}

func (s *scan) resistor() (r Resistor) {
	r.On = s.point(`{"on":`)
	r.Ohm = s.resistance(`,"ohm":`).Ohm
	r.Label = s.text(`,"label":`)
	s.close()
	s.failed = s.failed || r.Ohm == 0 // open, which no resistor is, or nothing
	return r
}

func (s *scan) readBack() (r ReadBack) {
	r.At = s.point(`{"at":`)
	r.Ohm = s.resistance(`,"ohm":`)
	r.Blind = s.key(`,"blind":true`)
	r.After = s.key(`,"after":true`)
	s.close()
	return r
}

// spaces reads the numbers of a list of at least one.
func (s *scan) spaces(key string) (out []int) {
	for more := s.key(key); more && !s.failed; more = s.key(",") {
		n, err := strconv.Atoi(s.plainFigures())
		s.failed = s.failed || err != nil
		out = append(out, n)
	}
	if len(out) == 0 || !s.key("]") {
		s.failed = true
	}
	return out
}

// whole is the number under a key, or 0 when another key comes next.
func (s *scan) whole(key string) int {
	if !strings.HasPrefix(s.rest, key) {
		return 0
	}
	n := s.count(key)
	s.failed = s.failed || n > math.MaxInt32
	return int(n)
}

// number is the figure under a key, with decimals or without, or 0 when another
// key comes next.
func (s *scan) number(key string) float64 {
	if !strings.HasPrefix(s.rest, key) {
		return 0
	}
	r := s.resistance(key)
	s.failed = s.failed || r.Open
	return float64(r.Ohm)
}

// plainFigures are figures without a needless zero before them.
func (s *scan) plainFigures() string {
	out := s.figures()
	s.failed = s.failed || len(out) > 1 && out[0] == '0'
	return out
}
