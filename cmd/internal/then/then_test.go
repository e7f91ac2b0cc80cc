//go:build unix

package then

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// page collects what is written, and sees that it comes in whole lines.
type page struct {
	t  *testing.T
	mu sync.Mutex
	b  strings.Builder
}

func (p *page) Write(data []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if !strings.HasPrefix(string(data), mark) || strings.Index(string(data), "\n") != len(data)-1 {
		p.t.Errorf("not one whole line: %q", data)
	}
	return p.b.Write(data)
}

func (p *page) String() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.b.String()
}

// hopeless is how long to wait for what must come. It is for a busy machine and does not
// measure the program.
const hopeless = 2 * time.Minute

func (p *page) waitFor(what string) {
	p.t.Helper()
	for end := time.Now().Add(hopeless); !strings.Contains(p.String(), what); time.Sleep(time.Millisecond) {
		if time.Now().After(end) {
			p.t.Fatalf("waited in vain for %q in %q", what, p.String())
		}
	}
}

func TestOutput(t *testing.T) {
	for _, c := range []struct{ name, why, line, want string }{
		{"two lines", "each has its mark", "echo one; echo two", "  then | one\n  then | two\n"},
		{"no end of line", "the rest is not lost", "printf end", "  then | end\n"},
		{"both outputs", "they come in order", "echo one; echo two >&2; echo three",
			"  then | one\n  then | two\n  then | three\n"},
		{"an exit code", "a failing command is told", "exit 3", "  then | ended with exit status 3\n"},
		{"no such command", "the shell says so", "lanterns-no-such-command 2>/dev/null",
			"  then | ended with exit status 127\n"},
		{"in the background", "what the shell leaves behind is heard to its end, and nothing is said of it",
			"(sleep 2.5; echo late) & echo at once", "  then | at once\n  then | late\n"},
		{"shell words", "it is the shell's line", "for i in 1 2; do echo $i; done | tail -1", "  then | 2\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := &page{t: t}
			r := New(c.line, p)
			r.Start()
			r.idle.Wait()
			if got := p.String(); got != c.want {
				t.Errorf("%q, want %q: %s", got, c.want, c.why)
			}
		})
	}
}

// However often it is started, never two run at once, and the last start runs to the end.
// Each run writes its process number and checks whether the one before is still alive; it
// ends slowly, so that a runner that does not wait is caught. A run keeps no lock in a file,
// because it may be ended while it makes one. It does not end by the clock, which could
// happen between two starts on a busy machine: it waits for a file that comes after the
// last start.
func TestNewestWins(t *testing.T) {
	dir := t.TempDir()
	last, gate := filepath.Join(dir, "last"), filepath.Join(dir, "gate")
	line := fmt.Sprintf(`trap 'sleep 0.02; exit' TERM
kill -0 "$(cat %[1]q)" 2>/dev/null && echo TWO
echo $$ > %[1]q
echo running
while [ ! -e %[2]q ]; do sleep 0.01; done
echo finished`, last, gate)
	p := &page{t: t}
	r := New(line, p)
	for i := 0; i < 30; i++ {
		r.Start()
		time.Sleep(time.Duration(i%5) * 7 * time.Millisecond)
	}
	if err := os.WriteFile(gate, nil, 0o666); err != nil {
		t.Fatal(err)
	}
	p.waitFor("finished")
	r.Close()
	if s := p.String(); strings.Contains(s, "TWO") || strings.Count(s, "finished") != 1 {
		t.Errorf("two at once, or not one whole run: %s", s)
	}
}

// All that a command started ends with it, even when it ignores being asked.
func TestEndsAll(t *testing.T) {
	for _, c := range []struct{ name, line string }{
		{"a child", "sleep 1000 & echo child $!; wait"},
		{"a child of a shell that has ended", "sleep 1000 & echo child $!"},
		{"a deaf and silent child", `(trap "" TERM; echo child $(exec sh -c 'echo $PPID'); exec >/dev/null 2>&1; ` +
			`while :; do sleep 1; done) & wait`},
		{"a deaf child", `(trap "" TERM; echo child $(exec sh -c 'echo $PPID'); while :; do sleep 1; done) & wait`},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := &page{t: t}
			r := New(c.line, p)
			r.Start()
			p.waitFor("child ")
			var pid int
			if _, err := fmt.Sscanf(strings.TrimPrefix(p.String(), mark), "child %d", &pid); err != nil {
				t.Fatal(err)
			}
			started := time.Now()
			r.Close()
			// plinth itself ends after Close, so a process that ignores being asked must
			// have been given its time and killed before.
			if took := time.Since(started); strings.Contains(c.name, "deaf") && took < patience {
				t.Errorf("the runner has waited for %v only", took)
			}
			for end := time.Now().Add(hopeless); alive(pid); time.Sleep(5 * time.Millisecond) {
				if time.Now().After(end) {
					t.Fatalf("process %d outlives the runner", pid)
				}
			}
			r.Start() // nothing after the end
			r.idle.Wait()
		})
	}
}

// alive reports whether a process runs. In /proc an ended child that nobody has waited for
// is a zombie.
func alive(pid int) bool {
	data, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return false
	}
	_, rest, _ := strings.Cut(string(data), ") ")
	return !strings.HasPrefix(rest, "Z")
}
