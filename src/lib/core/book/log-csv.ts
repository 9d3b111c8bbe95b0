import { say } from '../../texts/backup-file';
import type { LogEntry, Pass, SealedSitting } from '../practice/records';
import { holdingCorrections } from '../practice/settled-log';
import { MINUTE_MS, soundMoment, type Moment } from '../time/moment';
import type { Passage } from '../tune/passage';
import { passageName } from '../tune/passage-name';
import type { Id, Tune } from '../tune/tune';
import { tuningName } from '../tune/tuning';
import { TIME_MAX } from './limits';

const COLUMNS = [
  'time',
  'tune',
  'passage',
  'layer',
  'tempo',
  'outcome',
  'from memory',
  'went wrong in measure',
  'climb',
  'sitting began',
  'minutes',
  'tuning',
  'hands',
  'note',
] as const;

/** RFC 4180 section 2.1. */
const LINE_END = '\r\n';

/**
 * The log of passes as comma-separated values (RFC 4180: a header, lines end in CR LF, quotes around what needs them):
 * one pass a line, in the order of writing, with the outcome that its last correction left. Times are ISO 8601, local
 * with their offset from UTC. The note and the minutes of a sitting stand on its first line only. The text of a cell that
 * begins, after any apostrophes, with `=`, `+`, `-`, `@`, a tab or a carriage return gets one more apostrophe before it,
 * because spreadsheets would run it as a formula; take that off again to have the text as it is in the book.
 */
export class LogCsv {
  readonly #tunes: ReadonlyMap<Id, Tune>;
  /** What a passage and its layer are called, by its tune and itself; naming takes longer than writing a line. */
  readonly #names = new Map<string, string>();

  constructor(tunes: readonly Tune[]) {
    this.#tunes = new Map(tunes.map((tune) => [tune.id, tune]));
  }

  header(): string {
    return COLUMNS.join(',') + LINE_END;
  }

  /** The lines of one sitting. */
  lines(sitting: SealedSitting): string {
    const drills = new Map(sitting.drills.map((drill) => [drill.id, drill]));
    const corrections = holdingCorrections(sitting.log);
    const began = localTime(sitting);
    const tuning = sitting.tuning ? tuningName(sitting.tuning) : '';
    let [minutes, note] = [String(sitting.minutes), sitting.note];
    let text = '';
    for (const pass of sitting.log.filter(isPass)) {
      const drill = drills.get(pass.drillId);
      const outcome = corrections.get(pass.id)?.outcome ?? pass.outcome;
      const miss = pass.missAt === null || outcome === 'clean' ? '' : String(pass.missAt + 1);
      text += `${localTime(pass)},${drill ? this.#named(drill.passage) : ',,'},${pass.tempo},${outcome},`;
      text += `${pass.fromMemory ? 'yes' : 'no'},${miss},${drill?.climb ?? ''},${began},${minutes},`;
      text += [tuning, sitting.hands, note].map(cell).join(',') + LINE_END;
      [minutes, note] = ['', ''];
    }
    return text;
  }

  /** Three cells: the tune, the passage, the layer. A figure and a seam belong to every layer that has them. */
  #named(passage: Passage): string {
    const key = JSON.stringify(passage);
    const known = this.#names.get(key);
    if (known !== undefined) return known;
    const tune = this.#tunes.get(passage.tuneId);
    const layers = [...(tune?.layers ?? []), ...(tune?.layerShelf ?? [])];
    const layer = 'layerId' in passage ? layers.find(({ id }) => id === passage.layerId)?.name : '';
    const name = tune ? passageName(tune, passage) : '';
    const cells = [tune?.title ?? say.goneTune, name, layer ?? ''].map(cell).join(',');
    this.#names.set(key, cells);
    return cells;
  }
}

function isPass(entry: LogEntry): entry is Pass {
  return entry.kind === 'pass';
}

/** A text as a cell. */
function cell(text: string): string {
  const harmless = /^'*[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}

/** `2026-11-25T18:03:22+01:00` (ISO 8601). */
function localTime(moment: Moment): string {
  const { at, offsetMin } = soundMoment(moment);
  const [hours, minutes] = [Math.trunc(Math.abs(offsetMin) / 60), Math.abs(offsetMin) % 60];
  const offset = [hours, minutes].map((number) => String(number).padStart(2, '0')).join(':');
  const local = new Date(Math.min(TIME_MAX, at) + offsetMin * MINUTE_MS).toISOString().slice(0, 19);
  return `${local}${offsetMin < 0 ? '-' : '+'}${offset}`;
}
