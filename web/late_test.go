package web

import (
	"bytes"
	"encoding/csv"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"asfound/observation"
	"asfound/pattern"
	"asfound/report"
)

// One Save for the whole sheet: good rows are kept once with the time they were
// taken, a bad row comes back as typed, and saving twice adds nothing.
func TestLateEntry(t *testing.T) {
	h := built(t).touring()
	path := "/late/" + h.tour.String()
	one, two, three := string(h.opening["A02-01"])+".", string(h.opening["A02-02"])+".", string(h.opening["A02-03"])+"."
	sheet := []string{"taker", "Tomas Veil", "date", "2031-05-28",
		"letters." + one, pattern.Letters("A02-01"), "ground." + one, "1k", "neutral." + one, "1.001k", "time." + one, "9:02",
		"letters." + two, "hc", "ground." + two, "OL", "neutral." + two, "open", "side." + two, "0.8",
		"ground." + three, "3 V", "neutral." + three, "3k"}
	before := h.length()
	r := h.send("POST", path, sheet)
	if r.Status != statusUnusable {
		t.Fatalf("status %d, want the bad row back", r.Status)
	}
	page := string(r.Body)
	wants(t, page, `value="3 V"`, "treat it as live")
	if kept := h.length() - before; kept != 8 {
		t.Errorf("%d entries kept, want 8: all but the bad field", kept)
	}
	stop := h.found().Opening(h.opening["A02-02"]).Stops[0]
	if stop.Who != "Tomas Veil" || !stop.First.When().Equal(time.Date(2031, 5, 28, 9, 2, 0, 0, time.UTC)) {
		t.Errorf("taken by %s at %s", stop.Who, stop.First.When())
	}
	after := h.length()
	h.send("POST", path, sheet)
	if h.length() != after {
		t.Errorf("saved again: %d more entries", h.length()-after)
	}
	mended := append([]string{}, sheet...)
	mended[len(mended)-3] = "3k"
	at := h.kept(path, mended...)
	wants(t, h.get(at), "Kept 1 row.", "1.001 kΩ")
	if h.length() != after+1 {
		t.Errorf("mended: %d more entries, want 1", h.length()-after)
	}
}

func TestLateEntryKeepsWhatIsWrong(t *testing.T) {
	h := built(t).touring()
	path := "/late/" + h.tour.String()
	one := string(h.opening["A02-01"]) + "."
	h.refused(path, sayFuture, "date", "2031-06-30", "ground."+one, "1k", "time."+one, "9:00")
	h.refused(path, sayClock, "ground."+one, "1k", "time."+one, "nine")
	h.refused(path, sayNoRow, "taker", "Tomas Veil")
	h.kept(path, "ground."+one, "1k")
	h.refused(path, sayKeptAs("1 kΩ"), "ground."+one, "2k")
}

// The table is in the sheet's own order and tabs row by row.
func TestLateEntryOrder(t *testing.T) {
	h := built(t).touring()
	page := h.get("/late/" + h.tour.String())
	last := 0
	for _, number := range []string{"A02-01", "A02-02", "A02-03", "A02-04", "A03-01", "A03-02", "A03-03"} {
		for _, c := range lateColumns {
			at := strings.Index(page, `name="`+c.Name+"."+string(h.opening[number])+`."`)
			if at < last {
				t.Errorf("%s of %s is out of order", c.Name, number)
			}
			last = at
		}
	}
	if !strings.Contains(page, `name="letters.`+string(h.opening["A02-01"])+`." value="" aria-label="letters, A02-01" autocomplete="off" autofocus`) {
		t.Error("the cursor does not start in the first row")
	}
}

// What could not be read is an answer on the sheet too, and kept once.
func TestLateEntryWithoutAValue(t *testing.T) {
	h := built(t).touring()
	path := "/late/" + h.tour.String()
	sheet := []string{"ground." + string(h.opening["A02-01"]) + ".", "cr", "ground." + string(h.opening["A02-02"]) + ".", "not reached"}
	page := h.get(h.kept(path, sheet...))
	wants(t, page, "Kept 2 rows.", "could not be read", "not reached")
	before := h.length()
	h.send("POST", path, append(sheet, "once", "again"))
	if h.length() != before {
		t.Errorf("saved again: %d more entries", h.length()-before)
	}
}

