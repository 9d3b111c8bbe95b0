// Source: `abcjs` 6.7, a reader and player of ABC, as a second witness beside `abc2midi` of what the examples of Debian's package
// abcmidi sound. Repeats and endings are played out by both; the order of parts of a header (`P:`) is one that it does not play.
import abcjs from 'abcjs';
import { describe, expect, test } from 'vitest';
import { readAbc } from '../../src/lib/core/notation/abc/read-abc';
import { exampleTunes, inOrder, sounded, type Sounded } from './abc-examples';

const here = exampleTunes.length > 0;
if (!here) console.warn('Debian’s abcmidi is not installed: its examples are not compared with abcjs.');

/**
 * What only abcjs plays, taken out: directives, chord symbols' accompaniment, trills and other decorations, grace notes, the swing of
 * `R:`; and a voice named with a space (`V: drum`), which it takes for more of the first.
 */
function plain(text: string): string {
  return text
    .replace(/^V: drum[^]*/m, '')
    .replace(/^%%.*$/gm, '%')
    .replace(/^R:.*$/gm, '%')
    .replace(/"[^"\n]*"/g, '')
    .replace(/^(?![A-Za-z]:).*$/gm, (music) =>
      music.replace(/\{[^}]*\}|![^!\n]*!|[T~.](?=[\^_=]*[A-Ga-g])/g, ''),
    );
}

/** The first voice as abcjs sounds it. */
function theirs(text: string): Sounded[] {
  const [tune] = abcjs.parseOnly(text);
  const [track = []] = tune.setUpAudio({ chordsOff: true }).tracks;
  return inOrder(
    track.flatMap((event): Sounded[] =>
      event.cmd === 'note' ? [[Math.round(1920 * event.start), event.pitch]] : [],
    ),
  );
}

/** Where abcjs is no witness. */
const OUT = new Map([
  ['demo.abc 1', 'it plays the last note of part A twice where `::` begins the next part'],
  ['demo.abc 8', 'it loses a note that is tied to one in the next measure'],
  ['temperament.abc 1', 'microtones, which ABC 2.1 does not define'],
  ['temperament.abc 2', 'microtones, and voices laid over one another by `&`'],
]);

describe.runIf(here)('the examples of abcmidi sound as abcjs sounds them', () => {
  test.each(exampleTunes.filter(({ name }) => !OUT.has(name)))('$name', ({ tune }) => {
    const { voices } = readAbc(tune).scores[0]!;
    expect(theirs(plain(tune))).toEqual(sounded({ voices: voices.slice(0, 1) }, null));
  });

  test('no more than four are left out, and they do differ', () => {
    const out = exampleTunes.filter(({ name }) => OUT.has(name));
    expect(out).toHaveLength(OUT.size);
    for (const { tune } of out) {
      const { voices } = readAbc(tune).scores[0]!;
      expect(theirs(plain(tune))).not.toEqual(sounded({ voices: voices.slice(0, 1) }, null));
    }
  });
});

/** The voices of a parsed tune, as far as they are looked at here. */
interface Sung {
  lines: { staff?: { voices: { el_type: string; lyric?: { syllable: string }[] }[][] }[] }[];
}

describe('syllables stand under the notes where abcjs sets them (ABC 2.1, section 5.1)', () => {
  test.each([
    'syll-a-ble a b',
    'syll-a--ble b',
    'syll-a -ble b',
    'syll- a- ble b',
    'time__ of day',
    'a * b c',
    'a b | c d',
    'of~the day',
    'a b c d e f g h i',
  ])('%s', (words) => {
    const text = `X:1\nL:1/4\nM:4/4\nK:C\nCDEF|GABc|\nw:${words}\n`;
    const { lines } = abcjs.parseOnly(text)[0] as unknown as Sung;
    const notes = lines.flatMap(({ staff = [] }) => staff.flatMap(({ voices: [first = []] }) => first));
    const set = notes
      .filter(({ el_type }) => el_type === 'note')
      .map(({ lyric }) => (lyric?.[0]?.syllable ?? '').replaceAll('\u00a0', ' ').trim());
    const ours = readAbc(text).scores[0]!.voices[0]!.measures.flatMap(({ notes: sung, labels }) =>
      sung.map(({ onset }) => labels.find((label) => label.onset.join() === onset.join())?.text ?? ''),
    );
    expect(ours.map((word) => word.replace(/-$/, ''))).toEqual(set);
    expect(set).toHaveLength(8);
  });
});
