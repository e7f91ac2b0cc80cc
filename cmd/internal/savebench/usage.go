package main

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"time"
)

// usage is what a process uses.
type usage struct {
	memory    int // KiB in memory
	files     int
	threads   int
	processor time.Duration
}

// tick is the unit of processor time in /proc on every Linux machine in use.
const tick = 10 * time.Millisecond

// usageOf reads /proc, so it works on Linux alone.
func usageOf(pid int) (usage, error) {
	var u usage
	dir := fmt.Sprintf("/proc/%d/", pid)
	status, err := os.ReadFile(dir + "status")
	if err != nil {
		return u, fmt.Errorf("what a process uses is read from /proc: %w", err)
	}
	for _, line := range strings.Split(string(status), "\n") {
		name, value, _ := strings.Cut(line, ":")
		n, _ := strconv.Atoi(strings.TrimSuffix(strings.TrimSpace(value), " kB"))
		switch name {
		case "VmRSS":
			u.memory = n
		case "Threads":
			u.threads = n
		}
	}
	entries, err := os.ReadDir(dir + "fd")
	if err != nil {
		return u, err
	}
	u.files = len(entries)
	stat, err := os.ReadFile(dir + "stat")
	if err != nil {
		return u, err
	}
	_, rest, _ := strings.Cut(string(stat), ") ")
	fields := strings.Fields(rest)
	if len(fields) < 13 {
		return u, fmt.Errorf("%sstat has %d fields", dir, len(fields))
	}
	for _, f := range fields[11:13] { // utime and stime: fields 14 and 15 of proc(5)
		n, err := strconv.Atoi(f)
		if err != nil {
			return u, err
		}
		u.processor += time.Duration(n) * tick
	}
	return u, nil
}