// The rows bear the numbers of the tour sheet, in its order: the lines of the
// same sheet as package report writes it.
func TestLateEntryNumbersAreThoseOfTheSheet(t *testing.T) {
	h := built(t).touring()
	both := []observation.Conductor{{Wire: observation.Hot}, {Wire: observation.Neutral}}
	for number, tags := range map[string][]string{"A02-02": {"1", "2"}, "A03-01": {"1"}} {
		for _, tag := range tags {
			h.record(observation.Observation{Subject: h.opening[number], Body: observation.CableEnd{Tag: tag, Conductors: both}})
		}
	}
	sheet, err := report.CSV(h.found(), "tour-tour-1")
	if err != nil {
		t.Fatal(err)
	}
	lines, err := csv.NewReader(bytes.NewReader(sheet)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var want, got []string
	for _, line := range lines {
		if n, err := strconv.Atoi(line[0]); err == nil {
			want = append(want, strconv.Itoa(n)+" "+line[2])
		}
	}
	row := regexp.MustCompile(`<span class="no">(\d+)</span> ([^<]*)(?: <span class="why">([^<]*)</span>)?</th>`)
	for _, m := range row.FindAllStringSubmatch(h.get("/late/"+h.tour.String()), -1) {
		name := strings.TrimSpace(m[2])
		if strings.HasPrefix(name, "A02-02") {
			name += " " + m[3] // an opening with one cable stands without it on the sheet
		}
		got = append(got, m[1]+" "+name)
	}
	if len(want) != 8 {
		t.Fatalf("the sheet has %d lines, want 8: %v", len(want), want)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("rows of the page against the sheet (-sheet +page):\n%s", diff)
	}
}

// The Again column and the look around at the end of a room are kept as on
// paper, and once.
func TestLateEntryAgainAndLook(t *testing.T) {
	h := built(t).touring()
	path := "/late/" + h.tour.String()
	one := string(h.opening["A02-01"]) + "."
	sheet := []string{"taker", "Tomas Veil", "ground." + one, "1k", "neutral." + one, "3k", "again." + one, "1k", "time." + one, "9:02",
		"look." + string(h.room), "yes", "look." + string(h.study), "A03-02, a03-03"}
	wants(t, h.get(h.kept(path, sheet...)), "Kept 3 rows.", "A02 Great room: every opening read bears its mark", "A03 Study: not every opening bears its mark A03-02, A03-03")
	stop := h.found().Opening(h.opening["A02-01"]).Stops[0]
	var pairs []string
	for _, e := range stop.Ohms {
		b := e.Body.(observation.Ohm)
		pairs = append(pairs, ohmPair(b.A.Wire, b.B.Wire)+" "+b.Ohm.String())
	}
	if diff := cmp.Diff([]string{"hot to ground 1 kΩ", "hot to neutral 3 kΩ", "hot to ground 1 kΩ"}, pairs); diff != "" {
		t.Errorf("kept readings (-want +got):\n%s", diff)
	}
	look := h.found().Room(h.study).Checks[0]
	if b := look.Body.(observation.RoomCheck); b.All != observation.No || len(b.Without) != 2 || look.Who != "Tomas Veil" || !look.When().Equal(stop.First.When()) {
		t.Errorf("kept as %+v by %s at %s", b, look.Who, look.When())
	}
	after := h.length()
	h.send("POST", path, append(sheet, "once", "again"))
	if h.length() != after {
		t.Errorf("saved again: %d more entries", h.length()-after)
	}
	h.refused(path, sayKeptAs("1 kΩ"), "again."+one, "2k")
	h.refused(path, sayKeptAs("A02 Great room: every opening read bears its mark"), "look."+string(h.room), "A02-01")
}

// A look that names an opening of another room comes back.
func TestLateEntryLookOfAnotherRoom(t *testing.T) {
	h := built(t).touring()
	page := h.refused("/late/"+h.tour.String(), sayNotInRoom("A03-01"), "look."+string(h.room), "A02-01 A03-01")
	wants(t, page, `value="A02-01 A03-01"`, "Not kept yet: look around A02 Great room.")
}

// A reading that could not be taken the second time leaves the first one.
func TestLateEntryAgainCannot(t *testing.T) {
	h := built(t).touring()
	one := string(h.opening["A02-01"]) + "."
	page := h.get(h.kept("/late/"+h.tour.String(), "ground."+one, "1k", "neutral."+one, "1k", "again."+one, "Cannot read"))
	wants(t, page, "1 kΩ 1 kΩ could not be read")
	two := string(h.opening["A02-02"]) + "."
	page = h.get(h.kept("/late/"+h.tour.String(), "ground."+two, "cannot", "neutral."+two, "1k", "again."+two, "1.2k"))
	wants(t, page, "could not be read 1 kΩ 1.2 kΩ")
}

// Good rows are kept and said to be; the bad ones are named by number.
func TestLateEntrySaysWhatIsNotKept(t *testing.T) {
	h := built(t).touring()
	path := "/late/" + h.tour.String()
	ground := func(number string) string { return "ground." + string(h.opening[number]) + "." }
	page := string(h.send("POST", path, []string{ground("A02-01"), "1k", ground("A02-02"), "1k", ground("A02-03"), "3 V", ground("A03-02"), "-2"}).Body)
	wants(t, page, "Kept 2 rows. Not kept yet: 3, A02-03, hot to ground; 6, A03-02, hot to ground.", `value="3 V"`, `value="-2"`)
	page = string(h.send("POST", path, []string{ground("A02-03"), "3k", ground("A03-02"), "-2"}).Body)
	wants(t, page, "Kept 1 row. Not kept yet: 6, A03-02, hot to ground.")
	page = string(h.send("POST", path, []string{ground("A03-02"), "-2"}).Body)
	wants(t, page, "Not kept yet: 6, A03-02, hot to ground.")
	for _, name := range []string{"nr", "cr"} {
		if regexp.MustCompile(`\b` + name + `\b`).MatchString(text([]byte(page))) {
			t.Errorf("the page says %q", name)
		}
	}
}

// Letters of another opening are said at their own row at once.
func TestLateEntryWrongLetters(t *testing.T) {
	h := built(t).touring()
	two := string(h.opening["A02-02"]) + "."
	page := h.get(h.kept("/late/"+h.tour.String(), "letters."+two, pattern.Letters("A02-03"), "ground."+two, "1k"))
	say := sayWrongLetters(pattern.Letters("A02-03"), "A02-02", []string{"A02-03"})
	wants(t, page, "Letters that do not fit: 2, A02-02.", say, "Mistyped? Withdraw")
	at := strings.Index(page, say)
	if row, next := strings.Index(page, `>2</span> A02-02`), strings.Index(page, `>3</span> A02-03`); at < row || at > next {
		t.Errorf("said at %d, want between its own row at %d and the next at %d", at, row, next)
	}
	e := h.found().Opening(h.opening["A02-02"]).Stops[0].Letters[0]
	h.kept("/entry/"+e.ID.String(), "reason", "Mistyped")
	page = h.get("/late/" + h.tour.String())
	if strings.Contains(page, "Mistyped? Withdraw") || !strings.Contains(page, `name="letters.`+two+`"`) {
		t.Error("after the letters were withdrawn they cannot be typed anew")
	}
}

// Only where no script runs does Enter send the sheet, and only there it is said.
func TestLateEntrySaysThatEnterSends(t *testing.T) {
	h := built(t).touring()
	page := h.get("/late/" + h.tour.String())
	_, without, _ := strings.Cut(page, "<noscript>")
	without, _, _ = strings.Cut(without, "</noscript>")
	wants(t, page, "Enter goes on to the next field.")
	if !strings.Contains(without, "Enter sends the whole sheet") {
		t.Errorf("without script the page says %q", without)
	}
}

// In a tour that is taken down a row needs a time before that: its own, or that
// of the row above. It is refused at its time field with all that was typed.
func TestLateEntryAfterTheTakeOff(t *testing.T) {
	h := built(t).touring() // recorded from 09:00 on
	path := "/late/" + h.tour.String()
	one, two, three := string(h.opening["A02-01"])+".", string(h.opening["A02-02"])+".", string(h.opening["A02-03"])+"."
	h.now = time.Date(2031, 5, 28, 14, 30, 0, 0, time.UTC)
	h.kept("/takeoff/" + h.tour.String())
	page := h.refused(path, "The resistors are off: type when this was read.", "letters."+one, pattern.Letters("A02-01"), "ground."+one, "1k")
	wants(t, page, `value="1k"`, "Not kept yet: 1, A02-01, time taken.")
	if !strings.Contains(between(page, `id="f-time.`+one+`"`, "/>"), `aria-invalid="true"`) {
		t.Error("the sentence does not stand at the time of the row")
	}
	h.now = h.now.Add(time.Hour)
	page = h.refused(path, sayAfterOff("14:30"), "date", "2031-05-28", "ground."+one, "1k", "time."+one, "15:10")
	wants(t, page, `value="15:10"`, `value="1k"`)
	h.kept(path, "date", "2031-05-28", "ground."+one, "1k", "time."+one, "14:02", "ground."+two, "OL")
	h.kept(path, "date", "2031-05-28", "ground."+three, "2k", "look."+string(h.room), "yes")
	taken := time.Date(2031, 5, 28, 14, 2, 0, 0, time.UTC)
	for _, number := range []string{"A02-01", "A02-02", "A02-03"} {
		if e := h.found().Opening(h.opening[number]).Stops[0].First; !e.When().Equal(taken) {
			t.Errorf("%s was taken at %s, want %s as it or the row above says", number, e.When(), taken)
		}
	}
}

// Of a row with one field at fault, the others are kept and that field is named.
func TestLateEntryNamesTheField(t *testing.T) {
	h := built(t).touring()
	one := string(h.opening["A02-01"]) + "."
	page := string(h.send("POST", "/late/"+h.tour.String(), []string{"letters." + one, pattern.Letters("A02-01"), "ground." + one, "1k", "neutral." + one, "99999999999"}).Body)
	wants(t, page, "Not kept yet: 1, A02-01, hot to neutral.", sayTooMuch, `value="99999999999"`)
	if n := len(h.found().Opening(h.opening["A02-01"]).Stops[0].Ohms); n != 1 {
		t.Errorf("%d readings kept, want 1", n)
	}
}
