import { multiply, rational, toNumber, type Rational } from '../../rhythm/rational';
import { compareNotes } from '../../tune/melody';
import { keyWords } from '../key-words';
import { Warnings } from '../reading';
import { scoreBeat } from '../score-meter';
import {
  NO_SIGNS,
  type Score,
  type ScoreMeasure,
  type ScoreMeter,
  type ScoreNote,
  type ScoresRead,
  type ScoreVoice,
} from '../score';
import { midiEvents, type MidiEvents, type MidiNote } from './midi-events';
import { quantised, type GridNote } from './quantise';

const PERCUSSION = 9;
const MEASURES_MAX = 5000;
/** Of all voices together: a small file may have thousands of voices, each as long as the longest. */
const ALL_MEASURES_MAX = 40_000;

/**
 * Reads a Standard MIDI File 1.0: one score with a voice for each track and channel that has notes, percussion last; of
 * format 2 a score for each track. Onsets and ends go to sixteenths or triplet eighths, whichever fits a beat better.
 * Never throws.
 */
export function readMidi(bytes: Uint8Array): ScoresRead {
  const events = midiEvents(bytes);
  if ('refusal' in events) return nothingRead(events.refusal);
  const voices = voicesOf(events);
  if (voices.length === 0) return nothingRead('There are no notes in this MIDI file. Nothing was read.');
  const most = Math.min(MEASURES_MAX, Math.max(1, Math.floor(ALL_MEASURES_MAX / voices.length)));
  const scores =
    events.format === 2
      ? voices.map((voice) => scoreOf(events, [voice], most))
      : [scoreOf(events, voices, most)];
  return { scores, warnings: [] };
}

function nothingRead(message: string): ScoresRead {
  return { scores: [], warnings: [{ line: 1, column: 1, message }] };
}

interface NamedNotes {
  name: string;
  notes: MidiNote[];
  isPercussion: boolean;
}

function voicesOf({ tracks }: MidiEvents): NamedNotes[] {
  const voices = tracks.flatMap(({ name, notes }, index): NamedNotes[] => {
    const channels = [...new Set(notes.map(({ channel }) => channel))].sort((a, b) => a - b);
    const called = name ?? `track ${index + 1}`;
    return channels.map((channel) => ({
      name: channels.length > 1 ? `${called}, channel ${channel + 1}` : called,
      notes: notes.filter((note) => note.channel === channel),
      isPercussion: channel === PERCUSSION,
    }));
  });
  return voices.toSorted((a, b) => Number(a.isPercussion) - Number(b.isPercussion));
}

/** `most` measures at most. */
function scoreOf(events: MidiEvents, voices: readonly NamedNotes[], most: number): Score {
  const warnings = new Warnings();
  const { division, tempos, meters, key, brokenOff, tracks } = events;
  const [first] = meters;
  const meter: ScoreMeter = first ? { count: first.count, unit: first.unit } : { count: 4, unit: 4 };
  if (!first) warnings.add(1, 1, 'the file gives no meter; read in 4/4');
  if (brokenOff) warnings.add(1, 1, brokenOff);
  const beat = scoreBeat(meter);
  const whole = 4 * division;
  const moved: { most: number; count: number } = { most: 0, count: 0 };
  const grids = voices.map(({ notes }) => {
    const grid = quantised(notes, division, toNumber(beat) * whole);
    moved.count += grid.movedNotes;
    moved.most = Math.max(moved.most, grid.mostMoved);
    return grid.notes;
  });
  if (moved.count > 0) {
    const share = Math.max(1, Math.round((100 * moved.most) / division));
    warnings.add(
      1,
      1,
      `${moved.count} notes were moved to the nearest sixteenth or triplet, the furthest by ${share} % of a quarter note`,
    );
  }
  const end = lastOf(grids);
  const bars = barsOf(meters, { division, end, most });
  if ((bars.at(-1)?.to ?? 0) < end) {
    warnings.add(1, 1, `more than ${most} measures; what follows is left out`);
  }
  const micro = tempos[0]?.microseconds;
  const quarters = toNumber(multiply(beat, [4, 1]));
  const isConductor = tracks[0]?.notes.length === 0;
  return {
    number: null,
    title: isConductor || voices.length === 1 ? (tracks[0]?.name ?? null) : null,
    key: key && keyWords(key.sharps, key.isMinor ? 'minor' : 'major'),
    meter,
    tempo: micro ? Math.round((60_000_000 / micro / quarters) * 100) / 100 : null,
    tuning: null,
    capo: null,
    voices: voices.map(({ name }, index): ScoreVoice => ({
      name,
      measures: measuresOf(grids[index] ?? [], bars),
    })),
    order: null,
    warnings: warnings.list(),
  };
}

/** A measure of the file, in ticks. */
interface BarSpan {
  from: number;
  to: number;
  length: Rational;
  meter: ScoreMeter;
}

function lastOf(grids: readonly (readonly GridNote[])[]): number {
  let last = 0;
  for (const notes of grids) for (const { to } of notes) last = Math.max(last, to);
  return last;
}

/** Measures by the meters in force, up to the last note and `most` at most. A meter that changes inside a measure cuts it there. */
function barsOf(
  meters: MidiEvents['meters'],
  { division, end, most }: { division: number; end: number; most: number },
): BarSpan[] {
  const changes = meters.toSorted((a, b) => a.tick - b.tick);
  const bars: BarSpan[] = [];
  let meter: ScoreMeter = changes[0]
    ? { count: changes[0].count, unit: changes[0].unit }
    : { count: 4, unit: 4 };
  for (let from = 0; from < end && bars.length < most;) {
    for (const { tick, count, unit } of changes) if (tick <= from) meter = { count, unit };
    const full = from + (4 * division * meter.count) / meter.unit;
    const change = changes.find(({ tick }) => tick > from);
    const to = Math.max(from + 1, Math.round(change && change.tick < full ? change.tick : full));
    bars.push({ from, to, length: rational(to - from, 4 * division), meter });
    from = to;
  }
  return bars;
}

/** The notes in their measures; what sounds over a bar line is tied. Times are exact: grid places, not ticks. */
function measuresOf(notes: readonly GridNote[], bars: readonly BarSpan[]): ScoreMeasure[] {
  const inBars = bars.map((): ScoreNote[] => []);
  let bar = 0;
  for (const { from, to, pitch, unit } of notes) {
    while (bar + 1 < bars.length && (bars[bar]?.to ?? 0) <= from) bar += 1;
    for (let at = bar; at < bars.length && (bars[at]?.from ?? to) < to; at += 1) {
      const span = bars[at]!;
      const [start, end] = [Math.max(from, span.from), Math.min(to, span.to)];
      if (end <= start) continue;
      const place = (tick: number) => rational(Math.round(tick * 12), unit * 12);
      inBars[at]?.push({
        onset: place(start - span.from),
        duration: place(end - start),
        pitch,
        ...(start > from && { tied: true as const }),
      });
    }
  }
  return bars.map(({ length, meter }, index) => ({
    ...{ line: 1, column: 1, meter, length, notes: (inBars[index] ?? []).sort(compareNotes), labels: [] },
    ...NO_SIGNS,
  }));
}
