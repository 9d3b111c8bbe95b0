import { spoken } from './spoken';

/** One tune: its head, its layers, what can be done with it, and the passage chosen on its board. */
export const say = spoken('tunePage', {
  page: (title: string | null) => `${title ?? 'Tune'} · Phrasewright`,
  back: '‹ Tunes',
  noTune: 'No such tune in this book.',
  tuneUp: (tuning: string) => `${tuning}: tune up`,
  capo: (fret: number) => `capo ${fret}`,
  /** Below the settled tempo. */
  nowGoal: (goal: number) => `now, goal ${goal}`,
  /** @param fresh how many are new in a layer; `null` in the first one */
  toLearn: (measures: number, figures: number, fresh: number | null) =>
    `${measures} ${measures === 1 ? 'measure' : 'measures'}, ${figures} to learn` +
    (fresh === null ? '' : `, ${fresh} new in this layer`),
  wholeTune: (form: string) => `The whole tune, ${form}`,
  write: 'Write this measure',
  /** @param beats with their noun */
  pickup: (beats: string) => `A pickup of ${beats}`,
  undo: 'Undo',
  same: 'Same measures',
  manage: 'This tune',

  deleted: 'Deleted: it is not planned and not listed. Its passes are still in the log.',
  bringBack: 'Bring it back',
  archived: 'Put away: it keeps its history and is not planned.',
  takeOut: 'Take out',
  edit: 'Edit',
  progress: 'Progress',
  putAway: 'Put away',
  delete: 'Delete',
  deleteAsked: (title: string) => `Delete “${title}”?`,
  deleteSafe: (figures: number, passes: number) =>
    `It goes from Tunes, Today and Progress, with its ${figures} ${figures === 1 ? 'figure' : 'figures'} and ${passes} ${passes === 1 ? 'pass' : 'passes'}. Settings can bring it back whole.`,
  deleteIt: 'Delete it',
  keepIt: 'Keep it',

  layer: 'Layer',
  addLayer: 'Add a layer',
  renameLayer: 'Rename it',
  removeLayer: 'Take it off',
  newLayerCalled: 'The new layer is called',
  layerCalled: 'This layer is called',
  layerBegins: (below: string) =>
    `It begins as ${below} stands. Only the measures that you change in it are new to learn.`,
  addIt: 'Add it',
  keepName: 'Keep the name',
  /** @param measures how many the layer changes */
  removeAsked: (layer: string, measures: number) => {
    const which =
      measures === 1 ? 'The measure that it changes goes' : `The ${measures} measures that it changes go`;
    const back = measures === 0 ? 'It changes no measure.' : `${which} back to the layer below.`;
    return `Take off “${layer}”? ${back} What was played stays in the log.`;
  },
  layerAdded: (layer: string) =>
    `The layer “${layer}” begins as the one below it. Choose a measure and write it anew.`,
  layerRenamed: (layer: string) => `The layer is called “${layer}” now.`,
  layerRemoved: (layer: string) => `The layer “${layer}” is off. What was played in it stays in the log.`,
});
