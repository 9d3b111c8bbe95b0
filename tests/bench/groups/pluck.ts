import { readFileSync } from 'node:fs';
import { PitchDetector } from 'pitchy';
import { readBackup } from '../../../src/lib/core/book/backup';
import { Banjo } from '../../../src/lib/core/pluck/banjo';
import { BanjoVoice } from '../../../src/lib/core/pluck/banjo-voice';
import { hearingSegments } from '../../../src/lib/core/pluck/hearing';
import type { PluckCue } from '../../../src/lib/core/rhythm/pluck-cue';
import { renderSegments, SoundRenderer } from '../../../src/lib/core/rhythm/sound-render';
import { firstLayer } from '../../../src/lib/core/tune/places';
import { COMMON_TUNINGS, frequencyHz, soundingPitch } from '../../../src/lib/core/tune/tuning';
import { cents, frequencyNear, peak, stretch } from '../../core/pluck/sound-measures';
import type { Figure } from '../figure';

const RATES = [44_100, 48_000];
const CAPOS = [0, 1, 2, 3, 4, 5];

interface Note {
  string: PluckCue['string'];
  pitch: number;
}

/** Every string of every common tuning, under every usual capo, at every fret up to 12; each sound once. */
function notes(): Note[] {
  const found = new Map<string, Note>();
  for (const { tuning } of COMMON_TUNINGS)
    for (const capo of CAPOS)
      for (const string of [1, 2, 3, 4, 5] as const)
        for (let fret = 0; fret <= 12; fret++) {
          const pitch = soundingPitch({ tuning, capo, spike: capo }, string, fret);
          found.set(`${string}:${pitch}`, { string, pitch });
        }
  return [...found.values()];
}

function soundOf(note: Note, rate: number): Float32Array {
  const banjo = new Banjo(rate);
  const output = new Float32Array(Math.round(0.45 * rate));
  banjo.touch(note);
  banjo.render(output, 0, output.length);
  return output;
}

/** The median of five windows: now and then the detector takes two periods for one. */
function detected(samples: Float32Array, rate: number): number {
  const detector = PitchDetector.forFloat32Array(8192);
  const found = [0, 1, 2, 3, 4].map((index) => {
    const from = Math.round(0.03 * rate) + index * 1500;
    return detector.findPitch(samples.subarray(from, from + 8192), rate)[0];
  });
  return found.sort((a, b) => a - b)[2] ?? NaN;
}

/** A loop of whole samples and half a one for the averaging filter: the algorithm before its extensions. */
function wholeSampleCents(pitch: number, rate: number): number {
  const hz = frequencyHz(pitch);
  return Math.abs(cents(rate / (Math.round(rate / hz - 0.5) + 0.5), hz));
}

function* tuningFigures(): Iterable<Figure> {
  const all = notes();
  console.error(`${all.length} different sounds`);
  for (const rate of RATES) {
    let [byPhase, byDetector, plain] = [0, 0, 0];
    for (const note of all) {
      const hz = frequencyHz(note.pitch);
      const samples = soundOf(note, rate);
      const phase = cents(frequencyNear(stretch(samples, 0.05, 0.4, rate), hz, rate), hz);
      byPhase = Math.max(byPhase, Math.abs(phase));
      byDetector = Math.max(byDetector, Math.abs(cents(detected(samples, rate), hz)));
      plain = Math.max(plain, wholeSampleCents(note.pitch, rate));
    }
    const common = { unit: 'cents', better: 'lower', target: 1 } as const;
    const reference = { name: 'the loop of whole samples (Karplus & Strong 1983), computed', value: plain };
    yield { figure: `pluck-worst-cents-${rate}`, value: byPhase, ...common, reference };
    yield { figure: `pluck-worst-cents-by-pitchy-${rate}`, value: byDetector, ...common };
  }
}

/** Seconds of the processor for one second of sound, the least of three runs: other programs take turns with this one. */
function renderSeconds(click: boolean): { perSecond: number; loudest: number } {
  const reading = readBackup(readFileSync('sample-data/demo-book.json', 'utf8'));
  const tune = reading.ok ? reading.book.tunes.find(({ title }) => title === 'Old Joe Clark') : undefined;
  if (!tune) throw new Error('The demo book has no Old Joe Clark');
  const segments = hearingSegments({
    ...{ tune, passage: { kind: 'tune', tuneId: tune.id, layerId: firstLayer(tune).id } as const },
    ...({ tempo: 112, sounded: 'both', pattern: click ? 'down-stroke' : 'silent' } as const),
    ...{ countIn: 0, passes: 2, answers: false },
  });
  let best = Infinity;
  let loudest = 0;
  for (let run = 0; run < 3; run++) {
    const before = process.cpuUsage();
    const samples = renderSegments(segments, new SoundRenderer(48_000, new BanjoVoice(48_000)), 48_000);
    const used = process.cpuUsage(before);
    best = Math.min(best, (used.user + used.system) / 1e6 / (samples.length / 48_000));
    loudest = peak(samples);
  }
  return { perSecond: best, loudest };
}

export async function* measure(): AsyncIterable<Figure> {
  yield* tuningFigures();
  const string = renderSeconds(false);
  const both = renderSeconds(true);
  yield { figure: 'pluck-faster-than-real-time', value: 1 / string.perSecond, unit: 'x', better: 'higher' };
  yield {
    figure: 'pluck-and-click-faster-than-real-time',
    ...{ value: 1 / both.perSecond, unit: 'x', better: 'higher' },
  };
  yield {
    figure: 'pluck-and-click-share-of-one-core',
    ...{ value: both.perSecond * 100, unit: '% of one core', better: 'lower' },
  };
  yield await Promise.resolve({
    figure: 'pluck-loudest-in-a-tune',
    ...{ value: 20 * Math.log10(string.loudest), unit: 'dB of full scale', better: 'lower', target: -3 },
  } as const);
}
