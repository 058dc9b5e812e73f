package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"asfound/journal"
	"asfound/journal/bundle"
)

type exportCommand struct {
	Job string `arg:"" help:"The job file."`
	To  string `arg:"" help:"A new or empty folder, or a new file ending in .zip."`
}

// Help is an example.
func (exportCommand) Help() string {
	return "Example: asfound export 'Pellam Point.job' pellam-point.zip"
}

// Run writes the job as plain files.
func (c exportCommand) Run(p *program) error {
	store, err := openStore(c.Job, p.now)
	if err != nil {
		return err
	}
	defer store.Close()
	if isZip(c.To) {
		err = exportZip(store, c.To)
	} else {
		err = bundle.Export(store, c.To)
	}
	if err != nil {
		return err
	}
	p.say("Wrote the whole job to %s.", c.To)
	return nil
}

func isZip(path string) bool { return strings.EqualFold(filepath.Ext(path), ".zip") }

// exportZip writes a zip and takes it away again when it is not whole.
func exportZip(store journal.Store, path string) error {
	file, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if errors.Is(err, os.ErrExist) {
		return misuse{fmt.Sprintf("There is a file %s already. Name a new one.", path)}
	}
	if err != nil {
		return fmt.Errorf("export: %w", err)
	}
	err = errors.Join(bundle.ExportZip(store, file), file.Sync(), file.Close())
	if err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}
