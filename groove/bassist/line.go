package bassist

// line is the notes of a pass while the cues are laid over them, in order of time: done are
// those before the place at hand, rest those from there on. A note added at the place goes to
// the end of done, so that no note is moved twice.
type line struct{ done, rest []bassNote }

// edit begins to lay cues over the notes.
func (b *Bassist) edit() line { return line{b.spare[:0], b.notes} }

// settle ends it.
func (b *Bassist) settle(l line) {
	b.spare, b.notes = b.notes, append(l.done, l.rest...)
}

// goTo makes a tick the place at hand. A note of the row is moved to it where both would sound
// at the same time: in a tab in triplets that is the case for the off-beat and the half-way
// place, where a song file's "&" stands. Of two such notes the one at hand stays.
func (l *line) goTo(b *Bassist, tick int64) {
	n := 0
	for n < len(l.rest) && l.rest[n].tick < tick {
		n++
	}
	l.done, l.rest = append(l.done, l.rest[:n]...), l.rest[n:]
	together := func(n *bassNote) bool { return n.accent == 0 && !n.pushed && b.Swung(n.tick) == b.Swung(tick) }
	if n := len(l.done); n > 0 && together(&l.done[n-1]) {
		l.done[n-1].tick = tick
	}
	if len(l.rest) > 0 && together(&l.rest[0]) {
		l.rest[0].tick = tick
	}
	for len(l.rest) > 1 && l.rest[0].tick == tick && together(&l.rest[1]) {
		l.rest[0].end = max(l.rest[0].end, l.rest[1].end)
		l.rest[1] = l.rest[0]
		l.rest = l.rest[1:]
	}
}

// closest is how near in ticks two notes are that sound crowded.
const closest = quarter / 4

// makeRoom moves to the place at hand, where a chord begins off the beat, what the row has so near that
// it would sound crowded.
func (l *line) makeRoom(tick int64) {
	crowds := func(n *bassNote) bool {
		return n.tick > tick-closest && n.tick < tick+closest && n.cue < 0 && n.accent == 0 && !n.pushed
	}
	if n := len(l.done); n > 0 && crowds(&l.done[n-1]) {
		if n > 1 && l.done[n-2].end == l.done[n-1].tick {
			l.done[n-2].end = tick
		}
		l.done[n-1].tick = tick
	}
	for len(l.rest) > 0 && (l.rest[0].tick == tick || crowds(&l.rest[0])) {
		l.rest[0].tick = tick
		n := len(l.done)
		if n == 0 || l.done[n-1].tick < tick {
			l.done = append(l.done, l.rest[0])
		} else {
			l.done[n-1].end = max(l.done[n-1].end, l.rest[0].end)
		}
		l.rest = l.rest[1:]
	}
}

// noteAt is the note struck at the place at hand. Where there is none it adds one, which ends
// where the note that it cuts short would have ended. In a silence it lasts as long as the note
// before it, and most at the longest. It never reaches over the next note.
func (l *line) noteAt(tick, most int64) *bassNote {
	if n := len(l.done); n > 0 && l.done[n-1].tick == tick {
		return &l.done[n-1]
	}
	if len(l.rest) > 0 && l.rest[0].tick == tick {
		return &l.rest[0]
	}
	n := plainNote(tick, min(most, tick+quarter))
	if i := len(l.done); i > 0 {
		before := &l.done[i-1]
		if before.end > tick {
			n.end = before.end
			before.end = tick
		} else {
			n.end = min(most, tick+max(before.end-before.tick, quarter/2))
		}
	}
	n.end = min(n.end, l.next(tick))
	l.done = append(l.done, n)
	return &l.done[len(l.done)-1]
}

// next is where the first note after the place at hand is struck.
func (l *line) next(tick int64) int64 {
	for i := range l.rest {
		if l.rest[i].tick > tick {
			return l.rest[i].tick
		}
	}
	return never
}

// never is a tick that no pass reaches.
const never = 1 << 62
