package pattern

import "fmt"

// TooFewValues reports that a resistor set has fewer values than there are
// circuits to name.
type TooFewValues struct {
	Circuits, Values int
}

func (e *TooFewValues) Error() string {
	if e.Values == 0 {
		return "No resistor value can be told apart here: use a better meter or closer resistors."
	}
	return fmt.Sprintf("%d circuits, but only %d resistor values can be told apart: do them in %d passes.",
		e.Circuits, e.Values, passes(e.Circuits, e.Values))
}

// Enough returns a [*TooFewValues] when the set cannot name that many circuits in
// one pass.
func (s ResistorSet) Enough(circuits int) error {
	if circuits > len(s.Values) {
		return &TooFewValues{Circuits: circuits, Values: len(s.Values)}
	}
	return nil
}

// Passes splits circuits 0 to circuits−1 into as few passes as the set allows, in
// order and as even as can be, so that each pass stays in one part of the panel.
// It returns a [*TooFewValues] only when the set is empty.
func (s ResistorSet) Passes(circuits int) ([][]int, error) {
	if circuits <= 0 {
		return nil, nil
	}
	if len(s.Values) == 0 {
		return nil, s.Enough(circuits)
	}
	batches := make([][]int, passes(circuits, len(s.Values)))
	for i := range batches {
		for c := i * circuits / len(batches); c < (i+1)*circuits/len(batches); c++ {
			batches[i] = append(batches[i], c)
		}
	}
	return batches, nil
}

func passes(circuits, values int) int { return (circuits + values - 1) / values }
