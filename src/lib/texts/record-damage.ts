import { spoken } from './spoken';

/** What in a tune, a sitting or a setting does not fit together, to stand after its place and a colon. */
export const say = spoken('recordDamage', {
  formNamesPart: (form: string, part: string) => `${form} names part ${part}, which the tune does not have`,
  partTwice: (part: string) => `two parts are called ${part}`,
  measureTwice: (id: string) => `measure ${id} stands twice`,
  layerTwice: (id: string) => `layer ${id} stands twice`,
  firstLayerChanges: 'the first layer is the measures as they stand, and changes none',
  figureTwice: (id: string) => `figure ${id} stands twice`,
  figureGone: (id: string) => `figure ${id} is named by a measure, and is not there`,
  measureGone: (id: string) => `measure ${id} is changed by a layer, and is not there`,
  noteOutsideMeasure: (onset: string) => `a note at ${onset} is outside the measure`,
  notFitted: (beats: number, written?: number) =>
    written === undefined
      ? `${beats} beats are too many`
      : `its notes do not need ${beats} beats instead of the ${written} that were written`,
  noteOutsidePickup: (onset: string) => `a note at ${onset} is outside the pickup`,
  longPickup: (beats: number) => `${beats} is a measure or more`,

  strayDrill: (id: string) => `drill ${id} belongs to another sitting`,
  drillGone: (id: string, drillId: string) => `record ${id} names drill ${drillId}, which is not there`,
  passGone: (id: string) => `correction ${id} is of a pass that is not there`,

  /** Of a setting; `wanted` is one of `values`, what it may be. */
  notValue: (value: string, wanted: string) => `${value} is not ${wanted}`,
  values: {
    whole: (min: number, max: number) => `a whole number from ${min} to ${max}`,
    within: (min: number, max: number) => `a number from ${min} to ${max}`,
    yesOrNo: 'true or false',
    oneOf: (words: string) => `one of ${words}`,
    tuning: (min: number, max: number) => `five pitches from ${min} to ${max}, or null`,
    silentMeasures: (most: number) => `{ on, off } in measures from 1 to ${most}, or null`,
  },
});
