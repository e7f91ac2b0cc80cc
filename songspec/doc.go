// Package songspec reads a song file: an HCL text, written by hand, becomes a
// timeline.Timeline, or a list of diagnostics that say what to write instead.
//
// The stages, each in files of its own:
//
//	guard     bounds on size, characters, nesting: before HCL sees the text
//	dialect   what package hcltext has to know of songs to put HCL's messages into our words
//	decode    blocks and attributes into File, every value with its range
//	chart     chord text into bars, repeats written out
//	resolve   File, with the feels there are, into a Timeline
//
// Nothing here touches the disk, the clock or the network. A path in a song file is only
// checked as text (see Ref); the program that opens the file has to check it again.
//
// # The voice of the messages
//
// The reader is a musician with an editor open, not a programmer. Summary is a
// few words without a full stop that name the thing ("No feel of that name").
// Detail is one or two full sentences and says what to write, with the words
// ready to copy: `Write tempo = 72.` Text from the song file stands in double
// quotes, code in none. Words of the trade (bar, beat, feel, lift) before words
// of computing (attribute, token, integer). Nobody is told off: no "invalid",
// no "illegal", no exclamation mark. A bound is always named with its figure. The range is
// as tight as it can be: the count in a place, the chord in a bar.
package songspec
