package watch

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// second is a song that has nothing in common with first after the title.
const second = "title = \"Lanterns on the Weir\"\n# uno\n# due\n# tre\n"

// save is one way to change the content of a file.
type save struct {
	name, why string
	prepare   func(r *rig)
	do        func(r *rig)
	builds    int    // how many it must lead to
	last      string // what the last build must have seen; second when empty
	notices   int    // of any kind but Polling
	text      string // the song at the start
	silent    bool   // the system sends no event
}

// saves are the ways in which editors and people save, as plain file operations. They were
// recorded with real editors; the milliseconds are those between their steps, or more.
var saves = []save{
	{name: "truncate and write", why: "ed, nano, micro, kakoune, many others",
		do: func(r *rig) { r.write(r.song, second) }, builds: 1},
	{name: "truncate, 60 ms, write", why: "VS Code, Vim with nowritebackup, ne: the file is empty for a moment",
		do: func(r *rig) { r.writeInPieces(60, 400, "", second) }, builds: 1},
	{name: "truncate, 250 ms, write", why: "the same on a slow disk: longer than the quiet window",
		do: func(r *rig) { r.writeInPieces(250, 450, "", second) }, builds: 1},
	{name: "a part that is a song, 60 ms, the rest", why: "joe writes twice; a window of 50 ms builds the half",
		do: func(r *rig) { r.writeInPieces(60, 64, second[:20]+"\n", second[20:]) }, builds: 1,
		last: second[:20] + "\n" + second[20:]},
	{name: "a beginning of the old, 200 ms, the rest", why: "a save cut off by a slow disk looks like a shorter song",
		do: func(r *rig) { r.writeInPieces(200, 380, first[:30], first[30:]+"# four\n") }, builds: 1,
		last: first + "# four\n"},
	{name: "five pieces 20 ms apart", why: "a buffered writer",
		do: func(r *rig) {
			r.writeInPieces(20, 64, second[:10], second[10:20], second[20:30], second[30:40], second[40:])
		}, builds: 1},
	{name: "sixty small pieces", why: "a writer without a buffer",
		do:     func(r *rig) { r.writeInPieces(1, 64, strings.SplitAfter(second+strings.Repeat("#", 30), "")...) },
		builds: 1,
		last:   second + strings.Repeat("#", 30)},
	{name: "another name in the folder, then over it", why: "Emacs with file-precious-flag, sed -i, formatters",
		do: func(r *rig) { r.write(r.beside("tmpQx1"), second); r.rename(r.beside("tmpQx1"), r.song) }, builds: 1},
	{name: "another name in another folder, then over it", why: "writers that keep their drafts elsewhere",
		do: func(r *rig) { p := filepath.Join(r.dir, "draft"); r.write(p, second); r.rename(p, r.song) }, builds: 1},
	{name: "renamed to a backup, created, chmod, backup removed", why: "Vim as it comes",
		do: func(r *rig) {
			r.write(r.beside("4913"), "")
			r.remove(r.beside("4913"))
			r.rename(r.song, r.song+"~")
			r.write(r.song, second)
			r.must(os.Chmod(r.song, 0o600))
			r.remove(r.song + "~")
		}, builds: 1},
	{name: "renamed to a backup, 60 ms, created", why: "the same on a slow disk",
		do: func(r *rig) { r.rename(r.song, r.song+"~"); r.pause(60, 400); r.write(r.song, second) }, builds: 1},
	{name: "copied to a backup, written in place, chmod", why: "Vim with backupcopy=yes, nano -B",
		do: func(r *rig) {
			r.write(r.song+"~", first)
			r.write(r.song, second)
			r.must(os.Chmod(r.song, 0o600))
			r.remove(r.song + "~")
		}, builds: 1},
	{name: "new one aside, old one away, new one in, old one deleted", why: "the JetBrains editors' safe write",
		do: func(r *rig) {
			r.write(r.beside("x___tmp"), second)
			r.rename(r.song, r.beside("x___old"))
			r.rename(r.beside("x___tmp"), r.song)
			r.remove(r.beside("x___old"))
		}, builds: 1},
	{name: "hard link to a backup, then renamed over", why: "editors that back up without copying",
		do: func(r *rig) {
			r.must(os.Link(r.song, r.song+".bak"))
			r.write(r.beside("n"), second)
			r.rename(r.beside("n"), r.song)
			r.remove(r.song + ".bak")
		}, builds: 1},
	{name: "deleted, 100 ms, created", why: "a file synchroniser",
		do: func(r *rig) { r.remove(r.song); r.pause(100, 400); r.write(r.song, second) }, builds: 1},
	{name: "ten saves 20 ms apart", why: "somebody leans on the key: the last one counts",
		do: func(r *rig) {
			for i := 0; i < 9; i++ {
				r.write(r.song, strings.Repeat("# again\n", i+1))
				r.pause(20, 64)
			}
			r.write(r.song, second)
		}, builds: 1},
	{name: "200 saves at once", why: "a script",
		do: func(r *rig) {
			for i := 0; i < 199 && !r.late; i++ {
				r.write(r.song, strings.Repeat("# x\n", i%7+1))
				r.pause(0, 64)
			}
			r.write(r.song, second)
			r.whole(900)
		}, builds: 1},
	{name: "200 saves by renaming, at once", why: "a script with better manners",
		do: func(r *rig) {
			for i := 0; i < 200 && !r.late; i++ {
				r.write(r.beside("n"), second+strings.Repeat("#\n", 199-i))
				r.pause(0, 10) // together less than the window: the news of it takes time, too
				r.rename(r.beside("n"), r.song)
				r.pause(0, 10)
			}
			r.whole(900)
		}, builds: 1},
	{name: "two saves with a rest between", why: "two saves are two saves",
		do: func(r *rig) { r.write(r.song, "# between\n"); r.await(2); r.write(r.song, second) }, builds: 2},
	{name: "carriage returns", why: "an editor set to CRLF changes every line",
		do: func(r *rig) { r.write(r.song, strings.ReplaceAll(first, "\n", "\r\n")) }, builds: 1,
		last: strings.ReplaceAll(first, "\n", "\r\n")},
	{name: "written with a time in the past", why: "a backup restored: newer is not the same as other",
		do: func(r *rig) {
			r.write(r.beside("old"), second)
			past := time.Now().Add(-90 * 24 * time.Hour)
			r.must(os.Chtimes(r.beside("old"), past, past))
			r.rename(r.beside("old"), r.song)
		}, builds: 1},
	{name: "written with a time in the future", why: "a clock that is ahead must not keep us waiting",
		do: func(r *rig) {
			r.write(r.song, second)
			soon := time.Now().Add(90 * 24 * time.Hour)
			r.must(os.Chtimes(r.song, soon, soon))
		}, builds: 1},
	{name: "not text", why: "a save in UTF-16 is a save; what is wrong with it is the build's to say",
		do: func(r *rig) { r.write(r.song, "\xff\xfet\x00\x00\x00") }, builds: 1, last: "\xff\xfet\x00\x00\x00"},

	{name: "chmod and touch", why: "nothing changed, nothing is said",
		do: func(r *rig) {
			r.must(os.Chmod(r.song, 0o600))
			r.must(os.Chtimes(r.song, time.Now(), time.Now()))
		}, last: first},
	{name: "files come and go beside it", why: "swap, lock, backup and autosave files; a lock may be a link to nothing",
		do: func(r *rig) {
			for _, n := range []string{".lanterns.song.hcl.swp", "4913", "#lanterns.song.hcl#", "lanterns.song.hcl~",
				"lanterns.mid.tmp"} {
				r.write(r.beside(n), "x")
			}
			r.must(os.Symlink("nobody@nowhere.1", r.beside(".#lanterns.song.hcl")))
			time.Sleep(100 * time.Millisecond)
			r.remove(r.beside(".#lanterns.song.hcl"))
			r.remove(r.beside("4913"))
		}, last: first},
	{name: "the same bytes again", why: "saving without a change is a habit",
		do: func(r *rig) { r.write(r.song, first) }, last: first},
	{name: "changed and changed back within 30 ms", why: "undo and save",
		do: func(r *rig) { r.write(r.song, second); r.pause(20, 60); r.write(r.song, first) }, last: first},
	{name: "deleted for good", why: "one message, then patience",
		do: func(r *rig) { r.remove(r.song) }, last: first, notices: 1},
	{name: "left empty", why: "one message, then patience",
		do: func(r *rig) { r.write(r.song, " \n\t\n") }, last: first, notices: 1},
	{name: "deleted, missed, the same again", why: "missing, then back: no rebuild, for there is nothing new",
		do:   func(r *rig) { r.remove(r.song); r.until("the notice", r.saidMissing); r.write(r.song, first) },
		last: first, notices: 2},
	{name: "deleted, missed, another", why: "after the message the next save builds",
		do: func(r *rig) { r.remove(r.song); r.until("the notice", r.saidMissing); r.write(r.song, second) }, builds: 1,
		notices: 1},
	{name: "broken, then fixed", why: "a failed build goes on watching",
		do: func(r *rig) { r.write(r.song, "broken\n"); r.await(2); r.write(r.song, second) }, builds: 2},
	{name: "a build that could not write, then the same bytes",
		why:  "the disk has room again: saving once more must do",
		text: "again\n", // in one step: each news would be a reason for one more
		do:   func(r *rig) { r.write(r.beside("n"), "again\n"); r.rename(r.beside("n"), r.song) }, builds: 1,
		last: "again\n"},
	{name: "saved during a build", why: "exactly one more, with the last content",
		do: func(r *rig) {
			r.write(r.song, "slow\n")
			r.until("the slow build", r.building)
			r.write(r.song, "# lost\n")
			time.Sleep(20 * time.Millisecond)
			r.write(r.song, "# lost too\n")
			time.Sleep(20 * time.Millisecond)
			r.write(r.song, second)
			r.openGate()
		}, builds: 2},
}

