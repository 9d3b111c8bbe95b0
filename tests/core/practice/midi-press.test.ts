import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MidiPresses } from '$lib/core/practice/midi-press';

/** The messages' bytes are those of the MIDI 1.0 Detailed Specification, tables 1 to 3 (from memory). */
describe('the presses in what a MIDI pedal sends', () => {
  const presses = (...messages: number[][]) => {
    const heard = new MidiPresses();
    return messages.map((message) => heard.isPress(message));
  };

  it('are a note struck, but not its end', () => {
    expect(presses([0x90, 60, 100], [0x90, 60, 0], [0x80, 60, 64], [0x9f, 36, 1])).toEqual([
      true,
      false,
      false,
      true,
    ]);
  });

  it('are a switch that goes on, however often it says so: controller 64 is the damper pedal', () => {
    expect(presses([0xb0, 64, 127], [0xb0, 64, 127], [0xb0, 64, 0], [0xb0, 64, 64])).toEqual([
      true,
      false,
      false,
      true,
    ]);
    expect(presses([0xb0, 64, 63])).toEqual([false]);
  });

  it('are once in a pedal that is pushed down slowly, on each channel and controller by itself', () => {
    const slowly = Array.from({ length: 128 }, (_, value) => [0xb0, 11, value]);
    expect(presses(...slowly).filter(Boolean)).toHaveLength(1);
    expect(presses([0xb0, 64, 127], [0xb1, 64, 127], [0xb0, 66, 127])).toEqual([true, true, true]);
  });

  it('are a program chosen, and neither clock, sensing, bend, pressure nor an empty message', () => {
    expect(presses([0xc0, 5])).toEqual([true]);
    expect(presses([0xf8], [0xfe], [0xe0, 0, 64], [0xd0, 90], [0xa0, 60, 90], [])).not.toContain(true);
  });

  it('never throw', () => {
    fc.assert(
      fc.property(fc.array(fc.uint8Array({ maxLength: 5 })), (messages) => {
        const heard = new MidiPresses();
        for (const message of messages) expect(typeof heard.isPress(message)).toBe('boolean');
      }),
    );
  });
});
