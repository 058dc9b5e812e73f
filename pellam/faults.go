package pellam

import (
	"slices"

	"asfound/observation"
	"asfound/quantity"
)

// Fault is something wrong at Pellam Point.
type Fault struct {
	ID, Class, Where string
	What             string // is really there
	Section          string // of NFPA 70, 2023
	Finish           string // opened for the repair?
	LeadHours        float64
	ApprenticeHours  float64
	Material         float64 // dollars
	Needs            string  // the kind of reading or record that would show it; empty: those of a tour
	Changes          []Change
}

// faults reads the table of faults and gives each its changes.
func faults() ([]Fault, error) {
	var out []Fault
	err := rows("faults", func(r *row) {
		id := r.text("fault")
		out = append(out, Fault{ID: id, Class: r.text("class"), Where: r.text("where"), What: r.text("what"), Section: r.text("section"), Finish: r.text("finish"),
			LeadHours: r.number("lead_h"), ApprenticeHours: r.number("apprentice_h"), Material: r.number("material"), Needs: r.text("needs"), Changes: changes(id)})
	})
	return out, err
}

const (
	hot     = observation.Hot
	neutral = observation.Neutral
	egc     = observation.EGC
)

// changes gives what a fault does to the design.
func changes(fault string) []Change {
	if c, ok := copper[fault]; ok {
		return c()
	}
	return looks[fault]
}

// joints says where all conductors of a cable touch a circuit's joint in a box.
func joints(at, circuit string) map[observation.Wire]Node {
	return map[observation.Wire]Node{hot: feedJoint(at, circuit, hot), neutral: feedJoint(at, circuit, neutral), egc: Box(at, egc)}
}

func cable(circuit, from, to, kind string, length quantity.Feet, role Role) Run {
	return Run{Circuit: circuit, From: from, To: to, Role: role, Conductors: conductors(kind, 1), Size: gauge(kind), Length: length}
}

// copper are the faults that change what is connected to what. Lengths that the
// tables do not give follow their rule: |dx| + |dy| + |dz| and 6 ft, home runs
// and 12 ft.
var copper = map[string]func() []Change{
	"X01": multiwireOnOneLeg,
	"X02": func() []Change { return []Change{ExchangeScrews{Yoke{"A02-02", 1}, "common", "traveler 1"}} },
	"X03": func() []Change { return []Change{ExchangeScrews{Yoke{"A06-02", 1}, "traveler 2", "traveler 3"}} },
	"X04": func() []Change { return []Change{PolarityReversing{"S48"}} },
	"X05": func() []Change {
		return []Change{JoinNodes{feedJoint("A12-01", "A1-32", neutral), feedJoint("A12-01", "A2-07", neutral)}}
	},
	"X06": func() []Change {
		return []Change{GroundAsTraveler{Between{"C04-01", "C05-01"}, Yoke{"C04-01", 2}, Yoke{"C05-01", 2}}}
	},
	"X07": tappedLights,
	"X08": func() []Change {
		return []Change{
			Divert{Run: Between{"A04-02", "A05-06"}, Via: "J1", Splice: "splice", To: 11, Rest: 39},
			Lay{Run: cable("A1-21", "J1", "A04-05", "12/2", 9, Feed),
				From: map[observation.Wire]Node{hot: Spliced("J1", "splice", hot), neutral: Spliced("J1", "splice", neutral), egc: Spliced("J1", "splice", egc)},
				To:   map[observation.Wire]Node{hot: Box("A04-05", hot), neutral: Box("A04-05", neutral), egc: Box("A04-05", egc)}},
		}
	},
	"X09": func() []Change { return []Change{CutRun{Between{"A1", "A04-05"}, 17}} },
	"X10": func() []Change { return []Change{Leak{Between{"A19-04", "A19-05"}, 30e3}} },
	"X11": hiddenLiveEnd,
	"X12": func() []Change {
		return []Change{OpenSplice{Between{"B03-02", "B03-03"}, "B03-02", egc}, JoinNodes{Box("B03-03", neutral), Box("B03-03", egc)},
			JoinNodes{Box("B03-04", neutral), Box("B03-04", egc)}}
	},
	"X13": func() []Change { return []Change{ExchangeEnds{"D02-03", hot, neutral}} },
	"X14": func() []Change { return []Change{OpenSplice{Between{"A15-04", "A15-05"}, "A15-04", neutral}} },
	"X15": func() []Change { return []Change{OpenSplice{Between{"A02-08", "A02-10"}, "A02-08", egc}} },
	"X23": passThrough,
	"X24": func() []Change {
		return []Change{Conductors{Run: Between{"D1", "B1"}, Wires: []observation.Wire{hot, HotTwo, neutral}}, JoinNodes{NeutralBar("B1"), GroundBar("B1")}}
	},
	"X25": func() []Change { return []Change{Conductors{Run: Between{"A1", "C1"}, Size: "8"}} },
	"X29": func() []Change { return []Change{JoinNodes{NeutralBar("A1"), GroundBar("A1")}} },
	"X30": func() []Change {
		return []Change{Land{Between{"D1", "D05-04"}, hot, SpaceAt{"D1", 2}}, Land{Between{"D1", "D05-04"}, HotTwo, SpaceAt{"D1", 4}},
			Land{Between{"D1", "D01-11"}, hot, SpaceAt{"D1", 37}}, Land{Between{"D1", "D01-11"}, HotTwo, SpaceAt{"D1", 39}}}
	},
	"X36": func() []Change {
		return []Change{Conductors{Run: Between{"A1", "A09-03"}, Wires: []observation.Wire{hot, HotTwo, egc}}}
	},
	"X37": func() []Change { return []Change{Conductors{Run: Between{"A1", "A03-13"}, Size: "8"}} },
	"X38": func() []Change { return []Change{Leak{Between{"A02-04", "A02-05"}, 800e3}} },
	"X39": func() []Change { return []Change{FrameBond{"GEN"}} },
}

