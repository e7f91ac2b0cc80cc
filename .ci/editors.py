#!/usr/bin/env python3
"""Real editors, driven by keystrokes in a terminal, save a song that plinth watches.

usage: editors.py PLINTH

Every editor opens the song once and saves it six times: three changes, no change,
a mistake, the mistake mended. What must come of it is four rebuilds and one
refusal, each once, with no word about a file that is missing or empty, and a MIDI
file that is, byte for byte, what `plinth build` makes of the song.

Of each save that changes something the table shows whether the name leads to
another file after it (*) or to the same (=, also when a new file was given the old
one's number). An editor that is not installed is left out; that none is, is an
error. Vim saves in another way in the system's temporary folder, so the work is
done elsewhere.
"""
import os, pty, re, shutil, signal, subprocess, sys, tempfile, threading, time

SONG = """tempo = 72
title = "Lanterns"
section "verse" {
  chords = "| C | Am | F | G |"
}
"""
WORKDIR = "/var/tmp"
SILENCE = 0.9  # longer than every wait of the watcher

# Each editor: its command, the keys that replace the first line, the keys that save.
VIM = ("\x1bggcc{}\x1b", ":w\r")
NANO = ("\x1b\\\x0b{}\r", "\x13")  # first line, cut, type; ^S saves
EMACS = ("\x1b<\x0b{}", "\x18\x13")
EDITORS = [
    ("vim", ["vim", "-u", "NONE", "-N"], VIM),
    ("vim, backupcopy=yes", ["vim", "-u", "NONE", "-N", "--cmd", "set backupcopy=yes"], VIM),
    ("vim, nowritebackup", ["vim", "-u", "NONE", "-N", "--cmd", "set nowritebackup"], VIM),
    ("nano", ["nano", "--ignorercfiles"], NANO),
    ("nano, with backups", ["nano", "--ignorercfiles", "--backup"], NANO),
    ("emacs", ["emacs", "-nw", "-Q"], EMACS),
    ("emacs, file-precious-flag", ["emacs", "-nw", "-Q", "--eval", "(setq file-precious-flag t)"], EMACS),
]


class Terminal:
    """A program in a terminal of its own, whose screen nobody reads."""

    def __init__(self, argv, cwd):
        self.pid, self.fd = pty.fork()
        if self.pid == 0:
            os.chdir(cwd)
            os.environ.update(TERM="xterm", LC_ALL="C.UTF-8")
            os.execvp(argv[0], argv)
        self.last = time.monotonic()
        threading.Thread(target=self.drain, daemon=True).start()

    def drain(self):
        try:
            while os.read(self.fd, 4096):
                self.last = time.monotonic()
        except OSError:
            pass  # the program has ended

    def settle(self):
        """Waits until the screen has been still for a moment."""
        end = time.monotonic() + 10
        while time.monotonic() - self.last < 0.25 and time.monotonic() < end:
            time.sleep(0.02)

    def type(self, keys):
        for c in keys:
            os.write(self.fd, c.encode())
            time.sleep(0.004)
        self.last = time.monotonic()
        self.settle()

    def close(self):
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)


class Watch:
    """plinth watch, and what it has said."""

    def __init__(self, plinth, song):
        self.proc = subprocess.Popen([plinth, "watch", song], stderr=subprocess.PIPE, text=True)
        self.lines = []
        threading.Thread(target=self.read, daemon=True).start()

    def read(self):
        for line in self.proc.stderr:
            self.lines.append(line.rstrip())

    def wait(self, since, pattern):
        end = time.monotonic() + 10
        while time.monotonic() < end:
            if any(re.search(pattern, l) for l in self.lines[since:]):
                return True
            time.sleep(0.005)
        return False

    def close(self):
        self.proc.send_signal(signal.SIGINT)
        return self.proc.wait(10)


BUILT, REFUSED = r"^\d\d:\d\d:\d\d  \d+ bars  ", r"still playing the last good one$"


def check(plinth, name, argv, keys):
    change, save = keys
    top = tempfile.mkdtemp(prefix="plinth-editors-", dir=WORKDIR)
    folder = os.path.join(top, "songs")
    os.mkdir(folder)
    song = os.path.join(folder, "lanterns.song.hcl")
    with open(song, "w") as f:
        f.write(SONG)
    watch = Watch(plinth, song)
    assert watch.wait(0, BUILT), watch.lines
    term = Terminal(argv + [song], folder)
    time.sleep(0.5)
    term.settle()
    styles, wrong, took = "", [], []
    steps = [("tempo = 81", BUILT), ("tempo = 82", BUILT), ("tempo = 83", BUILT), (None, None),
             ("tempo = slow", REFUSED), ("tempo = 84", BUILT)]
    for line, expect in steps:
        before, since = os.stat(song), len(watch.lines)
        if line:
            term.type(change.format(line))
        for c in save[:-1]:
            os.write(term.fd, c.encode())
            time.sleep(0.01)
        start = time.monotonic()
        os.write(term.fd, save[-1].encode())
        if expect and not watch.wait(since, expect):
            wrong.append(f"{line}: nothing came of it: {watch.lines[since:]}")
        took.append(time.monotonic() - start)
        term.settle()
        time.sleep(SILENCE)
        said = watch.lines[since:]
        if expect is None:
            took.pop()
            if said:
                wrong.append(f"a save without a change: {said}")
            continue
        if line not in open(song).read().splitlines()[0]:
            wrong.append(f"{line}: the editor has not written it")
        n = sum(bool(re.search(BUILT, l)) or bool(re.search(REFUSED, l)) for l in said)
        if n != 1:
            wrong.append(f"{line}: {n} builds: {said}")
        if any("is not there" in l or "is empty" in l for l in said):
            wrong.append(f"{line}: half a save was noticed: {said}")
        styles += "=" if os.stat(song).st_ino == before.st_ino else "*"
    term.close()
    if watch.close() != 0:
        wrong.append("the watch ended with an error")
    with open(os.path.join(folder, "bed", "lanterns.mid"), "rb") as f:
        made = f.read()
    subprocess.run([plinth, "build", song, "--out", os.path.join(top, "fresh")], check=True, stderr=subprocess.DEVNULL)
    with open(os.path.join(top, "fresh", "lanterns.mid"), "rb") as f:
        if f.read() != made:
            wrong.append("the last file is not what a build makes")
    left = sorted(os.listdir(os.path.join(folder, "bed")))
    if left != ["lanterns.mid"]:
        wrong.append(f"left behind: {left}")
    shutil.rmtree(top)
    took.sort()
    print(f"{name:<28} {styles:<8} {1000 * took[len(took) // 2]:4.0f} ms  {'as it must' if not wrong else 'WRONG'}")
    for w in wrong:
        print("   ", w)
    return not wrong


def main():
    plinth = os.path.abspath(sys.argv[1])
    here = [e for e in EDITORS if shutil.which(e[1][0])]
    if not here:
        sys.exit("none of vim, nano and emacs is installed")
    print(f"{'editor':<28} {'file':<8} {'key to line, p50'}")
    results = [check(plinth, *e) for e in here]
    if not all(results):
        sys.exit(1)


main()
