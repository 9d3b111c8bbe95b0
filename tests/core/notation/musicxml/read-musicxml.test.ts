import { strToU8, zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { readMxl } from '$lib/core/notation/musicxml/mxl';
import { readMusicXml } from '$lib/core/notation/musicxml/read-musicxml';

const note = (rest: string, duration: number) => `<note>${rest}<duration>${duration}</duration></note>`;
const G4 = '<pitch><step>G</step><octave>4</octave></pitch>';

const score = (measures: string) => `<?xml version="1.0"?>
<score-partwise version="4.0"><movement-title>Sandy &lt;b&gt;Boys</movement-title>
<part-list><score-part id="P1"><part-name>Banjo</part-name></score-part></part-list>
<part id="P1">${measures}</part></score-partwise>`;

const head =
  '<attributes><divisions>2</divisions><key><fifths>1</fifths></key><time><beats>2</beats><beat-type>4</beat-type></time></attributes>';
const one = `<measure number="1">${head}${note(G4, 2)}${note('<rest/>', 2)}</measure>`;

describe('MusicXML', () => {
  it('reads notes, key, meter and a title whose markup stays text', () => {
    const [read] = readMusicXml(score(one)).scores;
    expect(read).toMatchObject({ title: 'Sandy <b>Boys', key: 'G', meter: { count: 2, unit: 4 } });
    expect(read!.voices[0]).toMatchObject({ name: 'Banjo', measures: [{ length: [1, 2] }] });
    expect(read!.voices[0]!.measures[0]!.notes).toEqual([{ onset: [0, 1], duration: [1, 4], pitch: 67 }]);
  });

  it('reads repeats, endings, a rehearsal mark, tempo and chord symbols', () => {
    const marks =
      '<direction><direction-type><rehearsal>B</rehearsal></direction-type><sound tempo="96"/></direction><harmony><root><root-step>A</root-step></root><kind>minor</kind></harmony>';
    const left = '<barline location="left"><repeat direction="forward"/></barline>';
    const right =
      '<barline location="right"><ending number="1" type="stop"/><repeat direction="backward"/></barline>';
    const second = `<measure number="2"><barline location="left"><ending number="1" type="start"/></barline>${note(G4, 4)}${right}</measure>`;
    const text = score(`<measure number="1">${left}${head}${marks}${note(G4, 4)}</measure>${second}`);
    const [read] = readMusicXml(text).scores;
    expect(read!.tempo).toBe(96);
    expect(read!.voices[0]!.measures).toMatchObject([
      { opensRepeat: true, part: 'B', timesPlayed: 0, labels: [{ kind: 'chord', text: 'Am' }] },
      { ending: [1], timesPlayed: 2 },
    ]);
  });

  it('reads the measures before the place where a file breaks off, and says so', () => {
    const [read] = readMusicXml(score(one).slice(0, -20)).scores;
    expect(read!.voices[0]!.measures).toHaveLength(1);
    expect(read!.warnings).toHaveLength(1);
  });

  it('refuses entities of any kind with a sentence', () => {
    for (const entity of ['<!ENTITY a "aaaa">', '<!ENTITY a SYSTEM "file:///etc/passwd">']) {
      const text = score(one).replace(
        '<score-partwise',
        `<!DOCTYPE score-partwise [${entity}]><score-partwise`,
      );
      const { scores, warnings } = readMusicXml(text);
      expect(scores).toEqual([]);
      expect(warnings[0]!.message).toContain('entities');
    }
  });

  it.each(['', 'x', '<a/>', '<'.repeat(1000), '<a>'.repeat(100_000), '\0'])(
    'takes text %# that is none for no score',
    (text) => {
      const { scores, warnings } = readMusicXml(text);
      expect(scores).toEqual([]);
      expect(warnings.length).toBeGreaterThan(0);
    },
  );

  it('leaves out a measure whose durations cannot be added up, and nothing else', () => {
    const primes = [9_999_991, 9_999_973, 9_999_971, 9_999_943]
      .map((divisions) => `<attributes><divisions>${divisions}</divisions></attributes>${note(G4, 1)}`)
      .join('');
    const sound = `<measure number="2">${head}${note(G4, 2)}${note(G4, 2)}</measure>`;
    const text = (before: string) => score(`${before}<measure number="1">${primes}</measure>${sound}`);
    for (const before of ['', one]) {
      const [read] = readMusicXml(text(before)).scores;
      expect(read!.voices[0]!.measures.at(-1)!.notes).toHaveLength(2);
      expect(read!.voices[0]!.measures).toHaveLength(before ? 2 : 1);
      expect(read!.warnings.map(({ message }) => message)).toEqual([
        expect.stringContaining('cannot be added up; left out'),
      ]);
    }
  });
});

describe('compressed MusicXML', () => {
  const container = '<container><rootfiles><rootfile full-path="a/score.musicxml"/></rootfiles></container>';
  const packed = (content: string) =>
    zipSync({ 'META-INF/container.xml': strToU8(container), 'a/score.musicxml': strToU8(content) });

  it('reads the score that the container names', () => {
    expect(readMxl(packed(score(one)))).toEqual(readMusicXml(score(one)));
  });

  it('refuses a zip bomb, an encrypted zip and what is no zip, each with a sentence', () => {
    const encrypted = packed(score(one));
    encrypted[6] = 1;
    const bad: [Uint8Array, string][] = [
      [packed(' '.repeat(5_000_000)), '200 times'],
      [packed(' '.repeat(21_000_000)), '20 MB'],
      [encrypted, 'encrypted'],
      [strToU8('no zip'), 'damaged'],
      [packed(score(one)).slice(0, 200), 'damaged'],
    ];
    for (const [bytes, reason] of bad) expect(readMxl(bytes).warnings[0]!.message).toContain(reason);
  });
});