func multiwireOnOneLeg() []Change {
	multi := cable("A1-18", "A1", "A03-03", "12/3", 66, HomeRun)
	return []Change{
		TakeOut{Between{"A1", "A03-03"}}, TakeOut{Between{"A1", "A03-05"}},
		Lay{Run: multi,
			From: map[observation.Wire]Node{hot: SpaceAt{"A1", 18}.Node(), HotTwo: SpaceAt{"A1", 22}.Node(), neutral: NeutralBar("A1"), egc: GroundBar("A1")},
			To: map[observation.Wire]Node{hot: feedJoint("A03-03", "A1-18", hot), HotTwo: Spliced("A03-03", "red", hot),
				neutral: feedJoint("A03-03", "A1-18", neutral), egc: Box("A03-03", egc)}},
		Lay{Run: cable("A1-20", "A03-03", "A03-05", "12/2", 16, Feed),
			From: map[observation.Wire]Node{hot: Spliced("A03-03", "red", hot), neutral: feedJoint("A03-03", "A1-18", neutral), egc: Box("A03-03", egc)},
			To:   joints("A03-05", "A1-20")},
		Land{Between{"A1", "A03-09"}, hot, SpaceAt{"A1", 20}},
	}
}

func tappedLights() []Change {
	return []Change{
		TakeOut{Between{"A1", "A11-01"}}, TakeOut{Between{"A11-01", "A10-01"}},
		Lay{Run: cable("A1-39", "A1", "A10-01", "14/2", 58, HomeRun),
			From: map[observation.Wire]Node{hot: SpaceAt{"A1", 39}.Node(), neutral: NeutralBar("A1"), egc: GroundBar("A1")},
			To:   joints("A10-01", "A1-39")},
		Lay{Run: cable("A1-38", "A11-02", "A11-01", "14/2", 27, Feed), From: joints("A11-02", "A1-38"), To: joints("A11-01", "A1-39")},
	}
}

