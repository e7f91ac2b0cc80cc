// Package sketch is a small bank of sounds that plinth computes itself, for machines without a SoundFont. It is a
// sketch: it tells the players apart, keeps pitch, touch and time, and is meant to be pleasant for an hour. A sampled
// bank sounds better.
//
// Nothing is embedded and nothing is random: a note is computed when it is asked for, from the numbers in this package.
//
//	piano          modes of stretched strings: two for each partial, of which one dies away late; a hammer that lets
//	               fewer partials through when it is slow; a soundboard that radiates unevenly and knocks
//	electric piano tines or reeds in front of pickups: harmonics that die the sooner the higher they are, and a bell
//	harpsichord,   plucked strings, by the place where they are plucked
//	clavinet
//	basses         plucked strings with two rates of decay, under pickups or on a body; synths are harmonics that
//	               close one after the other
//	drums          a skin's modes that glide down to their pitch, and noise for beater, stick and wires
//	cymbals        up to a hundred modes over ten thousand hertz, and noise that swells where there are too many
//	brushes        noise of single wires: a tap, a slap, a sweep that swells and has no stroke
//	the rest       blocks of a few modes, shaken grains, a woodblock for the click, an oo for the guide
//
// Sources stand beside the figures. Those of books are from memory. Levels, decays and the balance of the octaves
// were set beside two sampled General MIDI banks (TimGM6mb and FluidR3) as measured: where those two differ the sketch
// lies between them or on the darker side; no sample of theirs went into it.
//
// A note is as loud at any layer: the layers of a key differ in colour, and the player gives the gain of touch. What
// lies 50 dB under a note's peak, or 58 under a piano's, is cut off behind a fade.
package sketch
