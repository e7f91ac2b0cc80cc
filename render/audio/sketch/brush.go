package sketch

// brushTap is a brush that falls on a snare drum: some fifty wires that do not arrive at once, the skin behind
// them low and soft, the drum's own wires hardly awake.
func brushTap(d *dice, touch float64) *take {
	t := &take{}
	t.blow(d, hiss{rise: 0.0035, fall: 0.022, amp: 1, width: 0.5, grain: 9000,
		filters: []filter{bandPass(1250+400*touch, 0.35), lowPass(6500, 0.6)}})
	t.blow(d, hiss{rise: 0.006, fall: 0.06, amp: 0.18 + 0.12*touch, width: 0.9,
		filters: []filter{highPass(1200, 0.6), lowPass(5500, 0.6)}})
	t.drop(glide{freq: 188, over: 8, falls: 0.01, decay: 34, amp: 0.10 + 0.05*touch})
	t.drop(glide{freq: 300, decay: 45, falls: 0.01, amp: 0.07})
	t.rise(0.002)
	return t
}

// brushSlap is a brush pressed flat on the skin.
func brushSlap(d *dice, touch float64) *take {
	t := &take{}
	t.blow(d, hiss{rise: 0.0015, fall: 0.016, amp: 1, width: 0.4, grain: 16000,
		filters: []filter{bandPass(1500+500*touch, 0.35), lowPass(8000, 0.6)}})
	t.blow(d, hiss{rise: 0.004, fall: 0.075, amp: 0.25, width: 0.9,
		filters: []filter{highPass(1300, 0.6), lowPass(6000, 0.6)}})
	t.drop(glide{freq: 196, over: 20, falls: 0.01, decay: 28, amp: 0.22})
	t.drop(glide{freq: 312, over: 20, decay: 36, falls: 0.01, amp: 0.14})
	t.rise(0.0012)
	return t
}

// brushSweep is a brush drawn in a curve over the skin: noise that swells and goes, no stroke in it.
func brushSweep(d *dice, touch float64) *take {
	t := &take{}
	t.blow(d, hiss{rise: 0.10, fall: 0.12, amp: 1, width: 0.7,
		filters: []filter{bandPass(1800+400*touch, 0.45), lowPass(6500, 0.6), highPass(350, 0.6)}})
	t.blow(d, hiss{rise: 0.11, fall: 0.11, amp: 0.9, width: 1,
		filters: []filter{bandPass(750, 0.6)}})
	t.rise(0.03)
	return t
}
