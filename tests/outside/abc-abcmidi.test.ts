// Source: `abc2midi` of Debian's package abcmidi, run on the package's own examples (/usr/share/doc/abcmidi/examples).
// Its note-ons come one tick late, and those of a chord ten ticks after one another; other times are compared within
// two ticks of 480 to the quarter.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseMidi } from 'midi-file';
import { afterAll, describe, expect, test } from 'vitest';
import { readAbc } from '../../src/lib/core/notation/abc/read-abc';
import { exampleTunes, inOrder, sounded, type Sounded } from './abc-examples';

const ABC2MIDI = '/usr/bin/abc2midi';
const here = exampleTunes.length > 0 && existsSync(ABC2MIDI);
if (!here) console.warn('Debian’s abcmidi is not installed: its examples are not compared.');

const folder = here ? mkdtempSync(path.join(tmpdir(), 'abcmidi-')) : '';
afterAll(() => {
  if (here) rmSync(folder, { recursive: true });
});

/**
 * What only `abc2midi` plays, taken out: directives, chord symbols' accompaniment, trills, the swing that it makes of
 * `R:hornpipe` (a free text in section 3.1.15). Accidentals of a key are set apart by spaces as in section 3.1.14:
 * `abc2midi` leaves out those of `K:C^f^c^a`.
 */
function plain(text: string): string {
  return text
    .replace(/^%%.*$/gm, '%')
    .replace(/^R:.*$/gm, '%')
    .replace(/"[^"\n]*"/g, '')
    .replace(/^(?![A-Za-z]:).*$/gm, (music) => music.replace(/T(?=[\^_=]*[A-Ga-g])/g, ''))
    .replace(/^K:.*$/gm, (key) => key.replace(/(?=[\^_])/g, ' '));
}

/** All voices that `abc2midi` sounds, in ticks of 480 to the quarter. */
function theirs(text: string): Sounded[] {
  const source = path.join(folder, 'tune.abc');
  const made = path.join(folder, 'tune.mid');
  rmSync(made, { force: true });
  writeFileSync(source, text);
  execFileSync(ABC2MIDI, [source, '-o', made, '-NGRA'], { stdio: ['ignore', 'ignore', 'ignore'] });
  const { header, tracks } = parseMidi(readFileSync(made));
  const notes: Sounded[] = [];
  for (const track of tracks) {
    let tick = 0;
    for (const event of track) {
      tick += event.deltaTime;
      if (event.type === 'noteOn' && event.velocity > 0) {
        notes.push([Math.round((480 * (tick - 1)) / header.ticksPerBeat!), event.noteNumber]);
      }
    }
  }
  return inOrder(notes);
}
/** Notes of ours that `abc2midi` does not sound, and what it sounds besides. */
function differences(mine: Sounded[], other: Sounded[]): { missing: Sounded[]; besides: Sounded[] } {
  const besides = [...other];
  const missing = mine.filter(([tick, pitch]) => {
    const inChord = mine.filter(([at]) => at === tick).length > 1;
    const late = inChord ? 10 * CHORD_MAX : 2;
    const at = besides.findIndex(([t, p]) => p === pitch && t >= tick - 2 && t <= tick + late);
    if (at >= 0) besides.splice(at, 1);
    return at < 0;
  });
  return { missing, besides };
}

const CHORD_MAX = 5;

/**
 * Not compared: microtones (`_22/100E`, `^1/3c`), which ABC 2.1 does not define (section 4.2 knows sharps, flats and
 * naturals, single and double), and voices laid over one another by `&` (section 7.4, marked as volatile there).
 */
const BEYOND_THE_STANDARD = ['temperament.abc 1', 'temperament.abc 2'];

describe.runIf(here)('the examples of abcmidi sound as abc2midi sounds them', () => {
  test('all of them are here', () => expect(exampleTunes.length).toBeGreaterThan(15));

  test.each(exampleTunes.filter(({ name }) => !BEYOND_THE_STANDARD.includes(name)))('$name', ({ tune }) => {
    const { scores } = readAbc(tune);
    expect(scores).toHaveLength(1);
    expect(differences(sounded(scores[0]!, scores[0]!.order), theirs(plain(tune)))).toEqual({
      missing: [],
      besides: [],
    });
  });

  test.each(exampleTunes.filter(({ name }) => BEYOND_THE_STANDARD.includes(name)))(
    '$name is warned of',
    ({ tune }) => {
      const score = readAbc(tune).scores[0]!;
      expect(score.warnings.map(({ message }) => message).join('\n')).toMatch(/"[&^_[]" is not music/);
      expect(sounded(score, score.order)).not.toHaveLength(0);
    },
  );
});

/** Section 4.11 wants a tie next to its first note; `abc2midi` hears one that stands apart as well. */
describe.runIf(here)('ties', () => {
  test.each(['A2- A2', 'A2 - A2', 'A2 -A2', 'A2-|A2', 'A2|-A2', '(A2 B2)-B2', 'A2 B2', 'A2- B2'])(
    '%s',
    (music) => {
      const text = `X:1\nM:2/4\nL:1/8\nK:C\n${music}|\n`;
      const score = readAbc(text).scores[0]!;
      expect(differences(sounded(score, null), theirs(text))).toEqual({ missing: [], besides: [] });
    },
  );
});
