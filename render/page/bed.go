package page

import (
	"encoding/json"

	"plinth/groove"
	"plinth/render/audio"
	"plinth/render/audio/bank"
	"plinth/render/heard"
	"plinth/songspec/guide"
	"plinth/songspec/harmony"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// Bed is a built song as the page gets it.
type Bed struct {
	Timeline    *timeline.Timeline
	Performance *groove.Performance
	Chunks      []Chunk              // in order; where there are bars in front the first has them
	Notes       map[string]bank.Note // the bank's notes that the song plays, by noteName
	json        []byte               // what the state says of it: fields, without the braces round them
}

// Sounds are a bank and what a page is told of it.
type Sounds struct {
	Bank   bank.Bank
	Sketch bool // plinth computes it itself
}

// The objects of the state, with their fields in the order of the file.
type (
	bankJSON struct {
		ID     string `json:"id"`
		Name   string `json:"name"`
		Sketch bool   `json:"sketch"`
		Holds  []int  `json:"holds"` // seconds for which a note can be asked for
	}
	levelJSON struct {
		Gain json.Number `json:"gain"`
		Pan  json.Number `json:"pan"`
		Send json.Number `json:"send"`
	}
	partJSON struct {
		Who     string      `json:"who"`
		Name    string      `json:"name"`
		Channel uint8       `json:"channel"`
		Drums   bool        `json:"drums"`
		Sounds  []soundJSON `json:"sounds"`
	}
	soundJSON struct {
		At      int64  `json:"at"`
		Program uint8  `json:"program"`
		Name    string `json:"name"`
	}
	tempoJSON struct {
		Tick    int64 `json:"tick"`
		At      int64 `json:"at"`
		Quarter int64 `json:"quarter"`
	}
	placeJSON struct {
		Hash    string   `json:"hash"`
		Pass    int      `json:"pass"`
		Section string   `json:"section"`
		Ordinal int      `json:"ordinal"`
		Name    string   `json:"name"`
		At      int64    `json:"at"`
		Tick    int64    `json:"tick"`
		End     int64    `json:"end"`
		First   int      `json:"first"`
		Bars    int      `json:"bars"`
		Energy  [2]int   `json:"energy"`
		Key     string   `json:"key"`
		Feel    string   `json:"feel"`
		Tempo   string   `json:"tempo"`
		Meter   string   `json:"meter"`
		Lift    int      `json:"lift"`
		Tacet   []string `json:"tacet"`
		Vamp    string   `json:"vamp"`
		Pitch   []string `json:"pitch,omitempty"` // in front of bar 1: the singers' starting pitches
	}
	bedJSON struct {
		Bank   bankJSON    `json:"bank"`
		Levels []levelJSON `json:"levels"`
		Parts  []partJSON  `json:"parts"`
		Lead   int         `json:"lead"`
		End    int64       `json:"end"`
		Tempos []tempoJSON `json:"tempos"`
		Chunks []placeJSON `json:"chunks"`
	}
)

// NewBed makes a song ready for the page. It does not change the timeline or the performance, and keeps
// both.
func NewBed(tl *timeline.Timeline, perf *groove.Performance, sounds Sounds) *Bed {
	song := heard.Of(tl, perf)
	b := &Bed{Timeline: tl, Performance: perf, Notes: map[string]bank.Note{}}
	out := bedJSON{Bank: bankJSON{sounds.Bank.ID(), plain(sounds.Bank.Name()), sounds.Sketch, bank.Holds[:]},
		Lead: song.Lead, End: song.End}
	for _, p := range song.Parts {
		part := partJSON{Who: p.Who.String(), Name: plain(p.Name), Channel: p.Channel, Drums: p.Drums}
		for _, s := range p.Sounds {
			part.Sounds = append(part.Sounds, soundJSON{s.At, s.Program, s.Name})
		}
		out.Parts, out.Levels = append(out.Parts, part), append(out.Levels, levelOf(p.Who))
	}
	w := &writer{tl: tl, song: song, bank: sounds.Bank, clock: timeline.NewClock(tl.Tempos),
		known: map[bank.Patch]*struck{}}
	for _, t := range tl.Tempos {
		out.Tempos = append(out.Tempos, tempoJSON{t.Tick, w.clock.Micros(t.Tick), t.Micros})
	}
	names := tl.ShortNames()
	for _, s := range stretches(tl, song) {
		chunk := w.chunk(&s)
		place := w.place(&s, names)
		place.Hash = chunk.Hash
		chunk.print = hash([]byte(chunk.print), encode([]any{place.Energy, place.Key, place.Feel, place.Tempo,
			place.Meter, place.Tacet, place.Vamp}))
		b.Chunks, out.Chunks = append(b.Chunks, chunk), append(out.Chunks, place)
	}
	for _, n := range w.notes {
		b.Notes[noteName(n)] = n
	}
	text := encode(out)
	b.json = text[1 : len(text)-1]
	return b
}

// stretches parts a song into its chunks.
func stretches(tl *timeline.Timeline, song *heard.Song) []stretch {
	var out []stretch
	add := func(pass *timeline.Pass, first, bars int) {
		out = append(out, stretch{pass: pass, first: first, bars: song.Bars[first : first+bars],
			notes: make([][]*heard.Note, len(song.Parts))})
	}
	front := 0
	if song.Lead > 0 {
		front = 1
		add(nil, 0, song.Lead)
	}
	first := song.Lead
	for i := range tl.Passes {
		add(&tl.Passes[i], first, len(tl.Passes[i].Bars))
		first += len(tl.Passes[i].Bars)
	}
	for i := range song.Parts {
		notes := song.Parts[i].Notes
		for j := range notes {
			s := &out[front+song.Bars[notes[j].Bar].Pass]
			s.notes[i] = append(s.notes[i], &notes[j])
			s.count++
		}
	}
	return out
}

// place is where a stretch stands in the song, and what is said of it.
func (w *writer) place(s *stretch, names []string) placeJSON {
	p, last := s.pass, s.bars[len(s.bars)-1]
	out := placeJSON{Pass: -1, At: s.bars[0].At, Tick: s.bars[0].Tick, End: last.End, First: 1 - len(s.bars),
		Bars: len(s.bars), Tacet: []string{}}
	if p == nil {
		p = &w.tl.Passes[0]
		out.Pitch = startingPitches(w.song, p.Key)
	} else {
		out.Pass, out.Section, out.Ordinal = p.Index, plain(p.Section), p.Ordinal
		out.Name, out.First, out.Energy, out.Vamp = plain(names[p.Index]), p.FirstBar,
			[2]int{p.EnergyFrom, p.EnergyTo}, plain(p.Vamp)
		out.Tacet = append(out.Tacet, p.Tacet.Names()...)
		if out.Lift = p.Lift; p.Index > 0 {
			out.Lift -= w.tl.Passes[p.Index-1].Lift
		}
	}
	out.Key, out.Feel, out.Meter = p.Key.String(), plain(p.Feel), p.Meter.String()
	out.Tempo = w.tl.Played(p.Pace(), p.Start).String()
	return out
}

// startingPitches are the names of the pitches that the singers are given.
func startingPitches(song *heard.Song, in harmony.Key) []string {
	var out []string
	for _, p := range song.Parts {
		if p.Who == heard.Pitch {
			for _, n := range p.Notes {
				out = append(out, guide.PitchName(int(n.Key), in))
			}
		}
	}
	return out
}

// levelOf is how loud a part is, where it stands, and how much of it goes to the reverb.
func levelOf(w heard.Who) levelJSON {
	l := audio.LevelOf(w)
	return levelJSON{thousandths(l.Gain), thousandths(l.Pan), thousandths(l.Send)}
}

// thousandths is a figure of ours with three decimals at most.
func thousandths(x float64) json.Number {
	if x < 0 {
		return "-" + thousandths(-x)
	}
	return json.Number(wording.Thousandths(int64(x*1000 + 0.5)))
}
