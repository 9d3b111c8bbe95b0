import { spoken } from './spoken';

/** What keeps a tune, or a list of titles, from being kept, and what to do about it. */
export const say = spoken('tuneDraft', {
  noTitle: 'Give the tune a title.',
  titleTooLong: (most: number) => `Keep the title under ${most + 1} letters.`,
  noForm: (most: number) =>
    `Write the form as the parts are played, in capital letters: AABB (up to ${most}).`,
  noMeasures: (part: string) => `The form plays part ${part}, which has no measures.`,
  notPlayed: (part: string) => `Part ${part} has measures but the form never plays it.`,
  measures: (part: string, most: number) => `Part ${part} needs 1 to ${most} measures.`,
  goal: (least: number, most: number) => `Choose a goal between ${least} and ${most} beats a minute.`,
  pickup: (beats: number) => `A pickup is shorter than a measure: under ${beats} beats.`,

  titleInListTooLong: (start: string, letters: number, most: number) =>
    `“${start}…” has ${letters} letters: a title has at most ${most}. One title a line.`,
  tooManyTitles: (found: number, most: number) =>
    `These are ${found} titles. At most ${most} are added in one go.`,
});
