package days

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"asfound/installation"
	"asfound/observation"
	"asfound/quantity"
	"asfound/step"
	"asfound/trace"
)

// randomJob plays a job by two people on two devices that never met: locks on and
// off, tests that hold or do not, power put on, resistors, readings, looks, steps
// put off and others chosen, entries withdrawn.
func randomJob(tb testing.TB, t *rapid.T) *job {
	j := newJob(tb, 2, 3, 1, 0, 2)
	panels, rooms := []string{"A1", "B1"}, []string{"A01", "A02", "A03", "B01"}
	numbers := []string{"A01-01", "A01-02", "A02-01", "A02-03", "B01-01"}
	switch rapid.IntRange(0, 2).Draw(t, "fed") {
	case 1:
		j.fed()
	case 2:
		j.chained()
	}
	for _, p := range panels {
		if rapid.Bool().Draw(t, "ready "+p) {
			j.lock(p)
			j.test(p, observation.Yes)
			j.isolated(p)
		}
	}
	j.begin([][]string{{"A1"}, {"B1"}, {"A1", "B1"}}[rapid.IntRange(0, 2).Draw(t, "panels of the tour")]...)
	if rapid.Bool().Draw(t, "pairing too") {
		j.pairing()
	}
	for _, house := range []string{"A", "B"} {
		if rapid.Bool().Draw(t, "nothing within reach in "+house) {
			j.outOfReach(house)
		}
	}
	for range rapid.IntRange(0, 14).Draw(t, "acts") {
		j.who = rapid.SampledFrom([]string{marit, dell}).Draw(t, "who")
		j.device = map[string]string{marit: "k", dell: "m"}[j.who]
		panel := rapid.SampledFrom(panels).Draw(t, "panel")
		number := rapid.SampledFrom(numbers).Draw(t, "opening")
		switch rapid.IntRange(0, 17).Draw(t, "act") {
		case 0:
			j.lock(panel)
		case 1:
			if locks := j.fold.Installation().Panel(j.panel[panel]).Standing(); len(locks) > 0 {
				j.note(j.panel[panel], observation.Released{Locks: []observation.ID{locks[0].ID}})
			}
		case 2:
			j.test(panel, rapid.SampledFrom([]observation.Known{observation.Yes, observation.Yes, observation.No}).Draw(t, "absent"))
		case 3:
			at := j.panel[panel]
			if sources := j.fold.Installation().Sources; len(sources) > 0 && rapid.Bool().Draw(t, "at the source") {
				at = sources[0].Thing
			}
			j.note(at, observation.Energized{Why: "trial"})
		case 4, 5, 6, 7:
			j.read(number, rapid.SliceOfN(rapid.IntRange(0, 4), 1, 2).Draw(t, "spaces")...)
		case 8:
			j.look(rapid.SampledFrom(rooms).Draw(t, "room"))
		case 9, 10:
			j.back(rapid.SampledFrom(j.puts()).Draw(t, "back"), rapid.Bool().Draw(t, "after"))
		case 11:
			j.note(j.opening[number], observation.Plate{On: observation.Yes})
		case 12:
			j.note("", observation.Drawn{Room: j.room[rapid.SampledFrom(rooms).Draw(t, "drawn in")], What: "sconce"})
		case 13:
			if card := j.next(j.who); len(card.Best) > 0 && card.Best[0].Kind != step.Rest {
				j.putOff(rapid.SampledFrom(card.keys()).Draw(t, "put off"))
			}
		case 14:
			if card := j.next(j.who); len(card.Best) > 1 {
				j.choose(card.Best[0].Key, rapid.SampledFrom(card.keys()[1:]).Draw(t, "chosen"))
			}
		case 15:
			j.withdraw(rapid.SampledFrom(j.events).Draw(t, "withdrawn"))
		case 16:
			j.note(j.opening[number], observation.ProvenDead{Before: observation.Yes, After: observation.Yes,
				Absent: rapid.SampledFrom([]observation.Known{observation.No, observation.No, observation.Yes}).Draw(t, "absent at the opening")})
		case 17:
			j.add("", "", []observation.ID{j.tour}, nil, observation.Removed{})
		}
	}
	return j
}

