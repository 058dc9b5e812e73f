package main

import (
	"fmt"

	"asfound/journal"
)

type checkCommand struct {
	Job string `arg:"" help:"The job file."`
}

// Help is an example.
func (checkCommand) Help() string {
	return "Reads every event and photograph and follows each device's chain. Ends with 1 when a byte is not as recorded.\n\n" +
		"Example: asfound check 'Pellam Point.job'"
}

// Run checks the whole job.
func (c checkCommand) Run(p *program) error {
	store, err := openStore(c.Job, p.now)
	if err != nil {
		return err
	}
	defer store.Close()
	report, err := journal.Check(store)
	if err != nil {
		return err
	}
	fmt.Fprint(p.out, report)
	if !report.Whole() {
		p.say("This job was changed after it was recorded. Keep the file as it is, and import the others' exports into a new job.")
		return errFound
	}
	return nil
}
