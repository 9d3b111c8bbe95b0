import { expect, test } from 'vitest';
import { readNotationFile } from '../../../src/lib/core/notation/read-file';
import { heaps } from './five-megabytes';

// a hang is stopped by the runner's own limit; `npm run bench -- bad-input` measures against the two seconds
test.each(heaps)('five megabytes of $format: $what, are read or refused in sentences', ({ bytes, name }) => {
  const file = readNotationFile(bytes(), name);
  const read = 'refusal' in file ? null : file.read(0, { meter: '2/4', voice: 0 });
  const sentences =
    'refusal' in file ? [file.refusal] : (read?.reading.warnings.map(({ message }) => message) ?? []);
  expect(sentences.length).toBeGreaterThan(0);
  for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/);
});
