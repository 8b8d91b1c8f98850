package main

import (
	"errors"
	"net"
	"os"
	"os/exec"
	"os/signal"
	"strings"
	"syscall"

	cli "kerfside/cmd/internal/command"
	"kerfside/cmd/internal/process"
)

// The address and the database that serve takes unless its flags say
// otherwise. 8480 is free of well-known services.
const (
	serveAddr = "localhost:8480"
	serveDB   = "kerfside.db"
)

// serve builds the wasm and the binary and runs it. Flags are those of
// "kerfside serve" and go through as they are.
func serve(args []string) error {
	addr := flagValue(args, "addr", serveAddr)
	if err := portFree(addr); err != nil {
		return err
	}
	binary := part{name: "binary", line: "./kerfside", run: func() error {
		return cmd("go", "build", stamped, "-o", "kerfside", "./cmd/kerfside").quiet()
	}}
	if err := setUp(partCompiler, partWasm, partBundle, binary); err != nil {
		return err
	}
	words := []string{"serve"}
	if !hasFlag(args, "addr") {
		words = append(words, "-addr", serveAddr)
	}
	if !hasFlag(args, "db") {
		words = append(words, "-db", serveDB)
	}
	words = append(words, args...)
	heading("./kerfside %s", strings.Join(words, " "))
	say("open http://%s; stop with Ctrl-C", addr)
	return runUntilSignal(exec.Command("./kerfside", words...))
}

// runUntilSignal runs the server, hands it our signals and waits until it has
// closed its database. Being stopped is no failure.
func runUntilSignal(server *exec.Cmd) error {
	server.Stdout, server.Stderr = os.Stdout, os.Stderr
	// A group of its own, or Ctrl-C would reach it twice.
	process.OwnGroup(server)
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	defer signal.Stop(signals)
	if err := server.Start(); err != nil {
		return err
	}
	done := make(chan error, 1)
	go func() { done <- server.Wait() }()
	stopped := false
	for {
		select {
		case s := <-signals:
			stopped = true
			if err := server.Process.Signal(s); err != nil {
				return err
			}
		case err := <-done:
			var ended *exec.ExitError
			if errors.As(err, &ended) && ended.ExitCode() == cli.Usage {
				return errMistyped
			}
			if err != nil && !stopped {
				return fail("kerfside stopped: "+err.Error(), "Read what it said above.")
			}
			return nil
		}
	}
}

// portFree says whether the address can be listened on. Port 0 always can.
func portFree(addr string) error {
	l, err := net.Listen("tcp", addr)
	if err == nil {
		return l.Close()
	}
	if errors.Is(err, syscall.EADDRINUSE) {
		return fail(addr+" is taken, perhaps by another kerfside",
			"Stop that one, or take another port: go run ./cmd/dev serve -addr localhost:8481")
	}
	return fail("cannot listen on "+addr+": "+err.Error(), "Give an address like localhost:8481 with -addr.")
}

// flagValue returns what args say for -name or --name, else the default.
func flagValue(args []string, name, def string) string {
	for i, a := range args {
		key, value, joined := strings.Cut(strings.TrimLeft(a, "-"), "=")
		if !strings.HasPrefix(a, "-") || key != name {
			continue
		}
		if joined {
			return value
		}
		if i+1 < len(args) {
			return args[i+1]
		}
	}
	return def
}

// hasFlag says whether args set -name.
func hasFlag(args []string, name string) bool {
	const unset = "\x00"
	return flagValue(args, name, unset) != unset
}
