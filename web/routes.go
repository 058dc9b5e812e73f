package web

import (
	"slices"
	"strings"
)

// route is one page or form of the pages. A part in braces is a name that the
// address fills in.
type route struct {
	method, path string
	handle       func(*visit) error
}

// routes is the table of contents.
func routes() []route {
	return slices.Concat(propertyRoutes(), planRoutes(), panelRoutes(), powerRoutes(), tourRoutes(), paperRoutes(), journalRoutes(), fileRoutes())
}

// propertyRoutes are the addresses of the next step, who it is, and the property room by room.
func propertyRoutes() []route {
	return []route{
		{"GET", "", showNext},
		{"GET", "who", showWho},
		{"POST", "who", chooseWho},
		{"POST", "notnow", putOff},
		{"POST", "notnow/{entry}", takeUp},
		{"POST", "instead", doInstead},
		{"GET", "property", showProperty},
		{"POST", "property", addBuilding},
		{"GET", "building/{building}", showBuilding},
		{"POST", "building/{building}", mendBuilding},
		{"POST", "building/{building}/room", addRoom},
		{"POST", "building/{building}/panel", addPanel},
		{"GET", "room/{room}", showRoom},
		{"POST", "room/{room}", addOpening},
		{"POST", "room/{room}/mend", mendRoom},
		{"GET", "opening/{opening}", showOpening},
		{"POST", "opening/{opening}", mendOpening},
		{"POST", "opening/{opening}/cable", addCable},
		{"POST", "opening/{opening}/missing", addMissing},
		{"GET", "raceway/{thing}", showRaceway},
		{"POST", "raceway/{thing}", addRaceway},
		{"GET", "joined/{opening}", showJoined},
		{"POST", "joined/{opening}", addJoined},
		{"POST", "photo/{thing}", addPhoto},
		{"GET", "photo/{hash}", showPhoto},
	}
}

// planRoutes are the addresses of the plan, and of the drawings against the building.
func planRoutes() []route {
	return []route{
		{"GET", "plan/{building}", showPlan},
		{"POST", "room/{room}/size", addSize},
		{"POST", "room/{room}/doorway", addDoorway},
		{"POST", "opening/{opening}/spot", addSpot},
		{"GET", "drawings", showDrawings},
		{"POST", "drawings", addDrawings},
		{"GET", "differences", showDifferences},
		{"POST", "differences/{drawn}", addOutcome},
	}
}

// panelRoutes are the addresses of the panels and the work at them.
func panelRoutes() []route {
	return []route{
		{"GET", "panels", showPanels},
		{"GET", "panel/{panel}", showPanel},
		{"POST", "panel/{panel}", mendPanel},
		{"GET", "panel/{panel}/space/{space}", showSpace},
		{"POST", "panel/{panel}/space/{space}", addSpace},
		{"GET", "dead/{panel}", showDead},
		{"POST", "dead/{panel}", addDead},
		{"GET", "isolation/{panel}", showIsolation},
		{"POST", "isolation/{panel}", addIsolation},
		{"GET", "passthrough/{panel}", showPassThrough},
		{"POST", "passthrough/{panel}", addPassThrough},
		{"GET", "coiled/{panel}", showCoiled},
		{"POST", "coiled/{panel}", addCoiled},
		{"GET", "cabinet/{panel}", showCabinet},
		{"POST", "cabinet/{panel}", addCabinet},
	}
}

// powerRoutes are the addresses of sources and feeders, of what is live, and of
// locks and power put on; at stands for a panel or a source.
func powerRoutes() []route {
	return []route{
		{"GET", "sources", showSources},
		{"POST", "sources", addSource},
		{"GET", "source/{source}", showSource},
		{"POST", "source/{source}", mendSource},
		{"GET", "feeder/{panel}", showFeeder},
		{"POST", "feeder/{panel}", addFeeder},
		{"GET", "door/{panel}", showDoor},
		{"GET", "live/{opening}", showLive},
		{"GET", "safety", showSafety},
		{"GET", "lockout/{at}", showLockOut},
		{"POST", "lockout/{at}", addLockOut},
		{"GET", "told/{at}", showTold},
		{"POST", "told/{at}", addTold},
		{"GET", "release/{at}", showRelease},
		{"POST", "release/{at}", addRelease},
		{"GET", "energize/{at}", showEnergize},
		{"POST", "energize/{at}", addEnergize},
	}
}