func hiddenLiveEnd() []Change {
	there := map[observation.Wire]Node{hot: Spliced("A16-05", "brown", hot), neutral: Spliced("A16-05", "brown", neutral), egc: Box("A16-05", egc)}
	return []Change{
		Lay{Run: cable("A2-03", "A14-03", "A16-05", "12/2", 27, Feed), From: joints("A14-03", "A2-03"), To: there},
		Lay{Run: cable("A2-03", "A16-05", "west knee wall", "12/2", 14, Feed), From: there},
	}
}

// passThrough leads three circuits of A1 through the cabinet of A2.
func passThrough() []Change {
	ties := func(w ...observation.Wire) map[observation.Wire]Node {
		out := map[observation.Wire]Node{}
		for _, x := range w {
			out[x] = Spliced("A2", "A1-49", x)
		}
		return out
	}
	all := []observation.Wire{hot, HotTwo, neutral, egc}
	far := joints("A15-10", "A1-49")
	far[HotTwo] = feedJoint("A15-10", "A1-49", HotTwo)
	return []Change{
		Divert{Run: Between{"A12-01", "A12-02"}, Via: "A2", Splice: "A1-32", To: 19, Rest: 40},
		Divert{Run: Between{"A01-04", "A12-03"}, Via: "A2", Splice: "A1-36", To: 43, Rest: 38},
		Divert{Run: Between{"A12-09", "A14-06"}, Via: "A2", Splice: "A1-49", To: 32, Rest: 27},
		TakeOut{Between{"A14-06", "A15-10"}},
		Lay{Run: cable("A1-49", "A2", "A15-10", "14/3", 28, Feed), From: ties(all...), To: far},
	}
}

// looks are the faults that are only to be seen.
var looks = map[string][]Change{
	"X16": nil, // the boxes are as designed: too small
	"X17": {Seen{[]string{"A06-04", "A06-05", "A06-06", "A06-07", "A06-08", "A06-09"}, func(l *Look) { l.FreeLength = 2 }}},
	"X18": {Seen{[]string{"A02-11"}, func(l *Look) { l.Setback = 1.125 }}, Seen{[]string{"A14-02", "A14-03"}, func(l *Look) { l.Setback = 0.375 }}},
	"X19": {Seen{[]string{"A11-05", "A16-09"}, func(l *Look) { l.Covered = true }}},
	"X20": {Seen{[]string{"A04-01", "A04-04"}, func(l *Look) { l.Unmarked = neutral }}},
	"X21": {SeenAtPanel{"A2", func(l *PanelLook) { l.DeadFrontGone, l.NameplateGone = true, true }}},
	"X22": {SeenAtPanel{"A2", func(l *PanelLook) { l.KnockoutsBroken, l.CablesInOneFitting = 2, 4 }}},
	"X26": {SeenAtPanel{"C1", func(l *PanelLook) { l.NoElectrode = true }}},
	"X27": {Underground{"F5", Way{StubShort: 11, Cover: 9, CoverOver: 40}}},
	"X28": {Underground{"F4", Way{Blocked: 62}}},
	"X31": {SeenAtPanel{"A1", func(l *PanelLook) { l.DoubleNeutrals = 7 }}},
	"X32": {Seen{[]string{"A15-08", "A15-09", "A17-05"}, func(l *Look) { l.BoxNotFor = "insulation contact" }}},
	"X33": {Seen{[]string{"A15-07"}, func(l *Look) { l.BoxNotFor = "a fan" }}},
	"X34": {Seen{[]string{"D01-01", "D05-02"}, func(l *Look) { l.HotIsGreen = true }}},
	"X35": {Seen{[]string{"C05-03"}, func(l *Look) { l.WetCable = true }}, SeenAtPanel{"C1", func(l *PanelLook) { l.NoGroundFault = append(slices.Clone(l.NoGroundFault), "C1-13") }}},
	"X40": {SeenAtPanel{"A2", func(l *PanelLook) { l.InClothesCloset = true }}},
}
