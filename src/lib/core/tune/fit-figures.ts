import { firstOutside, type Meter } from '../rhythm/meter';
import { FITTED_BEATS_MAX } from './limits';
import type { Figure, Tune } from './tune';

/**
 * The tune with every measure as long as it was written, or longer where its tab needs it in the present meter. A merge can
 * bring together a meter changed on one device and tab written in the old meter on another, and an edit of the meter meets
 * tab of layers that the board does not show: the notes are kept, and the measure becomes a crooked one for as long as the
 * meter asks it.
 */
export function fitFigures(tune: Tune): Tune {
  const figures = tune.figures.map((figure) => fitFigure(figure, tune.meter));
  return figures.every((figure, index) => figure === tune.figures[index]) ? tune : { ...tune, figures };
}

/** The figure as its writer left it: the same whatever meter it has met since. */
export function asWritten(figure: Figure): Figure {
  const { writtenBeats, ...rest } = figure;
  return writtenBeats === undefined ? figure : { ...rest, beats: writtenBeats };
}

/** One figure of `fitFigures`; itself when it fits as it is. */
export function fitFigure(figure: Figure, meter: Meter): Figure {
  const written = asWritten(figure);
  const notes = [...(written.strikes ?? []), ...(written.melody ?? [])];
  let { beats } = written;
  while (beats < FITTED_BEATS_MAX && firstOutside(notes, meter, beats)) beats += 0.5;
  if (beats === figure.beats) return figure;
  return beats === written.beats ? written : { ...written, beats, writtenBeats: written.beats };
}