// withdraw takes back what may be taken back without the rest losing its things.
func (j *job) withdraw(e observation.Event) {
	switch e.Body.(type) {
	case observation.LockOut, observation.ProvenDead, observation.Ohm, observation.Letters, observation.ReadBack, observation.Resistor, observation.Decision, observation.Feeder:
		j.add(e.Subject, "", nil, []observation.ID{e.ID}, observation.Withdrawal{Reason: "was not so"})
	}
}

// deadAndLocked is the oracle, by the record alone: a lock on the whole panel
// that nobody took off, and a test that holds with nothing known or possible
// after it that speaks against.
func deadAndLocked(in *installation.Installation, at observation.Thing) bool {
	p := in.Panel(at)
	if p == nil {
		return false
	}
	_, dead := in.DeadSince(p)
	locked := slices.ContainsFunc(p.LockOuts, func(e observation.Event) bool {
		return len(e.Body.(observation.LockOut).Spaces) == 0 && !slices.ContainsFunc(p.Releases, func(r observation.Event) bool {
			return slices.Contains(r.Body.(observation.Released).Locks, e.ID)
		})
	})
	return dead && locked
}

// needs lists the panels a step needs dead: those of its tour, else its own.
func needs(in *installation.Installation, s step.Step) []observation.Thing {
	switch s.Kind {
	case step.Isolate, step.Place:
		return []observation.Thing{observation.Thing(s.Place)}
	case step.ReadBack, step.Read, step.TakeOff:
		id, err := observation.ParseID(s.Tour)
		if t := in.Tour(id); err == nil && t != nil && !t.Removed {
			return t.Panels
		}
		return []observation.Thing{"no standing tour"}
	case step.Spaces:
		return []observation.Thing{observation.Thing(s.Place)}
	}
	return nil
}

// live lists the events that were not withdrawn.
func (j *job) live() []observation.Event {
	gone := map[observation.ID]bool{}
	for _, e := range j.events {
		if _, ok := e.Body.(observation.Withdrawal); ok {
			gone[e.Seen[0]] = true
		}
	}
	return slices.DeleteFunc(slices.Clone(j.events), func(e observation.Event) bool { return gone[e.ID] })
}

// worked is the oracle for locks, from the entries alone: where a panel's power
// goes, by the feeders on record, and whether somebody works there by a tour that
// was not taken down. A tour without panels may work on any circuit.
func (j *job) worked(panel observation.Thing) bool {
	live := j.live()
	reached := map[observation.Thing]bool{panel: true}
	for range live {
		for _, e := range live {
			if f, ok := e.Body.(observation.Feeder); ok && reached[f.From] {
				reached[f.To] = true
			}
		}
	}
	down := map[observation.ID]bool{}
	for _, e := range live {
		if _, ok := e.Body.(observation.Removed); ok {
			down[e.Under[0]] = true
		}
	}
	return slices.ContainsFunc(live, func(e observation.Event) bool {
		switch b := e.Body.(type) {
		case observation.Tour:
			return !down[e.ID] && (len(b.Panels) == 0 || slices.ContainsFunc(b.Panels, func(at observation.Thing) bool { return reached[at] }))
		case observation.Resistor:
			return !down[e.Under[0]] && reached[b.On.At]
		}
		return false
	})
}

// foundLive is the oracle for openings: voltage was found there, and no test by
// the same device came after. In these jobs every test has a tester that answers.
func (j *job) foundLive(opening string) bool {
	found := map[string]bool{}
	for _, e := range j.live() {
		if b, ok := e.Body.(observation.ProvenDead); ok && string(e.Subject) == opening {
			found[e.Device] = b.Absent == observation.No || found[e.Device] && b.Absent != observation.Yes
		}
	}
	return found["k"] || found["m"]
}

