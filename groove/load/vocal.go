package load

import (
	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/guide"
)

// VoiceCheck returns warnings, at the vocal's line, of what is doubtful between the guide
// vocal and the song: clashes of long sung notes with written chords, and notes outside the
// stated range. It needs a Timeline.
func (s *Song) VoiceCheck() hcl.Diagnostics {
	if s.Timeline == nil || s.Timeline.Vocal == nil {
		return nil
	}
	return s.atVocal(guide.Check(s.Timeline))
}

// atVocal places problems of the guide vocal at the line of the song file that names it.
func (s *Song) atVocal(problems []guide.Problem) hcl.Diagnostics {
	var out hcl.Diagnostics
	for _, p := range problems {
		severity := hcl.DiagWarning
		if p.Error {
			severity = hcl.DiagError
		}
		at := s.vocalAt
		out = append(out, &hcl.Diagnostic{Severity: severity, Summary: p.Summary, Detail: p.Detail, Subject: &at})
	}
	return out
}
