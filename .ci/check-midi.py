"""Reads a MIDI file with mido, compares it with what midicsv read of it, and
listens to it through fluidsynth, one track at a time.

    check-midi.py FILE.mid FILE.csv SOUNDFONT
"""

import array
import csv
import os
import subprocess
import sys
import tempfile
import wave

import mido

RATE = 44100
# What a General MIDI player lets ring after a note-off, in seconds: the sounds'
# own release, measured on the sound font with some to spare. A stroke of the kit
# has no note-off at all to a player: cymbals ring out.
RELEASE = {"Drums": 6.0, "Bass": 1.0, "Piano": 1.5, "Click": 1.0}
SILENCE = 32768 * 10 ** (-60 / 20)  # 60 dB under full scale
failures = []


def fail(text):
    failures.append(text)
    print("  WRONG:", text)


def with_mido(path):
    """Per track: name, end tick, events as (tick, kind, values)."""
    out = []
    for track in mido.MidiFile(path).tracks:
        tick, events, end = 0, [], None
        for m in track:
            tick += m.time
            if m.type == "note_on":
                events.append((tick, "on", m.channel, m.note, m.velocity))
            elif m.type == "note_off":
                events.append((tick, "off", m.channel, m.note, m.velocity))
            elif m.type == "program_change":
                events.append((tick, "program", m.channel, m.program))
            elif m.type == "set_tempo":
                events.append((tick, "tempo", m.tempo))
            elif m.type == "time_signature":
                events.append((tick, "meter", m.numerator, m.denominator, m.clocks_per_click,
                               m.notated_32nd_notes_per_beat))
            elif m.type == "marker":
                events.append((tick, "marker", m.text))
            elif m.type == "end_of_track":
                end = tick
        out.append((track.name, end, events))
    return out


def with_midicsv(path):
    tracks = {}
    ends = {}
    names = {}
    for row in csv.reader(open(path, encoding="latin-1"), skipinitialspace=True):
        t, tick, kind, v = int(row[0]), int(row[1]), row[2], row[3:]
        if t == 0:
            continue
        events = tracks.setdefault(t, [])
        if kind == "Note_on_c":
            events.append((tick, "on", *map(int, v)))
        elif kind == "Note_off_c":
            events.append((tick, "off", *map(int, v)))
        elif kind == "Program_c":
            events.append((tick, "program", *map(int, v)))
        elif kind == "Tempo":
            events.append((tick, "tempo", int(v[0])))
        elif kind == "Time_signature":
            events.append((tick, "meter", int(v[0]), 2 ** int(v[1]), int(v[2]), int(v[3])))
        elif kind == "Marker_t":
            events.append((tick, "marker", v[0]))
        elif kind == "Title_t":
            names[t] = v[0]
        elif kind == "End_track":
            ends[t] = tick
    return [(names.get(t), ends.get(t), tracks[t]) for t in sorted(tracks)]


def seconds_of(tempos, ticks_per_quarter):
    """A function from ticks to seconds."""
    changes = [(0, 0.0, 500000)]
    for tick, micros in tempos:
        at, s, m = changes[-1]
        changes.append((tick, s + (tick - at) * m / 1e6 / ticks_per_quarter, micros))

    def seconds(tick):
        i = len(changes) - 1
        while changes[i][0] > tick:
            i -= 1
        at, s, m = changes[i]
        return s + (tick - at) * m / 1e6 / ticks_per_quarter

    return seconds


def play(path, index, font, folder):
    """One track with the first, through fluidsynth: left and right samples."""
    whole = mido.MidiFile(path)
    solo = mido.MidiFile(ticks_per_beat=whole.ticks_per_beat, type=1)
    solo.tracks = [whole.tracks[0], whole.tracks[index]]
    mid, wav = os.path.join(folder, "solo.mid"), os.path.join(folder, "solo.wav")
    solo.save(mid)
    # No reverb and no chorus: they would be heard where nothing is played.
    command = ["fluidsynth", "-ni", "-q", "-R", "0", "-C", "0", "-g", "0.8", "-r", str(RATE),
               "-O", "s16", "-T", "wav", "-F", wav, font, mid]
    done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode != 0 or not os.path.exists(wav):
        fail(f"fluidsynth: {done.stderr}")
        return array.array("h")
    with wave.open(wav) as w:
        assert (w.getframerate(), w.getnchannels(), w.getsampwidth()) == (RATE, 2, 2)
        samples = array.array("h", w.readframes(w.getnframes()))
    if sys.byteorder == "big":
        samples.byteswap()
    return samples


