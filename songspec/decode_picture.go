package songspec

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"

	"plinth/songspec/timecode"
	"plinth/songspec/wording"
)

// picture is the picture that the song is for.
type picture struct {
	count timecode.Count
	start timecode.Frame // of bar 1 count 1
}

// landing is the time at which a place of the song is to be.
type landing struct {
	said[string]
	micros int64 // from bar 1 count 1
}

// picture decodes the picture block.
func (d *decoder) picture(f *File, b *hclsyntax.Block) {
	var rate timecode.Rate
	var start *said[string]
	ok, told := true, len(d.rep.Diags)
	for _, a := range d.valuesOf(b.Body, "the picture block", pictureAttrs) {
		if a.Name == "start" {
			start = d.text(a.Expr, 32, `The start is the time code of bar 1 count 1: start = "01:00:00:00".`)
			ok = ok && start != nil
			continue
		}
		rate = d.frameRate(a.Expr)
		ok = ok && rate.Name != ""
	}
	ok = ok && (rate.Name != "" && start != nil || len(d.rep.Diags) == told && !d.unread(b.Body, pictureAttrs...))
	switch {
	case !ok:
	case rate.Name == "":
		d.rep.Errorf(b.TypeRange, "A picture without a rate", "Say how many frames a second has: rate = 24.")
	case start == nil:
		d.rep.Errorf(b.TypeRange, "A picture without a start",
			`Say which time code bar 1 count 1 has: start = "01:00:00:00".`)
	default:
		frame, count, err := timecode.Parse(start.v, rate)
		if err != nil {
			d.rep.Errorf(start.rng, "Not a time code", "%s", err)
			return
		}
		f.picture = &picture{count, frame}
		return
	}
	d.badPicture = true
}

// frameRate reads a rate. A film's 24000/1001 is written 23.976, as everybody calls it.
func (d *decoder) frameRate(expr hclsyntax.Expression) timecode.Rate {
	var names []string
	for _, r := range timecode.Rates {
		names = append(names, r.Name)
	}
	help := "The rate is the number of frames in a second: " + wording.Or(names) + "."
	n := d.number(expr, help)
	if n == nil {
		return timecode.Rate{}
	}
	value, _ := n.Float64()
	name := strconv.FormatFloat(value, 'f', -1, 64)
	if name == "23.98" {
		name = "23.976"
	}
	i := slices.IndexFunc(timecode.Rates, func(r timecode.Rate) bool { return r.Name == name })
	if i < 0 {
		d.rep.Errorf(expr.Range(), "Not a rate of frames", "%s", help)
		return timecode.Rate{}
	}
	return timecode.Rates[i]
}

// at reads when a play or a cue is to land. The time is worked out when the picture is known.
func (d *decoder) at(expr hclsyntax.Expression) *landing {
	const help = `A time is text: at = "01:03:34:12", or at = "1:24.5" from bar 1 count 1.`
	if like := clockOf(d.unquoted(expr)); like != "" {
		d.rep.Errorf(expr.Range(), "Not a time", "A time has minutes and seconds. Write at = %q.", like).
			WriteText(expr.Range(), like)
		return nil
	}
	t := d.text(expr, 32, help)
	if t == nil {
		return nil
	}
	l := &landing{said: *t}
	d.landings = append(d.landings, l)
	return l
}

var loneSeconds = pattern(`^(?:([0-9]{1,3})(?::|\s*min\.?\s*))?([0-9]{1,3})([.,][0-9]{1,3})?\s*(?:s|sec\.?|seconds)?$`)

// clockOf is a time in seconds, or in minutes and seconds with a comma or a unit, as it is written
// here; "" for a time that is written so, and for anything else.
func clockOf(text string) string {
	m := loneSeconds().FindStringSubmatch(text)
	if m == nil || minSec().MatchString(text) {
		return ""
	}
	minutes, _ := strconv.Atoi(m[1])
	seconds, _ := strconv.Atoi(m[2])
	return fmt.Sprintf("%d:%02d%s", minutes+seconds/60, seconds%60, strings.Replace(m[3], ",", ".", 1))
}

var minSec = pattern(`^([0-9]{1,3}):([0-9]{2})(\.[0-9]{1,3})?$`)

// land works out the times of all landings.
func (d *decoder) land(f *File) {
	for _, l := range d.landings {
		if m := minSec().FindStringSubmatch(l.v); m != nil {
			minutes, _ := strconv.Atoi(m[1])
			seconds, _ := strconv.Atoi(m[2])
			milli, _ := strconv.Atoi((strings.TrimPrefix(m[3], ".") + "000")[:3])
			if seconds > 59 {
				d.rep.Errorf(l.rng, "Not a time", "Seconds go to 59: write at = \"%d:%02d%s\".", minutes+seconds/60,
					seconds%60, m[3])
			}
			l.micros = int64((minutes*60+seconds)*1000+milli) * 1000
			continue
		}
		d.landAtCode(f, l)
	}
}

// landAtCode works out a time that is a time code.
func (d *decoder) landAtCode(f *File, l *landing) {
	const forms = `A time is a time code of the picture, "01:03:34:12", or minutes and seconds from bar 1 ` +
		`count 1, "1:24.5".`
	switch {
	case !timecode.IsCode(l.v):
		d.rep.Errorf(l.rng, "Not a time", "%s", forms)
		return
	case d.badPicture:
		return
	case f.picture == nil:
		d.rep.Errorf(l.rng, "A time code without a picture", "The picture block is missing, at the top of the "+
			"file: picture { … } with rate = 24 and start = \"01:00:00:00\" in it, each on a line of its own.")
		return
	}
	p := f.picture
	frame, count, err := timecode.Parse(l.v, p.count.Rate)
	switch {
	case err != nil:
		d.rep.Errorf(l.rng, "Not a time code", "%s", err)
	case count.Drop != p.count.Drop:
		d.otherCount(l.rng, l.v, p.count.Drop)
	case frame < p.start:
		d.rep.Errorf(l.rng, "A time before the song", "Bar 1 count 1 is at %s, which is later.", p.count.Code(p.start))
	default:
		l.micros = p.count.Micros(p.start, frame)
	}
}

// otherCount reports a time code that counts its frames in another way than the picture's start.
func (d *decoder) otherCount(rng hcl.Range, code string, drop bool) {
	sep, how := ":", "no frames are dropped"
	if drop {
		sep, how = ";", "frames are dropped"
	}
	d.rep.Errorf(rng, "Two ways of counting frames", "In the picture's start %s: write \"%s%s%s\".", how, code[:8], sep,
		code[9:])
}
