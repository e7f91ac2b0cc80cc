package pianist

import (
	"plinth/groove/groovetest"
	"testing"
)

// Under a high note that the singer holds the comp stays where it is, an octave
// below and of the same name if need be: at the height of a chorus it does not sink
// away from under the voice. A moving note it does not play along with. Common
// practice, no single source. The ceiling here is E4, a third under the Ab4 that the
// voice moves about.
func TestCompStaysUpUnderAHeldHighNote(t *testing.T) {
	for _, row := range []struct {
		name   string
		length int64
		stays  bool
	}{
		{"held", 2*quarter - eighth, true},
		{"moving", eighth, false},
	} {
		pass := groovetest.PassOf(t, "Ab|Eb/Bb|Cb Db|Eb", 4)
		var line [][3]int64
		for i := int64(0); i < 8; i++ {
			line = append(line, [3]int64{i * quarter, eighth, 68})
		}
		line = append(line, [3]int64{2 * bar44, row.length, 75}, [3]int64{2*bar44 + 2*quarter, row.length, 73})
		vs := chordsOf(groovetest.PlanOf(groovetest.Sing(pass, line...), groovetest.CompFeel("c===============")))
		for i, tune := range []int{75, 73} {
			before, v := vs[1+i], vs[2+i]
			if row.stays && before.Top()-v.Top() > 2 {
				t.Errorf("%s: the comp sinks from %s to %s", row.name, names(before), names(v))
			}
			if !row.stays && v.Top()%12 == tune%12 {
				t.Errorf("%s: the top voice of %s goes with the tune", row.name, names(v))
			}
		}
	}
}
