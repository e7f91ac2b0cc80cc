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

// usageOf reads /proc, so it works only on Linux.
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
	tasks, err := os.ReadDir(dir + "task")
	if err != nil {
		return u, err
	}
	for _, t := range tasks {
		// The first figure is the time on a processor in nanoseconds
		// (Documentation/scheduler/sched-stats.rst of the Linux kernel).
		sched, err := os.ReadFile(dir + "task/" + t.Name() + "/schedstat")
		if err != nil {
			return u, err
		}
		first, _, _ := strings.Cut(string(sched), " ")
		n, err := strconv.ParseInt(first, 10, 64)
		if err != nil {
			return u, err
		}
		u.processor += time.Duration(n)
	}
	return u, nil
}
