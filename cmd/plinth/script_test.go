package main

import (
	"bytes"
	"errors"
	"flag"
	"net"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"plinth/render/audio/soundfont/fonttest"
)

var update = flag.Bool("update", false, "write what the commands print into the scripts")

// The command line is tested by scripts, one a feature, in testdata/script.
func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"plinth": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		Setup:               takePort,
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		UpdateScripts:       *update,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"code": code,
			"fill": fill,
			"text": text,

			"soundfont": soundFont,

			"waitfile": waitfile,
		},
	})
}

// takePort takes a port for the time of a script, which has its number in TAKEN.
func takePort(env *testscript.Env) error {
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		return err
	}
	env.Defer(func() { l.Close() })
	env.Setenv("TAKEN", strconv.Itoa(l.Addr().(*net.TCPAddr).Port))
	return nil
}

// code N COMMAND... runs a command that must end with exit code N. What it prints
// is there for stdout and stderr, as after exec.
func code(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: code N COMMAND...")
	}
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Fatalf("%s: %v", args[1], err)
		}
		got = exit.ExitCode()
	}
	if strconv.Itoa(got) != args[0] {
		ts.Fatalf("exit code %d instead of %s", got, args[0])
	}
}

// fill FILE N TEXT writes a text N times. TEXT is as in a Go string.
func fill(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: fill FILE N TEXT")
	}
	n, err := strconv.Atoi(args[1])
	ts.Check(err)
	text, err := strconv.Unquote(`"` + args[2] + `"`)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), bytes.Repeat([]byte(text), n), 0o666))
}

// soundfont FILE writes a small SoundFont.
func soundFont(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: soundfont FILE")
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), fonttest.Small().Bytes(), 0o666))
}

// text FROM TO PREFIX OLD NEW copies a file with PREFIX before it and each OLD
// replaced. The last three are as in a Go string.
func text(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 5 {
		ts.Fatalf("usage: text FROM TO PREFIX OLD NEW")
	}
	var plain [3]string
	for i, s := range args[2:] {
		p, err := strconv.Unquote(`"` + s + `"`)
		ts.Check(err)
		plain[i] = p
	}
	s := plain[0] + strings.ReplaceAll(ts.ReadFile(args[0]), plain[1], plain[2])
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(s), 0o666))
}
