package main

import (
	"os"
	"time"

	"github.com/rogpeppe/go-internal/testscript"
)

// waitfile FILE... waits until each file is there and not empty. A command in the
// background makes them.
func waitfile(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: waitfile FILE...")
	}
	for _, name := range args {
		// This limit is for a busy machine and does not measure the program.
		for end := time.Now().Add(2 * time.Minute); ; time.Sleep(5 * time.Millisecond) {
			if info, err := os.Stat(ts.MkAbs(name)); err == nil && info.Size() > 0 {
				break
			}
			if time.Now().After(end) {
				ts.Fatalf("%s does not come", name)
			}
		}
	}
}
