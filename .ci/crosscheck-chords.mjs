// Compares plinth's chord symbols, live, with two independent dictionaries:
// npm's tonal (every alias it has) and chord-symbol. Both are installed into a
// temporary folder. Fails on any difference that
// testdata/reference/chord_choices.csv does not state and explain, and on any
// row there that no longer describes the three. Needs go, node 20 and npm.
//
//   node .ci/crosscheck-chords.mjs
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const reference = join(root, 'testdata', 'reference');
const work = mkdtempSync(join(tmpdir(), 'chords-'));
const say = (line) => process.stderr.write(line + '\n');

try {
  writeFileSync(join(work, 'package.json'), '{"private":true}');
  // A plain install of tonal is broken: 6.5.1 needs a package that does not
  // exist, and 6.4.3 without a date draws in sub-packages without a main file.
  patiently(() => execFileSync('npm', ['install', '--no-audit', '--no-fund', '--ignore-scripts', '--loglevel=error',
    'tonal@6.4.3', 'chord-symbol@4.0.0', '@tonaljs/chord-type', '--before', '2026-09-01'],
  { cwd: work, stdio: ['ignore', 'ignore', 'inherit'] }));
  process.exitCode = compare(createRequire(join(work, 'package.json')));
} finally {
  rmSync(work, { recursive: true, force: true });
}

// patiently tries again what asks a registry: one that is out of reach for a minute
// says nothing of plinth.
function patiently(ask) {
  for (const pause of [5, 20, 60]) {
    try {
      return ask();
    } catch {
      say(`npm: again in ${pause} s`);
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, pause * 1000);
    }
  }
  return ask();
}

function compare(require) {
  const { Chord, ChordType, Note } = require('tonal');
  // The package's main file imports a types-only module that is not shipped.
  const { chordParserFactory } = require('./node_modules/chord-symbol/lib/chord-symbol.js');
  const readSymbol = chordParserFactory();
  const sorted = (pcs) => [...new Set(pcs.map((n) => n % 12))].sort((a, b) => a - b).join(' ');
  const tonal = (s) => {
    const c = Chord.get('C' + s);
    return c.empty || c.tonic !== 'C' ? '-' : sorted(c.notes.map((n) => Note.chroma(n)));
  };
  const symbol = (s) => {
    const c = readSymbol('C' + s);
    return c.error || c.input.rootNote !== 'C' || c.input.bassNote ? '-' : sorted(c.normalized.semitones);
  };

  const agreed = Object.keys(JSON.parse(readFileSync(join(reference, 'chord_symbols_agreed.json'), 'utf8')).symbols);
  const master = csv(readFileSync(join(reference, 'chord_quality_master.csv'), 'utf8'));
  const spellings = master.flatMap((r) => [r.canonical,
    ...r['spellings_agreed_by_tonal_and_chord-symbol'].split(' | '),
    ...r['extra_spellings_chord-symbol_only'].split(' | ')]).filter((s) => s !== '""');
  const choices = csv(readFileSync(join(reference, 'chord_choices.csv'), 'utf8'));
  const aliases = ChordType.all().flatMap((t) => t.aliases);
  const all = [...new Set([...aliases, ...agreed, ...spellings, ...choices.map((r) => r.symbol)])]
    // A suffix that begins with an accidental or a slash belongs to another root or chord.
    .filter((s) => !/^[b#/]/.test(s));

  const input = join(work, 'in.json');
  const output = join(work, 'out.json');
  writeFileSync(input, JSON.stringify(all));
  execFileSync('go', ['test', '-count=1', '-run', '^TestDumpChords$', './songspec/harmony'],
    { cwd: root, env: { ...process.env, PLINTH_CHORDS_IN: input, PLINTH_CHORDS_OUT: output },
      stdio: ['ignore', 'ignore', 'inherit'] });
  const ours = JSON.parse(readFileSync(output, 'utf8'));

  const bad = [];
  const chosen = new Map(choices.map((r) => [r.symbol, r]));
  let both = 0, one = 0, neither = 0;
  for (const s of Object.keys(ours)) {
    const p = ours[s] === null ? '-' : ours[s].join(' ');
    const t = tonal(s);
    const c = symbol(s);
    const row = chosen.get(s);
    if (row) {
      if (row.tonal !== t || row['chord-symbol'] !== c || row.plinth !== p) {
        bad.push(`${s}: the table says ${row.tonal} | ${row['chord-symbol']} | ${row.plinth}; ` +
          `found ${t} | ${c} | ${p}`);
      }
      continue;
    }
    const opinions = [t, c].filter((o) => o !== '-');
    if (opinions.some((o) => o !== p)) bad.push(`${s}: tonal ${t}, chord-symbol ${c}, plinth ${p}; ` +
      'not in chord_choices.csv');
    else if (opinions.length === 2) both++;
    else if (opinions.length === 1) one++;
    else neither++;
  }
  for (const line of bad) say(line);
  say(`chord symbols: ${Object.keys(ours).length} compared; ${both} equal to both, ` +
    `${one} equal to the one that reads it, ` +
    `${neither} read by plinth alone, ${choices.length} choices stated, ${bad.length} undocumented differences`);
  if (both < agreed.length - choices.length) {
    say(`only ${both} symbols equal in all three; the frozen table has ${agreed.length}`);
    return 1;
  }
  return bad.length ? 1 : 0;
}

// csv reads rows with quoted fields into objects by the header's names.
function csv(text) {
  const rows = text.trim().split('\n').map((line) => {
    const out = [];
    for (const m of line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g))
      out.push(m[1] !== undefined ? m[1].replaceAll('""', '"') : m[2]);
    return out;
  });
  return rows.slice(1).map((r) => Object.fromEntries(rows[0].map((h, i) => [h, r[i] ?? ''])));
}
