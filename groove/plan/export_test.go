package plan

// What the tests of this package see of it besides what all do.

var SwingRatio = swingRatio

func (s Swing) Place(at int64) int64 { return s.placeOf(at) }

func (p *Plan) Answers(bar, pattern int) bool { return p.answers(bar, pattern) }