// A step is never proposed, on a card or on paper, unless every panel it needs
// dead is on record as locked out and proven dead; then it says so and carries a
// caution and when to stop. No lock is taken off whose power would come to where a
// standing tour works, and no opening on record as live is read.
func TestNextKeepsItsConditions(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := randomJob(t, rt)
		a := j.found()
		who := Person{Name: rapid.SampledFrom([]string{marit, dell, "Tomas Veil"}).Draw(rt, "for")}
		card := Next(a, who)
		for _, s := range slices.Concat(card.Best, card.Off, Stretch(a, who, 60)) {
			panels := needs(a.Installation, s)
			for _, at := range panels {
				if !deadAndLocked(a.Installation, at) {
					rt.Fatalf("%s is proposed with %s not locked out and proven dead", s.Key, a.Name(at))
				}
			}
			if len(panels) > 0 && (s.Caution == "" || s.StopIf == "" || len(s.MustBeOff) != len(panels)) {
				rt.Fatalf("%s lacks its caution, when to stop, or what must be off: %+v", s.Key, s)
			}
			if s.Reason == "" || s.Minutes < 0 || s.Moving > s.Minutes {
				rt.Fatalf("%s has no reason, or minutes that cannot be: %+v", s.Key, s)
			}
			if s.Kind == step.Release && j.worked(observation.Thing(s.Place)) {
				rt.Fatalf("%s would take a lock off under a standing tour", s.Key)
			}
			if i := slices.IndexFunc(s.Places, j.foundLive); i >= 0 {
				rt.Fatalf("%s goes to %s, where voltage was found", s.Key, a.Name(observation.Thing(s.Places[i])))
			}
			for _, tour := range a.Tours {
				if s.Kind == step.Isolate && !tour.Removed && len(tour.Resistors) > 0 && slices.Contains(tour.Panels, observation.Thing(s.Place)) {
					rt.Fatalf("%s is proposed with resistors on, which would show in it", s.Key)
				}
			}
		}
	})
}

// The same journal gives the same card and the same paper, in any order of
// arrival and asked again.
func TestSameJournalSameCard(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := randomJob(t, rt)
		f := installation.NewFold()
		for _, e := range rapid.Permutation(append(slices.Clone(j.events), j.events[:5]...)).Draw(rt, "arrival") {
			f.Add(e)
		}
		a, b := j.found(), found(f.Installation())
		for _, name := range []string{marit, dell, "Tomas Veil"} {
			who := Person{Name: name}
			if diff := cmp.Diff(Next(a, who), Next(b, who)); diff != "" {
				rt.Fatalf("another order of arrival gives %s another card:\n%s", name, diff)
			}
			if diff := cmp.Diff(Stretch(a, who, 60), Stretch(b, who, 60)); diff != "" {
				rt.Fatalf("another order of arrival gives %s another sheet:\n%s", name, diff)
			}
		}
	})
}

// What is put off is never among the best, for anybody, nor on paper; it is still
// listed. Three at most are offered, each once, better ones first.
func TestPutOffIsHonoured(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := randomJob(t, rt)
		before := j.next(marit)
		if len(before.Best) == 0 || before.Best[0].Kind == step.Rest {
			return
		}
		key := rapid.SampledFrom(before.keys()).Draw(rt, "put off")
		j.who = dell
		id := j.putOff(key)
		a := j.found()
		for _, name := range []string{marit, dell} {
			card := Next(a, Person{Name: name})
			if card.proposes(key) || len(card.Best) > 3 {
				rt.Fatalf("%s was put off, and %s is offered %v", key, name, card.keys())
			}
			if !slices.ContainsFunc(card.Off, func(s step.Step) bool { return s.Key == key }) {
				rt.Fatalf("%s was put off and is listed nowhere", key)
			}
			if keys := card.keys(); len(slices.Compact(slices.Sorted(slices.Values(keys)))) != len(keys) {
				rt.Fatalf("a step is offered twice: %v", keys)
			}
			if slices.ContainsFunc(Stretch(a, Person{Name: name}, 60), func(s step.Step) bool { return s.Key == key }) {
				rt.Fatalf("%s was put off and stands on the paper of %s", key, name)
			}
		}
		j.add("", "", nil, []observation.ID{id}, observation.Withdrawal{Reason: "taken up again"})
		if diff := cmp.Diff(before, j.next(marit)); diff != "" {
			rt.Fatalf("taken up again, the card is not as it was:\n%s", diff)
		}
	})
}

