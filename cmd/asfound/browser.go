package main

import (
	"os"
	"os/exec"
	"runtime"
)

// openBrowser tries to show an address. The address has been printed, so that a
// laptop without a browser, or with an odd one, loses nothing.
func openBrowser(address string) {
	name, args := opener(runtime.GOOS, os.Getenv)
	if name == "" {
		return
	}
	cmd := exec.Command(name, append(args, address)...)
	if cmd.Start() == nil {
		go cmd.Wait() //nolint:errcheck // nobody waits for a browser
	}
}

// opener is the program that shows addresses on a system; none on a Linux
// without a screen.
func opener(system string, env func(string) string) (name string, args []string) {
	switch system {
	case "darwin":
		return "open", nil
	case "windows":
		return "rundll32", []string{"url.dll,FileProtocolHandler"}
	}
	if env("DISPLAY") == "" && env("WAYLAND_DISPLAY") == "" {
		return "", nil
	}
	return "xdg-open", nil
}
