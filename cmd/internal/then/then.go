// Package then takes a command line of the user and runs it again and again, with its
// output passed on: never two runs at once, and the newest wins. The command comes from
// plinth's own command line, never from a song file.
package then

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"sync"
	"time"
)

// patience is how long a command may take to end when it is asked to, before it is killed.
const patience = 2 * time.Second

// Runner runs one command line.
type Runner struct {
	line string
	out  io.Writer

	mu   sync.Mutex
	stop context.CancelFunc // ends the command that runs; nil while none does
	next bool               // run once more when it has ended
	shut bool
	idle sync.WaitGroup
}

// New returns a runner for a command line of the system's shell. The command's output goes
// to out with a mark in front of each line. out is written to from other goroutines, one
// whole line a call.
func New(line string, out io.Writer) *Runner { return &Runner{line: line, out: out} }

// Start runs the command. If it still runs, it is ended first, with all that it started;
// however often Start is called meanwhile, the command runs once after that.
func (r *Runner) Start() {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.shut {
		return
	}
	if r.stop != nil {
		r.next = true
		r.stop()
		return
	}
	r.launchLocked()
}

// launchLocked runs the command in the background. The caller holds r.mu.
func (r *Runner) launchLocked() {
	ctx, stop := context.WithCancel(context.Background())
	r.stop = stop
	r.idle.Add(1)
	go func() {
		defer r.idle.Done()
		r.run(ctx)
		stop()
		r.mu.Lock()
		defer r.mu.Unlock()
		r.stop = nil
		if r.next && !r.shut {
			r.next = false
			r.launchLocked()
		}
	}()
}

// Close ends a running command and waits for it. After Close nothing runs.
func (r *Runner) Close() {
	r.mu.Lock()
	r.shut = true
	if r.stop != nil {
		r.stop()
	}
	r.mu.Unlock()
	r.idle.Wait()
}

// run runs the command once and says how it ended.
func (r *Runner) run(ctx context.Context) {
	out := &lineMarker{to: r.out}
	err := r.runShell(ctx, out)
	if len(out.line) > 0 { // the last one has no end
		out.flushLine()
	}
	var exit *exec.ExitError
	switch {
	case ctx.Err() != nil:
		r.mu.Lock()
		newer := r.next
		r.mu.Unlock()
		if newer {
			out.say("stopped for the newer one")
		}
	case errors.As(err, &exit):
		out.say(fmt.Sprintf("ended with %v", exit))
	case err != nil:
		out.say(err.Error())
	}
}

// runShell runs the command until it has ended and nobody has its output open any more, so
// that what it left behind can still print. When ctx is done, all of it is ended.
func (r *Runner) runShell(ctx context.Context, out io.Writer) error {
	// os/exec's own pipe would cut off the output of what the shell leaves behind.
	from, to, err := os.Pipe()
	if err != nil {
		return err
	}
	defer from.Close()
	cmd, sweep := shell(ctx, r.line)
	cmd.Stdout, cmd.Stderr = to, to
	cmd.WaitDelay = patience
	err = cmd.Start()
	to.Close()
	if err != nil {
		return err
	}
	silent := make(chan struct{})
	go func() {
		defer close(silent)
		io.Copy(out, from) // ends with the last writer; an error changes nothing
	}()
	err = cmd.Wait()
	select {
	case <-silent:
	case <-ctx.Done():
	}
	if ctx.Err() == nil {
		return err
	}
	// Close waits for the sweep. The next command waits only until this one is silent.
	r.idle.Go(sweep)
	select {
	case <-silent:
	case <-time.After(patience + patience/2):
		// A process that has left the group, and could not be killed, holds the output.
		from.Close()
		<-silent
	}
	return err
}

// mark stands before each line that a command prints.
const mark = "  then | "

// longest is how many bytes of a line are kept while its end has not come.
const longest = 4 << 10

// lineMarker passes on whole lines with a mark in front of each.
type lineMarker struct {
	to   io.Writer
	line []byte
}

// Write is called by one goroutine: both of a command's outputs are one pipe.
func (m *lineMarker) Write(p []byte) (int, error) {
	for _, b := range p {
		if b == '\n' {
			m.flushLine()
			continue
		}
		if m.line = append(m.line, b); len(m.line) >= longest {
			m.flushLine()
		}
	}
	return len(p), nil
}

// flushLine passes on the line that was kept.
func (m *lineMarker) flushLine() {
	line := bytes.TrimRight(m.line, "\r")
	m.say(string(line))
	m.line = m.line[:0]
}

// say writes one line in one call.
func (m *lineMarker) say(line string) { io.WriteString(m.to, mark+line+"\n") }
