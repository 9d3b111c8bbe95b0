import { expect, test } from 'vitest';
import { sayNudge, saySilentMeasures, saySwing, sayVolume, speakVolume } from '$lib/ui/sound/sound-words';

test('every step of the slider has a word, the ends their own', () => {
  const words = Array.from({ length: 21 }, (_, step) => sayVolume(step / 20));
  expect(words[0]).toBe('off');
  expect(words.indexOf('off', 1)).toBe(-1);
  expect(words.indexOf('full')).toBe(20);
  expect([...new Set(words)]).toEqual(['off', 'faint', 'soft', 'medium', 'strong', 'full']);
});

test('volume, swing, nudge and silent bars are said as a person would', () => {
  expect([0, 0.7].map(speakVolume)).toEqual(['off', 'medium, 14 of 20']);
  expect([1, 1.5, 1.05 + 0.05 * 7, 2].map(saySwing)).toEqual(['straight', '1.5 to 1', '1.4 to 1', '2 to 1']);
  expect([0, 120, -40].map(sayNudge)).toEqual(['not moved', '120 ms later', '40 ms earlier']);
  expect(saySilentMeasures({ on: 1, off: 1 })).toMatch(/^One measure sounds, one is silent,/);
  expect(saySilentMeasures({ on: 3, off: 2 })).toMatch(/^3 measures sound, 2 are silent,/);
});
