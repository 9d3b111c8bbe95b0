import { say } from '../../../texts/reading-abc';
import { add, divide, rational, toNumber, ZERO, type Rational } from '../../rhythm/rational';
import { Warnings } from '../reading';
import type { Score, ScoreMeter, ScoresRead } from '../score';
import { scoreBeat } from '../score-meter';
import { NO_KEY, readKey, type AbcKey } from './abc-key';
import { readMusic } from './abc-music';
import { expandOrder } from './abc-order';
import { abcLines, listAbcTunes, plainText, type AbcLine, type AbcTuneText } from './abc-source';
import { AbcVoice } from './abc-voice';
import { placeWords } from './abc-words';

export { listAbcTunes } from './abc-source';

const CHARACTERS_MAX = 20_000_000;
const VOICES_MAX = 50;
/** Before the first tune. */
const HEAD_FIELDS_MAX = 200;
/** Notes, bar lines and other signs of one tune: more than a song for twenty voices has. Bounds the work that a text can ask for. */
const SIGNS_MAX = 100_000;

/** The tunes of an ABC text, each read when it is asked for. */
export interface AbcBook {
  tunes: readonly AbcTuneText[];
  /** The tune at a place of `tunes`; `null` when there is none. Lines are those of the whole text. */
  read: (index: number) => Score | null;
}

/** Lists the tunes of an ABC text cheaply; what stands before the first one holds for all (ABC 2.1, section 2.2.2). Never throws. */
export function openAbc(text: string): AbcBook {
  const tunes = listAbcTunes(text);
  const head: AbcLine[] = [];
  for (const line of abcLines(text.slice(0, tunes[0]?.start ?? 0), 1)) {
    if (head.length >= HEAD_FIELDS_MAX) break;
    if (line.field !== null) head.push(line);
  }
  const read = (index: number): Score | null => {
    const tune = tunes[index];
    if (!tune) return null;
    const lines = abcLines(text.slice(tune.start, tune.end), tune.line);
    return new TuneReader(tune.number, tune.title).read(head, lines);
  };
  return { tunes, read };
}

/** Reads every tune of an ABC text (ABC 2.1, Walshaw 2011, abcnotation.com). Never throws. */
export function readAbc(text: string): ScoresRead {
  const warnings = new Warnings();
  if (text.length > CHARACTERS_MAX) {
    warnings.add(1, 1, say.tooLong);
    return { scores: [], warnings: warnings.list() };
  }
  const { tunes, read } = openAbc(text);
  if (tunes.length === 0) warnings.add(1, 1, say.noTune);
  return { scores: tunes.flatMap((_, index) => read(index) ?? []), warnings: warnings.list() };
}

/** One tune while it is read. */
class TuneReader {
  readonly #warnings = new Warnings();
  readonly #voices = new Map<string, AbcVoice>();
  #key: AbcKey = NO_KEY;
  #meter: ScoreMeter | null = { count: 4, unit: 4 };
  #hasMeter = false;
  #unit: Rational | null = null;
  #tempoText: string | null = null;
  #order: string[] | null = null;
  #voice: AbcVoice | null = null;
  /** Named before there is a voice: all of them begin with it. */
  #firstPart: string | null = null;
  #isHead = true;
  #graces: { count: number; line: number; column: number } | null = null;
  #signsLeft = SIGNS_MAX;
  #cutAt: { line: number; column: number } | null = null;
  #title: string | null;

  constructor(
    readonly number: number | null,
    title: string | null,
  ) {
    this.#title = title;
  }

