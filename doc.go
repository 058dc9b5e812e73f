// Package asfound is the map of the house; it holds no code of its own.
//
// asfound keeps every reading that two people take in a half-finished property,
// works out what all of them together establish, and says which reading to take
// next. One idea runs through it: an observation is never edited, and
// everything else is worked out from the observations, the same on every device
// and in any order of arrival.
//
// # Folders, lowest floor first
//
//   - quantity: volts, ohms, lengths, wire gauges and trade sizes; typed, parsed, printed.
//   - cite: a place in a published document: title, edition, section, table.
//   - paper: a sheet of lines, text and symbols, written as SVG; paper/pdf writes the same sheet as PDF,
//     and paper/photo makes photographs fit for it.
//   - observation: what someone saw, did or measured, one file for each kind.
//   - evidence: doubts, explanations, depth and standing: how firmly a statement stands.
//   - step: one thing to do: where, what, what to write down, when to stop, minutes, needs.
//   - table: published tables with their sources and typed look-ups; no arithmetic.
//   - list: a table that somebody typed or a spreadsheet saved, read record by record.
//   - pattern: tie groups, resistor sets, breaker words and check letters; knows no building.
//   - journal: the append-only record of observations, its chain and a store in memory;
//     journal/sqlite keeps it on disk, journal/bundle in plain files to carry, and
//     journal/journaltest is the suite every store must pass.
//   - installation: buildings, panels, openings and cables, folded from the observations.
//   - trace: which conductor, cable, feed and order are possible; plans and their decoding; steps to settle them.
//   - rule: requirements of the code as plain functions; they rank where to look.
//   - site: the one door: record an observation, ask for the site as found.
//   - ready: what can still be live at a place where somebody wants to work.
//   - drawing: panel faces, plans and the one-line on paper.
//   - count: how far it was read, openings by room, drawings against building.
//   - diary: what happened on one day, and what stood before and after it.
//   - days: what each person does next: steps ranked by certainty a minute, with the way to them.
//   - report: the sheets: directory, isolation, resistors, read-back, tour, tapes, door, locks,
//     helper's sheet, count, differences, plan, survey, the day, the take-over record.
//   - pellam: the demo property as designed and as it really is, and how people work there.
//   - scenario: made-up jobs with a hidden truth and people who make mistakes, for demo, practice and tests.
//   - web: pages and forms, one file for each page; knows neither the network nor the browser.
//   - cmd/asfound: the program on the laptop; wiring only.
//   - cmd/phone: the same pages in a phone's browser, alone for days; wiring only.
//   - tools/verify: every check and every test in one command.
//
// # Floors
//
// A package imports only from floors below its own. The floors, and who may use
// which outside module, are written in floors.txt, lowest first; a test reads
// the import lines and refuses the rest. Words have one meaning each: see
// docs/words.md, which a test enforces too.
//
// # Where to start reading
//
// Start with observation.Observation, then journal.Store, then package site:
// one reading on its way in. Then evidence and trace: what the readings
// together establish. The page that shows it is in web, its sheet in report.
package asfound