// Of rooms that differ in nothing but where they are, the nearest comes first.
func TestNearestFirstAmongEquals(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(3, 7).Draw(rt, "rooms")
		j := begun(t, append(slices.Repeat([]int{2}, n), 0, 1)...)
		measured := rapid.Bool().Draw(rt, "measured")
		var names []string
		for i := range n {
			name := []string{"A01", "A02", "A03", "A04", "A05", "A06", "A07"}[i]
			names = append(names, name)
			if measured {
				j.note(j.room[name], observation.RoomSize{Width: 120, Depth: 120, Corner: &observation.Corner{
					Right: quantity.Inches(rapid.IntRange(0, 1000).Draw(rt, "right")), Back: quantity.Inches(rapid.IntRange(0, 1000).Draw(rt, "back"))}})
			}
		}
		at := rapid.SampledFrom(names).Draw(rt, "at")
		j.readRoom(at)
		j.look(at)
		a := j.found()
		card := Next(a, Person{Name: marit})
		w := newWays(a.Installation)
		first := card.Best[0]
		if first.Kind != step.Read || card.At != j.room[at] {
			rt.Fatalf("standing at %s, first is %s", a.Name(card.At), first.Key)
		}
		for _, name := range names {
			if name != at && w.walk(card.At, j.room[name]) < w.walk(card.At, a.Opening(observation.Thing(first.Place)).Room)-1e-9 {
				rt.Fatalf("from %s %s is nearer than %s, which is first", at, name, first.Where)
			}
		}
	})
}

// A choice is followed until it is done, by the person who made it alone; the
// step passed over does not come back before.
func TestChoiceIsRemembered(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := randomJob(t, rt)
		j.who = marit
		before := j.next(marit)
		if len(before.Best) < 2 {
			return
		}
		proposed, chosen := before.Best[0].Key, rapid.SampledFrom(before.keys()[1:]).Draw(rt, "chosen")
		others := j.next(dell)
		id := j.choose(proposed, chosen)
		card := j.next(marit)
		if card.first(t) != chosen || card.proposes(proposed) {
			rt.Fatalf("chose %s instead of %s, and is offered %v", chosen, proposed, card.keys())
		}
		if c := card.Instead; c == nil || c.ID != id || c.Proposed != proposed || c.Chosen != chosen || c.Who != marit {
			rt.Fatalf("the card tells of the choice as %+v", c)
		}
		if diff := cmp.Diff(others, j.next(dell)); diff != "" {
			rt.Fatalf("the choice of one changed the card of another:\n%s", diff)
		}
		if stretch := Stretch(j.found(), Person{Name: marit}, 60); stretch[0].Key != chosen || slices.ContainsFunc(stretch, func(s step.Step) bool { return s.Key == proposed }) {
			rt.Fatalf("the paper does not follow the choice of %s: %+v", chosen, stretch)
		}
		j.add("", "", nil, []observation.ID{id}, observation.Withdrawal{Reason: "back to what was proposed"})
		if diff := cmp.Diff(before, j.next(marit)); diff != "" {
			rt.Fatalf("the choice taken back, the card is not as it was:\n%s", diff)
		}
	})
}

// A stretch is in walking order, fits its time, and has each step once.
func TestStretchFits(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		j := randomJob(t, rt)
		minutes := rapid.Float64Range(5, 90).Draw(rt, "minutes")
		stretch := Stretch(j.found(), Person{Name: marit}, minutes)
		seen := map[string]bool{}
		for _, s := range stretch {
			if seen[s.Key] {
				rt.Fatalf("%s stands twice", s.Key)
			}
			seen[s.Key] = true
		}
		least := 0.0
		for _, s := range stretch {
			least += s.Minutes - s.Moving
		}
		if len(stretch) > 1 && least > minutes {
			rt.Fatalf("%.1f minutes of work in a stretch of %.1f: %+v", least, minutes, stretch)
		}
	})
}

// Gains and minutes are never below zero, and every step leads somewhere.
func TestProposalsAreWhole(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		a := randomJob(t, rt).found()
		keys := map[string]bool{}
		for _, p := range proposals(a) {
			if p.Gain <= 0 || p.Minutes <= 0 || p.Ahead < 0 || p.Key == "" || p.Where == "" || len(p.Do) == 0 || p.WriteDown == "" || keys[p.Key] {
				rt.Fatalf("not a whole proposal: %+v", p)
			}
			keys[p.Key] = true
			if len(p.Places) > 0 && p.Places[0] != p.Place {
				rt.Fatalf("%s begins elsewhere than it says", p.Key)
			}
		}
		if len(trace.NewTracer().Trace(a.Installation).Proposals(a.Installation)) == 0 && len(keys) == 0 && Next(a, Person{}).Best[0].Kind != step.Rest {
			rt.Fatal("nothing is open and the card does not say so")
		}
	})
}
