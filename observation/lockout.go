package observation

import "strconv"

// LockOut says that a disconnecting means of a panel (the subject) was opened
// and locked. Spaces empty means the whole panel's supply.
type LockOut struct {
	Spaces []int  `json:"spaces,omitempty"`
	Device string `json:"device"` // which lock, by its tag
	Key    string `json:"key,omitempty"`
	Told   string `json:"told,omitempty"` // who was told
}

// Kind is "lockout.1".
func (LockOut) Kind() string { return "lockout.1" }

// Check wants the lock named.
func (l LockOut) Check() error {
	for _, s := range l.Spaces {
		if s < 1 {
			return unusable("spaces", strconv.Itoa(s), "Spaces are numbered from 1.")
		}
	}
	return firstFault(needText("device", l.Device, "Say which lock: its tag or number."),
		checkText("key", l.Key), checkText("told", l.Told))
}

// ProvenDead is an absence-of-voltage test at a place (the subject): the tester
// was tried on a known source, then every conductor to each other and to
// ground, then the tester again.
type ProvenDead struct {
	Spaces []int  `json:"spaces,omitempty"`
	Before Known  `json:"before"` // tester answered on a known source before
	Absent Known  `json:"absent"` // no voltage between conductors and to ground
	After  Known  `json:"after"`  // tester answered again after
	Tester string `json:"tester,omitempty"`
}

// Kind is "dead.1".
func (ProvenDead) Kind() string { return "dead.1" }

// Check wants the three answers to be yes, no or not known.
func (p ProvenDead) Check() error {
	return firstFault(p.Before.check("before"), p.Absent.check("absent"), p.After.check("after"), checkText("tester", p.Tester))
}

// Holds reports whether the test shows the place dead: the tester answered
// before and after, and found no voltage.
func (p ProvenDead) Holds() bool { return p.Before == Yes && p.Absent == Yes && p.After == Yes }
