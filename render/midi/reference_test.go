// The tables of Standard MIDI Files 1.0 and General MIDI Level 1 are in
// testdata/reference, whose README names the origin of each.

package midi

import (
	"encoding/csv"
	"encoding/hex"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"plinth/songspec/harmony"
	"plinth/songspec/meter"

	"gitlab.com/gomidi/midi/v2/gm"
	"gitlab.com/gomidi/midi/v2/smf"
)

// referenceTable reads a reference table without its heading. It fails on fewer than least
// rows, so that no empty table passes for a right one.
func referenceTable(t *testing.T, name string, least int) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "reference", name))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) < least+1 {
		t.Fatalf("%s has %d rows, expected %d", name, len(rows)-1, least)
	}
	return rows[1:]
}

func unhex(t *testing.T, s string) string {
	t.Helper()
	b, err := hex.DecodeString(strings.ReplaceAll(s, " ", ""))
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// Source: Standard MIDI Files 1.0, variable-length quantities.
func TestQuantities(t *testing.T) {
	for _, row := range referenceTable(t, "smf_vlq.csv", 12) {
		want := unhex(t, row[2])
		value, err := strconv.ParseInt(row[1], 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		r := reader{data: []byte(want)}
		if got, err := r.quantity(); got != value || err != nil || r.pos < len(r.data) {
			t.Errorf("reading % X gives %d, %v and leaves %d bytes; expected %d", want, got, err, len(r.data)-r.pos,
				value)
		}
		// What we write: a track that ends after that many ticks.
		var b trackBuilder
		b.add(0, smf.MetaTrackSequenceName("x"))
		track, err := b.close(value)
		if err != nil {
			t.Errorf("%d ticks: %v", value, err)
			continue
		}
		song := smf.NewSMF1()
		song.NoRunningStatus = true
		if err := song.Add(track); err != nil {
			t.Fatal(err)
		}
		file, err := song.Bytes()
		if err != nil {
			t.Fatal(err)
		}
		if !strings.HasSuffix(string(file), "x"+want+"\xff\x2f\x00") {
			t.Errorf("a delta of %d is written % X, expected % X before the end", value, file[len(file)-8:], want)
		}
	}
	for _, row := range []struct{ name, bytes string }{
		{"five bytes are one too many", "\x81\x80\x80\x80\x00"},
		{"an empty byte in front says nothing", "\x80\x01"},
	} {
		r := reader{data: []byte(row.bytes)}
		if _, err := r.quantity(); err == nil {
			t.Errorf("%s: % X is read without complaint", row.name, row.bytes)
		}
	}
}

// Source: Standard MIDI Files 1.0, set tempo; microseconds rounded half up.
func TestTempoBytes(t *testing.T) {
	for _, row := range referenceTable(t, "smf_tempo_bytes.csv", 48) {
		micros, _ := strconv.ParseInt(row[1], 10, 64)
		got, err := tempoMessage(micros)
		if want := "\xff\x51\x03" + unhex(t, row[2]); err != nil || string(got) != want {
			t.Errorf("%s quarters a minute: % X (%v), expected % X", row[0], got, err, want)
		}
	}
	for _, micros := range []int64{0, -1, maxMicros + 1} {
		if m, err := tempoMessage(micros); err == nil {
			t.Errorf("%d microseconds a quarter do not fit, but give % X", micros, m)
		}
	}
}

// Source: Standard MIDI Files 1.0, time signature; its example for 6/8.
func TestMeterBytes(t *testing.T) {
	for _, row := range referenceTable(t, "smf_time_signature_bytes.csv", 9) {
		m, err := meter.Parse(row[0])
		if err != nil {
			t.Fatal(err)
		}
		got, err := meterMessage(m)
		if want := unhex(t, row[1]); err != nil || string(got) != want {
			t.Errorf("%s: % X (%v), expected % X", row[0], got, err, want)
		}
	}
	for _, m := range []meter.Meter{{Num: 5, Den: 6}, {Num: 0, Den: 4}, {Num: 256, Den: 4}, {Num: 4, Den: 64},
		{Num: 4}} {
		if got, err := meterMessage(m); err == nil {
			t.Errorf("%d/%d cannot be written, but gives % X", m.Num, m.Den, got)
		}
	}
}

// Source: Standard MIDI Files 1.0, key signature.
func TestKeyBytes(t *testing.T) {
	for _, row := range referenceTable(t, "smf_key_signature_bytes.csv", 30) {
		k, err := harmony.ParseKey(row[0])
		if err != nil {
			t.Fatal(err)
		}
		got, err := keyMessage(k)
		if want := unhex(t, row[3]); err != nil || string(got) != want {
			t.Errorf("%s: % X (%v), expected % X", row[0], got, err, want)
		}
	}
}

// Source: General MIDI Level 1 sound set; for the wood block and the kits, which
// the table does not hold, gomidi's own list.
func TestProgramNames(t *testing.T) {
	names := map[string]string{}
	for _, row := range referenceTable(t, "gm_programs_1-76.csv", 76) {
		names[row[0]] = row[2]
	}
	for program, name := range programNames {
		want, ok := names[fmt.Sprint(program)]
		if !ok {
			want = gm.Instr(program).String()
		}
		if name != want {
			t.Errorf("program %d is called %q, expected %q", program, name, want)
		}
	}
	if got := kitSound("brushes").Program; got != uint8(gm.DrumKit_Brush) {
		t.Errorf("brushes are program %d, expected %d", got, gm.DrumKit_Brush)
	}
	for _, word := range []string{"", "standard", "sticks"} {
		if got := kitSound(word).Program; got != 0 {
			t.Errorf("kit %q is program %d, expected General MIDI's only one", word, got)
		}
	}
	if got := programSound(200).Name; got != "Program 201" {
		t.Errorf("a program without a name is called %q", got)
	}
}

// Source: General MIDI Level 1 percussion map.
func TestClickIsAWoodBlock(t *testing.T) {
	for _, row := range referenceTable(t, "gm_percussion.csv", 47) {
		if row[2] == "Hi Wood Block" && row[0] != strconv.Itoa(percussionHigh) {
			t.Errorf("the high wood block is key %s, expected %d", row[0], percussionHigh)
		}
	}
}
