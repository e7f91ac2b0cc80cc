package midi

import (
	"plinth/groove"
	"plinth/songspec/timeline"
)

// noteTrack is a row of the track table: what a track of notes has in every file.
type noteTrack struct {
	name    string // exactly as it stands in the file
	channel uint8  // as it travels in the file, counted from 0
}

// Percussion is the channel that General MIDI has for it, 10, as it travels in the file.
const Percussion = 9

// sound is what the track is played with.
func (t noteTrack) sound(s groove.Sound) Instrument {
	if t.channel == Percussion {
		return kitSound(s.Kit)
	}
	return programSound(s.Program)
}

// playerTracks has a row for each player, by timeline.Player, which is the order in the
// file.
var playerTracks = [...]noteTrack{
	timeline.Drums: {"Drums", Percussion},
	timeline.Bass:  {"Bass", 1},
	timeline.Piano: {"Piano", 0},
}

// clickTrack is the last track, which only a song with a count-in has. It has a channel
// and a melodic sound of its own, not percussion keys on channel 10: several importers
// merge or rename two tracks on one channel.
var clickTrack = noteTrack{"Click", 2}

// trackAt is the row of a file's track by its index in the file. Track 0 has no notes and
// no row.
func trackAt(index int) noteTrack {
	if index > len(playerTracks) {
		return clickTrack
	}
	return playerTracks[index-1]
}

// Part is a track of notes in one song: what a file has of it, and what is heard.
type Part struct {
	Name    string        // exactly as in the file
	Channel uint8         // as it travels in the file, counted from 0
	Sounds  []Sound       // what it is played with, the first from the start
	Notes   []groove.Note // with the keys of the file
}

// Parts are the tracks after the first, in the order of the file. A player who never
// plays keeps his track, so that the tracks after it keep their places.
func Parts(perf *groove.Performance) []Part {
	var out []Part
	add := func(t noteTrack, sounds []groove.Sound, notes []groove.Note) {
		p := Part{Name: t.name, Channel: t.channel, Notes: notes}
		for _, s := range sounds {
			p.Sounds = append(p.Sounds, Sound{s.Tick, t.sound(s)})
		}
		if p.Sounds == nil {
			p.Sounds = []Sound{{0, t.sound(groove.Sound{})}}
		}
		out = append(out, p)
	}
	for who, t := range playerTracks {
		add(t, perf.Sounds[who], perf.Parts[who])
	}
	if len(perf.Click) > 0 {
		add(clickTrack, []groove.Sound{{Program: clickProgram}}, clickNotes(perf.Click))
	}
	return out
}
