package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"strings"
	"syscall"
	"time"
)

// listening is how a command is reached.
type listening struct {
	Addr   string `default:"127.0.0.1:7373" help:"Address and port to listen on."`
	NoOpen bool   `help:"Do not open a browser."`
}

// How long a request may take. A photograph of the largest size over a slow
// radio (2 Mbit/s) takes two minutes.
const (
	headTime = 10 * time.Second
	readTime = 4 * time.Minute
	idleTime = 2 * time.Minute
	stopTime = 5 * time.Second
)

// serve answers requests until the program is stopped, then finishes those
// under way. page is what a browser is opened on.
func (l listening) serve(p *program, jobs *shelf, people []string, page string) error {
	listener, err := net.Listen("tcp", l.Addr)
	if err != nil {
		return sayListen(l.Addr, err)
	}
	at := listener.Addr().(*net.TCPAddr)
	server := &http.Server{Handler: newAdapter(jobs, people, p.now), ReadHeaderTimeout: headTime,
		ReadTimeout: readTime, WriteTimeout: readTime, IdleTimeout: idleTime}
	address := "http://" + net.JoinHostPort(reachableHost(at.IP), fmt.Sprint(at.Port)) + page
	fmt.Fprintln(p.out, address)
	p.say("Open this address in a browser. Stop with Ctrl-C.")
	if !at.IP.IsLoopback() {
		p.say("%s", sayReach(at))
	}
	if !l.NoOpen {
		openBrowser(address)
	}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	select {
	case err := <-failed:
		return fmt.Errorf("serve: %w", err)
	case <-p.ctx.Done():
	}
	p.say("Stopping.")
	return stop(server)
}

// stop lets requests under way finish, for a while.
func stop(server *http.Server) error {
	ctx, cancel := context.WithTimeout(context.Background(), stopTime)
	defer cancel()
	err := server.Shutdown(ctx)
	if errors.Is(err, context.DeadlineExceeded) {
		return server.Close()
	}
	return err
}

// sayListen puts into words why an address cannot be had.
func sayListen(addr string, err error) error {
	var wrong *net.AddrError
	var unknown *net.DNSError
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return fmt.Errorf("%s is in use, perhaps by another asfound: stop that one, or choose another port, such as --addr 127.0.0.1:7374", addr)
	case errors.Is(err, syscall.EACCES):
		return fmt.Errorf("this port needs more rights than you have: choose one above 1024, such as --addr 127.0.0.1:7373")
	case errors.As(err, &wrong), errors.As(err, &unknown), errors.Is(err, syscall.EADDRNOTAVAIL):
		return misuse{fmt.Sprintf("%s is no address of this laptop: give address and port, such as --addr 127.0.0.1:7373.", addr)}
	}
	return fmt.Errorf("listen on %s: %w", addr, err)
}

// reachableHost is where a browser on this laptop finds a listener on ip.
func reachableHost(ip net.IP) string {
	if ip.IsUnspecified() {
		return "127.0.0.1"
	}
	return ip.String()
}

// sayReach says who can come to a listener that others reach.
func sayReach(at *net.TCPAddr) string {
	where := []string{at.String()}
	if at.IP.IsUnspecified() {
		where = ownAddresses(at.Port)
	}
	return fmt.Sprintf("Take care: everybody on this network can read this job and record in it, without a login, at %s. "+
		"What they send is not encrypted.", strings.Join(where, ", "))
}

// ownAddresses lists this laptop's addresses on its networks.
func ownAddresses(port int) []string {
	all, err := net.InterfaceAddrs()
	if err != nil {
		return []string{fmt.Sprintf("every address of this laptop, port %d", port)}
	}
	var out []string
	for _, a := range all {
		if ip, ok := a.(*net.IPNet); ok && !ip.IP.IsLoopback() && !ip.IP.IsLinkLocalUnicast() {
			out = append(out, net.JoinHostPort(ip.IP.String(), fmt.Sprint(port)))
		}
	}
	return out
}
