import type { say } from '../record-damage';

export const recordDamage: typeof say = {
  formNamesPart: (form, part) => `${form} nennt Teil ${part}, den das Stück nicht hat`,
  partTwice: (part) => `zwei Teile heißen ${part}`,
  measureTwice: (id) => `Takt ${id} steht zweimal da`,
  layerTwice: (id) => `Fassung ${id} steht zweimal da`,
  firstLayerChanges: 'die erste Fassung besteht aus den Takten, wie sie dastehen, und ändert keinen',
  figureTwice: (id) => `Figur ${id} steht zweimal da`,
  figureGone: (id) => `Figur ${id} wird von einem Takt genannt und ist nicht da`,
  measureGone: (id) => `Takt ${id} wird von einer Fassung geändert und ist nicht da`,
  noteOutsideMeasure: (onset) => `ein Ton bei ${onset} liegt außerhalb des Taktes`,
  notFitted: (beats, written) =>
    written === undefined
      ? `${beats} Schläge sind zu viele`
      : `seine Töne brauchen nicht ${beats} Schläge statt der ${written}, die geschrieben wurden`,
  noteOutsidePickup: (onset) => `ein Ton bei ${onset} liegt außerhalb des Auftakts`,
  longPickup: (beats) => `${beats} ist ein ganzer Takt oder mehr`,

  strayDrill: (id) => `Übung ${id} gehört zu einer anderen Sitzung`,
  drillGone: (id, drillId) => `Datensatz ${id} nennt Übung ${drillId}, die nicht da ist`,
  passGone: (id) => `Korrektur ${id} gilt einem Durchgang, der nicht da ist`,

  notValue: (value, wanted) => `${value} passt hier nicht; erwartet: ${wanted}`,
  values: {
    whole: (min, max) => `eine ganze Zahl von ${min} bis ${max}`,
    within: (min, max) => `eine Zahl von ${min} bis ${max}`,
    yesOrNo: 'true oder false',
    oneOf: (words) => `eines von ${words}`,
    tuning: (min, max) => `fünf Tonhöhen von ${min} bis ${max}, oder null`,
    silentMeasures: (most) => `{ on, off } in Takten von 1 bis ${most}, oder null`,
  },
};
