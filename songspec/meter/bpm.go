package meter

import (
	"encoding/json"

	"plinth/songspec/wording"
)

// BPM is a tempo in thousandths of a beat a minute: 61.5 beats are 61500. Which beat, the meter
// says, see TempoTicks.
type BPM int64

// Whole is a tempo of whole beats a minute.
func Whole(beats int) BPM { return BPM(beats) * 1000 }

// String is the tempo as a song file has it, without trailing zeros: "61.5", "72".
func (b BPM) String() string { return wording.Thousandths(int64(b)) }

// IsWhole reports whether the tempo is one of whole beats a minute.
func (b BPM) IsWhole() bool { return b%1000 == 0 }

// MarshalJSON is the tempo as a number.
func (b BPM) MarshalJSON() ([]byte, error) { return json.Marshal(json.Number(b.String())) }
