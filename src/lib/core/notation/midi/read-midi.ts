import { say } from '../../../texts/reading-midi';
import { multiply, toNumber, type Rational } from '../../rhythm/rational';
import { keyWords } from '../key-words';
import { Warnings } from '../reading';
import { scoreBeat } from '../score-meter';
import { SCORE_MEASURES_MAX, type Score, type ScoreMeter, type ScoresRead, type ScoreVoice } from '../score';
import { barsOf, measuresOf, withoutSilence } from './midi-bars';
import { midiEvents, type MidiEvents, type MidiNote } from './midi-events';
import { quantised, type GridNote } from './quantise';

const PERCUSSION = 9;
const VOICES_MAX = 100;
/** Of all voices together: a small file may have many voices, each as long as the longest. */
const ALL_MEASURES_MAX = 40_000;
/** Notes, those that sound over bar lines counted in each measure; of all voices together. */
const ALL_NOTES_MAX = 100_000;

/**
 * Reads a Standard MIDI File 1.0: one score with a voice for each track and channel that has notes, percussion last; of
 * format 2 a score for each track. Onsets and ends go to sixteenths or triplet eighths, whichever fits a beat better;
 * silence before the first note is left out, and what sounds before the first full measure is a pickup. Never throws.
 */
export function readMidi(bytes: Uint8Array): ScoresRead {
  const events = midiEvents(bytes);
  if ('refusal' in events) return nothingRead(events.refusal);
  const found = voicesOf(events);
  const voices = found.slice(0, VOICES_MAX);
  if (voices.length === 0) return nothingRead(say.noNotes);
  const most = Math.min(SCORE_MEASURES_MAX, Math.max(1, Math.floor(ALL_MEASURES_MAX / voices.length)));
  const budget = { left: ALL_NOTES_MAX };
  const scores =
    events.format === 2
      ? voices.map((voice) => scoreOf(events, [voice], { most, budget }))
      : [scoreOf(events, voices, { most, budget })];
  const beyond = say.tooManyVoices(found.length, VOICES_MAX);
  const warnings = found.length > VOICES_MAX ? [{ line: 1, column: 1, message: beyond }] : [];
  return { scores, warnings };
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
    const called = name ?? say.track(index + 1);
    return channels.map((channel) => ({
      name: channels.length > 1 ? say.channel(called, channel + 1) : called,
      notes: notes.filter((note) => note.channel === channel),
      isPercussion: channel === PERCUSSION,
    }));
  });
  return voices.toSorted((a, b) => Number(a.isPercussion) - Number(b.isPercussion));
}

/** `most` measures at most, and of notes what the budget has left. */
function scoreOf(
  events: MidiEvents,
  voices: readonly NamedNotes[],
  { most, budget }: { most: number; budget: { left: number } },
): Score {
  const warnings = new Warnings();
  const { division, meters, key, brokenOff, tracks } = events;
  const meter = mainMeter(meters, division);
  if (meters.length === 0) warnings.add(1, 1, say.noMeter('4/4'));
  if (brokenOff) warnings.add(1, 1, brokenOff);
  const grids = onTheGrid(voices, division, toNumber(scoreBeat(meter)) * 4 * division, warnings);
  const end = lastOf(grids);
  const written = barsOf(meters, { division, end, most });
  if ((written.at(-1)?.to ?? 0) < end) {
    warnings.add(1, 1, say.tooManyMeasures(most));
  }
  const pitched = grids.filter((_, index) => !voices[index]?.isPercussion);
  const first = firstOf(pitched.length > 0 ? pitched : grids);
  const bars = withoutSilence(written, meter, first, warnings);
  const isConductor = tracks[0]?.notes.length === 0;
  const score: Score = {
    number: null,
    title: isConductor || voices.length === 1 ? (tracks[0]?.name ?? null) : null,
    key: key && keyWords(key.sharps, key.isMinor ? 'minor' : 'major'),
    meter,
    tempo: tempoOf(events, scoreBeat(meter), first, warnings),
    tuning: null,
    capo: null,
    voices: voices.map(({ name }, index): ScoreVoice => ({
      name,
      measures: measuresOf(grids[index] ?? [], bars, budget),
    })),
    order: null,
    warnings: [],
  };
  if (budget.left <= 0) warnings.add(1, 1, say.tooManyNotes(ALL_NOTES_MAX));
  return { ...score, warnings: warnings.list() };
}

/**
 * The meter of the tune: the file's first, but for a first measure by itself that is shorter than those after it, which is
 * how programs write a pickup (common practice).
 */
function mainMeter(meters: MidiEvents['meters'], division: number): ScoreMeter {
  const [first, second, ...later] = meters.toSorted((a, b) => a.tick - b.tick);
  if (!first) return { count: 4, unit: 4 };
  const comesBack = later.some(({ count, unit }) => count === first.count && unit === first.unit);
  const shorter = second && first.count / first.unit < second.count / second.unit;
  const alone = second?.tick === (4 * division * first.count) / first.unit;
  const { count, unit } = shorter && alone && !comesBack ? second : first;
  return { count, unit };
}

function onTheGrid(
  voices: readonly NamedNotes[],
  division: number,
  beat: number,
  warnings: Warnings,
): GridNote[][] {
  let [most, count] = [0, 0];
  const grids = voices.map(({ notes }) => {
    const grid = quantised(notes, division, beat);
    count += grid.movedNotes;
    most = Math.max(most, grid.mostMoved);
    return grid.notes;
  });
  if (count > 0) {
    const share = Math.max(1, Math.round((100 * most) / division));
    warnings.add(1, 1, say.moved(count, share));
  }
  return grids;
}

/** Beats a minute where the first note sounds, to a hundredth; the tempos of a file that changes are told. */
function tempoOf({ tempos }: MidiEvents, beat: Rational, first: number, warnings: Warnings): number | null {
  const quarters = toNumber(multiply(beat, [4, 1]));
  const inBeats = (microseconds: number) =>
    Math.round((60_000_000 / Math.max(1, microseconds) / quarters) * 100) / 100;
  const inOrder = tempos.toSorted((a, b) => a.tick - b.tick);
  const kept = inOrder.findLast(({ tick }) => tick <= first) ?? inOrder[0];
  if (!kept) return null;
  const tempo = inBeats(kept.microseconds);
  const heard = [kept, ...inOrder.filter(({ tick }) => tick > first)].map((one) => inBeats(one.microseconds));
  const [least, greatest] = [Math.round(Math.min(...heard)), Math.round(Math.max(...heard))];
  if (least !== greatest) warnings.add(1, 1, say.tempoChanges(least, greatest, Math.round(tempo)));
  return tempo;
}

function firstOf(grids: readonly (readonly GridNote[])[]): number {
  return grids.reduce((first, [note]) => Math.min(first, note?.from ?? first), Infinity);
}

function lastOf(grids: readonly (readonly GridNote[])[]): number {
  let last = 0;
  for (const notes of grids) for (const { to } of notes) last = Math.max(last, to);
  return last;
}