func TestSaves(t *testing.T) {
	for _, mode := range []struct {
		name string
		settings
	}{
		{"both", settings{}},
		{"poll", settings{options: Options{Poll: true, PollEvery: 100 * time.Millisecond}}},
		{"events", settings{noPoll: true}},
	} {
		t.Run(mode.name, func(t *testing.T) {
			for _, list := range [][]save{saves, folders, gitSaves, systemSaves} {
				for _, s := range list {
					t.Run(s.name, func(t *testing.T) {
						if s.silent && mode.noPoll {
							t.Skip("no event tells of this")
						}
						t.Parallel()
						runSave(t, s, mode.settings)
					})
				}
			}
		})
	}
}

// runSave plays a way of saving and counts the builds. A run in which the machine stalled
// between two steps is repeated.
func runSave(t *testing.T, s save, with settings) {
	with.text, with.prepare = s.text, s.prepare
	for try := 0; try < 20; try++ {
		r := newRig(t, with)
		if s.do(r); r.late {
			r.close()
			continue
		}
		r.await(1 + s.builds)
		r.until("a notice", func() bool { return r.allNotices() >= s.notices })
		time.Sleep(silence)
		r.close()
		if s.last == "" {
			s.last = second
		}
		if got := len(r.builds) - 1; got != s.builds {
			t.Errorf("%d builds, want %d: %q", got, s.builds, r.builds)
		}
		if got := r.builds[len(r.builds)-1]; got != s.last {
			t.Errorf("the last build saw %q, want %q", got, s.last)
		}
		if got := r.allNotices(); got != s.notices {
			t.Errorf("%d notices, want %d: %v", got, s.notices, r.notices)
		}
		return
	}
	t.Skip("the machine is too busy to play this scenario in time")
}
