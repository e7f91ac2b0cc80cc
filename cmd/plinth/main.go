// Plinth takes a song file and writes a band bed: drums, bass and piano comp as MIDI, to
// write an orchestra on top of.
package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
)

func main() {
	a := &app{
		in: os.Stdin, out: os.Stdout, err: os.Stderr,
		colorOut: takesColor(os.Stdout), colorErr: takesColor(os.Stderr), terminalErr: isTerminal(os.Stderr),
	}
	os.Exit(a.run(os.Args[1:]))
}

// Exit codes, as README.md of the folder cmd promises them.
const (
	done         = 0
	songWrong    = 1
	commandWrong = 2
	machineFails = 3
)

// app has what the commands share: the three streams, and which of the two outputs take
// colour. The answer to a command goes to out, everything else to err.
type app struct {
	in       io.Reader
	out, err io.Writer

	colorOut, colorErr bool
	terminalErr        bool // err is a terminal, whether or not it takes colour

	args []string // the command line
}

// failure is an error with its exit code. When err is nil, everything was said already.
type failure struct {
	code int
	err  error
}

func (f *failure) Error() string {
	if f.err == nil {
		return "reported already"
	}
	return f.err.Error()
}

func (f *failure) Unwrap() error { return f.err }

// reported ends a command that has shown its mistakes already.
func reported(code int) error { return &failure{code: code} }

// misuse is an error in the command line.
func misuse(format string, args ...any) error {
	return &failure{commandWrong, fmt.Errorf(format, args...)}
}

// machineFailure is an error of the disk or of the system.
func machineFailure(err error) error { return &failure{machineFails, err} }

// run runs a command line and returns its exit code.
func (a *app) run(args []string) (code int) {
	defer func() {
		if p := recover(); p != nil {
			fmt.Fprintf(a.err, "plinth: this is a mistake in plinth, not in your song. Nothing was changed. Please "+
				"report it with the song file and these lines:\n%v\n%s", p, debug.Stack())
			code = machineFails
		}
	}()
	out := &errorKeeper{to: a.out}
	a.out = out
	a.args = args
	root := a.rootCommand()
	root.SetArgs(args)
	err := root.Execute()
	f := &failure{code: done}
	if err != nil && !errors.As(err, &f) {
		// What cobra itself complains about is the command line.
		f = &failure{commandWrong, err}
	}
	if out.err != nil && (f.code < commandWrong || err == out.err) {
		f = &failure{machineFails, out.err}
	}
	if f.err != nil {
		fmt.Fprintf(a.err, "plinth: %v\n", f.err)
	}
	return f.code
}

// errorKeeper keeps the first error of a writer. What could not be written is a failure
// even where nobody looks at the error, as in help and in lists.
type errorKeeper struct {
	to  io.Writer
	err error
}

func (f *errorKeeper) Write(p []byte) (int, error) {
	n, err := f.to.Write(p)
	if f.err == nil {
		f.err = err
	}
	return n, err
}

// takesColor reports whether a stream takes colour: a terminal does, unless NO_COLOR is
// set (https://no-color.org) or the terminal is a dumb one.
func takesColor(f *os.File) bool {
	if os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" {
		return false
	}
	return isTerminal(f) && takesEscapes(f)
}

// isTerminal reports whether a stream is a terminal.
func isTerminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
