package load

import (
	"github.com/hashicorp/hcl/v2"

	"plinth/songspec/guide"
)

// VoiceCheck is what is doubtful between the guide vocal and the song: clashes of
// long sung notes with written chords, notes outside the stated range. All are
// warnings, at the vocal's line. It needs a Timeline.
func (s *Song) VoiceCheck() hcl.Diagnostics {
	if s.Timeline == nil || s.Timeline.Vocal == nil {
		return nil
	}
	return s.atVocal(guide.Check(s.Timeline))
}

// atVocal places what the guide says of the voice at the vocal's line.
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
