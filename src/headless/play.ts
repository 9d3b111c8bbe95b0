import type { Book } from '../lib/core/book/book';
import { BanjoVoice } from '../lib/core/pluck/banjo-voice';
import {
  HEARING_TEMPO_MAX,
  HEARING_TEMPO_MIN,
  hearingSegments,
  type Hearing,
} from '../lib/core/pluck/hearing';
import { SOUNDED } from '../lib/core/pluck/plucks';
import { tabMissing } from '../lib/core/pluck/tab-missing';
import { renderSegments, SoundRenderer } from '../lib/core/rhythm/sound-render';
import { wavBytes } from '../lib/core/rhythm/wav';
import type { Passage } from '../lib/core/tune/passage';
import { measureLabel, passageName } from '../lib/core/tune/passage-name';
import { firstLayer, boardPlaces, type Place } from '../lib/core/tune/places';
import type { Tune } from '../lib/core/tune/tune';
import { readBook } from './arguments';
import { readNumber, readOneOf, readOut, readWhole, writeOut } from './click';
import { Trouble } from './trouble';
import type { Verb } from './verbs';

const SAMPLE_RATES = [44_100, 48_000, 96_000];
const TIMES_MAX = 100;
/** Lets the last strings ring out. */
const TAIL_SEC = 1.5;

/** Writes a passage of a tune, or its whole form, as a WAVE file. */
export const play: Verb = (options) => {
  const out = readOut(options.out);
  const book = readBook(options.book);
  const tune = readTune(book, options.tune);
  const passage = readSpan(tune, options.from, options.to);
  const sampleRate = Number(readOneOf('rate', options.rate ?? '48000', SAMPLE_RATES.map(String)));
  const hearing = readHearing(tune, passage, options);
  const missing = tabMissing(tune, passage);
  if (missing?.isAll && options.click !== true) {
    throw new Trouble(
      `${passageName(tune, passage)} of ${tune.title} has no tab yet: only --click can be heard.`,
    );
  }
  const segments = hearingSegments(hearing);
  const renderer = new SoundRenderer(sampleRate, new BanjoVoice(sampleRate));
  const samples = renderSegments(segments, renderer, sampleRate, TAIL_SEC);
  writeOut(out, wavBytes(samples, sampleRate));
  return {
    ...{ out, sampleRate, seconds: samples.length / sampleRate },
    ...{ title: tune.title, passage: passageName(tune, passage), tempo: hearing.tempo },
    plucks: segments.reduce((sum, { plucks = [] }) => sum + plucks.length, 0),
    withoutTab: missing?.labels ?? [],
  };
};

function readHearing(tune: Tune, passage: Passage, options: Parameters<Verb>[0]): Hearing {
  const tempo = options.tempo ?? String(tune.goalTempo);
  return {
    tune,
    passage,
    tempo: readNumber('tempo', tempo, HEARING_TEMPO_MIN, HEARING_TEMPO_MAX),
    sounded: readOneOf('sound', options.sound ?? 'both', SOUNDED),
    pattern: options.click === true ? 'beat' : 'silent',
    countIn: readWhole('count-in', options['count-in'] ?? '0', 0, 2),
    passes: readWhole('times', options.times ?? '1', 1, TIMES_MAX),
    answers: options.answers === true,
  };
}

function readTune({ tunes }: Book, id: string | undefined): Tune {
  const kept = tunes.filter(({ deletedAt }) => deletedAt === null);
  const found = kept.find((tune) => tune.id === id);
  if (found) return found;
  const names = kept.map((tune) => `${tune.id} (${tune.title})`).join(', ');
  throw new Trouble(
    `Name a tune of the book by its id with --tune, ${names || 'it has none'}: saw ${id ?? 'nothing'}.`,
  );
}

/** From one measure to another of the same part, both included; the whole form where neither is named. */
function readSpan(tune: Tune, from: string | undefined, to: string | undefined): Passage {
  const layerId = firstLayer(tune).id;
  if (from === undefined && to === undefined) return { kind: 'tune', tuneId: tune.id, layerId };
  const last = to === undefined ? readPlace(tune, 'from', from ?? '') : readPlace(tune, 'to', to);
  const first = readPlace(tune, 'from', from ?? `${last.part}1`);
  if (first.part !== last.part || first.index > last.index) {
    throw new Trouble(
      `Name a span inside one part, from its earlier measure to its later: saw ${from} to ${to}.`,
    );
  }
  const [fromMeasureId, toMeasureId] = [first.measure.id, last.measure.id];
  return { kind: 'phrase', tuneId: tune.id, layerId, fromMeasureId, toMeasureId };
}

function readPlace(tune: Tune, option: string, label: string): Place {
  const places = boardPlaces(tune, firstLayer(tune).id);
  const found = places.find((place) => measureLabel(place).toLowerCase() === label.toLowerCase());
  if (found) return found;
  const spans = tune.parts.map(({ name, measures }) => `${name}1 to ${name}${measures.length}`).join(', ');
  throw new Trouble(`${tune.title} has the measures ${spans}: saw --${option} ${label || 'nothing'}.`);
}
