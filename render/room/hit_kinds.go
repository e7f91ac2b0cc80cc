package room

import (
	"fmt"
	"slices"
	"strconv"

	"plinth/songspec/cue"
	"plinth/songspec/timeline"
)

// hitKind is how the report reads and words one kind of hit.
type hitKind struct {
	kind timeline.EventKind
	cue  cue.Kind
	// read puts what the cue q of the pass p says into a hit.
	read func(h *Hit, p *timeline.Pass, q *cue.Cue)
	// words says a hit within its bar.
	words func(h *Hit) string
	after string // what stands between the bars and the words
	named bool   // the players are named where they are not everybody who plays
}

// hitKinds has a row for each kind of hit, in the order of the report.
var hitKinds = [...]hitKind{
	{timeline.Accent, cue.Accent, func(h *Hit, _ *timeline.Pass, q *cue.Cue) {
		h.Weight, h.Alone, h.Short = int(q.Weight), q.Alone, q.Short
	}, func(h *Hit) string {
		if h.Short {
			return h.Count + " short"
		}
		return h.Count
	}, ": ", true},
	{timeline.Push, cue.Chord, func(h *Hit, p *timeline.Pass, q *cue.Cue) {
		h.Chord = pushedChord(p, q)
	}, func(h *Hit) string { return h.Count + " " + h.Chord }, ": ", true},
	{timeline.Stop, cue.Stop, func(h *Hit, p *timeline.Pass, q *cue.Cue) {
		h.End, h.Beats = p.Start+q.Until, (q.Until-q.At)*1000/p.Meter.TempoTicks()
		if tacet := p.TacetAt(int(q.Bar)); q.By|tacet == timeline.All { // who keeps out of the bar is silent, too
			h.By |= tacet &^ p.Tacet
		}
	}, func(h *Hit) string { return fmt.Sprintf("count %s for %s", h.Count, beatWords(h.Beats)) }, " ", true},
	{timeline.Hold, cue.Hold, func(h *Hit, p *timeline.Pass, q *cue.Cue) {
		h.By, h.End, h.Beats = 0, p.Start+q.Until, p.Events[q.Event].Extra*1000/p.Meter.TempoTicks()
	}, func(h *Hit) string { return fmt.Sprintf("count %s, %s longer", h.Count, beatWords(h.Beats)) }, " ", false},
	{timeline.Rit, cue.Rit, readMove, moveWords, ": ", false},
	{timeline.Accel, cue.Accel, readMove, moveWords, ": ", false},
	{timeline.Cue, cue.Signal, func(h *Hit, p *timeline.Pass, q *cue.Cue) {
		h.By, h.Text = 0, p.Events[q.Event].Text
	}, func(h *Hit) string { return "count " + h.Count + " " + strconv.Quote(h.Text) }, " ", false},
	{timeline.Caesura, cue.Caesura, func(h *Hit, p *timeline.Pass, q *cue.Cue) {
		e := &p.Events[q.Event]
		b := &p.Bars[e.Bar]
		h.By, h.End, h.Count = 0, p.Start+q.Until, b.Meter.CountAt(e.Tick-b.Start)
		h.Beats = e.Extra * 1000 / p.Meter.TempoTicks()
	}, func(h *Hit) string { return fmt.Sprintf("after count %s for %s", h.Count, beatWords(h.Beats)) }, " ", false},
}

// kindOf is the row of a kind of hit.
func kindOf(kind timeline.EventKind) *hitKind {
	return &hitKinds[slices.IndexFunc(hitKinds[:], func(k hitKind) bool { return k.kind == kind })]
}

// readMove reads a rit or an accel.
func readMove(h *Hit, p *timeline.Pass, q *cue.Cue) {
	e := &p.Events[q.Event]
	_, last, _, to := p.Stretch(e)
	h.By, h.End, h.To, h.LastBar, h.LastCount = 0, p.Start+q.Until, e.To, p.FirstBar+last, to
}

// moveWords says where a rit or an accel goes.
func moveWords(h *Hit) string {
	if h.LastCount == "" {
		return fmt.Sprintf("to %s", h.To)
	}
	return fmt.Sprintf("from %s to %s, reaching %s", h.Count, h.LastCount, h.To)
}

// pushedChord is the chord that a push brings early, "" where there is none.
func pushedChord(p *timeline.Pass, q *cue.Cue) string {
	switch {
	case q.Span >= 0:
		return p.Chords[q.Span].Chord.String()
	case p.After != nil:
		return p.After.Chord.String()
	}
	return ""
}
