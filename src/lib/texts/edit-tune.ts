import { spoken } from './spoken';

/** A tune that is edited as a whole. */
export const say = spoken('editTune', {
  page: (title: string | null) => `Edit ${title ?? 'a tune'} · Phrasewright`,
  back: '‹ Back',
  heading: 'Edit',
  noTune: 'No such tune in this book.',
  passesLeft: (count: number) =>
    `${count} passes were played on measures that this edit takes off the board.`,
  passesLeftSafe:
    'They stay in the log and in every backup, but count for nothing until the measures are back.',
  keepEdit: 'Keep the edit',
  startOver: 'Start over',
  keep: 'Keep the changes',
  /** Small, in two lines. */
  keepPasses: 'passes stay',
  keepPlaces: 'on their measures',
  /** @param why a sentence */
  notKept: (why: string) => `The changes were not kept: ${why}`,
});
