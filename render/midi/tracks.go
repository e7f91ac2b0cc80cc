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

// percussion is the channel that General MIDI has for it, 10, as it travels in the file.
const percussion = 9

// sound is what the track is played with.
func (t noteTrack) sound(s groove.Sound) sound {
	if t.channel == percussion {
		return kitSound(s.Kit)
	}
	return programSound(s.Program)
}

// playerTracks has a row for each player, by timeline.Player, which is the order in the
// file.
var playerTracks = [...]noteTrack{
	timeline.Drums: {"Drums", percussion},
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

// part is a track of notes in one song, before it is written.
type part struct {
	name    string
	channel uint8
	sounds  []timedSound // what it is played with, the first from the start
	notes   []groove.Note
}

// trackParts are the tracks after the first, in the order of the file. A player who never
// plays keeps his track, so that the tracks after it keep their places.
func trackParts(perf *groove.Performance) []part {
	var out []part
	add := func(t noteTrack, sounds []groove.Sound, notes []groove.Note) {
		p := part{name: t.name, channel: t.channel, notes: notes}
		for _, s := range sounds {
			p.sounds = append(p.sounds, timedSound{s.Tick, t.sound(s)})
		}
		if p.sounds == nil {
			p.sounds = []timedSound{{0, t.sound(groove.Sound{})}}
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
