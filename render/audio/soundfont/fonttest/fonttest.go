// Package fonttest builds small SoundFonts for tests, byte by byte as the SoundFont Technical
// Specification 2.04 has them; section numbers are its own.
package fonttest

import (
	"bytes"
	"encoding/binary"
	"math"
)

// Generators that the tests use (8.1.2).
const (
	Pan           = 17
	Decay         = 36
	Sustain       = 37
	Release       = 38
	instrument    = 41
	keyRange      = 43
	velocityRange = 44
	sampleID      = 53
	SampleModes   = 54
	Class         = 57
)

// Gen is a generator and its amount (7.5).
type Gen struct {
	Oper   uint16
	Amount int16
}

// span is the generator of a range (8.1.2, 43 and 44).
func span(oper uint16, from, to uint8) Gen { return Gen{oper, int16(uint16(to)<<8 | uint16(from))} }

func onKey(key uint8) Gen           { return span(keyRange, key, key) }
func velocities(from, to uint8) Gen { return span(velocityRange, from, to) }

// Zone is an instrument's zone: a sample with its generators.
type Zone struct {
	Gens   []Gen
	Sample int
}

// Preset is a preset of one zone, with an instrument of its own.
type Preset struct {
	Number, Bank uint16
	Gens         []Gen
	Zones        []Zone
}

// Sample is a sample (7.10), looped as a whole.
type Sample struct {
	Points []int16
	Rate   uint32
	Key    uint8
	Type   uint16 // 1: mono
}

// Font is a SoundFont.
type Font struct {
	Major   uint16 // of the version (5.1); 0: 2
	Samples []Sample
	Presets []Preset
}

// tone is a sample of whole periods of a sine at a fraction of full scale.
func tone(periods, length int, level float64) []int16 {
	out := make([]int16, length)
	for i := range out {
		out[i] = int16(math.Round(32767 * level * math.Sin(2*math.Pi*float64(periods*i)/float64(length))))
	}
	return out
}

// Small has a melodic preset of a held tone and two kits: key 38 of the first has two layers,
// 42 and 46 are a class, in stereo, and 49 rings on, held or not.
func Small() *Font {
	held := Sample{tone(10, 1000, 0.5), 48000, 69, 1}
	left := []Gen{{Pan, -500}, {SampleModes, 0}, {Release, 1200}, {Class, 1}}
	right := []Gen{{Pan, 500}, {SampleModes, 0}, {Release, 1200}, {Class, 1}}
	keyed := func(g []Gen, key uint8) []Gen { return append([]Gen{onKey(key)}, g...) }
	return &Font{Samples: []Sample{held, {tone(100, 4800, 0.25), 48000, 60, 1}}, Presets: []Preset{
		{0, 0, nil, []Zone{{[]Gen{{SampleModes, 1}, {Decay, 1200}, {Sustain, 1000}, {Release, -1200}}, 0}}},
		{0, 128, []Gen{{Release, -1200}}, []Zone{
			{[]Gen{onKey(38), velocities(0, 63)}, 0},
			{[]Gen{onKey(38), velocities(64, 127)}, 1},
			{[]Gen{onKey(49), {Decay, 0}, {Sustain, 1000}, {Release, 1200}, {SampleModes, 1}}, 0},
			{keyed(left, 42), 0}, {keyed(right, 42), 1}, {keyed(left, 46), 1}, {keyed(right, 46), 0},
		}},
		{16, 128, nil, []Zone{{[]Gen{onKey(38)}, 1}}},
	}}
}

// Bytes is the file (4.4).
func (f *Font) Bytes() []byte {
	var smpl, phdr, pbag, pgen, inst, ibag, igen, shdr bytes.Buffer
	for _, s := range f.Samples {
		start := smpl.Len() / 2
		put(&smpl, s.Points)
		end := smpl.Len() / 2
		put(&smpl, make([]int16, 46)) // 6.1
		put(&shdr, name("sample"), uint32(start), uint32(end), uint32(start), uint32(end), s.Rate, s.Key, int8(0),
			uint16(0), s.Type)
	}
	put(&shdr, name("EOS"), make([]byte, 26))
	for i, p := range f.Presets {
		put(&phdr, name("preset"), p.Number, p.Bank, uint16(pbag.Len()/4), make([]byte, 12))
		put(&pbag, uint16(pgen.Len()/4), uint16(0))
		put(&pgen, p.Gens, Gen{instrument, int16(i)})
		put(&inst, name("instrument"), uint16(ibag.Len()/4))
		for _, z := range p.Zones {
			put(&ibag, uint16(igen.Len()/4), uint16(0))
			put(&igen, z.Gens, Gen{sampleID, int16(z.Sample)})
		}
	}
	put(&phdr, name("EOP"), make([]byte, 4), uint16(pbag.Len()/4), make([]byte, 12))
	put(&inst, name("EOI"), uint16(ibag.Len()/4))
	for bag, gen := range map[*bytes.Buffer]*bytes.Buffer{&pbag: &pgen, &ibag: &igen} {
		put(bag, uint16(gen.Len()/4), uint16(0))
		put(gen, uint32(0))
	}
	major := f.Major
	if major == 0 {
		major = 2
	}
	info := list("INFO", chunk("ifil", join(major, uint16(4))), chunk("isng", []byte("EMU8000\x00")),
		chunk("INAM", []byte("small\x00")))
	pdta := list("pdta", chunk("phdr", phdr.Bytes()), chunk("pbag", pbag.Bytes()), chunk("pmod", make([]byte, 10)),
		chunk("pgen", pgen.Bytes()), chunk("inst", inst.Bytes()), chunk("ibag", ibag.Bytes()),
		chunk("imod", make([]byte, 10)), chunk("igen", igen.Bytes()), chunk("shdr", shdr.Bytes()))
	return chunk("RIFF", join([]byte("sfbk"), info, list("sdta", chunk("smpl", smpl.Bytes())), pdta))
}

func name(s string) (out [20]byte) {
	copy(out[:], s)
	return out
}

func put(to *bytes.Buffer, values ...any) {
	for _, v := range values {
		if err := binary.Write(to, binary.LittleEndian, v); err != nil {
			panic(err)
		}
	}
}

func join(values ...any) []byte {
	var b bytes.Buffer
	put(&b, values...)
	return b.Bytes()
}

func chunk(id string, body []byte) []byte { return join([]byte(id), uint32(len(body)), body) }

func list(kind string, chunks ...[]byte) []byte {
	return chunk("LIST", append([]byte(kind), bytes.Join(chunks, nil)...))
}
