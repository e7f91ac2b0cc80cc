package sketch

import (
	"bufio"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"plinth/render/audio/bank"
)

var update = flag.Bool("update", false, "write testdata/figures.txt anew")

// ID is another when the bank sounds otherwise: pages keep notes by it. What the bank sounds like is held coarsely in
// testdata/figures.txt, so that another processor's last bits do not count.
func TestVersion(t *testing.T) {
	renders(t)
	path := filepath.Join("testdata", "figures.txt")
	var notes []bank.Note
	for _, row := range sampled {
		p := bank.Patch{Program: row.program, Drums: row.drums}
		for layer := range uint8(1 + len(layers(p, int(row.key)))) {
			notes = append(notes, bank.Note{Patch: p, Key: row.key, Layer: layer})
		}
	}
	var lines strings.Builder
	fmt.Fprintln(&lines, New().ID())
	got := map[string][4]float64{}
	for _, n := range notes {
		name, s := fmt.Sprintf("%d/%v/%d/%d", n.Program, n.Drums, n.Key, n.Layer), compute(n, bank.MaxFrames)
		f := figuresOf(s)
		got[name] = [4]float64{f.level, 20 * math.Log2(f.centroid), f.lost, 20 * math.Log2(float64(len(s.Left)))}
		fmt.Fprintf(&lines, "%s %.2f %.2f %.2f %.2f\n", name, got[name][0], got[name][1], got[name][2], got[name][3])
	}
	if *update {
		if err := os.WriteFile(path, []byte(lines.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	in := bufio.NewScanner(f)
	in.Scan()
	id := in.Text()
	changed := ""
	count := 0
	for in.Scan() {
		var name string
		var was [4]float64
		if _, err := fmt.Sscan(in.Text(), &name, &was[0], &was[1], &was[2], &was[3]); err != nil {
			t.Fatal(err)
		}
		now, ok := got[name]
		count++
		for i := range was {
			if !ok || math.Abs(was[i]-now[i]) > 0.5 {
				changed = fmt.Sprintf("%s was %.2f and is %.2f", name, was, now)
			}
		}
	}
	switch {
	case changed == "" && count == len(got) && id == New().ID():
	case id == New().ID():
		t.Errorf("The bank sounds otherwise (%s): raise version, then go test -run Version -update.", changed)
	default:
		t.Errorf("%s is for %s, the bank is %s: go test -run Version -update.", path, id, New().ID())
	}
}
