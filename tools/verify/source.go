package main

import (
	"context"
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
)

// eachFile parses every Go file below root that the go command would see.
func eachFile(root string, visit func(folder string, file *ast.File, test bool)) error {
	return filepath.WalkDir(root, func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		base := entry.Name()
		if entry.IsDir() {
			if name != root && (base == "testdata" || base[0] == '.' || base[0] == '_') {
				return fs.SkipDir
			}
			return nil
		}
		if filepath.Ext(base) != ".go" {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			return fmt.Errorf("read source: %w", err)
		}
		folder, err := filepath.Rel(root, filepath.Dir(name))
		if err != nil {
			return err
		}
		visit("./"+filepath.ToSlash(folder), file, strings.HasSuffix(base, "_test.go"))
		return nil
	})
}

// concurrentFolders lists the folders whose code starts goroutines or holds
// locks. The phone's own command is left out: it has no native build, and a
// browser gives it one thread.
func concurrentFolders(root string) ([]string, error) {
	var folders []string
	tested := map[string]bool{}
	err := eachFile(root, func(folder string, file *ast.File, test bool) {
		if test {
			tested[folder] = true
		} else if concurrent(file) && !slices.Contains(folders, folder) {
			folders = append(folders, folder)
		}
	})
	return slices.DeleteFunc(folders, func(folder string) bool {
		return !tested[folder] || folder == "./cmd/phone"
	}), err
}

func concurrent(file *ast.File) bool {
	for _, spec := range file.Imports {
		if spec.Path.Value == `"sync"` || spec.Path.Value == `"sync/atomic"` {
			return true
		}
	}
	found := false
	ast.Inspect(file, func(n ast.Node) bool {
		_, starts := n.(*ast.GoStmt)
		found = found || starts
		return !found
	})
	return found
}

// fuzzTarget is one fuzz test.
type fuzzTarget struct{ folder, name string }

// fuzzTargets lists the fuzz tests below root.
func fuzzTargets(root string) ([]fuzzTarget, error) {
	var targets []fuzzTarget
	err := eachFile(root, func(folder string, file *ast.File, test bool) {
		for _, decl := range file.Decls {
			fn, ok := decl.(*ast.FuncDecl)
			if ok && test && fn.Recv == nil && strings.HasPrefix(fn.Name.Name, "Fuzz") {
				targets = append(targets, fuzzTarget{folder, fn.Name.Name})
			}
		}
	})
	return targets, err
}

// runFuzz runs each target for a short time. An input that breaks one is
// written to its testdata folder by the go command, to be mended and kept.
func runFuzz(ctx context.Context) outcome {
	targets, err := fuzzTargets(".")
	if err != nil {
		return failed("", err)
	}
	var result outcome
	for _, target := range targets {
		_, all, err := command(ctx, nil, "go", "test", "-run=^$", "-fuzz=^"+target.name+"$", "-fuzztime=2s", target.folder)
		if err != nil {
			result.tests.failed++
			result.output += all + "\n"
		} else {
			result.tests.passed++
		}
	}
	if len(targets) == 0 {
		return failed("", errors.New("no fuzz target found"))
	}
	return result
}
