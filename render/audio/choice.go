package audio

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"plinth/render/heard"
	"plinth/songspec/wording"
)

// Choice says who of a song is heard. The zero value is everybody, the click in front of bar 1 only.
type Choice struct {
	Solo []string // these alone; empty: everybody. A click that is named is heard all through the song
	Mute []string // without these
}

// calls reports whether a part is called so: by what plays it, or a singer by name.
func calls(name string, p *heard.Part) bool {
	return strings.EqualFold(name, p.Who.String()) || p.Who == heard.Guide && strings.EqualFold(name, p.Name)
}

// absent says of those whom not every song has why it has none.
var absent = map[string]string{
	heard.Click.String(): "the song has no click: count_in = 1 gives it one",
	heard.Guide.String(): "the song has no guide: a vocal block gives it one",
	heard.Pitch.String(): "the song gives no starting pitch: a singer who enters in the first two bars is given " +
		"one in the count-in",
}

// Check says which name of the choice is nobody's. A name that could be somebody's of another song, such as
// a click's, may be muted; who is to be heard alone must be there.
func (c Choice) Check(song *heard.Song) error {
	for _, name := range slices.Concat(c.Solo, c.Mute) {
		why, known := absent[strings.ToLower(name)]
		switch {
		case slices.ContainsFunc(song.Parts, func(p heard.Part) bool { return calls(name, &p) }):
			continue
		case known && slices.Contains(c.Solo, name):
			return errors.New(why)
		case known:
			continue
		}
		names := slices.Clone(heard.Names)
		for _, p := range song.Parts {
			if p.Who == heard.Guide && !slices.Contains(names, p.Name) {
				names = append(names, p.Name)
			}
		}
		is := ";"
		if near := wording.Nearest(name, names); near != "" {
			is = fmt.Sprintf("; is it %q?", near)
		}
		return fmt.Errorf("nobody is called %q%s there are %s", name, is, wording.And(names))
	}
	return nil
}

// notes are what is heard of a part.
func (c Choice) notes(song *heard.Song, p *heard.Part) []heard.Note {
	named := func(name string) bool { return calls(name, p) }
	solo := slices.ContainsFunc(c.Solo, named)
	switch {
	case len(c.Solo) > 0 && !solo, slices.ContainsFunc(c.Mute, named):
		return nil
	case p.Who == heard.Click && !solo:
		after := slices.IndexFunc(p.Notes, func(n heard.Note) bool { return int(n.Bar) >= song.Lead })
		if after >= 0 {
			return p.Notes[:after]
		}
	}
	return p.Notes
}
