import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isMuch, MUCH, sayUnsaved, tunesSince } from '../../../src/lib/core/book/backup-due';
import { SMALL_BOOK } from './made-up-books';

describe('what would be lost with this device', () => {
  const [tune] = SMALL_BOOK.tunes;
  if (!tune) throw new Error('The small book has no tune');
  const own = { ...tune, origin: 'own' as const, deletedAt: null };

  it('is spoken of once it is much, whatever it is made of, and not again until as much has come to it', () => {
    const count = fc.nat({ max: 200 });
    fc.assert(
      fc.property(count, count, count, (sittings, tunes, hushedAt) => {
        const unsaved = { sittings, tunes, hasBackup: true };
        expect(isMuch(unsaved, 0)).toBe(sittings + tunes >= MUCH);
        expect(isMuch(unsaved, hushedAt)).toBe(sittings + tunes - hushedAt >= MUCH);
      }),
    );
  });

  it('is said by how much it is, not by the calendar', () => {
    expect(sayUnsaved({ sittings: 23, tunes: 0, hasBackup: true })).toBe('23 sittings since the last backup');
    expect(sayUnsaved({ sittings: 1, tunes: 2, hasBackup: true })).toBe(
      '1 sitting and 2 tunes since the last backup',
    );
    expect(sayUnsaved({ sittings: 1200, tunes: 0, hasBackup: false })).toBe(
      '1,200 sittings in no backup yet',
    );
    expect(sayUnsaved({ sittings: 0, tunes: 0, hasBackup: false })).toBe(null);
  });

  it('counts own tunes: all that are there without a backup, those with an edit after it', () => {
    const last = Math.max(own.editedAt, ...own.figures.map(({ editedAt }) => editedAt));
    expect(tunesSince([own, { ...own, origin: 'demo' }, { ...own, deletedAt: last }], null)).toBe(1);
    const after = last + 1_000_000;
    expect(tunesSince([own], after)).toBe(0);
    expect(tunesSince([{ ...own, editedAt: after + 1 }], after)).toBe(1);
    expect(tunesSince([{ ...own, deletedAt: after + 1 }], after)).toBe(1);
    const [figure, ...others] = own.figures;
    const edited = figure ? [{ ...figure, editedAt: after + 1 }, ...others] : [];
    expect(tunesSince([{ ...own, figures: edited }], after)).toBe(1);
  });
});
