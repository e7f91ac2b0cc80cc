package watch

import (
	"bytes"
	"time"
)

// waits are how long the core waits. All are measured: with a quiet of 50 ms one of thirty
// ways of saving lost a save, with 75 ms none.
type waits struct {
	// Quiet is how long nothing may happen before a save counts as done.
	Quiet time.Duration
	// Swap is the same for a save that put a finished file under the name in one step.
	// Nothing of it can be missing, so this wait only gathers files saved together.
	Swap time.Duration
	// Ceiling is how long saves without a pause can put a build off. After it a quiet of
	// Hurry is enough, and after three times as long none is needed.
	Ceiling time.Duration
	Hurry   time.Duration
	// Grace is how long a file that is gone or blank is taken for half a save.
	Grace time.Duration
	// Cut is how long a file that is only the beginning of the known one is taken for
	// half a save.
	Cut time.Duration
}

// defaultWaits are the waits that plinth uses.
func defaultWaits(quiet time.Duration) waits {
	return waits{
		Quiet:   quiet,
		Swap:    min(quiet, 30*time.Millisecond),
		Ceiling: time.Second,
		Hurry:   min(quiet, 20*time.Millisecond),
		Grace:   500 * time.Millisecond,
		Cut:     400 * time.Millisecond,
	}
}

// kind is what was found under a name.
type kind uint8

const (
	content  kind = iota // a regular file, read whole
	missing              // nothing, or a link to nothing
	refused              // there, but it cannot be read: a folder, a pipe, too large, no permission
	unstable             // it changed while it was being read
	unread               // known by its entry alone
)

// view is one file as it looked at one moment.
type view struct {
	Path  string
	Kind  kind
	Data  []byte
	Err   error     // why not, when Kind is missing or refused
	Mod   time.Time // when it was last written, by the file system's clock
	Stamp stamp     // what the poll compares
}

// same reports whether w tells nothing new to a build that has seen v.
func (v view) same(w view) bool {
	if v.Kind == unread || w.Kind == unread {
		return v.Stamp.same(w.Stamp)
	}
	if v.Kind != w.Kind {
		return false
	}
	if v.Kind == refused {
		return v.Err.Error() == w.Err.Error()
	}
	return bytes.Equal(v.Data, w.Data)
}

// blank reports whether the file holds nothing but white space.
func (v view) blank() bool { return v.Kind == content && len(bytes.TrimSpace(v.Data)) == 0 }

// isBeginningOf reports whether v is shorter than old, and old begins with it.
func (v view) isBeginningOf(old view) bool {
	return v.Kind == content && old.Kind == content &&
		len(v.Data) < len(old.Data) && bytes.HasPrefix(old.Data, v.Data)
}

// verdict is what to do after a look at the files.
type verdict uint8

const (
	wait        verdict = iota // look again at nextLook
	nothing                    // no file says anything new
	build                      // build with exactly these views
	tellMissing                // the song is gone for good: say so once
	tellBlank                  // the song is blank for good: say so once
	tellBack                   // it is there again, as it was
)

// core decides when to look and when to build. It has no clock, no disk and no events; it
// knows only what its methods are told, so that every rule can be tested without waiting.
type core struct {
	waits waits
	// known is what the last build was given, by path, even if it failed: a mistake that
	// stays needs no second message.
	known map[string]view
	told  verdict // tellMissing or tellBlank while that is the last thing said

	pending     bool
	first, last time.Time // of the changes that have not been looked at
	swap        bool      // all of them came as whole files
	doubt       time.Time // since when the files look half saved; zero when they do not
	until       time.Time // do not look before; zero: as the waits say
}

func newCore(w waits) *core {
	return &core{waits: w, known: map[string]view{}, told: nothing}
}

// noteChange says that something happened to a file. swap says that a finished file was
// put under the name in one step.
func (c *core) noteChange(at time.Time, swap bool) {
	if !c.pending {
		c.pending, c.first, c.last, c.swap = true, at, at, true
	}
	c.last, c.swap = laterOf(c.last, at), c.swap && swap
	c.until = time.Time{}
}

// quietNeeded is how long nothing may have happened before the files are judged now.
func (c *core) quietNeeded(now time.Time) time.Duration {
	q := c.waits.Quiet
	if c.swap {
		q = c.waits.Swap
	}
	switch age := now.Sub(c.first); {
	case age >= 3*c.waits.Ceiling:
		return 0
	case age >= c.waits.Ceiling:
		return min(q, c.waits.Hurry)
	}
	return q
}

// nextLook is when to look next, false when nothing has changed.
func (c *core) nextLook() (time.Time, bool) {
	if !c.pending {
		return time.Time{}, false
	}
	if !c.until.IsZero() {
		return c.until, true
	}
	q := c.waits.Quiet
	if c.swap {
		q = c.waits.Swap
	}
	at := c.last.Add(q)
	for _, step := range []struct{ after, quiet time.Duration }{
		{c.waits.Ceiling, min(q, c.waits.Hurry)},
		{3 * c.waits.Ceiling, 0},
	} {
		earliest := c.first.Add(step.after)
		if hurried := laterOf(earliest, c.last.Add(step.quiet)); hurried.Before(at) {
			at = hurried
		}
	}
	return at, true
}

func laterOf(a, b time.Time) time.Time {
	if a.After(b) {
		return a
	}
	return b
}

// judge decides what to do about the files, which were read between now and read. Any time
// may lie between the two on a busy machine. The first view is the song's; the others are
// all other files of the last build.
func (c *core) judge(now, read time.Time, views []view) verdict {
	changed, settle, doubtful := false, time.Time{}, time.Duration(0)
	need := c.quietNeeded(now)
	for _, v := range views {
		old, seen := c.known[v.Path]
		if v.Kind == unstable {
			settle = laterOf(settle, now.Add(max(need, time.Millisecond)))
			continue
		}
		if seen && v.same(old) {
			continue
		}
		changed = true
		// The event may have come late, or not at all, so the time of the file counts too,
		// unless it lies in the future. The quiet must lie before the reading, because
		// what was written meanwhile may be half a save.
		if ready := v.Mod.Add(need); v.Kind == content && !v.Mod.After(read) && ready.After(now) {
			settle = laterOf(settle, ready)
		}
		switch {
		case v.Kind == missing, v.blank():
			doubtful = max(doubtful, c.waits.Grace)
		case seen && !c.swap && v.isBeginningOf(old):
			doubtful = max(doubtful, c.waits.Cut)
		}
	}
	if !settle.IsZero() {
		c.until = settle
		return wait
	}
	if doubtful > 0 {
		if c.doubt.IsZero() {
			c.doubt = c.last
		}
		if over := c.doubt.Add(doubtful); over.After(now) {
			c.until = over
			return wait
		}
	}
	c.pending, c.doubt, c.until = false, time.Time{}, time.Time{}
	return c.conclude(views, changed)
}

// conclude is the verdict on files that do not change any more.
func (c *core) conclude(views []view, changed bool) verdict {
	song := views[0]
	say := nothing
	switch {
	case song.Kind == missing:
		say = tellMissing
	case song.blank():
		say = tellBlank
	}
	told := c.told
	c.told = say
	switch {
	case say == nothing && changed:
		c.rememberBuild(views)
		return build
	case say == told:
		return nothing
	case say == nothing:
		return tellBack
	}
	return say
}

// rememberBuild keeps the views that a build was given.
func (c *core) rememberBuild(views []view) {
	known := make(map[string]view, len(views))
	for _, v := range views {
		known[v.Path] = v
	}
	c.known = known
}
