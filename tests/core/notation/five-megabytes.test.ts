import { expect, test } from 'vitest';
import { readNotationFile } from '../../../src/lib/core/notation/read-file';
import { heaps } from './five-megabytes';

/** The processor's time of this process in ms: what else runs on the machine does not count. */
function spentMs(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}

test.each(heaps)('five megabytes of $format: $what, are read or refused within 2 s', ({ bytes, name }) => {
  const source = bytes();
  const before = spentMs();
  const file = readNotationFile(source, name);
  const read = 'refusal' in file ? null : file.read(0, { meter: '2/4', voice: 0 });
  expect(spentMs() - before).toBeLessThan(2000);
  const sentences =
    'refusal' in file ? [file.refusal] : (read?.reading.warnings.map(({ message }) => message) ?? []);
  expect(sentences.length).toBeGreaterThan(0);
  for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/);
});
