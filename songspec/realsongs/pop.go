// Package realsongs is for tests: songs of open data sets, as people have played them and others
// have analysed them. The data are no part of the project; a test says where they lie.
package realsongs

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"path"
)

// PopSong is a song of the POP909 data set (MIT licence) with its reviewed chords, as a folder of
// pop909-dev has it in truth.json, beside its vocal and piano in MIDI.
type PopSong struct {
	Files fs.FS   `json:"-"` // that folder
	ID    string  `json:"id"`
	Meter string  `json:"meter"` // "4/4"
	Tempo float64 `json:"tempo_bpm"`
	Keys  []struct {
		Key string `json:"key"` // "Gb major"
	} `json:"keys"`
	Sections struct {
		Labels []struct {
			Label string
			Bar   int // from 1
		} `json:"human_label1"`
	} `json:"sections"`
	Bars []struct {
		Chords []PopChord `json:"chords"`
	} `json:"bars"`
}

// PopChord is a chord in a bar: where it begins, from 1, and how long it lasts, both in units of
// the meter.
type PopChord struct {
	Beat    float64 `json:"beat"`
	Beats   float64 `json:"beats"`
	Root    string  `json:"root"`
	Quality string  `json:"quality"`
	Bass    string  `json:"bass"`
}

// popQualities are the data set's words as suffixes of a symbol. Its "other" has a bass and no chord.
var popQualities = map[string]string{"maj": "", "min": "m", "7": "7", "maj7": "maj7", "min7": "m7", "sus2": "sus2",
	"sus4": "sus4", "7sus4": "7sus4", "dim": "dim", "hdim7": "m7b5", "minmaj7": "m(maj7)"}

// Symbol is the chord as a chart has it; ok is false for one that has no symbol.
func (c *PopChord) Symbol() (symbol string, ok bool) {
	suffix, ok := popQualities[c.Quality]
	if !ok {
		return "", false
	}
	if c.Bass != c.Root {
		suffix += "/" + c.Bass
	}
	return c.Root + suffix, true
}

// PopSongs reads the songs of the folder pop909-dev, in order. It is an error if there is none.
func PopSongs(data fs.FS) ([]*PopSong, error) {
	songs, folders, err := read[PopSong](data, "pop909-dev")
	for i := range songs {
		if songs[i].Files, err = fs.Sub(data, folders[i]); err != nil {
			return nil, err
		}
	}
	return songs, err
}

// read reads the songs of a data set, in order, each from the file truth.json of a folder of its own. It is
// an error if there is none.
func read[T any](data fs.FS, set string) (songs []*T, folders []string, err error) {
	files, err := fs.Glob(data, set+"/*/truth.json")
	if err == nil && len(files) == 0 {
		err = fmt.Errorf("there are no songs in %s", set)
	}
	if err != nil {
		return nil, nil, err
	}
	for _, file := range files {
		text, err := fs.ReadFile(data, file)
		if err != nil {
			return nil, nil, err
		}
		s := new(T)
		if err := json.Unmarshal(text, s); err != nil {
			return nil, nil, fmt.Errorf("%s: %w", file, err)
		}
		songs, folders = append(songs, s), append(folders, path.Dir(file))
	}
	return songs, folders, nil
}
