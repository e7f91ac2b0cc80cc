// What the transport gives to its outlet, and how what is still to be given is moved in time.
import { moment, rank } from "./instance.js";

const tolerance = 3000; // microseconds: a note that is later than that is left out
const stood = 1000000; // microseconds: nobody can catch up with a clock that is later than that

/** send gives the outlet all that is before the horizon, in its order. */
export function send(tp, now, horizon) {
  const due = [];
  const ends = (s) => (s.off < horizon ? due.push({ t: s.off, kind: "off", s }) : tp.sounding.push(s));
  tp.sounding.splice(0).forEach(ends);
  for (const x of tp.queue) {
    for (; x.next < x.events.length; x.next++) {
      const e = x.events[x.next];
      const t = x.clockOf(e.at);
      if (t >= horizon) {
        break;
      }
      if (t < tp.floor) {
        continue;
      }
      if (e.kind !== "on") {
        due.push({ ...e, t });
      } else if (e.part.who !== "click" || x.clicks(tp.click())) {
        const off = Math.max(x.clockOf(e.at + e.note.length), t + 1);
        const s = { off, key: e.note.key, handle: null, x };
        due.push({ ...e, t, s });
        ends(s);
      }
    }
  }
  due.sort((a, b) => a.t - b.t || rank[a.kind] - rank[b.kind] || (a.s?.key ?? 0) - (b.s?.key ?? 0));
  due.forEach((e) => give(tp, e, now));
  tp.sounding = tp.sounding.filter((s) => s.handle !== null);
  tp.horizon = horizon;
}

function give(tp, { kind, t, s, note, part, program, tick }, now) {
  const { outlet } = tp;
  if (kind === "program") {
    outlet.program(part, program, t);
  } else if (kind === "pulse") {
    if (t > now - stood) {
      outlet.pulse(tick, t);
    }
  } else if (kind === "off") {
    if (s.handle !== null) {
      outlet.off(s.handle, t);
    }
  } else if (t < now - tolerance) {
    tp.late++;
  } else if ((s.handle = outlet.on(note, part, t, s.x.bed)) !== null) {
    s.x.sent.push({ t, handle: s.handle });
  }
}

/** bend has everything from a time on go by another pace. */
export function bend(tp, pace, from) {
  const ratio = tp.pace / pace;
  const stretched = (t) => (t < from ? t : Math.round(from + (t - from) * ratio));
  const here = tp.pathAt(from);
  for (const x of tp.queue) {
    x.rebase({ t: from, at: moment(x.base, from), pace });
  }
  const bent = here ? [{ t: from, at: moment(here, from), pace, x: here.x }] : [];
  const before = tp.path.filter((p) => p.t <= from);
  const behind = tp.path.slice(before.length).map((p) => ({ ...p, t: stretched(p.t), pace }));
  tp.path = [...before, ...bent, ...behind];
  for (const s of tp.sounding) {
    s.off = stretched(s.off);
  }
}
