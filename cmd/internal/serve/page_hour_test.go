package serve

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

type shape struct {
	Off      float64 `json:"off"`
	Choke    float64 `json:"choke"`
	Recalled bool    `json:"recalled"`
	Held     float64 `json:"held,omitempty"` // seconds of which there is sound; 0: all
}

// A note has the gain of its touch, (v/127)² (common practice, no single source), an exponential release, and is
// choked by the next of its class (SoundFont 2.04, 8.1.3, generator 57) in 5 ms. A note that is called back
// chokes nobody. One that is held for longer than there is sound of it fades before that is cut off.
func TestPageShapesANote(t *testing.T) {
	s := playing(t)
	w := bare(t, chromium(t), s)
	w.file("hour.js")
	for name, x := range map[string]shape{
		"choked while held":      {Off: 0.5, Choke: 0.3},
		"choked while it fades":  {Off: 0.29, Choke: 0.3},
		"released":               {Off: 0.3, Choke: 0.9},
		"called back, then held": {Off: 0.5, Choke: 0.3, Recalled: true},
		"called back, released":  {Off: 0.2, Choke: 0.3, Recalled: true},
		"longer than its sound":  {Off: 0.6, Choke: 0.9, Held: 0.2},
		"shorter than its sound": {Off: 0.2, Choke: 0.9, Held: 0.3},
	} {
		// A release is over at -80 dB, and a fade is made of straight lines.
		if far := call[float64](w, "shaped", x); far > 1e-3 {
			t.Errorf("%s: %v off", name, far)
		}
	}
}

// An hour of playing with 200 saves: nothing grows. The clock is that of an offline context; what is counted are
// its notes, the entries of all lists and maps, and what the browser's collector has left of the nodes.
func TestPageAnHourDoesNotGrow(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long")
	}
	const seconds, saves = 3600, 200
	s := playing(t)
	w := bare(t, chromium(t), s)
	w.file("swap.js")
	w.file("hour.js")
	texts := []string{pushed, changedPushed,
		strings.Replace(pushed, "| C | Am | F | G |", "| C | E7 | Am | F | G |", 1)}
	for i, text := range texts {
		saved(t, s, text, fmt.Sprint(i))
		call[int](w, "next", fmt.Sprint(i))
	}
	save := func(_ context.Context, i int) (int, error) {
		saved(t, s, texts[i%len(texts)], fmt.Sprint("save ", i))
		return i, nil
	}
	if err := chromedp.Do(w.ctx, chromedp.ExposeFunc("saveOne", save)); err != nil {
		t.Fatal(err)
	}
	w.do(`globalThis.save = async (i) => {
		await saveOne(i);
		while (T.states.at(-1)?.says !== "save " + i) await new Promise((go) => setTimeout(go, 1));
		return i;
	}`)
	got := call[struct {
		Counts                    []map[string]float64
		Heard, Ons, Late, Missing int
	}](w, "hour", seconds, saves)
	nodes := w.living("AudioBufferSourceNode") + w.living("GainNode")
	t.Logf("%d notes, %d swaps; %d nodes are left; %v", got.Ons, got.Heard, nodes, got.Counts)
	if nodes > 100 {
		t.Errorf("%d nodes of %d notes are left", nodes, got.Ons)
	}
	if got.Ons < 30_000 || got.Heard < saves-2 || got.Late > 0 || got.Missing > 0 || len(got.Counts) != 6 {
		t.Errorf("%d notes, %d swaps, %d late, %d missing", got.Ons, got.Heard, got.Late, got.Missing)
	}
	for name, first := range got.Counts[1] { // in the first sixth not all three songs were heard
		for i, part := range got.Counts[2:] {
			if part[name] > 1.1*first+2 {
				t.Errorf("%s: %v in the second sixth, %v in sixth %d", name, first, part[name], i+3)
			}
		}
	}
}
