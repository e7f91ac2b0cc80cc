package main

import (
	"fmt"
	"io/fs"
	"math/rand"
	"path/filepath"
	"slices"
	"sync"

	"plinth/cmd/internal/bed"
	"plinth/groove"
	"plinth/groove/feel"
	"plinth/groove/library"
	"plinth/groove/load"
	"plinth/groove/score"
	"plinth/songspec/cue"
	"plinth/songspec/meter"
	"plinth/songspec/timeline"
)

// quarter and eighth are lengths in ticks.
const quarter, eighth = int64(meter.TicksPerQuarter), int64(meter.TicksPerQuarter) / 2

// song is a song and how it was performed.
type song struct {
	name    string
	written *performance    // as it is written
	again   *performance    // in another take
	flat    [6]*performance // at one energy from end to end, by energy; 0 is not used
}

// performance is one performance of a song.
type performance struct {
	timeline *timeline.Timeline
	passes   []*pass
}

// pass is a pass and what was played in it. Ticks count from its start.
type pass struct {
	*timeline.Pass
	cues  *cue.Cues
	score *score.Pass
	fills string  // the feel's family of fills
	walks [5]bool // by energy from 0: the feel's bass walks
	notes [][]note
}

// note is a note as it is played, at the place where it is written: at is unswung and has no
// drift, so that places are equal where a reader would call them so.
type note struct {
	at, end  int64 // end is at and the length that is played
	key      uint8
	velocity float64
	meant    *score.Note
}

// perform performs a song. With an energy, not 0, all of it is at that energy.
func perform(in *timeline.Timeline, feels *feel.Set, take, energy int) *performance {
	tl := *in
	tl.Take = take
	tl.Passes = slices.Clone(in.Passes)
	if energy > 0 {
		for i := range tl.Passes {
			p := &tl.Passes[i]
			p.EnergyFrom, p.EnergyTo = energy, energy
			p.Before, p.After = atEnergy(p.Before, energy), atEnergy(p.After, energy)
		}
	}
	timeline.VaryFills(tl.Passes, tl.Title, take)
	played := groove.Perform(&tl, feels)
	out := &performance{timeline: &tl}
	for i := range tl.Passes {
		part := &played.Passes[i]
		p := &pass{Pass: &tl.Passes[i], cues: part.Score.Cues, score: &part.Score,
			fills: feels.Feels[tl.Passes[i].Feel].Fills}
		for i, lv := range feels.Feels[p.Feel].Levels {
			p.walks[i] = slices.ContainsFunc(lv.Bass, func(s feel.BassStep) bool { return s.Degree == 'w' })
		}
		for who, notes := range part.Notes {
			meant := part.Score.Parts[who].Notes
			list := make([]note, 0, len(notes))
			for _, n := range notes {
				m := &meant[n.Meant]
				list = append(list, note{m.At, m.At + n.Length, n.Key, float64(n.Velocity), m})
			}
			slices.SortStableFunc(list, func(a, b note) int { return int(a.at - b.at) })
			p.notes = append(p.notes, list)
		}
		out.passes = append(out.passes, p)
	}
	return out
}

func atEnergy(n *timeline.Neighbour, energy int) *timeline.Neighbour {
	if n == nil {
		return nil
	}
	out := *n
	out.Energy = energy
	return &out
}

// performAll performs a song in every way that is measured.
func performAll(name string, tl *timeline.Timeline, feels *feel.Set) *song {
	s := &song{name: name, written: perform(tl, feels, tl.Take, 0), again: perform(tl, feels, tl.Take+1, 0)}
	for energy := 1; energy <= 5; energy++ {
		s.flat[energy] = perform(tl, feels, tl.Take, energy)
	}
	return s
}

// readSongs reads song files and performs them. Passes in other feels than the wanted ones
// are left out; none wanted is all.
func readSongs(paths, wanted []string) ([]*song, error) {
	var out []*song
	for _, path := range paths {
		res, err := bed.Load(bed.Request{Song: path})
		if err != nil {
			return nil, err
		}
		if res.Failed() {
			return nil, fmt.Errorf("%s: %v", path, res.Diags)
		}
		s := performAll(filepath.Base(path), res.Timeline, res.Feels)
		for _, p := range append(s.flat[1:], s.written, s.again) {
			p.passes = slices.DeleteFunc(p.passes, func(p *pass) bool {
				return len(wanted) > 0 && !slices.Contains(wanted, p.Feel)
			})
		}
		out = append(out, s)
	}
	return out, nil
}

// ownSongs makes songs in the wanted feels, all of them where none is wanted, and performs
// them.
func ownSongs(count int, seed int64, wanted []string) ([]*song, error) {
	entries := library.Index()
	if len(wanted) > 0 {
		entries = slices.DeleteFunc(entries, func(e library.Entry) bool { return !slices.Contains(wanted, e.Name) })
	}
	out, errs := make([]*song, count), make([]error, count)
	var wait sync.WaitGroup
	room := make(chan struct{}, 2)
	for i := range count {
		wait.Add(1)
		go func() {
			defer wait.Done()
			room <- struct{}{}
			defer func() { <-room }()
			text := chartText(rand.New(rand.NewSource(seed*1_000_003+int64(i))), entries[i%len(entries)])
			out[i], errs[i] = fromText(fmt.Sprintf("own-%d", i), text)
		}()
	}
	wait.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}

func fromText(name, text string) (*song, error) {
	in := load.Read(name, []byte(text), noFiles{})
	if in.Timeline == nil {
		return nil, fmt.Errorf("%s: %v\n%s", name, in.Diags, text)
	}
	return performAll(name, in.Timeline, in.Feels), nil
}

// noFiles is a folder without files.
type noFiles struct{}

func (noFiles) Open(name string) (fs.File, error) {
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}