def peak(samples, start, end):
    part = samples[max(0, int(start * RATE)) * 2 : max(0, int(end * RATE)) * 2]
    return max(max(part), -min(part)) if part else 0


def rises(samples, onsets, shift):
    """How many of 100 onsets, moved by shift seconds, the sound grows at."""
    grown = sum(
        peak(samples, t + shift, t + shift + 0.06) > 1.1 * peak(samples, t + shift - 0.03, t + shift - 0.003)
        for t in onsets
    )
    return 100 * grown // len(onsets)


def listen(name, notes, samples):
    """Sound at each onset, growing there and not a tenth of a second beside it;
    silence where nothing rings. Gives the number of silences and the rises."""
    starts = sorted({n[0] for n in notes})
    apart = [t for i, t in enumerate(starts) if i == 0 or t - starts[i - 1] > 0.1]
    here, beside = rises(samples, apart, 0), max(rises(samples, apart, 0.1), rises(samples, apart, -0.1))
    if here < 90:
        fail(f"{name}: the sound grows at {here} of 100 onsets only")
    if beside > 50:
        fail(f"{name}: the sound grows beside {beside} of 100 onsets too, so nothing is known of their time")
    release = RELEASE[name]
    mute = [n for n in notes if peak(samples, n[0], n[0] + 0.08) < SILENCE]
    for n in mute[:5]:
        fail(f"{name}: nothing is heard of key {n[2]} (velocity {n[3]}) at {n[0]:.2f} s")
    gaps, ring = [], 0.0
    for start, end, _, _ in notes:
        if start - ring > 0.1:
            gaps.append((ring, start - 0.02))
        ring = max(ring, end + release)
    for start, end in gaps:
        if peak(samples, start, end) >= SILENCE:
            fail(f"{name}: something is heard from {start:.2f} to {end:.2f} s, where nothing is played")
    return len(gaps), here


def main(path, csv_path, font):
    ours, theirs = with_mido(path), with_midicsv(csv_path)
    if len(ours) != len(theirs):
        fail(f"mido reads {len(ours)} tracks, midicsv {len(theirs)}")
    for a, b in zip(ours, theirs):
        if a != b:
            fail(f"the readers disagree on track {a[0]}: {len(a[2])} and {len(b[2])} events, ends {a[1]} and {b[1]}")
    if [t[0] for t in ours[1:]] not in (["Drums", "Bass", "Piano"], ["Drums", "Bass", "Piano", "Click"]):
        fail(f"tracks {[t[0] for t in ours]}")
    if len({t[1] for t in ours}) != 1:
        fail(f"the tracks end at {[t[1] for t in ours]}")
    file = mido.MidiFile(path)
    if (file.type, file.ticks_per_beat) != (1, 960):
        fail(f"format {file.type}, {file.ticks_per_beat} ticks a quarter")
    seconds = seconds_of([(e[0], e[2]) for e in ours[0][2] if e[1] == "tempo"], 960)
    said = []
    with tempfile.TemporaryDirectory() as folder:
        for i, (name, _, events) in enumerate(ours[1:], 1):
            sounding, notes = {}, []
            for e in events:
                if e[1] == "on":
                    sounding[e[3]] = (e[0], e[4])
                elif e[1] == "off":
                    start, velocity = sounding.pop(e[3])
                    notes.append((seconds(start), seconds(e[0]), e[3], velocity))
            if sounding:
                fail(f"{name}: {len(sounding)} notes never end")
            notes.sort()
            if not notes:
                continue
            samples = play(path, i, font, folder)
            if not any(samples):
                fail(f"{name}: nothing at all is heard of {len(notes)} notes")
                continue
            gaps, here = listen(name, notes, samples)
            said.append(f"{name} {len(notes)} notes, heard to begin at {here} of 100 onsets, {gaps} silences")
    print(f"{os.path.basename(path)}: {'; '.join(said)}")
    return 1 if failures else 0


sys.exit(main(*sys.argv[1:]))
