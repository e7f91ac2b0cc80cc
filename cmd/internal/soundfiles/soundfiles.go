// Package soundfiles takes a song that was built and a bank of sounds and adds the song's sound files to those
// that are written: the mix as WAVE and as FLAC, and a stem for each part that is heard.
package soundfiles

import (
	"errors"
	"fmt"
	"io"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"plinth/cmd/internal/bed"
	"plinth/cmd/internal/files"
	"plinth/render/audio"
	"plinth/render/audio/bank"
	"plinth/render/heard"
	"plinth/songspec/timeline"
	"plinth/songspec/wording"
)

// NotHeardError is the error for a choice that the song does not have.
type NotHeardError struct{ err error }

func (e *NotHeardError) Error() string { return e.err.Error() }

// Made is what came of it.
type Made struct {
	Mix    string   // the WAVE file's name
	stems  []string // names of parts
	folder string   // of the stems
	frames int
}

// Add adds the sound files of a song that was built to a set. tell is told what is being done. The error is a
// *NotHeardError, or one of the disk.
func Add(set *files.Set, res *bed.Result, b bank.Bank, who audio.Choice, tell func(text string)) (*Made, error) {
	song := heard.Of(res.Timeline, res.Performance)
	if err := who.Check(song); err != nil {
		return nil, &NotHeardError{err}
	}
	name := strings.TrimSuffix(res.Outputs[0].Name, filepath.Ext(res.Outputs[0].Name))
	made := &Made{Mix: name + ".wav", folder: name + ".stems"}
	mixed, err := audio.Mix(song, b, audio.Options{Choice: who, Progress: func(share float64) {
		tell(fmt.Sprintf("%s: %d %%", made.Mix, int(100*share)))
	}})
	if err != nil {
		return nil, &NotHeardError{err}
	}
	switch {
	case len(mixed.Stems) > 0:
	case len(who.Solo)+len(who.Mute) > 0:
		return nil, &NotHeardError{errors.New("nobody is left to be heard")}
	default:
		return nil, &NotHeardError{errors.New("nobody plays in this song: there is nothing to be heard")}
	}
	made.frames = len(mixed.Mix.Left)
	// The mix is written while the stems are made.
	written := make(chan error, 1)
	go func() {
		err := set.Stream(made.Mix, func(w io.WriteSeeker) error { return audio.WAV(w, mixed.Mix) })
		if err == nil {
			err = set.Stream(name+".flac", func(w io.WriteSeeker) error { return audio.FLAC(w, mixed.Mix) })
		}
		written <- err
	}()
	err = made.addStems(set, mixed, song, tell)
	if e := <-written; e != nil {
		err = e
	}
	return made, err
}

// fleeting are the stems of those who come and go with the song's first bars.
var fleeting = []string{"Click", "Pitch"}

// addStems adds the stems, one after another. Those of an earlier build that are not heard now go: they
// would not add up with the others.
func (m *Made) addStems(set *files.Set, mixed *audio.Mixed, song *heard.Song, tell func(string)) error {
	names := stemNames(song)
	next := 0
	for i := range song.Parts {
		file := path.Join(m.folder, names[i]+".wav")
		if next == len(mixed.Stems) || mixed.Stems[next].Part != i {
			set.Drop(file)
			continue
		}
		tell(file)
		stem := mixed.Stem(next)
		if err := set.Stream(file, func(w io.WriteSeeker) error { return audio.WAV(w, stem) }); err != nil {
			return err
		}
		next++
		m.stems = append(m.stems, song.Parts[i].Name)
	}
	for _, old := range fleeting {
		if !slices.ContainsFunc(names, func(name string) bool { return strings.EqualFold(name, old) }) {
			set.Drop(path.Join(m.folder, old+".wav"))
		}
	}
	return nil
}

// stemNames are the names of the parts' files, without their end.
func stemNames(song *heard.Song) []string {
	names := make([]string, len(song.Parts))
	for i, p := range song.Parts {
		names[i] = p.Name
	}
	return bed.FileNames(names, "singer")
}

// Summary says in one line what was made: how long, which files, who is heard.
func (m *Made) Summary() string {
	return fmt.Sprintf("%s, with %s and %s in %s: %s", timeline.MinSec(int64(m.frames)*1_000_000/bank.Rate),
		strings.TrimSuffix(m.Mix, ".wav")+".flac", wording.Count(len(m.stems), "stem"), m.folder, wording.And(m.stems))
}
