package report

import (
	"slices"
	"strings"
	"time"

	"asfound/diary"
	"asfound/observation"
	"asfound/site"
)

// mostDays is how many days are listed: two weeks of work, and what is older is
// found by its day.
const mostDays = 14

// zone is where the days are counted: the clock of whoever asks is taken to be
// that of the place.
func zone(a *site.AsFound) *time.Location { return a.Taken.Location() }

// lastDays are the listed sheets that are about a day: the take-over record, and
// the last days with entries, the newest first.
func lastDays(a *site.AsFound) []Kind {
	days := diary.Days(a.Entries(), zone(a))
	if len(days) == 0 {
		return nil
	}
	out := []Kind{takeOverOf(string(TakeOver), days[len(days)-1])}
	for _, day := range days[:min(len(days), mostDays)] {
		out = append(out, dayOf(day))
	}
	return out
}

func dayOf(day time.Time) Kind {
	return Kind{Name: string(DaySheet) + "-" + diary.Name(day), Title: "The day: " + dayWords(day), Sort: DaySheet, day: day}
}

func takeOverOf(name string, day time.Time) Kind {
	return Kind{Name: name, Title: "Take-over record, " + day.Format("January 2, 2006"), Sort: TakeOver, day: day}
}

// dayWords is a day as people say it.
func dayWords(day time.Time) string { return day.Format("Monday, January 2, 2006") }

// unlisted finds a sheet by a name that is not listed.
func unlisted(a *site.AsFound, name string) (Kind, bool) {
	sort, day, _ := strings.Cut(name, "-")
	if begin, ok := diary.Parse(day, zone(a)); ok && (Sort(sort) == DaySheet || Sort(sort) == TakeOver) {
		if !slices.ContainsFunc(diary.Days(a.Entries(), zone(a)), begin.Equal) {
			return Kind{}, false
		}
		if Sort(sort) == DaySheet {
			return dayOf(begin), true
		}
		return takeOverOf(name, begin), true
	}
	rooms := roomSurveys(a)
	i := slices.IndexFunc(rooms, func(k Kind) bool { return k.Name == name })
	if i < 0 {
		return Kind{}, false
	}
	return rooms[i], true
}

// rest lists every sheet that is made and not listed.
func rest(a *site.AsFound) []Kind {
	out := roomSurveys(a)
	for i, day := range diary.Days(a.Entries(), zone(a)) {
		if i >= mostDays {
			out = append(out, dayOf(day))
		}
		out = append(out, takeOverOf(string(TakeOver)+"-"+diary.Name(day), day))
	}
	return out
}

// roomSurveys are the survey sheets of single rooms.
func roomSurveys(a *site.AsFound) []Kind {
	var out []Kind
	for _, r := range a.Rooms {
		k := Kind{Name: RoomSurvey(a, r.Thing), Title: roomName(a, r.Thing) + ": survey sheet", Of: r.Thing, Sort: Survey}
		if slices.ContainsFunc(out, func(other Kind) bool { return other.Name == k.Name }) {
			k.Name += "-" + plainName(string(r.Thing))
		}
		out = append(out, k)
	}
	return out
}

// RoomSurvey is the name of the survey sheet of a room, unless another room of
// the building is called the same.
func RoomSurvey(a *site.AsFound, room observation.Thing) string {
	return string(Survey) + "-" + plainName(a.Name(a.Room(room).Building)) + "-" + plainName(a.Name(room))
}
