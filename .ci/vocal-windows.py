#!/usr/bin/python3
"""The rests of a guide vocal, worked out a second way.

usage: vocal-windows.py FILE.mid TRACK BARS

Reads the file with mido (Debian python3-mido), which shares no code with
plinth, and prints as JSON the stretches of a beat or more in which the track
TRACK is silent, from the file's start to the end of bar BARS, in ticks of 960 a
quarter: [[start, end], ...]. The beat and the bar come from the file's one
meter. Sounding time is marked tick by tick in an array, not by merging spans,
so that the two ways share no idea either.
"""
import json
import sys

import mido


def main():
    path, name, bars = sys.argv[1], sys.argv[2], int(sys.argv[3])
    midi = mido.MidiFile(path)
    num, den = 4, 4
    for track in midi.tracks:
        for msg in track:
            if msg.type == "time_signature":
                num, den = msg.numerator, msg.denominator
    ppq = midi.ticks_per_beat
    scale = 960 // ppq
    assert scale * ppq == 960, "the division must divide 960"
    total = bars * num * 4 * ppq // den
    # The beat: a quarter, but a dotted quarter in 6/8, 9/8 and 12/8.
    beat = ppq * 3 // 2 if den == 8 and num in (6, 9, 12) else ppq
    sounding = bytearray(total)
    track = next(t for t in midi.tracks if t.name == name)
    now, open_ = 0, {}
    for msg in track:
        now += msg.time
        if msg.type == "note_on" and msg.velocity > 0:
            open_.setdefault(msg.note, []).append(now)
        elif msg.type in ("note_off", "note_on"):
            start = open_[msg.note].pop(0)
            for tick in range(start, min(max(now, start + 1), total)):
                sounding[tick] = 1
    windows, since = [], 0
    for tick in range(total + 1):
        if tick == total or sounding[tick]:
            if tick - since >= beat:
                windows.append([since * scale, tick * scale])
            since = tick + 1
    json.dump(windows, sys.stdout)


main()
