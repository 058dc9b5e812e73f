package observation

// Decision is the lead's word against what the readings say: About is the
// statement as a sheet prints it, Answer what he holds instead.
type Decision struct {
	About  string `json:"about"`
	Answer string `json:"answer"`
	Reason string `json:"reason"`
}

// NotNow is the answer of a decision that puts off the step it is about, for
// everybody, until it is withdrawn.
const NotNow = "not now"

// Kind is "decision.1".
func (Decision) Kind() string { return "decision.1" }

// Check wants a reason.
func (d Decision) Check() error {
	return firstFault(needText("about", d.About, "Say which line the decision is about."),
		checkText("answer", d.Answer),
		needText("reason", d.Reason, "Write the reason in a few words: it is kept with the line."))
}

// Withdrawal takes back the events in Seen: they stop counting and stay
// visible. It may arrive before what it withdraws.
type Withdrawal struct {
	Reason string `json:"reason"`
}

// Kind is "withdrawal.1".
func (Withdrawal) Kind() string { return "withdrawal.1" }

// Check wants a reason.
func (w Withdrawal) Check() error {
	return needText("reason", w.Reason, "Write why it is withdrawn: wrong opening, misread, wrong unit ...")
}
