#!/usr/bin/env bash
# Every MIDI file that plinth makes of the examples and of its own starter song
# is read by two independent readers (midicsv and mido), which must agree, and is
# played, player by player, by a General MIDI player (fluidsynth) with sound where
# notes are and silence where none are. A folder as first argument keeps the files.
set -euo pipefail
cd "$(dirname "$0")/.."
keep=${1:-}
dir=${keep:-$(mktemp -d)}
mkdir -p "$dir"
[ -n "$keep" ] || trap 'rm -rf "$dir"' EXIT

go build -o "$dir/plinth" ./cmd/plinth
rm -f "$dir/starter.song.hcl"
"$dir/plinth" new "$dir/starter.song.hcl"
songs=(examples/*.song.hcl "$dir/starter.song.hcl")
[ -e "${songs[0]}" ] || { echo 'no examples'; exit 1; }
for song in "${songs[@]}"; do
  "$dir/plinth" build "$song" --out "$dir"
  mid="$dir/$(basename "$song" .song.hcl).mid"
  complaints=$(midicsv "$mid" "$mid.csv" 2>&1)
  test -z "$complaints" || { echo "midicsv on $mid: $complaints"; exit 1; }
  /usr/bin/python3 .ci/check-midi.py "$mid" "$mid.csv" /usr/share/sounds/sf2/TimGM6mb.sf2
done
echo "check-midi: ${#songs[@]} songs read and played"
