package evidence

// Standing is how firmly a statement stands.
type Standing int

// The standings, weakest first except Clash, which is said before anything else.
const (
	Untested Standing = iota
	Undecided
	Likely
	Settled
	Clash
)

// String is the word on screens and sheets.
func (s Standing) String() string {
	return [...]string{"untested", "undecided", "likely", "settled", "clash"}[s]
}

// The two conditions of settled.
const (
	SettledDepth  = 2    // no single mistake, nor any pair less one, can have made it
	SettledChance = 1e-4 // at most this chance of being wrong
)

// Verdict is the standing of the best answer to a question, with the figures
// it rests on.
type Verdict struct {
	Standing Standing
	Best     WeighedAnswer
	Others   []WeighedAnswer // the other answers that stand, when undecided
	Depth    int
	Wrong    float64 // chance of the best answer being wrong
	Exact    bool
}

// Verdict judges the question. tested says whether any reading is about it.
// Several answers with the least cost clash when that cost is above zero, since
// then some reading is wrong and which one decides; else they are undecided.
func (w Weighed) Verdict(tested bool) Verdict {
	best := w.Best()
	v := Verdict{Best: best, Exact: w.Exact, Depth: w.Depth(best.Key), Wrong: w.wrong(best.Key)}
	standing := w.Standing()
	several := len(standing) > 1 || best.Count > 1
	v.Others = without(standing, best.Key)
	switch {
	case !tested:
		v.Standing = Untested
	case several && w.Least > 0:
		v.Standing = Clash
	case several:
		v.Standing = Undecided
	case v.Depth >= SettledDepth && v.Wrong <= SettledChance && w.Exact:
		v.Standing = Settled
	default:
		v.Standing = Likely
	}
	return v
}

// wrong sums the other answers' chances, so that a small one is not lost in
// the rounding of one less a number near one.
func (w Weighed) wrong(key string) float64 {
	sum := 0.0
	for _, a := range w.Answers {
		if a.Key != key {
			sum += a.Chance
		}
	}
	return sum
}

func without(as []WeighedAnswer, key string) []WeighedAnswer {
	var out []WeighedAnswer
	for _, a := range as {
		if a.Key != key {
			out = append(out, a)
		}
	}
	return out
}
