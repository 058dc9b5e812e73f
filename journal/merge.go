package journal

import (
	"bytes"
	"fmt"
	"slices"
	"time"
	"unicode/utf8"

	"asfound/observation"
)

// Merged says what became of the lines of one merge.
type Merged struct {
	Added   int              // new here and counted
	Held    int              // already here
	Waiting []Waiting        // an earlier event of the device is missing: send again with it
	Forks   []Fork           // newly kept aside
	Refused []Refusal        // not kept
	Ahead   []observation.ID // counted, from a clock more than 10 minutes ahead, not followed
	Renewed string           // new id of this device, after another recorded under its old one
}

// Waiting is a line left for the next round.
type Waiting struct {
	Line int // its index in the merge
	ID   observation.ID
}

// Fork is a line that bears the number of another, or follows such a line: a
// copied profile or a restored backup recorded under the same device. It is kept
// aside, told to a person, and never counted.
type Fork struct {
	ID   observation.ID
	Hash Hash
	Raw  []byte
}

// Refusal is a line that was not kept, with one sentence that says why.
type Refusal struct {
	Line int            // its index in the merge
	ID   observation.ID // zero when it could not be read
	Say  string
}

// Merge keeps the lines by these rules. A line held already changes nothing. A
// line further than the next of its device waits. A line with the number of
// another is a fork, as is one that follows a fork. A next line whose Prev is
// not the hash of the one before is refused, as is what is not an event. Clocks
// are followed unless more than ten minutes ahead of now.
func Merge(tx Tx, now time.Time, raws [][]byte) (Merged, error) {
	m := merging{tx: tx, now: now, tails: map[string]Tail{}}
	before, err := tx.Clock()
	if err != nil {
		return Merged{}, err
	}
	m.clock = before
	for _, l := range m.read(raws) {
		if err := m.line(l); err != nil {
			return Merged{}, err
		}
	}
	if m.clock != before {
		if err := tx.SetClock(m.clock); err != nil {
			return Merged{}, err
		}
	}
	return m.out, m.renew()
}

// merging is one merge under way.
type merging struct {
	tx    Tx
	now   time.Time
	clock uint64
	tails map[string]Tail
	out   Merged
}

type line struct {
	index int
	Entry
}

// read decodes the lines and sorts them by device and number, so that lines out
// of order within one merge need no second round.
func (m *merging) read(raws [][]byte) []line {
	lines := make([]line, 0, len(raws))
	for i, raw := range raws {
		e, say := Decode(raw)
		if say != "" {
			m.out.Refused = append(m.out.Refused, Refusal{Line: i, ID: e.ID, Say: say})
			continue
		}
		raw = bytes.Clone(raw)
		lines = append(lines, line{i, Entry{Event: e, Raw: raw, Hash: HashOf(raw)}})
	}
	slices.SortStableFunc(lines, func(a, b line) int { return a.Event.ID.Compare(b.Event.ID) })
	return lines
}

// Decode reads a received line, or says in one sentence why it is no event. An
// event whose body cannot be read here (a newer program wrote it) is one: it has
// no Body, as if its kind were unknown.
func Decode(raw []byte) (e observation.Event, say string) {
	if len(raw) > LongestLine {
		return e, fmt.Sprintf("This line is longer than %d bytes and was left out: it is not an observation.", LongestLine)
	}
	if bytes.ContainsAny(raw, "\r\n") || !utf8.Valid(raw) {
		return e, "This line is not an observation and was left out: it is not plain text on one line."
	}
	e, err := observation.Decode(raw)
	if err != nil && e.ID.IsZero() {
		return e, "This line is not an observation and was left out."
	}
	return e, ""
}

func (m *merging) line(l line) error {
	id := l.Event.ID
	tail, err := m.tail(id.Device)
	if err != nil {
		return err
	}
	if id.Seq <= tail.Seq {
		return m.held(l)
	}
	if id.Seq == tail.Seq+1 && l.Event.Prev == prevOf(tail) {
		return m.count(l)
	}
	follows, err := m.followsFork(l)
	switch {
	case err != nil:
		return err
	case follows:
		return m.fork(l)
	case id.Seq > tail.Seq+1:
		m.out.Waiting = append(m.out.Waiting, Waiting{Line: l.index, ID: id})
	default:
		m.out.Refused = append(m.out.Refused, Refusal{Line: l.index, ID: id, Say: fmt.Sprintf(
			"Observation %s does not follow the one before it: one of the two was changed, or two phones record under one name. It was left out.", id)})
	}
	return nil
}

// held deals with a number that is in use: the same line, or a fork.
func (m *merging) held(l line) error {
	hash, held, err := m.tx.Hash(l.Event.ID)
	if err != nil {
		return err
	}
	if held && hash == l.Hash {
		m.out.Held++
		return nil
	}
	return m.fork(l)
}

func (m *merging) followsFork(l line) (bool, error) {
	before, ok := parseHash(l.Event.Prev)
	if !ok {
		return false, nil
	}
	return m.tx.Aside(l.Event.ID.Device, before)
}

func (m *merging) fork(l line) error {
	aside, err := m.tx.Aside(l.Event.ID.Device, l.Hash)
	if err != nil {
		return err
	}
	if aside {
		m.out.Held++
		return nil
	}
	f := Fork{ID: l.Event.ID, Hash: l.Hash, Raw: l.Raw}
	m.out.Forks = append(m.out.Forks, f)
	return m.tx.SetAside(f)
}

func (m *merging) count(l line) error {
	if _, err := m.tx.Add(l.Entry); err != nil {
		return err
	}
	m.tails[l.Event.ID.Device] = Tail{Seq: l.Event.ID.Seq, Hash: l.Hash}
	m.out.Added++
	var ahead bool
	if m.clock, ahead = follow(m.clock, l.Event.HLC, m.now); ahead {
		m.out.Ahead = append(m.out.Ahead, l.Event.ID)
	}
	return nil
}

// renew gives this device a new name when another recorded under its own, so
// that what it records from now on is not kept aside elsewhere.
func (m *merging) renew() error {
	device, err := m.tx.Own()
	if err != nil {
		return err
	}
	own := func(f Fork) bool { return f.ID.Device == device }
	if !slices.ContainsFunc(m.out.Forks, own) {
		return nil
	}
	m.out.Renewed, err = m.tx.Renew()
	return err
}

func (m *merging) tail(device string) (Tail, error) {
	if t, ok := m.tails[device]; ok {
		return t, nil
	}
	t, err := m.tx.Tail(device)
	m.tails[device] = t
	return t, err
}

// prevOf is what the event after t must have as Prev.
func prevOf(t Tail) string {
	if t.Seq == 0 {
		return ""
	}
	return t.Hash.String()
}

func parseHash(text string) (Hash, bool) {
	var h Hash
	if len(text) != 2*len(h) {
		return h, false
	}
	for i := range h {
		hi, lo := hexFigure(text[2*i]), hexFigure(text[2*i+1])
		if hi < 0 || lo < 0 {
			return h, false
		}
		h[i] = byte(hi<<4 | lo)
	}
	return h, true
}

// hexFigure is the value of a lower-case hexadecimal figure, or -1.
func hexFigure(c byte) int {
	switch {
	case c >= '0' && c <= '9':
		return int(c - '0')
	case c >= 'a' && c <= 'f':
		return int(c-'a') + 10
	}
	return -1
}
