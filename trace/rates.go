package trace

// Rates are how often each thing is wrong. A job may raise them by what it
// learns; they are never taken below the defaults, because a rate assumed too
// low makes wrong answers look firm.
type Rates struct {
	Value      float64 // a reading misread, mistyped, or in the wrong unit
	Place      float64 // a stop written against another opening
	Letters    float64 // check letters that do not come from the tape, once the place is wrong
	Look       float64 // an opening's mark misjudged at the room check
	Space      float64 // a resistor on another space than noted
	Back       float64 // a read-back that repeats the placer's mistake
	BackBlind  float64 // the same when blind and in another order
	Moved      float64 // a resistor moved with nothing on record
	Conductor  float64 // a stop's readings taken on another cable of the box than written
	Lead       float64 // a lead on another conductor, for readings taken without lifting it
	NotJoined  float64 // feed and leg not joined as noted
	Isolation  float64 // an isolation reading misread
	Confusable float64 // how many circuits a misread is likely to name
}

// DefaultRates are the rates of the practitioner's model of mistakes (assumed,
// no measurement behind them): value 1 % misread, 1 % wrong unit, 1 % figures
// exchanged; wrong opening 2 % a stop; letters wrong 3 % then; wrong space
// 1.5 %; a read-back repeats the mistake in 10 %, blind in 1 %.
func DefaultRates() Rates {
	return Rates{Value: 0.03, Place: 0.02, Letters: 0.03, Look: 0.02, Space: 0.015, Back: 0.1, BackBlind: 0.01,
		Moved: 0.005, Conductor: 0.015, Lead: 0.01, NotJoined: 0.015, Isolation: 0.03, Confusable: 4}
}

// What a misread reading shows: half of them open, a quarter a circuit nearby,
// the rest anything, which is some circuit's value in a third of the cases or so
// (assumed).
const (
	misreadOpen   = 0.5
	misreadSlip   = 0.25 * 0.35        // a value of the list by a slip of the pen alone
	misreadNamed  = 0.25 + misreadSlip // some circuit's value, shared by the confusable ones
	misreadOther  = 0.25 * (1 - 0.35)
	backOther     = 0.25 // a read-back that is wrong by itself shows a given other value
	loadPathAbove = 1.0  // ohms: at or below it two branch conductors are joined
	loadPathUpTo  = 1000 // ohms: up to it a load lies between them
)
