package observation

// Reconciled says what became of an opening on a drawing (the subject) after
// somebody looked for it.
type Reconciled struct {
	Is  Outcome `json:"is"`
	As  Thing   `json:"as,omitempty"`  // the opening it is, when it was found
	How string  `json:"how,omitempty"` // what shows it: "insulation seen, no box", "gap of 14 ft"
}

// Outcome is what became of an opening on a drawing.
type Outcome string

// The outcomes; NotLooked is the outcome of one that nobody looked for.
const (
	NotLooked    Outcome = ""
	FoundAs      Outcome = "found"
	NeverRoughed Outcome = "neverroughed" // no box and no cable was ever put there
	CoveredOver  Outcome = "covered"      // it is there, behind the finish
)

// Kind is "reconciled.1".
func (Reconciled) Kind() string { return "reconciled.1" }

// Check wants the opening for one that was found, and what shows it otherwise.
func (r Reconciled) Check() error {
	switch r.Is {
	case NotLooked:
	case FoundAs:
		if r.As == "" {
			return unusable("as", "", "Say which opening it is.")
		}
	case NeverRoughed, CoveredOver:
		if err := needText("how", r.How, "Say what shows it: what was looked at, and what was seen."); err != nil {
			return err
		}
	default:
		return unusable("is", string(r.Is), "Choose what became of it from the list.")
	}
	if r.Is != FoundAs && r.As != "" {
		return unusable("as", string(r.As), "It was not found: leave the opening empty, or say that it was found.")
	}
	return checkText("how", r.How)
}
