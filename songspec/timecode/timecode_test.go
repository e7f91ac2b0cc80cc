package timecode

import (
	"encoding/csv"
	"os"
	"slices"
	"strconv"
	"testing"
)

func rate(t testing.TB, name string) Rate {
	i := slices.IndexFunc(Rates, func(r Rate) bool { return r.Name == name })
	if i < 0 {
		t.Fatalf("no rate %s", name)
	}
	return Rates[i]
}

// The frames of drop-frame and plain codes are those that the standard counts.
func TestReference(t *testing.T) {
	file, err := os.Open("../../testdata/reference/smpte_drop_frame.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil || len(rows) < 15 {
		t.Fatal(len(rows), err)
	}
	for _, row := range rows[1:] {
		frame, c, err := Parse(row[1], rate(t, row[0]))
		if err != nil || strconv.Itoa(int(frame)) != row[2] || c.Code(frame) != row[1] {
			t.Errorf("%v: %d, back %s, %v", row, frame, c.Code(frame), err)
		}
	}
}

// Every frame of a day has a code of its own, and the next code is the next frame.
func TestEveryFrame(t *testing.T) {
	for _, name := range []string{"29.97", "59.94", "24"} {
		c := Count{Rate: rate(t, name)}
		c.Drop = c.Drops()
		for frame := Frame(0); frame < 3*36000; frame++ {
			got, _, err := Parse(c.Code(frame), c.Rate)
			if err != nil || got != frame {
				t.Fatalf("%s: frame %d is %s, and that is %d, %v", name, frame, c.Code(frame), got, err)
			}
		}
	}
	drop := Count{rate(t, "29.97"), true}
	if got := drop.Code(2589408); got != "00:00:00;00" {
		t.Errorf("after a day: %s", got)
	}
	if got := drop.Code(-1); got != "23:59:59;29" {
		t.Errorf("before the first: %s", got)
	}
}

// An hour of drop-frame code is an hour but for 3.6 milliseconds; an hour of plain code at 29.97
// and at 23.976 is 3.6 seconds longer.
func TestMicros(t *testing.T) {
	for _, row := range []struct {
		rate, code string
		micros     int64
	}{
		{"29.97", "01:00:00;00", 3_599_996_400}, {"29.97", "01:00:00:00", 3_603_600_000},
		{"23.976", "01:00:00:00", 3_603_600_000}, {"24", "00:00:00:01", 41_667}, {"25", "00:01:00:12", 60_480_000},
	} {
		frame, c, err := Parse(row.code, rate(t, row.rate))
		if got := c.Micros(0, frame); err != nil || got != row.micros {
			t.Errorf("%s at %s: %d, %v", row.code, row.rate, got, err)
		}
		for _, off := range []int64{0, 8_000, -8_000} { // less than half a frame
			if got := c.At(0, row.micros+off); got != frame {
				t.Errorf("%s at %s, %d away: frame %d, not %d", row.code, row.rate, off, got, frame)
			}
		}
	}
}

func TestMistakes(t *testing.T) {
	for _, row := range []struct{ rate, code, help string }{
		{"24", "1:02:10:00", `A time code is hours, minutes, seconds and frames: "01:02:10:00".`},
		{"24", "01:02:10;00", `At 24 no frames are dropped: write "01:02:10:00".`},
		{"24", "01:02:10:24", "At 24 the frames of a second go from 00 to 23."},
		{"24", "24:00:00:00", "Hours go to 23, minutes and seconds to 59."},
		{"29.97", "00:01:00;00", `The minute 01 begins with frame 02 where frames are dropped: write "00:01:00;02".`},
	} {
		if _, _, err := Parse(row.code, rate(t, row.rate)); err == nil || err.Error() != row.help {
			t.Errorf("%s at %s: %v", row.code, row.rate, err)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"01:02:10:00", "00:01:00;02", "", "::::", "23:59:59;29", "99:99:99:99"} {
		for i := range Rates {
			f.Add(s, i)
		}
	}
	f.Fuzz(func(t *testing.T, s string, i int) {
		if i < 0 || i >= len(Rates) {
			t.Skip()
		}
		frame, c, err := Parse(s, Rates[i])
		if err == nil && c.Code(frame) != s {
			t.Fatalf("%s at %s is %s", s, c.Name, c.Code(frame))
		}
	})
}
