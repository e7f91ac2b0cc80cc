package meter

import (
	"fmt"
	"testing"
)

func TestParse(t *testing.T) {
	// Beats: common practice, no single source.
	for _, row := range []struct {
		text, reason, beats string
		tempo, bar          int64
		compound            bool
	}{
		{"4/4", "four quarters", "[0 960 1920 2880]", 960, 3840, false},
		{"3/4", "three quarters", "[0 960 1920]", 960, 2880, false},
		{"2/2", "two halves; the tempo counts them", "[0 1920]", 1920, 3840, false},
		{"6/8", "two dotted quarters", "[0 1440]", 1440, 2880, true},
		{"9/8", "three dotted quarters", "[0 1440 2880]", 1440, 4320, true},
		{"12/8", "four dotted quarters", "[0 1440 2880 4320]", 1440, 5760, true},
		{"12/8 3+3+3+3", "the groups that it has anyhow", "[0 1440 2880 4320]", 1440, 5760, true},
		{"12/8 3+3+2+2+2", "other groups count quarters", "[0 1440 2880 3840 4800]", 960, 5760, false},
		{"5/8", "three and two where nothing is said", "[0 1440]", 960, 2400, false},
		{"7/8", "two, two and three where nothing is said", "[0 960 1920]", 960, 3360, false},
		{"7/8 3+2+2", "as it is said", "[0 1440 2400]", 960, 3360, false},
		{"5/4", "five quarters", "[0 960 1920 2880 3840]", 960, 4800, false},
	} {
		m, err := Parse(row.text)
		if err != nil {
			t.Fatal(err)
		}
		if m.String() != row.text || fmt.Sprint(m.Beats()) != row.beats || m.TempoTicks() != row.tempo ||
			m.BarTicks() != row.bar || m.Compound() != row.compound {
			t.Errorf("%s (%s): %v %d %d %v", row.text, row.reason, m.Beats(), m.TempoTicks(), m.BarTicks(),
				m.Compound())
		}
	}
	for _, bad := range []string{"", "4", "0/4", "33/4", "4/3", "4/64", "04/4", "4/4 2+3", "7/8 2+2+x", "7/8 0+7",
		"7/8 2+2+3+", "-4/4"} {
		if m, err := Parse(bad); err == nil {
			t.Errorf("%q was read as %s", bad, m)
		}
	}
}

func TestNextBeat(t *testing.T) {
	for _, row := range []struct {
		meter, reason string
		tick, want    int64
	}{
		{"4/4", "from a beat to the next one", 0, 960},
		{"4/4", "from between", 1440, 1920},
		{"4/4", "over the bar line", 3360, 3840},
		{"12/8", "dotted quarters", 5280, 5760},
		{"7/8", "its groups", 960, 1920},
	} {
		m, _ := Parse(row.meter)
		if got := m.NextBeat(row.tick); got != row.want {
			t.Errorf("%s (%s): got %d, want %d", row.meter, row.reason, got, row.want)
		}
	}
}
