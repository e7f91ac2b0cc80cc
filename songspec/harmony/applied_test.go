package harmony

import "testing"

// TestReadApplied: the parts of an applied chord, and the chord that would be meant if the
// slash named a bass. Worked by hand.
func TestReadApplied(t *testing.T) {
	for _, c := range []struct {
		text, key, target string
		leads             Function
		over, written     string
	}{
		{"V7/V", "C", "V", Leading, "", ""},
		{"V/vi", "C", "vi", Leading, "G/A", "V/2"},
		{"viio7/ii", "C", "ii", Leading, "Bdim7/D", "viio7/3"},
		{"viiø7/V", "C", "V", Leading, "Bm7b5/G", "viiø7/6"},
		{"vii/V", "C", "V", Passing, "Bm/G", "vii/6"},
		{"v7/IV", "C", "IV", Passing, "Gm7/F", "v7/7"},
		{"bII7/V", "C", "V", Leading, "Db7/G", "bII7/#4"},
		{"ii7/V", "C", "V", Preparing, "Dm7/G", "ii7/4"},
		{"iv6/V", "C", "V", Preparing, "Fm6/G", "iv6/2"},
		{"IV/V", "C", "V", Passing, "F/G", "IV/2"},
		{"IV/V", "Eb", "V", Passing, "Ab/Bb", "IV/2"},
		{"I/bVII", "C", "bVII", Passing, "C/Bb", "I/b7"},
		{"i/V", "Cm", "V", Passing, "Cm/G", "i/5"},
		{"IVadd9/V", "C", "V", Passing, "Fadd9/G", "IVadd9/2"},
		{"V7/V/V", "C", "V/V", Leading, "G7/D", "V7/5"},
	} {
		k, err := ParseKey(c.key)
		if err != nil {
			t.Fatal(err)
		}
		a, ok := ReadApplied(c.text, k)
		if !ok {
			t.Errorf("%s in %s is no applied chord", c.text, c.key)
			continue
		}
		over := ""
		if a.OverWritten != "" {
			over = a.Over.String()
		}
		if a.Target != c.target || a.Leads != c.leads || over != c.over || a.OverWritten != c.written {
			t.Errorf("%s in %s: of %s, leads %d, over %q as %q; want %s, %d, %q as %q", c.text, c.key, a.Target,
				a.Leads, over, a.OverWritten, c.target, c.leads, c.over, c.written)
		}
		if a.OverWritten != "" {
			if back, err := ParseNumeral(a.OverWritten, k); err != nil || back.String() != a.Over.String() {
				t.Errorf("%s is %v, %v, not %s", a.OverWritten, back, err, a.Over)
			}
		}
	}
	for _, s := range []string{"IV", "I/5", "I6/9", "V7/V/3", "I64/V", "Ger65/V", "N/V", "V54/V", "V7/9",
		"N.C.", "F/G", "V/X", "/V", "iv6", "N6", "",
		"V/"} {
		if a, ok := ReadApplied(s, Key{}); ok {
			t.Errorf("%q is read as applied: %+v", s, a)
		}
	}
}
