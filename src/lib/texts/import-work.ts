import { spoken } from './spoken';

/** Notation on its way into the book: why it cannot be read or added. */
export const say = spoken('importWork', {
  tooLarge: (megabytes: number) =>
    `This file is larger than ${megabytes} MB, more than any tunebook. It was not opened.`,
  nothingRead: 'Nothing in this tune could be read.',
  notAdded: (reason: string) => `Nothing was added: ${reason}`,
  someAdded: (added: number, all: number, reason: string) => `Only ${added} of ${all} were added: ${reason}`,
  tookTooLong: 'Reading this took too long, so it was given up. Nothing was added.',
  noReader: 'The reader could not be started.',
});
