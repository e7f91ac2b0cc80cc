#!/usr/bin/python3
"""Compares what `plinth build --with audio` made of a song with what fluidsynth plays of its MIDI file with the
same SoundFont, without reverb and chorus, player by player.

    check-audio.py DIR NAME SOUNDFONT

- Onsets, found by aubioonset in both: of those that it hears in both (within 30 ms), 97 % are within 5 ms. It
  hears 80 % of each in the other too: the softest strokes it hears in one and not in the other, whose
  reverb covers them. Each renderer is late by a time of its own that never changes (blocks, and the
  beginning of a note's envelope); the median of the differences is taken off, and may be 10 ms at most.
- Tempo: from the first to the last onset it takes the same time within 1 %.
- Sections that differ by a decibel and more are in the same order of loudness.
"""
import array
import os
import statistics
import subprocess
import sys
import wave

import mido

NEAR, SAME = 0.005, 0.030
NEAR_SHARE, SAME_SHARE = 0.97, 0.80
LATE = 0.010
RATE = 48000
# The players whose attacks a detector hears well. A piano's chords are spread a little and a bass begins
# slowly: they are compared by their level alone.
CLEAR = ("Drums",)


def render(midi, font, out):
    """Plays a MIDI file into a file of 16 bits."""
    subprocess.run(["fluidsynth", "-ni", "-q", "-R", "0", "-C", "0", "-g", "0.4", "-r", str(RATE), "-O", "s16",
                    "-T", "wav", "-F", out, font, midi], check=True, stdout=subprocess.DEVNULL)


def alone(midi, name, out):
    """Writes a MIDI file with the track of one player."""
    whole = mido.MidiFile(midi)
    part = mido.MidiFile(type=1, ticks_per_beat=whole.ticks_per_beat)
    part.tracks = [whole.tracks[0]] + [t for t in whole.tracks if t.name == name]
    assert len(part.tracks) == 2, f"{midi} has no track {name}"
    part.save(out)


def onsets(path):
    out = subprocess.run(["aubioonset", "-i", path, "-r", str(RATE), "-B", "512", "-H", "64", "-O", "hfc",
                          "-t", "0.6", "-M", "0.03", "-s", "-90"], check=True, capture_output=True, text=True)
    return [float(x) for x in out.stdout.split()]


def nearest(x, sorted_times, i):
    while i + 1 < len(sorted_times) and abs(sorted_times[i + 1] - x) <= abs(sorted_times[i] - x):
        i += 1
    return i


def differences(a, b):
    """For each time of a, how far the nearest of b is from it."""
    out, i = [], 0
    for x in a:
        i = nearest(x, b, i)
        out.append(b[i] - x)
    return out


def samples(path):
    """The left and right samples of a file, in 16 bits, as one row."""
    with wave.open(path) as f:
        assert f.getframerate() == RATE and f.getnchannels() == 2, path
        width, data = f.getsampwidth(), f.readframes(f.getnframes())
    if width == 3:
        short = bytearray(len(data) // 3 * 2)
        short[0::2], short[1::2] = data[1::3], data[2::3]
        data = bytes(short)
    out = array.array("h")
    out.frombytes(data)
    return out


def sections(midi):
    """The markers of a file, with the seconds from where to where they hold."""
    at, out = 0.0, []
    for message in mido.MidiFile(midi):
        at += message.time
        if message.type == "marker":
            out.append((message.text, at))
    return [(text, start, end) for (text, start), (_, end) in zip(out, out[1:] + [("", at)]) if end - start > 1]


def level(row, start, end):
    part = row[2 * int(start * RATE):2 * int(end * RATE):3]
    return (sum(x * x for x in part) / max(len(part), 1)) ** 0.5


def check_onsets(where, ours, theirs):
    a, b = onsets(ours), onsets(theirs)
    assert len(a) > 20 and len(b) > 20, f"{where}: {len(a)} and {len(b)} onsets"
    late = statistics.median(differences(a, b))
    assert abs(late) <= LATE, f"{where}: fluidsynth is late by {1000 * late:.1f} ms"
    b = [x - late for x in b]
    for one, other, who in (a, b, "plinth"), (b, a, "fluidsynth"):
        off = [abs(d) for d in differences(one, other)]
        both = [d for d in off if d <= SAME]
        heard, share = len(both) / len(off), sum(d <= NEAR for d in both) / len(both)
        print(f"  {where}: {heard:.1%} of {who}'s {len(off)} onsets are heard in both, of them {share:.1%} within 5 ms,"
              f" median {1000 * statistics.median(both):.2f} ms (fluidsynth {1000 * late:+.1f} ms)")
        assert heard >= SAME_SHARE and share >= NEAR_SHARE, f"{where}: the onsets of {who} differ"
    ratio = (a[-1] - a[0]) / (b[-1] - b[0])
    assert abs(ratio - 1) < 0.01, f"{where}: the tempo differs by {ratio:.4f}"


def check_levels(where, midi, ours, theirs):
    a, b = samples(ours), samples(theirs)
    rows = [(text, level(a, s, e), level(b, s, e)) for text, s, e in sections(midi)]
    rows = [r for r in rows if r[1] > 3 and r[2] > 3]  # who is silent has no level
    pairs = 0
    for i, (x, ax, bx) in enumerate(rows):
        for y, ay, by in rows[:i]:
            if max(ax / ay, ay / ax) < 1.122 or max(bx / by, by / bx) < 1.122:
                continue
            pairs += 1
            assert (ax > ay) == (bx > by), f"{where}: {x} is {ax / ay:.2f} times as loud as {y}; {bx / by:.2f} there"
    assert pairs > 0, f"{where}: no two sections differ"
    print(f"  {where}: {pairs} pairs of sections in the same order")


def main(folder, name, font):
    base = os.path.join(folder, name)
    midi, theirs = base + ".mid", base + ".theirs.wav"
    render(midi, font, theirs)
    check_levels("mix", midi, base + ".wav", theirs)
    for player in "Drums", "Bass", "Piano":
        stem = os.path.join(base + ".stems", player + ".wav")
        part = base + ".part.mid"
        alone(midi, player, part)
        render(part, font, theirs)
        check_levels(player, midi, stem, theirs)
        if player in CLEAR:
            check_onsets(player, stem, theirs)
    os.remove(theirs)


main(*sys.argv[1:])
