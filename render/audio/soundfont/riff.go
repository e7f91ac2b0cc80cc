package soundfont

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"io"

	"github.com/sinshu/go-meltysynth/meltysynth"
)

var (
	errNot        = errors.New("it is no SoundFont (.sf2)")
	errCompressed = errors.New("its samples are compressed, as in .sf3 files; plinth reads SoundFont 2, .sf2: " +
		"convert it, or take another")
	errShort  = errors.New("the SoundFont is cut short: it says that it is longer than it is")
	errTables = errors.New("the SoundFont is broken: its lists of instruments and samples do not fit together")
	errEmpty  = errors.New("the SoundFont has no samples")
)

// tables are the lists of the chunk pdta that are read, with the bytes of an entry (SoundFont 2.04, 7.2
// to 7.10). Those of modulators are left out: go-meltysynth plays none.
var tables = []struct {
	id    string
	entry int
}{{"phdr", 38}, {"pbag", 4}, {"pgen", 4}, {"inst", 22}, {"ibag", 4}, {"igen", 4}, {"shdr", 46}}

// maxEntries bounds a list: entries are counted in 16 bits (SoundFont 2.04, 7.3).
const maxEntries = 1 << 16

// compressed is the flag of a sample's type that says that it is compressed; SoundFont 2.04, 7.10, leaves
// it undefined.
const compressed = 0x10

// read reads a SoundFont. The library trusts the sizes that a file claims and panics where lists do not fit
// together, so it is given lists whose sizes hold, and the samples are put in beside it, without its copy of them.
func read(data []byte) (sf *meltysynth.SoundFont, err error) {
	lists, samples, err := split(data)
	if err != nil {
		return nil, err
	}
	defer func() {
		if recover() != nil {
			sf, err = nil, errTables
		}
	}()
	sf, err = meltysynth.NewSoundFont(whole{bytes.NewReader(plain(lists))})
	if err != nil {
		return nil, fmt.Errorf("%w (%v)", errTables, err)
	}
	for _, h := range sf.SampleHeaders {
		if h.SampleType&compressed != 0 {
			return nil, errCompressed
		}
	}
	// One point more than there is: a sample's last point is joined to the next one.
	sf.WaveData = make([]int16, len(samples)/2+1)
	for i := range len(samples) / 2 {
		sf.WaveData[i] = int16(binary.LittleEndian.Uint16(samples[2*i:]))
	}
	return sf, nil
}

// split finds the lists of a SoundFont, by name, and its samples (SoundFont 2.04, 4.4).
func split(data []byte) (lists map[string][]byte, samples []byte, err error) {
	if len(data) < 12 || string(data[:4]) != "RIFF" || string(data[8:12]) != "sfbk" {
		return nil, nil, errNot
	}
	lists = map[string][]byte{}
	major := uint16(2)
	err = chunks(data[12:], func(id string, body []byte) error {
		if id != "LIST" || len(body) < 4 {
			return nil
		}
		return chunks(body[4:], func(id string, inner []byte) error {
			switch list := string(body[:4]); {
			case list == "INFO" && id == "ifil" && len(inner) >= 2:
				major = binary.LittleEndian.Uint16(inner)
			case list == "sdta" && id == "smpl":
				samples = inner
			case list == "pdta":
				lists[id] = inner
			}
			return nil
		})
	})
	switch {
	case err != nil:
		return nil, nil, err
	case major > 2:
		return nil, nil, errCompressed
	case len(samples) < 2:
		return nil, nil, errEmpty
	}
	for _, t := range tables {
		if n := len(lists[t.id]); n < 2*t.entry && t.id != "pgen" && t.id != "igen" || n < t.entry ||
			n%t.entry != 0 || n/t.entry > maxEntries {
			return nil, nil, errTables
		}
	}
	return lists, samples, nil
}

// chunks visits the chunks of a RIFF list.
func chunks(data []byte, visit func(id string, body []byte) error) error {
	for len(data) >= 8 {
		size, body := binary.LittleEndian.Uint32(data[4:]), data[8:]
		if uint64(size) > uint64(len(body)) {
			return errShort
		}
		if err := visit(string(data[:4]), body[:size]); err != nil {
			return err
		}
		next := int(size) + int(size&1) // chunks begin at even places
		data = body[min(next, len(body)):]
	}
	return nil
}

// plain is a SoundFont of the lists alone, without samples.
func plain(lists map[string][]byte) []byte {
	var pdta []byte
	for _, t := range tables {
		pdta = append(pdta, chunk(t.id, lists[t.id])...)
	}
	var body []byte
	body = append(body, "sfbk"...)
	body = append(body, chunk("LIST", []byte("INFO"))...)
	body = append(body, chunk("LIST", append([]byte("sdta"), chunk("smpl", nil)...))...)
	body = append(body, chunk("LIST", append([]byte("pdta"), pdta...))...)
	return chunk("RIFF", body)
}

// chunk is a chunk of RIFF. Its body has an even length.
func chunk(id string, body []byte) []byte {
	out := binary.LittleEndian.AppendUint32([]byte(id), uint32(len(body)))
	return append(out, body...)
}

// whole reads all that is asked for or fails: the library takes a short read for the end.
type whole struct{ from io.Reader }

func (w whole) Read(p []byte) (int, error) { return io.ReadFull(w.from, p) }
