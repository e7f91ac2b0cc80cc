package load

import (
	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/guide"
)

// VoiceCheck returns warnings, at each vocal's line, of what is doubtful between the guide
// vocal and the song: clashes of long sung notes with written chords, and notes outside the
// stated range. It needs a Timeline.
func (s *Song) VoiceCheck() (out hcl.Diagnostics) {
	if s.Timeline == nil {
		return nil
	}
	for i := range s.Timeline.Vocals {
		out = append(out, s.atVocal(i, guide.Check(s.Timeline, i))...)
	}
	return out
}

// joinSingers makes one singer of the files of one name, each of which is placed.
func (l *loader) joinSingers() {
	stay, doubts := guide.Join(l.Timeline)
	for i := range doubts {
		l.add(l.atVocal(i, doubts[i]))
	}
	var at []hcl.Range
	for _, i := range stay {
		at = append(at, l.vocalAt[i])
	}
	l.vocalAt = at
}

// atVocal places problems of a guide vocal at the line of the song file that names it.
func (s *Song) atVocal(singer int, problems []guide.Problem) (out hcl.Diagnostics) {
	for _, p := range problems {
		severity := hcl.DiagWarning
		if p.Error {
			severity = hcl.DiagError
		}
		at := s.vocalAt[singer]
		out = append(out, &hcl.Diagnostic{Severity: severity, Summary: p.Summary, Detail: p.Detail, Subject: &at})
	}
	return out
}
