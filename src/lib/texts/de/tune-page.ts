import { plural } from '../figures';
import type { say } from '../tune-page';

export const tunePage: typeof say = {
  page: (title) => `${title ?? 'Stück'} · Phrasewright`,
  back: '‹ Stücke',
  noTune: 'Dieses Stück gibt es in diesem Buch nicht.',
  tuneUp: (tuning) => `${tuning}: Banjo stimmen`,
  capo: (fret) => `Kapodaster ${fret}`,
  nowGoal: (goal) => `jetzt, Ziel ${goal}`,
  toLearn: (measures, figures, fresh) =>
    `${plural(measures, { one: '1 Takt', other: `${measures} Takte` })}, davon ${figures} zu lernen` +
    (fresh === null ? '' : `, ${fresh} neu in dieser Fassung`),
  wholeTune: (form) => `Das ganze Stück, ${form}`,
  write: 'Diesen Takt schreiben',
  pickup: (beats) => `Auftakt: ${beats}`,
  undo: 'Rückgängig',
  same: 'Gleiche Takte',
  manage: 'Dieses Stück',

  deleted:
    'Gelöscht: Es wird nicht eingeplant und nicht aufgeführt. Seine Durchgänge sind weiter aufgezeichnet.',
  bringBack: 'Zurückholen',
  archived: 'Weggelegt: Es behält seinen Verlauf und wird nicht eingeplant.',
  takeOut: 'Hervorholen',
  edit: 'Bearbeiten',
  progress: 'Fortschritt',
  putAway: 'Weglegen',
  delete: 'Löschen',
  deleteAsked: (title) => `„${title}“ löschen?`,
  deleteSafe: (figures, passes) => {
    const known = plural(figures, { one: 'seiner einen Figur', other: `seinen ${figures} Figuren` });
    const played = plural(passes, { one: '1 Durchgang', other: `${passes} Durchgängen` });
    return `Es verschwindet aus „Stücke“, „Heute“ und „Fortschritt“, mit ${known} und ${played}. In den Einstellungen kannst du es vollständig zurückholen.`;
  },
  deleteIt: 'Löschen',
  keepIt: 'Behalten',

  layer: 'Fassung',
  addLayer: 'Neue Fassung',
  renameLayer: 'Umbenennen',
  removeLayer: 'Wegnehmen',
  newLayerCalled: 'Die neue Fassung heißt',
  layerCalled: 'Diese Fassung heißt',
  layerBegins: (below) =>
    `Sie beginnt so, wie „${below}“ jetzt ist. Neu zu lernen sind nur die Takte, die du in ihr änderst.`,
  addIt: 'Hinzufügen',
  keepName: 'Namen behalten',
  removeAsked: (layer, measures) => {
    const which = plural(measures, {
      one: 'Der Takt, den sie ändert, wird wieder wie',
      other: `Die ${measures} Takte, die sie ändert, werden wieder wie`,
    });
    const back = measures === 0 ? 'Sie ändert keinen Takt.' : `${which} in der Fassung darunter.`;
    return `„${layer}“ wegnehmen? ${back} Was gespielt wurde, bleibt aufgezeichnet.`;
  },
  layerAdded: (layer) =>
    `Die Fassung „${layer}“ beginnt wie die darunter. Wähle einen Takt und schreib ihn neu.`,
  layerRenamed: (layer) => `Die Fassung heißt jetzt „${layer}“.`,
  layerRemoved: (layer) =>
    `Die Fassung „${layer}“ ist weggenommen. Was in ihr gespielt wurde, bleibt aufgezeichnet.`,
};