// tourRoutes are the addresses of what was found and the tours that find it.
func tourRoutes() []route {
	return []route{
		{"GET", "trace", showTrace},
		{"GET", "line/{thing}", showLine},
		{"POST", "line/{thing}", addDecision},
		{"GET", "clash", showClash},
		{"GET", "tour", showNewTour},
		{"POST", "tour", addTour},
		{"GET", "pairing", showNewPairing},
		{"POST", "pairing", addPairing},
		{"GET", "tour/{tour}", showTour},
		{"GET", "tour/{tour}/{opening}", showStop},
		{"POST", "tour/{tour}/{opening}", addStop},
		{"GET", "resistors/{tour}", showResistors},
		{"POST", "resistors/{tour}", addResistors},
		{"GET", "readback/{tour}", showReadBack},
		{"POST", "readback/{tour}", addReadBack},
		{"GET", "look/{tour}/{room}", showLook},
		{"POST", "look/{tour}/{room}", addLook},
		{"GET", "takeoff/{tour}", showTakeOff},
		{"POST", "takeoff/{tour}", addTakeOff},
		{"GET", "late/{tour}", showLate},
		{"POST", "late/{tour}", addLate},
	}
}

// paperRoutes are the addresses of the sheets.
func paperRoutes() []route {
	return []route{
		{"GET", "papers", showPapers},
		{"GET", "sheet/{sheet}", showSheet},
		{"GET", "sheet/{sheet}/{file}", showSheetFile},
	}
}

// journalRoutes are the addresses of what was recorded.
func journalRoutes() []route {
	return []route{
		{"GET", "journal", showJournal},
		{"GET", "entry/{entry}", showEntry},
		{"POST", "entry/{entry}", withdrawEntry},
		{"GET", "story/{thing}", showStory},
		{"GET", "note", showNote},
		{"POST", "note", addNote},
		{"GET", "note/{thing}", showNote},
		{"POST", "note/{thing}", addNote},
		{"GET", "day/{day}", showDay},
		{"GET", "survey/{room}", showSurvey},
		{"POST", "survey/{room}", addSurvey},
	}
}

// fileRoutes are the addresses of lists that are taken in from files.
func fileRoutes() []route {
	return []route{
		{"GET", "lists", showLists},
		{"POST", "lists", bringList},
		{"GET", "lists/{list}", showList},
		{"POST", "lists/{list}", keepList},
		{"GET", "lists/{list}/bad-lines.csv", showBadLines},
		{"GET", "file/{entry}", showFile},
		{"POST", "file/{entry}", takeFileBack},
	}
}

// find returns the handler of an address; other says that the address is there
// but does not take this method.
func find(method, path string) (handle func(*visit) error, args map[string]string, other bool) {
	parts := strings.Split(strings.Trim(path, "/"), "/")
	for _, r := range routes() {
		args, ok := match(strings.Split(r.path, "/"), parts)
		if !ok {
			continue
		}
		if r.method == method {
			return r.handle, args, false
		}
		other = true
	}
	return nil, nil, other
}

func match(pattern, parts []string) (map[string]string, bool) {
	if len(pattern) != len(parts) {
		return nil, false
	}
	args := map[string]string{}
	for i, p := range pattern {
		if name, ok := strings.CutPrefix(p, "{"); ok && parts[i] != "" {
			args[strings.TrimSuffix(name, "}")] = parts[i]
		} else if p != parts[i] {
			return nil, false
		}
	}
	return args, true
}