  read(fileHead: readonly AbcLine[], lines: Iterable<AbcLine>): Score {
    for (const { field, text, line, column } of fileHead) this.#field(field ?? '', text, line, column);
    const headMeter = (): ScoreMeter | null => (this.#hasMeter ? this.#meter : null);
    let meter = headMeter();
    let key = this.#key;
    for (const { field, text, line, column } of lines) {
      if (this.#signsLeft < 0) break;
      if (field !== null) {
        this.#signsLeft -= 1;
        this.#field(field, text, line, column);
      } else {
        this.#endHead(line, column);
        this.#current().sung = [];
        readMusic(text, line, column, {
          warnings: this.#warnings,
          voice: () => this.#current(),
          inField: (name, value, at, from) => this.#field(name, value, at, from),
          onGrace: (at, from) => {
            this.#graces ??= { count: 0, line: at, column: from };
            this.#graces.count += 1;
          },
          spend: (signs) => (this.#signsLeft -= signs) >= 0,
          onFull: (at, from) => (this.#cutAt ??= { line: at, column: from }),
        });
      }
      if (this.#isHead || field === 'K') {
        if (this.#voices.size === 0) [meter, key] = [headMeter(), this.#key];
      }
    }
    const voices = [...this.#voices.values()].map((voice) => ({
      name: voice.name,
      measures: voice.finish(),
    }));
    const sounding = voices.filter(({ measures }) => measures.length > 0);
    if (this.#graces) {
      const { count, line, column } = this.#graces;
      this.#warnings.add(line, column, say.graces(count));
    }
    if (this.#cutAt) {
      const { line, column } = this.#cutAt;
      this.#warnings.add(line, column, say.tuneTooLong);
    }
    return {
      number: this.number,
      title: this.#title,
      key: key.name,
      meter,
      tempo: this.#tempo(meter),
      tuning: null,
      capo: null,
      voices: sounding.length > 0 ? sounding : voices.slice(0, 1),
      order: this.#order,
      warnings: this.#warnings.list(),
    };
  }

  #field(field: string, text: string, line: number, column: number): void {
    switch (field) {
      case 'T':
        this.#title ??= plainText(text) || null;
        return;
      case 'M':
        return this.#setMeter(text, line, column);
      case 'L':
        return this.#setUnit(text, line, column);
      case 'Q':
        this.#tempoText ??= text;
        return;
      case 'K': {
        const key = readKey(text, this.#key);
        if (!key) this.#warnings.add(line, column, say.unknownKey);
        this.#key = key ?? NO_KEY;
        if (this.#isHead) this.#endHead(line, column);
        this.#each((voice) => (voice.key = this.#key));
        return;
      }
      case 'P':
        if (this.#isHead) this.#order = expandOrder(text);
        else if (this.#voice) this.#voice.beginPart(plainText(text));
        else this.#firstPart = plainText(text);
        return;
      case 'V':
        if (!this.#isHead) this.#turnTo(text);
        return;
      case 'w':
        if (this.#voice) placeWords(text, this.#voice.sung);
        return;
      default:
    }
  }

  /** The field holds for the voice in hand; before there is one, for those to come. */
  #each(change: (voice: AbcVoice) => void): void {
    if (this.#voice) change(this.#voice);
  }

  #endHead(line: number, column: number): void {
    if (!this.#isHead) return;
    this.#isHead = false;
    if (this.#key === NO_KEY && this.#voices.size === 0 && column === 1) {
      this.#warnings.add(line, column, say.noKey);
    }
  }

  #current(): AbcVoice {
    if (!this.#voice) this.#turnTo('1');
    return this.#voice ?? new AbcVoice('1');
  }

  #turnTo(text: string): void {
    const id = /^\s*(\S+)/.exec(text)?.[1] ?? '1';
    let voice = this.#voices.get(id);
    if (!voice) {
      const name = /(?:name|nm)\s*=\s*"([^"]*)"/.exec(text)?.[1];
      voice = new AbcVoice(plainText(name ?? '') || id);
      Object.assign(voice, { key: this.#key, meter: this.#meter, unit: this.#unitNow() });
      if (this.#firstPart !== null) voice.beginPart(this.#firstPart);
      if (this.#voices.size < VOICES_MAX) this.#voices.set(id, voice);
    }
    this.#voice = voice;
  }

  /** Section 3.1.6: `C`, `C|`, `none`, `6/8`, `(2+3+2)/8`. */
  #setMeter(text: string, line: number, column: number): void {
    const bare = text.trim();
    const found = /^\(?(\d{1,2}(?:\s*\+\s*\d{1,2})*)\)?\s*\/\s*(\d{1,3})/.exec(bare);
    if (bare === 'C') this.#meter = { count: 4, unit: 4 };
    else if (bare === 'C|') this.#meter = { count: 2, unit: 2 };
    else if (/^(?:none)?$/i.test(bare)) this.#meter = null;
    else if (found) {
      const count = (found[1] ?? '').split('+').reduce((sum, part) => sum + Number(part), 0);
      const unit = Number(found[2]);
      if (count < 1 || count > 64 || ![1, 2, 4, 8, 16, 32, 64].includes(unit)) {
        this.#warnings.add(line, column, say.unknownMeter);
        return;
      }
      this.#meter = { count, unit };
    } else {
      this.#warnings.add(line, column, say.unknownMeter);
      return;
    }
    this.#hasMeter = true;
    this.#each((voice) => (voice.meter = this.#meter));
  }

  #setUnit(text: string, line: number, column: number): void {
    const found = /^\s*(\d{1,3})\s*(?:\/\s*(\d{1,3}))?/.exec(text);
    const [over, under] = [Number(found?.[1]), Number(found?.[2] ?? 1)];
    if (!found || over < 1 || under < 1) {
      this.#warnings.add(line, column, say.unknownUnit);
      return;
    }
    this.#unit = rational(over, under);
    this.#each((voice) => (voice.unit = this.#unitNow()));
  }

  /** Section 3.1.7: a sixteenth in meters under three quarters of a whole note, an eighth in all others. */
  #unitNow(): Rational {
    const { count, unit } = (this.#hasMeter ? this.#meter : null) ?? { count: 4, unit: 4 };
    return this.#unit ?? (count / unit < 0.75 ? [1, 16] : [1, 8]);
  }

  /** Section 3.1.8: beats of the tune's meter a minute; `null` when none is given. */
  #tempo(meter: ScoreMeter | null): number | null {
    const bare = this.#tempoText?.replace(/"[^"]*"/g, ' ').trim() ?? '';
    const [lengths = '', speed] = bare.includes('=') ? bare.split('=') : ['', bare];
    const number = Number.parseFloat(speed ?? '');
    if (!(number > 0 && number < 10_000)) return null;
    const notes = [...lengths.matchAll(/(\d{1,3})\s*\/\s*(\d{1,3})/g)].filter(
      ([, , under]) => Number(under) > 0,
    );
    const each = notes.reduce<Rational>(
      (sum, [, over, under]) => add(sum, rational(Number(over), Number(under))),
      ZERO,
    );
    const length = notes.length > 0 ? each : this.#unitNow();
    return Math.round(toNumber(divide(length, scoreBeat(meter))) * number * 10) / 10;
  }
}
