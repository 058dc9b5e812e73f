package web

import (
	"strings"
	"testing"

	"asfound/observation"
	"asfound/pattern"
	"asfound/trace"
)

// pairing sets up a pairing tour and plays it past four boxes: a cable from the
// first to the second, one end of another read open in the first, a third box
// with two cables not read, a fourth where no cable is on record.
func (h *house) pairing() (tour string) {
	at := h.kept("/pairing", "name", "Pairs", "tolerance", "1", "meter", "0.9", "meter_ohm", "0.2")
	tour = strings.TrimPrefix(at, "/tour/")
	stop := func(number string) string { return "/tour/" + tour + "/" + string(h.opening[number]) }
	for number, n := range map[string]string{"A02-01": "2", "A02-02": "1", "A02-03": "2"} {
		h.kept(stop(number), "answer", "enter", "enter", n, "stop", "p"+number)
	}
	h.kept(stop("A02-01"), "letters", pattern.Letters("A02-01"), "answer", "open", "reading", "1.hot.egc", "end", "1", "stop", "pA02-01")
	h.kept(stop("A02-01"), "answer", "on", "put", h.next(tour), "reading", "1.hot.egc", "stop", "pA02-01")
	h.kept(stop("A02-01"), "answer", "open", "reading", "2.hot.egc", "end", "2", "stop", "pA02-01")
	value := h.resistor(tour, "A02-01")
	h.kept(stop("A02-02"), "letters", pattern.Letters("A02-02"), "ohm", value, "reading", "1.hot.egc", "end", "1", "stop", "pA02-02")
	return tour
}

// next is the value that the page of the first box names.
func (h *house) next(tour string) string {
	id, err := observation.ParseID(tour)
	if err != nil {
		h.t.Fatal(err)
	}
	t := h.found().Tour(id)
	return h.found().Trace.PairingOf(t, trace.SetOf(t, "E96")).Free[0].String()
}

func (h *house) resistor(tour, number string) string {
	id, _ := observation.ParseID(tour)
	for _, e := range h.found().Tour(id).Resistors {
		if r := e.Body.(observation.Resistor); r.On.At == h.opening[number] {
			return r.Ohm.String()
		}
	}
	h.t.Fatalf("no resistor is on at %s", number)
	return ""
}

// Open: the page names the resistor, one touch keeps it. A value: the page says
// at once which cable end it is the other end of.
func TestPairingTour(t *testing.T) {
	h := built(t)
	wants(t, h.get("/trace"), "Set up a pairing tour")
	wants(t, h.get("/pairing"), "dead, isolated conductors only", "tested for voltage at each box")
	at := h.kept("/pairing", "name", "Pairs", "tolerance", "1", "meter", "0.9", "meter_ohm", "0.2")
	tour := strings.TrimPrefix(at, "/tour/")
	first := at + "/" + string(h.opening["A02-01"])
	wants(t, h.get(at), "0 of 7 openings visited.", "Pairs found: 0", "Go to A02-01", "Test for voltage in every box")
	wants(t, h.get(first), "How many cables enter here?")
	at = h.kept(first, "answer", "enter", "enter", "2", "stop", "p1")
	wants(t, h.get(at), "Kept 2 cables.", "hot of cable 1 to its own ground", "Letters on the tape")
	next := h.next(tour)
	at = h.kept(first, "letters", pattern.Letters("A02-01"), "answer", "open", "reading", "1.hot.egc", "end", "1", "stop", "p1")
	wants(t, h.get(at), "Cable 1 is open. Put on:", next, `name="put" value="`+next+`"`)
	at = h.kept(first, "answer", "on", "put", next, "reading", "1.hot.egc", "end", "1", "stop", "p1")
	wants(t, h.get(at), "Kept "+next+" on the hot of cable 1.", next+" is on it", "hot of cable 2 to its own ground")
	second := "/tour/" + tour + "/" + string(h.opening["A02-02"])
	h.kept(second, "answer", "enter", "enter", "1", "stop", "p2")
	at = h.kept(second, "letters", pattern.Letters("A02-02"), "ohm", next, "reading", "1.hot.egc", "end", "1", "stop", "p2")
	wants(t, h.get(at), "Kept "+next+".", "the hot of cable 1 at A02-02 is the other end of A02-01, hot of cable 1", "Every cable end here is done.")
	wants(t, h.get(first), "is the other end of A02-02, hot of cable 1")
	wants(t, h.get("/tour/"+tour), "Pairs found: 1", "Resistors still out: 0", "2 of 7 openings visited.", "1 cable end left")
}

func TestPairingTourOnItsWay(t *testing.T) {
	h := built(t)
	tour := h.pairing()
	first := "/tour/" + tour + "/" + string(h.opening["A02-01"])
	used, next := h.resistor(tour, "A02-01"), h.next(tour)
	if used == next {
		t.Fatalf("%s is named twice", next)
	}
	t.Run("a value that is on already is refused", func(t *testing.T) {
		h.t = t
		page := h.refused(first, used+" is on already at A02-01, hot of cable 1.", "answer", "on", "put", next, "other", used, "reading", "2.hot.egc", "end", "2", "stop", "pA02-01")
		wants(t, page, `value="`+used+`"`)
	})
	t.Run("a value that fits nothing is asked for again", func(t *testing.T) {
		h.t = t
		third := "/tour/" + tour + "/" + string(h.opening["A02-03"])
		at := h.kept(third, "ohm", "47k", "reading", "1.hot.egc", "end", "1", "stop", "pA02-03")
		wants(t, h.get(at), "Again:", "47 kΩ fits no resistor that is on; read it once more")
	})
	t.Run("a resistor whose other end was not met stays out", func(t *testing.T) {
		h.t = t
		h.kept(first, "answer", "on", "put", next, "reading", "2.hot.egc", "end", "2", "stop", "pA02-01")
		wants(t, h.get("/tour/"+tour), "Resistors still out: 1", "A02-01, hot of cable 2", "not visited yet (4 are left), or it is buried or cut.")
		wants(t, h.get("/takeoff/"+tour), "2 resistors on:")
	})
	t.Run("words in place of a resistance", func(t *testing.T) {
		h.t = t
		h.refused(first, `Type the number with Ω, k, M or no unit (ohms): "brown" does not fit here.`, "answer", "on", "other", "10 brown", "reading", "2.hot.egc", "end", "2", "stop", "pA02-01")
	})
}
