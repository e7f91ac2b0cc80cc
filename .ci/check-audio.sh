#!/usr/bin/env bash
# The examples as sound files: flac and sox read them, FLAC and WAVE have the same samples, and what is
# heard agrees with fluidsynth, which plays the same MIDI file with the same SoundFont. A folder as first
# argument keeps the files.
set -euo pipefail
cd "$(dirname "$0")/.."
keep=${1:-}
dir=${keep:-$(mktemp -d)}
mkdir -p "$dir"
[ -n "$keep" ] || trap 'rm -rf "$dir"' EXIT
font=/usr/share/sounds/sf2/TimGM6mb.sf2

go build -o "$dir/plinth" ./cmd/plinth
for song in examples/*.song.hcl; do
  name=$(basename "$song" .song.hcl)
  # Without what fluidsynth is not given to play, or plays all through the song.
  "$dir/plinth" build "$song" --out "$dir" --with audio --soundfont "$font" --mute guide,click,pitch
  flac --silent --test "$dir/$name.flac"
  flac --silent --decode --force-raw-format --endian=little --sign=signed -f -o "$dir/flac.raw" "$dir/$name.flac"
  tail -c +45 "$dir/$name.wav" | cmp - "$dir/flac.raw"
  # The peak of the mix is -1 dBFS, and nothing is clipped. grep reads to the end: sox fails where nobody listens.
  sox "$dir/$name.wav" -n stats 2>&1 | grep -E '^Pk lev dB +-1\.00 ' >/dev/null
  /usr/bin/python3 .ci/check-audio.py "$dir" "$name" "$font"
  rm -rf "$dir/flac.raw" "$dir/$name".*
done
echo 'check-audio: the examples sound as they should'
