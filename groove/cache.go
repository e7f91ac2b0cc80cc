package groove

import (
	"reflect"
	"slices"

	"plinth/groove/feel"
	"plinth/songspec/timeline"
)

// Cache plays songs as Perform does and keeps the passes of the last song, so that in the
// next song only passes that have changed are played again. A pass counts as unchanged when
// everything that its notes may depend on is equal, value by value. Some of that does not
// matter in the end: then a pass is played again without need, but no old notes are ever
// used. The zero value is ready. A Cache is not for two goroutines.
type Cache struct {
	kept map[cacheName][]cached
	// Played and Reused count the passes of the last song.
	Played, Reused int
}

// cacheName is the key under which passes are kept. Passes with one name draw the same
// chance.
type cacheName struct {
	section string
	ordinal int
}

// cached is a pass, all that went into it, and how it was played.
type cached struct {
	setup  setup
	pass   timeline.Pass
	sounds sounds
	part   PassPart
}

// setup is the part of the song that the notes of a pass depend on.
type setup struct {
	drums     timeline.DrumsSetup
	bass      timeline.BassSetup
	piano     timeline.PianoSetup
	looseness int
	take      int
}

// sounds is the part of the set that they depend on: the feels of the bars in order, their
// fills, and the feels of the passes before and after.
type sounds struct {
	before, after *feel.Feel
	feels         []*feel.Feel
	fills         []feel.Fill
}

// Perform returns what the function Perform returns, byte for byte.
func (c *Cache) Perform(tl *timeline.Timeline, set *feel.Set) *Performance {
	b := setup{tl.Drums, tl.Bass, tl.Piano, tl.Looseness, tl.Take}
	next := make(map[cacheName][]cached, len(tl.Passes))
	parts := make([]PassPart, len(tl.Passes))
	all := make([]cached, len(tl.Passes))
	var missing []int
	for i := range tl.Passes {
		pass := &tl.Passes[i]
		all[i] = cached{setup: b, pass: placeless(pass), sounds: soundsOf(pass, set)}
		if old := c.find(&all[i]); old != nil {
			parts[i] = old.part
		} else {
			missing = append(missing, i)
		}
	}
	playAll(tl, set, missing, parts)
	for i := range all {
		all[i].part = parts[i]
		name := all[i].name()
		next[name] = append(next[name], all[i])
	}
	c.kept = next
	c.Played, c.Reused = len(missing), len(all)-len(missing)
	return assemble(tl, set, parts)
}

// find returns the kept pass that equals this one; nil when there is none.
func (c *Cache) find(now *cached) *cached {
	kept := c.kept[now.name()]
	for i := range kept {
		if kept[i].equal(now) {
			return &kept[i]
		}
	}
	return nil
}

func (c *cached) name() cacheName { return cacheName{c.pass.Section, c.pass.Ordinal} }

// placeless is a pass without its place in the song and in the file. Its notes must not
// depend on that place.
func placeless(p *timeline.Pass) timeline.Pass {
	out := *p
	out.Index, out.Start, out.FirstBar = 0, 0, 0
	out.Bars = slices.Clone(p.Bars)
	for i := range out.Bars {
		out.Bars[i].Line = 0
	}
	return out
}

func soundsOf(p *timeline.Pass, set *feel.Set) sounds {
	var out sounds
	families := map[string]bool{}
	for _, name := range p.Feels() {
		if f := set.Feels[name]; f != nil {
			out.feels, families[f.Fills] = append(out.feels, f), true
		}
	}
	if p.Before != nil {
		out.before = set.Feels[p.Before.Feel]
	}
	if p.After != nil {
		out.after = set.Feels[p.After.Feel]
	}
	for _, f := range set.Fills {
		if families[f.Family] {
			out.fills = append(out.fills, f)
		}
	}
	return out
}

func (c *cached) equal(d *cached) bool {
	return c.setup == d.setup && reflect.DeepEqual(c.pass, d.pass) && reflect.DeepEqual(c.sounds, d.sounds)
}
